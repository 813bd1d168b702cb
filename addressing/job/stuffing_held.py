"""A stuffing list held against the plates: do number and name of each envelope stand there?"""

import unicodedata
from collections.abc import Iterable, Iterator
from pathlib import Path

from addressing.faults import Fault
from addressing.guestlist.files.kinds import read_grids
from addressing.guestlist.files.opening import open_list
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
    """What a stuffing list (sheet, text, workbook) says otherwise than the plates, in sentences.

    Held are numbers and names in the order of print; where each goes and what is in it aren't.
    """
    try:
        told = plain(_told(path))
    except Fault:
        yield "It can't be read as a workbook."
        return
    outers = [each for each in kept.orders if each.order.kind == OUTER]
    names = {piece.household: piece.name for each in outers for piece in each.pieces}
    at, missing = 0, []
    for number, key in in_piles(each.order for each in outers):
        if not is_read_back(names[key]):
            continue
        row = f"{number}{plain(names[key])}"
        found = told.find(row, at)
        if found < 0:
            missing.append(f"print {number}, {names[key]}")
        else:
            at = found + len(row)
    if missing:
        yield f"It doesn't have in their places: {listed(missing)}."


def _told(path: Path) -> str:
    """All words of a stuffing list, row by row.

    Raises:
        Fault: it should be a workbook and is none (exit 3).
    """
    match path.suffix.lower():
        case ".pdf":
            return words_of(path.read_bytes())
        case ".xlsx":
            grids, *_ = read_grids(open_list(path))
            cells = (cell for grid in grids for row in grid.rows for cell in row.cells)
            return " ".join(cell.text for cell in cells if cell is not None)
        case _:
            return path.read_bytes().decode("utf-8", "replace")


def is_read_back(words: str) -> bool:
    """Whether a reader of sheets gives words back as they were written."""
    return max(words, default="") < _LATIN


def plain(words: str) -> str:
    """Letters and figures alone, folded: lines break anywhere, a hyphen at their end is lost."""
    folded = unicodedata.normalize("NFKC", words).casefold()
    return "".join(letter for letter in folded if letter.isalnum())
