"""Two answers of the client's give one household two addresses, or its names in two ways.

In one reply nobody can tell which holds: neither is taken, and both are asked about. Of two replies
the later one holds, which is told; the remark that the first one answered stays dealt with.
"""

from collections.abc import Collection, Iterator, Sequence

from addressing.job.asking import Listed
from addressing.job.rereading import READERS
from addressing.questions.applying import apply
from addressing.questions.closing import as_it_stands, may_stand
from addressing.questions.corrections import is_correction
from addressing.questions.keeping import together
from addressing.questions.kinds import NAMES
from addressing.questions.left_over import matter_told
from addressing.questions.replacing import told_of
from addressing.questions.showing import names_shown
from addressing.questions.understanding import TOLD
from addressing.records.findings import Finding, Severity
from addressing.records.guests import Household
from addressing.records.questions import Applied, Decision, Question

_Answered = tuple[Question, Decision]
_About = tuple[str, str]
"""A household's key and a matter."""
_WHO = "who"
_WHOLE = frozenset((TOLD, "address")) | NAMES
"""Kinds whose answers say all of a matter."""


def clashing(
    listed: Listed, before: Sequence[Decision], new: Sequence[Decision]
) -> dict[Decision, Finding]:
    """New answers that say of a household what another one denies, each with why it isn't taken."""
    decisions = together(before, new)
    found: dict[Decision, Finding] = {}
    for about, answers in _alike(_applied(listed, decisions)).items():
        own = [each for each in answers if each[1] in new]
        if _differ(listed, decisions, about, own):
            found |= {decision: _clash(about, decision) for _, decision in own}
    return found


def later_ones(
    listed: Listed, before: Sequence[Decision], new: Sequence[Decision]
) -> tuple[tuple[Decision, ...], tuple[Finding, ...]]:
    """What was decided before, without what new answers say otherwise; and that told."""
    kept = tuple(before)
    told: list[Finding] = []
    decisions = together(kept, new)
    for about, answers in _alike(_applied(listed, decisions)).items():
        later = [each for each in answers if each[1] in new]
        for question, old in (each for each in answers if later and each[1] not in new):
            pair = [(question, old), later[0]]
            if may_stand(question) and _differ(listed, decisions, about, pair):
                stands = as_it_stands(question, later[0][1].where, later[0][1].date)
                kept = together((each for each in kept if each is not old), (stands,))
                told.append(told_of(old))
    return kept, tuple(told)


def _alike(applied: Applied) -> dict[_About, list[_Answered]]:
    """The answers, corrections aside, about one matter of a household; where it has several.

    One of them at least is to a remark: names that are asked for twice are joined elsewhere.
    """
    found: dict[_About, list[_Answered]] = {}
    for question, decision in applied.taken:
        if is_correction(question.ref) or len(question.households) != 1:
            continue
        matter = matter_told(question, decision) if question.kind in _WHOLE else ""
        if matter:
            found.setdefault((question.households[0], matter), []).append((question, decision))
    return {
        about: answers
        for about, answers in found.items()
        if len(answers) > 1 and any(question.kind == TOLD for question, _ in answers)
    }


def _differ(
    listed: Listed, decisions: Sequence[Decision], about: _About, answers: Sequence[_Answered]
) -> bool:
    """True where answers to questions of one household say more than one thing of its matter."""
    own = {decision for _, decision in answers}
    made = list(_each_alone(listed, decisions, about[0], own))
    if about[1] == _WHO:
        return len({names_shown(home) for home in made if home is not None}) > 1
    places = [home.address if home is not None else None for home in made]
    return any(not READERS.place(places[0], other) for other in places[1:])


def _each_alone(
    listed: Listed, decisions: Sequence[Decision], key: str, own: Collection[Decision]
) -> Iterator[Household | None]:
    """A household by each of some answers without the others."""
    for each in own:
        left = [decision for decision in decisions if decision is each or decision not in own]
        homes = _applied(listed, left).guest_list.households
        yield next((home for home in homes if home.key == key), None)


def _clash(about: _About, decision: Decision) -> Finding:
    what = "other names" if about[1] == _WHO else "another address"
    text = f"“{decision.answer}”: another answer of the same reply gives {what}."
    return Finding(
        Severity.ASK, "answer-conflict", decision.where, text, "Which one holds?", about[0],
        quoted=decision.answer,
    )  # fmt: skip


def _applied(listed: Listed, decisions: Sequence[Decision]) -> Applied:
    return apply(listed.guest_list, listed.findings, decisions, READERS)
