"""Tables that stand in the middle of a mail: cells parted by a mark, by tabs, or by blanks."""

import csv
import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import islice

from addressing.faults import Fault
from addressing.guestlist.files.aligned import aligned_records
from addressing.guestlist.files.mail_lines import Line
from addressing.guestlist.grid import Cell, Grid, Row
from addressing.guestlist.repair import repair_text, turns
from addressing.guestlist.tables.claims import ADDRESSES, NAMES
from addressing.guestlist.tables.headers import find_tables
from addressing.guestlist.tables.meanings import exact_meaning
from addressing.records.guests import Repair
from addressing.where import Where, cell_name

_HEADERS = 2
_LEAST_ROWS = 2
_WIDE = 3
"""Columns of a table without a header at least; two are a name and its address, a line each."""
_GAP = re.compile(r"(?<=\S)(?: {2,}|\t+)(?=\S)")
_RULE = re.compile(r"[-:=_+ ]{2,}|")
Record = list[str]


@dataclass(frozen=True, slots=True)
class MailTable:
    """Lines of a mail that are a table, and the cells of each from its left end."""

    lines: tuple[Line, ...]
    records: tuple[tuple[str, ...], ...]


def is_header(record: Sequence[str]) -> bool:
    """True for a row of two headers or more of which most are known."""
    said = [cell for cell in record if cell.strip()]
    known = sum(exact_meaning(cell) is not None for cell in said)
    return known > len(said) / 2 and known >= _HEADERS


def without_tables(lines: Sequence[Line]) -> tuple[list[MailTable], list[Line]]:
    """The tables among some lines, and the other lines, a blank one where a table stood.

    A table begins with its header, or, parted by tabs, pipes or blanks, where such lines begin.
    """
    tables: list[MailTable] = []
    rest: list[Line] = []
    tried = [0] * len(_CUTTERS)
    place = 0
    while place < len(lines):
        found = _table_at(lines, place, tried)
        if found is None:
            rest.append(lines[place])
            place += 1
        else:
            tables.append(found)
            rest.append(Line(lines[place].number, ""))
            place += len(found.lines)
    return tables, rest


def _table_at(lines: Sequence[Line], place: int, tried: list[int]) -> MailTable | None:
    """The table that begins with a line; None where none does.

    `tried` says for each way of parting up to where it made no table: no line is tried twice.
    """
    for number, (cells_of, read) in enumerate(_CUTTERS):
        cells = cells_of(lines[place].raw)
        headed = is_header(cells)
        if len(cells) == 1 or place < tried[number] or not (headed or read is not _by_marks):
            continue
        run = list(_run(lines, place, cells_of))
        found = read(run, cells_of) if len(run) >= _LEAST_ROWS else None
        if found is not None:
            return found
        tried[number] = place + len(run)
    return None


def _run(lines: Sequence[Line], place: int, cells_of: Callable[[str], Record]) -> Iterator[Line]:
    """The lines from a place on that have several cells, without a gap."""
    for line in islice(lines, place, None):
        if not line.raw.strip() or len(cells_of(line.raw)) == 1:
            return
        yield line


def _by_marks(run: Sequence[Line], cells_of: Callable[[str], Record]) -> MailTable | None:
    """A table with a header, parted by a mark that stands in prose too."""
    return _read(run, [tuple(cells_of(line.raw)) for line in run])


def _by_bars(run: Sequence[Line], cells_of: Callable[[str], Record]) -> MailTable | None:
    """A table parted by a mark of tables: with a header, or of several columns."""
    records = [tuple(cells_of(line.raw)) for line in run]
    wide = sum(len(record) >= _WIDE for record in records) * 2 > len(records)
    return _read(run, records) if wide or is_header(records[0]) else None


def _by_blanks(run: Sequence[Line], cells_of: Callable[[str], Record]) -> MailTable | None:
    """A table of aligned columns; each line for itself where they don't stand below each other."""
    split = [tuple(cells_of(line.raw)) for line in run]
    headed = is_header(split[0])
    aligned = aligned_records("\n".join(line.raw for line in run))
    width = max(map(len, split))
    if aligned is not None and len(aligned[0]) >= width:
        wide = _is_wide(aligned, headed=headed)
        return _read(run, [tuple(record) for record in aligned]) if wide else None
    steady = sum(len(record) == len(split[0]) for record in split) * 2 > len(split)
    return _read(run, split) if steady and _is_wide(split, headed=headed) else None


def _is_wide(records: Sequence[Sequence[str]], *, headed: bool) -> bool:
    return headed or (len(records) > _LEAST_ROWS and len(records[0]) >= _WIDE)


def _read(run: Sequence[Line], records: Sequence[tuple[str, ...]]) -> MailTable | None:
    """The table, if its columns can be told to hold names and addresses, or its header says so."""
    table = MailTable(tuple(run), tuple(records))
    try:
        found, _, _ = find_tables((table_grid(table, "", None)[0],), {})
    except Fault:
        return None
    meanings = {column.meaning for each in found for column in each.columns}
    return table if meanings & NAMES and (meanings & ADDRESSES or is_header(records[0])) else None


def table_grid(
    table: MailTable,
    file: str,
    sheet: str | None,
    place: Callable[[Line], Where] | None = None,
    note: tuple[str, Where] | None = None,
) -> tuple[Grid, tuple[Repair, ...]]:
    """A table as a grid, and what was repaired in its cells.

    `place` says where a line stands, else its cells are counted from A; `note` is said of each
    of its rows, in a column of its own.
    """
    repairs: list[Repair] = []
    rows: list[Row] = []
    width = max(map(len, table.records))
    for line, record in zip(table.lines, table.records, strict=True):
        if all(map(_RULE.fullmatch, record)):
            continue
        cells: list[Cell | None] = []
        for column, raw in enumerate(record, start=1):
            where = place(line) if place else Where(file, sheet, cell_name(column, line.number))
            text, mended = repair_text(raw.strip(), where)
            repairs.extend(mended)
            turned = bool(mended) and turns(raw)
            cells.append(Cell(text, where, turned=turned) if text else None)
        if note is not None:
            cells += [None] * (width - len(cells))
            cells.append(Cell(*note))
        rows.append(Row(sheet, line.number, tuple(cells)))
    return Grid(file, sheet, tuple(rows)), tuple(repairs)


def _by_tabs(raw: str) -> Record:
    return raw.strip("\n").split("\t") if "\t" in raw.strip() else [raw]


def _by_gaps(raw: str) -> Record:
    return _GAP.split(raw.strip())


def _by_pipes(raw: str) -> Record:
    return raw.strip().strip("|").split("|")


def _by(mark: str) -> Callable[[str], Record]:
    """Cells parted by a mark, quoted ones whole."""

    def cells(raw: str) -> Record:
        try:
            return next(csv.reader([raw.strip()], delimiter=mark[0], skipinitialspace=True), [])
        except csv.Error:
            return [raw]

    return cells


_CUTTERS: tuple[
    tuple[
        Callable[[str], Record],
        Callable[[Sequence[Line], Callable[[str], Record]], MailTable | None],
    ],
    ...,
] = (
    (_by_tabs, _by_bars),
    (_by_pipes, _by_bars),
    (_by(";"), _by_marks),
    (_by(","), _by_marks),
    (_by_gaps, _by_blanks),
)
"""How the cells of a line are told, and how such lines are read."""
