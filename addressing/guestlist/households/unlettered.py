"""What the list says of a name that stands on no envelope: told, or asked, never passed over."""

from collections.abc import Iterator

from addressing.guestlist.asking import finding
from addressing.guestlist.folding import fold
from addressing.guestlist.people.called import is_form
from addressing.guestlist.people.vocabulary import titles
from addressing.records.findings import Finding
from addressing.records.guests import Household, Person
from addressing.where import Where

MADE_FROM_DEGREE = frozenset(("md", "dds", "dmd", "dvm", "do"))
"""Degrees from which the title Doctor follows; no other degree makes a title."""
_SHORT = 3
"""Letters of a nickname that may be anybody's ("Kit", "Bo")."""
_LONGER = 2
"""Letters by which a name is the fuller form of another at least: Gwendolyn of Gwen."""


def not_lettered(household: Household, where: Where) -> Iterator[Finding]:
    """Letters behind a name, a word of kinship before it, a name in brackets beside it.

    A degree that makes the title Doctor is on the envelope so, and Esq. where no title stands.
    """
    for person in household.people:
        cell = person.cells[0] if person.cells else where
        yield from _letters(person, cell)
        yield from _kin(person, cell)
        yield from _called(person, cell)


def _letters(person: Person, cell: Where) -> Iterator[Finding]:
    letters = ", ".join(word for word in person.credentials if not _is_set(word, person))
    if letters:
        text = f"“{letters}” behind {_name(person)} is on no envelope."
        mend = "Custom leaves letters behind a name out; say so if they should stand."
        yield finding("letters-left-out", cell, text, mend, letters)


def _kin(person: Person, cell: Where) -> Iterator[Finding]:
    """Without a family name the whole name is asked for; here it is only told."""
    if is_kin(person) and person.given and person.family and person.title:
        text = f"“{person.title}” before {_name(person)} is on no outer envelope."
        mend = "Custom leaves kinship to the inner envelope; check that the name is whole."
        yield finding("kin-left-out", cell, text, mend, person.title)


def _called(person: Person, cell: Where) -> Iterator[Finding]:
    """A fuller name beside a short one may be the one for an envelope; so may one of no kind."""
    given, beside = person.given, person.nickname
    if not given or not beside or fold(beside) in fold(given).split():
        return
    first = given.split()[0]
    if not (is_form(fold(beside), fold(first)) or _is_short(beside, person)):
        text = f"“{beside}” stands in brackets beside {_name(person)} and is on no envelope."
        yield finding("name-beside", cell, text, "Which names should stand there?", beside)
    elif len(beside) >= len(first) + _LONGER:
        text = f"{_name(person)} is called “{beside}” too, which looks like the full name."
        yield finding("name-fuller", cell, text, "Which one is for the envelope?", beside)
    else:
        text = f"“{beside}” beside {_name(person)} is on no envelope."
        yield finding("nickname-left-out", cell, text, "Say so if it should stand.", beside)


def _is_short(called: str, person: Person) -> bool:
    """True for a nickname that no table has: Iggy of Ignatius, Mac of MacAllister, Bo."""
    begin = {name[:2].casefold() for name in (person.given, person.family) if name}
    return called[:2].casefold() in begin or len(called) <= _SHORT


def _name(person: Person) -> str:
    return " ".join(part for part in (person.given, person.family) if part)


def is_kin(person: Person) -> bool:
    """True for Aunt, Uncle: a word for the inner envelope only."""
    known = titles().get(fold(person.title)) if person.title else None
    return known is not None and known.group == "kin"


def _is_set(word: str, person: Person) -> bool:
    plain = word.replace(".", "").casefold()
    if person.title is not None:
        return False
    return plain in MADE_FROM_DEGREE or plain.startswith("esq")
