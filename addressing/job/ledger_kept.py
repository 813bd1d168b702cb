"""How many prints a job's ledger has, noted in its manifest: so a ledger that is lost is told."""

from pathlib import Path

from addressing.faults import Exit, Fault
from addressing.files import alone_in, write_text
from addressing.job.manifest import MANIFEST, manifest_of, printed_kept, with_printed
from addressing.ledger import LEDGER, Ledger, open_ledger
from addressing.where import Where


def keep_count(folder: Path, ledger: Ledger) -> None:
    """Note in the folder's manifest how many prints the ledger has, within its own change.

    Raises:
        Fault: it can't be written, or another run is at work there (exit 4).
    """
    content = manifest_of(folder)
    if content is not None:
        with alone_in(folder):
            write_text(folder / MANIFEST, with_printed(content, len(ledger.prints())))


def lost_prints(folder: Path) -> str:
    """A sentence on a ledger that has fewer prints than were noted in it; "" where it has all."""
    noted = printed_kept(folder)
    path = folder / LEDGER
    there = 0
    if noted and path.exists():
        with open_ledger(folder) as ledger:
            there = len(ledger.prints())
    if there >= noted:
        return ""
    were = f"{noted} prints were noted in it" if noted != 1 else "a print was noted in it"
    if not path.exists():
        return f"{path} isn't there any more, and {were}: what is on paper isn't known."
    has = f"has {there} of them" if there else "is empty"
    return f"{path} {has}, and {were}: it is an older copy, or was emptied."


MENDING = (
    "Put its copy back. If there is none, note again what is on paper: `addressing printed LIST`,"
    " a reprint with --reprint, then what was spoiled."
)
"""How a ledger that is lost is mended."""


def refuse_lost(folder: Path) -> None:
    """Keep a ledger that is lost from passing for one in which nothing was ever printed.

    Raises:
        Fault: it has fewer prints than were noted in it (exit 3).
    """
    if text := lost_prints(folder):
        raise Fault(Exit.INPUT, "ledger-lost", text, MENDING, Where(str(folder / LEDGER)))
