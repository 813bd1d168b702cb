"""A partner's columns: what stands there empty is taken from the one before, and asked about."""

from collections.abc import Sequence
from dataclasses import replace

from addressing.guestlist.folding import fold
from addressing.guestlist.grid import Cell
from addressing.guestlist.people.cell import CellReading
from addressing.guestlist.people.names import known_title
from addressing.guestlist.people.parts import Doubt
from addressing.guestlist.people.promised import answered, unlike_names
from addressing.guestlist.people.sharing import OF_AGE
from addressing.records.guests import Kind, Person

_COUPLE = 2
_OF_ONE = frozenset(("surname-missing", "lone-name-doubtful"))
"""Doubts about a name that stands alone."""


def answered_or(ordinal: int, cells: dict[str, Cell], reading: CellReading) -> CellReading:
    """The reading, or what a lone cell of a partner's columns answers instead of a name: "yes"."""
    lone = next(iter(cells.values())).text if len(cells) == 1 else ""
    if ordinal == 1 or not lone or "title" in cells:
        return reading
    answer = answered(lone)
    if answer is not None:
        return answer
    return unlike_names(lone, reading) if " " in lone else reading


def named_by_given(before: list[Person], found: list[Person]) -> list[Person]:
    """A partner's name behind a title ("Mrs. Odile") is a given one, unless it is the family's."""
    family = before[-1].family if before else None
    if not family or not found or found[0].given or not found[0].title or not found[0].family:
        return found
    name = found[0].family
    if len(name.split()) > 1 or "-" in name or fold(name) in fold(family).split():
        return found
    return [replace(found[0], given=name, family=None), *found[1:]]


def asked_for_family(reading: CellReading, found: list[Person]) -> CellReading:
    """A partner's empty family name is taken to be the same; without Mrs. that is asked."""
    person = next(iter(found), None)
    if person is None or person.kind is not Kind.NAMED or person.family or not person.given:
        return reading
    if person.title == "Mrs.":
        return reading
    doubt = Doubt("partner-family-assumed", person.given)
    return replace(reading, doubts=(*reading.doubts, doubt))


def partners(before: list[Person], found: list[Person]) -> list[Person]:
    """A partner of the same family name, or with none, belongs to the person before."""
    if not before or not found or not before[-1].family or found[0].kind is Kind.CHILD:
        return found
    partner = found[0]
    if (partner.given or partner.title) and not partner.family and partner.kind is Kind.NAMED:
        partner = replace(partner, family=before[-1].family)
    same = partner.family is not None and fold(partner.family) == fold(before[-1].family)
    return [replace(partner, joined=same), *found[1:]]


def with_lent_title(before: list[Person], found: list[Person]) -> tuple[list[Person], list[Person]]:
    """The second title of “Mr. & Mrs.” beside one name is that of the partner in the next column.

    Both lists, without the nameless one whose title the partner bears.
    """
    nameless = before[-1] if before else Person()
    if len(before) < 2 or nameless.given or not nameless.title or not found:  # noqa: PLR2004 - a pair
        return before, found
    partner = found[0]
    if partner.title or not partner.given or partner.kind is not Kind.NAMED:
        return before, found
    his = before[-2].given  # of "Dr. and Mrs. Penhew" nobody can tell whose the next name is
    if not his or _is_his_son(partner, his):
        return before, found
    cells = tuple(dict.fromkeys((*partner.cells, *nameless.cells)))
    return before[:-1], [replace(partner, title=nameless.title, cells=cells), *found[1:]]


def with_their_children(
    reading: CellReading, found: list[Person]
) -> tuple[CellReading, list[Person]]:
    """Names without a family name behind the partner's own ("Odile, Ned & Una") are children."""
    rest = [p for p in found[1:] if p.kind is Kind.NAMED and p.given and not p.family]
    if not rest or any(p.title for p in rest) or len(rest) < len(found) - 1:
        return reading, found
    doubt = Doubt("children-assumed", ", ".join(str(p.given) for p in rest))
    young = (replace(p, kind=Kind.CHILD, family=found[0].family) for p in rest)
    doubts = tuple(d for d in reading.doubts if d.code != "surname-missing")
    return replace(reading, doubts=(*doubts, doubt)), [found[0], *young]


def _is_his_son(person: Person, his: str | None) -> bool:
    """True for "Paul, Jr." beside Mr. and Mrs. Paul Penhew: no wife's name."""
    return bool(person.given and his) and fold(person.given or "") == fold(his or "")


def companion_of_kin(before: Sequence[Person], reading: CellReading) -> CellReading:
    """A first name alone in a companion's column: of "Aunt Carol" and "Uncle Dick" the same family.

    Of others the family name is asked.
    """
    (person,) = reading.people if len(reading.people) == 1 else (Person(),)
    alone = person.kind is Kind.NAMED and person.given and not person.family
    if not alone or not before or not before[-1].family or reading.doubts:
        return reading
    if _is_kin(person) and _is_kin(before[-1]):
        theirs = replace(person, family=before[-1].family, joined=True)
        return replace(reading, people=(theirs,))
    return replace(reading, doubts=(Doubt("surname-missing", str(person.given)),))


def _is_kin(person: Person) -> bool:
    title = known_title(person.title or "")
    return title is not None and title.group == "kin"


def behind_a_couple(
    before: list[Person], reading: CellReading, found: list[Person]
) -> tuple[CellReading, list[Person]]:
    """First names alone in the columns behind a couple's are their children's, and asked about."""
    couple = [p for p in before if p.kind is not Kind.CHILD]
    his = couple[0].given if couple else None
    alone = [p for p in found if p.given and not (p.family or p.title)]
    alone = [p for p in alone if not p.suffix or _is_his_son(p, his)]
    young = all(p.kind is Kind.NAMED and (p.age or 0) < OF_AGE for p in alone)
    families = {fold(p.family or "") for p in couple[:_COUPLE] if p.kind is Kind.NAMED}
    titled = bool(couple) and bool(couple[-1].title) and not couple[-1].given
    lent = bool(his) and titled and not any(_is_his_son(p, his) for p in alone)
    if len(couple) < _COUPLE or lent or "" in families or len(families) > 1:
        return reading, found
    if not alone or len(alone) < len(found) or not young:
        return reading, found
    doubt = Doubt("children-assumed", ", ".join(str(p.given) for p in alone))
    doubts = tuple(d for d in reading.doubts if d.code not in _OF_ONE)
    made = [replace(p, kind=Kind.CHILD, family=couple[0].family) for p in alone]
    return replace(reading, doubts=(*doubts, doubt)), made


def titled_alone(
    cells: dict[str, Cell], reading: CellReading, found: list[Person]
) -> tuple[CellReading, list[Person]]:
    """A lone "Mrs." in the partner's columns is the wife by that name; another title is asked."""
    if set(cells) != {"title"} or not found or found[0].title == "Mrs.":
        return reading, found
    doubt = Doubt("partner-unnamed", cells["title"].text)
    guest = Person(kind=Kind.GUEST, cells=found[0].cells)
    return replace(reading, people=(guest,), doubts=(*reading.doubts, doubt)), [guest]
