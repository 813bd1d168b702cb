"""Whether a household of one version of a list is one of the next: by its people and its door."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import IntEnum

from rapidfuzz import fuzz

from addressing.guestlist.folding import fold
from addressing.guestlist.households.likeness import of_two_sexes, same_family, same_given
from addressing.records.guests import Kind, KnownHousehold, KnownPerson, Person

_STREET = 85
"""Streets at least so alike (of 100), with the same figures, are one street respelled."""

Names = frozenset[tuple[str, str]]


@dataclass(frozen=True, slots=True)
class Kinship:
    """How near two households are; the larger `nearness`, the nearer. `unsure` says why, or ""."""

    nearness: int
    unsure: str = ""


class _Place(IntEnum):
    ELSEWHERE = 0
    UNKNOWN = 1
    """One of the two has no address."""
    HERE = 2


@dataclass(frozen=True, slots=True)
class _People:
    """The named people of two households laid side by side."""

    same: int
    near: int
    lost: int
    came: int
    first: bool
    """True when the first of the old ones is among the new ones, or near."""
    own: bool
    """True when a full name that both have is nobody else's on the list."""


def kinship(old: KnownHousehold, new: KnownHousehold, common: Names) -> Kinship | None:
    """How near two households of two versions are; None for two that have nothing to do.

    `common` are the full names that several households have.
    """
    place = _place(old, new)
    people = _side_by_side(_named(old), _named(new), common)
    nearness = 40 * people.same + 20 * people.near + 10 * place + 5 * people.first
    nearness -= 2 * (people.lost + people.came) + (old.unit != new.unit)
    here = place is _Place.HERE
    why = _here(old, new, people) if here else _elsewhere(old, new, people, common)
    return None if why is None else Kinship(nearness, why)


def _here(old: KnownHousehold, new: KnownHousehold, people: _People) -> str | None:
    """At one door one person in common is enough; a lone name must be the same one respelled."""
    if people.same or (people.near and not people.lost and not people.came):
        return ""
    if people.near:
        return "The same door, a name nearly the same, and other people."
    if old.label or new.label:
        return _labels(old, new)
    if _families(old) & _families(new):
        return "The same family name at the same door."
    return None


def _labels(old: KnownHousehold, new: KnownHousehold) -> str | None:
    """A family as a whole, and the same family by name."""
    if old.label and new.label:
        return "" if same_family(old.label, new.label) else None
    words = set((old.label or new.label).split())
    return "" if words & (_families(old) | _families(new)) else None


def _elsewhere(
    old: KnownHousehold, new: KnownHousehold, people: _People, common: Names
) -> str | None:
    """Another address: the same people, and nobody else on the list of that name."""
    if old.label and old.label == new.label:
        known = ("", old.label) not in common and old.area == new.area
        return "" if known else "The same name at another address."
    if people.same and people.own and not people.lost and people.first:
        return ""
    if people.same > 1 and people.own:
        return ""
    if people.same:
        return "A name in common, at another address."
    if people.near and not people.lost and not people.came:
        return "Nearly the same names, at another address."
    return None


def _place(old: KnownHousehold, new: KnownHousehold) -> _Place:
    if not old.street or not new.street:
        return _Place.UNKNOWN
    one_unit = old.unit == new.unit or not old.unit or not new.unit
    if old.street == new.street and one_unit:
        return _Place.HERE
    figures = [[word for word in street.split() if any(m.isdigit() for m in word)]
               for street in (old.street, new.street)]  # fmt: skip
    near = figures[0] == figures[1] and fuzz.ratio(old.street, new.street) >= _STREET
    return _Place.HERE if near and one_unit and old.area == new.area else _Place.ELSEWHERE


def _named(home: KnownHousehold) -> list[KnownPerson]:
    return [p for p in home.people if p.given and p.kind is not Kind.GUEST]


def _families(home: KnownHousehold) -> set[str]:
    return {p.family for p in home.people if p.family}


def _side_by_side(old: Sequence[KnownPerson], new: Sequence[KnownPerson], common: Names) -> _People:
    """Equal people first, then near ones, each once."""
    mine, theirs = list(old), list(new)
    met: list[KnownPerson] = []
    counts = [0, 0]
    for place, alike in enumerate((_same, _near)):
        for person in mine[:]:
            other = next((each for each in theirs if alike(person, each)), None)
            if other is not None:
                mine.remove(person)
                theirs.remove(other)
                met.append(person)
                counts[place] += 1
    full = [p for p in old if p in met and p.family]
    return _People(
        same=counts[0],
        near=counts[1],
        lost=len(mine),
        came=len(theirs),
        first=bool(old) and old[0] in met,
        own=bool(full) and all((p.given, p.family) not in common for p in full),
    )


def same_person(one: Person, other: Person) -> bool:
    """True for one person of a household in two spellings."""
    return _near(known_person(one), known_person(other))


def known_person(person: Person) -> KnownPerson:
    """A person folded for comparing."""
    words = (person.title, person.given, person.family, person.suffix)
    title, given, family, suffix = (fold(word) if word else "" for word in words)
    return KnownPerson(title, given, family, suffix, person.kind)


def _same(one: KnownPerson, other: KnownPerson) -> bool:
    names = (one.given, one.family, one.suffix) == (other.given, other.family, other.suffix)
    return names and not of_two_sexes(one.title, other.title)


def _near(one: KnownPerson, other: KnownPerson) -> bool:
    """One person in two spellings: a suffix that only one of them has may be the son's."""
    if one.suffix != other.suffix or of_two_sexes(one.title, other.title):
        return False
    return same_given(one.given, other.given) and same_family(one.family, other.family)
