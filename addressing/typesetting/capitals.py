"""Words all in capitals: a numeral (III), a country, a code; never initials."""

import re
from itertools import pairwise

_MAYBE = re.compile("[A-Z][A-Z]|[A-Z][^ ]*[0-9]|[0-9][^ ]*[A-Z]")
_WORDS = re.compile("[^ ]+")


def is_capital_word(word: str) -> bool:
    """True for a word with two capitals in a row, no small letter and no figure.

    >>> [is_capital_word(word) for word in ("III,", "FRANCE", "J.R.", "A", "SW1A", "McHALE")]
    [True, True, False, False, False, False]
    """
    if any(each.islower() or each.isdigit() for each in word):
        return False
    return any(one.isupper() and other.isupper() for one, other in pairwise(word))


def stands_out(word: str) -> bool:
    """True for a word in capitals, and for a code of capitals and figures.

    >>> [stands_out(word) for word in ("III", "SW1A", "14B", "55802", "J.R.")]
    [True, True, True, False, False]
    """
    if any(each.islower() for each in word):
        return False
    if any(each.isdigit() for each in word):
        return any(each.isupper() for each in word)
    return is_capital_word(word)


def any_stands_out(text: str) -> bool:
    """True when any word of a line is in capitals or a code; quick where none is."""
    if text.isascii() and _MAYBE.search(text) is None:
        return False
    return any(map(stands_out, _WORDS.findall(text)))


def lowered(text: str) -> str:
    """A line whose words in capitals are in small letters: so they are set as small capitals.

    >>> lowered("Lyon FRANCE"), lowered("J.R. Quill III")
    ('Lyon france', 'J.R. Quill iii')
    """
    if text.isascii() and _MAYBE.search(text) is None:
        return text
    return _WORDS.sub(lambda word: word[0].lower() if is_capital_word(word[0]) else word[0], text)
