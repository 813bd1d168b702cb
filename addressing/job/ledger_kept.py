"""What a job keeps of its ledger elsewhere: so one that is lost, older or another's is told."""

import contextlib
from collections.abc import Iterator
from pathlib import Path

from addressing.faults import Exit, Fault
from addressing.files import Together, alone_in
from addressing.job.manifest import MANIFEST, ledger_noted, manifest_of, with_ledger
from addressing.job.remembering import HOUSEHOLDS, with_ledger_beside
from addressing.ledger import LEDGER, Ledger, open_ledger
from addressing.records.prints import LedgerNoted
from addressing.where import Where

MENDING = (
    "Put its copy back. If there is none, note again what is on paper: `addressing printed LIST`,"
    " a reprint with --reprint, then what was spoiled."
)
"""How a ledger that is lost is mended."""

_ITS_OWN = (
    "Put this job's own copy back, and until then take out and destroy nothing by it. If there is"
    " none, move this file away and note again what is on paper: `addressing printed LIST`, a"
    " reprint with --reprint, then what was spoiled."
)
"""How a ledger that isn't the job's own is mended."""


@contextlib.contextmanager
def noting(folder: Path, ledger: Ledger) -> Iterator[None]:
    """One change of a folder's ledger, noted in its manifest and beside the households.

    All are kept or none.

    Raises:
        Fault: one can't be written, or another run is at work there (exit 4).
    """
    with ledger.at_once():
        yield
        content = manifest_of(folder)
        if content is not None:
            noted = LedgerNoted(len(ledger.prints()), ledger.history())
            told = {MANIFEST: with_ledger(content, noted)}
            if beside := with_ledger_beside(folder, noted):
                told[HOUSEHOLDS] = beside
            with alone_in(folder), Together() as together:
                for name, text in told.items():
                    working = together.working(folder / name)
                    working.write_text(text, encoding="utf-8", newline="\n")


def lost_prints(folder: Path) -> str:
    """A sentence on a ledger that lacks what was noted in it; "" where it has all."""
    noted = ledger_noted(folder)
    path = folder / LEDGER
    there, changes = 0, 0
    if path.exists() and (noted.prints or noted.history):
        with open_ledger(folder) as ledger:
            there, changes = len(ledger.prints()), len(ledger.history())
    if there < noted.prints:
        return _fewer(path, there, noted.prints)
    if changes >= len(noted.history):
        return ""
    if not path.exists():
        return f"{path} isn't there any more: what was spoiled isn't known."
    since = len(noted.history) - changes
    lacks = "the last change that was" if since == 1 else f"the last {since} changes that were"
    return f"{path} is an older copy: it lacks {lacks} noted in it, as of spoiled prints."


def _fewer(path: Path, there: int, noted: int) -> str:
    were = f"{noted} prints were noted in it" if noted != 1 else "a print was noted in it"
    if not path.exists():
        return f"{path} isn't there any more, and {were}: what is on paper isn't known."
    has = f"has {there} of them" if there else "is empty"
    return f"{path} {has}, and {were}: it is an older copy, or was emptied."


def _strange(folder: Path) -> str:
    """A sentence on a ledger that isn't the job's, or that another program changed; "" if sound."""
    path = folder / LEDGER
    if not path.exists():
        return ""
    noted = ledger_noted(folder).history
    with open_ledger(folder) as ledger:
        history, as_left = ledger.history(), ledger.is_as_left()
    if any(ours != its for ours, its in zip(noted, history, strict=False)):
        return f"{path} isn't the ledger that was kept here: it is another job's or computer's."
    if not as_left:
        return f"{path} isn't as this program wrote it: another program changed it."
    return ""


def ledger_told(folder: Path) -> str:
    """What is wrong with a folder's ledger and how that is mended; "" where nothing is."""
    if text := _strange(folder):
        return f"{text} {_ITS_OWN}"
    return f"{text} {MENDING}" if (text := lost_prints(folder)) else ""


def refuse_strange(folder: Path) -> None:
    """Keep a ledger that isn't the job's own from being believed or gone on with.

    Raises:
        Fault: it is another job's, or another program changed it (exit 3).
    """
    if text := _strange(folder):
        raise Fault(
            Exit.INPUT, "ledger-of-another-job", text, _ITS_OWN, Where(str(folder / LEDGER))
        )


def refuse_lost(folder: Path) -> None:
    """Keep a ledger that is lost from passing for one in which nothing was ever printed.

    Raises:
        Fault: it lacks what was noted in it, or isn't the job's own (exit 3).
    """
    refuse_strange(folder)
    if text := lost_prints(folder):
        raise Fault(Exit.INPUT, "ledger-lost", text, MENDING, Where(str(folder / LEDGER)))
