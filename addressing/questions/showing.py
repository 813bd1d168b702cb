"""Households and addresses in a line for people to read; never printed on an envelope."""

from addressing.records.guests import Address, Household, Kind, Person


def person_shown(person: Person) -> str:
    """A person as listed; a companion without a name is "Guest", such a child "child"."""
    parts = (person.title, person.given, person.family, person.suffix)
    named = " ".join(part for part in parts if part)
    unnamed = {Kind.GUEST: "Guest", Kind.CHILD: "child", Kind.NAMED: ""}[person.kind]
    return named if person.given or person.family else person.title or unnamed


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


def address_shown(address: Address | None) -> str:
    """An address in one line; "" without one."""
    if address is None:
        return ""
    fields = (
        address.recipient_extra, address.street, address.unit, address.city, address.region,
        address.postcode, address.country,
    )  # fmt: skip
    texts = [field.text.replace("\n", ", ") for field in fields if field and field.text]
    return ", ".join(texts)
