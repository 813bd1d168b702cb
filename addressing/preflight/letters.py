"""The letters of a face as fontTools reads them: outline, exact bounds, area; font units.

The plate's letters were drawn by another library, so that equal outlines mean something.
"""

import hashlib
import io
from dataclasses import dataclass
from typing import Any

from fontTools.misc.bezierTools import calcCubicBounds
from fontTools.pens.basePen import BasePen
from fontTools.ttLib import TTFont

from addressing.preflight.values import Objection
from addressing.records.pages import Segment
from addressing.records.shelf import Face

Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Letter:
    """One glyph: contours of cubics, the bounds of its ink, the area that it covers.

    Contours that overlap count twice in `area`. A blank has no outline.
    """

    outline: tuple[Segment, ...]
    left: float = 0.0
    bottom: float = 0.0
    right: float = 0.0
    top: float = 0.0
    area: float = 0.0
    edges: float = 0.0
    """Width and height of a letter that is one level rectangle (a bare l, a dash), else 0: pdfium
    rounds such out to whole pixels."""


_ROUNDING = 1e-6


class Tracer(BasePen):  # type: ignore[misc]  # fontTools has no types
    """Notes each contour; BasePen raises quadratics, joins components, finds implied points."""

    def __init__(self, glyphs: Any) -> None:  # noqa: ANN401
        """`glyphs` are those of which others may be made."""
        super().__init__(glyphs)
        self.steps: list[Segment] = []

    def _moveTo(self, point: Point) -> None:  # noqa: N802
        self.steps.append(("m", point))

    def _lineTo(self, point: Point) -> None:  # noqa: N802
        self.steps.append(("l", point))

    def _curveToOne(self, first: Point, second: Point, end: Point) -> None:  # noqa: N802
        self.steps.append(("c", (*first, *second, *end)))

    def _closePath(self) -> None:  # noqa: N802
        self.steps.append(("h", ()))

    def _endPath(self) -> None:  # noqa: N802
        self.steps.append(("h", ()))


class Letters:
    """A face's letters at its place on the axes, each read once."""

    def __init__(self, face: Face, data: bytes) -> None:
        """Open the face from the bytes of its file.

        Raises:
            Objection: the file is no font that can be drawn from.
        """
        try:
            font = TTFont(io.BytesIO(data), fontNumber=face.index, lazy=True)
            self.units_per_em = int(font["head"].unitsPerEm)
            self._glyphs = font.getGlyphSet(location=dict(face.axes) or None)
            self._names: list[str] = font.getGlyphOrder()
        except Exception as error:  # a damaged font breaks fontTools in many ways
            raise Objection(f"The face {face.key} can't be read from its file.") from error
        self.data = data
        self.variable = bool(face.axes)
        self._font = font
        self._read: dict[int, Letter] = {}
        self._of: dict[str, frozenset[int]] = {}

    def letter(self, glyph: int) -> Letter:
        """The letter with this number.

        Raises:
            Objection: the face has no such letter.
        """
        known = self._read.get(glyph)
        if known is None:
            if not 0 <= glyph < len(self._names):
                raise Objection(f"The plate holds letter {glyph}, which the face doesn't have.")
            tracer = Tracer(self._glyphs)
            self._glyphs[self._names[glyph]].draw(tracer)
            known = self._read[glyph] = measured(closed(tracer.steps))
        return known

    def glyphs_of(self, characters: str) -> frozenset[int]:
        """The letters that the face has for characters as they come, of those that it has."""
        known = self._of.get(characters)
        if known is None:
            mapped = self._font.getBestCmap() or {}
            names = [mapped[ord(each)] for each in characters if ord(each) in mapped]
            known = self._of[characters] = frozenset(map(self._font.getGlyphID, names))
        return known

    def width(self, glyph: int) -> float:
        """How far the pen goes on behind a letter."""
        return float(self._glyphs[self._names[glyph]].width)

    @property
    def cubic(self) -> bool:
        """True for outlines of cubics (CFF), False for TrueType's."""
        return "glyf" not in self._font

    @property
    def permission(self) -> int:
        """What the font says of being embedded (OpenType 1.9, OS/2, fsType)."""
        return int(self._font["OS/2"].fsType) if "OS/2" in self._font else 0

    @property
    def name(self) -> str:
        """The font's PostScript name, "" where it has none."""
        return str(self._font["name"].getDebugName(6) or "") if "name" in self._font else ""

    def known(self, glyph: int, letter: Letter) -> None:
        """Take a letter for what was judged of it: where it is, and what it covers."""
        self._read[glyph] = letter

    def height(self, *, capitals: bool) -> float:
        """The height of x, or of H, that the font states (OpenType 1.9, OS/2), in em; else 0."""
        stated = self._font.get("OS/2", None)
        name = "sCapHeight" if capitals else "sxHeight"
        return float(getattr(stated, name, 0)) / self.units_per_em


def face_data(face: Face) -> bytes:
    """The bytes of the face's file, which must be the ones that were chosen.

    Raises:
        Objection: the file can't be read, or is another one than the face's digest says.
    """
    try:
        data = face.path.read_bytes()
    except OSError as error:
        raise Objection(f"The file of the face {face.key} can't be read.") from error
    if face.sha256 and hashlib.sha256(data).hexdigest() != face.sha256:
        raise Objection(f"The file of the face {face.key} was changed since it was chosen.")
    return data


def closed(steps: list[Segment]) -> tuple[Segment, ...]:
    """Contours without the line that only leads back to their start (some readers add it)."""
    kept: list[Segment] = []
    start: tuple[float, ...] = ()
    for step in steps:
        if step[0] == "m":
            start = step[1]
        elif step[0] == "h" and kept and kept[-1] == ("l", start):
            kept.pop()
        kept.append(step)
    return tuple(kept)


def measured(outline: tuple[Segment, ...]) -> Letter:
    """A letter with its exact bounds (not those of control points) and its area."""
    if not outline:
        return Letter(())
    boxes: list[tuple[float, float, float, float]] = []
    area = 0.0
    here = start = (0.0, 0.0)
    for kind, numbers in outline:
        end = start if kind == "h" else (numbers[-2], numbers[-1])
        if kind == "m":
            start = end
        elif kind == "c":
            first, second = (numbers[0], numbers[1]), (numbers[2], numbers[3])
            boxes.append(calcCubicBounds(here, first, second, end))
            area += _swept(here, first, second, end)
        else:
            (left, right), (bottom, top) = sorted((here[0], end[0])), sorted((here[1], end[1]))
            boxes.append((left, bottom, right, top))
            area += (here[0] * end[1] - end[0] * here[1]) / 2
        here = end
    lefts, bottoms, rights, tops = zip(*boxes, strict=True)
    left, bottom, right, top = min(lefts), min(bottoms), max(rights), max(tops)
    box = (right - left) * (top - bottom)
    level = sum(kind == "m" for kind, _ in outline) == 1 and abs(abs(area) - box) < _ROUNDING * box
    edges = right - left + top - bottom if level else 0.0
    return Letter(outline, left, bottom, right, top, abs(area), edges)


def _swept(start: Point, first: Point, second: Point, end: Point) -> float:
    """The signed area between a cubic and the origin (Green's theorem)."""

    def cross(one: Point, other: Point) -> float:
        return one[0] * other[1] - other[0] * one[1]

    return (
        6 * (cross(start, first) + cross(second, end))
        + 3 * (cross(start, second) + cross(first, second) + cross(first, end))
        + cross(start, end)
    ) / 20
