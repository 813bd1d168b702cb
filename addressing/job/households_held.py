"""What a folder remembers of its households, held against the plates that lie there."""

from collections.abc import Iterator
from pathlib import Path

from addressing.faults import Fault
from addressing.job.hinting import listed
from addressing.job.printing import REPRINT
from addressing.job.remembering import HOUSEHOLDS, known_households
from addressing.records.kept import KeptJob
from addressing.records.pieces import household_of

_MENDING = (
    "Put this job's own back from a copy: without it an answer or a print may not be found again"
    " for whoever is spelled otherwise in the next list."
)


def households_told(folder: Path, kept: KeptJob) -> Iterator[str]:
    """What is wrong with what a folder remembers of its households, with how to mend it.

    A reprint remembers none: its job does.
    """
    if folder.absolute().name.startswith(REPRINT) or kept.origin is None:
        return
    path = folder / HOUSEHOLDS
    try:
        known = {home.key for home in known_households(folder)}
    except Fault as fault:
        yield f"{fault.text} {fault.mend}"
        return
    names = {piece.household: piece.name for each in kept.orders for piece in each.pieces}
    strange = [name for key, name in names.items() if key and household_of(key) not in known]
    if not strange:
        return
    if not path.exists():
        yield f"{path} isn't there any more: it has the keys of households. {_MENDING}"
        return
    whose = listed(list(dict.fromkeys(strange)))
    text = f"{path} doesn't have {whose} as on these plates: it is another job's, or older."
    yield f"{text} {_MENDING}"
