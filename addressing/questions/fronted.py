"""An address in an answer with the names before it: they are no line of the address.

“Dr. Hana Vole, 88 Birch Lane, Troy NY 12180” is a label as the client writes it. Whoever is named
there is the household; what it says besides of them is kept, and asked about.
"""

import re

from addressing.questions.folding import folded
from addressing.records.questions import Question

_PARTED = re.compile(r"\s*[,;:\n]\s*|\s+[-–—]\s+")
_NUMBERED = re.compile(r"\d|p\.?\s?o\.?\s+box\b", re.IGNORECASE)
_PLAIN = frozenset(("and", "the", "family", "mr", "mrs", "ms", "miss"))
"""Words beside names that say nothing new."""
_OF_OTHERS = frozenset(("c/o", "care", "attn", "at", "chez"))
"""Words that make a line of the address of a name."""


def names_before(question: Question, words: str) -> tuple[str, str]:
    """(the names before an address, the address); ("", all of it) where none stand there."""
    at = 0
    for found in _PARTED.finditer(words):
        if _NUMBERED.search(words, at, found.start()):
            break
        at = found.end()
        if _NUMBERED.match(words, at) is None:
            continue
        front = words[: found.start()].strip()
        return (front, words[at:]) if _names(question, front) else ("", words)
    return "", words


def news_before(question: Question, words: str) -> str:
    """The names before an address, where they say more than the list has; else ""."""
    front, _ = names_before(question, words)
    return front if _tokens(front) - _tokens(question.who) - _PLAIN else ""


def _names(question: Question, front: str) -> bool:
    """True for somebody of the household by name, and no house or farm called so."""
    said = _tokens(front)
    family = set(re.findall(r"\w+", folded(question.who.rpartition(" ")[2])))
    inside = said - _PLAIN <= _tokens(question.who)
    return bool(said) and said.isdisjoint(_OF_OTHERS) and (inside or not said.isdisjoint(family))


def _tokens(words: str) -> frozenset[str]:
    return frozenset(re.findall(r"c/o|\w+", folded(words)))
