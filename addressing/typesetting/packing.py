"""What HarfBuzz placed, word by word, with the bounds of its ink.

HarfBuzz writes a shaped line out in one call (`193+767|1324-12@3,0+428`: glyph, shift, advance).
Where the face is blank the line is cut, and what stands between is looked up: "Lane" after
"Larkmoor" is the same glyphs at the same distances in line after line.
"""

import re
from collections.abc import Callable, Sequence
from math import inf

from addressing.records.pages import Word
from addressing.typesetting.outlines import Bounds

WORDS_KEPT = 8192
"""Shaped words that are remembered (about 700 bytes each)."""

_TOLD = re.compile(r"([0-9]+)(?:@(-?[0-9]+),(-?[0-9]+))?(?:\+(-?[0-9]+)(?:,(-?[0-9]+))?)?")


Placed = tuple[int, int, int, int, int, Bounds | None]
"""A glyph, its shift, lift, advance, rise, and the ink of its drawing."""


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
        self._glyphs: dict[str, Placed] = {}
        self.odd: set[int] = set()
        """Glyphs met that are missing, or blank although they stand for no blank between words."""

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

    def is_odd(self, words: Sequence[Word], blanks: int) -> bool:
        """Whether words hold a glyph that is missing or oddly blank, or not so many `blanks`."""
        if self.odd and any(not self.odd.isdisjoint(word.glyphs) for word in words):
            return True
        blank = self._first + (self._blank or 0)
        return blanks != sum([word.glyphs.count(blank) for word in words])

    def __missing__(self, told: str) -> Word:
        """Read what was not met before."""
        if len(self) >= WORDS_KEPT:
            self.clear()
        known = self._glyphs
        word = self[told] = word_of([known.get(one) or self.read(one) for one in told.split("|")])
        return word

    def read(self, told: str) -> Placed:
        """Read what HarfBuzz writes of one glyph."""
        match = _TOLD.fullmatch(told)
        if match is None:
            raise ValueError(told)
        glyph, shift, lift, advance, rise = (int(number or 0) for number in match.groups())
        ink = self._find(glyph)
        if not glyph or (ink is None and glyph != self._blank):
            self.odd.add(self._first + glyph)
        if len(self._glyphs) >= WORDS_KEPT:
            self._glyphs.clear()
        placed = self._glyphs[told] = self._first + glyph, shift, lift, advance, rise, ink
        return placed


def word_of(placed: Sequence[Placed]) -> Word:
    """Glyphs that follow each other as a word; its ink, upside down where it has none."""
    glyphs, xs, ys = [], [], []
    pen = height = 0
    left = bottom = inf
    right = top = -inf
    for glyph, shift, lift, advance, rise, ink in placed:
        x, y = pen + shift, height + lift
        glyphs.append(glyph)
        xs.append(x)
        ys.append(y)
        if ink is not None:
            start, low, end, high = ink
            if x + start < left:  # noqa: PLR1730 - see ShapedLine.ink
                left = x + start
            if x + end > right:  # noqa: PLR1730 - see ShapedLine.ink
                right = x + end
            if y + low < bottom:  # noqa: PLR1730 - see ShapedLine.ink
                bottom = y + low
            if y + high > top:  # noqa: PLR1730 - see ShapedLine.ink
                top = y + high
        pen += advance
        height += rise
    return Word(tuple(glyphs), tuple(xs), tuple(ys), (pen, height, left, bottom, right, top))
