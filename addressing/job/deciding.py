"""What was decided lies beside the job, and is worked into the list whenever it is read."""

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from addressing.job.decided_of_others import told_of_others
from addressing.job.remembering import Remembered
from addressing.job.rereading import READERS
from addressing.materials.reading import Source, read_toml
from addressing.questions.applying import apply
from addressing.questions.called_now import named_as_now, with_answers
from addressing.questions.keeping import decisions_of, earlier_of, words_of
from addressing.questions.said import told_words
from addressing.records.findings import Finding
from addressing.records.guests import GuestList
from addressing.records.questions import Applied, Decision, Earlier, Said

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
    findings = (*remembered.findings, *open_words(guest_list, folder, decisions))
    if not decisions:
        return Applied(guest_list, findings)
    applied = apply(guest_list, (*findings, *worded), decisions, READERS)
    rest = tuple(found for found in applied.findings if found not in worded)
    rest = tuple(named_as_now(rest, applied.called))
    homes = {home.key: home for home in guest_list.households}
    rest = tuple(with_answers(rest, applied.taken, homes))
    return replace(applied, findings=told_of_others(rest, applied, remembered))


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
