"""A remark tells two facts, and its question is answered twice: each answer keeps its own.

“88 Birch Lane, Troy NY 12180” was said of “moved, and she goes by Dr. now”; the same number of the
letter, answered again with the names, says nothing of the address. The first answer is then kept
as a correction of what it gave.
"""

from collections.abc import Sequence
from dataclasses import replace

from addressing.job.asking import Listed
from addressing.job.rereading import READERS
from addressing.questions.applying import apply
from addressing.questions.corrections import CORRECT
from addressing.questions.keeping import together
from addressing.questions.left_over import matter_told
from addressing.questions.showing import address_shown, names_shown
from addressing.questions.understanding import TOLD, understood
from addressing.records.questions import Applied, Decision, Question

_KINDS = {"who": ("names",), "where": ("address", "street")}


def kept_of_remarks(
    listed: Listed, before: Sequence[Decision], new: Sequence[Decision]
) -> tuple[Decision, ...]:
    """What was decided before, answers to remarks that are answered anew about something else."""
    kept = tuple(before)
    again = {each.ref: each for each in new}
    if not again.keys() & {each.ref for each in kept}:
        return kept
    was = _applied(listed, kept)
    for question, old in was.taken:
        given = again.get(old.ref)
        if given is None or question.kind != TOLD or len(question.households) != 1:
            continue
        first, second = (matter_told(question, each) for each in (old, given))
        if first and second and first != second:
            kept = _with_correction(listed, kept, (question, old), (was, first))
    return kept


def _with_correction(
    listed: Listed,
    kept: tuple[Decision, ...],
    answered: tuple[Question, Decision],
    was: tuple[Applied, str],
) -> tuple[Decision, ...]:
    """The decisions with an answer as a correction, where that says the same of its matter."""
    question, old = answered
    change = understood(question, old)
    key = str(question.household)
    for kind in _KINDS[was[1]]:
        ref = f"{key}:{CORRECT}:{kind}"
        words = change.words if change is not None else old.answer
        made = replace(
            old, ref=ref, answer=words, mark="", about="", kind="", taken=None, among=()
        )  # fmt: skip
        if any(each.ref == ref for each in kept):
            return kept
        then = together((each for each in kept if each is not old), (made,))
        if _shown(_applied(listed, then), key, was[1]) == _shown(was[0], key, was[1]):
            return then
    return kept


def _shown(applied: Applied, key: str, matter: str) -> str:
    homes = applied.guest_list.households
    home = next((each for each in homes if each.key == key), None)
    if home is None:
        return ""
    return names_shown(home) if matter == "who" else address_shown(home.address)


def _applied(listed: Listed, decisions: Sequence[Decision]) -> Applied:
    return apply(listed.guest_list, listed.findings, decisions, READERS)
