"""Lines shaped, fitted and placed: what ink goes where.

A shaped line is one record with tuples of numbers, made once for equal words; there is no
record for a glyph (measured: it would cost a third of the time). Font units inside a line, points
on a page.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field

from addressing.records.pieces import Role
from addressing.records.shelf import Box, Face, Ink, Layout, Zone

Segment = tuple[str, tuple[float, ...]]
"""One step of an outline in font units: "m" or "l" and (x, y), "c" and six numbers, "h" and ()."""


@dataclass(frozen=True, slots=True)
class ShapedLine:
    """Words as glyphs: `glyphs[i]` stands with its origin at (`xs[i]`, `ys[i]`), in font units.

    `advance` is the sum of advances; `left`, `bottom`, `right`, `top` bound the ink.
    """

    text: str
    glyphs: tuple[int, ...]
    xs: tuple[int, ...]
    ys: tuple[int, ...]
    advance: int
    left: float
    bottom: float
    right: float
    top: float


@dataclass(frozen=True, slots=True)
class SetLine:
    """Words at their place: the baseline's origin in points from the envelope's lower left corner.

    `source` is the number of the worded line that this one is, or is a part of.
    """

    text: str
    role: Role
    source: int
    x: float
    y: float
    size: float


@dataclass(frozen=True, slots=True)
class SetPiece:
    """One piece as it will stand on paper, in words and places (glyphs come when pages stream).

    `wording` is the number of the wording that was taken; `why` explains anything out of the
    common run ("set 2 pt smaller: …"), else is empty.
    """

    household: str | None
    name: str
    wording: int
    lines: tuple[SetLine, ...]
    why: str = ""


@dataclass(frozen=True, slots=True)
class Setting:
    """A whole set: the same layout, face, ink and size for every piece of one kind."""

    kind: str
    layout: Layout
    zone: Zone
    room: Box
    """Where ink may fall: the zone within what the device or shop can print."""
    face: Face
    ink: Ink
    size: float
    leading: float
    pieces: tuple[SetPiece, ...]


@dataclass(frozen=True, slots=True)
class Page:
    """One page: shaped lines and their places (x, y, size in points)."""

    household: str | None
    lines: tuple[tuple[ShapedLine, float, float, float], ...]


@dataclass(frozen=True, slots=True)
class Outlines:
    """The drawing of every glyph that a set uses, each once: cubic outlines in font units."""

    units_per_em: int
    glyphs: Mapping[int, tuple[Segment, ...]] = field(default_factory=dict)
