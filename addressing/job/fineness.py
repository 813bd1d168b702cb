"""Strokes and gaps that the way of printing may not hold: notes for the plates that were judged."""

from collections.abc import Iterator

from addressing.job.set_kinds import SetKind
from addressing.records.findings import Finding, Severity
from addressing.records.plates import Verdict
from addressing.units import pt_to_mm
from addressing.where import Where


def too_fine(kind: SetKind, verdict: Verdict) -> Iterator[Finding]:
    """A note where a letter's stroke or gap is finer than the method holds, or than its base."""
    yield from _without_base(kind, verdict)
    method = kind.method
    if method is None:
        return
    where = Where("docket", None, f"docket:piece.{kind.kind}.method")
    for what, found, least in (
        ("stroke", verdict.stroke, method.stroke),
        ("gap between two strokes", verdict.gap, method.gap),
    ):
        if found < least:
            text = (
                f"The finest {what} of the {kind.kind} plate is {found:.2f} pt"
                f" ({pt_to_mm(found):.2f} mm); {method.title.lower()} holds {least:g} pt as a rule."
            )
            mend = "Try one first; or choose a heavier face or a larger size."
            yield Finding(Severity.NOTE, "stroke-fine", where, text, mend)


def _without_base(kind: SetKind, verdict: Verdict) -> Iterator[Finding]:
    """A note where the base under a stroke vanishes, since it is drawn in from both sides."""
    base = kind.setting.underbase
    if base is None or verdict.stroke >= 2 * base.choke:
        return
    text = (
        f"The finest stroke of the {kind.kind} plate is {pt_to_mm(verdict.stroke):.2f} mm;"
        f" {base.ink.key} is drawn in by {pt_to_mm(base.choke):.2g} mm on either side: such strokes"
        " have none under them."
    )
    mend = "Make choke_mm less, or choose a heavier face or a larger size."
    where = Where("docket", None, f"docket:piece.{kind.kind}.choke_mm")
    yield Finding(Severity.NOTE, "base-broken", where, text, mend)
