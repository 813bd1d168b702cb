"""First names alone in the rows of a household: whose family name is theirs, or who is asked."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from addressing.guestlist.asking import from_doubt
from addressing.guestlist.folding import fold
from addressing.guestlist.people.parts import Doubt
from addressing.guestlist.rows.of_families import FAMILY, OTHER
from addressing.guestlist.rows.row import RowReading
from addressing.records.findings import Finding
from addressing.records.guests import Kind, Person

_OF_ONE_NAME = ("surname-missing", "name-doubtful", "lone-name-doubtful")
_FAMILY_WORDS = re.compile(
    r"^the\s+(?=\S+\s+(?:family|household)\b)|\s+(?:family|household)$", re.IGNORECASE
)
_ONE_NAME = re.compile(r"[^\W\d_][\w'’]*[^\W\d_](?:-[^\W\d_][\w'’]+)?")


def with_family_above(rows: Sequence[RowReading]) -> Iterator[RowReading]:
    """The rows with the family name of those above, where a first name stands alone below it.

    Where those above have two, nobody can tell whose it is. Of a column of families whose rows
    have first names alone, its own word is that name, and nothing is left to ask.
    """
    above: dict[str, str] = {}
    own = _family_of_column(rows)
    for row in rows:
        person = row.people[0] if len(row.people) == 1 and not row.label else None
        named = person is not None and person.kind is not Kind.GUEST and person.given is not None
        bare = person is not None and named and not person.family
        if person is None or not bare or (person.title and not own):
            above |= {fold(p.family): p.family for p in row.people if p.family}
            yield row
        elif own and OTHER not in row.told:
            cells = row.household.cells if row.household else ()
            yield _named_so(row, replace(person, cells=(*person.cells, *cells)), own)
        elif len(above) == 1 and OTHER not in row.told:
            yield _named_so(row, person, next(iter(above.values())), "partner-family-assumed")
        else:
            yield _asked_for_family(row, person) if above else row


def first_without_family(rows: Sequence[RowReading]) -> Iterator[Finding]:
    """A first name alone whose row names somebody beside with a family name of their own."""
    for row in rows:
        named = [person for person in row.people if person.kind is Kind.NAMED]
        asked = {found.code for found in row.findings} & {*_OF_ONE_NAME, "name-noted"}
        first = named[0] if len(named) > 1 and not row.label and not asked else None
        whole = any(person.given and person.family for person in named)
        if first is not None and whole and first.given and not (first.family or first.title):
            yield from_doubt(Doubt("surname-missing", first.given), row.where)


def _asked_for_family(row: RowReading, person: Person) -> RowReading:
    """The row of a first name alone of which nobody can tell the family, and that question."""
    known = {found.code for found in row.findings}
    if person.kind is not Kind.NAMED or person.title or not known.isdisjoint(_OF_ONE_NAME):
        return row
    asked = from_doubt(Doubt("surname-missing", str(person.given)), row.where)
    return replace(row, findings=(*row.findings, asked))


def _family_of_column(rows: Sequence[RowReading]) -> str:
    """The family name that a column of households gives rows of first names: "ASHBY", "The Orrs".

    None where the first row names a family itself, or the column has more than one word.
    """
    head = rows[0]
    word = head.household.text if head.household and FAMILY in head.told else ""
    said = _FAMILY_WORDS.sub("", word).strip()
    first = head.people[0] if len(head.people) == 1 else None
    if first is None or first.family or not first.given:
        return ""
    return said if _ONE_NAME.fullmatch(said) else ""


def _named_so(row: RowReading, person: Person, family: str, asked: str = "") -> RowReading:
    """The row with a family name that stands above it or in its column; `asked` of the grown."""
    kept = tuple(found for found in row.findings if found.code not in _OF_ONE_NAME)
    doubt = [from_doubt(Doubt(asked, str(person.given)), row.where)] if asked else []
    doubts = doubt if person.kind is Kind.NAMED else []
    return replace(row, people=(replace(person, family=family),), findings=(*kept, *doubts))
