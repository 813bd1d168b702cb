"""Answers in: checked against the list, and those that hold kept beside the job."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path

from addressing.faults import Exit, Fault
from addressing.files import Together, alone_in, make_folder
from addressing.job.asking import Listed, known_bytes, still_open, with_words
from addressing.job.decided_of_others import OF_ANSWERS, told_of_others
from addressing.job.deciding import DECISIONS, kept_decisions, kept_earlier, kept_words
from addressing.job.meant import named, names_of
from addressing.job.remembering import HOUSEHOLDS
from addressing.job.replies import read_answers
from addressing.job.rereading import READERS
from addressing.job.same_as import with_places_named
from addressing.job.settling import BY_WORD, Closed, settled, taken_back
from addressing.job.titling import refuse_titles
from addressing.job.weighing import Before, weigh
from addressing.job.words import heard, refused_in
from addressing.questions.applying import apply
from addressing.questions.asking import questions_for
from addressing.questions.corrections import (
    BY_HAND,
    CORRECTABLE,
    as_before,
    next_number,
    set_by_hand,
)
from addressing.questions.decided import of_whom
from addressing.questions.families import BESIDE
from addressing.questions.halves import is_half, of_all_halves
from addressing.questions.keeping import decisions_text, together
from addressing.questions.lasting import is_of_remark, waiting_in
from addressing.questions.left_over import left_over
from addressing.questions.matters import matters_of
from addressing.questions.recalling import restated
from addressing.questions.said import (
    GAINSAID,
    OF_WORDS,
    dealt_with,
    kept_together,
)
from addressing.questions.spreading import in_own_words, spread
from addressing.questions.staying_out import Remarks, with_listed
from addressing.questions.titles_told import with_titles_told
from addressing.records.findings import LEFT_OUT, Finding, Severity
from addressing.records.questions import Applied, Decision, Given, Question, Said

_NOW = frozenset((BESIDE, GAINSAID))
"""Told of answers that were given now."""


@dataclass(frozen=True, slots=True)
class Answered:
    """What came of an answers file: what holds now, what of it is new, what is still asked."""

    path: Path
    applied: Applied
    given: tuple[Decision, ...]
    open: tuple[Question, ...]
    findings: tuple[Finding, ...]
    words: tuple[Finding, ...] = ()
    """What the client wrote that is no answer, and isn't dealt with."""
    settled: tuple[Closed, ...] = ()
    """Such words, remarks and questions that this dealt with."""
    names: Mapping[str, str] = field(default_factory=dict)
    """What each household is called by now, by its key."""
    read: Given = field(default_factory=lambda: Given(()))
    """What came back, as it was read."""

    def number_of(self, decision: Decision) -> str:
        """The number of the letter's question that an answer is to; "" where none is known."""
        return next((n for n, ref in self.read.numbers.items() if ref == decision.ref), "")

    @property
    def refused(self) -> tuple[Finding, ...]:
        """Why answers weren't taken."""
        return tuple(found for found in self.findings if found.severity is not Severity.NOTE)

    @property
    def open_matters(self) -> int:
        """How many questions the letter would have by now: a table of many is one of them."""
        return len(matters_of(self.open))

    @property
    def left_out(self) -> tuple[Finding, ...]:
        """The households that what was given now takes away."""
        places = tuple(f"({each.where})" for each in self.given)
        gone = (found for found in self.applied.findings if found.code == LEFT_OUT)
        return tuple(found for found in gone if any(place in found.text for place in places))

    @property
    def beside(self) -> tuple[Finding, ...]:
        """Who stays beside names that were given now, or goes with them."""
        return tuple(found for found in self.findings if found.code == BESIDE)

    @property
    def remarks(self) -> tuple[Finding, ...]:
        """What is made of the client's words, of which nobody needs to do more.

        What of a reply is no answer is kept as words, or is a greeting and thanks: nothing.
        """
        kept = {found.where for found in self.words} | {each.where for each in self.read.said}
        told = (found for found in self.findings if found.code == "answer-remark")
        return tuple(found for found in told if found.where not in kept)

    @property
    def replaced(self) -> tuple[Finding, ...]:
        """Decisions that hold no longer: answered anew, or taken back."""
        return tuple(found for found in self.findings if found.code == "answer-replaced")

    @property
    def overruled(self) -> tuple[Finding, ...]:
        """Answers that were read before and are replaced since."""
        return tuple(found for found in self.findings if found.code == "answer-overruled")

    @property
    def set_now(self) -> tuple[str, ...]:
        """The designer's own corrections that were given now and hold, in the trade's words."""
        return tuple(
            f"{each.where}: the {of_whom(each, question, self.names)}: “{each.answer}” is set."
            for question, each in self.applied.taken
            if each.where.file == BY_HAND and each in self.given
        )


def answers_and_corrections(
    listed: Listed,
    answers: Path | None,
    said: Sequence[tuple[str, str, str]],
    folder: Path,
    *,
    more: bool = False,
) -> Given:
    """What came back, with a designer's own corrections: (household, what changes, words) each.

    `more` says that something is taken back or settled as well, so that neither need be given.

    Raises:
        Fault: neither is given, a correction names no household or nothing that can be changed,
            or a title that can't be set alone (exit 2); the answers can't be read (exit 3).
    """
    kept = kept_decisions(folder)
    applied = apply(listed.guest_list, listed.findings, kept, READERS)
    first = next_number((decision.where for decision in kept), BY_HAND)
    corrections, unknown = set_by_hand(named(listed, applied), said, first)
    if unknown or (answers is None and not said and not more):
        text = f"Can't tell what is meant by {', '.join(unknown)}." if unknown else "No answers."
        changes = ", ".join(CORRECTABLE)
        mend = (
            "Give a file, or --set with a household's key, cell, name or number on the proof"
            f" (proof:12), one of {changes}, and words."
        )
        raise Fault(Exit.OPTIONS, "answers-missing", text, mend)
    corrections = tuple(
        each if is_half(name) else of_all_halves(each, applied, READERS)
        for each, (name, _, _) in zip(corrections, said, strict=True)
    )
    refuse_titles(corrections, listed, applied)
    given = read_answers(answers, folder) if answers is not None else Given(())
    given = with_places_named(listed, given, kept)
    return replace(given, decisions=(*given.decisions, *as_before(kept, corrections)))


def keep_answers(
    listed: Listed,
    read: Given,
    folder: Path,
    date: str | None = None,
    *,
    undo: Sequence[str] = (),
    settle: Sequence[str] = (),
) -> Answered:
    """Check answers against the list, and keep those that hold beside the job.

    What is stale, in conflict or not understood isn't kept as a decision; what was decided before
    stays, where it isn't answered again, names given now don't replace it and it still applies.
    The client's words that are no answer are kept until they are dealt with. `date` is the day
    that is noted with the new ones; `undo` names decisions that are taken back first, `settle`
    words of the client's that are dealt with.

    Raises:
        Fault: `undo` or `settle` names nothing (exit 2), what was decided before can't be read
            (exit 3), the decisions can't be written (exit 4).
    """
    kept, was = kept_decisions(folder), kept_words(folder)
    undone = taken_back(listed, Before(kept, was, kept_earlier(folder)), undo)
    asked = _asked(listed, kept)
    read = with_titles_told(read, asked)
    given, wrong = spread(read, asked)
    weighed = weigh(listed, undone.left, _dated(given, date))
    given, applied = weighed.given, weighed.applied
    tried = (*given, *in_own_words(read.decisions), *weighed.refused)
    told = (*wrong, *weighed.told)
    new = _heard(listed, replace(read, decisions=tried), applied, told, asked, date)
    beside = heard(left_over(applied, given), (), listed.guest_list.households, date)
    new = (*new, *weighed.contrary, *beside)
    words = dealt_with(kept_together(undone.left.words, new), new, given, applied)
    first = next_number((decision.where for decision in kept), BY_WORD)
    dealt = settled(listed, weighed, words, settle, first)
    staying = (each for each in weighed.decisions if each not in dealt.moved)
    decisions = together(staying, _dated(dealt.decisions, date))
    listed = with_words(listed, dealt.words, [question.ref for question, _ in applied.taken])
    applied = apply(listed.guest_list, listed.findings, decisions, READERS)
    make_folder(folder)
    path = folder / DECISIONS
    with alone_in(folder), Together(listed.sources) as files:
        holding = _holding(listed, applied, undone.left.decisions)
        files.working(folder / HOUSEHOLDS).write_bytes(known_bytes(listed, folder, holding))
        files.working(path).write_bytes(
            decisions_text(holding, dealt.words, weighed.earlier).encode()
        )
    found = (
        *read.findings,
        *wrong,
        *_refused(listed, applied, (*given, *weighed.others)),
        *weighed.told,
    )
    return Answered(
        path=path,
        applied=applied,
        given=(*given, *weighed.others),
        open=still_open(listed, applied),
        findings=(*found, *undone.told),
        words=tuple(each for each in applied.findings if each.code in OF_WORDS),
        settled=(*(Closed.of(each) for each in dealt.words if each.by and each not in was),
                 *dealt.closed),
        names=names_of(listed, applied),
        read=read,
    )  # fmt: skip


def _asked(listed: Listed, kept: Sequence[Decision]) -> tuple[Question, ...]:
    """All questions that a list asks, whether they are answered or not."""
    asked = apply(listed.guest_list, listed.findings, kept, READERS).asked
    return (*questions_for(listed.guest_list, listed.findings), *asked)


def _dated(decisions: Iterable[Decision], date: str | None) -> tuple[Decision, ...]:
    return tuple(replace(each, date=each.date or date) for each in decisions)


def _holding(listed: Listed, applied: Applied, before: Sequence[Decision]) -> list[Decision]:
    """What is kept: the decisions that hold, and those that wait to be confirmed."""
    remarks = Remarks.of(listed.guest_list, listed.findings)
    homes = {home.key: home for home in listed.guest_list.households}
    holding = [
        with_listed(question, restated(question, decision), homes, remarks)
        for question, decision in applied.taken
    ]
    waiting = (each for each in waiting_in(applied) if each in before or is_of_remark(each.ref))
    return [*holding, *waiting]


def _refused(listed: Listed, applied: Applied, given: Sequence[Decision]) -> Iterable[Finding]:
    """Why answers don't hold, and who stays beside names that were given now."""
    places = {each.where for each in given}
    return (
        each
        for each in told_of_others(applied.findings, applied, listed.remembered)
        if each.code in OF_ANSWERS or (each.code in _NOW and each.where in places)
    )


def _heard(
    listed: Listed,
    given: Given,
    applied: Applied,
    wrong: Sequence[Finding],
    asked: Sequence[Question],
    date: str | None,
) -> tuple[Said, ...]:
    """The client's words, given or kept as answers until now, of which nothing could be made."""
    homes = listed.guest_list.households
    tried = (*given.decisions, *applied.open)
    refused = dict.fromkeys(refused_in(tried, (*applied.findings, *wrong)))
    own = (each for each in refused if each.where.file != BY_HAND)
    return heard(given.said, own, homes, date, asked, listed.findings)
