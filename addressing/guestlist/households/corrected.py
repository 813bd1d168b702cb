"""What a line of corrections makes of a household: a number that is changed, or that it is done."""

import re
from collections.abc import Iterator
from functools import cache

from addressing.guestlist.people.vocabulary import row_words
from addressing.records.guests import Household

_NUMBER = r"\d+[A-Za-z]?(?:-\d+)?"


def is_done(said: str) -> bool:
    """True for a correction that its writer has made already, as its end says.

    >>> is_done("Odile with one l (done)"), is_done("Odile isn't done")
    (True, False)
    """
    return _done().search(said) is not None


def corrected_street(said: str, home: Household) -> Iterator[str]:
    """The household's street with the number that a remark gives in place of the list's."""
    address = home.address
    yield from _swapped(said, address.street.text if address and address.street else "")


def corrected_unit(said: str, home: Household) -> Iterator[str]:
    """The household's apartment with the number that a remark gives in place of the list's."""
    address = home.address
    yield from _swapped(said, address.unit.text if address and address.unit else "")


def _swapped(said: str, listed: str) -> Iterator[str]:
    """What is listed with one of its numbers changed as a sentence says."""
    for pattern in _swaps():
        for found in pattern.finditer(said) if listed else ():
            own = re.compile(rf"(?<!\w){re.escape(found['old'])}(?!\w)")
            if len(own.findall(listed)) == 1:
                yield own.sub(found["new"], listed)


@cache
def _done() -> re.Pattern[str]:
    signs = "|".join(word for word in row_words("fix-done") if not re.search(r"\w", word))
    before = rf"(?:[(\[,;:.!]\s*|\s[-–—]+\s+|(?={signs}))"
    return re.compile(rf"{before}(?:{_ways('fix-done')})[)\].!\s]*$", re.IGNORECASE)


@cache
def _swaps() -> tuple[re.Pattern[str], ...]:
    """The patterns of "118 not 181" and of "181 should be 118"."""
    new_first, old_first = _ways("fix-new-first"), _ways("fix-old-first")
    return (
        re.compile(
            rf"\b(?P<new>{_NUMBER}),?\s*\(?(?:{new_first})\s+(?P<old>{_NUMBER})\b", re.IGNORECASE
        ),
        re.compile(
            rf"\b(?P<old>{_NUMBER}),?\s*(?:{old_first})\s*(?P<new>{_NUMBER})\b", re.IGNORECASE
        ),
    )


def _ways(kind: str) -> str:
    """A pattern for the words of a kind, longer ones first."""
    words = sorted(row_words(kind), key=len, reverse=True)
    return "|".join(re.escape(word).replace(r"\ ", r"\s+") for word in words)
