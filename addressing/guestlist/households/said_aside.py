"""What stands in a list's own rows and is said of others: it goes the way of all remarks.

A row of nothing but a remark ("12 declined", "the Penhews are out") is no guest. A cell without a
header that begins with another row's number or name, and such a comment on a cell, is no note of
the row in which it happens to stand.
"""

import re
from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import replace

from addressing.guestlist.files.added import adds
from addressing.guestlist.files.speaking import (
    BETWEEN,
    Listed,
    is_addressed,
    is_companion,
    is_sentence,
)
from addressing.guestlist.grid import Cell, Row, Table
from addressing.guestlist.people.adding import only_adds
from addressing.guestlist.tables.totals import REMARK
from addressing.records.findings import Finding
from addressing.records.guests import Cited, UnusedRow

Columns = frozenset[tuple[str | None, str]]
"""Columns by sheet and letters."""
_TOLD = "remark"
_PAIR = 2
_WORDS = re.compile(r"[^\W\d_]{3}")
_AGAIN = 3
"""So often each word of a column of codes stands there at least."""
_PLAIN = ("notes", None, "ignore")
"""Meanings of a column without a header in which remarks stand."""


def without_remarks(
    tables: Sequence[Table], listed: Listed, mails: Collection[str | None] = ()
) -> tuple[tuple[Table, ...], tuple[UnusedRow, ...]]:
    """The tables without rows and cells that are only remarks on others, and those rows.

    `mails` are the sheets whose columns the reader of the file made: their notes are their rows'.
    """
    kept: list[Table] = []
    unused: list[UnusedRow] = []
    for each in tables:
        own = each.sheet in mails or all(len(row.texts) == 1 for row in each.rows)
        table = each if own else _with_notes(each)
        rows = [row for row in table.rows if _is_remark(table, row, listed, plain=not own)]
        unused += [UnusedRow(table.sheet, row.number, REMARK) for row in rows]
        aside = [_told(row) for row in rows]
        left = table.rows
        if rows:
            gone = {row.number for row in rows}
            left = tuple(row for row in table.rows if row.number not in gone)
        beside = {} if own else _beside(table, left, listed)
        if beside:
            aside += [said for _, several in beside.values() for said in several]
            left = tuple(beside[row.number][0] if row.number in beside else row for row in left)
        changed = replace(table, rows=left, aside=(*table.aside, *aside))
        kept.append(changed if aside else table)
    return tuple(kept), tuple(unused)


def _with_notes(table: Table) -> Table:
    """The table with its columns of words without a header as notes.

    A few words again and again are the client's codes, and stay unread.
    """
    notes = {
        column.index
        for column in table.columns
        if not column.header and column.meaning is None and _holds_words(table, column.index)
    }
    if not notes or not any(column.header for column in table.columns):
        return table
    columns = (
        replace(column, meaning="notes", how="content") if column.index in notes else column
        for column in table.columns
    )
    return replace(table, columns=tuple(columns))


def _holds_words(table: Table, index: int) -> bool:
    texts = [text for row in table.rows for at, text in row.texts if at == index]
    different = len(set(texts)) * _AGAIN > len(texts) or len(texts) < _AGAIN
    return different and any(_WORDS.search(text) for text in texts)


def without_header(tables: Sequence[Table]) -> Columns:
    """The columns without a header beside ones that have one."""
    return frozenset(
        (table.sheet, column.letters)
        for table in tables
        if any(column.header for column in table.columns)
        for column in table.columns
        if not column.header
    )


def only_told(own: Iterable[Finding], columns: Columns, listed: Listed) -> Iterator[Cited]:
    """What speaks in columns without a header of nobody in particular: "no kids please!".

    It may be a note of its row, which is told, or stand there by chance, and is asked about.
    """
    for found in own:
        letters = (found.where.cell or "").rstrip("0123456789")
        stray = found.code == _TOLD and (found.where.sheet, letters) in columns
        if stray and listed.says(found.quoted):
            yield Cited(found.quoted, (found.where,))


def _is_remark(table: Table, row: Row, listed: Listed, *, plain: bool) -> bool:
    texts = [text for _, text in row.texts]
    if plain and len(texts) > 1 and only_adds(texts[0]) and adds(", ".join(texts)):
        return True
    if len(texts) == _PAIR and plain and row.number not in table.numbers:
        return _is_numbered(table, texts, listed)
    if len(texts) != 1 or (is_companion(texts[0]) and not adds(texts[0])):
        return False
    text = texts[0]
    says = listed.tells(text) or is_sentence(text) or adds(text)
    spoken = plain and is_addressed(table) and says
    return spoken or listed.by_number(text)


def _is_numbered(table: Table, texts: Sequence[str], listed: Listed) -> bool:
    """True for a number in a cell of its own before what is said of it."""
    before, said = texts
    if not listed.by_number(BETWEEN.join(texts)):
        return False
    spoken = before.strip("#. ").casefold() in listed.numbers and is_addressed(table)
    return said[:1].islower() or (spoken and (listed.tells(said) or is_sentence(said)))


def _told(row: Row) -> Cited:
    """The words of a row, "12 – out" where a number stands before them."""
    cells = row.filled
    return Cited(BETWEEN.join(cell.text for cell in cells), tuple(cell.where for cell in cells))


def _beside(
    table: Table, rows: Sequence[Row], listed: Listed
) -> dict[int, tuple[Row, list[Cited]]]:
    """The rows without what they hold of others, by number, and that."""
    plain = {c.index for c in table.columns if not c.header and c.meaning in _PLAIN}
    notes = {c.index for c in table.columns if c.header and c.meaning == "notes"}
    found: dict[int, tuple[Row, list[Cited]]] = {}
    for row in rows:
        own = table.numbers.get(row.number, ())
        said = [
            at
            for at, text in _may_speak(row, plain | notes)
            if (at not in notes and listed.is_by_itself(text)) or listed.is_of_number(text, own)
        ]
        if said:
            found[row.number] = _without(row, said, plain | notes, listed)
    return found


def _may_speak(row: Row, plain: Collection[int]) -> Iterator[tuple[int, str]]:
    """The columns of a row that hold a remark perhaps, and its words; no cell is made for it."""
    for at, held in enumerate(row.held):
        if at in plain and held is not None and (isinstance(held, str) or held.filled):
            yield at, held if isinstance(held, str) else held.text
        elif isinstance(held, Cell) and held.note and not held.spread:
            yield at, held.note


def _without(
    row: Row, columns: Collection[int], plain: Collection[int], listed: Listed
) -> tuple[Row, list[Cited]]:
    """A row without the remarks in some columns, and these; what may be its own too stays."""
    cells = list(row.cells)
    told: list[Cited] = []
    for at in columns:
        cell = cells[at]
        if cell is None:
            continue
        text = cell.text if at in plain else cell.note or ""
        told.append(Cited(text, (cell.where,)))
        if not listed.may_count(text):
            cells[at] = None if at in plain else replace(cell, note=None)
    return replace(row, cells=tuple(cells)), told
