"""What was decided lies beside the job, and is worked into the list whenever it is read."""

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from addressing.job.decided_of_others import told_of_others
from addressing.job.hinting import listed
from addressing.job.remembering import Remembered, answered_before
from addressing.job.rereading import READERS
from addressing.materials.reading import Source, read_toml
from addressing.questions.applying import apply
from addressing.questions.called_now import named_as_now, with_answers
from addressing.questions.keeping import decisions_of, earlier_of, words_of
from addressing.questions.said import told_words
from addressing.records.findings import LOST, Finding, Severity
from addressing.records.guests import GuestList
from addressing.records.questions import Applied, Decision, Earlier, Said
from addressing.where import Where

DECISIONS = "decisions.toml"
"""The file in the job's folder that keeps what was decided."""


def decide(remembered: Remembered, folder: Path | None, worded: tuple[Finding, ...]) -> Applied:
    """The list with what was decided in its job folder; without one, the list as it was read.

    What wording asks (`worded`) is answered too; wording finds it again, so `settled` says that it
    is done.

    Raises:
        Fault: the decisions can't be read (exit 3).
    """
    decisions = kept_decisions(folder)
    guest_list = remembered.guest_list
    gone = answers_gone(remembered, decisions)
    findings = (*remembered.findings, *gone, *open_words(guest_list, folder, decisions))
    if not decisions:
        return Applied(guest_list, findings)
    applied = apply(guest_list, (*findings, *worded), decisions, READERS)
    rest = tuple(found for found in applied.findings if found not in worded)
    rest = tuple(named_as_now(rest, applied.called))
    homes = {home.key: home for home in guest_list.households}
    rest = tuple(with_answers(rest, applied.taken, homes))
    return replace(applied, findings=told_of_others(rest, applied, remembered))


def answers_gone(remembered: Remembered, decisions: Sequence[Decision]) -> tuple[Finding, ...]:
    """A note on answers that the job's folder had, and hasn't any more: nothing goes unsaid.

    An answer taken back with `addressing answer` was never had; plates made anew go by what is
    there.
    """
    gone = sorted({*remembered.answered} - {decision.ref for decision in decisions})
    if not gone:
        return ()
    names = {home.key: home.name for home in remembered.kept.known}
    whose = dict.fromkeys(
        names[key] for key in (ref.partition(":")[0] for ref in gone) if key in names
    )
    of = f" (of {listed(list(whose))})" if whose else ""
    many = len(gone) > 1
    text = (
        f"{len(gone)} answers that were kept here aren't in {DECISIONS} any more{of}: they are"
        if many
        else f"An answer that was kept here isn't in {DECISIONS} any more{of}: it is"
    )
    mend = (
        "Put the file back from a copy. Where they were taken out on purpose, nothing is to do:"
        " plates that are made now go without them."
    )
    where = Where(DECISIONS)
    return (Finding(Severity.NOTE, LOST, where, f"{text} not followed.", mend),)


def answers_noted(folder: Path, decisions: Sequence[Decision]) -> tuple[str, ...]:
    """Which answers a folder is to remember once these are kept there: also those that were lost.

    What lies there now and isn't kept on is taken back on purpose.
    """
    kept = {decision.ref for decision in decisions}
    taken_back = {decision.ref for decision in kept_decisions(folder)} - kept
    return tuple(({*answered_before(folder)} | kept) - taken_back)


def open_words(
    guest_list: GuestList, folder: Path | None, decisions: Sequence[Decision]
) -> tuple[Finding, ...]:
    """What is still open of the client's words that are no answers, for a list as it was read.

    Raises:
        Fault: what was kept can't be read (exit 3).
    """
    homes = {home.key: home for home in guest_list.households}
    return told_words(kept_words(folder), homes, {decision.ref for decision in decisions})


def kept_words(folder: Path | None) -> tuple[Said, ...]:
    """The client's words that a job's folder keeps; none when there are none.

    Raises:
        Fault: the file is there and can't be read (exit 3).
    """
    source = _kept(folder)
    return () if source is None else words_of(source)


def kept_earlier(folder: Path | None) -> tuple[Earlier, ...]:
    """The answers that were read and are replaced, as a job's folder keeps them.

    Raises:
        Fault: the file is there and can't be read (exit 3).
    """
    source = _kept(folder)
    return () if source is None else earlier_of(source)


def kept_decisions(folder: Path | None) -> tuple[Decision, ...]:
    """The decisions of a job's folder; none when nothing was decided there.

    Raises:
        Fault: the file is there and can't be read (exit 3).
    """
    source = _kept(folder)
    return () if source is None else decisions_of(source)


def _kept(folder: Path | None) -> Source | None:
    path = folder / DECISIONS if folder is not None else None
    return read_toml("decisions", path) if path is not None and path.exists() else None
