"""Finds the tables on the sheets: where a header stands, what its columns mean, which rows count.

Non-empty rows below the headers of the tables read = rows handed on + rows not used.
"""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import partial

from rapidfuzz import fuzz, process

from addressing.faults import Exit, Fault
from addressing.guestlist.grid import Cell, Column, Grid, Row, Table
from addressing.guestlist.tables.addresses_beside import with_addresses, with_new_addresses
from addressing.guestlist.tables.blocks_aside import without_blocks
from addressing.guestlist.tables.children_beside import with_children
from addressing.guestlist.tables.claims import ADDRESSES, NAMES
from addressing.guestlist.tables.codes import crosses_of_rounds, odd_codes
from addressing.guestlist.tables.colour_keys import is_keys, with_colour_keys
from addressing.guestlist.tables.columns import read_columns
from addressing.guestlist.tables.header_rows import (
    LOOKED_AT,
    cut,
    header_place,
    header_texts,
    later_headers,
    looks_like_data,
    repeats,
    side_by_side,
)
from addressing.guestlist.tables.headings import heading_of, headings_noted, says_side
from addressing.guestlist.tables.key_sheets import key_sheets
from addressing.guestlist.tables.keyed_notes import with_keyed_notes
from addressing.guestlist.tables.labelled import by_labels
from addressing.guestlist.tables.legends import legend_sheet, with_codes_told, without_legend
from addressing.guestlist.tables.mark_keys import with_mark_keys
from addressing.guestlist.tables.meanings import Hit, fold, read_pins
from addressing.guestlist.tables.numbered import row_numbers
from addressing.guestlist.tables.on_side import on_side, turned
from addressing.guestlist.tables.open_headings import heads_others, open_headings
from addressing.guestlist.tables.sheets import (
    aside,
    hidden_sheet,
    is_aside,
    is_overview,
    is_tidied,
    not_read,
    overview,
    pins_not_needed,
    rows_above,
    with_rounds,
    without_repeats,
)
from addressing.guestlist.tables.title_codes import title_codes
from addressing.guestlist.tables.totals import HEADING, REMARK, is_said_beside, why_no_guest
from addressing.guestlist.tables.unfollowed import unfollowed
from addressing.records.findings import Finding
from addressing.records.guests import Cited, UnusedRow
from addressing.where import Where, cell_name, column_letters

_LETTER = re.compile(r"[^\W\d_]")
_NEAR = 60

Found = tuple[tuple[Table, ...], tuple[UnusedRow, ...], tuple[Finding, ...]]


@dataclass(slots=True)
class _Search:
    """What is gathered from sheet to sheet."""

    pins: Mapping[str, Hit]
    tables: list[Table] = field(default_factory=list)
    unused: list[UnusedRow] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)
    headers: set[str] = field(default_factory=set)
    keys: tuple[Grid, ...] = ()
    """The sheets that explain the marks and colours of the others."""


def find_tables(grids: Sequence[Grid], pinned: Mapping[str, str]) -> Found:
    """The tables that hold guests, the rows below their headers that don't, and what is doubtful.

    `pinned` is the docket's [columns]: a header as it stands in the list (or, in a list without
    a header, a column's letters) and its meaning, one of `meanings()` or "partner_given" and so on.
    A tidied list needs none.

    Raises:
        Fault: exit 3; `name-column-missing`, `list-empty` (a header without rows),
            `column-not-found` and `column-meaning-unknown` for the docket's pins.
    """
    file = grids[0].file if grids else ""
    search = _Search({})
    if pinned and is_tidied(grids):
        search.findings.append(pins_not_needed(file))
        pinned = {}
    search.pins = read_pins(pinned, file)
    _search_grids(search, grids)
    _check_pins(search, pinned, file)
    if not search.tables:
        raise _no_names(grids)
    tables, repeats = without_repeats(search.tables)
    if not any(table.rows for table in search.tables) and not search.unused:
        table = search.tables[0]
        mend = "Ask for the list again: it may not have been copied whole."
        text = f"{file} has a header and no guests below it."
        raise Fault(Exit.INPUT, "list-empty", text, mend, Where(file, table.sheet))
    sheets = {table.sheet for table in tables}
    again = [
        UnusedRow(table.sheet, number, "part of a table that names guests again")
        for table in search.tables
        if table not in tables and table.sheet in sheets
        for number in (table.header_row, *(row.number for row in table.rows))
    ]
    unused = (*(row for row in search.unused if row.sheet in sheets), *again)
    families, young = with_children(tables)
    updated, moved = with_new_addresses(families)
    placed, homes, asked = with_addresses(updated)
    joined, notes = with_keyed_notes(tuple(with_rounds(placed)))
    return joined, (*unused, *young, *moved, *homes, *notes), (*search.findings, *repeats, *asked)


def _search_grids(search: _Search, grids: Sequence[Grid]) -> None:
    shown = [grid for grid in grids if grid.rows and not grid.hidden]
    left = {id(grid) for grid in shown if is_aside(grid)}
    left = left if len(left) < len(shown) else set()  # somebody must be invited
    alone = len(shown) - len(left) == 1
    search.keys = key_sheets(shown) if len(shown) > 1 else ()
    for grid in grids:
        search.unused.extend(grid.unused)
        if grid.hidden:
            search.headers.update(_texts(grid))
            if grid.rows:
                search.findings.append(hidden_sheet(grid))
        elif id(grid) in left:
            search.headers.update(_texts(grid))
            search.findings.append(aside(grid))
        elif is_overview(grid):
            search.findings.append(overview(grid))
        elif grid.rows:
            _search_grid(search, grid, alone=alone)


def _texts(grid: Grid) -> Iterable[str]:
    return (fold(cell.text) for row in grid.rows[:LOOKED_AT] for cell in row.filled)


def _search_grid(search: _Search, grid: Grid, *, alone: bool) -> None:
    if grid.meanings:
        _take(search, grid, known_table(grid), ())
        return
    upright = turned(grid)
    if upright is not None:
        search.findings.append(on_side(grid))
        grid = upright
    start = header_place(grid, search.pins)
    if start is None:
        table, findings = _headless(search, grid)
        meanings = {column.meaning for column in table.columns}
        if meanings & NAMES and (meanings & ADDRESSES or alone):
            _take(search, grid, table, findings)
        else:
            search.findings.append(legend_sheet(grid) or not_read(grid))
        return
    grid = by_labels(grid, start, search.pins)
    above = [row for row in grid.rows[:start] if looks_like_data(row) and not is_keys(row)]
    if above:
        search.findings.append(rows_above(above))
    places = [start, *later_headers(grid, start)]
    taken = [_take_segment(search, grid, place, end) for place, end in _segments(grid, places)]
    if not any(taken):
        search.findings.append(legend_sheet(grid) or not_read(grid))


def _segments(grid: Grid, places: list[int]) -> list[tuple[int, int]]:
    return list(zip(places, [*places[1:], len(grid.rows)], strict=True))


def _take_segment(search: _Search, grid: Grid, place: int, end: int) -> bool:
    """Read one header and the rows below it; False when it has no column of names."""
    headers = header_texts(grid, place)
    search.headers.update(fold(text) for text in headers if text)
    rows = list(grid.rows[place + 1 : end])
    if end < len(grid.rows):
        rows = _without_title(search, grid, rows)
    parts = side_by_side(headers, rows)
    if len(parts) == 1:
        return _take_part(search, grid, place, headers, rows)
    taken = [
        _take_part(
            search,
            grid,
            place,
            [text if index in columns else "" for index, text in enumerate(headers)],
            [part for row in rows if (part := cut(row, columns)) is not None],
        )
        for columns in parts
    ]
    return any(taken)


def _take_part(
    search: _Search, grid: Grid, place: int, headers: Sequence[str], rows: Sequence[Row]
) -> bool:
    """Read the columns under their headers and keep the table, if it has a column of names."""
    header = grid.rows[place]
    columns, findings = read_columns(grid, header.number, headers, rows, search.pins)
    if not _names_anybody(columns, rows):
        if place != header_place(grid, search.pins):
            search.unused.extend(
                UnusedRow(grid.sheet, row.number, "part of a table without names")
                for row in (header, *rows)
            )
        return False
    headings = _over(grid, place)
    table = Table(
        grid.file, grid.sheet, header.number, columns, tuple(rows), headings=headings
    )  # fmt: skip
    _take(search, grid, table, findings)
    return True


def _names_anybody(columns: Sequence[Column], rows: Sequence[Row]) -> bool:
    """True with a column of names, save where all headers stand over numbers: those are counts."""
    if not {column.meaning for column in columns} & NAMES:
        return False
    headed = [column.index for column in columns if column.header]
    texts = [text for row in rows for at in headed if (text := row.text(at))]
    return not texts or any(_LETTER.search(text) for text in texts)


def _take(search: _Search, grid: Grid, table: Table, findings: Iterable[Finding]) -> None:
    """Keep a table with the rows that can hold guests, and account for the others."""
    colours = partial(with_colour_keys, grid, search.keys)
    marks = partial(with_mark_keys, grid, search.keys)
    for without in (colours, marks, without_legend, without_blocks):
        table, left, told = without(table)
        search.unused.extend(left)
        search.findings.extend(told)
    numbers = grid.numbers or row_numbers(table.columns, table.rows)
    kept: list[Row] = []
    aside: list[Cell] = []
    headings = list(table.headings)
    header, opens = _header_of(table), open_headings(table.rows)
    for row in table.rows:
        why = HEADING if row.number in opens else why_no_guest(row, table.columns, grid.merges)
        why = "the header again" if repeats(row, header) else why
        if why is None:
            kept.append(row)
        else:
            search.unused.append(UnusedRow(table.sheet, row.number, why))
        if why == REMARK:
            aside.append(row.filled[0])
        if why == HEADING and (row.number in opens or heads_others(row.filled[0].text)):
            headings.append((row.number, heading_of(row)))
            aside += [cell for cell in row.filled[1:] if is_said_beside(cell)]
    said = tuple(Cited(cell.text, (cell.where,)) for cell in aside)
    own = replace(table, rows=tuple(kept), aside=said, headings=tuple(headings), numbers=numbers)
    own, key = with_codes_told(own, search.keys)
    crosses = crosses_of_rounds(own.columns, own.rows)
    letters = title_codes(own.columns, own.rows)
    codes = odd_codes(own.columns, own.rows)
    own = replace(own, codes=codes, crosses=crosses, title_codes=letters)
    search.tables.append(own)
    search.findings.extend((*findings, *key, *unfollowed(own, grid, search.keys)))
    if headings:
        search.findings.append(headings_noted([h for _, h in headings], some_open=bool(opens)))


def _over(grid: Grid, place: int) -> tuple[tuple[int, Cited], ...]:
    """The lone title just above a header that says whose guests stand in the table."""
    above = grid.rows[place - 1] if place else None
    if above is None or len(above.filled) != 1 or not says_side(above.filled[0].text):
        return ()
    return ((above.number, heading_of(above)),)


def _header_of(table: Table) -> dict[int, str]:
    return {column.index: fold(column.header) for column in table.columns if column.header}


def _without_title(search: _Search, grid: Grid, rows: list[Row]) -> list[Row]:
    """Drop the lone title above a further table ("Groom's side")."""
    if rows and len(rows[-1].filled) == 1:
        why = "the title of the table below it"
        search.unused.append(UnusedRow(grid.sheet, rows[-1].number, why))
        return rows[:-1]
    return rows


def _headless(search: _Search, grid: Grid) -> tuple[Table, tuple[Finding, ...]]:
    columns, findings = read_columns(grid, 0, [], grid.rows, search.pins)
    search.headers.update(fold(column.letters) for column in columns)
    return Table(grid.file, grid.sheet, 0, columns, grid.rows), findings


def known_table(grid: Grid) -> Table:
    """A table whose columns the reader of the file has made."""
    columns = tuple(
        Column(index, column_letters(index + 1), "", meaning, "content", ordinal=ordinal)
        for index, (meaning, ordinal) in enumerate(grid.meanings)
    )
    return Table(grid.file, grid.sheet, 0, columns, grid.rows)


def _check_pins(search: _Search, pinned: Mapping[str, str], file: str) -> None:
    for header in pinned:
        if fold(header) in search.headers:
            continue
        near = process.extract(fold(header), sorted(search.headers), scorer=fuzz.ratio, limit=1)
        mend = "Write the header as it stands in the list."
        if near and near[0][1] >= _NEAR:
            mend = f"The nearest is “{near[0][0]}”. {mend}"
        raise Fault(
            Exit.INPUT,
            "column-not-found",
            f"The docket names a column “{header}”, which the list hasn't got.",
            mend,
            Where(file, None, f"docket:columns.{header}"),
        )


def _no_names(grids: Sequence[Grid]) -> Fault:
    seen = [grid for grid in grids if grid.rows and not grid.hidden]
    file = grids[0].file if grids else ""
    if not seen:
        text = f"{file} holds no visible rows."
        return Fault(Exit.INPUT, "list-empty", text, "Show the sheet with the list.", Where(file))
    grid = seen[0]
    cell = cell_name(1, grid.rows[0].number)
    return Fault(
        Exit.INPUT,
        "name-column-missing",
        f"No column of {file} can be told to hold the guests' names.",
        'Name the header in the docket: [columns] "Your header" = "name".',
        Where(file, grid.sheet, cell if grid.sheet is None else None),
    )
