"""Shaped lines, packed: what HarfBuzz placed, in a few hundred bytes and with its ink's bounds.

The set is measured first and drawn afterwards; packed, a line need not be shaped twice.
"""

import struct
from array import array
from collections.abc import Callable, Iterable, Sequence
from itertools import accumulate
from math import inf
from operator import add
from typing import Any, NamedTuple

from addressing.records.pages import ShapedLine
from addressing.typesetting.outlines import Bounds

NOWHERE: Bounds = (inf, inf, -inf, -inf)
"""The bounds of a blank: they count nowhere."""

_NO_INK: Bounds = (0.0, 0.0, 0.0, 0.0)


class Edges(dict[int, Bounds]):
    """The bounds of every glyph's ink, found when first asked for; a blank's count nowhere."""

    def __init__(self, find: Callable[[int], Bounds | None], blank: int | None) -> None:
        """`find` gives a glyph's bounds; `blank` is the glyph that stands between words."""
        self._find = find
        self._blank = blank
        self._odd = {0}

    def __missing__(self, glyph: int) -> Bounds:
        """Find the bounds of a glyph that was not met before."""
        ink = self._find(glyph)
        if ink is None and glyph != self._blank:
            self._odd.add(glyph)
        found = self[glyph] = NOWHERE if ink is None else ink
        return found

    def blanks(self, glyphs: Sequence[int]) -> int:
        """How many glyphs are blanks between words; -1 when one is missing or oddly blank."""
        return glyphs.count(self._blank) if self._odd.isdisjoint(glyphs) else -1


class Packed(NamedTuple):
    """A line in font units: glyph numbers (16 bits each), places (32 bits), advance, ink.

    `ys` is empty when every glyph stands on the baseline. `blanks` counts the blanks between
    words; it is -1 when a glyph is missing or is blank otherwise, so that the characters must be
    looked at one by one.
    """

    glyphs: bytes
    xs: bytes
    ys: bytes
    advance: int
    ink: Bounds
    blanks: int


def pack(infos: Iterable[Any], places: Sequence[Any], edges: Edges) -> Packed:
    """Pack what HarfBuzz answered; `edges` are the bounds of each glyph's ink, or NOWHERE.

    One pass over the glyphs: this is the hottest place of typesetting. Comparisons stand where
    min and max would take half of the time.
    """
    glyphs: list[int] = []
    xs: list[int] = []
    pen = 0
    left = bottom = inf
    right = top = -inf
    for info, place in zip(infos, places, strict=True):
        x_offset, y_offset, advance, rise = place.position
        if y_offset or rise:
            return _pack_raised(infos, places, edges)
        glyph = info.codepoint
        x = pen + x_offset
        glyphs.append(glyph)
        xs.append(x)
        ink_left, ink_bottom, ink_right, ink_top = edges[glyph]
        if x + ink_left < left:  # noqa: PLR1730 - see above, and below
            left = x + ink_left
        if x + ink_right > right:  # noqa: PLR1730
            right = x + ink_right
        if ink_bottom < bottom:  # noqa: PLR1730
            bottom = ink_bottom
        if ink_top > top:  # noqa: PLR1730
            top = ink_top
        pen += advance
    ink = (left, bottom, right, top) if left <= right else _NO_INK
    numbers, places_packed = array("H", glyphs).tobytes(), array("i", xs).tobytes()
    return Packed(numbers, places_packed, b"", pen, ink, edges.blanks(glyphs))


def _pack_raised(infos: Iterable[Any], places: Sequence[Any], edges: Edges) -> Packed:
    """The same for a line with glyphs off the baseline (marks set by anchors)."""
    glyphs = [info.codepoint for info in infos]
    x_offsets, y_offsets, x_advances, y_advances = zip(
        *(place.position for place in places), strict=True
    )
    *x_pens, advance = accumulate(x_advances, initial=0)
    *y_pens, _ = accumulate(y_advances, initial=0)
    xs, ys = list(map(add, x_pens, x_offsets)), list(map(add, y_pens, y_offsets))
    inks = [edges[glyph] for glyph in glyphs]
    ink = (
        min(x + ink[0] for x, ink in zip(xs, inks, strict=True)),
        min(y + ink[1] for y, ink in zip(ys, inks, strict=True)),
        max(x + ink[2] for x, ink in zip(xs, inks, strict=True)),
        max(y + ink[3] for y, ink in zip(ys, inks, strict=True)),
    )
    return Packed(
        array("H", glyphs).tobytes(),
        array("i", xs).tobytes(),
        array("i", ys).tobytes(),
        advance,
        ink if ink[0] <= ink[2] else _NO_INK,
        edges.blanks(glyphs),
    )


def unpack(text: str, packed: Packed) -> ShapedLine:
    """The line as a record."""
    count = len(packed.glyphs) // 2
    places = f"{count}i"
    return ShapedLine(
        text,
        struct.unpack(f"{count}H", packed.glyphs),
        struct.unpack(places, packed.xs),
        struct.unpack(places, packed.ys) if packed.ys else (0,) * count,
        packed.advance,
        *packed.ink,
    )
