"""Whether a household of one version of a list is one of the next: by its people and its door."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import IntEnum

from rapidfuzz import fuzz

from addressing.guestlist.folding import fold
from addressing.guestlist.people.likeness import (
    near_word,
    of_two_sexes,
    same_family,
    same_given,
)
from addressing.guestlist.people.vocabulary import words
from addressing.records.guests import Kind, KnownHousehold, KnownPerson, Person

_STREET = 85
"""Streets at least so alike (of 100), with the same figures, are one street respelled."""

_SOME = "Half of the names or more are the same, at the same door."
_OF_FAMILY = ("family", "and")
_OF_ANYBODY = (
    *_OF_FAMILY, "company", "company-last", "company-weak", "company-kin", "relation", "children",
    "particle", "suffix",
)  # fmt: skip
"""Kinds of words that any household may be called by: they prove nothing."""

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
    if (old.label or new.label) and _one_label(old, new):
        return ""
    if not (old.label or new.label) and _families(old) & _families(new):
        return "The same family name at the same door."
    return _SOME if _agree(_called(old), _called(new)) else None


def _one_label(old: KnownHousehold, new: KnownHousehold) -> bool:
    """True for a family as a whole, or a firm, and the same by name."""
    if old.label and new.label:
        own = [_own(home.label, _OF_FAMILY) for home in (old, new)]
        return same_family(old.label, new.label) or (bool(own[0]) and _alike(*own))
    said = set((old.label or new.label).split())
    return bool(said & (_families(old) | _families(new)))


def _called(home: KnownHousehold) -> list[str]:
    """What a household is called, word by word; what any other may be called too is left out."""
    people = (p for p in home.people if p.kind is not Kind.GUEST)
    names = (f"{person.given} {person.family}" for person in people)
    return _own(" ".join((home.label, *names)), _OF_ANYBODY)


def _own(name: str, kinds: Sequence[str]) -> list[str]:
    """The words of a folded name that are its own: neither "the" nor of these kinds."""
    common = frozenset[str]().union(*map(words, kinds))
    return [word for word in dict.fromkeys(name.split()) if word not in common and word != "the"]


def _alike(mine: Sequence[str], theirs: Sequence[str]) -> bool:
    """True for the same words in the same order; a plural is one ("The Wexcombes")."""
    return len(mine) == len(theirs) and all(
        other in (one, f"{one}s") or one == f"{other}s"
        for one, other in zip(mine, theirs, strict=True)
    )


def _agree(mine: Sequence[str], theirs: Sequence[str]) -> bool:
    """True where at least half of the words are the same, or a slip of the pen from it."""
    left = list(theirs)
    met = 0
    for word in mine:
        other = next((each for each in left if near_word(word, each)), None)
        if other is not None:
            left.remove(other)
            met += 1
    return bool(met) and 2 * met >= max(len(mine), len(theirs))


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
