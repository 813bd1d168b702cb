"""Reads sheets of labels and printed directories: each household a block of lines in a column.

No row is a household there. Labels stand side by side, in two columns or more; a directory has one
column of names with their addresses below, and beside it letters to find them by, or telephones.
"""

import re
from collections.abc import Sequence

from addressing.guestlist.files.mail_lines import Line, is_place
from addressing.guestlist.files.mail_text import Text
from addressing.guestlist.files.pasted import (
    MailRead,
    Origin,
    as_grid,
    lines_of,
    origin_of,
    too_long,
)
from addressing.guestlist.files.stretches import heard
from addressing.guestlist.grid import Grid
from addressing.guestlist.tables.contents import kind_of_text
from addressing.guestlist.tables.meanings import exact_meaning

_LEAST = 2
"""Households, or headers in a row that make it the header of a table."""
_NEARLY_ALL = 0.8
"""The share of a column's lines that must belong to its households."""
_LOOKED_AT = 20
_TAB = re.compile(r"[^\W\d_](?:\s*[-–]\s*[^\W\d_])?|#")
_HEADING = "a heading of the labels"


def read_labels(grid: Grid) -> MailRead | None:
    """The households of a sheet of labels as a grid with known columns; None for another sheet."""
    columns = sorted({index for row in grid.rows for index, _ in row.texts})
    if len(columns) < _LEAST or _has_header(grid):
        return None
    parts: list[tuple[Origin, Text]] = []
    beside: list[int] = []
    for column in columns:
        lines = lines_of(grid, column)
        found = heard(lines) if not too_long(lines) else Text()
        if found.households:
            parts.append((origin_of(grid, column), found))
        else:
            beside.append(column)
    if not _are_labels(parts) or not _only_signs(grid, beside, parts):
        return None
    _leave_headings(grid, beside, parts)
    labels, repairs = as_grid(parts)
    return (labels,), repairs


def _has_header(grid: Grid) -> bool:
    return any(
        sum(exact_meaning(text) is not None for _, text in row.texts) >= _LEAST
        for row in grid.rows[:_LOOKED_AT]
    )


def _are_labels(parts: Sequence[tuple[Origin, Text]]) -> bool:
    """True when nearly all lines are households', nearly all of whom have a town below."""
    homes = [
        [line.text for held in slots.values() for line in held]
        for _, found in parts
        for _, slots in found.households
    ]
    used, lines = (sum(found.used for _, found in parts), sum(found.lines for _, found in parts))
    enough = len(homes) >= _LEAST and used >= lines * _NEARLY_ALL
    return enough and sum(map(_is_placed, homes)) >= len(homes) * _NEARLY_ALL


def _is_placed(texts: Sequence[str]) -> bool:
    """True for the lines of a label: more than one, one of them a town's."""
    return len(texts) > 1 and any(map(is_place, texts))


def _only_signs(grid: Grid, columns: Sequence[int], parts: Sequence[tuple[Origin, Text]]) -> bool:
    """True when the other columns hold letters, telephones and mail addresses, below any title."""
    first = min(number for _, found in parts for number, _ in found.households)
    return all(
        row.number < first or _TAB.fullmatch(text) or kind_of_text(text) in ("phone", "email")
        for row in grid.rows
        for index, text in row.texts
        if index in columns
    )


def _leave_headings(
    grid: Grid, columns: Sequence[int], parts: Sequence[tuple[Origin, Text]]
) -> None:
    """List the rows that hold nothing but such signs as not used."""
    for row in grid.rows:
        if all(index in columns for index, _ in row.texts):
            parts[0][1].leave([Line(row.number, "")], _HEADING)
