"""Households, addresses and places in a line for people to read; never printed on an envelope."""

import re

from addressing.records.guests import Address, Cited, Household, Kind, Person
from addressing.where import Where

_HOME = "US"


def person_shown(person: Person) -> str:
    """A person as listed; a companion without a name is "Guest", such a child "child".

    >>> person_shown(Person(given="Rosie", family="Marsh", age=6, kind=Kind.CHILD))
    'Rosie Marsh (6)'
    """
    age = None if person.age is None else f"({person.age})"
    parts = (person.title, person.given, person.family, person.suffix, age)
    named = " ".join(part for part in parts if part)
    unnamed = {Kind.GUEST: "Guest", Kind.CHILD: "child", Kind.NAMED: ""}[person.kind]
    return named if person.given or person.family else person.title or unnamed


def without_ages(shown: str) -> str:
    """The same without the ages: what an answer is about is no other when an age is known."""
    return re.sub(r" \(\d{1,3}\)(?=,|$)", "", shown, flags=re.MULTILINE)


def names_shown(household: Household) -> str:
    """Everybody of a household, in order."""
    shown = [household.label.text] if household.label else []
    shown += [words for person in household.people if (words := person_shown(person))]
    if household.family and household.label is None:
        shown.append(household.family.text)
    return ", ".join(shown)


def named_shown(household: Household) -> str:
    """Those of a household who have names, in order; everybody when nobody has."""
    named = [person for person in household.people if person.given or person.family]
    shown = [household.label.text] if household.label else []
    return ", ".join((*shown, *map(person_shown, named))) or names_shown(household)


def household_shown(household: Household) -> str:
    """What to call a household towards the client: its label, or everybody who has a name."""
    named = [p for p in household.people if p.kind is not Kind.CHILD and (p.given or p.family)]
    if household.label is not None or not named:
        return household.label.text if household.label else "(no name)"
    shown = [person_shown(person) for person in named]
    families = {person.family for person in named}
    if len(families) == 1 and None not in families and all(person.given for person in named):
        family = named[0].family or ""
        shown = [words.removesuffix(family).strip() for words in shown]
        if all(shown) and all(person.suffix is None for person in named):
            return f"{_and(shown)} {family}"
        shown = [person_shown(person) for person in named]
    return _and(shown)


def _and(words: list[str]) -> str:
    return " and ".join((", ".join(words[:-1]), words[-1])) if len(words) > 1 else words[0]


def address_shown(address: Address | None) -> str:
    """An address in one line, as mail has it; "" without one. The home country isn't said."""
    if address is None:
        return ""
    place = " ".join(_texts(address.region, address.postcode))
    country = address.country if address.country and address.country.text != _HOME else None
    texts = [
        *_texts(address.recipient_extra, address.street, address.unit, address.city),
        *([place] if place else []),
        *_texts(country),
    ]
    return ", ".join(text.replace("\n", ", ") for text in texts)


def place_shown(where: Where) -> str:
    """A place in the list as a person finds it.

    >>> place_shown(Where("guests.xlsx", "Guests", "B45")), place_shown(Where("a.csv", None, "C9"))
    ('Guests, row 45', 'row 9')
    """
    number = re.search(r"\d+$", where.cell or "")
    parts = (where.sheet or "", f"row {number[0]}" if number else "")
    return ", ".join(part for part in parts if part)


def _texts(*fields: Cited | None) -> list[str]:
    return [field.text for field in fields if field and field.text]
