"""Rows on the way into a grid: pieces joined, comments put beside cells, merged cells spread."""

from bisect import bisect_right
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace

from addressing.guestlist.files.ranges import LAST_COLUMN, place
from addressing.guestlist.files.sheet_part import TooFarError
from addressing.guestlist.files.sheet_rules import MAX_RULES
from addressing.guestlist.grid import Cell, Grid, Merge, PackedCells, Recent, Row, Rule
from addressing.guestlist.repair import repair_text
from addressing.where import Where, cell_name

MAX_BOX = 4_000_000
"""Cells of all rows up to their last one; a list of 100 000 rows has some 2 million."""

MAX_ROWS = 250_000
"""Rows that hold something; a list has some thousands."""

Packed = tuple[str | Cell | None, ...]
"""What a row holds from column A: a text for a plain cell, a Cell for one with more to it."""


@dataclass(slots=True)
class Draft:
    """A row on the way. `colours` are the columns (0 is A) set apart by a colour."""

    packed: Packed
    hidden: bool = False
    colours: tuple[tuple[int, str], ...] = ()


@dataclass(slots=True)
class SheetDraft:
    """A sheet on the way: its rows by number."""

    file: str
    name: str
    hidden: bool = False
    rows: dict[int, Draft] = field(default_factory=dict)
    reached: int = 0
    rules: list[Rule] = field(default_factory=list)

    def add(self, number: int, draft: Draft) -> None:
        """Take a row; one that comes in two pieces is joined.

        Raises:
            TooFarError: the sheet reaches further than a list can.
        """
        self.reached += len(draft.packed)
        if self.reached > MAX_BOX or len(self.rows) > MAX_ROWS:
            raise TooFarError(f"{self.name}!{cell_name(len(draft.packed), number)}")
        before = self.rows.get(number)
        self.rows[number] = _over(before, draft) if before else draft

    def add_notes(self, found: Mapping[str, str]) -> None:
        """Put comments beside their cells, empty ones too; not printed, so no repair is logged."""
        for name, text in found.items():
            column, number = place(name)
            where = Where(self.file, self.name, name)
            note = repair_text(text, where)[0]
            if note and column <= LAST_COLUMN:
                draft = self.rows.setdefault(number, Draft(()))
                held = draft.packed[column - 1] if column <= len(draft.packed) else None
                cell = held if isinstance(held, Cell) else Cell(held or "", where)
                _put(draft, column - 1, replace(cell, note=note))

    def grid(self, merges: Iterable[Merge], hidden_columns: Iterable[int]) -> Grid:
        """The sheet as a grid, its merged cells spread over the rows that they cover."""
        ordered = tuple(sorted(merges, key=lambda merge: (merge.top, merge.left)))
        self._spread(ordered)
        recent = Recent(len(self.rows))
        rows = (self._row(number, recent) for number in sorted(self.rows))
        return Grid(
            self.file,
            self.name,
            tuple(row for row in rows if row is not None),
            self.hidden,
            frozenset(hidden_columns),
            ordered,
            rules=tuple(self.rules[:MAX_RULES]),
        )

    def _spread(self, merges: Iterable[Merge]) -> None:
        """Give the value of a cell that is merged downwards to each row that it covers."""
        numbers = sorted(self.rows)
        for merge in merges:
            top = self.rows.get(merge.top)
            held = top.packed[merge.left] if top and merge.left < len(top.packed) else None
            if not held:
                continue
            where = Where(self.file, self.name, cell_name(merge.left + 1, merge.top))
            cell = held if isinstance(held, Cell) else Cell(held, where)
            first, last = bisect_right(numbers, merge.top), bisect_right(numbers, merge.bottom)
            self.reached += last - first
            if self.reached > MAX_BOX:
                raise TooFarError(str(where))
            for number in numbers[first:last] if cell.text else ():
                _cover(self.rows[number], merge.left, replace(cell, spread=True))

    def _row(self, number: int, recent: Recent) -> Row | None:
        """The row, or None where nothing in it is filled."""
        draft = self.rows[number]
        texts = sum(isinstance(held, str) for held in draft.packed)
        cells = [held for held in draft.packed if isinstance(held, Cell) and held.filled]
        if not texts and not cells:
            return None
        struck = not texts and all(cell.wholly_struck for cell in cells)
        packed = PackedCells((self.file, self.name, number), draft.packed, recent)
        return Row(self.name, number, packed, draft.hidden, struck, draft.colours)


def _over(before: Draft, draft: Draft) -> Draft:
    """A row that the file has in two pieces."""
    width = max(len(before.packed), len(draft.packed))
    old, new = (row.packed + (None,) * (width - len(row.packed)) for row in (before, draft))
    packed = tuple(b if b is not None else a for a, b in zip(old, new, strict=True))
    return Draft(packed, before.hidden or draft.hidden, before.colours + draft.colours)


def _put(draft: Draft, index: int, cell: Cell) -> None:
    packed = list(draft.packed) + [None] * (index + 1 - len(draft.packed))
    packed[index] = cell
    draft.packed = tuple(packed)


def _cover(draft: Draft, index: int, cell: Cell) -> None:
    """Let a merged cell cover an empty one, in a row that holds something."""
    if draft.packed and (index >= len(draft.packed) or not draft.packed[index]):
        _put(draft, index, cell)
