"""Who has which number on a list, for a sheet beside it that speaks of them by number ("#12")."""

import re
from collections.abc import Iterable, Mapping

from addressing.guestlist.folding import fold
from addressing.guestlist.grid import Grid, Row
from addressing.guestlist.tables.header_rows import LOOKED_AT, header_place, header_texts
from addressing.guestlist.tables.meanings import exact_meaning, signs
from addressing.guestlist.tables.meanings import fold as header

_NAMES = ("given", "name", "family")
_NUMBER = re.compile(r"\d+[a-z]?")
_REFERS = re.compile(r"#?\s*\d+[A-Za-z]?(?:\s*(?:[,+&/]|and|und|et)\s*#?\s*\d+[A-Za-z]?)*")


def names_by_number(grids: Iterable[Grid]) -> dict[str, str]:
    """The names of each row of the lists by its number; a number that two rows have is left out."""
    found: dict[str, str] = {}
    twice: set[str] = set()
    for grid in grids:
        place = None if grid.hidden else header_place(grid, {})
        texts = header_texts(grid, place) if place is not None else []
        column = number_column(texts)
        meanings = [hit.meaning if (hit := exact_meaning(text)) else "" for text in texts]
        names = [at for at, meaning in enumerate(meanings) if meaning in _NAMES]
        if place is None or column is None or not names:
            continue
        for row in grid.rows[place + 1 :]:
            key = fold(_text(row, column))
            said = " ".join(text for at in names if (text := _text(row, at)))
            if _NUMBER.fullmatch(key) and said:
                twice |= {key} & found.keys()
                found[key] = re.sub(r"\.(?=\s)", "", said)  # "Maj. Colin" would end a sentence
    return {key: said for key, said in found.items() if key not in twice}


def number_column(headers: Iterable[str]) -> int | None:
    """The column under a header that says nothing but that a number stands there."""
    known = signs("number-sign")
    return next((at for at, text in enumerate(headers) if header(text) in known), None)


def head_of(grid: Grid) -> int | None:
    """The place of a header among the first rows with such a column; None without one."""
    for place, row in enumerate(grid.rows[:LOOKED_AT]):
        texts = [cell.text if cell is not None else "" for cell in row.cells]
        if len(row.filled) > 1 and number_column(texts) is not None:
            return place
    return None


def with_names(text: str, called: Mapping[str, str]) -> str:
    """A number with whom it means behind it; another text, and a number of nobody, as it is.

    >>> with_names("12 + 13", {"12": "Odile Penhew", "13": "Wren Lorne"})
    '#12 Odile Penhew and #13 Wren Lorne'
    """
    if _REFERS.fullmatch(text.strip()) is None:
        return text
    numbers = re.findall(r"\d+[A-Za-z]?", text)
    if any(fold(number) not in called for number in numbers):
        return text
    return " and ".join(f"#{number} {called[fold(number)]}" for number in numbers)


def _text(row: Row, index: int) -> str:
    cell = row.cell(index)
    return " ".join(cell.text.split()) if cell is not None else ""
