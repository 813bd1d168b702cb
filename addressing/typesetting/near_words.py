"""Words of a line whose ink comes so near that they read as one, measured on the outlines.

A swash leaves its letter's own room and eats the blank. What stands above or below a word without
coming near it, such as the tail of a Q under its neighbour, is a calligrapher's own doing and fine.
"""

import itertools
from collections import defaultdict
from collections.abc import Iterator
from functools import lru_cache
from itertools import pairwise
from math import ceil, dist, inf, sqrt
from typing import NamedTuple

from addressing.hands import steadily
from addressing.records.pages import FACE, Segment, Setting, ShapedLine, hand_of
from addressing.records.shelf import Face
from addressing.typesetting.lettering import Lettering, Part, open_hands
from addressing.typesetting.outlines import Bounds
from addressing.typesetting.typeface import Typeface

NEAR = 0.1
"""Of the size. Between two words the shelf's romans never leave less (of Yates: 0.105), and
a quarter as a rule; chosen by eye on renderings of its faces with all their features."""

STRIDE = 0.01
"""Of the size: points along an outline stand so far apart at the most. A distance of `NEAR` is then
missed by an eighth of a thousandth at the most."""

GRAIN = 1000
"""Distances between glyphs are told apart to a thousandth of the size, so that pairs recur."""

Point = tuple[float, float]


class Near(NamedTuple):
    """Two neighbouring words, the hand that letters them, and how much wider their blank must be.

    `more` is in em of the hand.
    """

    face: Face
    words: str
    more: float


class _Glyph(NamedTuple):
    """A glyph with ink in a line: where its origin stands, and its font unit (em of the line)."""

    typeface: Typeface
    glyph: int
    x: float
    y: float
    unit: float

    def ink(self) -> Bounds:
        left, low, right, high = self.typeface.bounds(self.glyph) or (0.0, 0.0, 0.0, 0.0)
        unit = self.unit
        return (
            self.x + left * unit,
            self.y + low * unit,
            self.x + right * unit,
            self.y + high * unit,
        )


@steadily()
def near_words(setting: Setting) -> dict[Near, set[str]]:
    """Each pair of words that stand too near in a set, and the households that have it."""
    hands = open_hands(setting.hands)
    lines: dict[tuple[str, int, int], set[str]] = defaultdict(set)
    for piece in setting.pieces:
        for line in piece.lines:
            hand = hand_of(line.role) if setting.second is not None else 0
            lines[line.text, hand, line.tighter].add(piece.household or "")
    found: dict[Near, set[str]] = defaultdict(set)
    for (text, hand, tighter), households in lines.items():
        lettering = hands[hand].closer(tighter) if tighter else hands[hand]
        for near in _in_line(lettering, text):
            found[near._replace(face=setting.hands[hand])] |= households
    return dict(found)


def _in_line(lettering: Lettering, text: str) -> Iterator[Near]:
    parts = lettering.drawn(text)
    if len(parts) == 1 and not _is_close(parts[0].words, lettering.typeface):
        return
    words = list(_words(parts, lettering))
    said = text.split(" ")
    for place in range(1, len(words)):
        more = _more(words[place - 1], words[place])
        if more > 0:
            plain = len(said) == len(words) and said[0].isascii()
            yield Near(
                lettering.face, " ".join(said[place - 1 : place + 1]) if plain else text, more
            )


def _is_close(line: ShapedLine, typeface: Typeface) -> bool:
    """Whether a word begins less than `NEAR` behind where ink before it ends: a quick look."""
    near = NEAR * line.em
    pen, end = 0, -inf
    for word in line.words:
        advance, _, first, _, last, _ = word.span
        if pen + first - end < near and typeface.bounds(word.glyphs[0] % FACE) is None:
            return True
        end = max(end, pen + last)
        pen += advance
    return False


def _words(parts: tuple[Part, ...], lettering: Lettering) -> Iterator[list[_Glyph]]:
    """The words of a line from left to right."""
    word: list[_Glyph] = []
    for part in parts:
        typeface = next(each for each in lettering.faces if each.face == part.face)
        unit = part.share / part.words.em
        if word:
            yield word
            word = []
        for numbered, x, y in part.words.placed():
            glyph = numbered % FACE
            if typeface.bounds(glyph) is not None:
                word.append(_Glyph(typeface, glyph, part.start + x * unit, y * unit, unit))
            elif word:
                yield word
                word = []
    if word:
        yield word


def _more(one: list[_Glyph], other: list[_Glyph]) -> float:
    """How much further to the right another word must stand so as not to be near; 0 if it isn't."""
    more = 0.0
    for left, right in ((left, right) for left in one for right in other):
        (_, low, reach, high), (begin, deep, _, tall) = left.ink(), right.ink()
        if begin - reach < NEAR and deep - high < NEAR and low - tall < NEAR:
            across, up = right.x - left.x, right.y - left.y
            place = round(across * GRAIN), round(up * GRAIN)
            from_there = left._replace(x=0.0, y=0.0), right._replace(x=0.0, y=0.0)
            more = max(more, _apart(*from_there, place))
    return more


@lru_cache(4096)
def _apart(one: _Glyph, other: _Glyph, place: tuple[int, int]) -> float:
    """How much further to the right another glyph must stand; 0 where it isn't near.

    `place` is where the other stands from the first, in thousandths.
    """
    across, up = place[0] / GRAIN, place[1] / GRAIN
    reach, begin = one.ink()[2], across + other.ink()[0]
    facing = [point for point in _points(one) if point[0] > begin - NEAR]
    behind = [(x + across, y + up) for x, y in _points(other) if x + across < reach + NEAR]
    cells: dict[tuple[int, int], list[Point]] = defaultdict(list)
    for point in facing:
        cells[int(point[0] // NEAR), int(point[1] // NEAR)].append(point)
    if not any(_is_near(point, cells) for point in behind):
        return 0.0
    pairs = ((x - right, y - height) for x, y in facing for right, height in behind)
    return max(ahead + sqrt(NEAR**2 - off**2) for ahead, off in pairs if abs(off) < NEAR)


def _is_near(point: Point, cells: dict[tuple[int, int], list[Point]]) -> bool:
    column, row = int(point[0] // NEAR), int(point[1] // NEAR)
    around = itertools.product(range(column - 1, column + 2), range(row - 1, row + 2))
    return any(dist(point, each) < NEAR for cell in around for each in cells.get(cell, ()))


@lru_cache(512)
def _points(one: _Glyph) -> tuple[Point, ...]:
    """Points all along the outline of a glyph at the line's origin, in em of the line."""
    outline, unit = one.typeface.outlines[one.glyph], one.unit
    return tuple([(x * unit, y * unit) for x, y in _along(outline, STRIDE / unit)])


def _along(outline: tuple[Segment, ...], stride: float) -> Iterator[Point]:
    at = start = (0.0, 0.0)
    for kind, numbers in outline:
        if kind == "m":
            at = start = numbers[0], numbers[1]
            continue
        end = start if kind == "h" else (numbers[-2], numbers[-1])
        first, second = (numbers[:2], numbers[2:4]) if kind == "c" else (at, end)
        corners = (at, first, second, end)
        steps = ceil(sum(itertools.starmap(dist, pairwise(corners))) / stride)
        for step in range(1, steps + 1):
            t = step / steps
            u = 1 - t
            near, far = (3 * u * u * t, 3 * u * t * t) if kind == "c" else (0.0, 0.0)
            here, there = (u * u * u, t * t * t) if kind == "c" else (u, t)
            yield (
                here * at[0] + near * first[0] + far * second[0] + there * end[0],
                here * at[1] + near * first[1] + far * second[1] + there * end[1],
            )
        at = end
