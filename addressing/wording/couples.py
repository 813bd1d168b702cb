"""Two people who belong together: who goes first, and what their names and titles tell."""

from addressing.records.guests import Person
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
    if all(value < CIVIL for value in ranks) and not all(is_military(p) for p in people):
        return people
    return tuple(sorted(people, key=rank))


def share_family(one: Person, other: Person) -> bool:
    """True when two people bear one family name, or one of them is named by the other's."""
    first, second = family(one), family(other)
    return first is not None and second is not None and first.casefold() == second.casefold()


def husband_and_wife(one: Person, other: Person) -> tuple[Person | None, Person | None]:
    """The one who is Mrs., and the one whose name she is written by."""
    for wife, husband in ((other, one), (one, other)):
        wrong = ("Mrs.", "Ms.", "Miss", None)
        if title_of(wife) == "Mrs." and title_of(husband) not in wrong and husband.family:
            return husband, wife
    return None, None


def is_married_pair(one: Person, other: Person) -> bool:
    """True for two of one family, one of them Mrs., the other written by a man's title or rank."""
    return share_family(one, other) and husband_and_wife(one, other)[0] is not None
