"""A sheet of children by their families, whose parents stand on another: "12 | Orr | Grace | 9".

Each child goes beside the one row of guests that has the family's name, and its number where both
sheets count the families; what can be of nobody, or of several, stays a row of its own.
"""

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from addressing.guestlist.folding import fold
from addressing.guestlist.grid import Cell, Column, Row, Table
from addressing.guestlist.people.vocabulary import row_words
from addressing.guestlist.tables.addresses_beside import Index, Named, named_rows, placed, words_of
from addressing.guestlist.tables.claims import NAMES
from addressing.records.guests import UnusedRow
from addressing.where import column_letters

_MOSTLY = 0.6
"""The part of the rows of such a sheet that must be of guests on the other."""
_FEWEST = 2


@dataclass(frozen=True, slots=True)
class _Child:
    """A row of such a sheet: its place, its family's words and number, what stands there."""

    place: int
    family: frozenset[str]
    number: str
    cells: tuple[Cell, ...]
    notes: tuple[Cell, ...]


def with_children(tables: Sequence[Table]) -> tuple[tuple[Table, ...], tuple[UnusedRow, ...]]:
    """The tables with the children of such sheets beside their families, and those rows."""
    sheets = [table for table in tables if _holds_children(table)]
    others = [table for table in tables if table not in sheets]
    if not sheets or not others:
        return tuple(tables), ()
    guests = Index([each for table in others for each in named_rows(table)])
    found: dict[Table, dict[int, list[_Child]]] = defaultdict(lambda: defaultdict(list))
    unused: list[UnusedRow] = []
    taken: set[tuple[Table, int]] = set()
    for sheet in sheets:
        pairs = [(child, _parents(child, guests)) for child in _children(sheet)]
        known = [(child, home) for child, home in pairs if home is not None]
        if len(known) < _FEWEST or len(known) < _MOSTLY * len(sheet.rows):
            continue
        for child, home in known:
            found[home.table][home.place].append(child)
            taken.add((sheet, child.place))
            why = f"a child of {home.named}"
            unused.append(UnusedRow(sheet.sheet, sheet.rows[child.place].number, why))
    made = [_beside(table, found[table]) if table in found else table for table in tables]
    left = (_without(table, taken) for table in made)
    return tuple(table for table in left if table.rows), tuple(unused)


def _holds_children(table: Table) -> bool:
    """True for a column of children beside one of names, and no address in any row."""
    meant = {column.meaning for column in table.columns}
    if "children" not in meant or not meant & NAMES:
        return False
    return bool(table.rows) and not any(True for row in table.rows for _ in placed(table, row))


def _children(table: Table) -> Iterator[_Child]:
    """The rows that name a child; a ditto, or an empty cell, means the family above."""
    first = min(column.index for column in table.columns)
    family: frozenset[str] = frozenset()
    number = ""
    for place, row in enumerate(table.rows):
        said = " ".join(cell.text for cell in _under(table, row, NAMES) if not _is_ditto(cell))
        family = frozenset(words_of(said)) or family
        counted = row.cell(first)
        if counted is not None and counted.text.strip("#. ").isdecimal():
            number = counted.text.strip("#. ")
        names = _under(table, row, {"children"})
        if names and family:
            ages = [cell.text for cell in _under(table, row, {"age"}) if cell.text.isdecimal()]
            age = f" ({ages[0]})" if ages else ""
            cells = tuple(replace(cell, text=f"{cell.text}{age}") for cell in names)
            yield _Child(place, family, number, cells, tuple(_under(table, row, {"notes"})))


def _under(table: Table, row: Row, meanings: frozenset[str] | set[str]) -> list[Cell]:
    cells = (row.cell(c.index) for c in table.columns if c.meaning in meanings)
    return [cell for cell in cells if cell is not None and cell.filled]


def _is_ditto(cell: Cell) -> bool:
    return fold(cell.text) in row_words("above") or not cell.text.strip("\"'”“〃. ")


def _parents(child: _Child, guests: Index) -> Named | None:
    """The one row that a child can be of: by its family's number, else by its name alone."""
    homes = guests.fitting(Named.of(child.family))
    counted = [
        home for home in homes if child.number in home.table.numbers.get(home.row.number, ())
    ]
    found = counted or homes
    return found[0] if len(found) == 1 else None


def _beside(table: Table, children: dict[int, list[_Child]]) -> Table:
    """A table with children, and what is noted of them, in columns behind its own."""
    width = max(len(row.cells) for row in table.rows)
    width = max([width, *(column.index + 1 for column in table.columns)])
    meanings: list[str] = []
    rows = list(table.rows)
    for place, own in children.items():
        told = [(kind, cell) for child in own for kind, cell in _told(child)]
        cells = [*rows[place].cells, *(None,) * (width - len(rows[place].cells))]
        free = list(range(len(meanings)))
        for kind, cell in told:
            at = next((at for at in free if meanings[at] == kind), len(meanings))
            if at == len(meanings):
                meanings.append(kind)
            else:
                free.remove(at)
            cells += [None] * (width + at + 1 - len(cells))
            cells[width + at] = cell
        rows[place] = replace(rows[place], cells=tuple(cells))
    added = (
        Column(width + at, column_letters(width + at + 1), "", kind, "content")
        for at, kind in enumerate(meanings)
    )
    return replace(table, columns=(*table.columns, *added), rows=tuple(rows))


def _told(child: _Child) -> Iterator[tuple[str, Cell]]:
    yield from (("children", cell) for cell in child.cells)
    yield from (("notes", cell) for cell in child.notes)


def _without(table: Table, taken: set[tuple[Table, int]]) -> Table:
    places = {place for sheet, place in taken if sheet is table}
    if not places:
        return table
    return replace(table, rows=tuple(r for at, r in enumerate(table.rows) if at not in places))
