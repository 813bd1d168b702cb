"""A line's words shaped again by HarfBuzz, and what a plate must therefore draw."""

import re
from dataclasses import dataclass
from functools import lru_cache

import uharfbuzz as hb

from addressing.preflight.letters import Letters, face_data
from addressing.preflight.values import Objection
from addressing.records.shelf import Face

KEPT = 8192
"""Lines that are remembered: towns and countries come again and again."""
PLACED = 65536
"""Placed glyphs that are remembered, likewise bounded."""

LANGUAGE = "en"
"""The sender's language, said outright: left to itself HarfBuzz asks the machine's locale."""

_Ink = tuple[float, float, float, float, float]
"""Left, bottom, right, top and area of a glyph's ink."""
_Step = tuple[int, int, int, int, int, _Ink | None]
"""A glyph, its shift (x, y), its advance (x, y), its ink; None for a blank."""
_TOLD = re.compile(r"([0-9]+)(?:@(-?[0-9]+),(-?[0-9]+))?(?:\+(-?[0-9]+)(?:,(-?[0-9]+))?)?")
_PLAINLY = hb.BufferSerializeFlags.NO_GLYPH_NAMES | hb.BufferSerializeFlags.NO_CLUSTERS


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


class _Steps(dict[str, _Step]):
    """What HarfBuzz writes of a glyph (`12@3,0+500`), read once for each that differs."""

    def __init__(self, letters: Letters) -> None:
        super().__init__()
        self._letters = letters

    def __missing__(self, told: str) -> _Step:
        match = _TOLD.fullmatch(told)
        if match is None:
            raise Objection("The face can't be shaped.")
        glyph, shift_x, shift_y, advance_x, advance_y = (int(n or 0) for n in match.groups())
        letter = self._letters.letter(glyph)
        bounds = (letter.left, letter.bottom, letter.right, letter.top, letter.area)
        if len(self) >= PLACED:
            self.clear()
        ink = bounds if letter.outline else None
        self[told] = step = (glyph, shift_x, shift_y, advance_x, advance_y, ink)
        return step


class _Operators(dict[tuple[int, int, int], bytes]):
    """How a plate draws a glyph, a step from the one before; `used` gathers the glyphs."""

    def __init__(self) -> None:
        super().__init__()
        self.used: set[int] = set()

    def __missing__(self, key: tuple[int, int, int]) -> bytes:
        if len(self) >= PLACED:
            self.clear()
        self[key] = drawn = b"1 0 0 1 %d %d cm /g%d Do\n" % key
        self.used.add(key[2])
        return drawn


class Lines:
    """Shapes the words of one face."""

    def __init__(self, face: Face) -> None:
        """Open the face in both libraries.

        Raises:
            Objection: the face can't be read.
        """
        data = face_data(face)
        self.face = face
        self.letters = Letters(face, data)
        self.units_per_em = self.letters.units_per_em
        self._features = dict(face.features)
        self._font = hb.Font(hb.Face(hb.Blob(data), face.index))
        self._font.scale = (self.units_per_em, self.units_per_em)
        if face.axes:
            self._font.set_variations(dict(face.axes))
        self._steps = _Steps(self.letters)
        self._operators = _Operators()
        self.line = lru_cache(maxsize=KEPT)(self._line)

    @property
    def used(self) -> frozenset[int]:
        """Every glyph with ink that was asked for so far."""
        return frozenset(self._operators.used)

    def _shape(self, text: str) -> list[str]:
        """The glyphs of a line as HarfBuzz writes them (faster than asking for each)."""
        buffer = hb.Buffer()
        buffer.add_str(text)
        buffer.language = LANGUAGE
        buffer.guess_segment_properties()
        hb.shape(self._font, buffer, self._features)
        told: str = buffer.serialize(self._font, flags=_PLAINLY)
        return told[1:-1].split("|") if len(told) > len("[]") else []

    def _line(self, text: str) -> DrawnLine:
        """Place glyph behind glyph, skip the blanks, and take the bounds."""
        steps, operators = self._steps, self._operators
        pen_x = pen_y = last_x = last_y = 0
        lefts, bottoms, rights, tops = [], [], [], []
        area = 0.0
        missing = False
        drawn: list[bytes] = []
        for told in self._shape(text):
            glyph, shift_x, shift_y, advance_x, advance_y, ink = steps[told]
            missing = missing or not glyph
            if ink is not None:
                x, y = pen_x + shift_x, pen_y + shift_y
                drawn.append(operators[x - last_x, y - last_y, glyph])
                left, bottom, right, top, covered = ink
                lefts.append(x + left)
                bottoms.append(y + bottom)
                rights.append(x + right)
                tops.append(y + top)
                area += covered
                last_x, last_y = x, y
            pen_x += advance_x
            pen_y += advance_y
        if not drawn:
            return DrawnLine(b"", 0, missing, 0.0, 0.0, 0.0, 0.0, 0.0)
        bounds = min(lefts), min(bottoms), max(rights), max(tops)
        return DrawnLine(b"".join(drawn), len(drawn), missing, *bounds, area)
