"""One family name in two spellings within a household: "Pete Okonsky" and "Jill Okonski"."""

from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from itertools import combinations

from rapidfuzz.distance import Levenshtein

from addressing.guestlist.asking import finding
from addressing.guestlist.folding import fold
from addressing.records.findings import Finding
from addressing.records.guests import Household, Kind, Person
from addressing.tables import table

_LONG_ENOUGH = 5
"""Letters of a family name of which one may be a slip; shorter ones are two names (Hale, Hall)."""


def two_spellings(household: Household) -> Iterator[Finding]:
    """The question which spelling is right, where a letter tells two of a household apart."""
    bearers: dict[str, Person] = {}
    for person in household.people:
        if person.family and person.given and person.kind is not Kind.GUEST:
            bearers.setdefault(fold(person.family), person)
    for one, other in combinations(bearers, 2):
        if are_one_name(one, other):
            first, second = (bearers[name] for name in (one, other))
            where = next(iter(second.cells), household.rows[0] if household.rows else None)
            if where is not None:
                text = f"“{first.family}” and “{second.family}” stand in one household."
                mend = "Is it one name in two spellings? Which is right?"
                said = f"{first.given} {first.family}, {second.given} {second.family}"
                asked = finding("family-spelt-twice", where, text, mend, said)
                yield replace(asked, likely=_likely(household, first, second))


def are_one_name(one: str, other: str) -> bool:
    """True for two folded family names that a letter tells apart, and not a man's ending.

    >>> are_one_name("okonski", "okonsky"), are_one_name("okonski", "okonska")
    (True, False)
    >>> are_one_name("hale", "hall"), are_one_name("penhew", "pendew")
    (False, True)
    """
    if min(len(one), len(other)) < _LONG_ENOUGH or Levenshtein.distance(one, other) != 1:
        return False
    return not (_are_by_sex(one, other) or _are_by_sex(other, one))


def _are_by_sex(man: str, woman: str) -> bool:
    return any(
        man.endswith(his) and woman.endswith(hers) and _stem(man, his) == _stem(woman, hers)
        for his, hers in _endings()
    )


def _stem(name: str, ending: str) -> str:
    return name[: len(name) - len(ending)]


@cache
def _endings() -> tuple[tuple[str, str], ...]:
    rows = table("name_endings")
    return tuple((row["man"].strip("-"), row["woman"].strip("-")) for row in rows)


def _likely(household: Household, one: Person, other: Person) -> tuple[tuple[str, str], ...]:
    """The names of two with either spelling for both; nothing is proposed for more than two."""
    if len(household.people) > len((one, other)) or household.family is not None:
        return ()
    return tuple(
        ("names", " and ".join(_whole(replace(each, family=family)) for each in (one, other)))
        for family in (one.family, other.family)
    )


def _whole(person: Person) -> str:
    parts = (person.title, person.given, person.family, person.suffix)
    return " ".join(part for part in parts if part)
