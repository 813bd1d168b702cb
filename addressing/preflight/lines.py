"""A line's words shaped again by HarfBuzz, and what a plate must therefore draw."""

from dataclasses import dataclass
from functools import lru_cache

import uharfbuzz as hb

from addressing.preflight.letters import Letters
from addressing.records.shelf import Face

KEPT = 8192
"""Lines that are remembered: towns and countries come again and again."""
PLACED = 65536
"""Placed glyphs that are remembered, likewise bounded."""


@dataclass(frozen=True, slots=True)
class DrawnLine:
    """What stands between `cm` and `Q` for some words, and the bounds of its ink in font units.

    `letters` counts the glyphs with ink; `missing` is true when the face lacks one of the words'
    characters. A line without ink has `letters` 0.
    """

    body: bytes
    letters: int
    missing: bool
    left: float
    bottom: float
    right: float
    top: float
    area: float


class Lines:
    """Shapes the words of one face; `used` gathers every glyph that was asked for."""

    def __init__(self, face: Face) -> None:
        """Open the face in both libraries.

        Raises:
            Objection: the face can't be read.
        """
        self.face = face
        self.letters = Letters(face)
        self.units_per_em = self.letters.units_per_em
        self.used: set[int] = set()
        self._features = dict(face.features)
        self._font = hb.Font(hb.Face(hb.Blob.from_file_path(str(face.path)), face.index))
        self._font.scale = (self.units_per_em, self.units_per_em)
        if face.axes:
            self._font.set_variations(dict(face.axes))
        self._placed: dict[tuple[int, int, int], bytes] = {}
        self.line = lru_cache(maxsize=KEPT)(self._line)

    def __reduce__(self) -> tuple[type["Lines"], tuple[Face]]:
        """A second process opens the face by itself."""
        return (Lines, (self.face,))

    def _shape(self, text: str) -> tuple[list[int], list[tuple[int, int, int, int]]]:
        """Glyphs and their (x offset, y offset, x advance, y advance)."""
        buffer = hb.Buffer()
        buffer.add_str(text)
        buffer.guess_segment_properties()
        hb.shape(self._font, buffer, self._features)
        glyphs = [info.codepoint for info in buffer.glyph_infos]
        return glyphs, [place.position for place in buffer.glyph_positions]

    def _line(self, text: str) -> DrawnLine:
        """Shape, place glyph behind glyph, skip the blanks, and take the bounds."""
        glyphs, places = self._shape(text)
        pen_x = pen_y = last_x = last_y = 0
        drawn: list[bytes] = []
        boxes: list[tuple[float, float, float, float]] = []
        area = 0.0
        for glyph, (shift_x, shift_y, advance_x, advance_y) in zip(glyphs, places, strict=True):
            letter = self.letters.letter(glyph)
            if letter.outline:
                x, y = pen_x + shift_x, pen_y + shift_y
                drawn.append(self._operators(x - last_x, y - last_y, glyph))
                boxes.append((x + letter.left, y + letter.bottom, x + letter.right, y + letter.top))
                area += letter.area
                last_x, last_y = x, y
            pen_x += advance_x
            pen_y += advance_y
        bounds = _union(boxes)
        return DrawnLine(b"".join(drawn), len(drawn), 0 in glyphs, *bounds, area)

    def _operators(self, step_x: int, step_y: int, glyph: int) -> bytes:
        """How a plate draws one glyph, a step from the one before."""
        key = (step_x, step_y, glyph)
        known = self._placed.get(key)
        if known is None:
            if len(self._placed) >= PLACED:
                self._placed.clear()
            known = b"1 0 0 1 %d %d cm /g%d Do\n" % key
            self._placed[key] = known
            self.used.add(glyph)
        return known


def _union(
    boxes: list[tuple[float, float, float, float]],
) -> tuple[float, float, float, float]:
    """The bounds of all boxes; all zero when there is none."""
    if not boxes:
        return (0.0, 0.0, 0.0, 0.0)
    lefts, bottoms, rights, tops = zip(*boxes, strict=True)
    return min(lefts), min(bottoms), max(rights), max(tops)
