"""What the proof sheets are drawn from: a job's sets, households, findings and counts."""

from dataclasses import dataclass

from addressing.records.counts import PieceCount
from addressing.records.findings import Finding
from addressing.records.lays import Lay
from addressing.records.pages import Outlines, Page, Setting
from addressing.records.plates import PlateFile
from addressing.records.sheets import Imposition
from addressing.records.shelf import Device, Ink, Layout, Press, Stock


@dataclass(frozen=True, slots=True)
class ProofSet:
    """One kind of piece, set and placed, on its paper. `pages` follow `setting.pieces`."""

    setting: Setting
    pages: tuple[Page, ...]
    outlines: Outlines
    stock: Stock

    @property
    def static(self) -> bool:
        """True when one page serves all households."""
        return len(self.pages) == 1 and self.pages[0].household is None


@dataclass(frozen=True, slots=True)
class ProofHousehold:
    """A household as the proof names it.

    `number` is its own, which it keeps in later versions of the list and which its reply card
    bears: not its place in the order of print. `lines` are the worded lines of a held household
    that no set has a page for; empty otherwise.
    """

    key: str
    name: str
    held: bool
    number: int
    lines: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class ProofJob:
    """The job as client and operator see it.

    `title` is the hosts' name or None; `date` is ISO 8601 or None; `list_name` is the file's name
    without folder. `households` come in the order of the list, held ones too. `country` (ISO 3166-1
    alpha-2) decides the size of the sheet.
    """

    title: str | None
    date: str | None
    list_name: str
    list_sha256: str
    docket_sha256: str | None
    version: str
    households: tuple[ProofHousehold, ...]
    findings: tuple[Finding, ...]
    counts: tuple[PieceCount, ...]
    country: str = "US"
    suite: tuple[PieceCount, ...] = ()
    """What is ordered without names; a reprint orders none of it again."""
    seal: str | None = None
    """What preflight says of the plates that these sheets go with; None where none are made yet."""
    others: int | None = None
    """The list's households that aren't on a reprint's proof; None where the proof is of all."""


BLANK_SEAL = "0000 0000 0000"
"""What stands on sheets in a seal's place while their fingerprint is taken: the seal is made of
that too."""

SEAL = "\ufdd0"
"""Stands in words where the seal is drawn. No list holds this character, which Unicode keeps from
texts."""

BOXES = ("printed", "filled", "stamped", "posted")
"""What is ticked on the stuffing list, in the order in which it is done."""


@dataclass(frozen=True, slots=True)
class Stuffed:
    """One addressed envelope of the stuffing list.

    `number` is its place in the order of print, None where it is on no plate yet; `reply` its
    household's own number, on proof and reply card, None where that is gone; `place` its town, or
    the country abroad, or that it is given by hand; `inside` what differs between households: the
    set of pieces, cards that are its own.
    """

    number: int | None
    key: str
    name: str
    place: str
    reply: int | None
    inside: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PlateRun:
    """What was made and where it is printed; `press` is None when the docket names neither.

    `lays` says for each kind how it lies on the device's page; `load` is how many make a batch.
    `sheets` are the kinds that share sheets, and how they lie there; `backs` are those of them
    that are the other side of a card, so no pile of their own.
    """

    files: tuple[PlateFile, ...]
    settings: tuple[Setting, ...]
    press: Press | None = None
    notes: tuple[str, ...] = ()
    lays: tuple[tuple[str, Lay], ...] = ()
    load: int | None = None
    sheets: tuple[tuple[tuple[str, ...], Imposition], ...] = ()
    backs: tuple[str, ...] = ()


_LIGHT = 0.75
"""From this much red, green and blue (sRGB, 0 to 1) on an ink is lost on white paper."""


@dataclass(frozen=True, slots=True)
class Trial:
    """A device's test sheet: what goes through it, how, and what is measured.

    `marks` are named places in millimetres from the piece's left edge and from its top. `shown` has
    one page, for holding to the light. `ink` is what the device lays down; `tray` is the user's
    name for the tray.
    """

    device: Device
    tray: str
    layout: Layout
    lay: Lay
    ink: Ink
    marks: tuple[tuple[str, float, float], ...]
    shown: ProofSet
    version: str
    country: str = "US"

    @property
    def paper(self) -> str:
        """What the sheet is printed on: light ink can't be measured on white paper."""
        return "dark paper" if min(self.ink.screen) > _LIGHT else "plain paper"
