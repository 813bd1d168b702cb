"""What stands on the shelf: layouts, faces, inks, papers, devices, shops. Lengths in points."""

from dataclasses import dataclass, field
from pathlib import Path

from addressing.records.lays import Edges
from addressing.records.shops import Dies, FileRules, Hits, Order, Prints, SentIn


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle; the origin is the lower left corner of the envelope as it is read."""

    left: float
    bottom: float
    width: float
    height: float

    @property
    def right(self) -> float:
        """The right edge."""
        return self.left + self.width

    @property
    def top(self) -> float:
        """The upper edge."""
        return self.bottom + self.height

    def holds(self, other: "Box", slack: float = 0.01) -> bool:
        """True when `other` lies inside, give or take `slack` points."""
        return (
            other.left >= self.left - slack
            and other.bottom >= self.bottom - slack
            and other.right <= self.right + slack
            and other.top <= self.top + slack
        )


ALIGNS = ("centre", "left", "right", "block", "block-right", "stepped", "columns", "arch", "bowl")
"""How lines stand: each in the middle of the room, flush at its left or right edge; or flush left
to each other, the block in the middle ("block") or at the right edge; or each line further in; or
the names in a column left of the middle and all else right of it; or each on an arc with its ends
down ("arch") or up ("bowl")."""


@dataclass(frozen=True, slots=True)
class Zone:
    """Where a kind of piece is set: its room, and how the lines stand in it.

    `align` is one of ALIGNS; `valign` is "middle", "top" or "bottom". Stepped lines begin `step`
    (em) further in than the one above. Two columns are `gutter` (pt) apart, the left one flush
    right, the right one flush left. `radius` (pt) is that of the first line's arc; None is the
    room's width. The whole block is turned anticlockwise by `turn` degrees, in quarters. With
    `names_apart` the names stand off from all else by a little more than the leading.
    """

    kind: str
    box: Box
    align: str
    valign: str
    step: float = 1.5
    gutter: float = 18.0
    radius: float | None = None
    turn: int = 0
    names_apart: bool = False
    hanging: str | None = None
    """Marks without which a line is centred that begins or ends with them; None: the usual."""
    side: str = "flap"
    """Of the return alone: "flap", or "front" for the address's own side."""


@dataclass(frozen=True, slots=True)
class Layout:
    """An envelope or card: its size, flap, the zones for pieces, the areas to keep clear.

    `safe` is the area in which any ink must stay. `clear` names areas where nothing is printed
    on an outer or reply piece (bar code, stamp). `flap` is its shape; the flap's depth is measured
    from the top edge of the closed envelope's back.
    """

    key: str
    title: str
    width: float
    height: float
    flap: str
    flap_depth: float
    zones: tuple[Zone, ...]
    safe: Box
    clear: tuple[tuple[str, Box], ...]
    source: str

    def zone(self, kind: str) -> Zone | None:
        """The zone for a kind of piece, or None when this layout has none."""
        return next((zone for zone in self.zones if zone.kind == kind), None)


@dataclass(frozen=True, slots=True)
class Face:
    """A typeface as it is to be set: one font file, one place on its axes, features by choice."""

    key: str
    family: str
    path: Path
    sha256: str
    index: int = 0
    axes: tuple[tuple[str, float], ...] = ()
    features: tuple[tuple[str, int], ...] = ()
    embedding: str = "installable"
    """What the font's own permission flag (OS/2 fsType) says: "installable", "editable",
    "preview-and-print" or "restricted"."""
    licence: str = ""
    offers: tuple[str, ...] = ()
    """The tags of all features that the font has (OpenType)."""
    tracking: int = 0
    """Space more between letters, in thousandths of an em; below 0 it is less."""
    word_space: int = 0
    """Space more between words, in thousandths of an em; for faces whose own blank is narrow."""
    in_capitals: bool = False
    """Whether all words are set in capitals."""
    small_words: bool = False
    """Whether words all in capitals are set as small capitals, as small letters are."""
    companion: tuple[str, float | None] | None = None
    """The face (its key) that suits it for words all in capitals, and its size beside it."""
    fallbacks: "tuple[Fallback, ...]" = ()
    """The faces that set the words of scripts that this one lacks."""
    beside: tuple[tuple[str, float], ...] = ()
    """By script (ISO 15924) how much larger its words stand beside another face than letters of one
    height would have them."""

    @property
    def drawing(self) -> tuple[object, ...]:
        """What decides how a letter is drawn: faces with the same draw each letter alike."""
        return self.sha256 or self.path, self.index, self.axes


CAPITALS = "capitals"
"""Stands for a script where a face sets words all in capitals and codes: III, FRANCE, SW1A; never
initials."""


CROWDED, CLEAR = "crowded", 0.1
"""Stands for words that begin with a swash which takes the blank before them, but for so many em
(as `typesetting/near_words.py` has it)."""


@dataclass(frozen=True, slots=True)
class Fallback:
    """The face that sets a word for another face which lacks a letter of it.

    `script` is that letter's, by its four letters (ISO 15924: "Grek", "Cyrl"); or it is CAPITALS,
    and the face sets words all in capitals; or CROWDED, and it sets words behind another whose
    first letter swings out so far to the left that less than CLEAR (em) of the blank is left.
    `size` is a part of the line's size; None makes the heights of small letters equal, but for no
    larger part than `most`.
    """

    script: str
    face: Face
    size: float | None = None
    most: float = 2.0


@dataclass(frozen=True, slots=True)
class Ink:
    """An ink as the plate carries it.

    A spot ink (`channel` None) is a Separation named `spot`; `alternate` (DeviceCMYK, 0 to 1) shows
    it on a device without that ink. An ink that stands in a process slot of a home device has
    `channel` "cyan", "magenta", "yellow" or "black": pure DeviceCMYK with that one channel at 1. In
    the black slot behind a driver that makes RGB of all it has "grey": DeviceGray at 0, which such
    a driver can print with the black alone.
    `screen` is what proofs show (sRGB, 0 to 1).
    """

    key: str
    spot: str
    alternate: tuple[float, float, float, float]
    screen: tuple[float, float, float]
    channel: str | None = None
    coat: bool = False
    """Whether it is clear: a varnish over other inks, which no word can be read by alone."""


@dataclass(frozen=True, slots=True)
class Stock:
    """The envelope's paper; `screen` is its colour on proofs (sRGB, 0 to 1).

    `surface` is one of SURFACES, None when nobody said.
    """

    key: str
    title: str
    screen: tuple[float, float, float]
    surface: str | None = None


SURFACES = (
    "smooth",
    "laid",
    "linen",
    "felt",
    "cotton",
    "metallic",
    "coated",
    "handmade",
    "vellum-finish",
    "translucent",
)
"""How papers feel. Vellum is two papers: an opaque one with a fine tooth (a vellum finish), and the
translucent one."""


@dataclass(frozen=True, slots=True)
class Feed:
    """How envelopes go into a device and come out.

    `edge` ("short" or "long") goes in first. `side` is one of SIDES. `face` ("up" or "down") is how
    the printed side lies, `flap` where the flap lies then ("left", "right", "lead" or "trail").
    `rotation` (0 or 180) is by how much the driver turns a page beside that. `exit` is how they
    come out on the straight path: "face-up" reverses the stack. `pause` is how long to wait between
    batches, in minutes.
    """

    edge: str = "short"
    side: str = "centre"
    face: str = "down"
    flap: str = "left"
    rotation: int = 0
    exit: str = "face-up"
    pause: int = 0


@dataclass(frozen=True, slots=True)
class Sheet:
    """A standard sheet, upright; its width and height in points."""

    key: str
    title: str
    page: tuple[float, float]


@dataclass(frozen=True, slots=True)
class StockLimits:
    """What a device may be fed: paper weights in g/m², the whole envelope's thickness in mm.

    None where its manual doesn't say. `never` are surfaces that it can't print on, `test_first`
    those that may go wrong; `suits` says in a sentence what it is good for.
    """

    lightest: float | None = None
    heaviest: float | None = None
    thickest: float | None = None
    never: tuple[str, ...] = ()
    test_first: tuple[str, ...] = ()
    suits: str = ""


@dataclass(frozen=True, slots=True)
class Device:
    """A home device: what it can't print on, how many it takes, and which slot carries which ink.

    `margin` is the unprintable edge in points, `edges` the same edge by edge. `slots` maps the key
    of an ink to the channel that carries it. `inks` are the keys of inks that it can lay down at
    all. `steps` go on the job sheet before the run, `after` after it, `cautions` beside both.
    `set_before` are levers, exits and settings, each with how it is set back. `takes` is how a page
    reaches it: "pdf" as it is, or "rgb" through a driver that makes RGB of all.

    `smallest` and `largest` are across and along the feed. `ways` are of WAYS, the first that works
    is taken; `sizes` are the layouts in the driver's own list, empty when it takes any size.
    `sheets` are pages that it takes (data/sheets.toml), `carrier` carries what is too small.
    """

    key: str
    title: str
    method: str
    margin: float
    load: int
    smallest: tuple[float, float]
    largest: tuple[float, float]
    inks: tuple[str, ...]
    slots: tuple[tuple[str, str], ...] = ()
    steps: tuple[str, ...] = ()
    after: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    edges: Edges | None = None
    feed: Feed = Feed()
    ways: tuple[str, ...] = ("envelope", "sheet", "carrier")
    sizes: tuple[str, ...] = ()
    sheets: tuple[Sheet, ...] = ()
    carrier: Sheet | None = None
    set_before: tuple[tuple[str, str], ...] = ()
    takes: str = "pdf"
    black_only: str | None = None
    """The driver's setting that prints black with the black alone, in the driver's words."""
    stock: StockLimits = StockLimits()
    hits: tuple[Hits, ...] = ()
    type: str = "outlines"
    """How letters stand on its plates, one of TYPES (records/live.py)."""


@dataclass(frozen=True, slots=True)
class Shop:
    """A print shop's rules: its inks by their exact names, its safe edge in points.

    `inks` maps the key of an ink to the shop's own Separation name. `prints` says what goes on what
    (without any rule all of its inks go on all), `method` how pieces that all differ are printed,
    where it said so. The rest is how it wants files, orders, dies, and envelopes that are sent in.
    """

    key: str
    title: str
    margin: float
    inks: tuple[tuple[str, str], ...]
    notes: tuple[str, ...] = ()
    prints: tuple[Prints, ...] = ()
    method: str | None = None
    files: FileRules = field(default_factory=FileRules)
    order: Order = field(default_factory=Order)
    dies: tuple[Dies, ...] = ()
    sent_in: SentIn = field(default_factory=SentIn)
    hits: tuple[Hits, ...] = ()

    @property
    def type(self) -> str:
        """How letters stand on its plates, as of a device."""
        return self.files.type


Press = Device | Shop
"""Where a job is printed."""
