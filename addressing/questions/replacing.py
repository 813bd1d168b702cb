"""Answering again replaces: names given anew take away what was said of the people before."""

from collections.abc import Sequence

from addressing.questions.kinds import NAMES
from addressing.questions.understanding import understood
from addressing.records.findings import Finding, Severity
from addressing.records.questions import Applied, Decision, Question

_ANEW = frozenset(("own", "set"))
"""Effects that give words."""


def replaced(
    before: Sequence[Decision], given: Sequence[Decision], applied: Applied
) -> tuple[Decision, ...]:
    """The earlier decisions that names given now replace, in a list with both worked in.

    These are other names of the same household, the name of a companion, and whatever can't hold
    beside the new names.
    """
    new = {decision.ref for decision in given}
    anew = {
        question.household
        for question, decision in applied.taken
        if decision.ref in new and question.kind in NAMES and _gives_words(question, decision)
    }
    taken = {decision.ref: question for question, decision in applied.taken}
    return tuple(
        decision
        for decision in before
        if decision.ref not in new
        and decision.ref.partition(":")[0] in anew
        and (decision in applied.open or _is_of_people(taken.get(decision.ref), decision))
    )


def _is_of_people(question: Question | None, decision: Decision) -> bool:
    return (
        question is not None
        and question.kind in NAMES | {"companion"}
        and _gives_words(question, decision)
    )


def _gives_words(question: Question, decision: Decision) -> bool:
    change = understood(question, decision)
    return change is not None and change.effect in _ANEW


def told_of(decision: Decision) -> Finding:
    """What a designer is told of a decision that was replaced."""
    text = f"“{decision.answer}” no longer holds: the names were given anew."
    key = decision.ref.partition(":")[0]
    return Finding(Severity.NOTE, "answer-remark", decision.where, text, "Nothing to do.", key)
