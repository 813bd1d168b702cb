"""Which wording of a piece is taken at a size, and where its lines are broken.

The preferred wording stands whole where it fits. Where it doesn't, all wordings and all ways to
break their lines at permitted places are weighed together, and of those that fit the room the one
with the fewest demerits over all lines is taken (`demerits`; after Knuth and Plass, Breaking
Paragraphs into Lines, Software: Practice and Experience 11, 1981, where it is a paragraph).
"""

import heapq
import itertools
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from math import inf

from addressing.records.pages import hand_of
from addressing.records.pieces import Line, Piece, Role
from addressing.records.swiftly import swiftly
from addressing.typesetting import demerits
from addressing.typesetting.measuring import Gauge, Part
from addressing.typesetting.outlines import Bounds

SLACK = 1e-9
"""For sums of floats only: a billionth of a point."""

MOST_BREAKS = 2
"""A line in more than three parts is no line of an address; such words need another hand."""

TIGHTER = 5
"""Letters are set closer in steps of so many thousandths of an em: half of the usual limit."""

GAIN = 4
"""A line gains no more of its width than this share of what its letters come closer, in em: letters
are a quarter of an em wide or more, taken over a line."""

MOST_TRIED = 3000
"""Beginnings looked at for one piece; only words of absurd length come near it."""


@swiftly
@dataclass(frozen=True, slots=True)
class Taken:
    """The wording that was taken, and its lines as they are broken."""

    wording: int
    parts: tuple[Part, ...]
    broken: tuple[str, ...] = ()
    """The lines, whole, that had to be broken."""
    tighter: tuple[int, ...] = ()
    """By how much the letters of each part are closer (thousandths of an em); () for none."""


@dataclass(frozen=True, slots=True)
class _Division:
    """One way to break a line: its parts, and what that costs whatever stands around it."""

    offsets: tuple[int, ...]
    texts: tuple[str, ...]
    cost: float


@swiftly
@dataclass(frozen=True, slots=True)
class _Way:
    """A way to set a piece, and the largest size (pt) at which it fits."""

    limit: float
    taken: Taken


_Begun = tuple[float, int, tuple[tuple[int, ...], ...], tuple[Part, ...]]
"""Some lines of a wording, divided: demerits, the wording's number, where broken, the parts. Of
beginnings that cost the same the earlier choices are less."""


def worded(piece: Piece, number: int, gauge: Gauge) -> tuple[Part, ...]:
    """The lines of a wording as they stand; lines without words fall away."""
    lines = enumerate(piece.wordings[number].lines)
    if not gauge.several:
        return tuple([(line.text, source, 0) for source, line in lines if line.text.strip()])
    return tuple(
        [(line.text, source, hand_of(line.role)) for source, line in lines if line.text.strip()]
    )


class Taker:
    """Takes the best way to set a piece; what it weighed is kept, for the sizes are many."""

    def __init__(self, gauge: Gauge, smallest: float, largest: float, tighten: int = 0) -> None:
        """`smallest` and `largest` are the sizes (pt) between which will be asked.

        `tighten` is the most by which letters may be closer, in thousandths of an em.
        """
        self.gauge = gauge
        self._tighten = tighten
        self._smallest = smallest
        self._largest = largest
        self._known: dict[int, tuple[Piece, tuple[_Way, ...]]] = {}

    def take(self, piece: Piece, size: float) -> Taken | None:
        """The best way to set a piece that fits the room at a size; None when none does.

        Of equal ones the earlier wording, then the earlier breaks are taken. Where none fits, the
        letters of the lines that are too wide stand closer, as little as will do.
        """
        for way in self._ways(piece):
            if way.limit >= size - SLACK:
                return way.taken
        closer = (self._closer(way.taken, size) for way in self._ways(piece))
        return next((taken for taken in closer if taken is not None), None)

    def _closer(self, taken: Taken, size: float) -> Taken | None:
        """The same with the letters of too wide lines closer; None when that doesn't help."""
        gauge, least = self.gauge, size - SLACK
        tighter: list[int] = []
        for number, part in enumerate(taken.parts):
            steps = _steps(self._tighten)
            by = next((by for by in steps if gauge.width_limit(part, number, by) >= least), None)
            if by is None:
                return None
            tighter.append(by)
        if not any(tighter) or gauge.limit(taken.parts, tighter) < least:
            return None
        return replace(taken, tighter=tuple(tighter))

    def lighter(
        self, piece: Piece, whole: tuple[Part, ...], inks: Sequence[Bounds], size: float
    ) -> Taken | None:
        """The preferred wording with its heavy line of names broken once, where that helps.

        `whole` are its lines, `inks` their bounds. None where none is heavy at this size, or where
        a break at a permitted place doesn't fit.
        """
        heavy = self._heavy(piece, whole, inks, size)
        if heavy is None:
            return None
        line = piece.wordings[0].lines[whole[heavy][1]]
        ways = []
        for division in _divisions(line):
            added = tuple([(text, *whole[heavy][1:]) for text in division.texts])
            parts = (*whole[:heavy], *added, *whole[heavy + 1 :])
            if len(division.offsets) == 1 and self._is_light(piece, parts, size):
                ways.append((division.cost + self._shape((), parts), parts))
        if not ways:
            return None
        return Taken(0, min(ways)[1], (line.text,))

    def dwarfs(
        self, piece: Piece, whole: tuple[Part, ...], inks: Sequence[Bounds], size: float
    ) -> bool:
        """Whether the preferred wording has a heavy line of names, arguments as for `lighter`."""
        return self._heavy(piece, whole, inks, size) is not None

    def _is_light(self, piece: Piece, parts: tuple[Part, ...], size: float) -> bool:
        """True where these lines fit at a size and none is heavy."""
        if self._is_flawed(parts) or self.gauge.limit(parts) < size - SLACK:
            return False
        return self._heavy(piece, parts, self.gauge.inks(parts), size) is None

    def _heavy(
        self, piece: Piece, parts: tuple[Part, ...], inks: Sequence[Bounds], size: float
    ) -> int | None:
        """Which part of names takes up most of the room and dwarfs the other lines; None if none.

        Where nothing else stands there it need only reach from edge to edge. Level lines one under
        another are looked at; columns and arcs have another balance. A table is a short line by
        nature and asks for no break.
        """
        arrangement = self.gauge.arrangement
        if arrangement.bow or arrangement.gutter is not None or not parts:
            return None
        widths = [right - left for left, _, right, _ in inks]
        width = max(widths)
        number = widths.index(width)
        source, lines = parts[number][1], piece.wordings[0].lines
        if lines[source].role is not Role.NAME:
            return None
        others = [
            other * size
            for (_, own, _), other in zip(parts, widths, strict=True)
            if own != source and lines[own].role is not Role.SEAT
        ]
        room = arrangement.column(self.gauge.room)
        alone = all(own == source for _, own, _ in parts)
        heavy = (alone and width * size > demerits.airy() * room + SLACK) or demerits.is_heavy(
            width * size, others, room
        )
        return number if heavy else None

    def reach(self, piece: Piece) -> float:
        """The largest size (pt) at which a piece fits somehow, or the largest asked for if less.

        0 when its words can't be set at any size.
        """
        ways = self._ways(piece)
        if not ways:
            return 0.0
        most, taken = ways[-1].limit, ways[-1].taken
        if self._tighten and most < self._largest:
            most = max(most, self._closer_limit(taken.parts, most))
        return min(most, self._largest)

    def _closer_limit(self, parts: tuple[Part, ...], limit: float) -> float:
        """The largest size (pt) at which lines fit whose letters are as close as may be.

        Only those near the `limit` that they have else: shaping the others would be in vain.
        """
        near = limit * (1 + GAIN * self._tighten / 1000)
        width = self.gauge.width_limit
        wide = (width(part, number) <= near for number, part in enumerate(parts))
        return self.gauge.limit(parts, [self._tighten if each else 0 for each in wide])

    def _ways(self, piece: Piece) -> tuple[_Way, ...]:
        known = self._known.get(id(piece))
        if known is None:
            known = self._known[id(piece)] = piece, tuple(self._weighed(piece))
        return known[1]

    def _weighed(self, piece: Piece) -> Iterator[_Way]:
        """The ways worth having, the least demerits first: each fits a larger size than the last.

        The preferred wording whole goes before all. Then the beginning that costs least is gone
        on with first; one that can't fit a larger size than what is already had is let go.
        """
        wordings = [worded(piece, number, self.gauge) for number in range(len(piece.wordings))]
        most = self._smallest - SLACK
        begun: list[_Begun] = [(-1.0, 0, (), wordings[0])]
        begun += [(demerits.of_wording(n), n, (), ()) for n, lines in enumerate(wordings) if lines]
        tried = 0
        while begun and most < self._largest and tried < MOST_TRIED:
            cost, number, offsets, parts = heapq.heappop(begun)
            if self._width_limit(parts) <= most:
                continue
            lines = wordings[number]
            if len(parts) >= len(lines) and (cost < 0 or len(offsets) == len(lines)):
                limit = 0.0 if self._is_flawed(parts) else self.gauge.limit(parts, (), most)
                if limit > most and parts:
                    most = limit
                    cut = tuple([line[0] for line, at in zip(lines, offsets, strict=False) if at])
                    yield _Way(limit, Taken(number, parts, cut))
                continue
            whole = lines[len(offsets)]
            for division in _divisions(piece.wordings[number].lines[whole[1]]):
                added = tuple([(text, *whole[1:]) for text in division.texts])
                more = cost + division.cost + self._shape(parts, added)
                heapq.heappush(begun, (more, number, (*offsets, division.offsets), parts + added))
                tried += 1

    def _width_limit(self, parts: tuple[Part, ...]) -> float:
        """The largest size (pt) at which all these lines fit the room's width."""
        limit = self.gauge.width_limit
        return min([limit(part, number) for number, part in enumerate(parts)], default=inf)

    def _is_flawed(self, parts: tuple[Part, ...]) -> bool:
        """Whether there are words that can't be set at all."""
        flawed = self.gauge.flawed
        return bool(flawed) and any((text, hand) in flawed for text, _, hand in parts)

    def _shape(self, above: tuple[Part, ...], added: tuple[Part, ...]) -> float:
        gauge, widening = self.gauge, self.gauge.arrangement.indent > 0
        seen = [_seen(part, gauge) for part in (*above[-2:], *added)]
        start = len(seen) - len(added)
        return sum(
            demerits.of_shape(tuple(seen[max(at - 2, 0) : at]), seen[at], widening=widening)
            for at in range(start, len(seen))
        )


def _steps(most: int) -> tuple[int, ...]:
    """How much closer letters may be, nothing first.

    >>> _steps(10), _steps(12)
    ((0, 5, 10), (0, 5, 10, 12))
    """
    return (*range(0, most, TIGHTER), most)


def _seen(part: Part, gauge: Gauge) -> tuple[int, float]:
    left, _, right, _ = gauge.ink(part[0], part[2])
    return part[1], right - left


@lru_cache(1024)
def _divisions(line: Line) -> tuple[_Division, ...]:
    """The ways to divide a line: whole, at one offset, at two."""
    found = []
    for count in range(MOST_BREAKS + 1):
        for chosen in itertools.combinations(sorted(set(line.breaks)), count):
            edges = (0, *chosen, len(line.text))
            texts = tuple(
                line.text[start:end].strip(" ") for start, end in itertools.pairwise(edges)
            )
            if count == 0:
                texts = (line.text,)
            if all(texts):
                found.append(_Division(chosen, texts, demerits.of_breaks(line, chosen, texts)))
    return tuple(found)
