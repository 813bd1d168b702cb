"""A print shop's rules as the user noted them: what goes on what, and how files are wanted."""

from dataclasses import dataclass
from pathlib import Path

STANDARDS = ("plain", "pdf/x-4")
"""A plain PDF, or one that keeps to ISO 15930-7."""


@dataclass(frozen=True, slots=True)
class Prints:
    """Inks that a shop prints on these papers and pieces; an empty tuple means any."""

    inks: tuple[str, ...] = ()
    stocks: tuple[str, ...] = ()
    pieces: tuple[str, ...] = ()

    def holds(self, ink: str, stock: str, piece: str) -> bool:
        """True when this rule allows that ink on that paper and piece (all by their keys)."""
        pairs = ((self.inks, ink), (self.stocks, stock), (self.pieces, piece))
        return all(not some or one in some for some, one in pairs)


@dataclass(frozen=True, slots=True)
class Hits:
    """How often inks are laid down on papers (all by their keys); an empty tuple means any."""

    passes: int
    inks: tuple[str, ...] = ()
    stocks: tuple[str, ...] = ()

    def holds(self, ink: str, stock: str) -> bool:
        """True when this rule is for that ink on that paper."""
        return (not self.inks or ink in self.inks) and (not self.stocks or stock in self.stocks)


@dataclass(frozen=True, slots=True)
class Intent:
    """The printing condition that a PDF/X-4 file is meant for (its output intent).

    `identifier` is the condition's name in the `registry` (an address, "" for none), `info` says it
    in words. `profile` is the file of its ICC profile, known by `sha256`.
    """

    identifier: str
    registry: str
    info: str
    profile: Path
    sha256: str


@dataclass(frozen=True, slots=True)
class Exchange:
    """What a PDF/X-4 file says of itself: its printing condition, and its day (ISO 8601)."""

    intent: Intent
    date: str


@dataclass(frozen=True, slots=True)
class FileRules:
    """How a shop wants its files.

    `name` is the pattern of a plate's name: {number}, {piece}, {ink}, {part}, {parts} stand for
    what they say. `type` is one of TYPES (records/live.py). `most_pages` is how many a file may
    have, None for any number. `bleed` is in points, beyond the trim. `intent` is given for PDF/X-4
    only.
    """

    standard: str = "plain"
    plates: str = "apart"
    type: str = "outlines"
    name: str = "{number}-{piece}-{ink}"
    most_pages: int | None = None
    bleed: float = 0.0
    intent: Intent | None = None


@dataclass(frozen=True, slots=True)
class Dies:
    """How a shop makes plates or dies for a method: charged by area (cm²), never mirrored by us.

    `least` is the area that is charged at least. `ganged` says that several pieces may share one.
    They are kept standing for `kept` months; 0 when nobody said so.
    """

    method: str
    least: float = 0.0
    ganged: bool = True
    kept: int = 0


@dataclass(frozen=True, slots=True)
class SentIn:
    """Terms for envelopes that are sent in: how many spare (per cent), what may be spoiled."""

    spare_percent: float = 0.0
    spoilage_percent: float = 0.0
    leftovers: str = "back"
    """Where unused ones go: "back" or "kept"."""


@dataclass(frozen=True, slots=True)
class Order:
    """What a shop takes an order for: pieces of a kind at least, in packs, ready after days.

    `days` None leaves it to the rates. Of what is the same for all it may deliver `under` per cent
    fewer (trade custom: 10 over or under).
    """

    minimum: int = 1
    pack: int = 1
    days: int | None = None
    under: float = 0.0
