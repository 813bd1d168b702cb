"""Answers that came are weighed against what was decided before: which of them count."""

from collections.abc import Sequence
from dataclasses import dataclass

from addressing.job.asking import Listed
from addressing.job.rereading import READERS
from addressing.questions.applying import apply
from addressing.questions.keeping import together
from addressing.questions.replacing import replaced, told_of
from addressing.records.findings import Finding, Severity
from addressing.records.questions import Applied, Decision


@dataclass(frozen=True, slots=True)
class Weighed:
    """What counts: the answers of those given, all decisions with them, and the list with these."""

    given: tuple[Decision, ...]
    decisions: tuple[Decision, ...]
    applied: Applied
    told: tuple[Finding, ...] = ()
    """What became of decisions and answers that don't count."""


def weigh(listed: Listed, before: Sequence[Decision], given: tuple[Decision, ...]) -> Weighed:
    """Work answers that came into a list in which `before` holds."""
    given, late = _in_time(listed, before, given)
    decisions = together(before, given)
    applied = _applied(listed, decisions)
    past = replaced(before, given, applied)
    if past:
        decisions = tuple(decision for decision in decisions if decision not in past)
        applied = _applied(listed, decisions)
    told = (*map(told_of, past), *map(_told_late, late))
    return Weighed(given, decisions, applied, told)


def _applied(listed: Listed, decisions: Sequence[Decision]) -> Applied:
    return apply(listed.guest_list, listed.findings, decisions, READERS)


def _in_time(
    listed: Listed, before: Sequence[Decision], given: tuple[Decision, ...]
) -> tuple[tuple[Decision, ...], tuple[Decision, ...]]:
    """(the answers that count, those to an earlier list where what was decided since holds)."""
    applied = _applied(listed, together(before, given))
    stale_at = {found.where for found in applied.findings if found.code == "answer-stale"}
    holding = {decision.ref for _, decision in _applied(listed, before).taken}
    late = tuple(
        each
        for each in given
        if each in applied.open and each.where in stale_at and each.ref in holding
    )
    return tuple(each for each in given if each not in late), late


def _told_late(decision: Decision) -> Finding:
    text = f"“{decision.answer}” was said of an earlier list; what was decided since holds."
    key = decision.ref.partition(":")[0]
    return Finding(Severity.NOTE, "answer-replaced", decision.where, text, "Nothing to do.", key)
