"""A sheet of corrections ("Fixes", "Changes"): what stands on it goes over the other sheets.

Each of its rows is a remark on the list, told to the households that it names. One that adds
somebody is read as a sentence of a mail is. A sheet with columns of names and addresses is a list
like any other, whatever its name.
"""

import re
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import replace
from functools import cache

from addressing.faults import Fault
from addressing.guestlist.asking import finding
from addressing.guestlist.files.blocks import NAME, Slots
from addressing.guestlist.files.by_number import numbers_in
from addressing.guestlist.files.mail_lines import Line, has_verb
from addressing.guestlist.files.mail_text import Text
from addressing.guestlist.files.numbered import head_of, number_column, with_names
from addressing.guestlist.files.pasted import Origin, as_grid, told_of
from addressing.guestlist.files.prose import homes_in
from addressing.guestlist.files.running import sentences
from addressing.guestlist.folding import fold
from addressing.guestlist.grid import Cell, Grid, Row
from addressing.guestlist.people.vocabulary import row_words
from addressing.guestlist.tables.claims import ADDRESSES, NAMES
from addressing.guestlist.tables.headers import find_tables
from addressing.guestlist.tables.meanings import exact_meaning
from addressing.guestlist.tables.sheets import is_overview
from addressing.records.findings import Finding
from addressing.records.guests import Cited, Repair, UnusedRow
from addressing.where import Where

Told = tuple[tuple[Cited, ...], ...]
"""Sentences by paragraphs, each with its cells."""
_TOLD = "a correction, asked about with whom it names"
_BETWEEN = " – "
_LONGEST = 1500
"""Letters; a longer row is no remark, and the patterns take the square of its length."""
_TITLE = 8
"""Words of a sheet's title at most."""


def corrections(
    grid: Grid, called: Mapping[str, str] | None = None
) -> tuple[tuple[Grid, ...], tuple[Repair, ...]] | None:
    """A sheet of corrections as a grid of whom it adds, the other rows told; None for another.

    `called` are the names on the list by their numbers, under which the sheet may speak of them.
    """
    fixes = _is_named_so(grid) or _is_by_number(grid, called or {})
    if grid.hidden or not fixes or _is_list(grid):
        return None
    rows = [row for at, row in enumerate(grid.rows) if row.filled and not _is_head(row, at)]
    head = head_of(grid)
    if head is not None:
        rows = [_by_name(row, grid.rows[head], called or {}) for row in grid.rows[head + 1 :]]
    rows = [row for row in rows if row.filled]
    if not rows:
        return None
    text = Text()
    for row in rows:
        paragraph = _paragraph(row)
        text.told.append(paragraph)
        text.households += [(slots[NAME][0].number, slots) for slots in _added(paragraph)]
    origin = Origin(grid.file, grid.sheet, 0, {row.number: row for row in rows})
    made, repairs = as_grid(((origin, Text(households=text.households)),))
    read = {number for number, _ in text.households}
    unused = (UnusedRow(grid.sheet, r.number, _TOLD) for r in rows if r.number not in read)
    told = told_of(origin, text)
    made = replace(made, unused=tuple(unused), told=told, corrects=True)
    return (made,), repairs


def _by_name(row: Row, head: Row, called: Mapping[str, str]) -> Row:
    """A row with the names whose number it gives, without the day and who wrote it."""
    headers = [cell.text if cell is not None else "" for cell in head.cells]
    at = number_column(headers)
    cells: list[Cell | None] = []
    for place, cell in enumerate(row.cells):
        header = fold(headers[place]) if place < len(headers) else ""
        if cell is None or cell.kind == "date" or header in row_words("fix-when"):
            cells.append(None)
        else:
            text = with_names(cell.text, called) if place == at else cell.text
            cells.append(replace(cell, text=text))
    return replace(row, cells=tuple(cells))


def corrections_noted(grids: Iterable[Grid]) -> Iterable[Finding]:
    """The note that a sheet is read as corrections."""
    for grid in grids:
        if grid.corrects:
            text = f"The sheet “{grid.sheet}” corrects the others: {_lines(len(grid.told))}."
            mend = "What it says of somebody on the list is asked with that envelope."
            yield finding("corrections-read", Where(grid.file, grid.sheet), text, mend)


def _lines(count: int) -> str:
    return "1 line" if count == 1 else f"{count} lines"


def remarks_on(
    grids: Sequence[Grid], unread: Collection[str | None], numbers: Collection[str] = ()
) -> Told:
    """What the sheets without guests say in sentences, save of sheets ("“Ours” is typed over").

    `unread` are the sheets that have no column of names, `numbers` those that guests have.
    """
    names = [fold(grid.sheet) for grid in grids if grid.sheet]
    shown = (grid for grid in grids if grid.sheet in unread and not grid.hidden)
    rows = (row for grid in shown if not is_overview(grid) for row in grid.rows)
    alone = (row for row in rows if len(row.filled) == 1 and _speaks(row.filled[0].text, numbers))
    parts = (
        tuple(
            Cited(line.text, (row.filled[0].where,))
            for line in _paragraph(row)
            if not any(name in fold(line.text) for name in names)
        )
        for row in alone
    )
    return tuple(part for part in parts if part)


def _speaks(text: str, numbers: Collection[str]) -> bool:
    return has_verb(text) or bool(numbers and numbers_in(text, numbers))


def _is_named_so(grid: Grid) -> bool:
    name = f" {fold(grid.sheet or '')} "
    return any(f" {word} " in name for word in row_words("sheet-fixes"))


def _is_by_number(grid: Grid, called: Mapping[str, str]) -> bool:
    """True for a sheet of remarks ("No.", "Remark") on the numbers of a list, whatever its name.

    One with names or addresses of its own is a list itself.
    """
    place = head_of(grid)
    if place is None or not called:
        return False
    texts = [cell.text if cell is not None else "" for cell in grid.rows[place].cells]
    column = number_column(texts)
    hits = (exact_meaning(text) for text in texts if text)
    if column is None or any(hit.meaning in NAMES | ADDRESSES for hit in hits if hit):
        return False
    cells = [row.cell(column) for row in grid.rows[place + 1 :]]
    numbers = [with_names(cell.text, called) != cell.text for cell in cells if cell is not None]
    return sum(numbers) * 2 > len(numbers)


def _is_list(grid: Grid) -> bool:
    """True for a sheet with a header of names and of addresses."""
    try:
        tables, _, _ = find_tables((grid,), {})
    except Fault:
        return False
    found = [{column.meaning for column in table.columns} for table in tables if table.header_row]
    return any(meanings & NAMES and meanings & ADDRESSES for meanings in found)


def _is_head(row: Row, place: int) -> bool:
    """True for a header ("Name", "Change"), and for the title that only says what stands below."""
    texts = [cell.text for cell in row.filled]
    if len(texts) > 1:
        return place <= 1 and all(map(_is_header, texts))
    words = fold(texts[0]).split()
    opens = bool(words) and words[0] in row_words("sheet-fixes")  # "Corrections from the call …"
    short = len(words) <= _TITLE and not row_words("sheet-fixes").isdisjoint(words)
    return place == 0 and (opens or short)


def _is_header(text: str) -> bool:
    return exact_meaning(text) is not None or fold(text) in row_words("fix-header")


def _paragraph(row: Row) -> tuple[Line, ...]:
    """The sentences of a row; what is struck through is no longer wanted, and is said so."""
    text = _BETWEEN.join(_said(cell) for cell in row.filled)
    text = " ".join(text.split())[:_LONGEST]
    return tuple(sentences([Line(row.number, text)])) or (Line(row.number, text),)


def _said(cell: Cell) -> str:
    return f"{cell.text} (struck through)" if cell.wholly_struck else cell.text


def _added(paragraph: Sequence[Line]) -> list[Slots]:
    """Whom a row adds to the list: "ADD Miss Odile Penhew, 9 Mill Row, Duluth, MN 55802"."""
    first, *others = paragraph
    opened = _adding().match(first.text)
    if opened is None:
        return []
    first = replace(first, text=first.text[opened.end() :])
    return [slots for _, slots in homes_in((first, *others))]


@cache
def _adding() -> re.Pattern[str]:
    longest = sorted(row_words("fix-add"), key=len, reverse=True)
    words = "|".join(re.escape(word).replace(r"\ ", r"\s+") for word in longest)
    return re.compile(rf"[\W_]*(?:(?:{words})\b|\+)[\s:,–—-]*", re.IGNORECASE)
