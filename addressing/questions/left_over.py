"""What an answer to a remark leaves untold: of two facts it may be about one.

“Moved to 88 Birch Lane and she goes by Dr. now”, answered with the address: her title is open.
What is left of the remark stays as words of the client's, which hold until they are dealt with.
"""

import re
from collections.abc import Collection, Iterable, Iterator, Sequence

from addressing.questions.corrections import is_by_hand
from addressing.questions.decided import matter_of
from addressing.questions.fitting import news_in
from addressing.questions.fronted import news_before
from addressing.questions.kinds import PLACES
from addressing.questions.lasting import is_of_remark
from addressing.questions.understanding import TOLD, Change, is_placed, told_beside, understood
from addressing.records.questions import Applied, Decision, Question, Said

_ANEW = frozenset(("own", "set"))
_CLAUSES = re.compile(
    r"\s*(?:(?<!\bDr)(?<!\bMr)(?<!\bMs)(?<!\bMrs)(?<!\bSt)[.;,!?]+(?:\s+|$)|\s[-–—]\s"
    r"|\b(?:and|but|also)\b)\s*",
    re.IGNORECASE,
)

_IN_CARE = re.compile(r"\bc/o\s+(?:[A-Z][a-z]{0,2}\.\s*)?[^,;.!?]*", re.IGNORECASE)


def left_over(applied: Applied, given: Collection[Decision]) -> Iterator[Said]:
    """What answers given now leave open of remarks, at their own places."""
    for question, decision in applied.taken:
        if decision not in given or question.household is None:
            continue
        front = news_before(question, decision.answer) if _is_own_place(question, decision) else ""
        if front:
            yield Said(front, decision.where, "", question.household, decision.date)
        beside = told_beside(question, decision)
        if beside:
            yield Said(beside, decision.where, "", question.household, decision.date)
        if not is_of_remark(question.ref):
            continue
        told = matter_told(question, decision)
        for words in filter(None, (found.quoted for found in question.covers)):
            else_ = _told_else(question, decision, applied.taken)
            left = _left(words, question.who, {told, *else_})
            if told and left and not _is_asked_else(words, question, applied):
                ref = question.ref if question.kind == TOLD else ""  # answered anew, it tells both
                yield Said(left, decision.where, ref, question.household, decision.date)


def matter_told(question: Question, decision: Decision) -> str:
    """The matter of which an answer says something: "who", "where", or "" for neither."""
    change = understood(question, decision)
    if change is None or change.effect not in _ANEW:
        return ""
    return _matter(change) if question.kind == TOLD else matter_of(question.kind)


def _is_own_place(question: Question, decision: Decision) -> bool:
    """True for an address in the client's own words."""
    change = understood(question, decision)
    own = change is not None and change.effect == "own" and not is_by_hand(decision)
    return own and matter_told(question, decision) == "where"


def _matter(change: Change) -> str:
    field = change.value.partition("=")[0] if change.effect == "set" else ""
    if field:
        return "where" if field in PLACES | {"lines"} else "who"
    return "where" if is_placed(change.value) else "who"


def _told_else(
    question: Question, decision: Decision, taken: Iterable[tuple[Question, Decision]]
) -> frozenset[str]:
    """The matters of which other answers of the same household say something."""
    return frozenset(
        matter_told(other, said)
        for other, said in taken
        if said is not decision and question.household in other.households
    )


def _is_asked_else(words: str, question: Question, applied: Applied) -> bool:
    """True where another question of the same household is asked of the same words."""
    own = {(found.code, found.where) for found in question.covers}
    open_ = (each for each in applied.findings if each.household == question.household)
    return any(each.quoted == words and (each.code, each.where) not in own for each in open_)


def _left(words: str, who: str, told: Collection[str]) -> str:
    """The clauses of some words about matters that aren't told; "" where none is left.

    Names as they should stand say who is invited, children among them.
    """
    words = _IN_CARE.sub("c/o", words) if "where" in told else words  # she is no guest
    matters = news_in(words, who) - set(told)
    if "who" in told:
        matters -= {"children", "invited"}
    clauses: Sequence[str] = [each for each in _CLAUSES.split(words) if each and each.strip()]
    left = [each for each in clauses if news_in(each, who) & matters]
    return ", ".join(left) if left else words if matters else ""
