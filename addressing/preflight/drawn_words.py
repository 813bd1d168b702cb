"""Words that HarfBuzz placed, as a plate must draw them."""

import re
from math import inf
from typing import NamedTuple

from addressing.preflight.letters import Letter, Letters
from addressing.preflight.spelling import Spelling
from addressing.preflight.values import Objection

WORDS_KEPT = 8192
"""Shaped words that are remembered; there may be any number."""

TOLD = re.compile(r"([0-9]+)(?:@(-?[0-9]+),(-?[0-9]+))?(?:\+(-?[0-9]+)(?:,(-?[0-9]+))?)?")
"""How HarfBuzz writes a glyph: its number, shift and lift, advance and rise."""

_Point = tuple[int, int]


class _Word(NamedTuple):
    """Glyphs that follow each other, as a plate draws them; places are from the pen's.

    `first` is the first glyph with ink and `start` its place; `rest` draws those after it, the
    last of them at `last`. A word without ink has `letters` 0.
    """

    first: int
    start: _Point
    rest: bytes
    last: _Point
    letters: int
    missing: bool
    bounds: tuple[float, float, float, float]
    area: float
    edges: float
    advance: int
    rise: int


class _Glyph(NamedTuple):
    """A glyph by its number on the plate, moved from the pen, which then goes on."""

    number: int
    missing: bool
    x: int
    y: int
    advance: int
    rise: int
    letter: Letter


_Inked = tuple[int, int, int, Letter]
"""A glyph with ink by its number on the plate, where it stands, and its letter."""


class Words(dict[str, _Word]):
    """What HarfBuzz writes of a word (`12@3,0+500|13+480`), read once for each that differs.

    A word is what was shaped already, with the kerning that its line asks for, so that looking it
    up takes nothing away from the proof.
    """

    def __init__(self, letters: Letters, blank: int | None, first: int, spelling: Spelling) -> None:
        """`blank` is the glyph between words; a plate counts the face's glyphs from `first`."""
        super().__init__()
        self._spelling = spelling
        self.used: set[int] = set()
        self.steps: dict[tuple[int, int, int], bytes] = {}
        self._glyphs: dict[str, _Glyph] = {}
        self._letters = letters
        self._first = first
        self._between, self._cut = f"|{blank}+", f"\n{blank}+"

    def cut(self, told: str) -> list[str]:
        """A line in words, each but the first with the blank before it."""
        return told.replace(self._between, self._cut).split("\n")

    def step(self, place: tuple[int, int, int]) -> bytes:
        """A glyph drawn at a distance that is new; it is remembered."""
        if len(self.steps) >= WORDS_KEPT:
            self.steps.clear()
        x, y, glyph = place
        step = self.steps[place] = self._spelling.letter % (x, y, glyph & self._spelling.mask)
        return step

    def glyph(self, told: str) -> _Glyph:
        """What HarfBuzz writes of one glyph, new; it is remembered."""
        match = TOLD.fullmatch(told)
        if match is None:
            raise Objection("The face can't be shaped.")
        glyph, x, y, advance, rise = (int(number or 0) for number in match.groups())
        letter = self._letters.letter(glyph)
        if len(self._glyphs) >= WORDS_KEPT:
            self._glyphs.clear()
        read = _Glyph(self._first + glyph, not glyph, x, y, advance, rise, letter)
        self._glyphs[told] = read
        return read

    def __missing__(self, told: str) -> _Word:
        """Read a word that is new."""
        pen_x = pen_y = 0
        missing = False
        inked: list[_Inked] = []
        for one in told.split("|"):
            number, lost, x, y, advance, rise, letter = self._glyphs.get(one) or self.glyph(one)
            missing = missing or lost
            if letter.outline:
                inked.append((number, pen_x + x, pen_y + y, letter))
            pen_x += advance
            pen_y += rise
        self.used.update([number for number, *_ in inked])
        if len(self) >= WORDS_KEPT:
            self.clear()
        word = self[told] = self._joined(inked, (pen_x, pen_y), missing=missing)
        return word

    def _joined(self, inked: list[_Inked], pen: _Point, *, missing: bool) -> _Word:
        """A word of its glyphs with ink."""
        if not inked:
            return _Word(0, (0, 0), b"", (0, 0), 0, missing, (inf, inf, -inf, -inf), 0.0, 0.0, *pen)
        first, last_x, last_y, _ = inked[0]
        start, rest, steps = (last_x, last_y), [], self.steps
        for number, x, y, _ in inked[1:]:
            place = x - last_x, y - last_y, number
            rest.append(steps.get(place) or self.step(place))
            last_x, last_y = x, y
        bounds = (
            min([x + letter.left for _, x, _, letter in inked]),
            min([y + letter.bottom for _, _, y, letter in inked]),
            max([x + letter.right for _, x, _, letter in inked]),
            max([y + letter.top for _, _, y, letter in inked]),
        )
        area = sum([letter.area for *_, letter in inked])
        edges = sum([letter.edges for *_, letter in inked])
        drawn, last = b"".join(rest), (last_x, last_y)
        return _Word(first, start, drawn, last, len(inked), missing, bounds, area, edges, *pen)
