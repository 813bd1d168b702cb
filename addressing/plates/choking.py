"""Outlines drawn in: the base under an ink is a little smaller, so that it can't show beside it.

Worked out on the outlines themselves: the new edge lies everywhere as far inside the old one as
was ordered. Curves become straight pieces that leave them by less than can be printed.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from math import ceil, hypot, sqrt

import pyclipper

from addressing.faults import Exit, Fault
from addressing.records.pages import FACE, Segment
from addressing.records.plates import BASE

_SCALE = 1000
"""Clipper reckons in whole numbers: thousandths of a font unit, as a plate writes them."""
_SAG = 0.02
"""Font units by which a straight piece may leave its curve: little, since where curves cross at a
small angle the place of the crossing hangs on it many times over."""
_ROUND = 0.25
"""Font units by which the pieces of a rounded corner may leave its arc."""
_SPARE = 0.1
"""Corners that lie nearer than so many font units to the line past them are left out of a base.
Each is held against the line that stays, not the last one left out: along a stem of many flat
corners a line that only skips its neighbours drifts off by far more (as Clipper's cleaning did)."""

Ring = list[tuple[int, int]]


class Choked(Mapping[int, tuple[Segment, ...]]):
    """The letters of a set, each drawn in by its face's choke when it is first asked for."""

    def __init__(
        self, outlines: Mapping[int, tuple[Segment, ...]], chokes: Sequence[float]
    ) -> None:
        """`chokes` are in font units, one for each face of the set."""
        self._outlines = outlines
        self._chokes = chokes
        self._drawn: dict[int, tuple[Segment, ...]] = {}

    def __getitem__(self, glyph: int) -> tuple[Segment, ...]:
        """The letter drawn in; a blank is blank.

        Raises:
            Fault: nothing of it would be left (exit 3).
        """
        if glyph not in self._drawn:
            outline = self._outlines[glyph]
            self._drawn[glyph] = choked(outline, self._chokes[glyph // FACE]) if outline else ()
        return self._drawn[glyph]

    def __iter__(self) -> Iterator[int]:
        """The letters' numbers."""
        return iter(self._outlines)

    def __len__(self) -> int:
        """How many letters there are."""
        return len(self._outlines)


class Beside(Mapping[int, tuple[Segment, ...]]):
    """The letters of a set, and above them those of the base that shares their file."""

    def __init__(self, letters: Mapping[int, tuple[Segment, ...]], base: Choked) -> None:
        """`base` has the same letters, drawn in."""
        self._letters = letters
        self._base = base

    def __getitem__(self, letter: int) -> tuple[Segment, ...]:
        """A letter by the plate's number: from BASE on it is the base's.

        Raises:
            Fault: nothing of it would be left (exit 3).
        """
        return self._base[letter - BASE] if letter >= BASE else self._letters[letter]

    def __iter__(self) -> Iterator[int]:
        """The letters' numbers."""
        yield from self._letters
        yield from (BASE + letter for letter in self._base)

    def __len__(self) -> int:
        """How many letters there are."""
        return len(self._letters) + len(self._base)


def choked(outline: Sequence[Segment], by: float) -> tuple[Segment, ...]:
    """A filled outline (nonzero) drawn in by some units on every side, as straight contours.

    Raises:
        Fault: nothing is left of it (exit 3).
    """
    whole = pyclipper.Pyclipper()
    whole.AddPaths(list(_rings(outline)), pyclipper.PT_SUBJECT, closed=True)
    united = whole.Execute(pyclipper.CT_UNION, pyclipper.PFT_NONZERO, pyclipper.PFT_NONZERO)
    offset = pyclipper.PyclipperOffset(arc_tolerance=_ROUND * _SCALE)
    offset.AddPaths(united, pyclipper.JT_ROUND, pyclipper.ET_CLOSEDPOLYGON)
    drawn_in = offset.Execute(-by * _SCALE)
    rings = [thin for ring in drawn_in if len(thin := _thinned(ring)) > 2]  # noqa: PLR2004 - an area
    if not rings:
        raise Fault(
            Exit.INPUT,
            "choke-too-large",
            "The base under a letter would vanish: its strokes are finer than twice the choke.",
            "Make choke_mm less in the docket, or choose a heavier face or a larger size.",
        )
    return tuple(step for ring in rings for step in _drawn(ring))


def _thinned(ring: Ring) -> Ring:
    """The ring without corners that nobody would miss (Ramer, Douglas and Peucker's way)."""
    far = max(range(len(ring)), key=lambda at: _off(ring[at], ring[0], ring[0]))
    open_ring = [*ring, ring[0]]
    kept = {0, far}
    spans = [(0, far), (far, len(ring))]
    while spans:
        first, last = spans.pop()
        between = range(first + 1, last)
        worst = max(between, key=_from(open_ring, first, last), default=None)
        if worst is None or _from(open_ring, first, last)(worst) <= _SPARE * _SCALE:
            continue
        kept.add(worst)
        spans += [(first, worst), (worst, last)]
    return [ring[at] for at in sorted(kept)]


def _from(ring: Ring, first: int, last: int) -> Callable[[int], float]:
    """How far corners lie from the line between two others."""
    return lambda at: _off(ring[at], ring[first], ring[last])


def _off(point: tuple[int, int], start: tuple[int, int], end: tuple[int, int]) -> float:
    """How far a point lies from a stretch of a line."""
    (x, y), (dx, dy) = point, (end[0] - start[0], end[1] - start[1])
    x, y = x - start[0], y - start[1]
    along = x * dx + y * dy
    length = dx * dx + dy * dy
    at = min(1.0, max(0.0, along / length)) if length else 0.0
    return hypot(x - at * dx, y - at * dy)


def _drawn(ring: Ring) -> Iterator[Segment]:
    (x, y), *rest = ring
    yield "m", (x / _SCALE, y / _SCALE)
    for to_x, to_y in rest:
        yield "l", (to_x / _SCALE, to_y / _SCALE)
    yield "h", ()


def _rings(outline: Sequence[Segment]) -> Iterator[Ring]:
    ring: list[tuple[float, float]] = []
    for operator, numbers in outline:
        if operator == "m":
            ring = [(numbers[0], numbers[1])]
        elif operator == "l":
            ring.append((numbers[0], numbers[1]))
        elif operator == "c":
            ring.extend(_on_curve(ring[-1], numbers))
        elif len(ring) > 2:  # noqa: PLR2004 - less has no area
            yield [(round(x * _SCALE), round(y * _SCALE)) for x, y in ring]


def _on_curve(
    start: tuple[float, float], numbers: Sequence[float]
) -> Iterator[tuple[float, float]]:
    """Points on a cubic, so many that no piece between two leaves it by more than the sag."""
    points = (*start, *numbers)
    bend = max(
        hypot(
            points[at] - 2 * points[at + 2] + points[at + 4],
            points[at + 1] - 2 * points[at + 3] + points[at + 5],
        )
        for at in (0, 2)
    )
    steps = max(1, ceil(sqrt(0.75 * bend / _SAG)))
    for step in range(1, steps + 1):
        t = step / steps
        a, b, c, d = (1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3
        yield (
            a * points[0] + b * points[2] + c * points[4] + d * points[6],
            a * points[1] + b * points[3] + c * points[5] + d * points[7],
        )
