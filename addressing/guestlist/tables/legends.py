"""Rows at a list's end in which the client explains the list's own marks: "KEY", "Legend"."""

import re
from collections.abc import Collection, Mapping, Sequence
from dataclasses import replace

from addressing.guestlist.asking import finding
from addressing.guestlist.grid import Column, Grid, Row, Table
from addressing.guestlist.people.vocabulary import row_words
from addressing.guestlist.tables.claims import ADDRESSES, NAMES
from addressing.guestlist.tables.key_lines import key_lines
from addressing.guestlist.tables.key_sheets import named_as_key
from addressing.guestlist.tables.meanings import fold
from addressing.records.findings import Finding
from addressing.records.guests import Cited, UnusedRow
from addressing.where import Where

_MOST = 2000
"""Letters of it that are told."""
_CODE = re.compile(
    r"(?<![^\W_])([^\W_]{1,3})\s*(?:=|:|\s[-–—]\s)\s*([^\W\d_][^,;=:\n]*?)"
    r"(?=\s*(?:[,;\n]|$|\s[^\W_]{1,3}\s*=))"
)
"""The codes of a key and their meanings: "1 = no guest, 0 = not invited"."""
_FEWEST = 2
"""Codes of a key, and cells of a column, at least."""
_NEARLY = 0.8
_NO_CODES = frozenset({"country", "region", "title", "suffix", "unit", "street2", "notes"})
_WHY = "explains the list's own marks"


def without_legend(table: Table) -> tuple[Table, list[UnusedRow], list[Finding]]:
    """The table without such rows, these, and one note that quotes them all.

    They begin with a row whose first cell says so, and reach to the end; nobody there has an
    address.
    """
    place = next((at for at, row in enumerate(table.rows) if _opens(row)), None)
    if place is None:
        return table, [], []
    rows = table.rows[place:]
    placed = [column.index for column in table.columns if column.meaning in ADDRESSES]
    if any((cell := row.cell(at)) and cell.filled for row in rows for at in placed):
        return table, [], []
    noted = _told(rows)
    unused = [UnusedRow(table.sheet, row.number, _WHY) for row in rows]
    return replace(table, rows=table.rows[:place]), unused, [noted]


def legend_sheet(grid: Grid) -> Finding | None:
    """What a sheet of such words alone says, told by its name or its first words; None of others.

    >>> legend_sheet(Grid("list.xlsx", "Guests", ())) is None
    True
    """
    return _told([row for row in grid.rows if row.filled]) if named_as_key(grid) else None


def with_codes_told(table: Table, sheets: Sequence[Grid] = ()) -> tuple[Table, list[Finding]]:
    """The table with the client's codes in words: "not invited" where a key says "0 = not invited".

    A column of which nearly all cells are codes of a key among the remarks around the rows, or on
    one of the `sheets` of keys, becomes one of notes; the key is told in a note.
    """
    said = (
        *table.aside,
        *(
            Cited("\n".join(line.text for line in lines), lines[0].cells)
            for sheet in sheets
            if (lines := [*key_lines(sheet, alone=True)])
        ),
    )
    keys = [each for each in said if len(_CODE.findall(each.text)) >= _FEWEST]
    key = {
        code.casefold(): words.strip() for each in keys for code, words in _CODE.findall(each.text)
    }
    coded = [column for column in table.columns if _is_coded(table, column, key)]
    if not coded:
        return table, []
    places = {column.index for column in coded}
    rows = tuple(_in_words(row, places, key) for row in table.rows)
    columns = (replace(c, meaning="notes") if c in coded else c for c in table.columns)
    aside = tuple(each for each in table.aside if each not in keys)
    told = _noted("; ".join(each.text for each in keys), keys[0].cells[0])
    return replace(table, columns=tuple(columns), rows=rows, aside=aside), [told]


def _is_coded(table: Table, column: Column, key: Mapping[str, str]) -> bool:
    if column.meaning in NAMES | ADDRESSES or column.meaning in _NO_CODES:
        return False
    cells = [cell for row in table.rows if (cell := row.cell(column.index)) and cell.filled]
    known = [cell for cell in cells if cell.text.strip().casefold() in key]
    return len(known) >= _FEWEST and len(known) >= _NEARLY * len(cells)


def _in_words(row: Row, places: Collection[int], key: Mapping[str, str]) -> Row:
    cells = list(row.cells)
    for at in places:
        cell = row.cell(at)
        words = key.get(cell.text.strip().casefold()) if cell is not None else None
        if cell is not None and words:
            cells[at] = replace(cell, text=words)
    return replace(row, cells=tuple(cells))


def _told(rows: Sequence[Row]) -> Finding:
    said = "; ".join(" ".join(cell.text for cell in row.filled) for row in rows)
    return _noted(said, rows[0].filled[0].where)


def _noted(said: str, where: Where) -> Finding:
    shown = said if len(said) <= _MOST else f"{said[:_MOST]} …"
    text = f"The list explains its marks: “{shown}”."
    mend = "Worth reading before the proof is signed."
    return finding("legend", where, text, mend)


def _opens(row: Row) -> bool:
    texts = row.texts  # no cell is made for it
    return bool(texts) and fold(texts[0][1]) in row_words("legend")
