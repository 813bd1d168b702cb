"""Shaped lines, packed: what HarfBuzz placed, in a few hundred bytes and with its ink's bounds.

The set is measured first and drawn afterwards; packed, a line need not be shaped twice.

HarfBuzz writes a shaped line out in one call (`193+767|1324-12@3,0+428`: glyph, shift, advance).
Where the face is blank the line is cut, and what stands between is looked up: "Lane" after
"Larkmoor" is the same glyphs at the same distances in line after line. That is no cache by word,
which would be wrong (kerning and context cross the blank): what is looked up was shaped already.
"""

import re
from collections.abc import Callable
from math import inf
from typing import NamedTuple

from addressing.records.pages import ShapedLine
from addressing.typesetting.outlines import Bounds

WORDS_KEPT = 8192
"""Shaped words that are remembered (about 700 bytes each)."""

_ODD = -(1 << 20)
"""Stands for a glyph that is missing or oddly blank, in a count of blanks."""

_NO_INK: Bounds = (0.0, 0.0, 0.0, 0.0)
_TOLD = re.compile(r"([0-9]+)(?:@(-?[0-9]+),(-?[0-9]+))?(?:\+(-?[0-9]+)(?:,(-?[0-9]+))?)?")


class Word(NamedTuple):
    """Glyphs that follow each other: numbers, places and ink from the pen, how far the pen goes.

    `blanks` is 1 when the first is a blank between words, and never fits any count when a glyph is
    missing or oddly blank.
    """

    glyphs: tuple[int, ...]
    xs: tuple[int, ...]
    ys: tuple[int, ...]
    advance: int
    rise: int
    ink: Bounds
    blanks: int


class Words(dict[str, Word]):
    """What HarfBuzz writes of a word, read when first met and remembered."""

    def __init__(self, find: Callable[[int], Bounds | None], blank: int | None, first: int) -> None:
        """`find` gives the bounds of a glyph's ink; `blank` is what stands between words.

        Glyphs are counted from `first`, as the set counts them.
        """
        self._find = find
        self._first = first
        self._blank = blank
        self._between = f"|{blank}+"
        self._cut = f"\n{blank}+"
        self._blanks = re.compile(rf"((?:^|(?<=\|)){blank}\+)(-?[0-9]+)")

    def cut(self, told: str) -> list[str]:
        """A line's words as HarfBuzz wrote them, each but the first with the blank before it."""
        return told.replace(self._between, self._cut).split("\n")

    def spaced(self, told: str, space: int) -> str:
        """A line with its letters spaced: each with ink stands `space` further from what precedes.

        Accents have no advance and stay with their letters.
        """
        spaced: list[str] = []
        for one in told.split("|") if told else ():
            before, _, advance = one.rpartition("+")
            if spaced and advance != "0" and self._find(int(before.partition("@")[0])) is not None:
                head, _, last = spaced[-1].rpartition("+")
                across, comma, down = last.partition(",")
                spaced[-1] = f"{head}+{int(across) + space}{comma}{down}"
            spaced.append(one)
        return "|".join(spaced)

    def apart(self, told: str, space: int) -> str:
        """A line with every blank between words wider by `space`."""
        return self._blanks.sub(lambda one: f"{one[1]}{int(one[2]) + space}", told)

    def __missing__(self, told: str) -> Word:
        """Read what was not met before."""
        glyphs, xs, ys, inks = [], [], [], []
        pen = height = blanks = 0
        for one in told.split("|"):
            match = _TOLD.fullmatch(one)
            if match is None:
                raise ValueError(told)
            glyph, shift, lift, advance, rise = (int(number or 0) for number in match.groups())
            x, y = pen + shift, height + lift
            glyphs.append(self._first + glyph)
            xs.append(x)
            ys.append(y)
            ink = self._find(glyph)
            if ink is not None:
                inks.append((x + ink[0], y + ink[1], x + ink[2], y + ink[3]))
            blanks += _ODD if not glyph or (ink is None and glyph != self._blank) else 0
            blanks += glyph == self._blank
            pen += advance
            height += rise
        if len(self) >= WORDS_KEPT:
            self.clear()
        places = tuple(glyphs), tuple(xs), tuple(ys)
        word = self[told] = Word(*places, pen, height, _around(inks), blanks)
        return word


def _around(inks: list[Bounds]) -> Bounds:
    """The bounds of all; those of nothing count nowhere."""
    if not inks:
        return (inf, inf, -inf, -inf)
    lefts, bottoms, rights, tops = zip(*inks, strict=True)
    return min(lefts), min(bottoms), max(rights), max(tops)


class Packed(NamedTuple):
    """A line in font units: as HarfBuzz wrote it, its advance, its ink.

    `blanks` counts the blanks between words; it is below 0 when a glyph is missing or is blank
    otherwise, so that the characters must be looked at one by one.
    """

    told: str
    advance: int
    ink: Bounds
    blanks: int


def pack(told: str, words: Words) -> Packed:
    """Pack what HarfBuzz wrote of a line.

    This is the hottest place of typesetting. Comparisons stand where min and max would take half
    of the time.
    """
    if not told:
        return Packed(told, 0, _NO_INK, 0)
    pen = height = blanks = 0
    left = bottom = inf
    right = top = -inf
    for part in words.cut(told):
        _, _, _, advance, rise, ink, blank = words[part]
        if pen + ink[0] < left:  # noqa: PLR1730 - see above, and below
            left = pen + ink[0]
        if pen + ink[2] > right:  # noqa: PLR1730
            right = pen + ink[2]
        if height + ink[1] < bottom:  # noqa: PLR1730
            bottom = height + ink[1]
        if height + ink[3] > top:  # noqa: PLR1730
            top = height + ink[3]
        pen += advance
        height += rise
        blanks += blank
    ink = (left, bottom, right, top) if left <= right else _NO_INK
    return Packed(told, pen, ink, blanks)


def unpack(text: str, packed: Packed, words: Words, em: int) -> ShapedLine:
    """The line as a record; `em` are the face's units per em."""
    glyphs: list[int] = []
    xs: list[int] = []
    ys: list[int] = []
    pen = height = 0
    for part in words.cut(packed.told) if packed.told else ():
        word = words[part]
        glyphs += word.glyphs
        xs += [pen + x for x in word.xs]
        ys += [height + y for y in word.ys] if height else word.ys
        pen += word.advance
        height += word.rise
    return ShapedLine(text, tuple(glyphs), tuple(xs), tuple(ys), packed.advance, *packed.ink, em)
