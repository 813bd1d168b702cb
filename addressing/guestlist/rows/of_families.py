"""Rows of one guest each that the list itself puts with those above, and who it says they are.

Empty rows between families, whose first row alone has an address; "Ines Brandt (wife)", "Maya
(daughter, 6)" below Lewis Brandt; a column of such words; a column of ages. What is told so isn't
asked, and no word of it is a name or a companion.
"""

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from addressing.guestlist.asking import from_doubt
from addressing.guestlist.folding import fold
from addressing.guestlist.grid import Cell, Row, Table
from addressing.guestlist.homes.row_address import PLACES
from addressing.guestlist.people.age_groups import age_group
from addressing.guestlist.people.parts import Doubt
from addressing.guestlist.people.vocabulary import row_words
from addressing.guestlist.rows.row import RowReading
from addressing.records.guests import Kind

KIN, GROWN, OTHER, FAMILY = "kin", "grown", "other", "family"
_BEHIND = re.compile(
    r"^(?P<name>[^\W\d_][^&+/;()\[\]]*?)\s*(?:[(\[]\s*(?P<in>[^()\[\]]+?)\s*[)\]]"
    r"|(?:,|\s[-–—])\s*(?P<open>[^,()\[\]–—-]+?(?:,?\s*\d{1,2})?))\s*$"
)
_ROLE = re.compile(
    r"^(?:(?:his|her|their|the|[^\W\d_][\w-]*['’]s?)\s+)?(?P<role>[^\W\d_]+)"
    r"(?:\s+of\s+[^\W\d_][\w .'’-]*)?"
    r"(?:[\s,:–-]*(?:aged?\s*)?(?P<age>\d{1,2})(?:\s*(?:yrs?|years?|y/?o)\b\.?(?:\s*old)?)?)?$",
    re.IGNORECASE,
)
_BLOCKS, _MOSTLY = 3, 0.9
"""So many families between empty rows, and this share of them with an address in their first row
alone, are the list's habit."""
_FAMILIES = frozenset(("family", "families", "surname", "surnames"))
_LABEL = 3
"""Words of "The Penhew Family"."""
_FEWEST, _TOLD = 2, 0.6
"""Cells of a column, and the share of them, that say who somebody is to the first of a family."""


@dataclass(frozen=True, slots=True)
class Told:
    """What the list says of a row's one guest; `role` is one of `_ROLES`, or ""."""

    kin: bool = False
    role: str = ""
    grown: bool = False
    family: bool = False
    """True where the column of its household gives a family's name, as its header says."""
    text: str | None = None
    """The cell of the name without the words that say who it is, at `column` (0 is A)."""
    column: int = -1


_ROLES = ("row-partner", "row-child", "row-kin", "row-other", "row-head")


def told_of_rows(table: Table) -> dict[int, Told]:
    """What the list says of its rows, by their numbers; rows of which it says nothing left out."""
    followers = _followers(table)
    told = {number: Told(kin=True) for number in _in_blocks(table)}
    for row in table.rows:
        name = _own_role(table, row, followers)
        if name is not None:
            told[row.number] = replace(name, kin=name.kin or row.number in told)
    for number, role in _by_column(table, followers).items():
        told[number] = replace(told.get(number, Told(kin=role != "row-head")), role=role)
    for number in _under_families(table):
        told[number] = replace(told.get(number, Told()), family=True)
    for number in _grown(table):
        told[number] = replace(told.get(number, Told()), grown=True)
    return told


def as_told(row: Row, told: Told | None) -> Row:
    """The row with the name alone in the cell that says who it is besides."""
    cell = row.cell(told.column) if told is not None and told.text is not None else None
    if told is None or cell is None or told.text is None:
        return row
    cells: list[Cell | None] = list(row.cells)
    cells[told.column] = replace(cell, text=told.text)
    return replace(row, cells=tuple(cells))


def with_told(reading: RowReading, told: Told | None) -> RowReading:
    """The reading with what is told: of kin, of age, a child (asked about), a wife or husband."""
    if told is None or len(reading.people) != 1:
        kin = told is not None and told.kin and len(reading.people) > 1
        return replace(reading, told=frozenset({KIN})) if kin else reading
    (person,) = reading.people
    other = told.role == "row-other"
    grown = told.grown or told.role == "row-partner"
    marks = {KIN: told.kin, GROWN: grown, OTHER: other, FAMILY: told.family}
    made = replace(reading, told=frozenset(mark for mark, holds in marks.items() if holds))
    if told.role == "row-partner" and person.kind is Kind.NAMED:
        return replace(made, people=(replace(person, joined=True),))
    young = person.kind is Kind.NAMED and person.age is None and bool(person.given)
    if told.role != "row-child" or not young or told.grown or person.title:
        return made
    asked = from_doubt(Doubt("children-assumed", str(person.given)), reading.where)
    child = replace(person, kind=Kind.CHILD)
    return replace(made, people=(child,), findings=(*made.findings, asked))


def _followers(table: Table) -> frozenset[int]:
    """The numbers of rows with no address, or that of the row above to the letter."""
    placed = list(_placed(table, table.rows))
    return frozenset(
        row.number
        for row, mine, theirs in zip(table.rows[1:], placed[1:], placed, strict=False)
        if not mine or mine == theirs
    )


def _placed(table: Table, rows: Iterable[Row]) -> Iterator[str]:
    """What each row says of its place, folded; "" of none."""
    places = [column.index for column in table.columns if column.meaning in PLACES]
    for row in rows:
        told = (fold(text) for index in places if (text := row.text(index)))
        yield " ".join(filter(None, told))


def _in_blocks(table: Table) -> Iterator[int]:
    """The rows below the first of each family, in a list with empty rows between its families."""
    blocks: list[list[Row]] = []
    for row in table.rows:
        if blocks and row.number == blocks[-1][-1].number + 1:
            blocks[-1].append(row)
        else:
            blocks.append([row])
    several = [block for block in blocks if len(block) > 1]
    fit = [block for block in blocks if _is_headed(table, block)]
    if len(blocks) < _BLOCKS or not several or len(fit) < _MOSTLY * len(blocks):
        return
    for block in fit:
        yield from (row.number for row in block[1:])


def _is_headed(table: Table, block: Sequence[Row]) -> bool:
    first, *others = block
    return any(_placed(table, [first])) and not any(_placed(table, others))


def _own_role(table: Table, row: Row, followers: frozenset[int]) -> Told | None:
    """Who a name's own cell says somebody is, in a row of a family: "Ines Brandt (wife)"."""
    column = table.column("name") or table.column("given")
    cell = row.cell(column.index) if column is not None else None
    found = _BEHIND.match(cell.text) if cell is not None else None
    if column is None or found is None:
        return None
    said = _ROLE.match(found["in"] or found["open"])
    role = _role_of(said["role"]) if said else ""
    if found["open"] and not found["open"][:1].islower() and len(found["name"].split()) == 1:
        return None  # "Penhew, Baby" has the family name first
    of_family = row.number in followers or row.number + 1 in followers
    if said is None or not role or not of_family:
        return None
    age = f" ({said['age']})" if said["age"] else ""
    kin = row.number in followers and role != "row-head"
    return Told(kin=kin, role=role, text=f"{found['name']}{age}", column=column.index)


def _role_of(word: str) -> str:
    return next((kind for kind in _ROLES if fold(word) in row_words(kind)), "")


def _by_column(table: Table, followers: frozenset[int]) -> dict[int, str]:
    """Who each row of a family is by a column of such words: "head", "wife", "son"."""
    for column in table.columns:
        if column.meaning not in (None, "ignore"):
            continue
        cells = [
            (row, cell) for row in table.rows if (cell := row.cell(column.index)) and cell.text
        ]
        roles = {row.number: _role_of(cell.text) for row, cell in cells}
        known = [role for role in roles.values() if role]
        if len(known) >= _FEWEST and len(known) >= _TOLD * len(roles):
            return {n: role for n, role in roles.items() if role and n in followers}
    return {}


def _under_families(table: Table) -> Iterator[int]:
    """The rows with one word in a column of households that is headed "Family" or "Surname"."""
    column = table.column("household")
    if column is None or _FAMILIES.isdisjoint(fold(column.header).split()):
        return
    for row in table.rows:
        cell = row.cell(column.index)
        if cell is not None and len(cell.text.split()) <= _LABEL:
            yield row.number


def _grown(table: Table) -> Iterator[int]:
    """The rows of those who are of age by a column that tells children from the others."""
    column = table.column("age_group") or table.column("age")
    if column is None:
        return
    said = {row.number: row.cell(column.index) for row in table.rows}
    groups = {
        number: age_group(cell.text)[0] if cell and cell.text else None
        for number, cell in said.items()
    }
    marks = "child" in groups.values()
    for number, group in groups.items():
        if group == "adult" or (marks and group is None):
            yield number
