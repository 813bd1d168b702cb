"""Findings on a sheet: the severity's word, the sentence, how to mend it, the cell."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from addressing.proofs.flow import Block, Pen
from addressing.proofs.lettering import Style, wrap
from addressing.proofs.look import SEVERITY, SMALL, SMALL_ASIDE
from addressing.proofs.words import kind_name
from addressing.records.findings import Finding, Severity
from addressing.records.proofs import ProofJob

WORD = 28.0
"""Width of the column with the severity's word, points."""
BELOW = 4.0
SET = "set"
"""Stands where a severity does: nothing is asked, it tells how a piece was fitted."""
ORDER = {Severity.STOP: 0, Severity.ASK: 1, Severity.NOTE: 2}


@dataclass(frozen=True, slots=True)
class Notice:
    """A finding in lines that fit a width."""

    word: str
    lines: tuple[tuple[str, Style], ...]

    @property
    def height(self) -> float:
        """How high it stands, with the space below it (points)."""
        return sum(style.leading for _, style in self.lines) + BELOW

    def draw(self, pen: Pen, left: float, top: float) -> None:
        """Draw it with its upper left corner at (left, top)."""
        style = SEVERITY[self.word]
        pen.words(left, top - style.size, self.word, style)
        for text, look in self.lines:
            pen.words(left + WORD, top - look.size, text, look)
            top -= look.leading


def notice(finding: Finding, room: float) -> Notice:
    """A finding in lines no wider than `room` points, its cells after the sentence."""
    places = [finding.where, *finding.also]
    cells = ", ".join(dict.fromkeys(str(place) for place in places if place.cell))
    said = wrap(finding.text, SMALL, room - WORD)
    aside = f"{finding.mend} ({cells})" if cells else finding.mend
    mend = wrap(aside.strip(), SMALL_ASIDE, room - WORD)
    lines = (*((line, SMALL) for line in said), *((line, SMALL_ASIDE) for line in mend))
    return Notice(finding.severity.value, lines)


def notices(findings: Iterable[Finding], room: float) -> tuple[Notice, ...]:
    """All of them, what stops first."""
    ordered = sorted(findings, key=lambda finding: ORDER[finding.severity])
    return tuple(notice(finding, room) for finding in ordered)


def fitted(kind: str, why: str, room: float) -> Notice:
    """What was done so that a piece stands well, in a line or two under its picture.

    The line stands above it, and its measures on the job sheet: neither is said here.

    >>> fitted("outer", "Line broken: “Odile” is 99 mm wide at 20 pt.", 400).lines[0][0]
    'Outer: line broken.'
    """
    did, measured, _ = why.partition(": “")
    text = f"{kind_name(kind)}: {did[0].lower()}{did[1:]}{'.' if measured else ''}"
    return Notice(SET, tuple((line, SMALL) for line in wrap(text, SMALL, room - WORD)))


def notice_blocks(shown: Iterable[Notice], indent: float = 0.0) -> list[Block]:
    """Each notice as a block of its own."""

    def block(one: Notice) -> Block:
        return Block(one.height, lambda pen, left, top: one.draw(pen, left + indent, top))

    return [block(one) for one in shown]


def split_by_height(
    shown: Sequence[Notice], room: float
) -> tuple[tuple[Notice, ...], tuple[Notice, ...]]:
    """Those that fit `room` points, and the rest."""
    used = 0.0
    for number, one in enumerate(shown):
        used += one.height
        if used > room:
            return tuple(shown[:number]), tuple(shown[number:])
    return tuple(shown), ()


def by_household(job: ProofJob) -> dict[str | None, list[Finding]]:
    """The findings by household; None has those of the list as a whole.

    A finding for a household that the job doesn't know is shown with the list's: none gets lost.
    """
    known = {household.key for household in job.households}
    found: dict[str | None, list[Finding]] = {None: []}
    for finding in job.findings:
        key = finding.household if finding.household in known else None
        found.setdefault(key, []).append(finding)
    return found
