"""Which question each answer is to, or why it can't be taken; a list while it is being answered."""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from addressing.questions.asking import mark_of
from addressing.questions.choosing import LEAVING, says_nothing_yet
from addressing.questions.corrections import correction_for, is_correction
from addressing.questions.drafts import Draft
from addressing.questions.lasting import (
    GONE,
    goes_on,
    is_done,
    is_of_remark,
    is_unasked,
    names_and_place,
    unasked,
)
from addressing.questions.merging import is_of_merged
from addressing.questions.newcomers import (
    is_of_newcomer,
    is_of_title,
    name_newcomer,
    newcomers,
    title_newcomer,
)
from addressing.questions.outdated import asked_in_its_place, told_carried, why_it_waits
from addressing.questions.recalling import is_adopted, is_said_by_now, recalled
from addressing.questions.respelled import still_meant
from addressing.questions.staying_out import Remarks, in_a_line, says_more
from addressing.questions.understanding import Change, unclear, understood
from addressing.records.findings import Finding, Severity
from addressing.records.guests import GuestList, Household
from addressing.records.questions import Decision, Question, Readers


@dataclass(slots=True)
class Work:
    """A list being answered."""

    guest_list: GuestList
    readers: Readers
    homes: dict[str, Household]
    drafts: dict[str, Draft]
    questions: tuple[Question, ...]
    remarks: Remarks
    gone: dict[str, tuple[str | None, Decision]] = field(default_factory=dict)
    """Households that are left out, each with the one that stands for it, if any does."""
    splits: list[Change] = field(default_factory=list)
    taken: list[Change] = field(default_factory=list)
    answered: frozenset[str] = frozenset()
    """The refs of all decisions."""
    open: list[Decision] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)

    def refuse(
        self, code: str, decision: Decision, text: str, mend: str, *, holds: bool = False
    ) -> None:
        """An answer that doesn't hold: its question stays open."""
        key = decision.ref.partition(":")[0]
        here = [one for one in dict.fromkeys((key, *decision.among)) if one in self.homes]
        self.open.append(decision)
        for household in here if holds and here else [*here, None][:1]:
            found = Finding(Severity.ASK, code, decision.where, text, mend, household, holds=holds)
            self.findings.append(replace(found, quoted=decision.answer))


def changes_of(work: Work, decisions: Sequence[Decision]) -> list[Change]:
    """The decisions that can be understood, each with its question."""
    known = {question.ref: question for question in work.questions}
    said: dict[str, set[str]] = {}
    work.answered = frozenset(decision.ref for decision in decisions)
    for decision in decisions:
        said.setdefault(decision.ref, set()).add(decision.answer.strip())
    made: list[Change] = []
    for decision in decisions:
        if is_of_newcomer(decision.ref) or is_of_merged(decision.ref):
            continue
        if len(said[decision.ref]) > 1:
            text = f"There is more than one answer to this question: “{decision.answer}”."
            work.refuse("answer-conflict", decision, text, "Which one holds?")
            continue
        question = known.get(decision.ref) or correction_for(
            decision.ref, work.homes, work.questions
        )
        change = change_of(work, question, decision)
        if change is not None and not _is_overtaken(work, change):
            made.append(change)
    changes: dict[str, Change] = {}
    for change in sorted(made, key=lambda each: each.question.ref != each.decision.ref):
        changes.setdefault(change.question.ref, change)  # who was asked by name goes first
    return list(changes.values())


def change_of(work: Work, question: Question | None, decision: Decision) -> Change | None:
    """The change that a decision asks for; None where it doesn't hold, which is told."""
    if question is None or _is_of_other_words(question, decision):
        again = recalled(decision, work.questions, work.homes, work.readers)
        if again is not None:
            return _carried(work, again, decision)
    if question is None:
        return _unasked(work, decision)
    if _is_of_other_words(question, decision):
        if is_correction(question.ref):
            return _corrected_before(work, question, decision)
        _refuse_outdated(work, decision)
        return None
    change = understood(question, decision)
    if change is None:
        not_understood(work, decision, unclear(question, decision.answer))
    return change


def _carried(work: Work, question: Question, decision: Decision) -> Change | None:
    """The change by an answer to the same in another spelling; of a title that is told."""
    told = told_carried(decision, question)
    work.findings += [told] if told is not None else []
    return understood(question, decision)


def _refuse_outdated(
    work: Work,
    decision: Decision,
    text: str = "",
    mend: str = "Is it still so? Ask once more.",
) -> None:
    """An answer to what the list has otherwise by now; its household waits if paper hangs on it."""
    question = asked_in_its_place(decision, work.questions, work.answered)
    if question is None:
        text = text or f"“{decision.answer}” was said of other words than the list has now."
        work.refuse("answer-stale", decision, text, mend)
        return
    mend = f"Have it answered once more, or drop it: answer --undo '{decision.where}'."
    why = why_it_waits(decision, question)
    work.refuse("answer-stale", decision, why, mend, holds=True)


def _unasked(work: Work, decision: Decision) -> Change | None:
    """An answer to what the list no longer asks: it goes on where what it was about stands."""
    change = unasked(decision, work.homes)
    open_ = [question for question in work.questions if question.ref not in work.answered]
    if change is not None and goes_on(change, work.homes, open_, work.remarks, work.readers):
        return change
    home = work.homes.get(decision.ref.partition(":")[0])
    done = change is not None and home is not None and is_done(change, home, work.readers)
    if done or is_said_by_now(decision, work.homes):
        return None
    if home is None or not (decision.listed or is_of_remark(decision.ref)):
        text = f"“{decision.answer}” answers a question that the list no longer asks."
        _refuse_outdated(work, decision, text, "Read it again, or take the answer away.")
        return None
    wait_for(work, decision, change)
    return None


def _is_overtaken(work: Work, change: Change) -> bool:
    """True for an answer that leaves out a household of which the list says something else by now.

    It waits then.
    """
    if change.effect not in LEAVING:
        return False
    if says_more(change, work.homes, work.remarks, work.readers) is None:
        return False
    if is_correction(change.question.ref):
        _wait_for_correction(work, change.decision, *_then_and_now(work, change.decision))
    else:
        wait_for(work, change.decision, change)
    return True


def _then_and_now(work: Work, decision: Decision) -> tuple[str, str]:
    """What the list said of those whom an answer leaves out, and what it says now."""
    keys = decision.among or (decision.ref.partition(":")[0],)
    now = (work.remarks.listed(work.homes[key]) for key in keys if key in work.homes)
    return in_a_line("\n".join(decision.listed)), in_a_line("\n".join(now))


def wait_for(work: Work, decision: Decision, change: Change | None, why: str = "") -> None:
    """Hold a household for an answer to what the list no longer says; nobody can tell more."""
    home = work.homes[decision.ref.partition(":")[0]]
    at = f"'{decision.where}'"
    text = f"“{decision.answer}” answers a remark that the list no longer has."
    if decision.listed:
        was, now = _then_and_now(work, decision)
        text = f"“{decision.answer}” was said when the list had “{was}”. Now it has “{now}”."
    elif decision.about:
        was, now = decision.about.replace("\n", "; "), names_and_place(home)
        text += f" It was said of “{was}”. Now the list has “{now}”."
    mend = f"Keep the answer: answer --settled {at}; the list's own: answer --undo {at}."
    if change is None or why:
        mend = f"If it still holds, set it: answer --set. Then, or if not: answer --undo {at}."
    text = f"{text} {why}".rstrip()
    work.refuse(GONE, decision, text, mend, holds=True)


def _corrected_before(work: Work, question: Question, decision: Decision) -> Change | None:
    """A correction of words that the list has otherwise by now: they may be the client's news.

    It holds where they only are spelled anew, and is done with where the list has taken it over.
    """
    home = work.homes[question.ref.partition(":")[0]]
    change = understood(question, decision)
    if still_meant(decision.about, question, [home], work.readers):
        return change
    if change is not None and is_adopted(home, change, work.readers):
        return None
    _wait_for_correction(work, decision, decision.about, question.basis)
    return None


def _wait_for_correction(work: Work, decision: Decision, then: str, now: str) -> None:
    """Hold a household for a correction of what the list has otherwise by now."""
    was, now = then or "nothing", now or "nothing"
    text = f"“{decision.answer}” was set when the list had “{was}”. Now it has “{now}”."
    at = f"'{decision.where}'"
    mend = f"Keep it: answer --settled {at}; the list's own: answer --undo {at}; or set it anew."
    work.refuse("correction-stale", decision, text, mend, holds=True)


def _is_of_other_words(question: Question, decision: Decision) -> bool:
    return bool(decision.mark) and decision.mark != mark_of(question.basis)


def hear_of_newcomers(work: Work, decisions: Sequence[Decision]) -> tuple[Question, ...]:
    """The titles of those who came with an answer, worked in; what of them is still asked."""
    said = {each.ref: each for each in decisions if is_of_newcomer(each.ref)}
    for ref in sorted(said, key=is_of_title):
        decision = said[ref]
        known = {question.ref: question for question in newcomers(work.drafts.values())}
        change = change_of(work, known.get(ref), decision)
        if change is None:
            continue
        if change.effect == "keep" or _hears(work, change):
            work.taken.append(change)
        else:
            not_understood(work, decision)
    taken = {change.question.ref for change in work.taken}
    return tuple(q for q in newcomers(work.drafts.values()) if q.ref not in taken)


def _hears(work: Work, change: Change) -> bool:
    """Work in the title, or the family name, of somebody who came; False where it is none."""
    ref, where = change.question.ref, change.decision.where
    draft = work.drafts[ref.partition(":")[0]]
    if not is_of_title(ref):
        return name_newcomer(draft, ref, change.words, where, work.readers)
    title = work.readers.title(change.words)
    if title is not None:
        title_newcomer(draft, ref, title, where)
    return title is not None


def refuse_change(work: Work, change: Change, why: str) -> None:
    """Refuse a change that can't be worked in; `why` is told beside it."""
    if is_unasked(change.question):
        wait_for(work, change.decision, change, why or "It can't be taken as it stands.")
    else:
        not_understood(work, change.decision, why)


def not_understood(work: Work, decision: Decision, why: str = "") -> None:
    """Refuse an answer whose words can't be taken; `why` is told beside it."""
    if says_nothing_yet(decision.answer):
        text = f"“{decision.answer}” leaves it open."
        work.refuse("answer-not-understood", decision, text, "Ask again when it is known.")
        return
    text = f"“{decision.answer}” can't be taken as an answer here. {why}".strip()
    work.refuse("answer-not-understood", decision, text, "What is meant?")
