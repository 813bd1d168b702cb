"""Answers found again: the household is the same, its people or its door are spelled anew.

A title that was said of Tobias Wexcomb holds for Tobias Wexcombe; that of the first in the row goes
with her when she is the second. So does all else that still applies; what can't be told for certain
is asked again, and an answer that the list has by now is no news.
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace

from addressing.questions.asking import mark_of
from addressing.questions.corrections import TITLE
from addressing.questions.drafts import Draft, set_address, set_title
from addressing.questions.families import name_anew
from addressing.questions.folding import folded
from addressing.questions.kinds import NAMES, PLACES, kept_as_it_stands
from addressing.questions.lasting import is_unasked, noted
from addressing.questions.respelled import still_meant
from addressing.questions.showing import address_shown, names_shown
from addressing.questions.understanding import Change
from addressing.records.guests import Household
from addressing.records.questions import Decision, Question, Readers

_LIST = "list"
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
    about = [
        question
        for question in questions
        if (question.household == key or (key == _LIST and not question.households))
        and any(found.code == code for found in question.covers)
    ]
    asked = [question for question in about if question.kind in _OF_PERSONS]
    if not asked:
        return _respelled(decision, about, homes, readers)
    if home is None:
        return None
    if asked[0].kind == "companion":
        return asked[0] if len(asked) == 1 else None
    return _same_person(decision, asked, home, readers)


def _respelled(
    decision: Decision,
    asked: Sequence[Question],
    homes: Mapping[str, Household],
    readers: Readers,
) -> Question | None:
    """The question about the same people, or the same door, that the list spells otherwise now."""
    meant = [
        question
        for question in asked
        if decision.about
        and (
            still_meant(decision.about, question, [homes[k] for k in question.households], readers)
            if question.households
            else decision.about == question.basis
        )
    ]
    return meant[0] if len(meant) == 1 else None


def is_said_by_now(decision: Decision, homes: Mapping[str, Household]) -> bool:
    """True for an answer that the list no longer needs: it has those words, or nothing to keep."""
    key, _, rest = decision.ref.partition(":")
    home = homes.get(key)
    if home is None or not decision.mark:
        return False
    said = _words(decision.answer)
    if any(
        said.startswith(_words(text)) if text.endswith(" ") else said == _words(text)
        for text in kept_as_it_stands(rest.partition(":")[0])
    ):
        return True
    has = (names_shown(home), address_shown(home.address))
    return len(said.split()) > 1 and any(f" {said} " in f" {_words(text)} " for text in has)


def is_adopted(home: Household, change: Change, readers: Readers) -> bool:
    """True for a correction after which the household would be as the list has it by now."""
    kind, draft = change.question.kind, Draft.of(home)
    if change.effect in ("keep", "hand"):
        return change.effect == "keep" or home.by_hand
    if kind in PLACES:
        wrong = set_address(draft, change, readers, more=True)
        return wrong is None and readers.place(draft.address, home.address)
    named = {TITLE: set_title}.get(kind, name_anew)
    if kind not in NAMES | {TITLE} or named(draft, change, readers) is not None:
        return False
    return _words(names_shown(draft.household())) == _words(names_shown(home))


def _words(text: str) -> str:
    return " ".join(re.findall(r"\w+", folded(text)))


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
    """A decision as it is kept: by the question that it answers now, and of whom it was said.

    One that goes on unasked stays as it was given.
    """
    if is_unasked(question):
        return replace(decision, about=decision.about or question.basis)
    asked = bool(question.text)  # a correction is marked even where it was written by hand
    mark = mark_of(question.basis) if decision.mark or not asked else ""
    about = question.basis if question.kind != "companion" else ""
    kept = noted(question, decision) if asked else decision
    return replace(kept, ref=question.ref, mark=mark, about=about)
