"""Where a word comes from: file, sheet, cell.

Every word that is printed can be followed back to the cells that it was read from, so this
record is small, ordered and known to every room.
"""

from dataclasses import dataclass
from functools import lru_cache


@dataclass(frozen=True, slots=True, order=True)
class Where:
    """A place in the client's file; `cell` is as a spreadsheet would call it ("C14").

    A text file has no sheet. `cell` is None when the whole sheet or file is meant. What comes
    from the docket has the cell "docket:" and the key ("docket:hosts.street").
    """

    file: str
    sheet: str | None = None
    cell: str | None = None

    def __str__(self) -> str:
        """The place as people name it: `Guests!C14`, or `C14` in a text file."""
        parts = [part for part in (self.sheet, self.cell) if part]
        return "!".join(parts) if parts else self.file


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
