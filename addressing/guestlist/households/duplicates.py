"""The same household twice: nominated by door and by name, judged field by field, never by a score.

Scores only nominate: no score tells father from son or one flat from the next (measured on invented
pairs). A different suffix, given name, house number or unit is a difference; all else is asked.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise

from rapidfuzz import fuzz

from addressing.guestlist.folding import fold
from addressing.guestlist.homes.doors import door
from addressing.guestlist.households.one_person import near_in_street, same_person
from addressing.guestlist.people.likeness import (
    full_forms,
)
from addressing.guestlist.people.vocabulary import words
from addressing.records.guests import Household, Kind, Person

_STREET = 85
"""Streets at least so alike (of 100), with the same figures, are one street respelled."""
_MANY = 12
"""More households than this under one name are a common name, not duplicates."""
_COUPLE = 2
_CROWD = 30
"""More households than this at one door are a building: only those of like names are compared."""


@dataclass(frozen=True, slots=True)
class _Place:
    """A household with its door, made comparable once."""

    home: Household
    door: str


def probable_duplicates(households: Sequence[Household]) -> tuple[tuple[int, int, str], ...]:
    """Pairs of places in `households` that are perhaps one, each with the reason."""
    places = [_Place(household, door(household.address)) for household in households]
    pairs: dict[tuple[int, int], str] = {}
    for group in _nominated(places):
        for one, other in _pairs(places, group):
            if (one, other) not in pairs:
                pairs[one, other] = _verdict(places[one], places[other])
    return tuple((one, other, why) for (one, other), why in sorted(pairs.items()) if why)


def _pairs(places: Sequence[_Place], group: list[int]) -> Iterable[tuple[int, int]]:
    """Every two of a group; of a crowd only neighbours in the order of their names."""
    if len(group) <= _CROWD:
        return combinations(group, 2)
    in_order = sorted(group, key=lambda number: fold(places[number].home.name))
    return ((min(pair), max(pair)) for pair in pairwise(in_order))


def letters(household: Household) -> tuple[object, ...]:
    """Names and address of a household as one value: equal only when equal to the letter."""
    address = household.address
    fields = (
        (
            address.street,
            address.unit,
            address.recipient_extra,
            address.city,
            address.region,
            address.postcode,
        )
        if address
        else ()
    )
    people = tuple(
        (p.title, p.given, p.family, p.suffix, p.credentials, p.nickname, p.age, p.kind)
        for p in household.people
    )
    label = household.label.text if household.label else None
    return (
        people,
        label,
        bool(household.family),
        *(field.text if field else None for field in fields),
    )


def _nominated(places: Sequence[_Place]) -> Iterable[list[int]]:
    """Groups of places that have a door, a name, or nearly both in common."""
    for group in _sharing([place.door] if place.door else [] for place in places):
        yield from [group] if len(group) <= _CROWD else _by_family(places, group)
    for group in _sharing(map(_keys, places)):
        if len(group) <= _MANY:
            yield group


def _sharing(keys: Iterable[Iterable[str]]) -> list[list[int]]:
    """Groups of two and more places with a key in common, by the keys of each place.

    A key is kept as its hash, and most are one place's alone: of a long list they fill the memory.
    """
    first: dict[int, int] = {}
    shared: dict[int, list[int]] = {}
    for number, own in enumerate(keys):
        for key in map(hash, own):
            if first.setdefault(key, number) != number:
                shared.setdefault(key, [first[key]]).append(number)
    return list(shared.values())


def _by_family(places: Sequence[_Place], group: list[int]) -> Iterable[list[int]]:
    families: dict[str, list[int]] = {}
    for number in group:
        home = places[number].home
        words = fold(home.label.text).split() if home.label else []
        words += [fold(p.family) for p in home.people if p.family]
        for start in {word[:3] for word in words}:
            families.setdefault(start, []).append(number)
    return families.values()


def _keys(place: _Place) -> set[str]:
    """What a household is looked up by: its names, and a name with the figures of its street."""
    street, _, rest = place.door.partition("|")
    figures = "".join(mark for mark in street if mark.isdigit())
    keys = {key for person in place.home.people for key in _name_keys(person)}
    if figures:
        families = {fold(p.family)[:3] for p in place.home.people if p.family}
        keys |= {f"{figures} {rest} {family}" for family in families}
    if place.home.label:
        keys.add(_family_of(place.home.label.text))
    return keys


def _family_of(label: str) -> str:
    """A label's own words: "The Penhew Family" and "The Penhews" are one, a firm's are its name.

    >>> _family_of("The Penhew Family"), _family_of("The Penhews"), _family_of("Penhew Mills")
    ('penhew', 'penhew', 'penhew mills')
    """
    said = fold(label).split()
    own = [word for word in said if word != "the" and word not in words("family")]
    if len(own) != 1 or len(own) == len(said):
        return " ".join(said)
    return own[0].removesuffix("s")


def _name_keys(person: Person) -> Iterable[str]:
    """The key under which a namesake elsewhere is found: given name, start of the family name."""
    if person.kind is not Kind.NAMED or not person.given or not person.family:
        return
    given, family = fold(person.given).split(), fold(person.family).replace(" ", "")
    if given:
        yield f"{given[0]} {family[:3]}"
        yield from (f"{full} {family[:3]}" for full in full_forms(given[0]))


def _verdict(mine: _Place, theirs: _Place) -> str:
    one, other = mine.home, theirs.home
    same_door = _one_door(mine.door, theirs.door)
    near_door = _in_one_street(mine.door, theirs.door)
    if one.label and other.label and _family_of(one.label.text) == _family_of(other.label.text):
        return "The same name stands on both rows."
    for person in _named(one):
        for another in _named(other):
            why = same_person(person, another, same_door=same_door)
            why = why or (near_in_street(person, another) if near_door else "")
            if why:
                return why
    if same_door and (one.label or other.label) and _label_and_names(one, other):
        return "The same family at the same door."
    if same_door and _are_one_couple(one, other):
        return "Two couples of one family name at the same door."
    return ""


def _are_one_couple(one: Household, other: Household) -> bool:
    """True for two couples of one family name: of one the list may have the formal form.

    "Gino and Rosalie Marchetti", and "Mr. and Mrs. Luigi Marchetti". Two formal ones are parents
    and a son with his wife, and so are those told apart by a suffix.
    """
    people = [[p for p in home.people if p.kind is Kind.NAMED] for home in (one, other)]
    families = {fold(p.family or "") for named in people for p in named}
    suffixes = [{p.suffix for p in named if p.suffix} for named in people]
    couples = all(len(named) == _COUPLE for named in people)
    formal = [not all(p.given for p in named) for named in people]
    couples = couples and formal[0] is not formal[1]
    return couples and len(families) == 1 and "" not in families and suffixes[0] == suffixes[1]


def _one_door(one: str, other: str) -> bool:
    """True for one door, its street perhaps in two spellings; house number and unit are equal."""
    if one == other:
        return bool(one)
    street, _, rest = one.partition("|")
    another, _, other_rest = other.partition("|")
    if rest != other_rest or not street or _figures(street) != _figures(another):
        return False
    return bool(_figures(street)) and fuzz.ratio(street, another) >= _STREET


def _figures(street: str) -> list[str]:
    return [word for word in street.split() if any(mark.isdigit() for mark in word)]


def _label_and_names(one: Household, other: Household) -> bool:
    labelled, named = (one, other) if one.label else (other, one)
    words = set(fold(labelled.label.text).split()) if labelled.label else set()
    return any(p.family and fold(p.family) in words for p in named.people)


def _named(household: Household) -> list[Person]:
    return [p for p in household.people if p.kind is not Kind.GUEST and (p.given or p.family)]


def _in_one_street(one: str, other: str) -> bool:
    """True for two numbers of one street: one of them may be a slip of the pen."""
    streets = [" ".join(word for word in door.partition("|")[0].split() if word.isalpha())
               for door in (one, other)]  # fmt: skip
    rest = one.partition("|")[2] == other.partition("|")[2]
    return bool(streets[0]) and streets[0] == streets[1] and rest
