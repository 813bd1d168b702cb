"""Going on after a jam: plates of one kind from a number on, in a folder within the job's."""

from dataclasses import replace
from pathlib import Path
from typing import Any

from addressing.faults import Exit, Fault
from addressing.feeding import in_order
from addressing.files import alone_in, remove
from addressing.job.hinting import command_line
from addressing.job.live import is_live
from addressing.job.manifest import MANIFEST, manifest_of, old_files
from addressing.job.parting import run_of, to_print
from addressing.job.plates import Made, Tell, make_plates
from addressing.job.reading import Reading
from addressing.job.remembering import HOUSEHOLDS
from addressing.job.set_kinds import SetKind
from addressing.ledger import fingerprint
from addressing.where import Where

GOING_ON = "from"
"""The beginning of the folder of each continuation within the job's: from-057-outer."""

Numbered = dict[int, tuple[str, str]]
"""The household and the fingerprint of each envelope, by its number in the order of print."""


def go_on(reading: Reading, folder: Path, kind: str, number: int, tell: Tell) -> Made:
    """Plates of a kind's envelopes from `number` on, numbered and proved as the job's own are.

    The job's own plates stay as they are. Of kinds beside each other on their sheets it is made
    alone, with the others' places empty: each has numbers of its own; a front has its back.

    Raises:
        Fault: as `make_plates`; the job has no plates of that kind, or they would be others now, so
            that a number may mean another envelope (exit 3); there is no such number (exit 2).
    """
    then = _as_made(folder, kind)
    again = command_line("plates", reading.sources[0], docket=_docket(reading), folder=folder)
    own = next((each for each in reading.kinds if each.kind == kind), None)
    if own is None or not then:
        raise Fault(
            Exit.INPUT,
            "plates-missing",
            f"{folder} has no numbered plates of the kind {kind} to go on from.",
            f"Make them first: {again}",
            Where(str(folder)),
        )
    sides = own.shared if own.sheets and own.sheets.turn else ()
    together = tuple(each for each in reading.kinds if each.kind in (kind, *sides))
    if _as_now(reading, own) != then:
        raise Fault(
            Exit.INPUT,
            "plates-stale",
            f"The {kind} plates would be others now: a number may mean another envelope than on"
            " the slips.",
            f"Make all of them again: {again}. For what is printed already there is `reprint`.",
            Where(str(folder)),
        )
    if number > len(then):
        raise Fault(
            Exit.OPTIONS,
            "number-unknown",
            f"There is no {kind} number {number}: the last is {len(then)}.",
            "The numbers stand on the batch slips and on the job sheet.",
        )
    place = folder / f"{GOING_ON}-{number:03d}-{kind}"
    return make_plates(replace(reading, kinds=together, start=number), place, tell)


def drop_continuations(folder: Path) -> None:
    """Take away the continuations of plates that were made anew: their numbers are the old ones.

    Only what their own manifests name goes.

    Raises:
        Fault: a file can't be taken away, or another run is at work there (exit 4).
    """
    for place in sorted(folder.glob(f"{GOING_ON}-*")):
        if manifest_of(place) is None:
            continue
        with alone_in(place):
            for name in (*old_files(place), MANIFEST, HOUSEHOLDS):
                remove(place / name)
        for left in (place / "plates", place):
            if left.is_dir() and not any(left.iterdir()):
                left.rmdir()


def _docket(reading: Reading) -> Path | None:
    return Path(reading.docket.path) if reading.docket.path is not None else None


def _as_made(folder: Path, kind: str) -> Numbered:
    """What the job's plates of a kind carry, by number; nothing where there are none."""
    content: dict[str, Any] = manifest_of(folder) or {"files": []}
    numbered: Numbered = {}
    for file in content["files"]:
        if file["kind"] == kind and file["households"] and file.get("first"):
            pages = list(zip(file["households"], file["prints"], strict=True))
            for at, page in enumerate(pages[::-1] if file["reverse"] else pages):
                if page[1]:  # another ink's plate has the others
                    numbered[file["first"] + at] = page
    return numbered


def _as_now(reading: Reading, kind: SetKind) -> Numbered:
    """What they would carry if they were made now."""
    setting, live = to_print(kind.setting, reading.off_plates), is_live(reading)
    whole = replace(run_of(reading), first=1, reverse=False)
    return {
        number: (piece.household, fingerprint(setting, piece, live=live))
        for number, piece in enumerate(in_order(setting.pieces, whole), start=1)
        if piece.household is not None
    }
