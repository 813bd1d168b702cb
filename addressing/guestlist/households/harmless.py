"""Sentences beside a list that change no envelope: praise, how they met, "is right as you have it".

A sentence is harmless if it has such words and, beside them, only the names of the household and
small words that say nothing. Everything else is asked.
"""

import re

from addressing.guestlist.files.prose_words import prose_pattern, prose_words
from addressing.guestlist.folding import fold
from addressing.guestlist.people.called import is_form
from addressing.guestlist.people.news import doubts_address, says_out
from addressing.guestlist.people.vocabulary import row_words
from addressing.records.guests import Household

_YEAR = re.compile(r"\b(?:in|since)\s+(?:19|20)\d\d\b(?!\s+[A-Z])")
_OWNED = re.compile(r"['’](?:s|d|ll|ve|re)?$")
_WORD = re.compile(r"\w[\w'’-]*")


def is_harmless(sentence: str, home: Household) -> bool:
    """True for words that say nothing of a household's names, address or invitation."""
    said = prose_pattern("harmless")
    if said.search(sentence) is None or says_out(sentence) or doubts_address(sentence):
        return False
    rest = said.sub(" ", _YEAR.sub(" ", sentence))
    own = _names(home)
    return all(_says_nothing(_OWNED.sub("", word), own) for word in _WORD.findall(rest))


def _says_nothing(word: str, own: frozenset[str]) -> bool:
    folded = fold(word)
    if folded in prose_words("filler") or folded in row_words("relative"):
        return True
    forms = (folded, folded.removesuffix("s"), folded.removesuffix("es"))
    named = not own.isdisjoint(forms) or any(is_form(folded, name) for name in own)
    return word[:1].isupper() and named


def _names(home: Household) -> frozenset[str]:
    """The given and family names of a household, folded, each word by itself."""
    parts = (part or "" for person in home.people for part in (person.given, person.family))
    label = home.label.text if home.label is not None else ""
    return frozenset(word for part in (*parts, label) for word in fold(part).split())
