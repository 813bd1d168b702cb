"""Two people, field by field: perhaps one in two spellings, or two for sure."""

from collections.abc import Sequence
from itertools import product

from rapidfuzz.distance import Levenshtein

from addressing.guestlist.folding import fold
from addressing.guestlist.people.likeness import (
    of_two_sexes,
    one_in_short,
    same_family,
    same_given,
)
from addressing.guestlist.people.vocabulary import mens_names
from addressing.records.guests import Kind, Person

_LONG_ENOUGH = 5
_COUPLE = 2


def same_person(one: Person, other: Person, *, same_door: bool) -> str:
    """Why two people are perhaps one, or "" when a field says that they are not."""
    if same_door and _turned_about(one, other):
        return "The same name at the same door, once with the family name first."
    if one.suffix != other.suffix or (same_door and are_man_and_wife(one, other)):
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


def perhaps_one(one: Sequence[Person], other: Sequence[Person]) -> str:
    """Why two rows of one household perhaps name one person; "" for two, and for equal rows.

    Rows that name the same people with the same titles say one thing twice; so do a person
    alone and that person again beside others only perhaps.
    """
    if sorted(map(told, one)) == sorted(map(told, other)):
        return ""
    for mine, theirs in product(one, other):
        if are_man_and_wife(mine, theirs):
            continue
        if mine.given and _folded(mine) == _folded(theirs):
            return "The same name stands on both rows."
        why = nearly_same(mine, theirs)
        if why:
            return why
    return _by_title(one, other) or _by_title(other, one)


def are_man_and_wife(one: Person, other: Person) -> bool:
    """True for "Rev. Thomas Oakes" and "Mrs. Thomas Oakes": she goes by his name."""
    titles = {one.title, other.title}
    his = fold(one.given or "").split()[:1]
    if len(titles) < _COUPLE or "Mrs." not in titles or titles & {None, "Ms.", "Miss"}:
        return False
    return bool(his) and his[0] in mens_names()


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
    return same_person(one, other, same_door=True)


def near_in_street(one: Person, other: Person) -> str:
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
