"""Which of a face's features swing its capitals out: alternates that are swashes by another name.

A font's own name for them (ss01, salt, cv03) doesn't tell; their outlines do.
"""

from collections.abc import Sequence
from functools import lru_cache
from string import ascii_uppercase

import uharfbuzz as hb

from addressing.records.shelf import Face
from addressing.typesetting.opened import OpenedFont, open_font

SWING = 0.2
"""Of an em: a capital whose ink reaches further out than the plain one's by more is a swash. By eye
on the shelf's faces, whose other alternates reach out by 0.05 (a script's 0.15); no source."""


def swinging(face: Face, tags: Sequence[str]) -> tuple[str, ...]:
    """Those of some features of a face with which any capital swings out."""
    opened, chosen = open_font(face), dict(face.features)
    return tuple(tag for tag in tags if _swings(opened, tag, int(chosen.get(tag, 1))))


@lru_cache(256)
def _swings(font: OpenedFont, tag: str, value: int) -> bool:
    most = SWING * font.units_per_em
    for capital in ascii_uppercase:
        plain, other = (font.bounds(_glyph(font, capital, tag, each)) for each in (0, value))
        if plain is None or other is None:
            continue
        left, low, right, high = plain
        out = max(left - other[0], low - other[1], other[2] - right, other[3] - high)
        if out > most:
            return True
    return False


def _glyph(font: OpenedFont, capital: str, tag: str, value: int) -> int:
    """The first glyph that a capital alone becomes, with a feature or without."""
    buffer = hb.Buffer()
    buffer.add_str(capital)
    buffer.guess_segment_properties()
    hb.shape(font.font, buffer, {tag: value})
    return int(buffer.glyph_infos[0].codepoint)
