"""Lines that only say whose guests follow: "Bride's family", "Work friends", "Table 5"."""

import re
from collections.abc import Sequence

from addressing.guestlist.asking import finding
from addressing.guestlist.grid import Row
from addressing.guestlist.people.vocabulary import row_words
from addressing.guestlist.tables.meanings import fold, signs
from addressing.records.findings import Finding
from addressing.records.guests import Cited

_OWNER = re.compile(r"\b(?:[^\W\d_]+\s*(?:&|\+|\band\b)\s*)?[^\W\d_]+['’][sS]?(?=\s|$)\s*")
"""Whose they are: "Mom's", "Tom & Ann's", "my parents'"."""
_BETWEEN = re.compile(r"\s+[-–—]+\s+|\s*:\s+")
_OF_SIDE = re.compile(r"(?:the\s+)?[^\W\d_a-z][\w'’-]*\s+(?i:side)")
"""The Penhew side."""
_OWN_FAMILY = frozenset({"family", "families", "the"})
_OF_ALL = frozenset({"our", "my", "the", "of", "list", "wedding", "and", "s"})
_RULES = " :-–—=*#~"
_SHOWN = 6
"""So many are told by name."""


def says_whose(text: str) -> bool:
    """True for a line that only says whose guests follow it.

    >>> [says_whose(t) for t in ("Bride's family", "Tom & Ann's work", "The Groom family")]
    [True, True, False]
    >>> [says_whose(t) for t in ("BILL'S OFFICE", "Garden club")]
    [True, True]
    >>> [says_whose(t) for t in ("Odile's family", "Church", "Mom & Dad", "Table 5")]
    [False, True, False, True]
    """
    if text.startswith(("(", "[")):  # a remark on the line above
        return False
    parts = [part for part in _BETWEEN.split(text) if fold(part)]
    if len(parts) > 1:  # "FAMILY - Penhew side"
        return all(map(says_whose, parts))
    known, folded = signs("heading-sign"), fold(text)
    if _OF_SIDE.fullmatch(text.strip(_RULES)):
        return True
    words, bare = folded.split(), fold(_OWNER.sub("", text)).split()
    if words[:1] == ["the"] and words[2:] == ["family"]:
        return folded in known  # else a family of that name
    if words != bare and set(bare) <= _OWN_FAMILY:  # "Odile's family" may well be a guest
        return bool(bare) and all(word in known for word in words)
    plain = all(known.get(word) == 1 or word.isdecimal() for word in bare)
    return plain and not all(word.isdecimal() for word in bare)


def says_side(text: str) -> bool:
    """True for a heading that parts guests from others; "Our guests" parts nobody.

    >>> [says_side(each) for each in ("Bride's family", "Our guests:")]
    [True, False]
    """
    nobody = signs("count-sign").keys() | _OF_ALL
    return says_whose(text) and any(word not in nobody for word in fold(text).split())


def says_by_hand(text: str) -> bool:
    """True for a heading over those who are handed their envelopes.

    >>> [says_by_hand(each) for each in ("By hand:", "To be given in person", "Ann, by hand")]
    [True, True, False]
    """
    said, beside = f" {fold(text)} ", row_words("beside-by-hand")
    rests = (
        said.replace(f" {way} ", " ").split()
        for way in row_words("by-hand-note")
        if f" {way} " in said
    )
    return any(beside.issuperset(rest) for rest in rests)


def is_owned(text: str) -> bool:
    """True for words that begin with whose they are: "Nick's parents"."""
    return _OWNER.match(text) is not None


def heading_of(row: Row) -> Cited:
    """What a heading says, without its colon or its rules."""
    cell = row.filled[0]
    return Cited(cell.text.strip(_RULES), (cell.where,))


def headings_noted(headings: Sequence[Cited], *, some_open: bool) -> Finding:
    """A note of the rows that were read as headings, so that none of them is a guest unseen.

    `some_open` is whether one of them leaves open who is invited.
    """
    shown = [f"“{each.text}” ({each.cells[0].cell})" for each in headings[:_SHOWN]]
    more = f" and {len(headings) - _SHOWN} more" if len(headings) > _SHOWN else ""
    handed = any(says_by_hand(each.text) for each in headings)
    below = " (by hand: no address is owed)" if handed else ""
    below += ", or wait where it leaves open who is invited" if some_open else ""
    text = f"No guests but headings: {', '.join(shown)}{more}. Those below are of that side{below}."
    return finding("headings-read", headings[0].cells[0], text, "Nothing to do.")
