"""Whether a correction deals with words: only where they are about what it corrects.

Free words are about the matters that `data/matter_words.tsv` finds in them; beside that a
correction deals with words that say the very thing that it sets ("they are at 9 Elm St now").
Names of the grown ones are no word about children, and leave open what was said of those.
"""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache

from addressing.questions.corrections import is_correction
from addressing.questions.decided import is_whole, matter_of
from addressing.questions.folding import folded
from addressing.questions.understanding import understood
from addressing.records.questions import Decision, Question
from addressing.tables import table

_CHILDREN = "children"
_TITLED = re.compile(r"\b[A-Z][a-z]+\.?\s+(?:and\s+[A-Z][a-z]+\.?\s+)?(?=(?P<name>[^\W\d_a-z]\w+))")
"""What may be a title, or two, before a name."""
_ALL = frozenset(("who", "where", "invited"))
_EVERY = _ALL | {_CHILDREN}
_ZIP = re.compile(r"(?<!\w)\d{5}(?:-\d{4})?(?!\w)")
_SHORTEST = 2
"""So many letters of a word, and it may stand for a longer one: "St" for "Street"."""


@dataclass(frozen=True, slots=True)
class Correction:
    """A correction of one household: its question (the list's words are the basis), its words."""

    question: Question
    decision: Decision

    @property
    def covers(self) -> frozenset[str]:
        """The matters of which it says all there is to say; whoever is left out has none open."""
        change = understood(self.question, self.decision)
        if change is not None and change.effect == "drop":
            return _EVERY
        kind = self.question.kind
        also = {_CHILDREN} if kind == "everyone" else set()
        return frozenset((matter_of(kind), *also)) if is_whole(kind) else frozenset()


def deal_with(words: str, corrections: Iterable[Correction], about: str = "") -> bool:
    """True where corrections of one household leave nothing open of words about it.

    `about` is the matter of the place where the words stood ("" for none): they are about that
    where they name no other.
    """
    corrections = tuple(corrections)
    matters = matters_in(words) or frozenset((about,)) - {""}
    if _ZIP.search(words):  # an address that a correction of names says nothing of
        matters |= {"where"}
    covered = frozenset(matter for each in corrections for matter in each.covers)
    said = [each for each in corrections if _is_said(each, words)]
    covered |= {matter_of(each.question.kind) for each in said}
    if any(each.question.kind == "names" and _names_some(each, words) for each in corrections):
        covered |= {_CHILDREN}
    kinds = {each.question.kind for each in corrections}
    if {"street", "city"} <= kinds:
        covered |= {"where"}
    return matters <= covered if matters else bool(said) or covered >= _ALL


def matters_in(words: str) -> frozenset[str]:
    """The matters that some words name.

    >>> sorted(matters_in("They moved, and she is Mrs. Vole now"))
    ['where', 'who']
    """
    plain = _plain(words)
    return frozenset(matter for matter, pattern in _patterns() if pattern.search(plain))


def matter_of_ref(ref: str) -> str:
    """The matter of the column of corrections that words stood in."""
    return matter_of(ref.rpartition(":")[2]) if is_correction(ref) else ""


def news_in(words: str, who: str = "") -> frozenset[str]:
    """The matters of which some words tell something to be done.

    A title before a name of those whom they are said of (`who`) is none.

    >>> sorted(news_in("Mrs. Vole and her husband have moved", "Piet and Greta Vole"))
    ['where']
    >>> sorted(news_in("She is Mrs. Blum now", "Greta Vole"))
    ['who']
    """
    known = _tokens(who)
    plain = _plain(_TITLED.sub(lambda f: "" if folded(f["name"]) in known else f[0], words))
    return frozenset(matter for matter, pattern in _patterns(news=True) if pattern.search(plain))


@cache
def _patterns(*, news: bool = False) -> tuple[tuple[str, re.Pattern[str]], ...]:
    return tuple(
        (row["matter"], re.compile(rf"(?<!\w)(?:{'|'.join(_ways(row['words']))})(?!\w)"))
        for row in table("matter_words")
        if row["news"] or not news
    )


def _ways(words: str) -> Iterable[str]:
    return (re.escape(_plain(each)) for each in words.split(" | "))


def _plain(words: str) -> str:
    return " ".join(folded(words).replace("’", "'").split())


def _is_said(correction: Correction, words: str) -> bool:
    """True where the words have all that a correction brings beside what the list has."""
    new = _tokens(correction.decision.answer) - _tokens(correction.question.basis)
    there = _tokens(words)
    return bool(new) and all(any(_is_one(each, other) for other in there) for each in new)


def _names_some(correction: Correction, words: str) -> bool:
    """True for names of children too: somebody new whom the words name, an age, "and kids"."""
    answer = correction.decision.answer
    if _CHILDREN in matters_in(answer) or re.search(r"\d|\bfamily\b|\bchild\b", folded(answer)):
        return True
    names = (word for word in re.findall(r"\w+", answer) if word[0].isupper())
    new = _tokens(" ".join(names)) - _tokens(correction.question.basis)
    return any(not matters_in(each) for each in new & _tokens(words))


def _tokens(words: str) -> frozenset[str]:
    return frozenset(re.findall(r"\w+", folded(words)))


def _is_one(one: str, other: str) -> bool:
    short, long = sorted((one, other), key=len)
    if any(mark.isdecimal() for mark in short + long):
        return short == long
    return short == long or (len(short) >= _SHORTEST and long.startswith(short))
