"""Tables that lie on their side: the fields one below the other, the guests side by side.

Cards are such tables too: the fields of one guest below those of another, in two columns. Either is
turned, so that it is read as any other; each cell keeps the place where it stands in the list.
"""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from addressing.guestlist.grid import Cell, Grid, Row
from addressing.guestlist.tables.claims import ADDRESSES, NAMES
from addressing.guestlist.tables.header_rows import LOOKED_AT
from addressing.guestlist.tables.meanings import exact_meaning, fold
from addressing.records.findings import Finding, Severity
from addressing.where import Where

_ENOUGH = 3
"""Fields that such a table names at least."""
_MOSTLY = 0.6
"""The share of its rows that begin with the name of a field."""

_Label = tuple[str, int]
"""A field: its name, folded, and how often it stood before in the same card."""


@dataclass(frozen=True, slots=True)
class _Card:
    """The rows of one guest, or of all of them side by side, by their fields."""

    rows: dict[_Label, Row]


def turned(grid: Grid) -> Grid | None:
    """The sheet with its guests one below the other; None for one that stands upright."""
    left = min((texts[0][0] for row in grid.rows if (texts := row.texts)), default=0)
    begun = [(row, label) for row in grid.rows if (label := _text(row, left))]
    if not _are_fields([label for _, label in begun], grid) or _has_upright_header(grid):
        return None
    first = next(place for place, (_, label) in enumerate(begun) if exact_meaning(label))
    cards = _cards(begun[first:])
    fields = list(dict.fromkeys(field for card in cards for field in card.rows))
    width = max(len(row.cells) for row in grid.rows)
    head = [_first_row(cards, field) for field in fields]
    header = Row(grid.sheet, head[0].number, tuple(row.cell(left) for row in head))
    guests = tuple(_guests(grid, cards, fields, range(left + 1, width)))
    hidden = frozenset(index for index, row in enumerate(head) if row.hidden)
    return replace(
        grid, rows=(header, *guests), hidden_columns=hidden, merges=(), rules=()
    )  # what was merged is spread already, and a rule's cells are others


def on_side(grid: Grid) -> Finding:
    """The note that a table was read so."""
    where = grid.rows[0].filled[0].where if grid.rows else Where(grid.file, grid.sheet)
    name = f"The table on “{grid.sheet}”" if grid.sheet else f"The table of {grid.file}"
    text = f"{name} lies on its side: each guest's fields stand one below the other. It is read so."
    return Finding(Severity.NOTE, "table-on-its-side", where, text, "Nothing to do.")


def _text(row: Row, index: int) -> str:
    held = row.held[index] if index < len(row.held) else None
    return held if isinstance(held, str) else held.text if held is not None else ""


def _are_fields(labels: Sequence[str], grid: Grid) -> bool:
    """True when the first column names fields of guests, in nearly all rows."""
    meanings = [hit.meaning for label in labels if (hit := exact_meaning(label)) is not None]
    found = frozenset(meanings)
    return (
        len(found) >= _ENOUGH
        and bool(found & NAMES)
        and bool(found & ADDRESSES)
        and len(meanings) >= _MOSTLY * len(grid.rows)
    )


def _has_upright_header(grid: Grid) -> bool:
    """True when a row names several fields itself, or nothing but fields."""
    return any(map(_is_header, grid.rows[:LOOKED_AT]))


def _is_header(row: Row) -> bool:
    texts = [text for _, text in row.texts]
    found = {hit.meaning for text in texts if (hit := exact_meaning(text)) is not None}
    return len(found) >= _ENOUGH or len(found) == len(texts) > 1


def _cards(begun: Sequence[tuple[Row, str]]) -> list[_Card]:
    """The rows card by card: the first field again begins the next one."""
    opens = fold(begun[0][1])
    cards: list[_Card] = []
    seen: Counter[str] = Counter()
    for row, label in begun:
        name = fold(label)
        if name == opens or not cards:
            cards.append(_Card({}))
            seen.clear()
        cards[-1].rows[name, seen[name]] = row
        seen[name] += 1
    return cards


def _first_row(cards: Sequence[_Card], field: _Label) -> Row:
    return next(card.rows[field] for card in cards if field in card.rows)


def _guests(
    grid: Grid, cards: Sequence[_Card], fields: Sequence[_Label], columns: range
) -> Iterator[Row]:
    """Each guest as a row; its number is the column's, or of cards that of their first row."""
    for card in cards:
        top = min(row.number for row in card.rows.values())
        for index in columns:
            cells = [row.cell(index) if (row := card.rows.get(f)) else None for f in fields]
            filled = [cell for cell in cells if cell is not None and cell.filled]
            if not filled:
                continue
            number = index + 1 if len(cards) == 1 else top
            struck = all(cell.wholly_struck for cell in filled)
            hidden = index in grid.hidden_columns
            yield Row(grid.sheet, number, tuple[Cell | None, ...](cells), hidden, struck)
