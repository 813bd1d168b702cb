"""Where a word comes from: file, sheet, cell.

Every word that is printed can be followed back to the cells that it was read from, so this
record is small, ordered and known to every room.
"""

import re
from collections.abc import Iterable
from functools import lru_cache, total_ordering
from operator import attrgetter
from sys import intern
from typing import Self

RowOf = tuple[str, str | None, int | None]
"""File, sheet and number of a row, which all of its cells share; without a number, no row."""

_CELL = re.compile(r"([A-Z]{1,3})([1-9][0-9]{0,6})")


@total_ordering
class Where:
    """A place in the client's file; `cell` is as a spreadsheet would call it ("C14").

    A text file has no sheet. `cell` is None when the whole sheet or file is meant. What comes
    from the docket has the cell "docket:" and the key ("docket:hosts.street").

    A long list has a million of them, so a place is the letters of its column and what its row
    shares (measured: half of what three fields and a name for each cell would take).
    """

    __slots__ = ("_column", "_row")

    def __init__(self, file: str, sheet: str | None = None, cell: str | None = None) -> None:
        """The three make the place; it can't be changed later."""
        found = _CELL.fullmatch(cell) if cell else None
        self._row: RowOf = (file, sheet, int(found[2]) if found else None)
        self._column = intern(found[1]) if found else cell

    @classmethod
    def in_row(cls, row: RowOf, column: str | None) -> Self:
        """The cell of a row in a column by its letters; rows and columns may be shared."""
        made = cls.__new__(cls)
        made._row, made._column = row, column  # noqa: SLF001 - its own
        return made

    @property
    def file(self) -> str:
        """The file's name."""
        return self._row[0]

    @property
    def sheet(self) -> str | None:
        """The sheet's name."""
        return self._row[1]

    @property
    def cell(self) -> str | None:
        """The cell's name."""
        number = self._row[2]
        return self._column if number is None else f"{self._column}{number}"

    @property
    def row(self) -> int | None:
        """The number of its row, from 1; None where it is no cell of a sheet."""
        return self._row[2]

    def at(self, cell: str) -> "Where":
        """Another cell of the same sheet."""
        return Where(self.file, self.sheet, cell)

    def __str__(self) -> str:
        """The place as people name it: `Guests!C14`, or `C14` in a text file."""
        parts = [part for part in (self.sheet, self.cell) if part]
        return "!".join(parts) if parts else self.file

    def __repr__(self) -> str:
        """As it is made."""
        return f"Where(file={self.file!r}, sheet={self.sheet!r}, cell={self.cell!r})"

    def __eq__(self, other: object) -> bool:
        """Equal in all three."""
        if not isinstance(other, Where):
            return NotImplemented
        return self._column == other._column and self._row == other._row

    def __lt__(self, other: "Where") -> bool:
        """By file, sheet and cell, as words."""
        return (self.file, self.sheet, self.cell) < (other.file, other.sheet, other.cell)

    def __hash__(self) -> int:
        """By all three."""
        return hash((self._row, self._column))

    def __reduce__(self) -> tuple[object, ...]:
        """What a second process hands over: rows and columns once for all their cells."""
        return _in_row, (self._row, self._column)

    @classmethod
    def __get_pydantic_core_schema__(cls, source: object, handler: object) -> dict[str, object]:
        """For the orders that are kept as JSON: these have no places."""
        return {"type": "is-instance", "cls": cls}


_in_row = Where.in_row
"""One and the same for all places: made anew for each, it would be handed over with each."""
_column_of = attrgetter("_column")


def together(groups: Iterable[tuple[Where, ...]]) -> tuple[Where, ...]:
    """The places of several words, each once, in order.

    >>> together(((Where("a.csv", None, "B2"),), (Where("a.csv", None, "B2"),)))
    (Where(file='a.csv', sheet=None, cell='B2'),)
    """
    places: tuple[Where, ...] = sum(groups, ())  # of few groups: half of what a chain takes
    if len(set(map(_column_of, places))) == len(places):
        return places
    return tuple(dict.fromkeys(places))


@lru_cache(maxsize=1024)
def column_letters(column: int) -> str:
    """The spreadsheet's name of a column; 1 is A.

    >>> column_letters(1), column_letters(27), column_letters(702)
    ('A', 'AA', 'ZZ')
    """
    letters = ""
    while column > 0:
        column, rest = divmod(column - 1, 26)
        letters = chr(65 + rest) + letters
    return letters


def cell_name(column: int, row: int) -> str:
    """The spreadsheet's name of a cell; both numbers count from 1.

    >>> cell_name(3, 14)
    'C14'
    """
    return f"{column_letters(column)}{row}"


def is_listed(place: Where) -> bool:
    """True for a place in a list or an answer that somebody has before them, no key of a docket."""
    cell = place.cell or ""
    return not cell.startswith("docket:") and place.file != "--set"
