"""Whether a row belongs to those above it, and whether those at one door are one household."""

from collections import Counter
from collections.abc import Sequence
from enum import IntEnum

from addressing.guestlist.folding import fold
from addressing.guestlist.homes.doors import door
from addressing.guestlist.households.one_person import are_man_and_wife, nearly_same
from addressing.guestlist.rows.of_families import KIN
from addressing.guestlist.rows.row import RowReading
from addressing.records.guests import Address, Kind, Person

_COUPLE = 2
_MOST_LOOKED_AT = 60
"""Rows of a household that name its families; nobody's has more."""


class Belongs(IntEnum):
    """How surely a row without an address of its own belongs to the rows above it."""

    NOT = 0
    PERHAPS = 1
    SURELY = 2


def belongs(rows: Sequence[RowReading], reading: RowReading) -> Belongs:
    """Companions and children belong to those above; a grown namesake perhaps does.

    So does whom the list itself calls kin of theirs, by whatever name.

    A row with two grown people, or with an address of its own, never does. Below a cell merged
    over both rows, a given name alone is of those above, and so is the wife of a husband.
    """
    if reading.apart == "alone" or _speaks_of_its_door(reading):
        return Belongs.NOT
    doorless = reading.leans or has_no_door(rows, reading)
    if not doorless or reading.label or not reading.people:
        return Belongs.NOT
    if KIN in reading.told:
        return Belongs.SURELY
    if all(p.given is None and p.family is None for p in reading.people):
        return Belongs.SURELY
    families = _families(rows)
    mine = {fold(p.family) for p in reading.people if p.family}
    grown = [p for p in reading.people if p.kind is Kind.NAMED]
    if grown and reading.leans:
        sure = not mine or _are_a_couple(rows, grown)
    else:
        sure = not grown and bool(not mine or mine & families)
    if sure:
        return Belongs.SURELY
    perhaps = len(grown) == 1 and bool(mine & families) and not reading.leans
    return Belongs.PERHAPS if perhaps else Belongs.NOT


def _speaks_of_its_door(reading: RowReading) -> bool:
    """True where words stand in place of an address ("he just moved, ask Ada"): it has its own."""
    return any(each.code == "address-missing" and each.quoted for each in reading.findings)


def are_their_children(rows: Sequence[RowReading], reading: RowReading) -> bool:
    """True for a row of children alone at the door of grown people of their name.

    Not of somebody who brings a companion: there it may be a brother's or sister's door too.
    """
    if reading.apart or reading.label or not reading.people:
        return False
    if any(person.kind is not Kind.CHILD for person in reading.people):
        return False
    here = door(reading.address)
    kinds = {person.kind for row in rows for person in row.people}
    if not here or Kind.GUEST in kinds:
        return False
    mine = {fold(p.family) for p in reading.people if p.family}
    theirs = {door(row.address) for row in rows if row.address is not None}
    return Kind.NAMED in kinds and theirs == {here} and bool(mine & _families(rows))


def _are_a_couple(rows: Sequence[RowReading], grown: Sequence[Person]) -> bool:
    """True for Mr. Penhew in the rows above, alone, and Mrs. Penhew below him."""
    above = [p for row in rows for p in row.people if p.kind is Kind.NAMED]
    both = [*above, *grown]
    if len(above) != 1 or len(both) != _COUPLE or len({fold(p.family or "") for p in both}) > 1:
        return False
    return [p.title for p in both] == ["Mr.", "Mrs."] and not any(p.suffix for p in grown)


def has_no_door(rows: Sequence[RowReading], reading: RowReading) -> bool:
    """True for a row without an address, or with no more of one than the town of those above."""
    mine = reading.address
    if mine is None:
        return True
    theirs = next((row.address for row in reversed(rows) if row.address is not None), None)
    return (
        mine.street is None and mine.unit is None and theirs is not None and _within(mine, theirs)
    )


def _within(mine: Address, theirs: Address) -> bool:
    pairs = (
        (mine.city, theirs.city), (mine.region, theirs.region), (mine.postcode, theirs.postcode)
    )  # fmt: skip
    said = [(a, b) for a, b in pairs if a is not None]
    return bool(said) and all(b is not None and fold(a.text) == fold(b.text) for a, b in said)


def _families(rows: Sequence[RowReading]) -> set[str]:
    """Family names of the rows, those in a household's label ("The Wexcombe Family") too."""
    first = rows[:_MOST_LOOKED_AT]
    named = {fold(p.family) for row in first for p in row.people if p.family}
    labels = {word for row in first if row.label for word in fold(row.label.text).split()}
    return named | labels


def heads(label: RowReading, below: RowReading) -> bool:
    """True for a row with nothing but a household's label above the first of its people."""
    if label.label is None or label.people or label.address is not None or below.address is None:
        return False
    words = set(fold(label.label.text).split())
    return any(p.family and fold(p.family) in words for p in below.people)


def several(rows: Sequence[RowReading]) -> str:
    """Why the people at one door may want more than one envelope; "" for a family or a couple."""
    if len(rows) == 1:
        return ""
    people = [p for row in rows for p in row.people]
    grown = [p for p in people if p.kind is Kind.NAMED and p.title != "Miss"]
    if _namesakes(grown):
        return "two of them have one name"
    titled = [p for p in grown if p.title]
    families = Counter(fold(p.family) for p in grown if p.family)
    if len(families) > _COUPLE:
        return f"they have {len(families)} family names"
    if len(titled) > _COUPLE:
        return f"{len(titled)} of them are grown up"
    if not families and len(grown) > _COUPLE:
        return f"they are {len(grown)}"
    return ""


def _namesakes(people: Sequence[Person]) -> bool:
    """Father and son at one door: equal names, told apart by a suffix."""
    names = Counter((fold(p.given), fold(p.family or "")) for p in people if p.given)
    return any(many > 1 for many in names.values()) and any(p.suffix for p in people)


def _are_of_one_family(one: Person, other: Person) -> bool:
    """True for "Mr. Penhew" and Odile Penhew, in this order or the other: perhaps a couple."""
    titled = [p for p in (one, other) if not p.given and p.title]
    families = {fold(p.family) for p in (one, other) if p.family}
    return len(titled) == 1 and len(families) == 1 and one.title != other.title


def share_envelope(one: RowReading, other: RowReading) -> bool:
    """Two grown people, a row each, at one door; not namesakes, nor one person in two spellings."""
    if door(one.address) != door(other.address) or not door(one.address):
        return False
    if one.apart or other.apart or _care(one) != _care(other):
        return False
    if len(one.people) != 1 or len(other.people) != 1 or one.label or other.label:
        return False
    people = (*one.people, *other.people)
    if any(p.kind is not Kind.NAMED or p.suffix for p in people):
        return False
    if any(not p.given for p in people) or are_man_and_wife(*people):
        return _are_of_one_family(*people) or are_man_and_wife(*people)
    first, second = (fold(p.given or "").split()[0] for p in people)
    return first[0] != second[0] and not nearly_same(*people)


def _care(row: RowReading) -> str:
    """In whose care mail goes ("c/o Orr"), or to what house: none of it may be lost."""
    extra = row.address.recipient_extra if row.address is not None else None
    return fold(extra.text) if extra is not None else ""
