"""Lines that aren't level: bent onto concentric arcs, or turned as a whole by quarters.

A block is set level first, in its flat room. Bent, the first line's baseline becomes an arc of the
zone's radius whose highest ("arch") or lowest point ("bowl") stands in the middle of the room, the
other lines arcs about the same centre. Each letter is turned about the middle of its ink, on its
baseline, and keeps its shape. Letters on the outside of a curve drift apart above the baseline, on
its inside they crowd; so what stood so far along the line from its middle stands so far along an
arc at half of the letters' height, about which the spaces between them are even. Turned, the block
goes round the middle of the room.
"""

import math
from collections.abc import Iterable, Iterator, Sequence
from statistics import median
from typing import NamedTuple

from addressing.records.pages import ShapedLine, Word
from addressing.records.shelf import Box, Zone
from addressing.typesetting.outlines import Bounds

STEEPEST = math.radians(75)
"""A letter that leans more can't be read in its line any more."""

Place = tuple[float, float, float, float]
"""Where the origin stands (pt), and the cosine and sine of the angle by which it is turned."""


class Arc(NamedTuple):
    """A baseline: its radius and how its centre lies to its middle: below (1) or above (-1).

    Letters are as far apart as on a level line at the height `even` above it.
    """

    radius: float
    side: int
    even: float = 0.0

    @property
    def pace(self) -> float:
        """The radius of the arc on which lengths are those of the level line."""
        return self.radius + self.side * self.even

    def at(self, along: float, up: float, back: float) -> Place:
        """Where a letter's origin stands, from the arc's middle.

        The middle of its ink was `along` the level line from there; the origin is `back` from the
        middle of the ink, and `up` above the baseline.
        """
        angle = along / self.pace
        cos, sin = math.cos(angle), -self.side * math.sin(angle)
        x = self.radius * math.sin(angle)
        y = self.side * self.radius * (cos - 1)
        return x - back * cos - up * sin, y - back * sin + up * cos, cos, sin


class Letter(NamedTuple):
    """A letter in a level line, in em of the set's size.

    `ink` are its bounds from the middle of its ink, on the baseline; `middle` is where that is.
    """

    middle: float
    ink: Bounds


def arcs(side: int, radius: float, sinks: Sequence[float]) -> list[Arc]:
    """The baselines of a block, the first with this radius; `sinks` are those of all lines.

    A radius of nought or less stands for an arc that can't be.
    """
    return [Arc(radius - side * sunk, side) for sunk in sinks]


def even_height(inks: Iterable[tuple[float, float]]) -> float:
    """The height at which a line's letters keep their distances: the middle of most letters' ink.

    `inks` are how low and how high each letter reaches, from the baseline; a swash or a comma among
    them changes nothing.
    """
    return median([(low + high) / 2 for low, high in inks])


def reach(
    letters: Sequence[Sequence[Letter]],
    size: float,
    baselines: Sequence[Arc],
    sinks: Sequence[float],
    middles: Sequence[float],
) -> Bounds | None:
    """The bounds (pt) of a bent block from the middle of its first baseline.

    Each line stands with its own of the `middles` (em) in the arc's. Letters count with the
    corners of their ink, so their ink is never outside. None when a line is too long for its arc.
    """
    boxes: list[Bounds] = []
    for line, arc, sunk, centre in zip(letters, baselines, sinks, middles, strict=True):
        if not line:
            continue
        first = min(one.middle + one.ink[0] for one in line)
        last = max(one.middle + one.ink[2] for one in line)
        half = max(centre - first, last - centre) * size
        even = even_height((one.ink[1], one.ink[3]) for one in line) * size
        bend = arc._replace(even=even)
        if min(bend.radius, bend.pace) <= 0 or half / bend.pace > STEEPEST:
            return None
        boxes += [_box(one, (one.middle - centre) * size, size, bend, sunk) for one in line]
    if not boxes:
        return 0.0, 0.0, 0.0, 0.0
    lefts, bottoms, rights, tops = zip(*boxes, strict=True)
    return min(lefts), min(bottoms), max(rights), max(tops)


def _box(one: Letter, along: float, size: float, arc: Arc, sunk: float) -> Bounds:
    x, y, cos, sin = arc.at(along, 0.0, 0.0)
    left, bottom, right, top = (edge * size for edge in one.ink)
    xs = [x + a * cos - b * sin for a in (left, right) for b in (bottom, top)]
    ys = [y - sunk + a * sin + b * cos for a in (left, right) for b in (bottom, top)]
    return min(xs), min(ys), max(xs), max(ys)


def bow(zone: Zone) -> int:
    """Whether a zone's arcs have their centre below (1), above (-1), or are none (0)."""
    return {"arch": 1, "bowl": -1}.get(zone.align, 0)


def flat_room(zone: Zone, room: Box) -> Box:
    """The room as it is before the block is turned: about the same middle."""
    if zone.turn % 180 == 0:
        return room
    x, y = room.left + room.width / 2, room.bottom + room.height / 2
    return Box(x - room.height / 2, y - room.width / 2, room.height, room.width)


def turned(zone: Zone, room: Box, place: Place) -> Place:
    """A place of the flat room on the page."""
    if not zone.turn:
        return place
    cos, sin = ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))[zone.turn // 90]
    x, y = room.left + room.width / 2, room.bottom + room.height / 2
    over, up = place[0] - x, place[1] - y
    return (
        x + over * cos - up * sin,
        y + over * sin + up * cos,
        place[2] * cos - place[3] * sin,
        place[2] * sin + place[3] * cos,
    )


def _letter(glyph: int, advance: int, ink: Bounds) -> Word:
    return Word((glyph,), (0,), (0,), (advance, 0, *ink))


def bent(
    words: ShapedLine,
    at: tuple[float, float, float],
    arc: Arc,
    axis: float,
    inks: Sequence[Bounds | None],
) -> Iterator[tuple[ShapedLine, Place]]:
    """The letters of a level line, each by itself where it stands on its arc.

    `at` is the level line's origin and size (pt), `axis` the x of the arc's middle, `inks` the ink
    of each glyph in font units. The first letter carries the line's words, for those who search.
    """
    x, y, size = at
    scale = size / words.em
    text = words.text
    for (glyph, dx, dy), ink in zip(words.placed(), inks, strict=True):
        if ink is None:
            continue
        back = (ink[0] + ink[2]) / 2 * scale
        along = x + dx * scale + back - axis
        over, up, cos, sin = arc.at(along, dy * scale, back)
        advance = words.advance if text else 0
        yield (
            ShapedLine(text, (_letter(glyph, advance, ink),), words.em),
            (axis + over, y + up, cos, sin),
        )
        text = ""
