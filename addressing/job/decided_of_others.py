"""What was decided of a household that the list has no longer, or has under another name perhaps.

Who is only likely the same has a key of their own: nothing that was decided goes to them unasked,
and what nobody would ask again holds them until it is said whether it is theirs.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from addressing.guestlist.households.keys import Doubt, Kept
from addressing.job.remembering import Remembered
from addressing.job.rereading import READERS
from addressing.questions.corrections import correction_for, is_correction
from addressing.questions.decided import is_whole, kind_of, matter_of
from addressing.questions.kinds import PLACES
from addressing.questions.lasting import GONE, is_of_remark
from addressing.questions.recalling import is_adopted
from addressing.questions.understanding import understood
from addressing.records.findings import Finding
from addressing.records.questions import Applied, Decision
from addressing.where import Where

_STALE, _CORRECTION = "answer-stale", "correction-stale"
OF_ANSWERS = frozenset((_STALE, _CORRECTION, GONE, "answer-conflict", "answer-not-understood"))
"""The codes of decisions that don't hold, or wait to be confirmed."""


def told_of_others(
    findings: Iterable[Finding], applied: Applied, remembered: Remembered
) -> tuple[Finding, ...]:
    """The findings, where those about decisions without a household say what became of it.

    What would be told in the same words twice is told once: an answer to a whole table stands at
    one place for many households.
    """
    here = {home.key for home in remembered.guest_list.households}
    unused: dict[tuple[Where, str], list[Decision]] = {}
    for decision in applied.open:
        if _key(decision) not in here:
            unused.setdefault((decision.where, decision.answer), []).append(decision)
    told = (_told(found, unused, applied, remembered) for found in findings)
    return tuple(dict.fromkeys(found for found in told if found is not None))


def under_their_key(decision: Decision, kept: Kept) -> Decision | None:
    """A decision for the household that may be the one that it was made of; None without one."""
    doubt = _doubt(decision, kept)
    if doubt is None:
        return None
    rest = decision.ref.partition(":")[2]
    return replace(decision, ref=f"{doubt[1].key}:{rest}", among=())


def _told(
    found: Finding,
    unused: dict[tuple[Where, str], list[Decision]],
    applied: Applied,
    remembered: Remembered,
) -> Finding | None:
    """What is told of a decision without a household; None where nothing needs to be."""
    decisions = unused.get((found.where, found.quoted), [])
    if found.code != _STALE or found.household is not None or not decisions:
        return found
    decision, kept = decisions.pop(0), remembered.kept
    doubt = _doubt(decision, kept)
    if doubt is None:
        return _of_gone(found, decision, kept)
    old, new, why = doubt
    if _is_settled(decision, new.key, applied, remembered):
        return None
    text = (
        f"“{found.quoted}” was said of {old.name}. {why} It isn't certain that {new.name} is the "
        "same household."
    )
    if not _outlasts(decision):
        mend = "If it is the same household, answer once more."
        return replace(found, text=text, mend=mend, household=new.key)
    at = f"'{decision.where}'"
    mend = f"If they are, keep it: answer --settled {at}; if not: answer --undo {at}."
    code = _CORRECTION if is_correction(decision.ref) else GONE
    return replace(found, code=code, text=text, mend=mend, household=new.key, holds=True)


def _of_gone(found: Finding, decision: Decision, kept: Kept) -> Finding | None:
    """Of who has left the list: nobody needs to hear that they are still left out."""
    old = next((home for home in kept.known if home.gone and home.key == _key(decision)), None)
    if old is None:
        return found
    if decision.listed:
        return None
    text = f"“{found.quoted}” was said of {old.name}, no longer on the list."
    return replace(found, text=text, mend="Nothing to do, unless they should still be there.")


def _doubt(decision: Decision, kept: Kept) -> Doubt | None:
    """Who may be meant; an address that was corrected may be that of whoever is at the door now."""
    of_place = is_correction(decision.ref) and kind_of(decision) in PLACES
    pairs = (*kept.doubtful, *(kept.strangers if of_place else ()))
    return next((pair for pair in pairs if pair[0].key == _key(decision)), None)


def _outlasts(decision: Decision) -> bool:
    """True for what is asked of nobody again: a correction, who is left out, a remark's answer."""
    asked = not (is_correction(decision.ref) or is_of_remark(decision.ref))
    return bool(decision.listed) or not asked


def _is_settled(decision: Decision, key: str, applied: Applied, remembered: Remembered) -> bool:
    """True where who may be meant is left out, was decided of anew, or is listed so by now."""
    homes = {home.key: home for home in remembered.guest_list.households}
    out = key not in {home.key for home in applied.guest_list.households}
    if out or any(_is_said_anew(decision, each) for each in _corrections(applied, key)):
        return True
    if not is_correction(decision.ref):
        return False
    question = correction_for(f"{key}:{decision.ref.partition(':')[2]}", homes, ())
    change = understood(question, decision) if question is not None else None
    return change is not None and is_adopted(homes[key], change, READERS)


def _corrections(applied: Applied, key: str) -> Iterator[Decision]:
    taken: Sequence[Decision] = [decision for _, decision in applied.taken]
    return (each for each in taken if _key(each) == key and is_correction(each.ref))


def _is_said_anew(decision: Decision, correction: Decision) -> bool:
    """True for a correction of the same, or of all of its matter."""
    was, now = _kind(decision), kind_of(correction)
    return was == now or (is_whole(now) and matter_of(was) == matter_of(now))


def _kind(decision: Decision) -> str:
    return "invited" if decision.listed else kind_of(decision) or decision.kind


def _key(decision: Decision) -> str:
    return decision.ref.partition(":")[0]
