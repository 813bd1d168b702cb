"""Decisions are worked into the list: pure, and nothing changes but what was answered."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import replace

from addressing.questions.asking import questions_for
from addressing.questions.beside import held
from addressing.questions.choosing import LEAVING, PART
from addressing.questions.corrections import is_by_hand, is_correction, number_of
from addressing.questions.drafts import (
    Draft,
    fields_of,
    name_companion,
    set_address,
    set_title,
    struck_people,
)
from addressing.questions.each_apart import apart_of
from addressing.questions.families import beside_names, name_anew, name_family
from addressing.questions.halves import (
    halves_of,
    is_of_half,
    told_of_halves,
    under_keys_of_halves,
)
from addressing.questions.hearing import (
    Work,
    change_of,
    changes_of,
    hear_of_newcomers,
    refuse_change,
)
from addressing.questions.kinds import PLACES
from addressing.questions.lasting import is_unasked
from addressing.questions.leaving import leave_part_out, left_out_notes, unused_rows
from addressing.questions.merging import Merged, bring, is_of_merged, questions_of, taken_over
from addressing.questions.naming import same_named
from addressing.questions.parting import parted
from addressing.questions.staying_out import Remarks, left_by
from addressing.questions.telling import change_told
from addressing.questions.title_letters import LETTERS, set_letters, titled_by_now
from addressing.questions.understanding import TOLD, Change
from addressing.records.findings import Finding, Severity
from addressing.records.guests import GuestList
from addressing.records.questions import Applied, Decision, Question, Readers

_ORDER = {
    "names": 0,
    "everyone": 0,
    TOLD: 0,
    "title": 1,
    LETTERS: 1,
    "companion": 1,
    "struck": 2,
    "family": 3,
}
"""Names first: a title goes to the name as it was corrected."""
_CHANGERS: Mapping[str, Callable[[Draft, Change, Readers], str | None]] = {
    "title": set_title,
    "companion": name_companion,
    "names": name_anew,
    "everyone": name_anew,
    "family": name_family,
    "struck": struck_people,
    TOLD: change_told,
}


def apply(
    guest_list: GuestList,
    findings: Sequence[Finding],
    decisions: Sequence[Decision],
    readers: Readers,
) -> Applied:
    """The list and its findings with the decisions in them.

    A decision that is stale, in conflict or not understood changes nothing and becomes a finding.
    What is said of one half of a household that an answer parts is worked in when it is parted.
    """
    listed = {home.key for home in guest_list.households}
    halves = [each for each in decisions if is_of_half(each, listed)]
    rest = [each for each in decisions if not is_of_half(each, listed)]
    whole = _apply(guest_list, findings, rest, readers)
    parted_now = halves_of(listed, whole.guest_list.households)
    whole = replace(whole, halves=parted_now)
    if not halves:
        return whole
    own, back = under_keys_of_halves(halves, parted_now)
    return told_of_halves(whole, _apply(whole.guest_list, whole.findings, own, readers), back)


def _apply(
    guest_list: GuestList,
    findings: Sequence[Finding],
    decisions: Sequence[Decision],
    readers: Readers,
) -> Applied:
    homes = {home.key: home for home in guest_list.households}
    work = Work(
        guest_list, readers, homes,
        {key: Draft.of(home) for key, home in homes.items()},
        questions_for(guest_list, findings),
        Remarks.of(guest_list, findings),
    )  # fmt: skip
    changes = sorted(changes_of(work, decisions), key=_rank)
    for place, change in enumerate(changes):
        _take(work, change, more=_is_followed(change, changes[place + 1 :]))
    _without_circles(work)
    asked = _hear_of_merged(work, findings, decisions)
    asked = (*asked, *hear_of_newcomers(work, decisions))
    _without_nobody(work)
    _without_circles(work)
    return _finish(work, findings, asked)


def _rank(change: Change) -> tuple[int, bool, bool, int, bool, int]:
    """Among names a correction comes last, and everyone after the names alone: they stand.

    What goes on though the list asks no longer comes before what it asks now.
    What the designer set herself comes behind them, in her own order.
    """
    question = change.question
    every = question.kind == "everyone"
    correction = is_correction(question.ref)
    by_hand = number_of(change.decision) if correction and is_by_hand(change.decision) else 0
    now = not is_unasked(question)
    return _ORDER.get(question.kind, 4), now, correction, by_hand, every, -(question.person or 0)


def _is_followed(change: Change, later: Sequence[Change]) -> bool:
    """True for a part of an address that is corrected with another part of it."""
    household = change.question.household
    return _corrects_place(change) and any(
        _corrects_place(other) and other.question.household == household for other in later
    )


def _corrects_place(change: Change) -> bool:
    return change.question.kind in PLACES and is_correction(change.question.ref)


def _take(work: Work, change: Change, *, more: bool) -> None:
    """Work one change in, or say why it doesn't hold."""
    kind, effect = change.question.kind, change.effect
    why: str | None = None
    if effect in LEAVING:
        work.gone |= dict.fromkeys(left_by(change.question, effect), (None, change.decision))
    elif effect in ("first", "second"):
        _one_of(work, change)
    elif effect == PART:
        leave_part_out(work.drafts[change.question.households[0]], change)
    elif effect == "split":
        work.splits.append(change)
    elif kind == LETTERS and effect != "keep":
        why = set_letters(work.drafts, change, work.readers)
    elif effect != "keep":
        why = _change_words(work, change, kind, more=more)
    if why is None:
        work.taken.append(change)
    else:
        refuse_change(work, change, why)


def _change_words(work: Work, change: Change, kind: str, *, more: bool) -> str | None:
    draft = work.drafts[change.question.households[0]]
    if change.effect == "hand":
        draft.by_hand, draft.address = True, None
        return None
    if kind in PLACES:
        return set_address(draft, change, work.readers, more=more)
    return _CHANGERS[kind](draft, change, work.readers)


def _one_of(work: Work, change: Change) -> None:
    """One household stands for the others; parts of one bring along whoever isn't in both."""
    keys = list(change.question.households)
    kept = keys.pop(0 if change.effect == "first" else 1)
    for key in keys:
        work.gone.setdefault(key, (kept, change.decision))
        if change.question.kind == "parts":
            there = (*work.homes[kept].people, *work.drafts[kept].extra)
            more = [p for p in work.homes[key].people if not any(same_named(p, q) for q in there)]
            work.drafts[kept].extra += more


def _hear_of_merged(
    work: Work, findings: Sequence[Finding], decisions: Sequence[Decision]
) -> tuple[Question, ...]:
    """What only rows say that went for others: taken over, answered, or still asked."""
    said = {each.ref: each for each in decisions if is_of_merged(each.ref)}
    answered = {found for change in work.taken for found in change.question.covers}
    left = [found for found in findings if found not in answered]
    asked: list[Question] = []
    for key, kept in _standing(work).items():
        merged = Merged(work.drafts[kept], work.drafts[key].household(), work.readers)
        told = taken_over(merged)
        work.findings += [told] if told is not None else []
        for question in questions_of(merged, [each for each in left if each.household == key]):
            decision = said.pop(question.ref, None)
            change = change_of(work, question, decision) if decision is not None else None
            if change is None:
                asked.append(question)
            elif change.effect == "bring":
                bring(merged)
                work.taken.append(change)
            else:
                _take(work, change, more=False)
    for decision in said.values():
        change_of(work, None, decision)
    return tuple(asked)


def _standing(work: Work) -> dict[str, str]:
    """Each household that went for another, and the one that stays in the end, if one does."""
    found: dict[str, str] = {}
    for start in work.gone:
        key: str | None = start
        while key is not None and key in work.gone:
            key = work.gone[key][0]
        if key is not None:
            found[start] = key
    return found


def _without_nobody(work: Work) -> None:
    """A household of which every name was left out is left out itself."""
    for change in work.taken:
        key = change.question.household
        if change.effect == "omit" and key is not None and work.drafts[key].is_empty():
            work.gone.setdefault(key, (None, change.decision))


def _without_circles(work: Work) -> None:
    """Households that were each left out for another would all be lost: then none is."""
    for start in list(work.gone):
        seen: list[str] = []
        key: str | None = start
        while key is not None and key in work.gone and key not in seen:
            seen.append(key)
            key = work.gone[key][0]
        if key is not None and key in seen:
            circle = {work.gone[each][1] for each in seen[seen.index(key) :]}
            for decision in sorted(circle, key=lambda each: each.ref):
                text = f"“{decision.answer}”: with the other answers nobody of them would be left."
                work.refuse("answer-conflict", decision, text, "Which household stays?")
            work.gone = {k: kept for k, kept in work.gone.items() if kept[1] not in circle}
            work.taken = [change for change in work.taken if change.decision not in circle]


def _finish(work: Work, findings: Sequence[Finding], asked: tuple[Question, ...]) -> Applied:
    settled = _settled(work)
    moot = [question for question in work.questions if _moot(work, question)]
    answered = {found for question in moot for found in question.covers}
    answered |= {found for change in work.taken for found in change.question.covers}
    answered = (answered - _half_answered(work)) | titled_by_now(findings, work.drafts)
    rest = [found for found in findings if found not in answered]
    rest = [*_by_hand(work), *beside_names(work.drafts.values()), *rest]
    rest = [found for found in rest if found.household not in work.gone]
    rest = [*left_out_notes(work.homes, work.gone), *rest]
    homes = [
        work.drafts[home.key].household()
        for home in work.guest_list.households
        if home.key not in work.gone
    ]
    apart = apart_of(work)
    asked = tuple(each for each in asked if each.household not in work.gone)
    rest += [found for question in asked for found in question.covers]
    homes, rest = parted(homes, rest, apart, set(work.homes))
    guest_list = replace(
        work.guest_list,
        households=tuple(homes),
        unused=(*work.guest_list.unused, *unused_rows(work.homes, work.gone)),
    )
    return Applied(
        guest_list,
        (*rest, *work.findings),
        settled,
        tuple((change.question, change.decision) for change in work.taken),
        tuple(work.open),
        asked,
        frozenset(question.ref for question in moot),
        {key: called for key, draft in work.drafts.items() if (called := draft.called())},
        held(work.drafts.values(), work.taken),
    )


def _half_answered(work: Work) -> set[Finding]:
    """Findings that another question, still open, stands for as well (the second of two titles)."""
    taken = {change.question.ref for change in work.taken}
    own = {
        found for change in work.taken if not _of_person(change) for found in change.question.covers
    }
    return {
        found
        for question in work.questions
        if question.ref not in taken and not _moot(work, question)
        for found in question.covers
        if found not in own
    }


def _of_person(change: Change) -> bool:
    return change.question.person is not None


def _moot(work: Work, question: Question) -> bool:
    """A question that another answer has settled: the title came with the name."""
    draft = work.drafts.get(question.household or "")
    if draft is None:
        return False
    if question.kind in PLACES:
        by_hand = draft.by_hand and not draft.home.by_hand
        return by_hand or _put_right(work, draft, question)
    if question.kind == "family":
        return draft.whole or draft.names_all()
    if question.person is None:
        return False
    if question.kind != "title":
        return all(person.given is not None for person in draft.people[question.person])
    at, was = draft.now(question.person), draft.home.people[question.person]
    return at is None or draft.people[at[0]][at[1]].title not in (None, was.title)


def _put_right(work: Work, draft: Draft, question: Question) -> bool:
    """True where corrected parts of an address leave nothing of what a question was about."""
    corrected = any(
        _corrects_place(change) and change.question.household == question.household
        for change in work.taken
    )
    if not corrected:
        return False
    _, before = work.readers.address(fields_of(draft.home.address))
    _, now = work.readers.address(fields_of(draft.address))
    return {found.text for found in question.covers} <= set(before) - set(now)


def _settled(work: Work) -> frozenset[tuple[str | None, str]]:
    half = _half_answered(work)
    return frozenset(
        (found.household, found.code)
        for change in work.taken
        for found in change.question.covers
        if found not in half
    )


def _by_hand(work: Work) -> Iterable[Finding]:
    for change in work.taken:
        home = work.drafts.get(change.question.household or "")
        if change.effect == "hand" and home is not None and home.by_hand:
            yield Finding(
                Severity.NOTE, "by-hand", change.decision.where,
                "Given by hand, the client says: no address is owed.", "Nothing to do.",
                change.question.household,
            )  # fmt: skip
