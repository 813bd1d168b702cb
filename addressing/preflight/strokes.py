"""The finest stroke and the narrowest gap of a letter, measured across its outline.

Lines are laid over the letter in four directions. Where one crosses a stroke (or a gap between two
strokes) whose two edges run much the same way there, the breadth is the crossing's length times
the sine of the angle at which it is crossed. Tips and corners, whose edges converge, don't count,
nor does what is finer for less than a few lines: a point of a serif is no stroke.
"""

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from math import atan2, ceil, cos, hypot, inf, pi, sin, sqrt

from addressing.records.pages import Segment

LINES = 48
"""How many lines are laid over a letter in each direction."""
FEW = 3
"""So many crossings may be finer than what is told: together they are shorter than a stroke."""
SAG = 1 / 1500
"""How far a straight piece may leave its curve, as a part of the letter's height."""
_LIKE = 0.3
"""How far the directions of two edges of one stroke may differ, in radians (17 degrees)."""
_ACROSS = 0.5
"""The least sine of the angle at which an edge is crossed; another direction crosses it better."""
_TURNS = (0.0, pi / 4, pi / 2, 3 * pi / 4)

Edge = tuple[float, float, float, float]


def finest(outline: Sequence[Segment]) -> tuple[float, float]:
    """(the finest stroke, the narrowest gap) of a filled outline (nonzero), in its own units.

    Infinite where there is none, as for the gap of an l.
    """
    heights = [y for _, numbers in outline for y in numbers[1::2]]
    edges = list(edges_of(outline, (max(heights, default=1) - min(heights, default=0)) * SAG))
    strokes: list[float] = []
    gaps: list[float] = []
    for turn in _TURNS:
        for breadth, inside in _crossings(_turned(edges, turn)):
            (strokes if inside else gaps).append(breadth)
    return _told(strokes), _told(gaps)


def _told(breadths: list[float]) -> float:
    return sorted(breadths)[FEW] if len(breadths) > FEW else inf


def edges_of(outline: Sequence[Segment], sag: float) -> Iterator[Edge]:
    """The outline as straight edges, closed; none leaves its curve by more than `sag`."""
    x = y = first_x = first_y = 0.0
    for operator, numbers in outline:
        if operator == "m":
            x, y = first_x, first_y = numbers[0], numbers[1]
        elif operator == "l":
            yield x, y, numbers[0], numbers[1]
            x, y = numbers[0], numbers[1]
        elif operator == "c":
            steps = _steps((x, y, *numbers), sag)
            start = (x, y)
            for step in range(1, steps + 1):
                to = _on_curve((x, y), numbers, step / steps)
                yield *start, *to
                start = to
            x, y = numbers[4], numbers[5]
        else:
            yield x, y, first_x, first_y
            x, y = first_x, first_y


def _steps(points: Sequence[float], sag: float) -> int:
    """Into how many pieces a cubic is cut: its second differences bound how far they leave it."""
    bend = max(
        hypot(
            points[at] - 2 * points[at + 2] + points[at + 4],
            points[at + 1] - 2 * points[at + 3] + points[at + 5],
        )
        for at in (0, 2)
    )
    return max(1, ceil(sqrt(0.75 * bend / sag))) if sag > 0 else 1


def _on_curve(
    start: tuple[float, float], numbers: Sequence[float], at: float
) -> tuple[float, float]:
    a, b, c, d = (1 - at) ** 3, 3 * at * (1 - at) ** 2, 3 * at * at * (1 - at), at**3
    return (
        a * start[0] + b * numbers[0] + c * numbers[2] + d * numbers[4],
        a * start[1] + b * numbers[1] + c * numbers[3] + d * numbers[5],
    )


def _turned(edges: Sequence[Edge], turn: float) -> list[Edge]:
    if not turn:
        return list(edges)
    c, s = cos(turn), sin(turn)
    return [
        (x * c + y * s, y * c - x * s, to_x * c + to_y * s, to_y * c - to_x * s)
        for x, y, to_x, to_y in edges
    ]


def _crossings(edges: Sequence[Edge]) -> Iterator[tuple[float, bool]]:
    """(breadth, whether it is of a stroke) of what level lines cross, from the bottom up."""
    if not edges:
        return
    low = min([min(to_y, y) for _, y, _, to_y in edges])
    high = max([max(to_y, y) for _, y, _, to_y in edges])
    step = (high - low) / LINES
    levels = [low + (line + 0.5) * step for line in range(LINES)]
    at: list[list[tuple[float, int, float]]] = [[] for _ in levels]
    for x, y, to_x, to_y in edges:
        way, below, above = (1, y, to_y) if to_y > y else (-1, to_y, y)
        first, behind = bisect_left(levels, below), bisect_left(levels, above)
        if first < behind:  # most edges lie between two lines
            angle = atan2(above - below, (to_x - x) * way)
            for line in range(first, behind):
                cut = x + (levels[line] - y) / (to_y - y) * (to_x - x)
                at[line].append((cut, way, angle))
    for found in at:
        yield from _spans(sorted(found))


def _spans(found: Sequence[tuple[float, int, float]]) -> Iterator[tuple[float, bool]]:
    """The strokes and gaps of one line: winding says what is inside."""
    winding = 0
    open_at: tuple[float, float] | None = None
    last: tuple[float, float] | None = None
    for x, way, angle in found:
        before, winding = winding, winding + way
        if before == 0 and winding != 0:
            if last is not None:
                yield from _breadth(last, (x, angle), inside=False)
            open_at = (x, angle)
        elif before != 0 and winding == 0:
            if open_at is not None:
                yield from _breadth(open_at, (x, angle), inside=True)
            last = (x, angle)


def _breadth(
    one: tuple[float, float], other: tuple[float, float], *, inside: bool
) -> Iterator[tuple[float, bool]]:
    length = other[0] - one[0]
    across = sin((one[1] + other[1]) / 2)
    if length > 0 and abs(one[1] - other[1]) <= _LIKE and across >= _ACROSS:
        yield length * across, inside
