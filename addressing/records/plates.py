"""A plate: one PDF that carries one ink for one kind of piece."""

from dataclasses import dataclass
from math import inf

from addressing.records.lays import Lay
from addressing.records.sheets import Imposition
from addressing.records.shelf import Ink
from addressing.records.shops import Exchange


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

    @property
    def pages(self) -> int:
        """How many pages the plate has."""
        if self.sheets is not None:
            return self.sheets.pages(self.households)
        return len(self.households)


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
