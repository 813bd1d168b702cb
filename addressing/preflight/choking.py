"""The base under an ink: is each letter's drawing as far inside the letter as was ordered?

Judged by what drawing in means: the base is all that lies deeper in the letter than the choke. So
every corner of the base, and the middle of every side, must lie as deep as that; and of points all
along the letter's edge and all over it the deeper ones must be in the base, and no others.
"""

from collections.abc import Collection, Iterator, Sequence
from functools import cached_property
from itertools import pairwise, product
from math import hypot

from addressing.preflight.faces import Faces
from addressing.preflight.strokes import Edge, edges_of
from addressing.records.pages import Segment, Setting, faces_of

SLACK = 0.6
"""Font units of the thousand to an em by which an edge may lie elsewhere: flattened curves."""
ALONG = 300
"""Pieces of a letter's edge beside which is looked; of more, so many evenly chosen."""
GRID = 9
"""Lines of points over a letter, each way."""
BANDS = 64
SAG = 0.02
"""Font units by which a straight piece may leave its curve. So little because curves may cross at a
small angle: where exactly they do then hangs on it many times over (the c_t of Playfair Display
has such a crossing, and a tenth of a unit moved it by two)."""
TINY = 1e-3


class Region:
    """A filled outline (nonzero): whether a point lies in it, and how deep."""

    def __init__(self, outline: Sequence[Segment]) -> None:
        """Sort its edges into level bands, so that few are looked at for a point."""
        self._edges = [edge for edge in edges_of(outline, SAG) if edge[:2] != edge[2:]]
        heights = [y for edge in self._edges for y in (edge[1], edge[3])]
        self.bottom, self.top = min(heights), max(heights)
        self.left = min(min(edge[0], edge[2]) for edge in self._edges)
        self.right = max(max(edge[0], edge[2]) for edge in self._edges)
        self._band = (self.top - self.bottom) / BANDS or 1.0
        self._bands: list[list[Edge]] = [[] for _ in range(BANDS)]
        for edge in self._edges:
            for band in self._numbers(edge):
                self._bands[band].append(edge)

    def _numbers(self, edge: Edge) -> range:
        low, high = sorted((edge[1], edge[3]))
        return range(self._number(low), self._number(high) + 1)

    def _number(self, y: float) -> int:
        return max(0, min(BANDS - 1, int((y - self.bottom) / self._band)))

    def holds(self, x: float, y: float) -> bool:
        """True when the winding around the point isn't nought."""
        if not self.bottom <= y <= self.top:
            return False
        winding = 0
        for from_x, from_y, to_x, to_y in self._bands[self._number(y)]:
            if (from_y <= y) != (to_y <= y):
                cross = (to_x - from_x) * (y - from_y) - (x - from_x) * (to_y - from_y)
                if to_y > from_y and cross > 0:
                    winding += 1
                elif to_y < from_y and cross < 0:
                    winding -= 1
        return winding != 0

    def depth(self, x: float, y: float, most: float) -> float:
        """How far a point lies inside the region's edge, `most` if farther than that; 0 outside."""
        if not self.holds(x, y):
            return 0.0
        rows = range(self._number(y - most), self._number(y + most) + 1)
        columns = range(int((x - most) // self._band), int((x + most) // self._band) + 1)
        near = (edge for cell in product(rows, columns) for edge in self._near.get(cell, ()))
        return min((_distance(x, y, edge) for edge in near), default=most)

    @cached_property
    def edge(self) -> tuple[Edge, ...]:
        """The true edge in pieces: where contours overlap, what lies within is none."""
        cells: dict[tuple[int, int], list[Edge]] = {}
        for edge in self._edges:
            for cell in self._cells(edge):
                cells.setdefault(cell, []).append(edge)
        pieces: list[Edge] = []
        for edge in self._edges:
            near = {other for cell in self._cells(edge) for other in cells[cell]}
            pieces += [piece for piece in _pieces(edge, near) if self._parts(piece)]
        return tuple(pieces)

    @cached_property
    def _near(self) -> dict[tuple[int, int], list[Edge]]:
        """The pieces of the true edge by the squares that they run through."""
        cells: dict[tuple[int, int], list[Edge]] = {}
        for piece in self.edge:
            for cell in self._cells(piece):
                cells.setdefault(cell, []).append(piece)
        return cells

    def within(self, piece: Edge, by: float) -> tuple[float, float]:
        """The point that lies so far inside the region from the middle of a piece of its edge."""
        x, y = (piece[0] + piece[2]) / 2, (piece[1] + piece[3]) / 2
        right, up = piece[3] - piece[1], piece[0] - piece[2]
        length = hypot(right, up)
        side = 1 if self.holds(x + right / length * TINY, y + up / length * TINY) else -1
        return x + side * right / length * by, y + side * up / length * by

    def _cells(self, edge: Edge) -> Iterator[tuple[int, int]]:
        """The squares that an edge may run through."""
        first, last = sorted((int(edge[0] // self._band), int(edge[2] // self._band)))
        return product(self._numbers(edge), range(first, last + 1))

    def _parts(self, piece: Edge) -> bool:
        """True when one side of it is inside, the other outside."""
        x, y = (piece[0] + piece[2]) / 2, (piece[1] + piece[3]) / 2
        right, up = piece[3] - piece[1], piece[0] - piece[2]
        length = hypot(right, up)
        if length < TINY:
            return False
        right, up = right / length * TINY, up / length * TINY
        return self.holds(x + right, y + up) != self.holds(x - right, y - up)


def _pieces(edge: Edge, near: Collection[Edge]) -> Iterator[Edge]:
    """An edge cut where others cross it."""
    cuts = sorted({0.0, 1.0, *(at for other in near for at in _crossing(edge, other))})
    for first, last in pairwise(cuts):
        yield (*_along(edge, first), *_along(edge, last))


def _along(edge: Edge, at: float) -> tuple[float, float]:
    return edge[0] + at * (edge[2] - edge[0]), edge[1] + at * (edge[3] - edge[1])


def _crossing(edge: Edge, other: Edge) -> Iterator[float]:
    """Where along an edge another crosses it, from 0 to 1; nowhere when they are parallel."""
    dx, dy = edge[2] - edge[0], edge[3] - edge[1]
    ex, ey = other[2] - other[0], other[3] - other[1]
    turn = dx * ey - dy * ex
    if turn:
        x, y = other[0] - edge[0], other[1] - edge[1]
        at, there = (x * ey - y * ex) / turn, (x * dy - y * dx) / turn
        if 0 < at < 1 and 0 <= there <= 1:
            yield at


def _distance(x: float, y: float, edge: Edge) -> float:
    dx, dy = edge[2] - edge[0], edge[3] - edge[1]
    at = ((x - edge[0]) * dx + (y - edge[1]) * dy) / (dx * dx + dy * dy)
    near = _along(edge, max(0.0, min(1.0, at)))
    return hypot(x - near[0], y - near[1])


def chokes_of(setting: Setting, faces: Faces) -> tuple[float, ...]:
    """How far the letters of each face are drawn in, in its font units; () without a base.

    As ordered at the set's size: what is set smaller is drawn in less, in proportion. A face of
    both hands is drawn in by the size of the larger.
    """
    if setting.underbase is None:
        return ()
    sizes = (setting.size, setting.size * setting.second.ratio if setting.second else 0.0)
    found = []
    for number, face in enumerate(faces_of(setting.hands)):
        own = [
            size
            for hand, size in zip(setting.hands, sizes, strict=False)
            if face.drawing
            in {each.drawing for each in (hand, *(other.face for other in hand.fallbacks))}
        ]
        units = faces.units_of(number)
        found.append(setting.underbase.choke / max(own) * units)
    return tuple(found)


def choke_faults(
    base: Sequence[Segment], letter: Sequence[Segment], by: float, units: int
) -> Iterator[str]:
    """Whether a base is its letter, drawn in by `by` font units; `units` make an em."""
    slack = SLACK * units / 1000
    if any(step == "c" for step, _ in base):
        yield "isn't drawn of straight pieces"
        return
    whole, drawn_in, most = Region(letter), Region(base), by + 2 * slack
    for x, y in _on_the_edge(base):
        depth = whole.depth(x, y, most)
        if abs(depth - by) > slack:
            where = "nearer to" if depth < by else "farther from"
            yield f"lies {where} the letter's edge than was ordered"
            return
    for x, y in (*_grid(whole), *_along_the_edge(whole, by + 1.5 * slack)):
        depth, covered = whole.depth(x, y, most), drawn_in.holds(x, y)
        if depth > by + slack and not covered:
            yield "lacks a part"
            return
        if depth < by - slack and covered:
            yield "covers more than it should"
            return


def _on_the_edge(base: Sequence[Segment]) -> Iterator[tuple[float, float]]:
    """Every corner of a base, and the middle of every side."""
    first = last = (0.0, 0.0)
    for step, numbers in base:
        here = first if step == "h" else (numbers[0], numbers[1])
        if step == "m":
            first = here
        elif here != last:
            yield (last[0] + here[0]) / 2, (last[1] + here[1]) / 2
        if step != "h":
            yield here
        last = here


def _along_the_edge(region: Region, by: float) -> Iterator[tuple[float, float]]:
    """Points all along the edge, on it and so far within: no part is too small to have some."""
    for piece in region.edge[:: max(1, len(region.edge) // ALONG)]:
        yield region.within(piece, 0.0)
        yield region.within(piece, by)


def _grid(region: Region) -> Iterator[tuple[float, float]]:
    for row in range(GRID):
        for column in range(GRID):
            yield (
                region.left + (region.right - region.left) * (column + 0.5) / GRID,
                region.bottom + (region.top - region.bottom) * (row + 0.5) / GRID,
            )
