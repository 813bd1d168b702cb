"""Finds the tables on the sheets: where a header stands, what its columns mean, which rows count.

Non-empty rows below the headers of the tables read = rows handed on + rows not used.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from rapidfuzz import fuzz, process

from addressing.faults import Exit, Fault
from addressing.guestlist.columns import NAMES, read_columns
from addressing.guestlist.contents import kind_of
from addressing.guestlist.grid import Cell, Grid, Row, Table
from addressing.guestlist.meanings import Hit, exact_meaning, fold, meaning_of, read_pins
from addressing.guestlist.totals import why_no_guest
from addressing.records.findings import Finding, Severity
from addressing.records.guests import UnusedRow
from addressing.where import Where, cell_name

LOOKED_AT = 20
"""Non-empty rows from the top among which the header is looked for."""
_DATA = frozenset({"postcode", "street", "address", "place", "email", "phone"})
_ADDRESSES = frozenset({"address", "street", "city", "postcode", "place"})
_ENOUGH = 2
_MOSTLY = 0.6
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


def find_tables(grids: Sequence[Grid], pinned: Mapping[str, str]) -> Found:
    """The tables that hold guests, the rows below their headers that don't, and what is doubtful.

    `pinned` is the docket's [columns]: a header as it stands in the list (or, in a list without
    a header, a column's letters) and its meaning, one of `meanings()` or "partner_given" and so on.

    Raises:
        Fault: exit 3; `name-column-missing`, `list-empty` (a header without rows),
            `column-not-found` and `column-meaning-unknown` for the docket's pins.
    """
    file = grids[0].file if grids else ""
    search = _Search(read_pins(pinned, file))
    for grid in grids:
        if grid.hidden:
            search.headers.update(_texts(grid))
            if grid.rows:
                search.findings.append(_hidden_sheet(grid))
        elif grid.rows:
            _search_grid(search, grid, alone=len(grids) == 1)
    _check_pins(search, pinned, file)
    if not search.tables:
        raise _no_names(grids)
    if not any(table.rows for table in search.tables) and not search.unused:
        table = search.tables[0]
        mend = "Ask for the list again: it may not have been copied whole."
        text = f"{file} has a header and no guests below it."
        raise Fault(Exit.INPUT, "list-empty", text, mend, Where(file, table.sheet))
    return tuple(search.tables), tuple(search.unused), tuple(search.findings)


def _texts(grid: Grid) -> Iterable[str]:
    return (fold(cell.text) for row in grid.rows[:LOOKED_AT] for cell in row.filled)


def _search_grid(search: _Search, grid: Grid, *, alone: bool) -> None:
    start = _header_place(grid, search.pins)
    if start is None:
        table, findings = _headless(search, grid)
        meanings = {column.meaning for column in table.columns}
        if meanings & NAMES and (meanings & _ADDRESSES or alone):
            _take(search, table, findings)
        else:
            search.findings.append(_not_read(grid))
        return
    places = [start, *_later_headers(grid, start)]
    taken = [_take_segment(search, grid, place, end) for place, end in _segments(grid, places)]
    if not any(taken):
        search.findings.append(_not_read(grid))


def _segments(grid: Grid, places: list[int]) -> list[tuple[int, int]]:
    return list(zip(places, [*places[1:], len(grid.rows)], strict=True))


def _take_segment(search: _Search, grid: Grid, place: int, end: int) -> bool:
    """Read one header and the rows below it; False when it has no column of names."""
    header = grid.rows[place]
    headers = _header_texts(grid, place)
    search.headers.update(fold(text) for text in headers if text)
    rows = list(grid.rows[place + 1 : end])
    if end < len(grid.rows):
        rows = _without_title(search, grid, rows)
    columns, findings = read_columns(grid, header.number, headers, rows, search.pins)
    table = Table(grid.file, grid.sheet, header.number, columns, tuple(rows))
    if not {column.meaning for column in columns} & NAMES:
        if place != _header_place(grid, search.pins):
            search.unused.extend(
                UnusedRow(grid.sheet, row.number, "part of a table without names")
                for row in (header, *rows)
            )
        return False
    _take(search, table, findings)
    return True


def _take(search: _Search, table: Table, findings: Iterable[Finding]) -> None:
    """Keep a table with the rows that can hold guests, and account for the others."""
    kept: list[Row] = []
    header = _header_of(table)
    for row in table.rows:
        why = "the header again" if _repeats(row, header) else why_no_guest(row, table.columns)
        if why is None:
            kept.append(row)
        else:
            search.unused.append(UnusedRow(table.sheet, row.number, why))
    search.tables.append(
        Table(table.file, table.sheet, table.header_row, table.columns, tuple(kept))
    )
    search.findings.extend(findings)


def _header_of(table: Table) -> dict[int, str]:
    return {column.index: fold(column.header) for column in table.columns if column.header}


def _repeats(row: Row, header: Mapping[int, str]) -> bool:
    """A row that says what the header says (a page's header printed again)."""
    own = {
        index: fold(cell.text)
        for index, cell in enumerate(row.cells)
        if cell is not None and cell.filled
    }
    same = sum(header.get(index) == text for index, text in own.items())
    return len(own) >= min(_ENOUGH, len(header)) > 0 and same >= max(1, len(own) * _MOSTLY)


# ------------------------------------------------------------------ where a header stands


def _header_place(grid: Grid, pins: Mapping[str, Hit]) -> int | None:
    """The index of the row with most known headers among the first ones; None without any."""
    best, best_score = None, 0.0
    for place, row in enumerate(grid.rows[:LOOKED_AT]):
        score = _header_score(row, pins)
        if score > best_score:
            best, best_score = place, score
    return best


def _header_score(row: Row, pins: Mapping[str, Hit]) -> float:
    """How much a row looks like a header: known words, less whatever looks like an address."""
    cells = [cell for cell in row.cells if cell is not None and cell.text]
    if not cells:
        return 0.0
    hits = sum(_header_weight(cell, pins) for cell in cells)
    data = sum(kind_of(cell) in _DATA for cell in cells)
    if hits < _ENOUGH and hits < len(cells) / _ENOUGH:
        return 0.0
    return hits - _ENOUGH * data


def _header_weight(cell: Cell, pins: Mapping[str, Hit]) -> float:
    if cell.kind != "text":
        return 0.0
    if fold(cell.text) in pins:
        return 3.0
    if exact_meaning(cell.text) is not None:
        return 1.0
    return 0.75 if meaning_of(cell.text) is not None else 0.0


def _later_headers(grid: Grid, start: int) -> list[int]:
    """Rows further down that begin another table; a repeat of the same header begins none."""
    places = []
    current = {index: fold(text) for index, text in enumerate(_header_texts(grid, start)) if text}
    for place in range(start + 1, len(grid.rows)):
        row = grid.rows[place]
        if not _is_header(row) or _repeats(row, current):
            continue
        places.append(place)
        current = {index: fold(text) for index, text in enumerate(_header_texts(grid, place))}
    return places


def _is_header(row: Row) -> bool:
    """Inside a list only a row of nothing but known headers begins a new table."""
    cells = row.filled
    if len(cells) < _ENOUGH or any(cell.kind != "text" for cell in cells):
        return False
    hits = {hit.meaning for cell in cells if (hit := exact_meaning(cell.text)) is not None}
    known = sum(exact_meaning(cell.text) is not None for cell in cells)
    return len(hits) >= _ENOUGH and known >= len(cells) * 0.75


def _header_texts(grid: Grid, place: int) -> list[str]:
    """The header of each column from A; an upper header over several columns is joined to it."""
    row = grid.rows[place]
    lower = [cell.text if cell is not None else "" for cell in row.cells]
    upper = _upper_texts(grid, place)
    width = max(len(lower), max(upper, default=-1) + 1)
    lower += [""] * (width - len(lower))
    return [_joined(upper.get(index, ""), text) for index, text in enumerate(lower)]


def _joined(upper: str, lower: str) -> str:
    """Join two headers where the upper one tells more than the lower alone."""
    if not upper or not lower or upper == lower:
        return lower or upper
    both = f"{upper} {lower}"
    alone, joined = exact_meaning(lower), exact_meaning(both)
    if joined is not None and (alone is None or joined.meaning == alone.meaning):
        return both
    return lower if alone is not None else both


def _upper_texts(grid: Grid, place: int) -> dict[int, str]:
    """The row just above the header, when it is a header too and no title: two texts or more."""
    if place == 0 or grid.rows[place - 1].number != grid.rows[place].number - 1:
        return {}
    above = grid.rows[place - 1]
    if len(above.filled) < _ENOUGH or any(kind_of(cell) in _DATA for cell in above.filled):
        return {}
    spans = {
        merge.left: merge.right
        for merge in grid.merges
        if merge.top <= above.number <= merge.bottom and merge.right > merge.left
    }
    known = sum(exact_meaning(cell.text) is not None for cell in above.filled)
    if not spans and known < len(above.filled) * _MOSTLY:
        return {}
    texts: dict[int, str] = {}
    for index, cell in enumerate(above.cells):
        if cell is not None and cell.text:
            for covered in range(index, spans.get(index, index) + 1):
                texts[covered] = cell.text
    return texts


def _without_title(search: _Search, grid: Grid, rows: list[Row]) -> list[Row]:
    """Drop the lone title above a further table ("Groom's side")."""
    if rows and len(rows[-1].filled) == 1:
        why = "the title of the table below it"
        search.unused.append(UnusedRow(grid.sheet, rows[-1].number, why))
        return rows[:-1]
    return rows


# ------------------------------------------------------------------ lists without a header


def _headless(search: _Search, grid: Grid) -> tuple[Table, tuple[Finding, ...]]:
    columns, findings = read_columns(grid, 0, [], grid.rows, search.pins)
    search.headers.update(fold(column.letters) for column in columns)
    return Table(grid.file, grid.sheet, 0, columns, grid.rows), findings


# ------------------------------------------------------------------ what is said about sheets


def _hidden_sheet(grid: Grid) -> Finding:
    return Finding(
        Severity.ASK,
        "sheet-hidden",
        Where(grid.file, grid.sheet),
        f"The sheet “{grid.sheet}” is hidden and holds {len(grid.rows)} rows; it isn't used.",
        "Show the sheet and save the list if its guests are invited; else say so.",
    )


def _not_read(grid: Grid) -> Finding:
    return Finding(
        Severity.NOTE,
        "sheet-not-read",
        Where(grid.file, grid.sheet),
        f"The sheet “{grid.sheet}” has no column of names, so it isn't read.",
        'If it holds guests, name its columns in the docket: [columns] "Your header" = "name".',
    )


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
