"""Sheets that hold nothing but a key to the marks and colours of the others: "Key", "Legend"."""

from collections.abc import Iterable

from addressing.guestlist.grid import Grid
from addressing.guestlist.people.vocabulary import row_words
from addressing.guestlist.tables.colour_keys import is_colour_key
from addressing.guestlist.tables.contents import kind_of
from addressing.guestlist.tables.key_lines import key_lines
from addressing.guestlist.tables.mark_keys import is_mark_key
from addressing.guestlist.tables.meanings import fold

_MOST = 0.5
"""The part of a sheet's lines that explain something, above which it is a key by any name."""
_ADDRESSED = frozenset(("street", "place", "address", "postcode"))


def named_as_key(grid: Grid) -> bool:
    """True for a sheet whose name or first words say that it explains the list.

    >>> named_as_key(Grid("list.xlsx", "Guests", ()))
    False
    """
    rows = [row for row in grid.rows if row.filled]
    titles = (grid.sheet or "", rows[0].filled[0].text) if rows else ()
    kinds = ("legend", "legend-sheet")
    known = [f" {word} " for kind in kinds for word in row_words(kind)]
    return any(word in f" {fold(title)} " for title in titles for word in known)


def key_sheets(grids: Iterable[Grid]) -> tuple[Grid, ...]:
    """The sheets of a workbook that explain the others, by their name or by most of their lines."""
    return tuple(
        grid
        for grid in grids
        if grid.rows and grid.sheet and not grid.meanings and not _lists_homes(grid)
        if named_as_key(grid) or _explains(grid)
    )


def _lists_homes(grid: Grid) -> bool:
    return any(kind_of(cell) in _ADDRESSED for row in grid.rows for cell in row.filled)


def _explains(grid: Grid) -> bool:
    lines = [line.text for line in key_lines(grid, alone=True)]
    keys = sum(is_colour_key(line) or is_mark_key(line) for line in lines)
    return keys > len(lines) * _MOST
