"""What was decided lies beside the job, and is worked into the list whenever it is read."""

from dataclasses import replace
from pathlib import Path

from addressing.job.remembering import Remembered, stale
from addressing.job.rereading import READERS
from addressing.materials.reading import read_toml
from addressing.questions.applying import apply
from addressing.questions.keeping import decisions_of
from addressing.records.findings import Finding
from addressing.records.questions import Applied, Decision

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
    guest_list, findings = remembered.guest_list, remembered.findings
    if not decisions:
        return Applied(guest_list, findings)
    applied = apply(guest_list, (*findings, *worded), decisions, READERS)
    rest = tuple(found for found in applied.findings if found not in worded)
    return replace(applied, findings=stale(rest, applied.open, remembered.kept))


def kept_decisions(folder: Path | None) -> tuple[Decision, ...]:
    """The decisions of a job's folder; none when nothing was decided there.

    Raises:
        Fault: the file is there and can't be read (exit 3).
    """
    path = folder / DECISIONS if folder is not None else None
    if path is None or not path.exists():
        return ()
    return decisions_of(read_toml("decisions", path))
