"""A sheet of notes that names households by their number in another ("P06 | moved in June").

Its rows are no guests: each goes beside the first row with that number, as a note of its own
column would, and keeps its cell.
"""

from collections import defaultdict
from collections.abc import Container, Mapping, Sequence
from dataclasses import replace

from addressing.guestlist.folding import fold
from addressing.guestlist.grid import Cell, Column, Row, Table
from addressing.guestlist.tables.claims import ADDRESSES, NAMES
from addressing.records.guests import Cited, UnusedRow
from addressing.where import column_letters

_MOST = 4
"""Columns of a sheet of notes, at most: when, of whom, what, by whom."""
_KNOWN = 0.75
"""The part of its rows that a number is found for, at least."""
_FEWEST = 2
_OWN_NAMES = NAMES - {"household"}


def with_keyed_notes(
    tables: Sequence[Table],
) -> tuple[tuple[Table, ...], tuple[UnusedRow, ...]]:
    """The tables with the notes of such sheets beside their rows, and those sheets' rows.

    A note on no number of the list is a remark like others, asked about with whom it names.
    """
    keyed = {table: keys for table in tables if (keys := _keys(table))}
    told = {table: at for table in tables if (at := _noted_at(table, keyed)) is not None}
    if not told:
        return tuple(tables), ()
    known = {key for keys in keyed.values() for key in keys}
    notes: dict[str, list[Cell]] = defaultdict(list)
    unused: list[UnusedRow] = []
    aside: list[Cited] = []
    for table, at in told.items():
        for row in table.rows:
            key, said = _key(row, at), _said(row, at)
            if key in known:
                notes[key] += said
            else:
                aside += [Cited(cell.text, (cell.where,)) for cell in said]
            unused.append(UnusedRow(table.sheet, row.number, _why(row, at, known)))
        aside += table.aside
    first, *others = [
        _beside(table, keyed.get(table, {}), notes) for table in tables if table not in told
    ]
    return (replace(first, aside=(*first.aside, *aside)), *others), tuple(unused)


def _keys(table: Table) -> dict[str, int]:
    """Each household's number, folded, with the place of its first row, in a table of guests."""
    column = table.column("household")
    found: dict[str, int] = {}
    if column is None or not any(other.meaning in _OWN_NAMES for other in table.columns):
        return found
    for place, row in enumerate(table.rows):
        key = _key(row, column.index)
        if any(mark.isdigit() for mark in key):
            found.setdefault(key, place)
    return found


def _key(row: Row, index: int) -> str:
    cell = row.cell(index)
    return fold(cell.text) if cell else ""


def _said(row: Row, at: int) -> list[Cell]:
    """What a row says beside its number: words, no dates."""
    return [
        cell
        for place, cell in enumerate(row.cells)
        if cell is not None and place != at and any(map(str.isalpha, cell.text))
    ]


def _noted_at(table: Table, keyed: Mapping[Table, Mapping[str, int]]) -> int | None:
    """The column of numbers of a table of notes; None for another table."""
    meant = {column.meaning for column in table.columns}
    if table in keyed or meant & ADDRESSES or not _FEWEST <= len(table.columns) <= _MOST:
        return None
    for column in table.columns:
        if any(other.meaning in NAMES for other in table.columns if other is not column):
            continue
        keys = [key for row in table.rows if (key := _key(row, column.index))]
        known = _known_as(column.header, keyed)
        hits = sum(key in known for key in keys)
        if hits >= _FEWEST and hits >= _KNOWN * len(keys):
            return column.index
    return None


def _known_as(header: str, keyed: Mapping[Table, Mapping[str, int]]) -> set[str]:
    """The numbers that a column may mean: 1, 2, 3 only under the same header, else all count so."""
    found: set[str] = set()
    for table, keys in keyed.items():
        own = table.column("household")
        same = own is not None and fold(own.header) == fold(header)
        found |= {key for key in keys if same or not key.isdigit()}
    return found


def _why(row: Row, at: int, known: Container[str]) -> str:
    cell = row.cell(at)
    said = cell.text if cell else "no number"
    return f"a note on {said}" if _key(row, at) in known else f"a note on nobody here ({said})"


def _beside(table: Table, places: Mapping[str, int], notes: Mapping[str, Sequence[Cell]]) -> Table:
    """A table with the notes on its households in columns behind its own."""
    mine = {places[key]: cells for key, cells in notes.items() if key in places}
    if not mine:
        return table
    width = max(column.index for column in table.columns) + 1
    width = max(width, *(len(row.cells) for row in table.rows))
    rows = list(table.rows)
    for place, cells in mine.items():
        own = tuple(rows[place].cells)
        rows[place] = replace(rows[place], cells=(*own, *(None,) * (width - len(own)), *cells))
    columns = tuple(
        Column(index, column_letters(index + 1), "", "notes", "content")
        for index in range(width, width + max(map(len, mine.values())))
    )
    return replace(table, columns=(*table.columns, *columns), rows=tuple(rows))
