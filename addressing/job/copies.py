"""Spoiled copies of what is the same for all: counted by their kind, since they bear no name."""

from pathlib import Path

from addressing.faults import Exit, Fault
from addressing.job.counting import count_job
from addressing.job.ledger_kept import noting, refuse_lost
from addressing.job.manifest import manifest_of
from addressing.job.reading import Reading
from addressing.ledger import open_ledger
from addressing.records.prints import Copies
from addressing.where import Where


def same_for_all(place: Path) -> frozenset[str]:
    """The kinds of a folder's plates that bear nobody's name."""
    files = (manifest_of(place) or {"files": []})["files"]
    return frozenset(f["kind"] for f in files if f.get("ink") and not f["households"])


def spoil_copies(folder: Path, kind: str, copies: int) -> int:
    """Note so many more spoiled copies (negative: so many fewer); all that were spoiled.

    Raises:
        Fault: the folder has no such plate that is the same for all (exit 2); the ledger is
            another job's, or lacks what was noted in it (exit 3).
    """
    kinds = same_for_all(folder)
    if kind not in kinds:
        there = " and ".join(sorted(kinds))
        raise Fault(
            Exit.OPTIONS,
            "not-copies",
            f"{folder} has no plate of {kind} that is the same for all.",
            f"Copies can be counted of {there}: name it with --kind."
            if there
            else "Name households, or their prints, instead of --copies.",
            Where(str(folder)),
        )
    refuse_lost(folder)
    with open_ledger(folder) as ledger, noting(folder, ledger):
        return ledger.spoil_copies(kind, copies)


def spoiled_copies(reading: Reading, spoiled: tuple[tuple[str, int], ...]) -> tuple[Copies, ...]:
    """What the spoiled copies of each kind leave of those that were printed, overs and all."""
    counts = {count.kind: count for count in count_job(reading)}
    return tuple(
        Copies(kind, counts[kind].needed + counts[kind].overs, many, counts[kind].needed)
        for kind, many in spoiled
        if kind in counts
    )
