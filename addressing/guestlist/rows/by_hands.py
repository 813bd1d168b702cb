"""All rows of a table read, its cells let go on the way; of many, half by a second process."""

from collections import deque
from collections.abc import Callable, Iterable
from dataclasses import fields, replace
from functools import partial
from typing import Any

from addressing.guestlist.asking import finding
from addressing.guestlist.grid import Row, Table
from addressing.guestlist.people.dashes import comma_for_dash
from addressing.guestlist.people.parts import cut
from addressing.guestlist.rows.ditto import Filled, filled_down
from addressing.guestlist.rows.hiding import shared_cells, shortened
from addressing.guestlist.rows.labels import labelled_otherwise
from addressing.guestlist.rows.of_families import as_told, told_of_rows, with_told
from addressing.guestlist.rows.row import RowReading, read_row
from addressing.guestlist.rows.wholes import parted
from addressing.hands import Hand
from addressing.records.findings import Finding

_SURE_ORDER = 2
"""So many cells that can only be read with the family name first vouch for the whole column."""
_HABIT = 3
_MOST = 0.6
"""So many cells, and this share of all, that can be read so, vouch for the column as well."""
_WORTH = 400
"""Rows from which a second process pays (measured: it costs about 20 ms, a row half a one)."""
_AT_ONCE = 5_000
"""Rows that are handed over together, so that a long list isn't held twice."""


def read_rows(tables: deque[Table], *, home: str, posting: str | None) -> list[RowReading]:
    """Take the first table out of `tables` and read its rows.

    `home` is the sender's country (alpha-2), `posting` the day of posting (ISO 8601).
    """
    table = shortened(tables.popleft())
    order, shared = _family_first(table), shared_cells(table)
    rows, labelled, told = filled_down(table), labelled_otherwise(table), told_of_rows(table)
    table = replace(table, rows=())  # the rows themselves go as they are read
    rows.reverse()

    def read(some: Iterable[Filled]) -> list[RowReading]:
        return [
            _with_whence(
                with_told(
                    read_row(
                        table, _at_hand(as_told(parted(table, filled.row), mine)), shared,
                        family_first=order, home=home, posting=posting,
                    ),
                    mine,
                ),
                filled, labelled.get(filled.row.number),
            )
            for filled in some
            for mine in (told.get(filled.row.number),)
        ]  # fmt: skip

    readings: list[RowReading] = []
    while rows:
        some = rows[-_AT_ONCE:][::-1]
        del rows[-_AT_ONCE:]
        readings += _by_two(read, some)
    return readings


def _by_two(
    read: Callable[[Iterable[Filled]], list[RowReading]], rows: list[Filled]
) -> list[RowReading]:
    """Half of the rows by a second process."""
    half = (len(rows) + 1) // 2
    with Hand(partial(_told, read, rows[half:]), worth=len(rows) > _WORTH) as other:
        readings = read(rows[:half])
        told = other.answer()
    return readings + [RowReading(*fields) for fields in told]


def _told(
    read: Callable[[Iterable[Filled]], list[RowReading]], rows: Iterable[Filled]
) -> list[tuple[Any, ...]]:
    """What was read of rows, as plain tuples, which go faster from hand to hand."""
    names = [each.name for each in fields(RowReading)]
    return [tuple(getattr(reading, name) for name in names) for reading in read(rows)]


def _at_hand(row: Row) -> Row:
    """The row with its cells in a plain tuple: they are asked for sixty times."""
    return replace(row, cells=tuple(row.cells))


def _with_whence(reading: RowReading, filled: Filled, labelled: Finding | None) -> RowReading:
    """Tell where an address comes from that stands in another row, and ask about its label."""
    if labelled is not None and all(each.code != labelled.code for each in reading.findings):
        reading = replace(reading, findings=(*reading.findings, labelled))
    if filled.unfound is not None:
        text = f"“{filled.unfound.text}”: whose address is meant can't be told."
        mend = "Where should it go? Write the address, or the name as the other row has it."
        asked = finding("address-missing", filled.unfound.where, text, mend)
        return replace(reading, findings=(*reading.findings, asked))
    if filled.whence is None:
        return reading
    text = f"The address of another row ({filled.whence}) is taken, as the cell says."
    note = finding("address-as-above", reading.where, text, "Nothing to do.")
    return replace(reading, findings=(*reading.findings, note))


def _family_first(table: Table) -> bool:
    """True when cells that allow no other reading put the family name first."""
    column = table.column("name")
    if column is None:
        return False
    cells = (row.cell(column.index) for row in table.rows)
    texts = [cell.text for cell in cells if cell and cell.text]
    with_comma = [text for text in texts if "," in text]
    sure = sum(_surely_turned(text) for text in with_comma)
    if sure >= _SURE_ORDER:
        return True
    turned = sum(_can_be_turned(text) for text in with_comma)
    turned += _dashed(texts)
    return turned >= _HABIT and turned >= _MOST * len(texts)


def _dashed(texts: list[str]) -> int:
    """How many cells put the family name before a dash; two sure ones speak for the others."""
    sure = sum(comma_for_dash(text) != text for text in texts)
    if sure < _SURE_ORDER:
        return sure
    return sum(comma_for_dash(text, trusted=True) != text for text in texts)


def _surely_turned(text: str) -> bool:
    return _can_be_turned(text) and not cut(text, family_first=False)[1]


def _can_be_turned(text: str) -> bool:
    return cut(text, family_first=None)[0] != cut(text, family_first=True)[0]
