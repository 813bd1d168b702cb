"""An answer for all of a table becomes an answer for each of its rows that was left empty."""

from collections.abc import Iterable, Mapping, Sequence

from addressing.questions.asking import mark_of
from addressing.questions.choosing import FINE, chosen, meanings
from addressing.questions.matters import ALL, choices_of, matter_ref
from addressing.records.findings import Finding, Severity
from addressing.records.questions import Asked, Choice, Decision, Given, Question

KEPT = "As it stands"
"""The answer of a row that is left empty where empty rows stand as they are."""
_AS_FILLED = frozenset(("each", "rest"))


def spread(
    given: Given, questions: Sequence[Question]
) -> tuple[tuple[Decision, ...], tuple[Finding, ...]]:
    """The answers to single questions, those for all worked out; and what is wrong with them.

    The rows that an answer for all reaches are those that the client had before her. Answers
    written by hand name no rows: they reach all that are asked now.
    """
    known = {question.ref: question for question in questions}
    blanks = given.blanks if given.held else _unanswered(given.decisions, questions)
    made = [each for each in given.decisions if not is_for_all(each.ref)]
    findings: list[Finding] = []
    for decision in _of_tables(given.decisions):
        choice = chosen(choices_of(decision.ref), decision.answer)
        rows = [asked for asked in blanks if asked.matter == decision.ref]
        if choice is None:
            text = f"“{decision.answer}” can't be taken as an answer for all."
            findings.append(_wrong(decision, text, "Choose from the list."))
        elif choice.effect in _AS_FILLED and not _filled(decision.ref, made, known):
            if FINE in meanings(decision.answer) and _stands(decision):
                made += _each(decision, _stands(decision)[0], rows, known)
                continue
            text = f"“{decision.answer}”: nothing is filled in there."
            findings.append(_wrong(decision, text, "Fill in the table that it speaks of."))
        else:
            made += _each(decision, choice, rows, known)
    return tuple(made), tuple(findings)


def _stands(decision: Decision) -> list[Choice]:
    """What "all fine" says of a table in which nothing is filled in: it stands as it is."""
    return [choice for choice in choices_of(decision.ref) if choice.effect == "keep"]


def in_own_words(decisions: Iterable[Decision]) -> tuple[Decision, ...]:
    """The answers for all of a table that are none of the proposed ones.

    >>> from addressing.where import Where
    >>> said = Decision("all:guest-unnamed:companion", "Kit brings Ida Vole", Where("reply.txt"))
    >>> in_own_words([said]) == (said,)
    True
    """
    said = _of_tables(decisions)
    return tuple(each for each in said if chosen(choices_of(each.ref), each.answer) is None)


def is_for_all(ref: str) -> bool:
    """True for the ref of a table's own question.

    >>> is_for_all("all:title-missing:title"), is_for_all("h-abcdefgh:title-missing:1")
    (True, False)
    """
    return ref.startswith(f"{ALL}:")


def _of_tables(decisions: Iterable[Decision]) -> Iterable[Decision]:
    return (each for each in decisions if is_for_all(each.ref))


def _unanswered(decisions: Iterable[Decision], questions: Iterable[Question]) -> list[Asked]:
    answered = {decision.ref for decision in decisions}
    return [
        Asked(question.ref, mark_of(question.basis), matter_ref(question))
        for question in questions
        if question.ref not in answered
    ]


def _filled(ref: str, made: Iterable[Decision], known: Mapping[str, Question]) -> bool:
    """True when any row of a table has an answer of its own."""
    asked = (known[each.ref] for each in made if each.ref in known)
    return any(matter_ref(question) == ref for question in asked)


def _each(
    decision: Decision, choice: Choice, rows: Iterable[Asked], known: Mapping[str, Question]
) -> Iterable[Decision]:
    """One answer for each row that was left empty; none for what is no longer asked."""
    if choice.effect == "each":
        return
    for asked in rows:
        question = known.get(asked.ref)
        if question is not None:
            words = KEPT if choice.effect == "rest" else _words(choice, question)
            yield Decision(asked.ref, words, decision.where, asked.mark)


def _words(choice: Choice, question: Question) -> str:
    """The row's own proposed answer that does the same."""
    alike = (own.text for own in question.choices if own.effect == choice.effect)
    return next(alike, KEPT if choice.effect == "keep" else choice.text)


def _wrong(decision: Decision, text: str, mend: str) -> Finding:
    where, said = decision.where, decision.answer
    return Finding(Severity.ASK, "answer-not-understood", where, text, mend, quoted=said)
