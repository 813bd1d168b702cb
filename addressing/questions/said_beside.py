"""A proposed answer with words beside it: “b, same guy”, “Mr. He moved to Boston”, “yes, she is”.

The answer is taken. Words that add nothing to it are done with; others stay as words of the
client's, which hold the household until they are dealt with. An answer that takes somebody away is
taken only where nothing else is said, and none behind which the client says that she isn't sure.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from addressing.questions.choosing import (
    BESIDE,
    HEDGE,
    ONE_OF_TWO,
    OPENER,
    chosen,
    meanings,
    plain,
    says_nothing_yet,
    words_known,
)
from addressing.questions.folding import folded
from addressing.questions.kinds import NAMES
from addressing.records.questions import Choice, Question

_CUTS = re.compile(r"[,;]?\s+so\s+|\s*\n\s*|[,;:.!?)]+\s+|\s+[-\u2013\u2014]+\s+|\s+(?=\()")
_FIRST = re.compile(r"([^\W\d_]+)\s+(?=\S)")
_CAPITAL = r"[^\W\d_a-zß-ÿ](?:[\w.-]|['\u2019](?!s\b))*"
_ALL_NAMES = re.compile(rf"{_CAPITAL}(?:\s+(?:(?:and|&|de|van|von|la|di)\s+)*{_CAPITAL})+")
"""Nothing but names and titles, no "Kit's"."""
_MARKS = re.compile(r"[^\w' ]+")
_LASTING = frozenset(("keep", "set", "restore", "hand", "bring", "split"))
"""Effects beside which other words may stay open: nobody is away by them."""
_ONE = frozenset(("first", "second"))


@dataclass(frozen=True, slots=True)
class Beside:
    """The proposed answer that words begin or end with, and what else they say."""

    choice: Choice
    words: str


def said_beside(question: Question, words: str) -> Beside | None:
    """The proposed answer in words that say more than it; None where that can't be told."""
    parts = _parts(words.strip()) if question.household is not None else ()
    for head, tail in parts:
        choice = _plainly(question, head)
        if choice is not None:
            return _behind(question, choice, tail)
        last = _plainly(question, tail)
        if last is not None and (_adds_nothing(question, last, head) or _opens(question, head)):
            return Beside(last, "")
    return None


def _behind(question: Question, choice: Choice, tail: str) -> Beside | None:
    """An answer with the words behind it; None where they take it back or gainsay it."""
    if _takes_back(tail):
        return None
    if _adds_nothing(question, choice, tail):
        return Beside(choice, "")
    other = chosen(question.choices, tail, question.kind)
    means = other is not None or bool(meanings(tail, question.kind))
    if means or choice.effect not in _LASTING:
        return None
    return Beside(choice, tail.strip(" ()"))


def names_behind(question: Question, words: str) -> str:
    """The names behind an answer that lets the household stand: they are how it shall read.

    "Still coming, Sergeant and Mrs. Dave Vole". Only where the family name is among them, and
    nothing but names and titles.
    """
    beside = said_beside(question, words) if question.kind in NAMES else None
    if beside is None or beside.choice.effect != "keep" or not _ALL_NAMES.fullmatch(beside.words):
        return ""
    family = folded(question.who.rpartition(" ")[2])
    return beside.words if family in folded(beside.words).split() else ""


def _parts(words: str) -> Iterator[tuple[str, str]]:
    """Every way to part words in two, the longest front first; a yes may end at a blank."""
    for cut in reversed(list(_CUTS.finditer(words))):
        head, tail = words[: cut.start()], words[cut.end() :]
        if head and tail:
            yield head, tail
    first = _FIRST.match(words)
    if first is not None and ("", OPENER) in words_known().get(plain(first[1]), ()):
        yield first[1], words[first.end() :]


def _plainly(question: Question, words: str) -> Choice | None:
    """The proposed answer that words say in full or by the table, not only begin."""
    opened = _FIRST.match(words)
    if opened is not None and _opens(question, opened[1]):
        words = words[opened.end() :]
    choice = chosen(question.choices, words, question.kind)
    if choice is None:
        return None
    exact = plain(choice.text) == plain(words)
    return choice if exact or meanings(words, question.kind) else None


def _adds_nothing(question: Question, choice: Choice, tail: str) -> bool:
    if ("", BESIDE) in words_known().get(plain(tail.strip(" ()")), ()):
        return True
    if question.kind == "companion" and choice.effect == "keep" and says_nothing_yet(tail):
        return True  # "not sure yet, so and Guest is fine"
    if ONE_OF_TWO in meanings(tail, question.kind):
        return choice.effect in _ONE
    return chosen(question.choices, tail, question.kind) == choice


def _opens(question: Question, head: str) -> bool:
    """True for a yes where none is proposed: "yes" before "they are still coming"."""
    opener = ("", OPENER) in words_known().get(plain(head), ())
    return opener and not any(plain(choice.text).startswith("yes") for choice in question.choices)


def _takes_back(tail: str) -> bool:
    """True for "I think", and for a question."""
    said = f" {_MARKS.sub(' ', plain(tail))} "
    hedges = (word for word, meant in words_known().items() if ("", HEDGE) in meant)
    return "?" in tail or any(f" {hedge} " in said for hedge in hedges)
