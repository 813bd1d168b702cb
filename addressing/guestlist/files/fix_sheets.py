"""A sheet of corrections ("Fixes", "Changes"): what stands on it goes over the other sheets.

Each of its rows is a remark on the list, told to the households that it names. One that adds
somebody is read as a sentence of a mail is. A sheet with columns of names and addresses is a list
like any other, whatever its name.
"""

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import replace

from addressing.faults import Fault
from addressing.guestlist.asking import finding
from addressing.guestlist.files.added import homes_added
from addressing.guestlist.files.blocks import NAME, STREETS, Slots
from addressing.guestlist.files.mail_lines import Line, has_verb, is_town
from addressing.guestlist.files.mail_text import Text
from addressing.guestlist.files.numbered import head_of, number_column, with_names
from addressing.guestlist.files.pasted import Origin, as_grid, lines_of, told_of, too_long
from addressing.guestlist.files.prose_homes import SENTENCE_SLOT
from addressing.guestlist.files.running import sentences
from addressing.guestlist.files.speaking import BETWEEN, NOBODY, Listed, is_of_a_sheet
from addressing.guestlist.files.stretches import heard
from addressing.guestlist.folding import fold
from addressing.guestlist.grid import Cell, Grid, Row, Table
from addressing.guestlist.people.vocabulary import row_words
from addressing.guestlist.tables.claims import ADDRESSES, NAMES
from addressing.guestlist.tables.header_rows import header_place
from addressing.guestlist.tables.headers import find_tables
from addressing.guestlist.tables.meanings import exact_meaning
from addressing.guestlist.tables.sheets import is_overview
from addressing.records.findings import Finding
from addressing.records.guests import Cited, Repair, UnusedRow
from addressing.where import Where

Told = tuple[tuple[Cited, ...], ...]
"""Sentences by paragraphs, each with its cells."""
_TOLD = "a correction, asked about with whom it names"
_LONGEST = 1500
"""Letters; a longer row is no remark, and the patterns take the square of its length."""
_BEGINS = 6
"""Letters by which a line is known to begin with a name."""
_PAIR = 2
_WIDE = 4
"""Columns of a sheet of remarks at most: two of names, and what is said."""
_TITLE = 8
"""Words of a sheet's title at most."""


def corrections(
    grid: Grid, called: Mapping[str, str] | None = None, listed: Listed = NOBODY
) -> tuple[tuple[Grid, ...], tuple[Repair, ...]] | None:
    """A sheet of corrections as a grid of whom it adds, the other rows told; None for another.

    `called` are the names on the list by their numbers, under which the sheet may speak of them.
    """
    by_name = _head_of_names(grid, listed)
    fixes = _is_named_so(grid) or _is_by_number(grid, called or {}) or _is_of_remarks(grid, listed)
    if grid.hidden or not (fixes or by_name is not None) or _is_list(grid):
        return None
    first = by_name + 1 if by_name is not None else 0
    rows = [row for at, row in enumerate(grid.rows) if at >= first and not _is_head(row, at)]
    rows = rows if by_name is None else [row for row in rows if _says_more(row)]
    head = head_of(grid) if by_name is None else None
    if head is not None:
        rows = [_by_name(row, grid.rows[head], called or {}) for row in grid.rows[head + 1 :]]
    rows = [row for row in rows if row.filled]
    if not rows:
        return None
    text = _read(grid, rows, listed)
    origin = Origin(grid.file, grid.sheet, 0, {row.number: row for row in rows})
    made, repairs = as_grid(((origin, Text(households=text.households)),))
    read = {line.number for _, slots in text.households for held in slots.values() for line in held}
    unused = (UnusedRow(grid.sheet, r.number, _TOLD) for r in rows if r.number not in read)
    told = told_of(origin, text)
    made = replace(made, unused=tuple(unused), told=told, corrects=True)
    return (made,), repairs


def _read(grid: Grid, rows: Sequence[Row], listed: Listed) -> Text:
    """What the rows tell and whom they add, on a line of their own or in lines below each other."""
    text = Text()
    rest: list[Row] = []
    for row in rows:
        paragraph = _paragraph(row)
        added = [(slots[NAME][0].number, slots) for slots in homes_added(paragraph)]
        text.households += added
        if not added and len(row.filled) == 1 and not listed.tells(row.filled[0].text):
            rest.append(row)
    homes = _blocks(replace(grid, rows=tuple(rest)))
    text.households += homes
    of_homes = {line.number for _, slots in homes for held in slots.values() for line in held}
    told = (_paragraph(row) for row in rows if row.number not in of_homes)
    text.told += [part for part in told if not is_of_a_sheet(part[0].text, listed.sheets)]
    return text


def _blocks(grid: Grid) -> list[tuple[int, Slots]]:
    """The households of names and an address below them, in the one column of such a sheet."""
    columns = {index for row in grid.rows for index, _ in row.texts}
    if len(columns) != 1:
        return []
    lines = lines_of(grid, columns.pop())
    if too_long(lines):
        return []
    whole = {line.number: line.text for line in lines}
    parted = [each for line in lines for each in _with_end(line)]
    return [home for home in heard(parted).households if _is_block(home[1], whole)]


def _with_end(line: Line) -> tuple[Line, ...]:
    """A line, and where it ends an address a blank one: what follows is another remark."""
    return (line, Line(line.number, "")) if is_town(line.text) else (line,)


def _is_block(slots: Slots, whole: Mapping[int, str]) -> bool:
    """True for names and an address behind or below them; a remark with a number is no name."""
    if NAME not in slots or STREETS[0] not in slots or SENTENCE_SLOT in slots:
        return False
    first = slots[NAME][0]
    numbered = any(mark.isdecimal() for line in slots[NAME] for mark in line.text)
    several = len(first.text.split()) > 1
    return several and not numbered and whole[first.number].startswith(first.text[:_BEGINS])


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


def remarks_on(grids: Sequence[Grid], unread: Collection[str | None], listed: Listed) -> Told:
    """What the sheets without guests say in sentences, save of sheets ("“Ours” is typed over").

    `unread` are the sheets that have no column of names.
    """
    names = [grid.sheet for grid in grids if grid.sheet]
    shown = (grid for grid in grids if grid.sheet in unread and not grid.hidden)
    rows = (row for grid in shown if not is_overview(grid) for row in grid.rows)
    alone = (row for row in rows if len(row.filled) == 1 and listed.speaks(row.filled[0].text))
    parts = (
        tuple(
            Cited(line.text, (row.filled[0].where,))
            for line in _paragraph(row)
            if not is_of_a_sheet(line.text, names)
        )
        for row in alone
    )
    return tuple(part for part in parts if part)


def _is_named_so(grid: Grid) -> bool:
    name = f" {fold(grid.sheet or '')} "
    return any(f" {word} " in name for word in row_words("sheet-fixes"))


def _is_of_remarks(grid: Grid, listed: Listed) -> bool:
    """True for a sheet of remarks on a list's guests, whatever its name.

    Its rows are a remark each, or whom it is about and beside that what.
    """
    if not listed.names or _is_of_tasks(grid) or header_place(grid, {}) is not None:
        return False
    rows = [row for row in grid.rows if row.filled]
    alone = [row.filled[0].text for row in rows if len(row.filled) == 1]
    pairs = [row for row in rows if len(row.filled) == _PAIR and _is_pair(row, listed)]
    spoken = sum(map(listed.speaks, alone)) + len(pairs)
    told = bool(pairs) or any(map(listed.mentions, alone))
    return told and (len(alone) + len(pairs)) * 5 >= len(rows) * 4 and spoken * 4 >= len(rows)


def _head_of_names(grid: Grid, listed: Listed) -> int | None:
    """The place of a header of nothing but names and notes, where most names are the list's."""
    place = header_place(grid, {}) if listed.names else None
    if place is None:
        return None
    texts = [cell.text for cell in grid.rows[place].filled]
    found = [hit.meaning if (hit := exact_meaning(text)) else fold(text) for text in texts]
    told = {"notes", "reply", "declined"} | row_words("fix-header")
    names = NAMES - {"household"} | row_words("fix-header")
    known = all(each in names | told for each in found) and any(each in names for each in found)
    if not known or not 1 < len(found) <= _WIDE:
        return None
    rows = [row for row in grid.rows[place + 1 :] if row.filled]
    theirs = sum(listed.names_somebody(row.filled[0].text) for row in rows)
    noted = any(each in told for each in found)
    return place if noted and theirs * 2 >= len(rows) > 0 else None


def _says_more(row: Row) -> bool:
    """True where beside a name stands more than yes: a no, or several words."""
    said = [cell.text for cell in row.filled[1:]]
    return any(len(text.split()) > 1 or fold(text) in row_words("said-no") for text in said)


def _is_pair(row: Row, listed: Listed) -> bool:
    """True for "12" or "Penhew", and beside it what is said."""
    whom, said = (cell.text for cell in row.filled)
    return listed.tells(f"{whom}{BETWEEN}{said}") and listed.tells(f"{whom} {said}")


def _is_of_tasks(grid: Grid) -> bool:
    name = f" {fold(grid.sheet or '')} "
    return any(f" {word} " in name for word in row_words("sheet-tasks"))


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


def tables_of(grid: Grid) -> tuple[Table, ...]:
    """The tables of a sheet under a header of names and of addresses."""
    try:
        tables, _, _ = find_tables((grid,), {})
    except Fault:
        return ()
    found = ((table, {column.meaning for column in table.columns}) for table in tables)
    return tuple(
        table
        for table, meanings in found
        if table.header_row and meanings & NAMES and meanings & ADDRESSES
    )


def _is_list(grid: Grid) -> bool:
    return bool(tables_of(grid))


def _is_head(row: Row, place: int) -> bool:
    """True for a header ("Name", "Change"), and for the title that only says what stands below."""
    texts = [cell.text for cell in row.filled]
    if len(texts) > 1:
        return place <= 1 and all(map(_is_header, texts))
    words = fold(texts[0]).split()
    opens = bool(words) and words[0] in row_words("sheet-fixes")  # "Corrections from the call …"
    titles = row_words("sheet-fixes") | row_words("sheet-notes")
    short = len(words) <= _TITLE and not titles.isdisjoint(words) and not has_verb(texts[0])
    return place == 0 and (opens or short)


def _is_header(text: str) -> bool:
    return exact_meaning(text) is not None or fold(text) in row_words("fix-header")


def _paragraph(row: Row) -> tuple[Line, ...]:
    """The sentences of a row; what is struck through is no longer wanted, and is said so."""
    text = BETWEEN.join(_said(cell) for cell in row.filled)
    text = " ".join(text.split())[:_LONGEST]
    return tuple(sentences([Line(row.number, text)])) or (Line(row.number, text),)


def _said(cell: Cell) -> str:
    return f"{cell.text} (struck through)" if cell.wholly_struck else cell.text
