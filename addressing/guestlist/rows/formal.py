"""A column of names as they are to stand on the outer envelope, beside one of the usual names.

"Jim and Carol" under "Guests", "Mr. and Mrs. James Abbott" under "Formal names": the same people,
with titles and names in full. Where both columns can't name the same people it is asked.
"""

from collections.abc import Sequence
from dataclasses import replace
from itertools import permutations

from addressing.guestlist.folding import fold
from addressing.guestlist.grid import Cell
from addressing.guestlist.people.cell import CellReading, read_people
from addressing.guestlist.people.likeness import of_two_sexes, same_given
from addressing.guestlist.people.names import known_title
from addressing.guestlist.people.parts import Doubt
from addressing.guestlist.people.vocabulary import mens_names
from addressing.records.guests import Kind, Person

_MOST = 4
"""Grown people of a row who are looked at in every order."""


def with_formal(
    cell: Cell, people: Sequence[Person]
) -> tuple[list[Person], list[tuple[Cell, CellReading]]]:
    """The people of a row as such a column names them, and what was read or is doubtful there."""
    reading = read_people(cell.text)
    found = [_titled(replace(person, cells=(cell.where,))) for person in reading.people]
    grown = [person for person in people if person.kind is Kind.NAMED]
    if not grown:
        return [*found, *people], [(cell, reading)]
    formal = [person for person in found if person.kind is Kind.NAMED]
    paired = None if reading.doubts or reading.label else _paired(grown, formal)
    if paired is None:
        said = ", ".join(line.strip() for line in cell.text.split("\n"))
        doubt = Doubt("formal-differs", f"{said}; {_shown(grown)}")
        return list(people), [(cell, CellReading(remarks=reading.remarks, doubts=(doubt,)))]
    others = [person for person in people if person.kind is not Kind.NAMED]
    kinds = {person.kind for person in others}
    added = [p for p in found if p.kind is not Kind.NAMED and p.kind not in kinds]
    return [*paired, *others, *added], [(cell, replace(reading, people=()))]


def with_greeting(cell: Cell, people: Sequence[Person]) -> list[Person] | None:
    """The people of a row with the titles of "Mr. and Mrs. Vale"; None where it gives none.

    So for "Grandma and Grandpa", which is a wording for the inner envelope.
    """
    reading = read_people(cell.text)
    formal = [_titled(replace(person, cells=(cell.where,))) for person in reading.people]
    grown = [person for person in people if person.kind is Kind.NAMED]
    if reading.doubts or reading.label or not all(map(_has_title, formal)):
        return None
    if [person.title for person in formal] == ["Mr.", "Mrs."] and _her_name_first(grown):
        grown.reverse()
    paired = _paired(grown, formal) if grown else None
    others = [person for person in people if person.kind is not Kind.NAMED]
    return [*paired, *others] if paired else None


def _has_title(person: Person) -> bool:
    title = known_title(person.title or "")
    return person.kind is Kind.NAMED and title is not None and title.group != "kin"


def _her_name_first(grown: Sequence[Person]) -> bool:
    """True for "Jenna & Paul": of two the second name is a man's and the first is not."""
    first, *others = [fold(person.given or "").split()[:1] for person in grown] or [[]]
    men = mens_names()
    return len(others) == 1 and men.issuperset(others[0]) and not men.issuperset(first)


def _titled(person: Person) -> Person:
    """Of "Judge Moss" the first word is the title here, though it may be somebody's given name."""
    title = known_title(person.given or "") if person.title is None else None
    if title is None:
        return person
    return replace(person, title=title.canonical, given=None)


def _paired(grown: Sequence[Person], formal: Sequence[Person]) -> list[Person] | None:
    """Each of the formal names with what the usual one adds; None where two don't fit."""
    if len(grown) != len(formal) or len(grown) > _MOST:
        return None
    for order in permutations(grown):
        if all(_fit(usual, named) for usual, named in zip(order, formal, strict=True)):
            return [_merged(usual, named) for usual, named in zip(order, formal, strict=True)]
    return None


def _fit(usual: Person, formal: Person) -> bool:
    """True where no part of one says that the other is somebody else."""
    if usual.suffix and formal.suffix and usual.suffix != formal.suffix:
        return False
    if usual.family and formal.family and fold(usual.family) != fold(formal.family):
        return False
    if usual.given and formal.given and not same_given(fold(usual.given), fold(formal.given)):
        return False
    return not of_two_sexes(usual.title, formal.title)


def _merged(usual: Person, formal: Person) -> Person:
    return replace(
        formal,
        title=formal.title or usual.title,
        given=formal.given or usual.given,
        family=formal.family or usual.family,
        suffix=formal.suffix or usual.suffix,
        credentials=formal.credentials or usual.credentials,
        age=usual.age,
        cells=(*formal.cells, *usual.cells),
    )


def _shown(people: Sequence[Person]) -> str:
    names = ((person.title, person.given, person.family, person.suffix) for person in people)
    return " and ".join(" ".join(word for word in name if word) for name in names)
