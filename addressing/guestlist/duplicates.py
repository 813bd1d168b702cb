"""The same household twice: nominated by door and by name, judged field by field, never by a score.

Scores only nominate: no score tells father from son or one flat from the next (measured on invented
pairs). A different suffix, given name, house number or unit is a difference; all else is asked.
"""

from collections.abc import Iterable, Sequence
from itertools import combinations

from rapidfuzz import fuzz
from rapidfuzz.distance import Levenshtein

from addressing.guestlist.doors import door
from addressing.guestlist.folding import fold
from addressing.records.guests import Household, Kind, Person

_NEAR = 85
_LONG_ENOUGH = 5
_LIKE = 75
_SHORT_FORM = 3
"""The shortest given name that counts as a short form of another ("Tom")."""
_MANY = 12
"""More households than this under one key are a building or a common name, not duplicates."""


def probable_duplicates(households: Sequence[Household]) -> tuple[tuple[int, int, str], ...]:
    """Pairs of places in `households` that are perhaps one, each with the reason."""
    pairs: dict[tuple[int, int], str] = {}
    for group, same_door in _nominated(households):
        for one, other in combinations(group, 2):
            if (one, other) in pairs:
                continue
            why = _verdict(households[one], households[other], same_door=same_door)
            if why:
                pairs[one, other] = why
    return tuple((one, other, why) for (one, other), why in sorted(pairs.items()))


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


def _nominated(households: Sequence[Household]) -> Iterable[tuple[list[int], bool]]:
    doors: dict[str, list[int]] = {}
    names: dict[str, list[int]] = {}
    for place, household in enumerate(households):
        here = door(household.address)
        if here:
            doors.setdefault(here, []).append(place)
        for key in {key for person in household.people for key in _name_keys(person)}:
            names.setdefault(key, []).append(place)
        if household.label:
            names.setdefault(fold(household.label.text), []).append(place)
    for group in doors.values():
        yield group, True
    for group in names.values():
        if len(group) <= _MANY:
            yield sorted(set(group)), False


def _name_keys(person: Person) -> Iterable[str]:
    """The key under which a namesake elsewhere is found: given name, start of the family name."""
    if person.kind is not Kind.NAMED or not person.given or not person.family:
        return
    given, family = fold(person.given).split(), fold(person.family).replace(" ", "")
    if given:
        yield f"{given[0]} {family[:3]}"


def _verdict(one: Household, other: Household, *, same_door: bool) -> str:
    same_door = same_door or (door(one.address) == door(other.address) != "")
    if one.label and other.label and fold(one.label.text) == fold(other.label.text):
        return "The same name stands on both rows."
    for mine in _named(one):
        for theirs in _named(other):
            why = _same_person(mine, theirs, same_door=same_door)
            if why:
                return why
    if same_door and (one.label or other.label) and _label_and_names(one, other):
        return "The same family at the same door."
    return ""


def _label_and_names(one: Household, other: Household) -> bool:
    labelled, named = (one, other) if one.label else (other, one)
    words = set(fold(labelled.label.text).split()) if labelled.label else set()
    return any(p.family and fold(p.family) in words for p in named.people)


def _named(household: Household) -> list[Person]:
    return [p for p in household.people if p.kind is not Kind.GUEST and (p.given or p.family)]


def _same_person(one: Person, other: Person, *, same_door: bool) -> str:
    """Why two people are perhaps one, or "" when a field says that they are not."""
    if one.suffix != other.suffix and one.suffix and other.suffix:
        return ""
    if not (one.family and other.family and one.given and other.given):
        return ""
    families = fold(one.family).replace(" ", ""), fold(other.family).replace(" ", "")
    givens = fold(one.given), fold(other.given)
    if families[0] == families[1] and givens[0] == givens[1]:
        if one.suffix != other.suffix and same_door:
            return ""
        return "The same name stands on both rows."
    if not same_door:
        return _near_elsewhere(givens, families)
    return _near_at_door(givens, families)


def nearly_same(one: Person, other: Person) -> str:
    """Why two people at one door are perhaps one person; "" for two, and for equal names."""
    if (one.given, one.family, one.suffix) == (other.given, other.family, other.suffix):
        return ""
    return _same_person(one, other, same_door=True)


def _near_elsewhere(givens: tuple[str, str], families: tuple[str, str]) -> str:
    """Elsewhere only one letter's difference in a long family name counts."""
    near = Levenshtein.distance(*families) <= 1 and min(map(len, families)) >= _LONG_ENOUGH
    return "Nearly the same name stands on both rows." if givens[0] == givens[1] and near else ""


def _near_given(one: str, other: str) -> bool:
    """One spelling of a given name or a short form of it: Stefan and Stephan, Matt and Matthias."""
    shorter = min(len(one), len(other))
    if shorter < _SHORT_FORM:
        return False
    like = fuzz.ratio(one, other) >= (_NEAR if shorter == _SHORT_FORM else _LIKE)
    return like or one.startswith(other) or other.startswith(one)


def _near_at_door(givens: tuple[str, str], families: tuple[str, str]) -> str:
    same_family = fuzz.ratio(*families) >= _NEAR
    first = givens[0].split()[0], givens[1].split()[0]
    initial = len(first[0]) == 1 or len(first[1]) == 1
    if not same_family:
        return ""
    if initial and first[0][0] == first[1][0]:
        return "The same family and initial at the same door."
    if first[0] == first[1] or _near_given(*first) or fuzz.ratio(*givens) >= _NEAR:
        return "Nearly the same name at the same door."
    return ""
