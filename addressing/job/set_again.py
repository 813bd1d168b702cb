"""Names that are set a second time: who stood beside the grown ones in the first stays.

“Wes and Dina Okafor, Zora (8)”, then “Mr. Wes and Mrs. Dina Okafor”: the second says nothing of
Zora. The first is then kept as what was set for everyone, where it says the same as that; who goes
nevertheless is told.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from addressing.job.asking import Listed
from addressing.job.rereading import READERS
from addressing.questions.applying import apply
from addressing.questions.choosing import leaves_out
from addressing.questions.corrections import CORRECT
from addressing.questions.keeping import together
from addressing.questions.kinds import NAMES
from addressing.questions.showing import names_shown, person_shown
from addressing.records.findings import Finding, Severity
from addressing.records.guests import Household, Kind
from addressing.records.questions import CHILD, FAMILY, GUEST, Applied, Decision

_NAMES, _EVERYONE = f":{CORRECT}:names", f":{CORRECT}:everyone"


def kept_beside(
    listed: Listed, before: Sequence[Decision], new: Sequence[Decision]
) -> tuple[Decision, ...]:
    """What was decided before, names that are set again among it as what was set for everyone.

    Only those that bring somebody beside the names given now.
    """
    kept = tuple(before)
    again = {each.ref for each in new if each.ref.endswith(_NAMES)}
    for old in (each for each in before if each.ref in again):
        key = old.ref.removesuffix(_NAMES)
        every = replace(old, ref=f"{key}{_EVERYONE}", mark="", about="")
        if any(each.ref == every.ref for each in (*kept, *new)):
            continue
        other = tuple(every if each is old else each for each in kept)
        same = _names(_applied(listed, kept), key) == _names(_applied(listed, other), key)
        alone, beside = (_applied(listed, together(each, new)) for each in (kept, other))
        if same and _names(alone, key) != _names(beside, key):
            kept = other
    return kept


def told_gone(
    before: Sequence[Decision], new: Sequence[Decision], was: Applied, now: Applied
) -> Iterator[Finding]:
    """Who goes because names were given again that don't name them: children, companions, family.

    `was` is the list with what was decided before, `now` with the new as well.
    """
    said = {each.ref: each for each in new}
    for question, decision in was.taken:
        given = said.get(decision.ref)
        old, home = (_home(each, decision.ref.partition(":")[0]) for each in (was, now))
        if given is None or question.kind not in NAMES or given.answer == decision.answer:
            continue
        if _says_so(given.answer) or decision not in before or old is None or home is None:
            continue
        gone = [each for each in _besides(old) if each not in _besides(home)]
        if gone:
            text = (
                f"“{decision.answer}” no longer holds: it was answered anew, and without"
                f" {', '.join(gone)}."
            )
            mend = "If they are invited: answer --set with “everyone”."
            yield Finding(
                Severity.NOTE, "answer-replaced", decision.where, f"{text} {mend}",
                "Nothing to do.", home.key,
            )  # fmt: skip


def _says_so(words: str) -> bool:
    return any(leaves_out(words, whom) for whom in (CHILD, FAMILY, GUEST))


def _besides(home: Household) -> list[str]:
    """Everybody of a household who isn't a grown one by name."""
    shown = [person_shown(person) for person in home.people if person.kind is not Kind.NAMED]
    return shown + ([home.family.text] if home.family else [])


def _names(applied: Applied, key: str) -> str:
    home = _home(applied, key)
    return names_shown(home) if home else ""


def _home(applied: Applied, key: str) -> Household | None:
    return next((each for each in applied.guest_list.households if each.key == key), None)


def _applied(listed: Listed, decisions: Sequence[Decision]) -> Applied:
    return apply(listed.guest_list, listed.findings, decisions, READERS)
