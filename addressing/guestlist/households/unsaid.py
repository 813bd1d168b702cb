"""What a household doesn't say of itself: no name, no address, no title, nameless companions."""

from dataclasses import replace

from addressing.guestlist.asking import finding
from addressing.guestlist.folding import fold
from addressing.guestlist.households.short_givens import about_short_givens
from addressing.guestlist.households.two_titles import about_two_titles
from addressing.guestlist.households.two_ways import about_two_ways
from addressing.guestlist.households.unlettered import MADE_FROM_DEGREE, is_kin, not_lettered
from addressing.guestlist.people.sharing import OF_AGE
from addressing.guestlist.people.vocabulary import row_words, words
from addressing.records.findings import Finding
from addressing.records.guests import Household, Kind, Person
from addressing.tables import table
from addressing.where import Where

_A_GENERATION = 16
"""Years between parents, who share an envelope, and their grown child at least."""
_FAMILY = 3
"""So many people are a family: one of them may be a child of age and not a partner."""

_WIVES = tuple(row["wife"] for row in table("couples"))
_ORDERS = ("Lady", "Lord", "Sister", "Brother")
_HIS_NAME = {True: (*_WIVES, *_ORDERS), False: _ORDERS}
"""Titles that stand before one name alone, beside a husband's full name and without one."""
_SMALL = frozenset(("the", "his", "her", "their", "with", "plus", "whole", "of"))


def about_people(household: Household) -> tuple[Finding, ...]:
    """The findings that need the whole household, not one cell."""
    where = household.rows[0]
    found: list[Finding] = []
    if household.label is None and not any(map(_is_named, household.people)):
        text = (
            "The row has an address and no name." if household.address else "The row has no name."
        )
        found.append(finding("name-missing", where, text, "Who lives there?"))
    found.extend(_address(household, where))
    nameless = _without_family(household, where)
    found.extend(nameless or _titles(household, where))  # one question: its answer has both
    found.extend(about_two_ways(household, where))
    found.extend(about_two_titles(household, where))
    found.extend(about_short_givens(household, where))
    found.extend(_family_in_short(household, where))
    found.extend(_family_alone(household, where))
    found.extend(_without_given(household, where))
    found.extend(_unnamed(household, where))
    found.extend(_child_alone(household, where))
    found.extend(_trial(household, where))
    found.extend(_grown_up(household, where))
    found.extend(not_lettered(household, where))
    return tuple(found)


def _is_named(person: Person) -> bool:
    return bool(person.given or person.family or person.title)


def _child_alone(household: Household, where: Where) -> list[Finding]:
    """A child by age, and nobody of age: is it a guest alone, or its parents' row that lacks?"""
    people = household.people
    young = [p for p in people if p.age is not None and p.age < OF_AGE and p.given]
    if not young or len(young) < len(people) or household.label or household.family:
        return []
    names = " and ".join(" ".join(filter(None, (p.given, p.family))) for p in young)
    ages = " and ".join(str(p.age) for p in young)
    text = f"{names} ({ages}): no adult stands beside."
    mend = "Who is invited with them, and how should the names read?"
    cell = young[0].cells[0] if young[0].cells else where
    return [finding("name-doubtful", cell, text, mend, names)]


def _trial(household: Household, where: Where) -> list[Finding]:
    """An entry with which somebody tried out a form: "Test Test"; "Ada Test" is a guest."""
    tried = row_words("trial-entry")
    said = [[word for word in (p.given, p.family) if word] for p in household.people]
    for place, names in enumerate(said):
        if len(names) > 1 and all(fold(word) in tried for word in names):
            person, name = household.people[place], " ".join(names)
            cell = person.cells[0] if person.cells else where
            text = f"“{name}” reads like a trial of a form."
            return [finding("name-doubtful", cell, text, "Is it a guest's name?", name)]
    return []


def _grown_up(household: Household, where: Where) -> list[Finding]:
    """Somebody of age who stands beside a couple, by age or by title: a note."""
    if len(household.people) < _FAMILY:
        return []
    named = [p for p in household.people if p.kind is Kind.NAMED]
    beside = _beside_a_couple(named)
    ages = [person.age for person in named if person.age is not None]
    return [
        finding(
            "own-envelope",
            person.cells[0] if person.cells else where,
            f"{said}: custom gives an envelope of their own.",
            "If you like one, give them a row of their own.",
        )
        for person in household.people
        if (said := _why_grown(person, beside)) and not _is_parent(person, ages)
    ]


def _is_parent(person: Person, ages: list[int]) -> bool:
    """True for one of those grown people, of several `ages`, of the elder generation."""
    if person.kind is not Kind.NAMED or person.age is None or len(ages) == 1:
        return False
    return max(ages) - person.age < _A_GENERATION


def _why_grown(person: Person, beside: list[Person]) -> str:
    """Why somebody might have an envelope of their own; "" where nothing says so."""
    if person.age is not None and person.age >= OF_AGE and person.given:
        return f"{person.given} is {person.age}"
    if person.age is None and any(person is each for each in beside):
        names = " ".join(part for part in (person.title, person.given, person.family) if part)
        return f"{names} stands beside a couple"
    return ""


def _beside_a_couple(named: list[Person]) -> list[Person]:
    """Those who bear a title and stand with husband and wife, and are neither."""
    couple = [p for p in named if p.title in _WIVES]
    if len(named) < _FAMILY or not couple or not named[1].joined or couple[0] not in named[:2]:
        return []
    return [person for person in named[2:] if person.title]


def _address(household: Household, where: Where) -> list[Finding]:
    if household.by_hand:
        return [finding("by-hand", where, "Given by hand: no address is owed.", "Nothing to do.")]
    if household.address is None:
        mend = "Where should it go? If it is given by hand, say so in a column of its own."
        return [finding("address-missing", where, "The household has no address.", mend)]
    return []


def _titles(household: Household, where: Where) -> list[Finding]:
    people = household.people
    places = [n for n, p in enumerate(people) if p.kind is Kind.NAMED and _lacks_title(p)]
    without = [people[n] for n in places]
    if not without:
        return []
    names = ", ".join(" ".join(n for n in (p.given, p.family) if n) for p in without)
    place = without[0].cells[0] if without[0].cells else where
    text = "No title is given." if len(without) == 1 else f"No title is given: {names}."
    mend = "Which titles? Without an answer the name stands alone."
    return [replace(finding("title-missing", place, text, mend), people=tuple(places))]


def _family_in_short(household: Household, where: Where) -> list[Finding]:
    """Carla V: a letter for a family name, as telephones keep friends; the postman needs it."""
    named = [p for p in household.people if p.kind is Kind.NAMED and p.given and p.family]
    short = [p for p in named if len((p.family or "").rstrip(".")) == 1]
    if not short or household.label is not None:
        return []
    names = " and ".join(f"{p.given} {p.family}" for p in short)
    cell = short[0].cells[0] if short[0].cells else where
    text = f"{names}: a letter for the family name."
    return [finding("name-doubtful", cell, text, "What is the family name?", names)]


def _family_alone(household: Household, where: Where) -> list[Finding]:
    """Pendleton, and no word more: a first name may stand in a column that isn't read."""
    named = [p for p in household.people if p.kind is Kind.NAMED]
    if len(named) != 1 or household.label is not None:
        return []
    (person,) = named
    if person.family is None or person.given or person.title:
        return []
    cell = person.cells[0] if person.cells else where
    text = f"“{person.family}”: a family name and nothing else."
    mend = "Who is invited? How should the name stand on the envelope?"
    return [finding("name-doubtful", cell, text, mend, person.family)]


def _without_given(household: Household, where: Where) -> list[Finding]:
    """Mr. and Mrs. Pendleton: a full name is the outer envelope's custom.

    A wife goes by her husband's name, Lady by her own title, Sister by her one name.
    """
    named = [p for p in household.people if p.kind is Kind.NAMED]
    given = {p.family for p in named if p.given}
    lacking = [
        p
        for p in named
        if p.title
        and p.family
        and not p.given
        and p.title not in _HIS_NAME.get(p.family in given, ())
    ]
    if not lacking:
        return []
    names = " and ".join(f"{p.title} {p.family}" for p in lacking)
    place = lacking[0].cells[0] if lacking[0].cells else where
    mend = "What is it? Without an answer title and family name stand alone."
    return [finding("given-missing", place, f"{names}: no first name.", mend, names)]


def _without_family(household: Household, where: Where) -> list[Finding]:
    """Aunt Jo, Kim, Anna and Mark: a family name stands nowhere, and the postman needs one.

    A title (Sister Mary Odile) says that the one name is whole.
    """
    named = [p for p in household.people if p.kind is Kind.NAMED]
    named = named or [p for p in household.people if p.kind is Kind.CHILD and p.given]
    said = _names_a_family(household) or any(p.family for p in household.people)
    if not named or said or household.label is not None:
        return []
    if not any(is_kin(p) for p in named) and any(p.title or p.credentials for p in named):
        return []
    names = " and ".join(f"{p.title or ''} {p.given or ''}".strip() for p in named)
    text = f"{names}: one name only, and no family name beside it."
    return [finding("name-doubtful", where, text, "How should the name stand on the envelope?")]


def _names_a_family(household: Household) -> bool:
    """True for "the Wexcombe family"; "and family" or "and kids" names none."""
    if household.family is None:
        return False
    said = fold(household.family.text).split()
    return not words("family").union(words("children"), words("and"), _SMALL).issuperset(said)


def _names_its_children(household: Household) -> bool:
    """True for "and the girls" or "and Family" where the list says who the children are."""
    said = set(fold(household.family.text).split() if household.family else [])
    named = any(p.kind is Kind.CHILD and p.given for p in household.people)
    known = words("children") | words("family") | words("and") | _SMALL
    return named and bool(said) and said <= known and said.isdisjoint(row_words("one-more"))


def _lacks_title(person: Person) -> bool:
    if person.title is not None and not is_kin(person):
        return False
    letters = {credential.replace(".", "").casefold() for credential in person.credentials}
    return not letters & MADE_FROM_DEGREE


def _counted(children: int) -> str:
    return "1 child" if children == 1 else f"{children} children"


def _unnamed(household: Household, where: Where) -> list[Finding]:
    found: list[Finding] = []
    guests = [p for p in household.people if p.kind is Kind.GUEST and p.given is None]
    children = [p for p in household.people if p.kind is Kind.CHILD and p.given is None]
    if guests:
        count = "A companion is" if len(guests) == 1 else f"{len(guests)} companions are"
        place = guests[0].cells[0] if guests[0].cells else where
        text = f"{count} invited without a name."
        mend = "What is the name? Without an answer “and Guest” is set."
        meant = tuple(
            n for n, p in enumerate(household.people) if p.kind is Kind.GUEST and p.given is None
        )
        found.append(replace(finding("guest-unnamed", place, text, mend), people=meant))
    if (household.family is not None and not _names_its_children(household)) or children:
        said = household.family.text if household.family else _counted(len(children))
        place = household.family.cells[0] if household.family and household.family.cells else where
        text = f"“{said}” names nobody."
        found.append(finding("family-unnamed", place, text, "Who is invited by name?", said))
    return found
