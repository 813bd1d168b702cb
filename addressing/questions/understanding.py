"""What an answer means: one of the proposed ones, "as it stands", or the client's own words."""

import re
import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache

from addressing.questions.fronted import names_before
from addressing.questions.kinds import NAMES, PLACES
from addressing.records.findings import Severity
from addressing.records.questions import BETWEEN, FAMILY, GUEST, ONE, Choice, Decision, Question
from addressing.records.questions import CHILD as YOUNG
from addressing.tables import table

_PEOPLE = NAMES | {"companion", "family"}
TOLD = "told"
"""The kind of what a sentence beside the list may change: names, or an address."""
OWN_WORDS = PLACES | _PEOPLE | {"title", "letters", TOLD}
"""Kinds that can be answered in own words."""
LONGEST = 500
"""Longer words are no name and no address."""
_SHORTEST = 3
"""So many letters of a proposed answer, if they fit one only, stand for it."""
DROP, WHOLE, PART = "drop", "whole", "part"
"""Effects: a household is left out; it is, by these words only; part of it is, the others stay."""
LEAVING = frozenset((DROP, WHOLE))
_PLAINLY = len("leave out the whole")
"""So many letters of "Leave out the whole household" say that no part of it is meant."""
OPEN, PROSE, CHILD, OPENER, REFER = "open", "prose", "child", "opener", "refer"
"""In the table of words: no answer yet; a word of sentences, not of names; a word for a child; one
that only opens an answer ("yes, Kit Penhew"); one that opens words about another answer ("see")."""
_SOLE = "sole"
"""In the table: a word beside names that leaves out everybody else ("only Kit Penhew")."""
_NO_MEANING = frozenset((PROSE, CHILD, OPENER, REFER, _SOLE))


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
    """The change that an answer asks for; None when it can't be understood."""
    choice = chosen(question.choices, decision.answer, question.kind)
    if choice is None or choice.effect == "keep":
        choice = _shared(question, decision.answer) or choice
    if choice is not None:
        return Change(question, decision, choice.effect, choice.value)
    meanings = _meanings(decision.answer, question.kind)
    if "keep" in meanings and _may_stand(question):
        return Change(question, decision, "keep")
    words = _without_leaving(_without_openers(decision.answer.strip()))
    words, sole = _without_sole(words) if question.kind in NAMES | {TOLD} else (words, False)
    if meanings or is_known(words) or not _may_be_own(question, words):
        return None
    if _refers(question, words):
        return None
    if _is_of_place(question, words):
        words = _address_in(names_before(question, words)[1])
    return Change(question, decision, "own", words, sole) if words else None


def _shared(question: Question, words: str) -> Choice | None:
    """The proposed name, for “same” where a family name is missing: it is the partner's."""
    missing = {found.code for found in question.covers} == {"surname-missing"}
    if not missing or _plain(words) not in _same():
        return None
    return next((choice for choice in question.choices if choice.effect == "set"), None)


@cache
def _same() -> frozenset[str]:
    return frozenset(words for words in _words() if words.split()[-1:] == ["same"])


def says_nothing_yet(words: str) -> bool:
    """True for "not sure", "will check" and the like: the client hasn't answered."""
    return OPEN in _meanings(words)


def leaves_out(words: str, whom: str) -> bool:
    """True for names with a word beside them that leaves others out (`GUEST`, `YOUNG`, `FAMILY`).

    >>> leaves_out("Theo and Ida Marsh, no kids", YOUNG), leaves_out("Theo and Ida Marsh", YOUNG)
    (True, False)
    """
    return any(PART in _meanings(part, f"no-{whom}") for part in re.split(r"[,;()\n]", words))


def chosen(choices: tuple[Choice, ...], words: str, kind: str = "") -> Choice | None:
    """The proposed answer that was taken: word for word, by its beginning, or in other words.

    A bare yes or no is the answer that begins so. What fits two of them fits none.
    """
    said = _plain(words)
    exact = [choice for choice in choices if _plain(choice.text) == said]
    if exact:
        return exact[0]
    begun = [choice for choice in choices if _begins(choice, said)]
    if len(begun) == 1:
        return begun[0]
    named = [choice for choice in choices if _names_part(choice, said)]
    if len(named) == 1:
        return named[0]
    meant = _meanings(words, kind)
    if DROP in meant and not any(choice.effect in LEAVING for choice in choices):
        meant |= {PART}
    fitting = [choice for choice in choices if _means(choice, meant)]
    return fitting[0] if len(fitting) == 1 else None


def unclear(question: Question, words: str) -> str:
    """Why words can't be taken that may mean part of a household, or lack its names; else ""."""
    if _refers(question, words):
        return "It speaks of another answer. Please write out what holds here."
    effects = {choice.effect for choice in question.choices}
    meant = _meanings(words, question.kind)
    if "yes" in meant and PART in effects:
        return "How do the names read then? Please give all of them."
    if (WHOLE in effects and meant & {DROP, ONE}) or (DROP in effects and ONE in meant):
        return f"Is part of it meant, or the whole household: {question.who}?"
    return ""


def _begins(choice: Choice, said: str) -> bool:
    """Cut short ("One household, use the f"), or only what comes behind "Yes," or "No,".

    A household that is left out may be called otherwise by now.
    """
    text = _plain(choice.text)
    behind = re.sub(r"^(?:yes|no), ", "", text)
    if choice.effect == WHOLE:
        front = text.partition(":")[0]
        return said.startswith(front) or (len(said) >= _PLAINLY and front.startswith(said))
    return len(said) >= _SHORTEST and (text.startswith(said) or behind == said)


def _names_part(choice: Choice, said: str) -> bool:
    """True for "leave Lou out", "not Lou", "no plus one", where a note speaks of Lou, or of one."""
    if choice.effect != PART:
        return False
    meant = choice.value.split(BETWEEN)
    if any(PART in _meanings(said, f"no-{each}") for each in meant):
        return True
    names = [_plain(each) for each in meant if each not in (GUEST, YOUNG, FAMILY)]
    rest = [word for word in said.split() if word not in names and word != "and"]
    named = all(name in said.split() for name in names)
    return bool(names) and named and PART in _meanings(" ".join(rest), "no-name")


def _means(choice: Choice, meant: frozenset[str]) -> bool:
    first = _plain(choice.text).split()[0].strip(",")
    if first in ("yes", "no") and first in meant:
        return True
    if choice.effect == DROP and choice.value == ONE and ONE in meant:
        return True
    return choice.effect in meant or (choice.effect == "keep" and "guest" in meant)


@cache
def _words() -> dict[str, frozenset[tuple[str, str]]]:
    """Folded words → (kind of question, what they mean for it); kind "" is any."""
    found: dict[str, set[tuple[str, str]]] = {}
    for row in table("answer_words"):
        for words in row["words"].split(" | "):
            meant = {(kind, row["means"]) for kind in row["kind"].split("|")}
            found.setdefault(_plain(words) or words, set()).update(meant)
    return {words: frozenset(meanings) for words, meanings in found.items()}


def _meanings(words: str, kind: str = "") -> frozenset[str]:
    """What a whole answer means by the table; nothing for a name or an address."""
    said = _plain(words) or words.strip()
    without = re.sub(r"^(?:please|pls)\s+|[,\s]+(?:please|pls|thanks|thank you)$", "", said)
    found = _words().get(said) or _words().get(without) or frozenset()
    return frozenset(meant for for_kind, meant in found if for_kind in ("", kind)) - _NO_MEANING


def is_known(words: str) -> bool:
    """True for words that mean something at some question, and so are nobody's name: "no kids"."""
    known = _words().get(_plain(words)) or frozenset()
    return any(meant not in _NO_MEANING for _, meant in known)


def _may_stand(question: Question) -> bool:
    return not any(found.severity is Severity.STOP for found in question.covers)


def _without_openers(words: str) -> str:
    """Own words without what only opens them.

    >>> _without_openers("yes, Kit Penhew"), _without_openers("Yesenia Penhew")
    ('Kit Penhew', 'Yesenia Penhew')
    """
    opened = _OPENED.match(words)
    while opened is not None and ("", OPENER) in _words().get(_plain(opened[1]), ()):
        words = words[opened.end() :]
        opened = _OPENED.match(words)
    return words


def _without_sole(words: str) -> tuple[str, bool]:
    """Names without a word that leaves everybody else out, and whether there was one.

    >>> _without_sole("just Kit Penhew"), _without_sole("Kit Penhew alone"), _without_sole("Justin")
    (('Kit Penhew', True), ('Kit Penhew', True), ('Justin', False))
    """
    known = "|".join(re.escape(said) for said, meant in _words().items() if ("", _SOLE) in meant)
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
    known = [said for said, meant in _words().items() if any((k, REFER) in meant for k in kinds)]
    either = "|".join(sorted(map(re.escape, known), key=len, reverse=True))
    said = _plain(words)
    first = re.match(rf"(?:{either})(?!\w)", said)
    if first is not None and first[0].split()[0] not in _plain(question.listed).split():
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
    said = [_plain(word.strip(",;:-!?()\u2013\u2014")) for word in words]
    return any((kind, PROSE) in _words().get(word, ()) for word in said) or any(
        _CONTRACTED.search(word) for word in said
    )


def is_child(words: str) -> bool:
    """True for what marks a name as a child's: "child" in "Rosie Marsh (child)"."""
    return ("", CHILD) in _words().get(_plain(words), ())


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


def _plain(text: str) -> str:
    """For comparing answers: one case, single blanks, no full stop, one kind of quotes."""
    text = unicodedata.normalize("NFKC", text).translate(_QUOTES)
    return " ".join(text.casefold().split()).strip(" .!'\"")


_QUOTES = str.maketrans({"“": '"', "”": '"', "’": "'", "\u2018": "'"})
