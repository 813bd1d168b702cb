"""What the designer declares dealt with, or opens again: words, remarks, questions, decisions.

What is open is named by its place as `check` tells it, with the code behind a colon where several
things are open there; by the words; or by the household.
"""

from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Self

from addressing.faults import Exit, Fault
from addressing.job.asking import Listed, still_open
from addressing.job.decided_of_others import under_their_key
from addressing.job.hinting import quoted
from addressing.job.meant import named, names_of
from addressing.job.rereading import READERS
from addressing.job.weighing import Before, Weighed
from addressing.questions.applying import apply
from addressing.questions.closing import as_it_stands, closed_by, is_remark, may_stand
from addressing.questions.corrections import is_correction
from addressing.questions.keeping import together
from addressing.questions.lasting import waiting_in
from addressing.questions.said import Open, chosen_by, is_open
from addressing.questions.undoing import told_back, undone
from addressing.records.findings import Finding
from addressing.records.questions import SETTLED, Decision, Question, Said
from addressing.tables import lookup
from addressing.where import Where

BY_WORD = "--settled"
"""The file of what the designer let stand, and how its places begin (`--settled!3`)."""


@dataclass(frozen=True, slots=True)
class Closed:
    """Something that is dealt with: its place, its words, and what `--undo` takes it back by.

    `who` is the household that it is about, "" for none; `stands` that it was asked, and stays as
    the list has it. `household` is whose words they are, by key, where that is known.
    """

    where: Where
    words: str
    undo: str
    who: str = ""
    stands: bool = False
    household: str | None = None

    @classmethod
    def of(cls, said: Said) -> Self:
        """Words of the client's."""
        return cls(said.where, said.words, str(said.where), household=said.household)

    def still_asked(self, questions: Iterable[Question]) -> Iterator[Question]:
        """What stays open of the household whose words these are: they answered nothing."""
        here = (each for each in questions if self.household in each.households)
        yield from here if self.household is not None else ()

    @classmethod
    def by(cls, question: Question, decision: Decision) -> Self:
        """A question that stands as it is."""
        found = question.covers[0]
        return cls(found.where, found.quoted or found.text, decision.ref, question.who, stands=True)


@dataclass(frozen=True, slots=True)
class Dealt:
    """The client's words as they are now, what is decided beside that, and what that closes."""

    words: tuple[Said, ...]
    decisions: tuple[Decision, ...]
    closed: tuple[Closed, ...]
    moved: tuple[Decision, ...] = ()
    """Decisions that are kept for another household: who was only likely the same is."""


@dataclass(frozen=True, slots=True)
class Undone:
    """What is left when decisions are taken back, and what is told of that."""

    left: Before
    told: tuple[Finding, ...] = ()


def settled(
    listed: Listed, weighed: Weighed, words: tuple[Said, ...], names: Sequence[str], first: int
) -> Dealt:
    """What is dealt with: by corrections that were given now, or because it is named.

    `first` is the number of the first place of a decision that lets something stand.

    Raises:
        Fault: a name that nothing open has, that several things have, or of something that can't
            stand as it is (exit 2).
    """
    applied = weighed.applied
    keys = {name: {home.key for home in named(listed, applied)(name)} for name in names}
    plain = {name: _without_code(name) for name in names}
    questions = still_open(listed, applied)
    remarks = [each for each in questions if is_remark(each)]
    things = (*map(_of_words, words), *map(_of_remark, remarks))
    asked = {question.ref for question, _ in applied.taken}
    live = [*(is_open(each, asked) for each in words), *(True for _ in remarks)]
    picks = {name: _picked(plain[name], keys[name], things, live) for name in names}
    words = _with(words, picks.values(), SETTLED)
    left = {name for name in names if not any(at < len(words) for at in picks[name])}
    chosen: dict[str, Question] = {}
    again: list[Decision] = []
    for name in names:
        theirs = [remarks[at - len(words)] for at in picks[name] if at >= len(words)]
        found = theirs or _meant(questions, name, alone=name in left)
        chosen |= {each.ref: each for each in found}
        waiting = [each for each in waiting_in(applied) if str(each.where) == plain[name]]
        if not all(is_correction(each.ref) or each.kind for each in waiting):
            raise _not_known(name)
        again += waiting
        if name in left and not found and not waiting:
            raise _unknown(name)
    closing = {each.ref: each for each in closed_by(questions, applied.taken, weighed.given)}
    for number, each in enumerate(chosen.values(), start=first):
        closing[each.ref] = as_it_stands(each, Where(BY_WORD, BY_WORD, str(number)))
    closed = (Closed.by(each, closing[each.ref]) for each in questions if each.ref in closing)
    kept = listed.remembered.kept
    moving = [(under_their_key(each, kept) or each, each) for each in again]
    sure = (replace(each, mark="", about="", listed=()) for each, _ in moving)
    moved = tuple(was for now, was in moving if now.ref != was.ref)
    return Dealt(words, (*sure, *closing.values()), tuple(closed), moved)


def taken_back(listed: Listed, before: Before, undo: Sequence[str]) -> Undone:
    """What is left without the decisions that are taken back; words are opened anew with them.

    What the client had answered before such a decision holds again, unless a whole household is
    taken back.

    Raises:
        Fault: a name that no decision has, or several households have (exit 2).
    """
    if not undo:
        return Undone(before)
    kept = before.decisions
    applied = apply(listed.guest_list, listed.findings, kept, READERS)
    meant = named(listed, applied)
    halves = {home.key for home in applied.halves}
    back, left = undone(kept, applied.taken, meant, undo, halves)
    things = tuple(map(_of_words, before.words))
    picks = {name: _picked(name, (), things, [True for _ in things]) for name in left}
    words = _with(before.words, picks.values(), "")
    if unknown := [name for name in left if not picks[name]]:
        raise Fault(
            Exit.OPTIONS,
            "decision-unknown",
            f"Nothing was decided of {', '.join(unknown)}, or it isn't told which.",
            "Give --undo a household's key, cell or name, or a question's name in `check --json`.",
        )
    whole = {home.key for name in undo for home in meant(name)}
    earlier = [e for e in before.earlier if e.decision.ref.partition(":")[0] not in whole]
    again = {e.by: e.decision for e in earlier if e.by in {each.ref for each in back}}
    asked = {decision: question for question, decision in applied.taken}
    names = names_of(listed, applied)
    told = tuple(told_back(e, asked.get(e), names, again.get(e.ref)) for e in back)
    decisions = together((each for each in kept if each not in back), again.values())
    return Undone(
        Before(decisions, words, tuple(e for e in earlier if e.decision not in again.values())),
        told,
    )


def _meant(questions: Sequence[Question], name: str, *, alone: bool) -> list[Question]:
    """The open questions that a name stands for; `alone`: it is no name of a client's words.

    Raises:
        Fault: several, or one that can't stand as it is (exit 2).
    """
    by_name = [each for each in questions if each.ref == name or _is_at(each, name)]
    remarks = [each for each in by_name if is_remark(each)]
    if remarks or not alone:
        return remarks
    if len(by_name) > 1 and _without_code(name) == name:  # two titles of one row are one matter
        raise _several(name, by_name)
    for question in by_name:
        if not may_stand(question):
            raise _cannot_stand(name)
    return by_name


def _with(words: Sequence[Said], picks: Iterable[Sequence[int]], by: str) -> tuple[Said, ...]:
    """The words, those that are picked settled `by`, or opened anew by ""."""
    meant = {at for its in picks for at in its}
    return tuple(replace(each, by=by) if at in meant else each for at, each in enumerate(words))


def _of_words(said: Said) -> Open:
    return Open(str(said.where), said.words, (said.household,))


def _of_remark(question: Question) -> Open:
    return Open(str(question.where), question.quoted, question.households)


def _picked(
    name: str, keys: Collection[str], things: Sequence[Open], live: Sequence[bool]
) -> tuple[int, ...]:
    """What a name stands for among words and remarks; of what its words begin, one only.

    Raises:
        Fault: its words begin several that are open (exit 2).
    """
    picks = chosen_by(name, keys, things)
    begun = [at for at in picks if not keys and things[at].place != name.strip("'") and live[at]]
    if len({things[at].words for at in begun}) > 1:
        told = "; ".join(f"{things[at].place} “{things[at].words}”" for at in begun)
        raise Fault(
            Exit.OPTIONS,
            "several-open",
            f"“{name}” begins more than one thing that is open.",
            f"Say which, by its place: {told}.",
        )
    return picks


def _without_code(name: str) -> str:
    """A place without the code of what is open there: `check` tells both.

    >>> _without_code("reply.txt!line 3:client-wrote")
    'reply.txt!line 3'
    """
    place, _, code = name.rpartition(":")
    known = place and not place.startswith("h-") and code in lookup("findings", "code", "title")
    return place if known else name


def _is_at(question: Question, name: str) -> bool:
    """True for the place of a finding, alone or with the finding's code behind a colon."""
    return any(
        name in (str(found.where), f"{found.where}:{found.code}") for found in question.covers
    )


def _unknown(name: str) -> Fault:
    return Fault(
        Exit.OPTIONS,
        "words-unknown",
        f"Nothing is open at {name}.",
        "Give --settled the place that `check` tells, the words, or the household; what only says"
        " “Nothing to do” is open nowhere. Nothing of this command was kept.",
    )


def _several(name: str, questions: Iterable[Question]) -> Fault:
    which = dict.fromkeys(
        f"{found.where}:{found.code}" for question in questions for found in question.covers
    )
    return Fault(
        Exit.OPTIONS,
        "several-open",
        f"More than one thing is open at {name}.",
        f"Say which: {', '.join(which)}.",
    )


def _not_known(name: str) -> Fault:
    return Fault(
        Exit.OPTIONS,
        "cannot-stand",
        f"The answer at {name} can't be kept as it is: it isn't known what it was asked about.",
        f"Give what it says with --set, then --undo {quoted(name)}.",
    )


def _cannot_stand(name: str) -> Fault:
    return Fault(
        Exit.OPTIONS,
        "cannot-stand",
        f"What is open at {name} can't stand as it is: nothing can be printed.",
        "Give it with --set, or leave the household out (--set HOUSEHOLD invited no).",
    )
