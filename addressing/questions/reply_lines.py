"""How clients number their answers: “3: b”, “#3 - 12 Oak St”, “Q3 yes”, “1 a, 2 b”, “The Voles: a”.

A number counts only where the letter has it. Without a colon it needs a word before it, or words
behind it that can only be an answer, so that no house number is taken for one. In brackets behind
a name it is an age.
"""

import re
from collections.abc import Mapping, Sequence
from functools import cache

from addressing.questions.choosing import is_known, plain
from addressing.questions.folding import folded
from addressing.questions.slots import LETTERS, Slot
from addressing.tables import table

Found = list[tuple[str, str]]
"""The numbers of a line, each with the words behind it."""
_BULLET = r"(?:[-*\u2022]\s*)?"
_CALLED = r"(?:(?:questions?|q|no|nr|number|item|frage|pregunta)\.?\s*#?\s*|#\s*)"
_CALLED_PLAINLY = r"(?:(?:questions?|q|no\.|nr\.|number|item|frage|pregunta)\s*#?\s*|#\s*)"
_NUMBER = r"(?P<number>\d+(?:\.\d+)?)"
_COLON = re.compile(
    rf"{_BULLET}\(?{_CALLED}?{_NUMBER}\s*(?:[:=)]|\.(?!\d))\s*(?P<words>.*)$", re.IGNORECASE
)
_MEMBER = re.compile(r"\(?(?P<number>\d+\.\d+)\s+(?P<words>.*)$")
_NAMED_NUMBER = re.compile(
    rf"{_BULLET}\(?{_CALLED_PLAINLY}{_NUMBER}\)?(?:\s*[-\u2013\u2014/]\s*|\s+)(?P<words>.+)$",
    re.IGNORECASE,
)
_DASH = re.compile(rf"{_BULLET}{_NUMBER}\s*[-\u2013\u2014/]\s*(?P<words>[^\W\d_][^\W\d_].*)$")
_BLANK = re.compile(rf"{_BULLET}\(?{_NUMBER}\)?\s*[-\u2013\u2014:.)]?\s*(?P<words>[^\W\d_].*)$")
_OPEN = re.compile(r"\(\w[^()]*$")
_AGE_FIRST = re.compile(
    r"\(\d+\)\s*(?P<words>(?:(?:and|or)\b|[&,;+.]|\S.*\(\d+\)).*)$", re.IGNORECASE
)
"""An age in brackets at the beginning of a line, with more names or another age behind it."""
_NAME = re.compile(
    rf"{_BULLET}(?P<who>[^\W\d_][^:\d]{{1,60}}?)\s*(?::|\s[-\u2013\u2014]\s)\s*(?P<words>\S.*)$"
)
_NO_NAMES = frozenset(("the", "and", "&", "family", "fam"))


def numbered(bare: str, slots: Mapping[str, Slot]) -> tuple[str, str] | None:
    """(the number, the words behind it) of a line that begins with a number of the letter."""
    found = _COLON.match(bare) or _MEMBER.match(bare)
    if found is None or found["number"] not in slots:
        return None
    slot = slots[found["number"]]
    words = found["words"].removeprefix(slot.label) if slot.label else found["words"]
    return slot.number, words.strip(" :_")


def is_open_bracket(words: str) -> bool:
    """True for words that end within a bracket; ":(" opens none.

    >>> [is_open_bracket(each) for each in ("5) Nell (5, Bram ", "Nell (5) ", "sadly no :(")]
    [True, False, False]
    """
    return _OPEN.search(words) is not None


def closes_bracket(above: str, bare: str) -> bool:
    """True for "7) and Isla" below "Rory (age": the number is within the bracket."""
    return is_open_bracket(above) and re.match(r"\d+\s*\)", bare) is not None


def is_ages(bare: str) -> bool:
    """True for a line that goes on behind a child's name with its age: "(7) and Isla (6)"."""
    found = _AGE_FIRST.match(bare)
    return found is not None and not is_known(found["words"])


def without_colon(bare: str, slots: Mapping[str, Slot]) -> Found:
    """The answers of a line whose numbers have no colon behind them; [] where none is plain.

    "4 b, 5a", "1 yes", "#7 - 12 Oak St", "Q2 b", "1 - she's invited".
    """
    marked = [known_answer(part, slots) for part in re.split(r"[,;]", bare)]
    if all(marked):
        return [each for each in marked if each]
    whole = known_answer(bare, slots)
    if whole is not None:
        return [whole]
    found = _NAMED_NUMBER.match(bare) or _DASH.match(bare)
    if found is None or found["number"] not in slots:
        return []
    return [(found["number"], found["words"])]


def known_answer(part: str, slots: Mapping[str, Slot]) -> tuple[str, str] | None:
    """A number with a proposed answer's letter or text, or with words that mean an answer."""
    found = _BLANK.fullmatch(part.strip())
    slot = slots.get(found["number"]) if found is not None else None
    if found is None or slot is None:
        return None
    words = found["words"].strip()
    letter = words.strip(" ().!").casefold()
    if len(letter) == 1:
        return (slot.number, letter) if 0 <= LETTERS.find(letter) < len(slot.answers) else None
    said = plain(words)
    known = is_known(words) or any(plain(answer) == said for answer in slot.answers)
    return (slot.number, words) if known else None


def by_name(bare: str, slots: Mapping[str, Slot]) -> Found:
    """The answer of a line that names whom it is about, if one question alone is about them.

    A family name alone says it only before a proposed answer: others may bear it too. Before one
    a question by itself is meant, and not the row of a table that asks of the same guest.
    """
    found = _NAME.match(bare)
    if found is None:
        return []
    words = found["words"].strip()
    own = _about(found["who"], slots)
    if not own and _is_of_letter(words):
        own = [slot for slot in slots.values() if _is_family(found["who"], slot.who)]
    alone = [slot for slot in own if not slot.asked.matter]
    if len(own) > 1 and len(alone) == 1 and _is_of_letter(words):
        own = alone
    return [(own[0].number, words)] if len(own) == 1 else []


def is_of_named(bare: str, slots: Mapping[str, Slot]) -> bool:
    """True for a line that begins with somebody of the letter: no answer above goes on in it."""
    found = _NAME.match(bare)
    return found is not None and bool(_about(found["who"], slots))


def _about(who: str, slots: Mapping[str, Slot]) -> list[Slot]:
    """What is asked about whom words name in full."""
    said, same = _names_in(who), plain(who)
    return [
        slot
        for slot in slots.values()
        if plain(slot.who) == same or (len(said) > 1 and _names_in(slot.who) == said)
    ]


def _is_of_letter(words: str) -> bool:
    return len(words.strip(" ().!")) == 1 or is_known(words)


def _names_in(who: str) -> frozenset[str]:
    """The folded words of names, without titles."""
    return frozenset(word for word in _words(who) if word not in _titles() | _NO_NAMES)


@cache
def _titles() -> frozenset[str]:
    forms = (form for row in table("titles") for form in row["forms"].split("|"))
    return frozenset(word for form in forms for word in _words(form))


def _words(who: str) -> Sequence[str]:
    return re.findall(r"[\w'&-]+", folded(who))


def _is_family(said: str, who: str) -> bool:
    """True for "The Voles", "Voles" and "Vole family" of somebody called Vole, or of the family."""
    words, names = _words(said), _words(who)
    if not names:
        return False
    family = names[-2] if names[-1] == "family" and len(names) > 1 else names[-1]
    bare = [word for word in words if word not in _NO_NAMES]
    plural = {f"{family}s", f"{family}es", f"{family}'s"}
    meant = plural if len(bare) == len(words) else {family, *plural}
    return len(bare) == 1 and bare[0] in meant


_WORD = re.compile(r"[^\W\d_]+")
_MUCH = frozenset(("so", "very", "much", "again", "you", "all", "everyone"))
"""What may follow the words of a closing: "thanks again so much"."""


def closes(bare: str) -> bool:
    """True for the closing of a mail alone on its line: what stands from there on is no answer.

    >>> [closes(each) for each in ("Thanks so much!", "xo", "Love Lane 4")]
    [True, True, False]
    """
    left = " ".join(_WORD.findall(bare.casefold()))
    while left and left not in _closings():
        front, _, last = left.rpartition(" ")
        left = front if last in _MUCH else ""
    return bool(left) and not any(mark.isdecimal() for mark in bare)


@cache
def _closings() -> frozenset[str]:
    return frozenset(row["word"] for row in table("mail_words") if row["kind"] == "closing")
