"""Companions and children of the columns beside the names, each once though two columns say it."""

import re
from collections.abc import Sequence
from dataclasses import replace

from addressing.guestlist.folding import fold
from addressing.guestlist.grid import Cell, Row, Table
from addressing.guestlist.people.cell import CellReading, read_people
from addressing.guestlist.people.children_column import read_children
from addressing.guestlist.people.companions import read_companion
from addressing.guestlist.people.vocabulary import words
from addressing.guestlist.rows.partners import companion_of_kin
from addressing.guestlist.rows.young import column_cells
from addressing.records.guests import Kind, Person
from addressing.where import Where

_ALSO = re.compile(r"\s*(?:[+&]|(?:and|plus|with)\b|w/)", re.IGNORECASE)


_UNNAMED = re.compile(r"\s*(?:\+|(?i:plus|and|&)\b|[\w'’ -]+['’]s?\s)")
"""What a companion's cell begins with that names nobody."""
_Read = tuple[Cell, CellReading]


def companion_alone(given: str) -> CellReading | None:
    """Plus one where a first name belongs; the family name beside it is the host's."""
    if not _UNNAMED.match(given):
        return None
    reading = read_people(given, family_first=None)
    unnamed = [p for p in reading.people if p.kind is Kind.GUEST and not (p.given or p.family)]
    return reading if unnamed and len(unnamed) == len(reading.people) else None


def columns_beside(table: Table, row: Row, people: Sequence[Person]) -> list[_Read]:
    """The columns of companions and of children beside the `people` of the columns of names."""
    cells = column_cells(table, row, "guest")
    found = [(cell, companion_of_kin(people, read_companion(cell.text))) for cell in cells]
    guests = found if _are_counted(table, "guest") else _each_once(found)
    children = [(cell, read_children(cell.text)) for cell in column_cells(table, row, "children")]
    own = [each for each in guests if not _is_said_already(each[1], people)]
    return [*own, *_without_yes(children)]


def _is_said_already(reading: CellReading, people: Sequence[Person]) -> bool:
    """True for a bare yes to "Plus one?" beside "and Guest" in the cell of names."""
    unnamed = [p for p in people if p.kind is Kind.GUEST and not p.given and not p.family]
    said = [(p.kind, p.given, p.family) for p in reading.people]
    return said == [(Kind.GUEST, None, None)] and len(unnamed) == 1 and not reading.doubts


def _are_counted(table: Table, meaning: str) -> bool:
    """True for columns that only a number tells apart: "Guest 1" and "Guest 2" are two people's."""
    columns = [column for column in table.columns if column.meaning == meaning]
    return len({re.sub(r"[\d\s]+", "", fold(column.header)) for column in columns}) < len(columns)


def _each_once(found: Sequence[_Read]) -> list[_Read]:
    """The companions, each once: the Y below "Plus one?" is whom "Plus one's name" names."""
    named = sum(1 for _, reading in found for person in reading.people if _has_name(person))
    left = max(0, max((_promised(reading) for _, reading in found), default=0) - named)
    kept: list[_Read] = []
    for cell, reading in found:
        own = [p for p in reading.people if _has_name(p)]
        bare = [p for p in reading.people if not _has_name(p)][:left]
        left -= len(bare)
        kept.append((cell, replace(reading, people=(*own, *bare))))
    return kept


def _without_yes(found: Sequence[_Read]) -> list[_Read]:
    """Without the yes below "Kids?" where another column tells who or how many they are."""
    if not any(reading.people for _, reading in found):
        return list(found)
    return [
        (
            cell,
            replace(reading, family=None)
            if fold(reading.family or "") in words("yes")
            else reading,
        )
        for cell, reading in found
    ]


def _is_bare(person: Person) -> bool:
    return person.kind is Kind.GUEST and not _has_name(person)


def _promised(reading: CellReading) -> int:
    return sum(1 for person in reading.people if not _has_name(person))


def _has_name(person: Person) -> bool:
    return bool(person.given or person.family or person.title)


def without_promised(people: list[Person], table: Table) -> list[Person]:
    """A bare yes to "Plus one?" is the companion whom a column of that person's name has named."""
    column = next((c for c in table.columns if (c.meaning, c.ordinal) == ("name", 2)), None)
    if column is None or not _of_companions(column.header):
        return people
    named = [p for p in people if any(_column_of(cell) == column.letters for cell in p.cells)]
    promised = [p for p in people if p.kind is Kind.GUEST and not p.given and p not in named]
    if not named or len(promised) != 1:
        return people
    return [person for person in people if person is not promised[0]]


def _column_of(cell: Where) -> str:
    return (cell.cell or "").rstrip("0123456789")


def _of_companions(header: str) -> bool:
    """True for a header such as "Name of plus one"."""
    return not words("guest").isdisjoint(fold(header).split()) or "plus" in fold(header).split()


def counted_guests(table: Table, row: Row, people: list[Person]) -> list[Person]:
    """A number invited of "1+1" is one by name and one companion."""
    if any(person.kind is Kind.GUEST for person in people):
        return []
    for cell in column_cells(table, row, "invited_count"):
        found = re.fullmatch(r"(\d)\s*\+\s*(\d)", cell.text)
        if found and int(found[1]) == len(people):
            return [Person(kind=Kind.GUEST, cells=(cell.where,)) for _ in range(int(found[2]))]
    return []


def noted_guests(table: Table, row: Row, people: list[Person]) -> list[Person]:
    """A note of nothing but "+1" or "and guest" is a companion's column to somebody alone."""
    if len(people) != 1 or people[0].kind is not Kind.NAMED:
        return []
    for cell in column_cells(table, row, "notes"):
        found = read_companion(cell.text).people if _ALSO.match(cell.text) else ()
        if [(p.kind, p.given) for p in found] == [(Kind.GUEST, None)] and "?" not in cell.text:
            return [Person(kind=Kind.GUEST, cells=(cell.where,))]
    return []


def without_promised_rows(
    rows: Sequence[Sequence[Person]], people: Sequence[Person]
) -> tuple[Person, ...]:
    """The people of a household, of whose `rows` one may be a companion's own ("Guest of Kit").

    That companion is the one whom the yes below "Plus one?" promises Kit, not another.
    """
    alone = [p for row in rows if not any(map(_has_name, row)) for p in row if _is_bare(p)]
    own, left = {id(person) for person in alone}, len(alone)
    kept: list[Person] = []
    for person in people:
        if left and _is_bare(person) and id(person) not in own:
            left -= 1
        else:
            kept.append(person)
    return tuple(kept)
