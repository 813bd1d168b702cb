"""Two people who belong together: who goes first, and what their names and titles tell."""

from functools import cache, lru_cache

from addressing.records.guests import Person
from addressing.tables import table
from addressing.wording.casing import NAMES_KEPT
from addressing.wording.persons import (
    CIVIL,
    family,
    is_military,
    rank,
    title_of,
)


def in_order(people: tuple[Person, ...]) -> tuple[Person, ...]:
    """As listed, but rank, office or doctorate before a spouse without; officers by rank."""
    ranks = [rank(person) for person in people]
    if min(ranks) == CIVIL:
        return people
    if all(value < CIVIL for value in ranks) and not all(is_military(p) for p in people):
        return people
    return tuple(sorted(people, key=rank))


def woman_first(people: tuple[Person, ...]) -> tuple[Person, ...]:
    """Rank and office as always; among equals a woman before a man, where titles tell."""
    ordered = in_order(people)
    if len({rank(person) for person in ordered}) > 1 or any(map(is_military, ordered)):
        return ordered
    return tuple(sorted(ordered, key=lambda person: title_of(person) not in _womens_titles()))


@cache
def _womens_titles() -> frozenset[str]:
    return frozenset(("Ms.", "Miss", *(row["wife"] for row in _couples())))


def likeness(one: Person, other: Person) -> str:
    """How two family names are alike: "same", "folded" (but for small and capital letters), ""."""
    first, second = family(one), family(other)
    if first is None or second is None:
        return ""
    if first == second:
        return "same"
    return "folded" if first.casefold() == second.casefold() else ""


def share_family(one: Person, other: Person) -> bool:
    """True when two people bear one family name, or one of them is named by the other's."""
    return bool(likeness(one, other))


def go_by_one_name(one: Person, other: Person) -> bool:
    """True where a family name said once names both; not for "Joan Orr Penhew & Kit Penhew".

    Said once behind "Joan Orr and Kit", it would leave her by another name. A couple's titles
    tell that they are of one name all the same.
    """
    if not share_family(one, other):
        return False
    married = husband_and_wife(one, other)[0] is not None
    return married or not (has_a_name_before(one.given) or has_a_name_before(other.given))


@lru_cache(NAMES_KEPT)
def has_a_name_before(given: str | None) -> bool:
    """True for the Orr of "Joan Orr" (Penhew): no initial, and no given name that is known."""
    _, *others = (given or "").split() or [""]
    last = others[-1].strip(".") if others else ""
    return len(last) > 1 and last.casefold() not in _givens()


@cache
def _givens() -> frozenset[str]:
    return frozenset(
        word for row in table("given_names") for word in row["name"].casefold().split()
    )


def husband_and_wife(one: Person, other: Person) -> tuple[Person | None, Person | None]:
    """(husband, wife) where two titles tell (data/couples.tsv): he lends her his name."""
    for wife, husband in ((other, one), (one, other)):
        if husband.family and _are_couple(title_of(husband), title_of(wife), bool(wife.given)):
            return husband, wife
    return None, None


@cache
def _couples() -> tuple[dict[str, str], ...]:
    return tuple(table("couples"))


@lru_cache(1024)
def _are_couple(husband: str | None, wife: str | None, named: bool) -> bool:  # noqa: FBT001
    women = _womens_titles()
    return any(
        row["wife"] == wife
        and husband is not None
        and husband not in women
        and row["husband"] in ("*", husband)
        and not (named and row["only"])
        for row in _couples()
    )


def is_married_pair(one: Person, other: Person) -> bool:
    """True for two of one family, husband and wife by their titles."""
    return share_family(one, other) and husband_and_wife(one, other)[0] is not None
