"""The same household twice: nominated by door and by name, judged field by field, never by a score.

Scores only nominate: no score tells father from son or one flat from the next (measured on invented
pairs). A different suffix, given name, house number or unit is a difference; all else is asked.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise, product

from rapidfuzz import fuzz
from rapidfuzz.distance import Levenshtein

from addressing.guestlist.folding import fold
from addressing.guestlist.homes.doors import door
from addressing.guestlist.people.likeness import (
    full_forms,
    of_two_sexes,
    one_in_short,
    same_family,
    same_given,
)
from addressing.guestlist.people.vocabulary import words
from addressing.records.guests import Household, Kind, Person

_STREET = 85
"""Streets at least so alike (of 100), with the same figures, are one street respelled."""
_LONG_ENOUGH = 5
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
            why = _same_person(person, another, same_door=same_door)
            why = why or (_near_in_street(person, another) if near_door else "")
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


def _same_person(one: Person, other: Person, *, same_door: bool) -> str:
    """Why two people are perhaps one, or "" when a field says that they are not."""
    if same_door and _turned_about(one, other):
        return "The same name at the same door, once with the family name first."
    if one.suffix != other.suffix:
        return ""  # father and son, also where only one of them is told apart
    if not (one.family and other.family and one.given and other.given):
        return ""
    families = fold(one.family), fold(other.family)
    givens = fold(one.given), fold(other.given)
    if families[0].replace(" ", "") == families[1].replace(" ", "") and givens[0] == givens[1]:
        return "The same name stands on both rows."
    if of_two_sexes(one.title, other.title):
        return ""
    return _near_at_door(givens, families) if same_door else _near_elsewhere(givens, families)


def _turned_about(one: Person, other: Person) -> bool:
    """True where what is one's family name is the other's given name, and the other way round.

    A suffix may be left out in such a row, and one of both words be spelled otherwise.
    """
    if not (one.family and other.family and one.given and other.given):
        return False
    given, family = fold(one.given), fold(one.family)
    other_given, other_family = fold(other.given), fold(other.family)
    if same_given(given, other_given):
        return False
    return same_family(family, other_given) and same_given(given, other_family)


def _in_one_street(one: str, other: str) -> bool:
    """True for two numbers of one street: one of them may be a slip of the pen."""
    streets = [" ".join(word for word in door.partition("|")[0].split() if word.isalpha())
               for door in (one, other)]  # fmt: skip
    rest = one.partition("|")[2] == other.partition("|")[2]
    return bool(streets[0]) and streets[0] == streets[1] and rest


def perhaps_one(one: Sequence[Person], other: Sequence[Person]) -> str:
    """Why two rows of one household perhaps name one person; "" for two, and for equal rows.

    Rows that name the same people with the same titles say one thing twice; so do a person
    alone and that person again beside others only perhaps.
    """
    if sorted(map(told, one)) == sorted(map(told, other)):
        return ""
    for mine, theirs in product(one, other):
        if mine.given and _folded(mine) == _folded(theirs):
            return "The same name stands on both rows."
        why = nearly_same(mine, theirs)
        if why:
            return why
    return _by_title(one, other) or _by_title(other, one)


def told(person: Person) -> tuple[str, ...]:
    """What a row says of a person, to the letter: two rows that say the same mean one person."""
    words = (person.title, person.given, person.family, person.suffix, person.kind.value)
    return tuple(word or "" for word in words)


def _folded(person: Person) -> tuple[str, ...]:
    return tuple(map(fold, told(person)[1:]))


def _by_title(one: Sequence[Person], other: Sequence[Person]) -> str:
    """A row of "Mrs. Wexcombe" alone, and another with somebody of that name who may be she."""
    alone = one[0] if len(one) == 1 else None
    if alone is None or alone.given or not alone.title or not alone.family or len(other) != 1:
        return ""
    her = other[0]
    same = her.given and her.family and fold(her.family) == fold(alone.family)
    grown = her.kind is Kind.NAMED and her.suffix == alone.suffix
    if not same or not grown or of_two_sexes(alone.title, her.title):
        return ""
    return "A title with the family name, and a whole name, at the same door."


def nearly_same(one: Person, other: Person) -> str:
    """Why two people at one door are perhaps one person; "" for two, and for equal names."""
    if (one.given, one.family, one.suffix) == (other.given, other.family, other.suffix):
        return ""
    return _same_person(one, other, same_door=True)


def _near_in_street(one: Person, other: Person) -> str:
    """In the same street two given names that are equal, and family names nearly so, are asked."""
    if one.suffix != other.suffix or of_two_sexes(one.title, other.title):
        return ""
    words = (one.given, one.family, other.given, other.family)
    given, family, another, other_family = (fold(word) if word else "" for word in words)
    near = bool(family) and bool(given) and given == another and same_family(family, other_family)
    return "Nearly the same name in the same street." if near else ""


def _near_elsewhere(givens: tuple[str, str], families: tuple[str, str]) -> str:
    """Elsewhere only a short form of the given name, or a letter of a long family name, counts."""
    if families[0] == families[1] and one_in_short(*givens):
        return "The same name, once in short, stands on both rows."
    near = Levenshtein.distance(*families) <= 1 and min(map(len, families)) >= _LONG_ENOUGH
    return "Nearly the same name stands on both rows." if givens[0] == givens[1] and near else ""


def _near_at_door(givens: tuple[str, str], families: tuple[str, str]) -> str:
    slip = givens[0] == givens[1] and Levenshtein.distance(*families) <= 1
    if not slip and not (same_family(*families) and same_given(*givens)):
        return ""
    if 1 in (len(givens[0].split()[0]), len(givens[1].split()[0])):
        return "The same family and initial at the same door."
    return "Nearly the same name at the same door."
