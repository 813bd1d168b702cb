"""Two people who belong together: who goes first, and what their names and titles tell."""

from collections.abc import Sequence
from functools import cache, lru_cache

from addressing.records.guests import Person
from addressing.tables import table
from addressing.wording.persons import (
    CIVIL,
    family,
    is_military,
    rank,
    title_of,
)

_ANY = "*"
"""What data/title_tongues.tsv has for a title of many languages."""


def in_order(people: tuple[Person, ...]) -> tuple[Person, ...]:
    """As listed, but rank, office or doctorate before a spouse without; officers by rank."""
    ranks = [rank(person) for person in people]
    if min(ranks) == CIVIL:
        return people
    if all(value < CIVIL for value in ranks) and not all(is_military(p) for p in people):
        return people
    return tuple(sorted(people, key=rank))


def share_family(one: Person, other: Person) -> bool:
    """True when two people bear one family name, or one of them is named by the other's."""
    first, second = family(one), family(other)
    return first is not None and second is not None and first.casefold() == second.casefold()


def husband_and_wife(one: Person, other: Person) -> tuple[Person | None, Person | None]:
    """(husband, wife) where two titles tell (data/couples.tsv): he lends her his name."""
    for wife, husband in ((other, one), (one, other)):
        if husband.family and _are_couple(title_of(husband), title_of(wife)):
            return husband, wife
    return None, None


def tongue_word(word: str, people: Sequence[Person]) -> str | None:
    """The words for and, family, guest or guests in the titles' one language; None: the style's.

    >>> tongue_word("and", [Person("Herr", "Tobias", "Wexcombe"), Person("Frau", "Odile", "Lorne")])
    'und'
    """
    said = {_tongue(title_of(person)) for person in people} - {_ANY}
    tongue = said.pop() if len(said) == 1 else None
    return (_tongues()[tongue][word] or None) if tongue else None


@cache
def _tongue(title: str | None) -> str | None:
    """A title's language, `_ANY` for one of many; None is English."""
    known = {row["title"]: row["language"] for row in table("title_tongues")}
    return known.get(title or "", known.get((title or "").partition(" ")[0]))


@cache
def _tongues() -> dict[str, dict[str, str]]:
    return {row["language"]: row for row in table("tongue_words")}


@cache
def _couples() -> tuple[dict[str, str], ...]:
    return tuple(table("couples"))


@lru_cache(1024)
def _are_couple(husband: str | None, wife: str | None) -> bool:
    women = {"Ms.", "Miss", *(row["wife"] for row in _couples())}
    return any(
        row["wife"] == wife
        and husband is not None
        and husband not in women
        and row["husband"] in ("*", husband)
        for row in _couples()
    )


def is_married_pair(one: Person, other: Person) -> bool:
    """True for two of one family, husband and wife by their titles."""
    return share_family(one, other) and husband_and_wife(one, other)[0] is not None
