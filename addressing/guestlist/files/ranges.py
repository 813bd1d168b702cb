"""Names of cells and ranges as a sheet's parts write them."""

import re
from functools import lru_cache

from addressing.guestlist.files.markup import BrokenPartError

LAST_ROW, LAST_COLUMN = 1_048_576, 16_384

_FIGURES, _LONGEST_NUMBER = "0123456789", 7
_LETTERS = re.compile(r"[A-Za-z]{1,3}")
_CORNER = re.compile(r"([A-Za-z]{0,3})([0-9]{0,7})")


def place(name: str) -> tuple[int, int]:
    """Column and row of a cell's name, both from 1.

    Raises:
        BrokenPartError: it is no cell's name.
    """
    letters = name.rstrip(_FIGURES)
    figures = name[len(letters) :]
    if not 0 < len(figures) <= _LONGEST_NUMBER or not _is_column(letters):
        message = f"no cell: {name}"
        raise BrokenPartError(message)
    return column_number(letters), int(figures)


@lru_cache(maxsize=1024)  # asked for each cell, and mostly of the same few
def _is_column(letters: str) -> bool:
    return _LETTERS.fullmatch(letters) is not None


@lru_cache(maxsize=1024)
def column_number(letters: str) -> int:
    """The number of a column by its letters.

    >>> column_number("A"), column_number("XFD")
    (1, 16384)
    """
    number = 0
    for letter in letters.upper():
        number = number * 26 + ord(letter) - 64
    return number


def box(reference: str) -> tuple[int, int, int, int]:
    """Left, top, right and bottom of a range; "A:C" is whole columns, "2:5" whole rows.

    >>> box("B2:D5"), box("A:B")
    ((2, 2, 4, 5), (1, 1, 2, 1048576))
    """
    corners = [_CORNER.fullmatch(part) for part in reference.replace("$", "").split(":")]
    known = [corner for corner in corners if corner and corner[0]]
    if not known:
        message = f"no range: {reference}"
        raise BrokenPartError(message)
    columns = [column_number(c[1]) if c[1] else end for c in known for end in (1, LAST_COLUMN)]
    rows = [int(c[2]) if c[2] else end for c in known for end in (1, LAST_ROW)]
    return min(columns), min(rows), min(max(columns), LAST_COLUMN), min(max(rows), LAST_ROW)
