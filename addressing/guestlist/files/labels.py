"""Reads sheets of labels and printed directories: each household a block of lines in a column.

No row is a household there. Labels stand side by side, in two columns or more; a directory has one
column of names with their addresses below, and beside it letters to find them by, telephones, or
a remark on the household.
"""

import re
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import groupby

from addressing.guestlist.files.blocks import NAME, NOTES, Slots
from addressing.guestlist.files.entries import is_somebody
from addressing.guestlist.files.mail_lines import Line, is_name, is_place
from addressing.guestlist.files.mail_text import NOT_READ, Text
from addressing.guestlist.files.pasted import (
    MailRead,
    Origin,
    as_grid,
    lines_of,
    origin_of,
    too_long,
)
from addressing.guestlist.files.stretches import heard
from addressing.guestlist.grid import Cell, Grid, Row
from addressing.guestlist.people.cell import read_people
from addressing.guestlist.tables.contents import kind_of_text
from addressing.guestlist.tables.meanings import exact_meaning

_LEAST = 2
"""Households, or headers in a row that make it the header of a table."""
_NEARLY_ALL, _MOST = 0.8, 0.6
"""The share of lines that must belong to households, and of these that must have a town; `_MOST`
where labels stand in rows: blocks of several columns begin beside each other."""
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
        if any(map(_is_placed, found.households)):
            parts.append((origin_of(grid, column), found))
        else:
            beside.append(column)
    if not _are_labels(parts, _MOST if _in_rows(grid) else _NEARLY_ALL):
        return None
    for origin, found in parts:
        _take_named(found, lines_of(grid, origin.column))
    remarks = list(_beside(grid, beside, parts))
    if remarks and not _are_remarks(remarks, parts):
        return None
    _leave_headings(grid, beside, parts)
    labels, repairs = as_grid(parts)
    return (_with_remarks(labels, remarks, parts),), repairs


def _has_header(grid: Grid) -> bool:
    return any(
        sum(exact_meaning(text) is not None for _, text in row.texts) >= _LEAST
        for row in grid.rows[:_LOOKED_AT]
    )


def _are_labels(parts: Sequence[tuple[Origin, Text]], least: float) -> bool:
    """True when at least this share of the lines are households', and of these have a town."""
    homes = [home for _, found in parts for home in found.households]
    noted = sum(len(home.get(NOTES, ())) for _, home in homes)
    used = sum(found.used for _, found in parts) + noted
    enough = len(homes) >= _LEAST and used >= sum(found.lines for _, found in parts) * least
    return enough and sum(map(_is_placed, homes)) >= len(homes) * least


def _in_rows(grid: Grid) -> bool:
    """True where blocks of lines, a blank row between, begin beside each other in most rows."""
    begins: Counter[int] = Counter()
    above: dict[int, int] = {}
    for row in grid.rows:
        for column, _ in row.texts:
            if above.get(column) != row.number - 1:
                begins[row.number] += 1
            above[column] = row.number
    beside = sum(count > 1 for count in begins.values())
    return beside >= _LEAST and beside > len(begins) / 2


def _take_named(found: Text, lines: Sequence[Line]) -> None:
    """A block that begins with a name and gives no address is a household with words beside it."""
    unread = {line.number for line, why in found.unused if why == NOT_READ}
    for _, group in groupby(lines, lambda line: bool(line.text)):
        block = [line for line in group if line.text]
        own = {line.number for line in block}
        if not block or not own <= unread or not _names_somebody(block[0].text):
            continue
        slots: Slots = {NAME: block[:1], **({NOTES: block[1:]} if block[1:] else {})}
        found.take(block[0].number, slots)
        found.unused = [each for each in found.unused if each[0].number not in own]
        found.told = [said for said in found.told if any(s.number not in own for s in said)]
    found.households.sort(key=lambda home: home[0])


def _names_somebody(text: str) -> bool:
    return is_name(text) and (is_somebody(text) or read_people(text).family is not None)


def _is_placed(home: tuple[int, Slots]) -> bool:
    """True for the lines of a label: more than one, one of them a town's."""
    texts = [line.text for held in home[1].values() for line in held]
    return len(texts) > 1 and any(map(is_place, texts))


def _beside(
    grid: Grid, columns: Sequence[int], parts: Sequence[tuple[Origin, Text]]
) -> Iterator[tuple[int, Cell]]:
    """What stands beside the labels, and in which row: no letters, telephones, mail addresses.

    What stands above the first label is a title.
    """
    first = min(number for _, found in parts for number, _ in found.households)
    for row in grid.rows:
        for index, text in row.texts:
            sign = _TAB.fullmatch(text) or kind_of_text(text) in ("phone", "email")
            cell = row.cell(index)
            if index in columns and row.number >= first and not sign and cell is not None:
                yield row.number, cell


def _are_remarks(remarks: Sequence[tuple[int, Cell]], parts: Sequence[tuple[Origin, Text]]) -> bool:
    """True for remarks beside one column of labels, each beside a household of several rows.

    A household has one at most: what stands beside each of its lines is a column of a table.
    """
    if len(parts) > 1:
        return False
    spans = [span for _, span in _spans(parts[0][1]) if span.start + 1 < span.stop]
    beside = [[number in span for span in spans] for number, _ in remarks]
    return all(map(any, beside)) and all(sum(column) <= 1 for column in zip(*beside, strict=True))


def _spans(found: Text) -> Iterator[tuple[int, range]]:
    """The number of each household's first row, and its rows."""
    for number, slots in found.households:
        last = max(line.number for held in slots.values() for line in held)
        yield number, range(number, last + 1)


def _with_remarks(
    labels: Grid, remarks: Sequence[tuple[int, Cell]], parts: Sequence[tuple[Origin, Text]]
) -> Grid:
    """The labels with a column more: what is remarked beside each."""
    if not remarks:
        return labels
    of = {
        home: cell
        for home, span in _spans(parts[0][1])
        for number, cell in remarks
        if number in span
    }
    taken = sum(meaning == NOTES[0] for meaning, _ in labels.meanings)
    width = len(labels.meanings)
    rows = tuple(_beside_it(row, width, of.get(row.number)) for row in labels.rows)
    return replace(labels, rows=rows, meanings=(*labels.meanings, (NOTES[0], taken + 1)))


def _beside_it(row: Row, width: int, cell: Cell | None) -> Row:
    cells = tuple(row.cells)
    return replace(row, cells=(*cells, *(None,) * (width - len(cells)), cell))


def _leave_headings(
    grid: Grid, columns: Sequence[int], parts: Sequence[tuple[Origin, Text]]
) -> None:
    """List the rows that hold nothing but such signs as not used."""
    for row in grid.rows:
        if all(index in columns for index, _ in row.texts):
            parts[0][1].leave([Line(row.number, "")], _HEADING)
