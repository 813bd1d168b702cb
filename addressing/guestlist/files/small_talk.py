"""What a mail says that is of no envelope: thanks, small talk, words that announce the list."""

import re

from addressing.guestlist.files.mail_lines import (
    SENTENCE,
    WISHES,
    Line,
    begins,
    is_courtesy,
    opens_or_closes,
    why_no_guest,
)
from addressing.guestlist.files.prose_words import prose_words
from addressing.guestlist.tables.meanings import fold
from addressing.guestlist.tables.totals import sums_up

_DATE = re.compile(r"\b\d{1,4}[/.-]\d{1,2}(?:[/.-]\d{2,4})?\b")
_I = re.compile(r"I(?:['’](?:ve|m|ll|d))?\b")
_SMALL = frozenset(("of", "for", "the", "our", "my", "and", "as", "a", "to", "so", "far"))
NOTHING = "thanks, or words that lead to the list"


def says_nothing(sentence: str) -> bool:
    """True for a heading, a sum, a greeting, thanks, words that announce the list.

    >>> [says_nothing(said) for said in ("Thanks a bunch!", "No children at all, please.")]
    [True, False]
    """
    if sentence.endswith(":") or sums_up(sentence) or is_courtesy(sentence):
        return True
    why = why_no_guest(Line(0, sentence))
    return why not in (None, SENTENCE) or opens_or_closes(sentence) or announces(sentence)


def announces(sentence: str) -> bool:
    """True for words that only lead to the list, and for small talk: nobody is named.

    >>> announces("Here is our list so far."), announces("Here is our list, without the Penhews")
    (True, False)
    >>> announces("Wedding Guest Addresses"), announces("Guest list as of 1/12")
    (True, True)
    """
    sentence = _DATE.sub("", sentence)
    plain = not any(mark.isdecimal() for mark in sentence)
    others = (
        (word[:1].isupper() and _I.match(word) is None) or fold(word) in WISHES - {"and"}
        for word in sentence.split()[1:]
    )
    titled = _of_title(sentence)
    return plain and (titled or (begins(fold(sentence), "announces") and not any(others)))


def _of_title(text: str) -> bool:
    """True for a list's own title: words for lists, guests and addresses, and small ones."""
    said = [fold(word) for word in re.findall(r"[^\W\d]+", text)]
    return not prose_words("of-list").isdisjoint(said) and prose_words("of-list").issuperset(
        word for word in said if word not in _SMALL
    )
