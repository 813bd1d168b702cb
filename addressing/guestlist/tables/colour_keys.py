"""Keys to a list's colours ("yellow = ask Dad first"): their words are remarks of such rows."""

import re
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass, replace
from functools import cache

from addressing.guestlist.asking import finding
from addressing.guestlist.colours import colour_word, colour_words
from addressing.guestlist.grid import Cell, Column, Grid, Row, Table
from addressing.guestlist.tables.key_lines import key_lines, swatches
from addressing.records.findings import Finding
from addressing.records.guests import Cited, UnusedRow
from addressing.tables import table as read_table
from addressing.where import Where, column_letters

_WHOLE_COLUMN = 0.8
"""A column coloured in so many of its rows is a column that looks so, not rows set apart."""
_WHY = "explains the list's own colours"
_OTHER_LOOKS = (
    r"crossed[ -](?:out|off)|struck(?: through)?|strike ?through|bold|italics?|underlined?"
)
_SIGN = r"(?:\s*[=:–—→]\s*|\s+-+>?\s+|\s+(?:means|is|are)\s+)"
_LONGEST = 300


@dataclass(frozen=True, slots=True)
class ColourKey:
    """What one key says: the colour's plain word, what rows of it are told, and its cell."""

    colour: str
    said: str
    where: Where
    shade: str | None = None
    """The very colour (RGB), where the key shows it."""


def with_colour_keys(
    grid: Grid, keys: Sequence[Grid], table: Table
) -> tuple[Table, list[UnusedRow], list[Finding]]:
    """The table with the words of keys as notes of the rows in their colours, without the keys.

    `keys` are the workbook's sheets of keys. One note tells which colour was read as which words,
    and how often.
    """
    read = read_as(grid, keys, table)
    if not read:
        return table, [], []
    coloured = row_colours(table)
    width = max([column.index for column in table.columns] + [len(r.cells) for r in table.rows]) + 1
    places = {key.where for key in (*_keys(grid, ()), *read.values())}
    rows, unused, times = list[Row](), list[UnusedRow](), Counter[ColourKey]()
    for row in table.rows:
        plain = _without_keys(row, places)
        if not plain.filled:
            unused.append(UnusedRow(table.sheet, row.number, _WHY))
            continue
        key = read.get(coloured[row.number] or "")
        if key is not None:
            times[key] += 1
            plain = _noted(plain, key, width)
        rows.append(plain)
    if not times:
        return table, [], []
    column = Column(width, column_letters(width + 1), "", "notes", "content")
    made = replace(table, rows=tuple(rows), columns=(*table.columns, column))
    return made, unused, [_told(times)]


def is_colour_key(text: str) -> bool:
    """True for a cell that says nothing but what looks mean.

    >>> is_colour_key("Yellow = declined. Crossed out = no"), is_colour_key("Violet Orr: a friend")
    (True, False)
    """
    found = _pattern().match(text.strip())
    return found is not None and len(text) <= _LONGEST


def is_keys(row: Row) -> bool:
    """True for a row of nothing but keys."""
    return bool(row.filled) and all(is_colour_key(cell.text) for cell in row.filled)


def read_as(grid: Grid, sheets: Sequence[Grid], table: Table) -> Mapping[str, ColourKey]:
    """Colour of rows (RGB) → the one key that is surely meant by it."""
    colours = {colour for colour in row_colours(table).values() if colour}
    keys = (*_keys(grid, sheets), *_shown_beside(grid, table, colours)) if colours else ()
    found: dict[str, ColourKey] = {}
    if not keys:
        return found
    sure = {next(iter(words)) for c in colours if len(words := colour_words(c)) == 1}
    for colour in colours:
        words = colour_words(colour)
        words = words if len(words) == 1 else words - sure  # beside yellow, gold is the orange one
        shown = [key for key in keys if key.shade == colour]
        meant = [*shown, *(key for key in keys if key.shade is None and key.colour in words)]
        if len({key.said for key in meant}) == 1:
            found[colour] = meant[0]
    return found


def row_colours(table: Table) -> dict[int, str | None]:
    """Row → the colour that sets it apart, colours of whole columns left out."""
    columns = {column.index for column in table.columns}
    often = Counter(pair for row in table.rows if row.colours for pair in set(row.colours))
    if not often:
        return dict.fromkeys(row.number for row in table.rows)
    whole = {pair for pair, times in often.items() if times >= len(table.rows) * _WHOLE_COLUMN}
    found: dict[int, str | None] = {}
    for row in table.rows:
        own = Counter(
            colour
            for index, colour in row.colours
            if index in columns and (index, colour) not in whole
        )
        found[row.number] = own.most_common(1)[0][0] if own else None
    return found


def _keys(grid: Grid, sheets: Sequence[Grid]) -> tuple[ColourKey, ...]:
    """All keys in the cells of a sheet, and of the sheets that are nothing but keys."""
    lines = [*key_lines(grid, alone=False)]
    others = [sheet for sheet in sheets if sheet is not grid]
    lines += [line for sheet in others for line in key_lines(sheet, alone=True)]
    said = tuple(key for line in lines if is_colour_key(line.text) for key in _keys_of(line))
    told = {_place(line) for line in lines if is_colour_key(line.text)}
    shown = (each for sheet in others for each in swatches(sheet, alone=True))
    return (*said, *(_shown(*each) for each in shown if _place(each[1]) not in told))


def _place(said: Cited) -> tuple[str | None, int | None]:
    return said.cells[0].sheet, said.cells[0].row


def _shown(shade: str, said: Cited) -> ColourKey:
    return ColourKey(colour_word(shade), said.text.strip(), said.cells[0], shade)


def _shown_beside(grid: Grid, table: Table, colours: AbstractSet[str]) -> tuple[ColourKey, ...]:
    """Swatches of the rows' colours beside the list, in columns that are no part of it."""
    own = {c.letters for c in table.columns if c.header or c.meaning not in (None, "ignore")}
    return tuple(
        _shown(shade, said)
        for shade, said in swatches(grid, alone=False)
        if shade in colours and (said.cells[0].cell or "").rstrip("0123456789") not in own
    )


def _keys_of(line: Cited) -> Iterator[ColourKey]:
    found = list(_pattern().finditer(line.text))
    ends = [each.start() for each in found[1:]] + [len(line.text)]
    for each, end in zip(found, ends, strict=True):
        said = line.text[each.end() : end].strip(" .,;/|\n")
        if each["colour"] and said:
            yield ColourKey(_words()[each["colour"].casefold()], said, line.cells[0])


@cache
def _words() -> dict[str, str]:
    return {row["word"]: row["colour"] for row in read_table("colour_words")}


@cache
def _pattern() -> re.Pattern[str]:
    """What opens a key: "in yellow =", "Highlighted green rows:", "crossed out is"."""
    known = "|".join(sorted(_words(), key=len, reverse=True))
    before = r"(?:(?:in|all|any(?:one|thing)?|rows?|the|names?|highlighted|shaded|light|dark)\s+)*"
    behind = r"(?:\s+(?:rows?|ones?|names?|cells?|people|highlight(?:s|ed|ing)?|fill(?:ed)?|text))*"
    looks = rf"(?:(?P<colour>{known})|{_OTHER_LOOKS})"
    return re.compile(
        rf"(?:^|(?<=[\s.,;/|(])){before}\b{looks}{behind}{_SIGN}(?=\S)", re.IGNORECASE
    )


def _without_keys(row: Row, places: set[Where]) -> Row:
    if not any(cell.where in places for cell in row.filled):
        return row
    cells = (None if cell is not None and cell.where in places else cell for cell in row.cells)
    return replace(row, cells=tuple(cells))


def _noted(row: Row, key: ColourKey, index: int) -> Row:
    """The row with the key's words in a column of notes; its own first cell is their place."""
    own = tuple(row.cells)
    note = Cell(key.said, row.filled[0].where)
    return replace(row, cells=(*own, *(None,) * (index - len(own)), note))


def _told(times: Mapping[ColourKey, int]) -> Finding:
    said = "; ".join(
        f"{key.colour} as “{key.said}” ({key.where}), {count} row{'s' if count > 1 else ''}"
        for key, count in times.items()
    )
    text = f"Rows in a colour that the list explains have its words as a note: {said}."
    first: Sequence[ColourKey] = [*times]
    return finding("legend", first[0].where, text, "Nothing to do if the colours are right.")
