"""Where a header stands, above a table and further down, and what it says for each column."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from itertools import pairwise
from math import ceil
from statistics import median

from addressing.guestlist.grid import Cell, Grid, Row
from addressing.guestlist.tables.claims import ADDRESSES, NAMES
from addressing.guestlist.tables.contents import kind_of
from addressing.guestlist.tables.labelled import is_of_a_set
from addressing.guestlist.tables.meanings import Hit, exact_meaning, fold, meaning_of

LOOKED_AT = 20
"""Non-empty rows from the top among which the header is looked for."""
_DATA = frozenset({"postcode", "street", "address", "place", "email", "phone"})
_ENOUGH = 2
_WIDE = 3
"""Cells of a row that one header alone can't head."""
_MOSTLY = 0.6
_NEARLY_ALL = 0.75
_SAID_OF_GUESTS = frozenset(
    {
        "guest",
        "reply",
        "declined",
        "children",
        "by_hand",
        "ignore",
        "elsewhere",
        "household",
        "invited_count",
        "adult_count",
    }
)
"""Meanings whose headers are also words of a guest's own row."""


def header_place(grid: Grid, pins: Mapping[str, Hit]) -> int | None:
    """The index of the row with most known headers among the first ones; None without any."""
    best, best_score = None, 0.0
    for place, row in enumerate(grid.rows[:LOOKED_AT]):
        below = grid.rows[place + 1 : place + 1 + LOOKED_AT]
        if len(row.filled) == 1 and _width(below) >= _WIDE:
            continue  # a title, or "FAMILY" over the first part of the list
        if place and not below:
            continue  # a sum at the end
        score = _header_score(row, pins)
        if score > best_score:
            best, best_score = place, score
    return best


def _width(rows: Sequence[Row]) -> float:
    """How many cells of these rows are filled, as most have it; 0 without rows."""
    return median([len(row.filled) for row in rows]) if rows else 0.0


def _header_score(row: Row, pins: Mapping[str, Hit]) -> float:
    """How much a row looks like a header: known words, less whatever looks like an address."""
    cells = [cell for cell in row.cells if cell is not None and cell.text]
    if not cells:
        return 0.0
    hits = sum(_header_weight(cell, pins) for cell in cells)
    data = sum(kind_of(cell) in _DATA for cell in cells)
    names = sum(not _header_weight(cell, pins) and kind_of(cell) == "name" for cell in cells)
    if hits < _ENOUGH and hits < len(cells) / _ENOUGH:
        return 0.0
    return hits - _ENOUGH * data - names


def looks_like_data(row: Row) -> bool:
    """An address beside something else: more than a title says."""
    kinds = [kind_of(cell) for cell in row.filled]
    return len(kinds) > _ENOUGH and sum(kind in _DATA for kind in kinds) >= _ENOUGH


def _header_weight(cell: Cell, pins: Mapping[str, Hit]) -> float:
    if cell.kind != "text":
        return 0.0
    if fold(cell.text) in pins:
        return 3.0
    if exact_meaning(cell.text) is not None or is_of_a_set(cell.text):
        return 1.0
    return _NEARLY_ALL if meaning_of(cell.text) is not None else 0.0


def later_headers(grid: Grid, start: int) -> list[int]:
    """Rows further down that begin another table; a repeat of the same header begins none."""
    places = []
    current = {index: fold(text) for index, text in enumerate(header_texts(grid, start)) if text}
    for place in range(start + 1, len(grid.rows)):
        row = grid.rows[place]
        if not _is_header(row) or repeats(row, current):
            continue
        places.append(place)
        current = {index: fold(text) for index, text in enumerate(header_texts(grid, place))}
    return places


def _is_header(row: Row) -> bool:
    """Inside a list only a row of nothing but known headers begins a new table.

    One of them at least is a word that no guest has: "Guest" and "declined" are said of guests.
    """
    texts = row.texts
    spare = len(texts) - ceil(len(texts) * _NEARLY_ALL)
    found: set[str] = set()
    for _, text in texts:
        hit = exact_meaning(text)
        if hit is not None:
            found.add(hit.meaning)
        elif spare == 0:
            return False
        else:
            spare -= 1
    return (
        len(found) >= _ENOUGH
        and bool(found - _SAID_OF_GUESTS)
        and all(cell.kind == "text" for cell in row.filled)
    )


def header_texts(grid: Grid, place: int) -> list[str]:
    """The header of each column from A; an upper header over several columns is joined to it."""
    row = grid.rows[place]
    lower = [cell.text if cell is not None else "" for cell in row.cells]
    upper = _upper_texts(grid, place)
    width = max(len(lower), max(upper, default=-1) + 1)
    lower += [""] * (width - len(lower))
    return [_joined(upper.get(index, ""), text) for index, text in enumerate(lower)]


def _joined(upper: str, lower: str) -> str:
    """Join two headers where the upper one tells more than the lower alone."""
    if not upper or not lower or upper == lower:
        return lower or upper
    both = f"{upper} {lower}"
    alone, joined = exact_meaning(lower), exact_meaning(both)
    if joined is not None and (alone is None or joined.meaning == alone.meaning):
        return both
    return lower if alone is not None else both


def _upper_texts(grid: Grid, place: int) -> dict[int, str]:
    """The row just above the header, when it is a header too and no title: two texts or more."""
    if place == 0 or grid.rows[place - 1].number != grid.rows[place].number - 1:
        return {}
    above = grid.rows[place - 1]
    if len(above.filled) < _ENOUGH or any(kind_of(cell) in _DATA for cell in above.filled):
        return {}
    spans = {
        merge.left: merge.right
        for merge in grid.merges
        if merge.top <= above.number <= merge.bottom and merge.right > merge.left
    }
    known = sum(exact_meaning(cell.text) is not None for cell in above.filled)
    if not spans and known < len(above.filled) * _MOSTLY:
        return {}
    texts: dict[int, str] = {}
    for index, cell in enumerate(above.cells):
        if cell is not None and cell.text:
            for covered in range(index, spans.get(index, index) + 1):
                texts[covered] = cell.text
    return texts


def repeats(row: Row, header: Mapping[int, str]) -> bool:
    """A row that says what the header says (a page's header printed again)."""
    own = row.texts
    same = sum(_same(text, header.get(index, "")) for index, text in own)
    return len(own) >= min(_ENOUGH, len(header)) > 0 and same >= max(1, len(own) * _MOSTLY)


def _same(text: str, folded: str) -> bool:
    """Whether a text reads as a folded header; folded itself only where its first letter agrees."""
    return text[:1].casefold() == folded[:1] != "" and fold(text) == folded


def side_by_side(headers: Sequence[str], rows: Sequence[Row]) -> list[range]:
    """The columns of each table in the same rows: parted by an empty column, each with names.

    One range over everything when there is one table only, as nearly always.
    """
    width = max([len(headers), *(len(row.cells) for row in rows)], default=0)
    used = {index for index, text in enumerate(headers) if text}
    used.update(i for row in rows for i, held in enumerate(row.held) if held is not None)
    edges = [*(index for index in sorted(used) if index - 1 not in used), width]
    whole = [a for a, b in pairwise(edges) if _is_whole(headers[a:b])]
    if len(whole) < _ENOUGH:
        return [range(width)]
    return [range(a, b) for a, b in pairwise([0, *whole[1:], width])]


def _is_whole(headers: Sequence[str]) -> bool:
    """True when the headers alone name guests and addresses."""
    found = {hit.meaning for text in headers if (hit := exact_meaning(text)) is not None}
    return bool(found & (NAMES | {"guest"})) and bool(found & ADDRESSES)


def cut(row: Row, columns: range) -> Row | None:
    """The part of a row that lies in some columns; None when nothing is filled there."""
    cells = tuple(cell if index in columns else None for index, cell in enumerate(row.cells))
    part = replace(row, cells=cells)
    struck = all(cell.wholly_struck for cell in part.filled)
    return replace(part, struck=struck) if part.filled else None
