"""The drawing of glyphs: cubic outlines in font units, and the exact bounds of their ink."""

import math
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

import uharfbuzz as hb

from addressing.records.pages import FACE, Segment

Bounds = tuple[float, float, float, float]
"""Left, bottom, right, top of ink."""


class _Pencil:
    """Takes HarfBuzz's drawing calls and keeps them as segments, all curves as cubics."""

    __slots__ = ("at", "segments")

    def __init__(self) -> None:
        self.at = (0.0, 0.0)
        self.segments: list[Segment] = []


def _move(x: float, y: float, pencil: _Pencil) -> None:
    pencil.segments.append(("m", (x, y)))
    pencil.at = (x, y)


def _line(x: float, y: float, pencil: _Pencil) -> None:
    pencil.segments.append(("l", (x, y)))
    pencil.at = (x, y)


def _quadratic(cx: float, cy: float, x: float, y: float, pencil: _Pencil) -> None:
    """Raise a quadratic to the cubic that is the very same curve."""
    ax, ay = pencil.at
    pencil.segments.append(
        ("c", ((ax + 2 * cx) / 3, (ay + 2 * cy) / 3, (x + 2 * cx) / 3, (y + 2 * cy) / 3, x, y))
    )
    pencil.at = (x, y)


def _cubic(  # noqa: PLR0913, PLR0917 - the order of arguments is HarfBuzz's
    ax: float, ay: float, bx: float, by: float, x: float, y: float, pencil: _Pencil
) -> None:
    pencil.segments.append(("c", (ax, ay, bx, by, x, y)))
    pencil.at = (x, y)


def _close(pencil: _Pencil) -> None:
    pencil.segments.append(("h", ()))


def _draw_functions() -> Any:  # noqa: ANN401 - the library has no types
    functions = hb.DrawFuncs()
    functions.set_move_to_func(_move)
    functions.set_line_to_func(_line)
    functions.set_quadratic_to_func(_quadratic)
    functions.set_cubic_to_func(_cubic)
    functions.set_close_path_func(_close)
    return functions


_DRAW = _draw_functions()


def draw_glyph(font: Any, glyph: int) -> tuple[Segment, ...]:  # noqa: ANN401 - no types
    """The outline of a glyph with its components joined in; empty for a blank."""
    pencil = _Pencil()
    font.draw_glyph(glyph, _DRAW, pencil)
    return tuple(pencil.segments)


def _turns(a: float, b: float, c: float, d: float) -> Iterator[float]:
    """Where in (0, 1) one coordinate of a cubic turns round: the roots of its derivative."""
    square, linear, constant = d - 3 * c + 3 * b - a, 2 * (c - 2 * b + a), b - a
    if abs(square) < 1e-12 * (abs(linear) + abs(constant)):  # no t² left
        roots: tuple[float, ...] = (-constant / linear,) if linear else ()
    else:
        under = linear * linear - 4 * square * constant
        if under < 0:
            return
        root = math.sqrt(under)
        roots = ((-linear + root) / (2 * square), (-linear - root) / (2 * square))
    for t in roots:
        if 0 < t < 1:
            yield t


def _reach(a: float, b: float, c: float, d: float) -> tuple[float, float]:
    """The least and greatest value of one coordinate along a cubic."""
    low, high = min(a, d), max(a, d)
    if low <= b <= high and low <= c <= high:
        return low, high
    for t in _turns(a, b, c, d):
        u = 1 - t
        value = u * u * u * a + 3 * u * u * t * b + 3 * u * t * t * c + t * t * t * d
        low, high = min(low, value), max(high, value)
    return low, high


def ink_bounds(outline: tuple[Segment, ...]) -> Bounds | None:
    """The exact bounds of an outline's curves (not of its control points); None for a blank.

    >>> ink_bounds((("m", (0, 0)), ("c", (0, 100, 100, 100, 100, 0)), ("h", ())))
    (0, 0, 100, 75.0)
    """
    xs: list[float] = []
    ys: list[float] = []
    at_x = at_y = 0.0
    for operator, numbers in outline:
        if operator == "c":
            xs += _reach(at_x, numbers[0], numbers[2], numbers[4])
            ys += _reach(at_y, numbers[1], numbers[3], numbers[5])
        elif operator != "h":
            xs.append(numbers[0])
            ys.append(numbers[1])
        if numbers:
            at_x, at_y = numbers[-2], numbers[-1]
    if not xs:
        return None
    return min(xs), min(ys), max(xs), max(ys)


class GlyphOutlines(Mapping[int, tuple[Segment, ...]]):
    """Every glyph of a font, each drawn when it is first asked for and kept."""

    def __init__(self, font: Any, count: int) -> None:  # noqa: ANN401 - the library has no types
        """`font` is HarfBuzz's, at its place on the axes; `count` is its number of glyphs."""
        self._font = font
        self._count = count
        self._drawn: dict[int, tuple[Segment, ...]] = {}

    def __getitem__(self, glyph: int) -> tuple[Segment, ...]:
        """The outline of a glyph; KeyError for a number that the font doesn't have."""
        drawn = self._drawn.get(glyph)
        if drawn is None:
            if not 0 <= glyph < self._count:
                raise KeyError(glyph)
            drawn = self._drawn[glyph] = draw_glyph(self._font, glyph)
        return drawn

    def __iter__(self) -> Iterator[int]:
        """The numbers of all glyphs."""
        return iter(range(self._count))

    def __len__(self) -> int:
        """How many glyphs the font has."""
        return self._count


class SetOutlines(Mapping[int, tuple[Segment, ...]]):
    """The glyphs of several faces, by their numbers in the set."""

    def __init__(self, faces: Sequence[GlyphOutlines]) -> None:
        """`faces` in the order of their numbers."""
        self._faces = faces

    def __getitem__(self, glyph: int) -> tuple[Segment, ...]:
        """The outline of a glyph; KeyError for a number that no face has."""
        number, own = divmod(glyph, FACE)
        if not 0 <= number < len(self._faces):
            raise KeyError(glyph)
        return self._faces[number][own]

    def __iter__(self) -> Iterator[int]:
        """The numbers of all glyphs."""
        return (
            number * FACE + own
            for number, face in enumerate(self._faces)
            for own in range(len(face))
        )

    def __len__(self) -> int:
        """How many glyphs the faces have together."""
        return sum(map(len, self._faces))
