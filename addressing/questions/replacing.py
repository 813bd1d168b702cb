"""Answering again replaces: names or an address given anew take away what was said before."""

from collections.abc import Collection, Mapping, Sequence

from addressing.questions.corrections import is_by_hand, is_correction
from addressing.questions.kinds import NAMES, PLACES
from addressing.questions.lasting import is_of_place
from addressing.questions.newcomers import is_of_newcomer
from addressing.questions.understanding import understood
from addressing.records.findings import Finding, Severity
from addressing.records.questions import Applied, Decision, Question

_ANEW = frozenset(("own", "set", "hand"))
"""Effects that say it anew: words, or that no address is owed."""


def replaced(
    before: Sequence[Decision], given: Sequence[Decision], applied: Applied
) -> tuple[Decision, ...]:
    """The earlier decisions that answers given now replace, in a list with both worked in.

    Names replace other names of the same household, the name of a companion, and whatever can't
    hold beside them, unless something of it stays; a whole address replaces another and its parts.
    """
    new = {decision.ref for decision in given}
    anew = {
        (question.household, matter)
        for question, decision in applied.taken
        if decision.ref in new and (matter := _whole(question)) and _gives_words(question, decision)
    }
    names = {household for household, matter in anew if matter == "names"}
    taken = {decision.ref: question for question, decision in applied.taken}
    return tuple(
        decision
        for decision in before
        if decision.ref not in new | applied.beside
        and (
            (decision in applied.open and _is_open_of(decision, names, anew))
            or _is_replaced(taken.get(decision.ref), decision, anew)
        )
    )


def _is_open_of(
    decision: Decision, names: Collection[str | None], anew: Collection[tuple[str | None, str]]
) -> bool:
    """True for one that doesn't hold, of a household whose names, or whole address, came anew."""
    household, _, rest = decision.ref.partition(":")
    corrects_place = is_correction(decision.ref) and rest.partition(":")[2] in PLACES
    if corrects_place or is_of_place(decision):
        return (household, "address") in anew
    return household in names


def _whole(question: Question) -> str:
    """What an answer to a question says all of: "names", "address", or "" for neither."""
    if question.kind in NAMES:
        return "" if is_of_newcomer(question.ref) else "names"
    return "address" if question.kind == "address" else ""


def _is_replaced(
    question: Question | None, decision: Decision, anew: Collection[tuple[str | None, str]]
) -> bool:
    if question is None or not _gives_words(question, decision):
        return False
    if question.kind in PLACES:
        return (question.household, "address") in anew
    return question.kind in NAMES | {"companion"} and (question.household, "names") in anew


def _gives_words(question: Question, decision: Decision) -> bool:
    change = understood(question, decision)
    return change is not None and change.effect in _ANEW


def answered_anew(
    kept: Sequence[Decision], given: Sequence[Decision], asked: Mapping[Decision, Question]
) -> tuple[Decision, ...]:
    """The client's earlier words to the same questions, where those given now say otherwise.

    `kept` are the decisions that would stay without the new ones, `asked` their questions.
    """
    now = {each.ref: each.answer.strip() for each in given if not is_by_hand(each)}
    return tuple(
        each
        for each in kept
        if now.get(each.ref, each.answer.strip()) != each.answer.strip()
        and not is_by_hand(each)
        and each in asked
        and _gives_words(asked[each], each)
    )


def told_of(decision: Decision) -> Finding:
    """What a designer is told of a decision that was replaced."""
    text = f"“{decision.answer}” no longer holds: it was answered anew."
    key = decision.ref.partition(":")[0]
    return Finding(Severity.NOTE, "answer-replaced", decision.where, text, "Nothing to do.", key)
