"""Cells that stand for others: "same as above", ditto marks, "same as Felix".

They are filled with the cells that they mean before the row is read, so each word keeps the place
where it is written, and what is doubtful about an address is told of everybody who has it.
"""

import re
from dataclasses import dataclass, replace
from functools import cache, lru_cache
from itertools import chain

from addressing.guestlist.files.by_number import sole_number
from addressing.guestlist.folding import fold
from addressing.guestlist.grid import Cell, Row, Table
from addressing.guestlist.homes.row_address import PLACES
from addressing.guestlist.people.names import known_title
from addressing.guestlist.people.vocabulary import row_words, words
from addressing.records.swiftly import swiftly
from addressing.tables import table as rows_of
from addressing.where import Where

_SHORT = 3
"""Letters of a name that is a longer one's beginning, at least."""
_AREA = frozenset(("city", "region", "postcode", "place", "country"))
_STREET = frozenset(("address", "house_number", "street", "street2", "unit"))
_CLAUSE = re.compile(r"[,;.(]|\s[-–—]+\s")
_JOINT = re.compile(r"\s*(?:[&+/;\n]|\band\b)\s*", re.IGNORECASE)
_MARKS = re.compile(r"[\s.,()\[\]*]+")
_BRACKET_BEHIND = re.compile(r"\s*[(\[]([^()\[\]]+)[)\]]\s*$")


@swiftly
@dataclass(frozen=True, slots=True)
class Filled:
    """A row whose address stands in another; `whence` is that row's cell, None when it has none.

    `unfound` is a cell that refers to somebody who can't be told: no address follows from it.
    """

    row: Row
    whence: Where | None = None
    unfound: Cell | None = None


@cache
def _words(kind: str) -> tuple[str, ...]:
    """The words of one kind, the longest first."""
    found = (row["word"] for row in rows_of("row_words") if row["kind"] == kind)
    return tuple(sorted(found, key=len, reverse=True))


def filled_down(table: Table) -> list[Filled]:
    """The rows of a table with their addresses filled in where they refer to another row."""
    places = {c.index for c in table.columns if c.meaning in PLACES}
    streets = {c.index for c in table.columns if c.meaning in _STREET}
    areas = {c.index for c in table.columns if c.meaning in _AREA}
    filled: list[Filled] = []
    above: Row | None = None
    others = _Others(table)
    for row in table.rows:
        made = _filled(others, row, above, places)
        if made.row is row and above is not None and _begins_same(row, above, streets, areas):
            made = _copied(row, above, areas)
        filled.append(made)
        above = made.row
    return filled


def _filled(others: "_Others", row: Row, above: Row | None, places: set[int]) -> Filled:
    texts = [text for index in places if (text := row.text(index))]
    if texts and not any(map(_points, texts)):
        return Filled(row)
    cells = {index: cell for index in places if (cell := row.cell(index)) and cell.text}
    said = _dittos(others.table, cells)
    lands = {c.index for c in others.table.columns if c.meaning == "country"}
    unsure = next((cells[i] for i in sorted(said) if fold(cells[i].text) in _words("same")), None)
    if unsure is not None and _may_be_another(others, row, above):
        return replace(_copied(row, None, places), unfound=unsure)
    if said and above is not None and _texts(above, places) == {}:
        above = _placed_above(others, row, above)
    if said:
        # When nothing else is written, a ditto in one cell means the whole address.
        return _copied(row, above, places if said >= cells.keys() - lands else said)
    named = [index for index, cell in cells.items() if _named(cell.text)]
    if len(named) == 1 and cells.keys() <= {*named, *lands}:
        other = others.row_of(row, _named(cells[named[0]].text))
        made = _copied(row, other, places)
        return made if other is not None else replace(made, unfound=cells[named[0]])
    other = None if cells else _noted(others, row)
    return _copied(row, other, places) if other is not None else Filled(row)


def _may_be_another(others: "_Others", row: Row, above: Row | None) -> bool:
    """True for "same" below another family's row, where one further up has this row's name."""
    mine = _surnames(others.table, row)
    if not mine or above is None or mine & _surnames(others.table, above):
        return False
    before = (other for other in others.table.rows if other.number < row.number)
    return any(
        mine & _surnames(others.table, other) and _has_address(others.table, other)
        for other in before
    )


def _placed_above(others: "_Others", row: Row, above: Row) -> Row:
    """For a mark below a row that leaves its address to the one above: the row that has one."""
    mine = _surnames(others.table, row)
    rows = [other for other in others.table.rows if other.number < above.number]
    last = next((r for r in reversed(rows) if _has_address(others.table, r)), None)
    return last if last is not None and mine & _surnames(others.table, last) else above


def _surnames(table: Table, row: Row) -> set[str]:
    """The family names of a row, folded: from their own column, else the last word of each name."""
    own = table.column("family")
    cell = row.cell(own.index) if own else None
    if cell is not None:
        return set(fold(cell.text).split()) - _between()
    column = table.column("name")
    cell = row.cell(column.index) if column else None
    parts = _JOINT.split(cell.text.split(",")[0]) if cell is not None else []
    last = (part.split()[-1] for part in parts if part.split())
    return {fold(word) for word in last if known_title(word) is None}


def _noted(others: "_Others", row: Row) -> Row | None:
    """The row that a note names where no address is: "with Rosalind, one invitation"."""
    columns = (c for c in others.table.columns if c.meaning == "notes")
    notes = (row.cell(column.index) for column in columns)
    for note in notes:
        name = _named(_CLAUSE.split(note.text)[0]) if note is not None else ""
        if name and (others.table.numbers or not name[:1].isdigit()):
            return others.row_of(row, name)
    return None


def _dittos(table: Table, cells: dict[int, Cell]) -> set[int]:
    """The cells that mean the one above: marks anywhere, words where a street belongs."""
    streets = {c.index for c in table.columns if c.meaning in _STREET}
    worded = {index for index, cell in cells.items() if fold(cell.text) in _above_words()}
    marked = {index for index, cell in cells.items() if _is_mark(cell.text)}
    return marked | (worded if (worded | marked) & streets else set())


@cache
def _above_words() -> frozenset[str]:
    return frozenset(_words("above"))


@cache
def _above_marks() -> frozenset[str]:
    return frozenset(word for word in _words("above") if not word[0].isalnum())


def _is_mark(text: str) -> bool:
    bare = _MARKS.sub("", text).strip("-–—")
    return bool(bare) and set(bare) <= _above_marks()


def _named(text: str) -> str:
    """Whom "same as Felix" names, folded; "" where it names nobody."""
    bracket = _BRACKET_BEHIND.search(text)
    if bracket is not None and fold(bracket[1]).split()[-1].removesuffix("s") in words("relation"):
        text = text[: bracket.start()]  # "same as Lorne (roommates)"
    number = sole_number(text)
    if number is not None:
        return number
    said = fold(re.sub(r"\bw/", "with ", text) if "w/" in text else text)
    if not said.startswith(_fronts()):
        return ""
    front = next(word for word in _words("above-of") if said.startswith(f"{word} "))
    named = said.removeprefix(front).strip(" .#")
    return "" if any(mark.isdigit() for mark in named) else named


@cache
def _fronts() -> tuple[str, ...]:
    """What stands before whom a cell names, all at once: of most cells none does."""
    return tuple(f"{word} " for word in _words("above-of"))


class _Others:
    """The rows of a table that have an address of their own, found by the words of their names."""

    def __init__(self, table: Table) -> None:
        self.table = table
        self._by_word: dict[str, list[tuple[Row, set[str]]]] | None = None

    def row_of(self, row: Row, name: str) -> Row | None:
        """The one row that names somebody so and has an address of its own."""
        if name[:1].isdigit():
            return self._numbered(row, name)
        if name.rpartition(" ")[2] in row_words("relative"):
            return self._relative(row)
        words = set(re.sub(r"\b(\w+?)s\b", r"\1", name.replace(".", "")).split())
        wanted = {word for word in words if word.isalpha()} - _between()
        named = self._named()
        rarest = min((named.get(word, []) for word in wanted), key=len, default=[])
        exact = [other for other, known in rarest if other is not row and wanted <= known]
        found = exact or [other for other in self._shortened(wanted) if other is not row]
        return found[0] if len(found) == 1 else None

    def _relative(self, row: Row) -> Row | None:
        """The one other row of the family name with which this one ends: "her parents"."""
        column = next((c for c in self.table.columns if c.meaning in ("family", "name")), None)
        cell = row.cell(column.index) if column is not None else None
        family = fold(cell.text).split()[-1:] if cell is not None else []
        known = self._named().get(family[0], []) if family else []
        rows = [other for other, _ in known if other is not row]
        return rows[0] if len(rows) == 1 else None

    def _numbered(self, row: Row, number: str) -> Row | None:
        """The one other row with an address that the list counts so."""
        counted = self.table.numbers
        rows = [
            other
            for other in self.table.rows
            if other is not row
            and number in counted.get(other.number, ())
            and _has_address(self.table, other)
        ]
        return rows[0] if len(rows) == 1 else None

    def _shortened(self, wanted: set[str]) -> list[Row]:
        """The rows that have every name, or one that begins so: Theo is written for Theodore."""
        if all(len(word) == 1 for word in wanted):
            return []
        return [
            row
            for row, known in {
                id(row): (row, known) for row, known in chain(*self._named().values())
            }.values()
            if all(any(_is_short(word, name) for name in known) for word in wanted)
        ]

    def _named(self) -> dict[str, list[tuple[Row, set[str]]]]:
        """The rows by each word of their names, noted when a row refers to another at last."""
        if self._by_word is None:
            self._by_word = {}
            for row in self.table.rows:
                words = _name_words(self.table, row) if _has_address(self.table, row) else set()
                for word in words:
                    self._by_word.setdefault(word, []).append((row, words))
        return self._by_word


@cache
def _between() -> frozenset[str]:
    return frozenset(row["word"] for row in rows_of("name_words") if row["kind"] == "and")


def _is_short(word: str, name: str) -> bool:
    initial = len(word) == 1
    return word == name or ((initial or len(word) >= _SHORT) and name.startswith(word))


def _name_words(table: Table, row: Row) -> set[str]:
    meanings = ("name", "given", "family")
    cells = (row.cell(c.index) for c in table.columns if c.meaning in meanings)
    words = {word for cell in cells if cell is not None for word in fold(cell.text).split()}
    return words | {re.sub(r"s$", "", word) for word in words}


def _has_address(table: Table, row: Row) -> bool:
    held = (row.text(column.index) for column in table.columns if column.meaning in PLACES)
    texts = [text for text in held if text]
    return bool(texts) and not any(map(_points, texts))


@lru_cache(maxsize=4096)  # towns and codes recur
def _points(text: str) -> bool:
    """True for a cell that may mean another row's."""
    return _is_mark(text) or _refers(text)


def _refers(text: str) -> bool:
    return fold(text) in _above_words() or bool(_named(text))


def _begins_same(row: Row, above: Row, streets: set[int], areas: set[int]) -> bool:
    """True for the street of the row above without its town: the town is the same."""
    mine = _texts(row, streets)
    return bool(mine) and mine == _texts(above, streets) and not _texts(row, areas)


def _texts(row: Row, indexes: set[int]) -> dict[int, str]:
    return {index: fold(text) for index in indexes if (text := row.text(index))}


def _copied(row: Row, source: Row | None, indexes: set[int]) -> Filled:
    """A row with some of its cells taken from another; a row of nothing else stays as it is."""
    if not any(index not in indexes and c and c.filled for index, c in enumerate(row.cells)):
        return Filled(row)
    cells: list[Cell | None] = list(row.cells)
    cells += [None] * (max(indexes, default=-1) + 1 - len(cells))
    whence: Where | None = None
    for index in indexes:
        cell = source.cell(index) if source is not None else None
        cells[index] = cell if cell is None or not cell.note else replace(cell, note=None)
        whence = whence or (cell.where if cell is not None and cell.text else None)
    return Filled(replace(row, cells=tuple(cells)), whence)
