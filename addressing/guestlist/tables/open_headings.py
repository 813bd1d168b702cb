"""Headings that leave open whether those below get an envelope: "MAYBES", "If there is room".

Each household below waits, and the client is asked once for all of them.
"""

import re
from collections.abc import Sequence

from addressing.guestlist.grid import Row
from addressing.guestlist.people.note_words import is_unsure, note_words
from addressing.guestlist.people.vocabulary import row_words
from addressing.guestlist.tables.headings import says_by_hand, says_side
from addressing.guestlist.tables.meanings import fold, signs
from addressing.guestlist.tables.totals import is_remark

_LONGEST = 6
"""Words of such a heading at most; more is a remark on somebody."""
_CAPITAL = re.compile(r"\b[^\W\d_a-z][a-z]")


def open_headings(rows: Sequence[Row]) -> frozenset[int]:
    """The numbers of the rows that are such headings.

    A remark without a name is one where a gap, its capitals or a colon part it from the row above,
    of which it else may be said. Whoever it is about stands in the row behind it.
    """
    found: set[int] = set()
    before = 0
    for row in rows[:-1]:
        text = row.filled[0].text if len(row.filled) == 1 else ""
        apart = row.number > before + 1 or text.isupper() or text.rstrip().endswith(":")
        if text and (_is_known(text) or (apart and leaves_open(text))):
            found.add(row.number)
        before = row.number
    return frozenset(found)


def leaves_open(text: str) -> bool:
    """True for words that name nobody and leave open who is invited.

    >>> [leaves_open(t) for t in ("MAYBES", "If there is room", "Odile Orr - maybe", "Friends")]
    [True, True, False, False]
    >>> [leaves_open(t) for t in ("Not sure about the Umbers", "Declined", "Dee Cline")]
    [False, True, False]
    """
    if _is_known(text):
        return True
    words = text.split()
    if len(words) > _LONGEST or not is_unsure(text):
        return False
    rest = note_words("unsure").sub(" ", text)
    heads = signs("heading-sign")
    others = [word for word in re.findall(r"[^\W_]+", rest) if fold(word) not in heads]
    return not others or (is_remark(text) and not _names_somebody(words))


def heads_others(text: str) -> bool:
    """True for a heading that parts those below from others: by their side, round or post."""
    return says_side(text) or says_by_hand(text) or says_later(text)


def says_later(text: str) -> bool:
    """True for a heading of a later round of invitations, of which no client need be asked.

    >>> [says_later(each) for each in ("B LIST", "Second round:", "Friends")]
    [False, True, False]
    """
    return not leaves_open(text) and fold(text) in set(map(fold, row_words("sheet-wave")))


def _is_known(text: str) -> bool:
    return fold(text) in row_words("heading-open")


def _names_somebody(words: Sequence[str]) -> bool:
    """True with a capital behind the first word, where not all words have one."""
    capitals = [_CAPITAL.match(word) is not None for word in words]
    return any(capitals[1:]) and not all(capitals)
