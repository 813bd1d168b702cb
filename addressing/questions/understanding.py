"""What an answer means: one of the proposed ones, "as it stands", or the client's own words."""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache

from addressing.questions.choosing import (
    CHILD,
    DROP,
    ONE_OF_TWO,
    OPENER,
    PART,
    PROSE,
    REFER,
    SOLE,
    WHOLE,
    chosen,
    is_known,
    leaves_out,
    meanings,
    plain,
    words_known,
)
from addressing.questions.companion_named import companion_in, without_namer
from addressing.questions.fronted import names_before
from addressing.questions.kids_said import without_kids_as_listed
from addressing.questions.kinds import NAMES, PLACES
from addressing.questions.said_beside import names_behind, said_beside
from addressing.questions.trimming import place_in, title_in, without_trimmings
from addressing.records.findings import Severity
from addressing.records.questions import CHILD as YOUNG
from addressing.records.questions import FAMILY, ONE, Choice, Decision, Question

_PEOPLE = NAMES | {"companion", "family"}
_WHO = NAMES | {"family"}
TOLD = "told"
"""The kind of what a sentence beside the list may change: names, or an address."""
OWN_WORDS = PLACES | _PEOPLE | {"title", "letters", TOLD}
"""Kinds that can be answered in own words."""
LONGEST = 500
"""Longer words are no name and no address."""


@dataclass(frozen=True, slots=True)
class Change:
    """What is to be done: `effect` is a choice's, or "own" with the client's words as `value`."""

    question: Question
    decision: Decision
    effect: str
    value: str = ""
    sole: bool = False
    """True where the words say that nobody else is meant."""

    @property
    def words(self) -> str:
        """The words to set: the client's own, or a proposed answer's without its field."""
        return self.value.partition("=")[2] if self.effect == "set" else self.value


def understood(question: Question, decision: Decision) -> Change | None:
    """The change that an answer asks for; None when it can't be understood.

    Words beside a proposed answer leave it that answer: what they add is told by `said_beside`.
    """
    change = _understood(question, decision) or _named_behind(question, decision)
    beside = said_beside(question, decision.answer) if change is None else None
    if beside is not None:
        return Change(question, decision, beside.choice.effect, beside.choice.value)
    return change


def told_beside(question: Question, decision: Decision) -> str:
    """What an answer says besides the proposed one that it is; "" for nothing."""
    if _understood(question, decision) or _named_behind(question, decision):
        return ""
    beside = said_beside(question, decision.answer)
    return beside.words if beside is not None else ""


def _named_behind(question: Question, decision: Decision) -> Change | None:
    """The names behind “still coming”, as the household's own."""
    names = names_behind(question, decision.answer)
    return Change(question, decision, "own", names) if names else None


def _understood(question: Question, decision: Decision) -> Change | None:
    choice = chosen(question.choices, decision.answer, question.kind)
    if choice is None or choice.effect == "keep":
        choice = _shared(question, decision.answer) or choice
    if choice is not None:
        return Change(question, decision, choice.effect, choice.value)
    meant = meanings(decision.answer, question.kind)
    if "keep" in meant and _may_stand(question):
        return Change(question, decision, "keep")
    words = _without_openers(without_trimmings(decision.answer))
    words = _without_leaving(words) if question.kind in _WHO | {TOLD} else words
    words = place_in(words, question.kind) if question.kind in PLACES else words
    words = title_in(words) if question.kind == "title" else without_namer(question, words)
    words = companion_in(question, words) if _may_name_companion(question) else words
    words, sole = _sole_of(question, words)
    said = without_kids_as_listed(words) if question.kind in _WHO else words
    if meant or is_known(words) or not _may_be_own(question, said):
        return None
    if _refers(question, said):
        return None
    if _is_of_place(question, words):
        words = _address_in(names_before(question, words)[1])
    return Change(question, decision, "own", words, sole) if words else None


def _may_name_companion(question: Question) -> bool:
    """True where it is asked who comes along, and where it is asked whether somebody may."""
    noted = any(found.code == "guest-noted" for found in question.covers)
    return question.kind == "companion" or noted


def _shared(question: Question, words: str) -> Choice | None:
    """The proposed name, for “same” where a family name is missing: it is the partner's."""
    missing = {found.code for found in question.covers} == {"surname-missing"}
    if not missing or plain(words) not in _same():
        return None
    return next((choice for choice in question.choices if choice.effect == "set"), None)


@cache
def _same() -> frozenset[str]:
    return frozenset(words for words in words_known() if words.split()[-1:] == ["same"])


def unclear(question: Question, words: str) -> str:
    """Why words can't be taken that may mean part of a household, or lack its names; else ""."""
    if _refers(question, words):
        return "It speaks of another answer. Please write out what holds here."
    effects = {choice.effect for choice in question.choices}
    if ONE_OF_TWO in meanings(words, question.kind):
        return "Which one shall be used, the first or the second?"
    meant = meanings(words, question.kind)
    if "yes" in meant and PART in effects:
        return "How do the names read then? Please give all of them."
    if (WHOLE in effects and meant & {DROP, ONE}) or (DROP in effects and ONE in meant):
        return f"Is part of it meant, or the whole household: {question.who}?"
    return ""


def _may_stand(question: Question) -> bool:
    return not any(found.severity is Severity.STOP for found in question.covers)


def _without_openers(words: str) -> str:
    """Own words without what only opens them.

    >>> _without_openers("yes, Kit Penhew"), _without_openers("Yesenia Penhew")
    ('Kit Penhew', 'Yesenia Penhew')
    """
    opened = _OPENED.match(words)
    while opened is not None and ("", OPENER) in words_known().get(plain(opened[1]), ()):
        words = words[opened.end() :]
        opened = _OPENED.match(words)
    return words


def _sole_of(question: Question, words: str) -> tuple[str, bool]:
    """Names without a word that leaves everybody else out; of a family only behind names."""
    if question.kind in NAMES | {TOLD}:
        return _without_sole(words)
    left, sole = _without_sole(words) if question.kind == "family" else (words, False)
    named = words.startswith(left) and any(word.istitle() for word in left.split())
    return (left, sole) if sole and named else (words, False)


def _without_sole(words: str) -> tuple[str, bool]:
    """Names without a word that leaves everybody else out, and whether there was one.

    >>> _without_sole("just Kit Penhew"), _without_sole("Kit Penhew alone"), _without_sole("Justin")
    (('Kit Penhew', True), ('Kit Penhew', True), ('Justin', False))
    """
    known = "|".join(
        re.escape(said) for said, meant in words_known().items() if ("", SOLE) in meant
    )
    found = re.fullmatch(
        rf"(?:{known})\s+(?P<first>\w.*)|(?P<last>.*\w\.?)[\s,(]+(?:{known})[).!]*",
        words,
        re.IGNORECASE | re.DOTALL,
    )
    return (found["first"] or found["last"], True) if found else (words, False)


def _without_leaving(words: str) -> str:
    """Names without what leaves children or family out behind them: it is nobody's name.

    >>> _without_leaving("Theo and Ida Marsh (no kids)"), _without_leaving("Theo, Ida Marsh")
    ('Theo and Ida Marsh', 'Theo, Ida Marsh')
    """
    return _BEHIND.sub(lambda part: "" if _leaves_young(part[0]) else part[0], words)


def _leaves_young(words: str) -> bool:
    return leaves_out(words, YOUNG) or leaves_out(words, FAMILY)


def _may_be_own(question: Question, words: str) -> bool:
    """True for words that may be a name, a title or an address."""
    if question.kind not in OWN_WORDS or len(words) > LONGEST:
        return False
    if not re.search(r"\w", words):
        return False
    return _is_of_place(question, words) or not _is_prose(words.split())


def _refers(question: Question, words: str) -> bool:
    """True for words about another answer ("see 10", "same as the Voles"), and no name of these.

    In names a number behind such a word says it anywhere: "Nell, as in row 4".
    """
    kinds = ("", question.kind)
    known = [
        said for said, meant in words_known().items() if any((k, REFER) in meant for k in kinds)
    ]
    either = "|".join(sorted(map(re.escape, known), key=len, reverse=True))
    said = plain(words)
    first = re.match(rf"(?:{either})(?!\w)", said)
    if first is not None and first[0].split()[0] not in plain(question.listed).split():
        return True
    numbered = rf"(?<!\w)(?:{either})\W*(?:(?:my|the|answers?|to|{_NUMBER})\W*)*\d+(?!\w)"
    return question.kind not in PLACES and re.search(numbered, said) is not None


def _is_of_place(question: Question, words: str) -> bool:
    return question.kind in PLACES or (question.kind == TOLD and is_placed(words))


def is_placed(words: str) -> bool:
    """True for own words that can only be an address: names have no numbers."""
    return any(mark.isdecimal() for mark in words)


def _is_prose(words: Iterable[str], kind: str = "") -> bool:
    """True when a word of a sentence stands among them: "please take him off" is no name."""
    said = [plain(word.strip(",;:-!?()\u2013\u2014")) for word in words]
    return any((kind, PROSE) in words_known().get(word, ()) for word in said) or any(
        _CONTRACTED.search(word) for word in said
    )


def is_child(words: str) -> bool:
    """True for what marks a name as a child's: "child" in "Rosie Marsh (child)"."""
    return ("", CHILD) in words_known().get(plain(words), ())


def _address_in(words: str) -> str:
    """An address without what is said before it; "" when sentences stand in it as well.

    >>> _address_in("The old one - 14 Larkmoor Lane, Litchfield CT 06759")
    '14 Larkmoor Lane, Litchfield CT 06759'
    """
    before = _BEFORE.match(words)
    if before is not None and _is_prose(before[1].split(), "before"):
        words = words[before.end() :]
    told = _is_prose(words.split(), "address") or _CALLED.match(words)
    return "" if told else words.strip()


_NUMBER = r"questions?|numbers?|nos?\.?|nr\.?|rows?|lines?|items?"
_OPENED = re.compile(r"([^\W\d_]+)(?:\s*[,;:!.\u2013\u2014-]+\s*|\s+)(?=\S)")
"""The first word of an answer, with what parts it from the others."""
_BEHIND = re.compile(r"\s*(?:\([^()]*\)|[,;\n][^,;()\n]*)")
"""A part of an answer behind another: in brackets, or behind a comma."""
_CONTRACTED = re.compile(r"(?:n't|'(?:re|ve|ll|m))$")
"""Words that two were drawn together in: they're, don't, I'll."""
_BEFORE = re.compile(
    r"(\D*?(?:\s[-\u2013\u2014]|[:.!;]|\b(?:to|is|at|use|address))\s+)(?=\d|P\.?\s?O)",
    re.IGNORECASE,
)
"""What is said before a number or a box, with what parts them."""
_CALLED = re.compile(r"[^\d,\n]+:\s*\d")
"""What an address is called ("Florida: 880 ..."): whether that is a line of it, nobody knows."""
