"""A stuffing list held against the plates: do number and name of each envelope stand there?"""

import unicodedata
from collections.abc import Iterable, Iterator
from pathlib import Path

from addressing.job.recorded import listed
from addressing.preflight import words_of
from addressing.records.kept import KeptJob
from addressing.records.plates import PlateOrder

OUTER = "outer"
"""The kind of piece that is stuffed."""
_LATIN = "\u0250"
"""Where the letters end that a reader of the sheet gives back as they were written."""


def in_piles(orders: Iterable[PlateOrder]) -> Iterator[tuple[int, str]]:
    """The outers of plates of one ink as their piles lie: (number in the order of print, key)."""
    outers = list(orders)
    for order in (each for each in outers if each.ink == outers[0].ink):
        keys = [key for key in order.households if key is not None]
        yield from enumerate(keys[::-1] if order.reverse else keys, order.first)


def stuffing_faults(path: Path, kept: KeptJob) -> Iterator[str]:
    """What a stuffing list, a sheet or text, says otherwise than the plates, in sentences.

    Held are numbers and names in the order of print; where each goes and what is in it aren't.
    """
    data = path.read_bytes()
    is_sheet = path.suffix.lower() == ".pdf"
    told = plain(words_of(data) if is_sheet else data.decode("utf-8", "replace"))
    outers = [each for each in kept.orders if each.order.kind == OUTER]
    names = {piece.household: piece.name for each in outers for piece in each.pieces}
    at, missing = 0, []
    for number, key in in_piles(each.order for each in outers):
        if not is_read_back(names[key]):
            continue
        row = f"{number}{plain(names[key])}"
        found = told.find(row, at)
        if found < 0:
            missing.append(f"no. {number}, {names[key]}")
        else:
            at = found + len(row)
    if missing:
        yield f"It doesn't have in their places: {listed(missing)}."


def is_read_back(words: str) -> bool:
    """Whether a reader of sheets gives words back as they were written."""
    return max(words, default="") < _LATIN


def plain(words: str) -> str:
    """Letters and figures alone, folded: lines break anywhere, a hyphen at their end is lost."""
    folded = unicodedata.normalize("NFKC", words).casefold()
    return "".join(letter for letter in folded if letter.isalnum())
