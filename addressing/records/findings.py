"""A problem with the client's list, as a value: collected on the way, never raised."""

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

from addressing.where import Where

CARRIED = "answer-carried"
"""The code of a title that holds for a name in another spelling."""
LOST = "answers-gone"
"""The code of what tells that answers of the client's aren't there any more."""
LEFT_OUT = "left-out"
"""The code of a note on a household that an answer left out, or has in another's envelope."""


class Severity(StrEnum):
    """How far a finding reaches."""

    STOP = "stop"
    """The household is held back: it is on no plate."""
    ASK = "ask"
    """The client must say; `holds` tells whether the household waits for the answer."""
    NOTE = "note"
    """Worth knowing; nothing waits on it."""


@dataclass(frozen=True, slots=True)
class Finding:
    """What was found, in which cell, and how to mend it; the sentence is made where it is shown."""

    severity: Severity
    code: str
    where: Where
    text: str
    mend: str
    household: str | None = None
    """The key of the household that it touches; None when it touches the list as a whole."""
    holds: bool = False
    also: tuple[Where, ...] = ()
    """Other cells that the reader should look at."""
    quoted: str = ""
    """The list's own words that it is about, "" when it is about no single words."""
    likely: tuple[tuple[str, str], ...] = ()
    """Values that may be right, best first: (field of the address, value)."""
    people: tuple[int, ...] = ()
    """The places among the household's people of those it is about; none: about the household."""

    def __post_init__(self) -> None:
        """Every stop holds its household; a note never does."""
        if self.severity is Severity.STOP and not self.holds:
            object.__setattr__(self, "holds", True)
        if self.severity is Severity.NOTE and self.holds:
            message = f"a note can't hold a household: {self.code}"
            raise ValueError(message)


def held_households(findings: Iterable[Finding]) -> frozenset[str]:
    """The keys of the households that wait for an answer or are stopped."""
    return frozenset(
        finding.household for finding in findings if finding.holds and finding.household is not None
    )


def told_left_out(findings: Iterable[Finding]) -> tuple[str, ...]:
    """What is to be said on each sheet of the households that answers took away."""
    return tuple(finding.text for finding in findings if finding.code == LEFT_OUT)
