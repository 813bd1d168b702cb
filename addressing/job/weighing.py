"""Answers that came are weighed against what was decided before: which of them count.

An old file that is read again takes nothing from a later decision: an answer that was read before,
and replaced since, is only told. A new answer that says otherwise than a correction of the
designer's replaces nothing either: both are told, and the household waits.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from addressing.job.asking import Listed
from addressing.job.one_answer import clashing, later_ones
from addressing.job.rereading import READERS
from addressing.job.set_again import kept_beside, told_gone
from addressing.job.two_facts import kept_of_remarks
from addressing.questions.applying import apply
from addressing.questions.corrections import is_by_hand, is_correction
from addressing.questions.decided import kind_of, matter_of, of_whom
from addressing.questions.keeping import together
from addressing.questions.replacing import answered_anew, replaced, told_of
from addressing.questions.said import is_open
from addressing.questions.showing import address_shown, names_shown
from addressing.records.findings import Finding, Severity
from addressing.records.guests import GuestList
from addressing.records.questions import Applied, Decision, Earlier, Question, Said


@dataclass(frozen=True, slots=True)
class Weighed:
    """What counts: the answers of those given, all decisions with them, and the list with these."""

    given: tuple[Decision, ...]
    decisions: tuple[Decision, ...]
    applied: Applied
    told: tuple[Finding, ...] = ()
    """What became of decisions and answers that don't count."""
    others: tuple[Decision, ...] = ()
    """Answers that bring nothing new: as they stand decided, or replaced since."""
    contrary: tuple[Said, ...] = ()
    """New answers that say otherwise than a correction of the designer's."""
    refused: tuple[Decision, ...] = ()
    """New answers of the client's that can't be taken, where what was decided before stands."""
    earlier: tuple[Earlier, ...] = ()
    """What was read from answers and is replaced, so that it is known when it is read again."""


@dataclass(frozen=True, slots=True)
class Before:
    """What a job's folder holds before answers come."""

    decisions: tuple[Decision, ...]
    words: tuple[Said, ...] = ()
    earlier: tuple[Earlier, ...] = ()


def weigh(listed: Listed, before: Before, given: Sequence[Decision]) -> Weighed:
    """Work answers that came into a list in which `before` holds."""
    closed = _closed_by(before, given)
    standing, repeated, new = _sorted_out(before, [each for each in given if each not in closed])
    new, late = _in_time(listed, before.decisions, new)
    contrary = _contrary(listed, before.decisions, new)
    new = tuple(each for each in new if each not in contrary)
    new, wrong = _without_refused(listed, before.decisions, new)
    clash = clashing(listed, before.decisions, new)
    new, wrong = tuple(each for each in new if each not in clash), wrong | clash
    earlier = kept_of_remarks(listed, kept_beside(listed, before.decisions, new), new)
    earlier, moved = later_ones(listed, earlier, new)
    decisions = together(earlier, new)
    applied = _applied(listed, decisions)
    past = replaced(earlier, new, applied)
    if past:
        decisions = tuple(decision for decision in decisions if decision not in past)
        applied = _applied(listed, decisions)
    names = {home.key: home.name for home in listed.guest_list.households}
    was = _applied(listed, earlier)
    gone = tuple(told_gone(earlier, new, was, applied))
    anew = answered_anew(earlier, new, {decision: question for question, decision in was.taken})
    anew = tuple(each for each in anew if each.where not in {found.where for found in gone})
    kept = (_told_kept(each, by, names) for each, by in (closed | repeated).items() if by)
    return Weighed(
        given=new,
        decisions=decisions,
        applied=applied,
        told=(
            *map(told_of, (*past, *anew)),
            *moved,
            *gone,
            *map(_told_late, late),
            *kept,
            *wrong.values(),
        ),
        others=(*standing, *repeated, *closed, *contrary, *wrong),
        refused=tuple(each for each in wrong if not is_by_hand(each)),
        contrary=tuple(_said(each, by) for each, by in contrary.items()),
        earlier=tuple(_earlier(before, decisions, new, repeated)),
    )


def _without_refused(
    listed: Listed, before: Sequence[Decision], new: tuple[Decision, ...]
) -> tuple[tuple[Decision, ...], dict[Decision, Finding]]:
    """(the answers left, those that can't be taken, each with the reason).

    Whatever was decided before stands then: only what can be taken replaces it. Where nothing was,
    a client's answer stays among the others and is told with them.
    """
    applied = _applied(listed, together(before, new))
    told = {(found.where, found.quoted): found for found in applied.findings}
    holding = {decision.ref for _, decision in _applied(listed, before).taken}
    wrong = {
        each: told[each.where, each.answer]
        for each in new
        if (is_by_hand(each) or each.ref in holding)
        and each in applied.open
        and (each.where, each.answer) in told
    }
    return tuple(each for each in new if each not in wrong), wrong


def _sorted_out(
    before: Before, given: Sequence[Decision]
) -> tuple[list[Decision], dict[Decision, Decision], tuple[Decision, ...]]:
    """Of answers given (what stands decided by them, read before and by what replaced, the new).

    A correction in the same command comes behind the file that it is given with.
    """
    own = [each for each in given if is_by_hand(each)]
    holding = {each.ref: each for each in (*before.decisions, *own)}
    by_hand = {each.ref: each for each in own}
    standing: list[Decision] = []
    repeated: dict[Decision, Decision] = {}
    new: list[Decision] = []
    for each in given:
        same = next((kept for kept in before.decisions if _is_same(each, kept)), None)
        past = next((old for old in before.earlier if _is_same(each, old.decision)), None)
        later = by_hand.get(each.ref) or (holding.get(past.by) if past else None)
        if is_by_hand(each):
            new.append(each)
        elif later is not None:
            repeated[each] = later
        elif same is not None:
            standing.append(same)
        else:
            new.append(each)
    return standing, repeated, tuple(new)


def _is_same(given: Decision, known: Decision) -> bool:
    """True for the same answer to the same question, read from the same file before."""
    asked = is_correction(given.ref) or given.mark == known.mark
    same = (given.ref, given.answer.strip()) == (known.ref, known.answer.strip())
    return same and asked and given.where.file == known.where.file


def _closed_by(before: Before, given: Sequence[Decision]) -> dict[Decision, Decision | None]:
    """Answers that nothing could be made of, or that said otherwise, and were dealt with since.

    Each with the decision that did it, if one did.
    """
    holding = {each.ref: each for each in before.decisions}
    found: dict[Decision, Decision | None] = {}
    for each in given:
        words = next((said for said in before.words if _is_read(said, each)), None)
        if words is not None and not is_open(words, holding):
            found[each] = None if words.against else holding.get(words.by)
    return found


def _is_read(words: Said, given: Decision) -> bool:
    """True for words that were read from the same answer before."""
    same = (words.ref, words.words) == (given.ref, given.answer)
    return same and (not words.against or words.where.file == given.where.file)


def _contrary(
    listed: Listed, before: Sequence[Decision], new: Sequence[Decision]
) -> dict[Decision, Decision]:
    """New answers that would change what the designer set, each with that correction."""
    was = _applied(listed, before)
    set_before = {d: q for q, d in was.taken if is_by_hand(d) and is_correction(d.ref)}
    if not set_before:
        return {}
    now = _applied(listed, together(before, new))
    past = replaced(before, new, now)
    kept = {decision for _, decision in now.taken if decision not in past}
    asked = {decision: question for question, decision in now.taken}
    rivals = {
        each: rival
        for each in new
        if not is_by_hand(each)
        for rival, question in set_before.items()
        if _are_rivals(each, asked.get(each), question, lost=rival not in kept)
    }
    if not rivals:
        return {}
    without = [each for each in before if each not in rivals.values()]
    then = _applied(listed, together(without, new))
    return {each: rival for each, rival in rivals.items() if _differ(was, then, rival)}


def _are_rivals(
    given: Decision, question: Question | None, correction: Question, *, lost: bool
) -> bool:
    """True for an answer about what a correction of the same household has settled or loses."""
    if given.ref.partition(":")[0] not in correction.households:
        return False
    if question is not None and set(question.covers) & set(correction.covers):
        return True
    matter = matter_of(kind_of(given, question))
    return lost and matter in ("", matter_of(correction.kind))


def _differ(one: Applied, other: Applied, correction: Decision) -> bool:
    key = correction.ref.partition(":")[0]
    matter = matter_of(kind_of(correction))
    return _shown(one.guest_list, key, matter) != _shown(other.guest_list, key, matter)


def _shown(guest_list: GuestList, key: str, matter: str) -> str | None:
    """What an envelope would say of a matter; None for a household that is left out."""
    home = next((each for each in guest_list.households if each.key == key), None)
    if home is None or matter == "invited":
        return None if home is None else ""
    return names_shown(home) if matter == "who" else address_shown(home.address)


def _said(given: Decision, by: Decision) -> Said:
    key = given.ref.partition(":")[0]
    return Said(given.answer, given.where, given.ref, key, given.date, against=by.answer)


def _earlier(
    before: Before,
    decisions: Sequence[Decision],
    new: Sequence[Decision],
    repeated: dict[Decision, Decision],
) -> Iterator[Earlier]:
    """What answers said before and what replaced it; of one file and question the last."""
    holding = {each.ref for each in decisions}
    again = {(each.where.file, each.ref) for each in (*new, *repeated)}
    for old in before.earlier:
        if old.by in holding and (old.decision.where.file, old.decision.ref) not in again:
            yield old
    for each, by in repeated.items():
        if by.ref in holding:
            yield Earlier(each, by.ref)
    for each in before.decisions:
        by_now = None if each in decisions else next(_replacing(each, new), None)
        file = each.where.file
        if by_now is not None and not is_by_hand(each) and (file, each.ref) not in again:
            yield Earlier(each, by_now)


def _replacing(decision: Decision, new: Iterable[Decision]) -> Iterator[str]:
    """The refs of what may have replaced a decision: of its question, else of its household."""
    key = decision.ref.partition(":")[0]
    yield from (each.ref for each in new if each.ref == decision.ref)
    yield from (each.ref for each in new if each.ref.partition(":")[0] == key)


def _told_kept(given: Decision, by: Decision, names: dict[str, str]) -> Finding:
    """What a designer is told of an answer that was read before and replaced since."""
    key = given.ref.partition(":")[0]
    kept = f"the later answer of {names.get(key, 'the list')}"
    if is_by_hand(by):
        kept = f"your correction of the {of_whom(by, None, names)}"
    text = f"Kept {kept}, “{by.answer}”; {given.where.file} says “{given.answer}” as before."
    text += f" To go back to it: answer --undo '{by.where}'."
    return Finding(Severity.NOTE, "answer-overruled", given.where, text, "Nothing to do.", key)


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
