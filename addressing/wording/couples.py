"""Two people whom the list joins, as formal style writes them: one line, in the right order."""

from addressing.records.guests import Person
from addressing.wording.persons import (
    CIVIL,
    family,
    formal,
    formal_inner,
    given,
    inner_title,
    is_military,
    plural,
    rank,
    spelled,
    title_of,
    with_suffix,
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


def formal_couple(one: Person, other: Person, *, traditional: bool) -> str:
    """Two people of one family on an outer envelope.

    >>> formal_couple(Person("Mr.", "Tobias", "Wexcombe"), Person("Mrs.", "Odile", "Wexcombe"), \
traditional=True)
    'Mr. and Mrs. Tobias Wexcombe'
    """
    husband, wife = _husband_and_wife(one, other)
    if husband is not None and wife is not None and (traditional or wife.given is None):
        return _with_wife(husband, wife)
    if title_of(one) is not None and title_of(one) == title_of(other) and plural(one):
        return _same_title(one, other)
    if title_of(one) is None and title_of(other) is None and one.given and other.given:
        return with_suffix(f"{_given_with_suffix(one)} and {given(other)} {family(other)}", other)
    return f"{formal(one)} and {formal(other)}"


def _given_with_suffix(person: Person) -> str:
    return with_suffix(given(person) or "", person)


def _husband_and_wife(one: Person, other: Person) -> tuple[Person | None, Person | None]:
    """The one who is Mrs., and the one whose name she is written by."""
    for wife, husband in ((other, one), (one, other)):
        wrong = ("Mrs.", "Ms.", "Miss", None)
        if title_of(wife) == "Mrs." and title_of(husband) not in wrong and husband.family:
            return husband, wife
    return None, None


def is_married_pair(one: Person, other: Person) -> bool:
    """True for two of one family, one of them Mrs., the other written by a man's title or rank."""
    return share_family(one, other) and _husband_and_wife(one, other)[0] is not None


def _with_wife(husband: Person, wife: Person) -> str:
    """As in "Doctor and Mrs. Tobias Wexcombe"; The Honorable wants a full name behind it."""
    names = " ".join(part for part in (given(husband), family(husband)) if part)
    if title_of(husband) == "The Honorable":
        return f"{formal(husband)} and Mrs. {family(wife)}"
    return with_suffix(f"{spelled(husband)} and Mrs. {names}", husband)


def _same_title(one: Person, other: Person) -> str:
    """Two doctors: "Doctors Odile and Tobias Wexcombe"; spouses of a civil title in full, each."""
    if not (one.given or other.given):
        return f"The {plural(one)} {family(one)}"
    if _takes_plural(one) and one.given and other.given and not (one.suffix or other.suffix):
        return f"{plural(one)} {given(one)} and {given(other)} {family(one)}"
    return f"{formal(one)} and {formal(other)}"


def _takes_plural(person: Person) -> bool:
    """Ranks and doctors, and Misses, who can only be sisters; Messrs. might be father and son."""
    return rank(person) < CIVIL or title_of(person) == "Miss"


def formal_couple_inner(one: Person, other: Person) -> str:
    """Two people of one family on an inner envelope: "Mr. and Mrs. Wexcombe"."""
    husband, wife = _husband_and_wife(one, other)
    if husband is not None and wife is not None:
        spoken = inner_title(husband)
        if spoken is None:
            return f"{formal(husband)} and Mrs. {family(wife)}"
        return f"{spoken} and Mrs. {family(husband)}"
    if (
        title_of(one) is not None
        and title_of(one) == title_of(other)
        and plural(one)
        and _takes_plural(one)
    ):
        return f"The {plural(one)} {family(one)}"
    if title_of(one) is None and title_of(other) is None:
        return formal_couple(one, other, traditional=True)
    return f"{formal_inner(one)} and {formal_inner(other)}"
