"""What a mail says that is of no envelope: thanks, small talk, words that announce the list."""

from addressing.guestlist.files.mail_lines import (
    SENTENCE,
    WISHES,
    Line,
    begins,
    is_courtesy,
    opens_or_closes,
    why_no_guest,
)
from addressing.guestlist.tables.meanings import fold
from addressing.guestlist.tables.totals import sums_up

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
    """
    plain = not any(mark.isdecimal() for mark in sentence)
    others = (
        (word[:1].isupper() and word != "I") or fold(word) in WISHES - {"and"}
        for word in sentence.split()[1:]
    )
    return plain and begins(fold(sentence), "announces") and not any(others)
