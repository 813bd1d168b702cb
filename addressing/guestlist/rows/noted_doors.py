"""A note that mends a part of its row's address: "College PLACE, not Street", "should be 118"."""

import re

from addressing.guestlist.folding import fold
from addressing.guestlist.homes.doors import short_words
from addressing.guestlist.people.note_words import ways
from addressing.records.guests import Address

_NOT = re.compile(r"\bnot\s+(?:the\s+|in\s+|at\s+|on\s+)?#?(?P<word>[\w'’-]+)", re.IGNORECASE)


def mends_address(note: str, address: Address | None) -> bool:
    """True where a note denies a word of the address, or gives it another number.

    >>> from addressing.records.guests import Cited
    >>> home = Address(street=Cited("77 College St"), city=Cited("Oberlin"))
    >>> notes = ("it's 77 College PLACE, not Street", "number should be 118", "not in June")
    >>> [mends_address(note, home) for note in notes]
    [True, True, False]
    """
    if address is None:
        return False
    parts = (address.street, address.unit, address.city, address.postcode)
    held = {_plain(word) for part in parts if part for word in fold(part.text).split()}
    if any(_plain(found["word"]) in held for found in _NOT.finditer(note)):
        return True
    mended = rf"{ways('mended')}\s+(?:(?:apt|unit|no|number|zip)\b\.?\s*)?#?\d+\w?(?![\w:/])"
    return any(_ends(note[found.end() :]) for found in re.finditer(mended, note, re.IGNORECASE))


def _ends(rest: str) -> bool:
    """True where no word says what is counted ("should be 4 people")."""
    return not rest.lstrip()[:1].islower()


def _plain(word: str) -> str:
    """A word of an address, folded; one short form for "street" and "St"."""
    word = fold(word).strip("#")
    return short_words().get(word, word)
