"""A plate: one PDF that carries one ink for one kind of piece, or several as layers."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from math import inf

from addressing.records.lays import Lay
from addressing.records.pages import FACE, Setting
from addressing.records.pieces import Role
from addressing.records.set_lines import SetPiece
from addressing.records.sheets import Imposition
from addressing.records.shelf import Ink
from addressing.records.shops import Exchange

BASE = FACE << 6
"""Letters of a base that shares a file with its inks have numbers so much higher than theirs."""


BESIDE = " + "
"""Between the names of a composite's inks; no ink's own name has a plus in it."""


def together(inks: Iterable[Ink]) -> str:
    """What inks are called that one file holds: "White + Gold"."""
    return BESIDE.join(ink.spot for ink in inks)


@dataclass(frozen=True, slots=True)
class Layer:
    """One ink of a composite; `chokes` and `varnish` as in an order."""

    ink: Ink
    chokes: tuple[float, ...] = ()
    varnish: bool = False


@dataclass(frozen=True, slots=True)
class PlateOrder:
    """What a plate must be; the writer follows it and the judge holds the file against it.

    `trim` is the size of the finished piece in points. `lay` says how it lies on the page that the
    device takes; without one the page is the piece, upright. `copies` is 1 but for a static piece,
    where one page serves all. `households` are the keys in page order, and None for a static page.
    """

    name: str
    """The file's name without folder or suffix: "01-outer-white"."""
    kind: str
    ink: Ink
    trim: tuple[float, float]
    households: tuple[str | None, ...]
    copies: int
    version: str
    lay: Lay | None = None
    first: int = 1
    """The number, in order of print, of the first envelope of the pile that this plate makes."""
    reverse: bool = False
    """Whether its pages go from the last of the pile to the first."""
    bleed: float = 0.0
    """Points beyond the trim on every side; only where no device lays the piece."""
    exchange: Exchange | None = None
    """What makes it a PDF/X-4 file; None for a plain one."""
    chokes: tuple[float, ...] = ()
    """Of the base under the inks: how far the letters of each face are drawn in, in font units."""
    sheets: Imposition | None = None
    """How several pieces lie on each page; None for one a page. Then `copies` are of each sheet."""
    varnish: bool = False
    """Whether its ink is a varnish, which lies over the lines that the setting says."""
    layers: tuple[Layer, ...] = ()
    """Of a composite all its inks, in the order in which they are laid down; `ink` and `chokes` are
    the first one's. () for a plate of one ink."""
    press: str | None = None
    """The device or shop that it is made for, and its paper, by their keys; None where nobody said,
    or where an older version kept neither."""
    stock: str | None = None
    live: bool = False
    """Whether its letters are type of embedded fonts; else they are outlines."""

    @property
    def pages(self) -> int:
        """How many pages the plate has."""
        if self.sheets is not None:
            return self.sheets.pages(self.households)
        return len(self.households)

    @property
    def apart(self) -> "tuple[PlateOrder, ...]":
        """The plates of one ink each that a composite stands for; a plate of one ink is its own."""
        if not self.layers:
            return (self,)
        return tuple(
            replace(self, ink=one.ink, chokes=one.chokes, varnish=one.varnish, layers=())
            for one in self.layers
        )

    @property
    def inks(self) -> tuple[Ink, ...]:
        """All its inks, in the order in which they are laid down."""
        return tuple(each.ink for each in self.apart)

    @property
    def spots(self) -> str:
        """The names of its inks, for people and for the manifest: "White + Gold"."""
        return together(self.inks)

    @property
    def overprints(self) -> bool:
        """Whether its inks are laid over what others print there, and knock nothing out."""
        return bool(self.layers) or self.varnish

    def bears(self, setting: Setting, role: Role) -> bool:
        """True when lines of that role stand on it: a base has all, an ink its own.

        A varnish has those that it lies over.
        """
        if self.layers:
            return any(one.bears(setting, role) for one in self.apart)
        if self.varnish:
            return setting.varnish is not None and setting.varnish.covers(role)
        return bool(self.chokes) or setting.ink_of(role) == self.ink

    def bears_any(self, setting: Setting, piece: SetPiece) -> bool:
        """True when anything of a set piece is on it."""
        return any(self.bears(setting, line.role) for line in piece.lines)


@dataclass(frozen=True, slots=True)
class Verdict:
    """What the judge counted and what it objects to; no objection means proved.

    `counted` says how many of each thing was looked at ("pages", "lines", "glyphs", "forms",
    "pages seen as pixels"), so that a proof of nothing can't pass for one.
    """

    plate: str
    faults: tuple[str, ...]
    counted: tuple[tuple[str, int], ...]
    stroke: float = inf
    """The finest stroke of any letter on it, in points; infinite where none was measured."""
    gap: float = inf
    """The narrowest gap between two strokes of a letter, in points."""

    @property
    def proved(self) -> bool:
        """True when nothing was objected to."""
        return not self.faults


@dataclass(frozen=True, slots=True)
class PlateFile:
    """One file of the job, as the manifest names it; sizes in millimetres."""

    path: str
    sha256: str
    kind: str
    ink: str
    pages: int
    copies: int
    width_mm: float
    height_mm: float
    households: tuple[str, ...]
    names: tuple[str, ...] = ()
    """What to call each of them."""
    prints: tuple[str, ...] = ()
    """The fingerprint of the piece on each of their pages (ledger/fingerprint.py); "" where a page
    is blank since its piece has nothing in this ink."""
    way: str | None = None
    """How the piece lies on its page (records/lays.py); None where no device is named."""
    calibration: str | None = None
    """The calibration by which it is corrected."""
    first: int = 1
    """The number of the first envelope of its pile, and whether its pages go the other way."""
    reverse: bool = False
    up: int = 1
    """How many pieces lie on a page; then width and height are the sheet's."""
    press: str | None = None
    """The device or shop that it is made for, the paper and the layout, by their keys."""
    stock: str | None = None
    layout: str | None = None
    type: str = "outlines"
    """How its letters stand on it, one of TYPES (records/live.py)."""
    hits: int = 1
    """How often its inks are laid down on each piece, all in all."""
