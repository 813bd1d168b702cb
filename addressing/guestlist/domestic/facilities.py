"""A home for many (a rest home, a college's hall) and a room in it, on one line without a comma."""

import re
from functools import cache

from addressing.guestlist.domestic.buildings import ends_road
from addressing.guestlist.domestic.designators import needs_number
from addressing.guestlist.folding import fold
from addressing.guestlist.written import Written
from addressing.records.guests import Cited

_LEAST = 2
"""Words of a home's name."""


def rooms_apart(written: Written) -> Written:
    r"""The written address with a comma between a home's name and the room behind it.

    >>> rooms_apart(Written((Cited("Larkmoor Manor Rm 212\n14 Quince St"),))).lines[0].text
    'Larkmoor Manor, Rm 212\n14 Quince St'
    """
    return written.with_lines(Cited(_apart(line.text), line.cells) for line in written.lines)


def _apart(text: str) -> str:
    return _in_front().sub(_parted_front, _pattern().sub(_parted, text))


def _parted_front(found: re.Match[str]) -> str:
    if len(found["home"].split()) < _LEAST or ends_road(fold(found["home"]).split()):
        return found[0]
    return f"{found['lead']}{found['room']}, {found['home']}"


def _parted(found: re.Match[str]) -> str:
    if len(found["home"].split()) < _LEAST:
        return found[0]
    street = ", " if found["street"] else ""
    return f"{found['lead']}{found['home']}, {found['room']}{street}"


@cache
def _in_front() -> re.Pattern[str]:
    """A lot or a building before the name of its park, above a street with a number."""
    words = "|".join(
        (*map(re.escape, sorted(needs_number(), key=len, reverse=True)), "lot", "space")
    )
    return re.compile(
        rf"(?P<lead>(?:^|(?<=[,\n]))\s*)(?P<room>(?:{words})\b\.?\s*#?\s*(?:\d[\w\-]*|[A-Za-z]))\s+"
        r"(?P<home>[^\W\d_][^\d,\n#]*[^\s,\d#])(?=\s*[,\n]\s*#?\d)",
        re.IGNORECASE,
    )


@cache
def _pattern() -> re.Pattern[str]:
    """A part of an address without a figure before the designator: it is no street."""
    words = "|".join(re.escape(word) for word in sorted(needs_number(), key=len, reverse=True))
    return re.compile(
        rf"(?P<lead>(?:^|(?<=[,\n]))\s*)(?P<home>[^\W\d_][^\d,\n#]*?)\s+"
        rf"(?P<room>(?:{words})\b\.?\s*#?\s*[A-Za-z]?-?\d[\w\-]*)"
        r"(?:(?=\s*(?:[,\n]|$))|(?P<street>\s+(?=\d+\s+[A-Za-z])))",
        re.IGNORECASE,
    )
