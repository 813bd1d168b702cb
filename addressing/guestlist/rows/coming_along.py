"""Companions whom other columns of a row than those of names and companions promise."""

import re

from addressing.guestlist.folding import fold
from addressing.guestlist.grid import Row, Table
from addressing.guestlist.people.companions import read_companion
from addressing.guestlist.people.vocabulary import words
from addressing.guestlist.rows.young import column_cells
from addressing.records.guests import Kind, Person
from addressing.where import Where

_ALSO = re.compile(r"\s*(?:[+&]|(?:and|plus|with)\b|w/)", re.IGNORECASE)


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
