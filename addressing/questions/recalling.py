"""Answers about one person found again: the household is the same, she is spelled or placed anew.

A title that was said of Tobias Wexcomb holds for Tobias Wexcombe; that of the first in the row goes
with her when she is the second. What can't be told for certain is asked again.
"""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from addressing.questions.asking import mark_of
from addressing.records.guests import Household
from addressing.records.questions import Decision, Question, Readers

_OF_PERSONS = frozenset(("title", "companion"))


def recalled(
    decision: Decision,
    questions: Sequence[Question],
    homes: Mapping[str, Household],
    readers: Readers,
) -> Question | None:
    """The question that an answer to other words than the list has now still answers; else None."""
    key, _, rest = decision.ref.partition(":")
    code = rest.partition(":")[0]
    home = homes.get(key)
    asked = [
        question
        for question in questions
        if question.household == key
        and question.kind in _OF_PERSONS
        and any(found.code == code for found in question.covers)
    ]
    if home is None or not asked:
        return None
    if asked[0].kind == "companion":
        return asked[0] if len(asked) == 1 else None
    return _same_person(decision, asked, home, readers)


def _same_person(
    decision: Decision, asked: Sequence[Question], home: Household, readers: Readers
) -> Question | None:
    exact = [question for question in asked if decision.about and question.basis == decision.about]
    if len(exact) == 1:
        return exact[0]
    was = readers.names(decision.about).people if decision.about else ()
    if len(was) != 1:
        return None
    titled = replace(was[0], title=readers.title(decision.answer))
    near = [
        question
        for question in asked
        if question.person is not None and readers.same(titled, home.people[question.person])
    ]
    return near[0] if len(near) == 1 else None


def restated(question: Question, decision: Decision) -> Decision:
    """A decision as it is kept: by the question that it answers now, and of whom it was said."""
    if question.kind not in _OF_PERSONS:
        return decision
    mark = mark_of(question.basis) if decision.mark else ""
    about = question.basis if question.kind == "title" else ""
    return replace(decision, ref=question.ref, mark=mark, about=about)
