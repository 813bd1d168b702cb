"""The gauge: how large words can be in the room, in closed form from the bounds of their ink."""

import math
from collections.abc import Iterator, Sequence
from math import inf

import uharfbuzz as hb

from addressing.records.pages import FACE
from addressing.records.shelf import Box, Face
from addressing.typesetting.arranging import Arrangement
from addressing.typesetting.bending import Letter, arcs, reach
from addressing.typesetting.direction import is_turned
from addressing.typesetting.hanging import evened
from addressing.typesetting.leading import Leading
from addressing.typesetting.lettering import Lettering
from addressing.typesetting.outlines import Bounds
from addressing.typesetting.patterns import Pattern

TALL, DEEP = "bdfhklABDEHLT", "gjpqy"
"""Letters that stand for a face's reach above and below the line."""

AIR = 0.28
LEAST_LEADING, MOST_LEADING = 1.3, 1.6
"""Leading is the face's own reach and 0.28 em of air, within these (in em). Chosen by eye on
renderings of the six faces on the shelf; common practice on envelopes is 1.3 to 1.6, no source."""

GAP = 0.5
"""Where the hand changes, so much of the smaller hand's size stands more between the baselines.
Chosen by eye on renderings of scripts and italics over romans and small capitals; no source."""

FINE = 0.01
"""Points to which the size of bent lines is found."""
MOST_SIZE = 2.0
"""No line of letters is so low that its size is more than this part of its room's height."""

Part = tuple[str, int, int]
"""A line of a piece, or a part of one: its words, the number of the worded line, its hand."""


class Measure:
    """One hand's own measures; lengths are em of the set's size (the names')."""

    def __init__(self, lettering: Lettering, ratio: float) -> None:
        """`ratio` is the hand's size as a part of the set's."""
        self.lettering = lettering
        self.typeface = typeface = lettering.typeface
        self.ratio = ratio
        self.em = typeface.units_per_em / ratio
        """Font units to an em of the set's size."""
        tag = hb.OTMetricsTag.CAP_HEIGHT
        self.capital = float(typeface.font.get_metric_position_with_fallback(tag)) / self.em
        inks = [self._letter(letter) for letter in TALL + DEEP]
        self.above = max(ink[3] for ink in inks)
        self.below = min(ink[1] for ink in inks)
        natural = (self.above - self.below) / ratio + AIR
        self.leading = round(min(max(natural, LEAST_LEADING), MOST_LEADING), 2) * ratio

    def _letter(self, letter: str) -> Bounds:
        """A letter's ink in em; a usual one's for a face without Latin letters."""
        glyph = self.typeface.font.get_nominal_glyph(ord(letter))
        ink = self.typeface.bounds(glyph) if glyph else None
        if ink is None:
            return (0.0, -0.25 * self.ratio, 0.5 * self.ratio, 0.75 * self.ratio)
        left, bottom, right, top = ink
        em = self.em
        return (left / em, bottom / em, right / em, top / em)

    def at(self, size: float) -> float:
        """The hand's own size (pt) at a size of the set."""
        return size if self.ratio == 1 else round(size * self.ratio, 6)


class Gauge:
    """Measures lines and blocks of one face, or of two hands, against one room.

    Everything but the room (points) is in em of the set's size, so that a size is a quotient and
    never a search.
    """

    def __init__(self, hands: Sequence[Measure], room: Box, arrangement: Arrangement) -> None:
        """Take the hands' own measures."""
        self.hands = hands
        self.several = len(hands) > 1
        self.room = room
        self.arrangement = arrangement
        self._hanging = arrangement.hanging
        self._known: tuple[dict[str, Bounds], ...] = tuple({} for _ in hands)
        """Of the lines that are asked for one by one, for they are asked for again and again."""
        self.reach = (0.0, 0.0)
        """How deep and how high any line measured so far reaches (em)."""
        self.levels: dict[tuple[tuple[int, ...], float], tuple[float, ...]] = {}
        """Heights that no line within the reach would move (`placing`)."""
        self._roomy: dict[tuple[int, ...], float] = {}
        self._bendable: dict[tuple[str, int, int], tuple[Letter, ...]] = {}
        self.flawed: dict[tuple[str, int], tuple[tuple[str, ...], Face]] = {}
        """Lines that can't be set, with their hand: the characters without ink, in which face;
        none when a mark turns their direction."""
        gap = GAP * min(hand.ratio for hand in hands)
        self.leading = Leading(tuple(hand.leading for hand in hands), gap)

    def ink(self, text: str, hand: int, tighter: int = 0) -> Bounds:
        """The bounds of a line's ink, in em from the origin of its baseline.

        Where a mark hangs out they lie about the middle of the words. Letters are closer by
        `tighter` thousandths of an em.
        """
        if tighter:
            return self._closer(text, hand, tighter)
        known = self._known[hand]
        found = known.get(text)
        if found is None:
            found = known[text] = self._measure(text, hand)
        return found

    def inks(self, parts: Sequence[Part], tighter: Sequence[int] = ()) -> list[Bounds]:
        """The bounds of each line of a block, `tighter` as for `limit`."""
        if tighter:
            return [self.ink(*part[::2], by) for part, by in zip(parts, tighter, strict=True)]
        return self.inks_of([part[0] for part in parts], [part[2] for part in parts])

    def inks_of(self, texts: Sequence[str], hands: Sequence[int]) -> list[Bounds]:
        """The bounds of lines, each in its hand."""
        known, measure = self._known, self._measure
        if not self.several:
            own = known[0]
            return [own.get(text) or measure(text, 0) for text in texts]
        both = zip(texts, hands, strict=True)
        return [known[hand].get(text) or measure(text, hand) for text, hand in both]

    def inks_of_all(self, blocks: Sequence[tuple[Sequence[str], Pattern]]) -> list[list[Bounds]]:
        """The bounds of the lines of many blocks.

        All lines are shaped, then all are measured: that takes less time than line by line
        (measured: a fifth), since the processor does the same for longer.
        """
        texts = [text for block, _ in blocks for text in block]
        hands = [hand for _, pattern in blocks for hand in pattern.hands]
        own: list[list[str]] = [[] for _ in self.hands]
        for text, hand in zip(texts, hands, strict=True):
            own[hand].append(text)
        inks = [iter(self._measure_all(lines, hand)) for hand, lines in enumerate(own)]
        return [[next(inks[hand]) for hand in pattern.hands] for _, pattern in blocks]

    def _measure_all(self, texts: Sequence[str], hand: int) -> list[Bounds]:
        """The bounds of many lines of a hand."""
        measure, hanging = self.hands[hand], self._hanging
        em, odd, helped = measure.em, measure.typeface.odd, measure.lettering.helped
        lines = list(map(measure.typeface.shape, texts))
        inks = [line.ink_in(em) for line in lines]
        for number, text in enumerate(texts):
            if (
                helped
                or text[-1] in hanging
                or text[0] in hanging
                or text in odd
                or (not text.isascii() and is_turned(text))
            ):
                inks[number] = self._measure_oddly(text, hand)
        lows, highs = [ink[1] for ink in inks], [ink[3] for ink in inks]
        self._reached((0.0, min(lows, default=0.0), 0.0, max(highs, default=0.0)))
        return inks

    def _closer(self, text: str, hand: int, by: int) -> Bounds:
        measure = self.hands[hand]
        lettering = measure.lettering.closer(by)
        mixed = lettering.mixed(text)
        if mixed is None:
            found = lettering.typeface.shape(text).ink_in(measure.em)
        else:
            left, bottom, right, top = (edge * measure.ratio for edge in mixed.ink)
            found = left, bottom, right, top
        return self._reached(self._evened(found, text, lettering, measure.ratio))

    def _reached(self, ink: Bounds) -> Bounds:
        """A line's bounds, by which the reach has grown."""
        low, high = self.reach
        if ink[1] < low or ink[3] > high:
            self.reach = min(low, ink[1]), max(high, ink[3])
            self.levels.clear()
            self._roomy.clear()
        return ink

    def _measure(self, text: str, hand: int) -> Bounds:
        return self._measure_all([text], hand)[0]

    def _measure_oddly(self, text: str, hand: int) -> Bounds:
        """The same of a line that other faces may help to set, or that can't be set."""
        measure = self.hands[hand]
        typeface = measure.typeface
        mixed = measure.lettering.mixed(text)
        if mixed is None:
            found = typeface.shape(text).ink_in(measure.em)
            lost, loser = typeface.without_ink(text), typeface.face
        else:
            left, bottom, right, top = (edge * measure.ratio for edge in mixed.ink)
            found, lost, loser = (left, bottom, right, top), mixed.lost, mixed.loser
        if lost or is_turned(text):
            self.flawed[text, hand] = lost, loser
        return self._reached(self._evened(found, text, measure.lettering, measure.ratio))

    def _evened(self, ink: Bounds, text: str, lettering: Lettering, ratio: float) -> Bounds:
        """A line's bounds, about the middle of its words where a light mark hangs out."""
        marks = self._hanging
        if text[-1] in marks or text[0] in marks:
            return evened(ink, lettering, text, marks, ratio)
        return ink

    def width_limit(self, part: Part, number: int = 0, tighter: int = 0) -> float:
        """The largest size (pt) at which a line, the `number`th from 0, fits the room's width."""
        left, _, right, _ = self.ink(part[0], part[2], tighter)
        width = right - left + number * self.arrangement.indent
        room = self.arrangement.column(self.room)
        if self.arrangement.bow:
            room *= math.pi / 2  # no half of a circle is longer than this part of its chord
        return room / width if right > left else inf

    def limit(
        self,
        parts: Sequence[Part],
        tighter: Sequence[int] = (),
        beyond: float = 0.0,
    ) -> float:
        """The largest size (pt) at which a block fits the room, its leading growing with it.

        `tighter` says of each line how much closer its letters are; empty, none is. Of a block that
        doesn't fit at the size `beyond` (pt) nobody asks more: its limit may be told as 0.
        """
        if not self.arrangement.bow:
            hands = tuple([hand for _, _, hand in parts])
            return self.level_limit(self.inks(parts, tighter), hands)
        if beyond > 0 and not self._fits_bent(parts, beyond, tighter):
            return 0.0
        return self._bent_limit(parts, tighter)

    def level_limit(self, inks: Sequence[Bounds], hands: tuple[int, ...]) -> float:
        """The same of level lines whose bounds are known."""
        if self.arrangement.gutter is None:
            return self._column_limit(inks, hands)
        both = list(zip(inks, hands, strict=True))
        return min(
            self._column_limit(
                [ink for ink, hand in both if bool(hand) is right],
                tuple([hand for _, hand in both if bool(hand) is right]),
            )
            for right in (False, True)
        )

    def _column_limit(self, inks: Sequence[Bounds], hands: tuple[int, ...]) -> float:
        """The largest size (pt) at which level lines one under another fit."""
        widest = self.arrangement.width(inks)
        width = self.arrangement.column(self.room) / widest if widest > 0 else inf
        return width if width <= self._highest(hands) else min(width, self._height(inks, hands))

    def _height(self, inks: Sequence[Bounds], hands: tuple[int, ...]) -> float:
        """The largest size (pt) at which lines fit the room's height."""
        top, bottom = extent(inks, 1.0, self.leading.sinks(hands))
        return self.room.height / (top - bottom) if top > bottom else inf

    def _highest(self, hands: tuple[int, ...]) -> float:
        """The same of lines that reach as far as any measured so far: no line's is less."""
        known = self._roomy.get(hands)
        if known is None:
            low, high = self.reach
            known = self._height([(0.0, low, 0.0, high)] * len(hands), hands)
            self._roomy[hands] = known
        return known

    def _bent_limit(self, parts: Sequence[Part], tighter: Sequence[int]) -> float:
        """The same of bent lines: how they reach depends on the size, so it is searched for."""
        low, high = 0.0, min([self.width_limit(part) for part in parts], default=0.0)
        high = min(high, self.room.height * MOST_SIZE)
        while high - low > FINE:
            size = (low + high) / 2
            low, high = (size, high) if self._fits_bent(parts, size, tighter) else (low, size)
        return low

    def _fits_bent(self, parts: Sequence[Part], size: float, tighter: Sequence[int]) -> bool:
        around = self.bent_extent(parts, size, tighter)
        if around is None:
            return False
        left, bottom, right, top = around
        across = 2 * max(-left, right)
        return across <= self.room.width and top - bottom <= self.room.height

    def bent_extent(
        self, parts: Sequence[Part], size: float, tighter: Sequence[int] = ()
    ) -> Bounds | None:
        """The bounds (pt) of a bent block, from the middle of its first baseline."""
        closer = tighter or (0,) * len(parts)
        letters = [self._letters(*part[::2], by) for part, by in zip(parts, closer, strict=True)]
        sinks = self.leading.at(size).sinks(tuple([hand for _, _, hand in parts]))
        baselines = arcs(self.arrangement.bow, self.arrangement.radius, sinks)
        inks = self.inks(parts, tighter)
        middles = [(left + right) / 2 for left, _, right, _ in inks]
        return reach(letters, size, baselines, sinks, middles)

    def _letters(self, text: str, hand: int, by: int) -> tuple[Letter, ...]:
        """The letters of a line, for bending it."""
        known = self._bendable.get((text, hand, by))
        if known is None:
            measure = self.hands[hand]
            lettering = measure.lettering.closer(by) if by else measure.lettering
            known = tuple(letters_of(lettering, text, measure.ratio))
            self._bendable[text, hand, by] = known
        return known


def letters_of(lettering: Lettering, text: str, ratio: float) -> Iterator[Letter]:
    """The letters with ink of a line as it is set level, in em of the set's size."""
    for words, start, share, _, face in lettering.drawn(text):
        typeface = next(each for each in lettering.faces if each.face == face)
        em = words.em / share / ratio
        for glyph, x, y in words.placed():
            ink = typeface.bounds(glyph % FACE)
            if ink is not None:
                half = (ink[2] - ink[0]) / 2 / em
                middle = start * ratio + (x + (ink[0] + ink[2]) / 2) / em
                yield Letter(middle, (-half, (y + ink[1]) / em, half, (y + ink[3]) / em))


def extent(inks: Sequence[Bounds], size: float, sinks: Sequence[float]) -> tuple[float, float]:
    """Top and bottom of a block's ink (pt), seen from its first baseline; `sinks` are in points."""
    top, bottom = -inf, inf
    for (_, low, _, high), sunk in zip(inks, sinks, strict=True):
        if high * size - sunk > top:  # noqa: PLR1730 - see ShapedLine.ink
            top = high * size - sunk
        if low * size - sunk < bottom:  # noqa: PLR1730 - see ShapedLine.ink
            bottom = low * size - sunk
    return top, bottom
