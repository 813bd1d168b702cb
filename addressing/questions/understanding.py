"""What an answer means: one of the proposed ones, "as it stands", or the client's own words."""

import re
import unicodedata
from dataclasses import dataclass

from addressing.questions.kinds import NAMES, PLACES
from addressing.records.findings import Severity
from addressing.records.questions import Choice, Decision, Question

AS_IT_STANDS = frozenset(
    ("as it stands", "as they stand", "as is", "as listed", "as it is", "right as listed")
)
OWN_WORDS = PLACES | NAMES | {"title", "companion", "family"}
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


def understood(question: Question, decision: Decision) -> Change | None:
    """The change that an answer asks for; None when it can't be understood."""
    said = _plain(decision.answer)
    choice = chosen(question.choices, said)
    if choice is not None:
        return Change(question, decision, choice.effect, choice.value)
    if said in AS_IT_STANDS:
        stopped = any(found.severity is Severity.STOP for found in question.covers)
        return None if stopped else Change(question, decision, "keep")
    if question.kind not in OWN_WORDS or len(decision.answer) > LONGEST:
        return None
    if not re.search(r"\w", said) or said in {"yes", "no", "y", "n"}:
        return None
    return Change(question, decision, "own", decision.answer.strip())


def chosen(choices: tuple[Choice, ...], words: str) -> Choice | None:
    """The proposed answer that was taken; a bare yes or no is the one that begins so."""
    said = _plain(words)
    for choice in choices:
        if _plain(choice.text) == said:
            return choice
    begins = [choice for choice in choices if said in {"yes", "no"} and _begins(choice, said)]
    return begins[0] if len(begins) == 1 else None


def _begins(choice: Choice, said: str) -> bool:
    return _plain(choice.text).split()[0].strip(",") == said


def _plain(text: str) -> str:
    """For comparing answers: one case, single blanks, no full stop, one kind of quotes."""
    text = unicodedata.normalize("NFKC", text).translate(_QUOTES)
    return " ".join(text.casefold().split()).strip(" .!'\"")


_QUOTES = str.maketrans({"“": '"', "”": '"', "’": "'", "\u2018": "'"})
