"""Two answers of the client's give one household two addresses.

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
from addressing.questions.left_over import matter_told
from addressing.questions.replacing import told_of
from addressing.questions.understanding import TOLD
from addressing.records.findings import Finding, Severity
from addressing.records.guests import Address
from addressing.records.questions import Applied, Decision, Question

_Answered = tuple[Question, Decision]


def clashing(
    listed: Listed, before: Sequence[Decision], new: Sequence[Decision]
) -> dict[Decision, Finding]:
    """New answers that give a household different addresses, each with why it isn't taken."""
    decisions = together(before, new)
    found: dict[Decision, Finding] = {}
    for key, answers in _of_places(_applied(listed, decisions)).items():
        own = [each for each in answers if each[1] in new]
        if _differ(listed, decisions, key, own):
            found |= {decision: _clash(key, decision) for _, decision in own}
    return found


def later_ones(
    listed: Listed, before: Sequence[Decision], new: Sequence[Decision]
) -> tuple[tuple[Decision, ...], tuple[Finding, ...]]:
    """What was decided before, without addresses that new answers give otherwise; and that told."""
    kept = tuple(before)
    told: list[Finding] = []
    decisions = together(kept, new)
    for key, answers in _of_places(_applied(listed, decisions)).items():
        later = [each for each in answers if each[1] in new]
        for question, old in (each for each in answers if later and each[1] not in new):
            pair = [(question, old), later[0]]
            if may_stand(question) and _differ(listed, decisions, key, pair):
                stands = as_it_stands(question, later[0][1].where, later[0][1].date)
                kept = together((each for each in kept if each is not old), (stands,))
                told.append(told_of(old))
    return kept, tuple(told)


def _of_places(applied: Applied) -> dict[str, list[_Answered]]:
    """The answers, corrections aside, that give a household an address; where it has several."""
    found: dict[str, list[_Answered]] = {}
    for question, decision in applied.taken:
        asked = question.kind in (TOLD, "address") and not is_correction(question.ref)
        if asked and len(question.households) == 1 and matter_told(question, decision) == "where":
            found.setdefault(question.households[0], []).append((question, decision))
    return {key: answers for key, answers in found.items() if len(answers) > 1}


def _differ(
    listed: Listed, decisions: Sequence[Decision], key: str, answers: Sequence[_Answered]
) -> bool:
    """True where answers to questions of one household give it more than one address."""
    own = {decision for _, decision in answers}
    made = list(_each_alone(listed, decisions, key, own))
    return any(not READERS.place(made[0], other) for other in made[1:])


def _each_alone(
    listed: Listed, decisions: Sequence[Decision], key: str, own: Collection[Decision]
) -> Iterator[Address | None]:
    """The address of a household by each of some answers without the others."""
    for each in own:
        left = [decision for decision in decisions if decision is each or decision not in own]
        homes = _applied(listed, left).guest_list.households
        yield next((home.address for home in homes if home.key == key), None)


def _clash(key: str, decision: Decision) -> Finding:
    text = f"“{decision.answer}”: another answer of the same reply gives another address."
    return Finding(
        Severity.ASK, "answer-conflict", decision.where, text, "Which one holds?", key,
        quoted=decision.answer,
    )  # fmt: skip


def _applied(listed: Listed, decisions: Sequence[Decision]) -> Applied:
    return apply(listed.guest_list, listed.findings, decisions, READERS)
