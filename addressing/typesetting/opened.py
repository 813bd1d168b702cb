"""A font file opened once, for all the ways in which its letters are set."""

import functools
from dataclasses import replace
from typing import Any

import uharfbuzz as hb

from addressing.records.shelf import Face
from addressing.typesetting.blanks import figures_stand_in_pairs, words_stand_alone
from addressing.typesetting.fontfile import read_font
from addressing.typesetting.outlines import Bounds, GlyphOutlines, ink_bounds

GRAIN = 1 << 20
"""Ink is bounded to a millionth of a font unit: then sums of places are exact, and a line's bounds
the same wherever it is cut into words."""

FACES_OPEN = 48


class OpenedFont:
    """HarfBuzz's font at its place on the axes, and its glyphs; lengths are font units."""

    def __init__(self, face: Face, data: bytes) -> None:
        """`data` are the bytes of the font file, looked over."""
        opened = hb.Face(hb.Blob(data), face.index)
        self.font: Any = hb.Font(opened)
        if face.axes:
            self.font.set_variations(dict(face.axes))
        self.units_per_em: int = opened.upem
        self.outlines = GlyphOutlines(self.font, opened.glyph_count)
        self.bounds = functools.cache(self._bounds)
        self._data = data
        self._index = face.index

    def _bounds(self, glyph: int) -> Bounds | None:
        """The bounds of a glyph's ink, to the GRAIN; None for a blank."""
        ink = ink_bounds(self.outlines[glyph])
        if ink is None:
            return None
        left, bottom, right, top = [round(edge * GRAIN) / GRAIN for edge in ink]
        return left, bottom, right, top

    @property
    def words_stand_alone(self) -> bool:
        """Whether its words may be shaped by themselves."""
        return alone(self._data, self._index)

    def figures_stand_in_pairs(self, features: tuple[str, ...]) -> bool:
        """Whether its figures may be shaped two by two, with these features."""
        return in_pairs(self._data, self._index, features)


@functools.lru_cache(FACES_OPEN)
def alone(data: bytes, index: int) -> bool:
    """Whether a font's words stand alone, found out once."""
    return words_stand_alone(data, index)


@functools.lru_cache(FACES_OPEN)
def in_pairs(data: bytes, index: int, features: tuple[str, ...]) -> bool:
    """Whether a font's figures stand in pairs, found out once."""
    return figures_stand_in_pairs(data, index, features)


def open_font(face: Face) -> OpenedFont:
    """The font of a face: opened now, or the one that another face of the same file opened.

    Raises:
        Fault: the font file is missing, damaged, or another than was looked over (exit 3).
    """
    bare = replace(
        face,
        features=(),
        tracking=0,
        word_space=0,
        in_capitals=False,
        small_words=False,
        fallbacks=(),
    )
    return opened(bare)


@functools.lru_cache(FACES_OPEN)
def opened(bare: Face) -> OpenedFont:
    """The font of a face that says nothing of how its letters are set; see `open_font`."""
    return OpenedFont(bare, read_font(bare))
