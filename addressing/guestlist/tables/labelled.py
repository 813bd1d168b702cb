"""Numbered sets of columns, each with a label in the row: address books write their lists so.

"Address 1 - Label" says whether the columns of "Address 1" are the home's or the firm's, and
another row may have it the other way round; "Relation 1 - Label" says who "Relation 1 - Value" is.
The cells are moved under headers that say it; each keeps the place where it stands in the list.
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from addressing.guestlist.grid import Cell, Grid, Row
from addressing.guestlist.tables.meanings import ADDRESS_PARTS, Hit, exact_meaning, fold, signs

_HEADER = re.compile(r"^(?P<stem>\D*\w)\s*(?P<number>[1-9])\s*(?:[-–—:/.]\s*)?(?P<part>\D.*)$")
_ADDRESS, _RELATION = 1, 2
_LABEL, _WHOLE = 1, 2
_HOME, _WORK, _SECOND = "Home", "Work", "Second home"
_WHOSE = (_HOME, _SECOND, _WORK, "")
_KIN = {"name": "Spouse", "children": "Children"}
_LINES = ("street", "po_box")

Target = tuple[str, str]
"""Whose it is ("Home", "Work", "Second home", or "" for a person) and the header of the part."""
_SAID: Target = ("", "")
"""Of the whole of an address whose parts say all of it."""


@dataclass(frozen=True, slots=True)
class _Set:
    """The columns of one numbered set: of its label, and of its parts by their header."""

    kind: int
    label: int
    parts: Mapping[str, int]


def is_of_a_set(header: str) -> bool:
    """True for a column of a numbered set.

    >>> is_of_a_set("Address 1 - Street"), is_of_a_set("Address 1"), is_of_a_set("Line 1 - Street")
    (True, False, False)
    """
    match = _HEADER.match(header)
    return match is not None and fold(match["stem"]) in signs("set-sign")


def by_labels(grid: Grid, place: int, pins: Mapping[str, Hit]) -> Grid:
    """The sheet with what stands in labelled sets under headers that say whose it is.

    `place` is the header's row. A sheet without such sets, or one whose sets a docket pins, stays
    as it is; so does what doesn't fit: a third address, the relation to a friend.
    """
    headers = [cell.text if cell is not None else "" for cell in grid.rows[place].cells]
    sets = _sets(headers)
    if not sets or any(
        fold(headers[index]) in pins for one in sets for index in one.parts.values()
    ):
        return grid
    rows = grid.rows[place + 1 :]
    width = max(len(row.cells) for row in grid.rows[place:])
    moves = [_moves(row, sets) for row in rows]
    firsts = {
        target: index for move in reversed(moves) for index, target in move.items() if target[1]
    }
    targets = sorted(firsts, key=lambda target: (_WHOSE.index(target[0]), firsts[target]))
    columns = {target: width + number for number, target in enumerate(targets)}
    moved = [_moved(row, move, columns, width) for row, move in zip(rows, moves, strict=True)]
    letters = (*range(width), *(firsts[target] for target in targets))
    return replace(
        grid,
        rows=(*grid.rows[:place], _head(grid.rows[place], moved, targets, width), *moved),
        letters=tuple(grid.letters_of(index) for index in letters),
    )


def _sets(headers: Sequence[str]) -> list[_Set]:
    """The numbered sets among the headers, those alone that have a label."""
    found: dict[tuple[int, int], dict[str, int]] = {}
    for index, header in enumerate(headers):
        match = _HEADER.match(header)
        kind = signs("set-sign").get(fold(match["stem"])) if match else None
        if match is not None and kind is not None:
            found.setdefault((kind, int(match["number"])), {})[match["part"].strip()] = index
    sets = []
    for (kind, _), parts in sorted(found.items()):
        labels = [part for part in parts if signs("label-sign").get(fold(part)) == _LABEL]
        others = {part: index for part, index in parts.items() if part not in labels}
        if labels and others:
            sets.append(_Set(kind, parts[labels[0]], others))
    return sets


def _moves(row: Row, sets: Sequence[_Set]) -> dict[int, Target]:
    """Where the cells of a row's sets belong, by the column where they stand."""
    moves: dict[int, Target] = {}
    filled = [one for one in sets if any(_text(row, i) for i in one.parts.values())]
    for one in filled:
        if one.kind == _RELATION:
            moves.update(_related(row, one))
    addresses = [one for one in filled if one.kind == _ADDRESS]
    for whose, one in _owners(row, addresses):
        moves.update(_placed(row, one, whose))
    return moves


def _related(row: Row, one: _Set) -> dict[int, Target]:
    hit = exact_meaning(_text(row, one.label))
    partner = hit is not None and (hit.meaning != "name" or hit.ordinal == 2)  # noqa: PLR2004
    if hit is None or hit.meaning not in _KIN or not partner:
        return {}
    return {index: ("", _KIN[hit.meaning]) for index in one.parts.values() if _text(row, index)}


def _owners(row: Row, sets: Sequence[_Set]) -> list[tuple[str, _Set]]:
    """Whose each address is: one home, one firm, one second home; the same address once."""
    owners: dict[str, _Set] = {}
    left: list[_Set] = []
    for one in sets:
        words = set(fold(_text(row, one.label)).split())
        if words & signs("work-sign").keys() and _WORK not in owners:
            owners[_WORK] = one
        elif words & signs("home-sign").keys() and _HOME not in owners:
            owners[_HOME] = one
        else:
            left.append(one)
    for one in left:
        free = next((whose for whose in (_HOME, _SECOND) if whose not in owners), None)
        if free is not None and not any(
            _words(row, one) == _words(row, o) for o in owners.values()
        ):
            owners[free] = one
    return list(owners.items())


def _placed(row: Row, one: _Set, whose: str) -> dict[int, Target]:
    """The parts of an address; the whole of it only where it says more than its parts."""
    parts = {index: part for part, index in one.parts.items() if _text(row, index)}
    whole = {i for i, part in parts.items() if signs("label-sign").get(fold(part)) == _WHOLE}
    apart = {i: part for i, part in parts.items() if i not in whole and _is_part(part)}
    if whole and any(_meaning(part) in _LINES for part in apart.values()):
        lines = (i for i, part in apart.items() if _meaning(part) != "country")
        said = {word for i in lines for word in fold(_text(row, i)).split()}
        if said <= {word for i in whole for word in fold(_text(row, i)).split()}:
            return {**dict.fromkeys(whole, _SAID), **{i: (whose, p) for i, p in apart.items()}}
    return {i: (whose, "Address" if i in whole else part) for i, part in parts.items()}


def _meaning(part: str) -> str | None:
    hit = exact_meaning(part)
    return hit.meaning if hit is not None else None


def _is_part(part: str) -> bool:
    return _meaning(part) in ADDRESS_PARTS


def _words(row: Row, one: _Set) -> frozenset[str]:
    return frozenset(word for i in one.parts.values() for word in fold(_text(row, i)).split())


def _text(row: Row, index: int) -> str:
    held = row.held[index] if index < len(row.held) else None
    return held if isinstance(held, str) else held.text if held is not None else ""


def _head(top: Row, rows: Sequence[Row], targets: Sequence[Target], width: int) -> Row:
    """The header; a column that was moved away whole loses its own."""
    filled = {index for row in rows for index, held in enumerate(row.held) if held is not None}
    where = top.filled[0].where
    added = [Cell(f"{whose} {part}".strip(), where) for whose, part in targets]
    kept = [
        cell if index in filled or not (cell and is_of_a_set(cell.text)) else None
        for index, cell in enumerate(top.cells)
    ]
    return _wider(replace(top, cells=tuple(kept)), width, added)


def _moved(row: Row, move: Mapping[int, Target], columns: Mapping[Target, int], width: int) -> Row:
    """The row with its cells moved; what finds its place taken stays where it is."""
    added: list[Cell | None] = [None] * len(columns)
    kept: list[Cell | None] = list(row.cells)
    for index, target in move.items():
        place = columns.get(target, width) - width
        if target == _SAID:
            kept[index] = None
        elif added[place] is None:
            added[place], kept[index] = row.cell(index), None
    return _wider(replace(row, cells=tuple(kept)), width, added)


def _wider(row: Row, width: int, added: Sequence[Cell | None]) -> Row:
    cells = [*row.cells, *[None] * (width - len(row.cells))]
    return replace(row, cells=(*cells, *added))
