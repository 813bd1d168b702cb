"""Whom words around a list's rows or beside them add to it, with an address: "also add …".

In the columns of the list itself only the words that add somebody are taken off the names.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from addressing.guestlist.files.added import adds, homes_added
from addressing.guestlist.files.blocks import Slots
from addressing.guestlist.files.mail_lines import Line
from addressing.guestlist.files.mail_text import Text
from addressing.guestlist.files.pasted import Origin, as_grid
from addressing.guestlist.files.prose_homes import SENTENCE_SLOT
from addressing.guestlist.files.running import sentences
from addressing.guestlist.files.speaking import BETWEEN, Listed
from addressing.guestlist.grid import Grid, Row, Table
from addressing.guestlist.people.adding import without_adding
from addressing.guestlist.tables.claims import ADDRESSES, NAMES
from addressing.guestlist.tables.headers import known_table
from addressing.records.guests import Cited, Repair

Told = tuple[tuple[Cited, ...], ...]
Rows = frozenset[tuple[str | None, int]]


@dataclass(frozen=True, slots=True)
class Added:
    """Tables of whom remarks add, what remains told, and their rows that no list has."""

    tables: tuple[Table, ...] = ()
    repairs: tuple[Repair, ...] = ()
    told: Told = ()
    rows: Rows = frozenset()


def without_words(tables: Iterable[Table]) -> tuple[Table, ...]:
    """The tables, names that stand beside an address without the words that add them."""
    return tuple(map(_without_words, tables))


def _without_words(table: Table) -> Table:
    names = [column.index for column in table.columns if column.meaning in NAMES]
    places = {column.index for column in table.columns if column.meaning in ADDRESSES}
    changed: dict[int, Row] = {}
    for row in table.rows if names and places else ():
        texts = dict(row.texts)
        at = next((at for at in names if at in texts), None)
        if at is not None and not places.isdisjoint(texts):
            said = without_adding(texts[at])
            if said != texts[at]:
                changed[row.number] = _renamed(row, at, said)
    if not changed:
        return table
    return replace(table, rows=tuple(changed.get(row.number, row) for row in table.rows))


def _renamed(row: Row, at: int, text: str) -> Row:
    cells = list(row.cells)
    cells[at] = replace(cell, text=text) if (cell := cells[at]) is not None else None
    return replace(row, cells=tuple(cells))


def added(told: Told, grids: Sequence[Grid], lists: Sequence[Table], listed: Listed) -> Added:
    """Whom the words around a list add, and what is told of others.

    Words that say more and name somebody on the list may be of those: "add Apt 4 to Orr, 9 Elm …".
    """
    made = {place: homes for place, part in enumerate(told) if (homes := _homes(part, listed))}
    if not made:
        return Added(told=told)
    sheets = dict.fromkeys(each.cells[0].sheet for place in made for each in told[place])
    tables: list[Table] = []
    repairs: list[Repair] = []
    for sheet in sheets:
        rows = {row.number: row for grid in grids if grid.sheet == sheet for row in grid.rows}
        parts = [
            _part(said, slots, rows)
            for homes in made.values()
            for said, slots in homes
            if said.cells[0].sheet == sheet
        ]
        grid, mended = as_grid(parts)
        tables.append(known_table(grid))
        repairs += mended
    left = tuple(part for place, part in enumerate(told) if place not in made)
    return Added(tuple(tables), tuple(repairs), left, _rows(tables) - _rows(lists))


def _rows(tables: Iterable[Table]) -> Rows:
    """The rows of tables, each by its sheet and number."""
    return frozenset((table.sheet, row.number) for table in tables for row in table.rows)


def _homes(paragraph: Sequence[Cited], listed: Listed) -> list[tuple[Cited, Slots]]:
    """The households that a paragraph adds, each with the words that do."""
    found: list[tuple[Cited, Slots]] = []
    for said in paragraph:
        if adds(said.text):
            text = said.text.replace(BETWEEN, ", ") if len(said.cells) > 1 else said.text
            line = Line(said.cells[0].row or 0, text)
            slots = homes_added(tuple(sentences([line])))
            known = listed.names_somebody(said.text)
            found += [(said, each) for each in slots if not (known and SENTENCE_SLOT in each)]
    return found


def _part(said: Cited, slots: Slots, rows: Mapping[int, Row]) -> tuple[Origin, Text]:
    """A household and where its words stand; struck where these are."""
    where = said.cells[0]
    row = rows.get(where.row or 0)
    cells = list(row.cells) if row is not None else []
    at = next((at for at, cell in enumerate(cells) if cell and cell.where == where), 0)
    if row is not None and (cell := row.cell(at)) is not None and cell.text not in said.text:
        row = replace(row, cells=())  # the words are a comment's, which is told no more
    held = {row.number: row} if row is not None else {}
    origin = Origin(where.file, where.sheet, at, held)
    return origin, Text(households=[(where.row or 0, slots)])
