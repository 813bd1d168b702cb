"""Keys to the marks on a list's names ("* = plus one"): their words are remarks of such rows."""

import re
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from addressing.guestlist.asking import finding
from addressing.guestlist.grid import Cell, Column, Grid, Row, Table
from addressing.guestlist.tables.claims import ADDRESSES
from addressing.guestlist.tables.key_lines import key_lines
from addressing.records.findings import Finding
from addressing.records.guests import UnusedRow
from addressing.where import Where, column_letters

_WHY = "explains the list's own marks"
_SIGN = r"[*†‡#^~°§¤•]{1,3}"
_OPENS = re.compile(rf"\s*\(?{_SIGN}")
_KEY = re.compile(
    rf"\s*\(?(?P<mark>{_SIGN})\)?\s*(?:=|:|[-–—]+>?|means\b|is\b)\s*(?P<said>[^\W\d_].*)",
    re.IGNORECASE | re.DOTALL,
)
_BARE = re.compile(rf"\s*\(?(?P<mark>{_SIGN})\)?\s+(?P<said>[^\W\dA-Z_][^\d]*)")
"""A line of its own without a sign: "* plus one"; a capital or a number is a guest's."""
_MARKED = re.compile(
    rf"\s*(?:\(?(?P<before>{_SIGN})\)?\s*)?(?P<rest>[^\W_].*?)(?:\s*\(?(?P<behind>{_SIGN})\)?)?\s*",
    re.DOTALL,
)


@dataclass(frozen=True, slots=True)
class MarkKey:
    """What one key says: the mark, what rows with it are told, and its cell."""

    mark: str
    said: str
    where: Where


def is_mark_key(text: str) -> bool:
    """True for a cell that says what a mark on a name means.

    >>> [is_mark_key(each) for each in ("* = plus one", "** not invited", "* Ada Orr", "# 12")]
    [True, True, False, False]
    """
    return (_KEY.fullmatch(text) or _BARE.fullmatch(text)) is not None


def with_mark_keys(
    grid: Grid, keys: Sequence[Grid], table: Table
) -> tuple[Table, list[UnusedRow], list[Finding]]:
    """The table with the words of keys as notes of the rows so marked, and the marks off the names.

    A mark of which two keys say different things stays where it is, and its names are asked about.
    One note tells which mark was read as which words, and how often.
    """
    known = _keys(grid, keys)
    if not known:
        return table, [], []
    places = [column.index for column in table.columns if column.meaning not in ADDRESSES]
    width = max([column.index for column in table.columns] + [len(r.cells) for r in table.rows]) + 1
    explained = {key.where for key in known.values()}
    rows, unused, times = list[Row](), list[UnusedRow](), Counter[MarkKey]()
    for row in table.rows:
        if row.filled and all(cell.where in explained for cell in row.filled):
            unused.append(UnusedRow(table.sheet, row.number, _WHY))
            continue
        marked = {at: found for at in places if (found := _marked(row.cell(at), known))}
        times.update({key for _, keys in marked.values() for key in keys})
        rows.append(_noted(row, marked, width) if marked else row)
    if not times:
        return table, [], []
    column = Column(width, column_letters(width + 1), "", "notes", "content")
    made = replace(table, rows=tuple(rows), columns=(*table.columns, column))
    return made, unused, [_told(times)]


def _keys(grid: Grid, keys: Sequence[Grid]) -> Mapping[str, MarkKey]:
    """Mark → the one key that explains it."""
    texts = (text for row in grid.rows for _, text in row.texts)
    if not keys and not any(map(_OPENS.match, texts)):  # no cell is made for it
        return {}
    lines = [*key_lines(grid, alone=False)]
    lines += [line for sheet in keys if sheet is not grid for line in key_lines(sheet, alone=True)]
    cells = Counter((line.cells[0].sheet, line.cells[0].row) for line in lines)
    found: dict[str, MarkKey | None] = {}
    for line in lines:
        lone = cells[line.cells[0].sheet, line.cells[0].row] == 1
        told = _KEY.fullmatch(line.text) or (_BARE.fullmatch(line.text) if lone else None)
        if told is None:
            continue
        key = MarkKey(told["mark"], told["said"].strip(" .,;"), line.cells[0])
        other = found.setdefault(key.mark, key)
        if other is not None and other.said != key.said:
            found[key.mark] = None
    return {mark: key for mark, key in found.items() if key is not None}


def _marked(
    cell: Cell | None, known: Mapping[str, MarkKey]
) -> tuple[Cell, tuple[MarkKey, ...]] | None:
    """A cell without its marks, and what they say; None without a mark that is explained."""
    if cell is None or not cell.filled or not known:
        return None
    text = cell.text.strip()
    if text.strip("()") in known:
        return replace(cell, text=""), (known[text.strip("()")],)
    found = _MARKED.fullmatch(text)
    marks = [found["before"], found["behind"]] if found else []
    keys = tuple(known[mark] for mark in marks if mark in known)
    if found is None or len(keys) != sum(mark is not None for mark in marks) or not keys:
        return None
    return replace(cell, text=found["rest"]), keys


def _noted(row: Row, marked: Mapping[int, tuple[Cell, tuple[MarkKey, ...]]], index: int) -> Row:
    """The row without its marks, their words in a column of notes; the place is the marked cell."""
    cells: list[Cell | None] = [*row.cells, *(None,) * (index - len(row.cells))]
    for at, (cell, _) in marked.items():
        cells[at] = cell
    said = "; ".join(dict.fromkeys(key.said for _, keys in marked.values() for key in keys))
    first = next(iter(marked.values()))[0]
    return replace(row, cells=(*cells, Cell(said, first.where)))


def _told(times: Mapping[MarkKey, int]) -> Finding:
    said = "; ".join(
        f"{key.mark} as “{key.said}” ({key.where}), {count} row{'s' if count > 1 else ''}"
        for key, count in times.items()
    )
    text = f"Rows with a mark that the list explains have its words as a note: {said}."
    return finding("legend", next(iter(times)).where, text, "Nothing to do if that is meant.")
