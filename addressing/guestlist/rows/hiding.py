"""What a row's cells hide: strikes, hidden rows and columns, merges, formulas, dates, comments."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace

from addressing.guestlist.asking import finding
from addressing.guestlist.domestic.dwellings import Segment, kind_of
from addressing.guestlist.files.mail_lines import is_letter
from addressing.guestlist.folding import fold
from addressing.guestlist.grid import Cell, Row, Table
from addressing.guestlist.homes.row_address import PLACES
from addressing.guestlist.people.news import doubts_address, is_marker
from addressing.guestlist.tables.meanings import signs
from addressing.records.findings import Finding
from addressing.where import Where

PARTS_OF_NAMES = (
    "name", "title", "given", "middle", "particle", "family", "suffix", "guest", "children",
)  # fmt: skip
PRINTED = frozenset((*PARTS_OF_NAMES, *PLACES))
"""Meanings of the columns whose words can reach an envelope."""
LONGEST = 1_000
"""Letters of a cell from which on it is no name and no address; reading one would take long."""
_LETTER = 40
"""Letters of the shortest mail."""
_PROSE = frozenset((None, "notes", "ignore", "reply", "declined", "elsewhere"))
"""Meanings of columns in which whole letters may stand."""
_AREA = frozenset(("city", "region", "postcode", "place", "country"))
_SHOWN = 40


def shortened(table: Table) -> Table:
    """The table, its cells that are too long for names or addresses held back from reading."""
    columns = {c.index for c in table.columns if c.meaning not in _PROSE}
    rows = [
        _without(row, columns) if any(_is_long(held) for held in row.held) else row
        for row in table.rows
    ]
    same = all(new is old for new, old in zip(rows, table.rows, strict=True))
    return table if same else replace(table, rows=tuple(rows))


def _is_long(held: str | Cell | None) -> bool:
    text = held.text if isinstance(held, Cell) else held or ""
    return len(text) > LONGEST or (len(text) > _LETTER and is_letter(text))


def _without(row: Row, columns: set[int]) -> Row:
    cells = (
        _held_back(cell) if cell is not None and index in columns and _is_long(cell) else cell
        for index, cell in enumerate(row.cells)
    )
    return replace(row, cells=tuple(cells))


def _held_back(cell: Cell) -> Cell:
    begins = " ".join(cell.text[:_SHOWN].split())
    what = "A mail stands" if is_letter(cell.text) else f"{len(cell.text):,} letters stand"
    shown = f"{what} here, “{begins}…”."
    return replace(cell, text="", kind="long", struck=(), shown=shown)


def hidden(table: Table, row: Row, where: Where) -> list[Finding]:
    """A struck or hidden row, and hidden columns that would print: nobody is printed unasked."""
    found: list[Finding] = []
    if row.struck:
        text = "The whole row is struck through."
        found.append(finding("row-struck", where, text, "Is this household still invited?"))
    if row.hidden:
        text = f"Row {row.number} is hidden."
        found.append(finding("row-hidden", where, text, "Is this household still invited?"))
    for column in table.columns:
        if not column.hidden or column.meaning not in PRINTED:
            continue
        cell = row.cell(column.index)
        if cell is not None and cell.text:
            text = f"“{cell.text}” stands in the hidden column {column.letters} ({column.header})."
            asked = finding("column-hidden", cell.where, text, "Is it still right?", cell.text)
            found.append(asked)
    return found


def shared_cells(table: Table) -> Mapping[Where, bool]:
    """The cells of a table that are merged over several of its rows.

    True for a cell of an address that all its rows can have: none says another town beside it, and
    none has a name of the one above, with whom they may be meant to share an envelope.
    """
    names = [column.index for column in table.columns if column.meaning in ("name", "family")]
    places = {column.index for column in table.columns if column.meaning in PLACES}
    areas = [column.index for column in table.columns if column.meaning in _AREA]
    rows = {row.number: row for row in table.rows}
    found: dict[Where, bool] = {}
    for row in table.rows:
        for index, held in enumerate(row.held):
            if isinstance(held, Cell) and held.spread:
                above = rows.get(held.where.row or 0)
                one = (
                    index in places
                    and above is not None
                    and _one_area(above, row, areas)
                    and not _words(above, names) & _words(row, names)
                )
                found[held.where] = one and found.get(held.where, True)
    return found


def _one_area(above: Row, row: Row, areas: Sequence[int]) -> bool:
    """True when a row says of town, state, ZIP and country nothing else than the one above."""
    both = ((row.cell(index), above.cell(index)) for index in areas)
    return all(
        mine is None or not mine.text or (other is not None and fold(mine.text) == fold(other.text))
        for mine, other in both
    )


def _words(row: Row, indexes: Sequence[int]) -> set[str]:
    """The words of some cells, titles and "and" left out."""
    cells = (row.cell(index) for index in indexes)
    words = {word for cell in cells if cell is not None for word in fold(cell.text).split()}
    return words - signs("name-sign").keys()


def _of_merged(
    table: Table, row: Row, shared: Mapping[Where, bool], *, of_address: bool
) -> list[Finding]:
    """One finding for all cells of names, or of an address, that serve several rows."""
    columns = (c for c in table.columns if c.meaning in PRINTED)
    held = [row.cell(c.index) for c in columns if (c.meaning in PLACES) is of_address]
    cells = [cell for cell in held if cell is not None and cell.text and cell.where in shared]
    if not cells:
        return []
    one = of_address and all(shared[cell.where] for cell in cells)
    made = _merged(cells[0], ", ".join(cell.text for cell in cells), one_address=one)
    return [replace(made, also=tuple(cell.where for cell in cells[1:]))]


def hidden_in_cells(table: Table, row: Row, shared: Mapping[Where, bool]) -> list[Finding]:
    """What single cells that would print hide: strikes, merges, formulas, dates, comments."""
    found: list[Finding] = []
    for of_address in (False, True):
        found.extend(_of_merged(table, row, shared, of_address=of_address) if shared else ())
    for column in table.columns:
        cell = row.cell(column.index)
        if cell is None:
            continue
        if column.meaning in PRINTED:
            other = column.meaning in PLACES and _is_replaced(cell, column.meaning or "")
            found.extend(_other_address(cell) if other and not row.struck else _cell(cell, row))
        if cell.note:
            code = "marker-in-list" if is_marker(cell.note) else "cell-note"
            code = "address-doubtful" if doubts_address(cell.note) else code
            found.append(
                finding(
                    code,
                    cell.where,
                    f"The comment says: “{cell.note}”.",
                    "Does it change anything?",
                    cell.note,
                )
            )
    return found


def _is_replaced(cell: Cell, meaning: str) -> bool:
    """True where one street, town, state or ZIP of a cell is struck through, and another isn't."""
    if not cell.struck or cell.wholly_struck or len(cell.struck) > 1 or cell.kind != "text":
        return False
    if meaning in _AREA:
        return bool(cell.text.strip(" ,"))
    firsts = (re.split(r"[,\n]", each.strip())[0] for each in (cell.struck[0], cell.text))
    return all(kind_of(first) in (Segment.STREET, Segment.BOX) for first in firsts)


def _other_address(cell: Cell) -> list[Finding]:
    text = f"“{cell.struck[0]}” is struck through; the address beside it is used."
    return [finding("remark", cell.where, text, "Nothing to do.")]


def _merged(cell: Cell, said: str, *, one_address: bool) -> Finding:
    """A cell for several rows: a shared address is used for each, other words are asked about."""
    if one_address:
        text = f"“{said}” is one cell for several rows; it is used for each of them."
        return finding("address-merged", cell.where, text, "Nothing to do.", said)
    text = f"“{said}” is one cell for several rows."
    return finding("cells-merged", cell.where, text, "Does it hold for each of them?", said)


def _cell(cell: Cell, row: Row) -> list[Finding]:
    found: list[Finding] = []
    if cell.struck and not row.struck:
        words = ", ".join(cell.struck)
        text = f"“{words}” is struck through."
        mend = "Is it out, or still to be printed?"
        found.append(finding("row-struck", cell.where, text, mend, words))
    if cell.kind in ("formula", "error"):
        text = f"{cell.shown or 'The formula'} has no value stored in the file."
        mend = "Open the list in your spreadsheet program, save it, and read it again."
        found.append(finding("formula-no-value", cell.where, text, mend))
    if cell.kind == "long":
        text = f"{cell.shown} It is no name and no address; the cell isn't read."
        mend = "What should stand on the envelope?"
        found.append(finding("cell-too-long", cell.where, text, mend))
    if cell.unseen:
        text = f"“{cell.text}” can't be seen in the list: the look of its cell hides it."
        found.append(finding("text-unseen", cell.where, text, "Is it meant?", cell.text))
    if cell.turned:
        text = f"“{cell.text}” holds invisible marks that turn its letters around on a screen."
        mend = "Is it right as it stands here?"
        found.append(finding("direction-marks", cell.where, text, mend, cell.text))
    if cell.kind == "date":
        text = (
            f"A date stands here ({cell.text}); it may have been typed as {cell.shown or 'words'}."
        )
        mend = "What should stand here?"
        found.append(finding("date-for-text", cell.where, text, mend, cell.shown or cell.text))
    return found
