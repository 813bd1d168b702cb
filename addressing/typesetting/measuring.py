"""The gauge: how large words can be in the room, in closed form from the bounds of their ink."""

from collections.abc import Sequence
from math import inf

import uharfbuzz as hb

from addressing.records.shelf import Box
from addressing.typesetting.arranging import Arrangement
from addressing.typesetting.direction import is_mixed
from addressing.typesetting.outlines import Bounds
from addressing.typesetting.typeface import Typeface

TALL, DEEP = "bdfhklABDEHLT", "gjpqy"
"""Letters that stand for a face's reach above and below the line."""

AIR = 0.28
LEAST_LEADING, MOST_LEADING = 1.3, 1.6
"""Leading is the face's own reach and 0.28 em of air, within these (in em). Chosen by eye on
renderings of the six faces on the shelf; common practice on envelopes is 1.3 to 1.6, no source."""


class Gauge:
    """Measures lines and blocks of one face against one room.

    Everything but the room (points) is in em, so that a size is a quotient and never a search.
    """

    def __init__(self, typeface: Typeface, room: Box, arrangement: Arrangement) -> None:
        """Take the face's own measures: capital height, reach, leading."""
        self.typeface = typeface
        self.room = room
        self.arrangement = arrangement
        self._known: dict[str, Bounds] = {}
        self.flawed: dict[str, tuple[str, ...]] = {}
        """Lines that can't be set: the characters without ink; none when directions are mixed."""
        self.capital = self._capital()
        inks = [self._letter(letter) for letter in TALL + DEEP]
        self.above = max(ink[3] for ink in inks)
        self.below = min(ink[1] for ink in inks)
        natural = self.above - self.below + AIR
        self.leading = round(min(max(natural, LEAST_LEADING), MOST_LEADING), 2)

    def _capital(self) -> float:
        tag = hb.OTMetricsTag.CAP_HEIGHT
        height = self.typeface.font.get_metric_position_with_fallback(tag)
        return float(height) / self.typeface.units_per_em

    def _letter(self, letter: str) -> Bounds:
        """A letter's ink in em; a usual one's for a face without Latin letters."""
        glyph = self.typeface.font.get_nominal_glyph(ord(letter))
        ink = self.typeface.bounds(glyph) if glyph else None
        if ink is None:
            return (0.0, -0.25, 0.5, 0.75)
        left, bottom, right, top = (edge / self.typeface.units_per_em for edge in ink)
        return (left, bottom, right, top)

    def ink(self, text: str) -> Bounds:
        """The bounds of a line's ink, in em from the origin of its baseline."""
        try:
            return self._known[text]
        except KeyError:
            return self._measure(text)

    def _measure(self, text: str) -> Bounds:
        typeface = self.typeface
        left, bottom, right, top = typeface.packed(text).ink
        lost = typeface.without_ink(text)
        if lost or is_mixed(text):
            self.flawed[text] = lost
        em = typeface.units_per_em
        found = (left / em, bottom / em, right / em, top / em)
        self._known[text] = found
        return found

    def width_limit(self, text: str, number: int = 0) -> float:
        """The largest size (pt) at which a line, the `number`th from 0, fits the room's width."""
        left, _, right, _ = self.ink(text)
        width = right - left + number * self.arrangement.indent
        return self.room.width / width if right > left else inf

    def limit(self, texts: Sequence[str]) -> float:
        """The largest size (pt) at which a block fits the room, its leading growing with it."""
        widest = tallest = 0.0
        highest, lowest = -inf, inf
        sunk = 0.0
        for number, text in enumerate(texts):
            left, bottom, right, top = self.ink(text)
            widest = max(widest, right - left + number * self.arrangement.indent)
            highest = max(highest, top - sunk)
            lowest = min(lowest, bottom - sunk)
            sunk += self.leading
            tallest = highest - lowest
        width = self.room.width / widest if widest > 0 else inf
        return min(width, self.room.height / tallest) if tallest > 0 else width


def extent(inks: Sequence[Bounds], size: float, leading: float) -> tuple[float, float]:
    """Top and bottom of a block's ink (pt), seen from its first baseline."""
    tops = [ink[3] * size - number * leading for number, ink in enumerate(inks)]
    bottoms = [ink[1] * size - number * leading for number, ink in enumerate(inks)]
    return max(tops), min(bottoms)
