"""How much ink a plate lays down: the area of its letters, from their outlines."""

from collections.abc import Iterable
from functools import cache

from addressing.records.pages import Outlines, Page, Segment

MM2_PER_PT2 = (25.4 / 72) ** 2


def ink_area(pages: Iterable[Page], outlines: Outlines) -> tuple[float, float]:
    """The area of all letters on all pages, in mm²: of the names' hand, and of the address's.

    Where no plate parts the two all of it stands in the first.
    Where contours of one letter overlap (variable faces), the overlap counts twice. Renderings of
    plates by Ghostscript and by poppler cover the same within 2 per cent (three faces).
    """
    sizes = cache(lambda glyph: abs(glyph_area(outlines.glyphs.get(glyph, ()))))
    total = [0.0, 0.0]
    for page in pages:
        inks = page.inks or (0,) * len(page.lines)
        for (line, _, _, size), ink in zip(page.lines, inks, strict=True):
            scale = size / line.em
            total[ink] += sum(map(sizes, line.glyphs)) * scale * scale
    return total[0] * MM2_PER_PT2, total[1] * MM2_PER_PT2


def ink_box(page: Page) -> tuple[float, float]:
    """Width and height of the smallest upright rectangle that holds a page's ink, in points.

    A turned letter counts by the corners of its own rectangle: a little more than its ink.
    """
    across, up = [], []
    turns = page.turns or ((1.0, 0.0),) * len(page.lines)
    for (line, x, y, size), (cos, sin) in zip(page.lines, turns, strict=True):
        scale = size / line.em
        left, bottom, right, top = (edge * scale for edge in line.ink)
        for over, above in ((left, bottom), (left, top), (right, bottom), (right, top)):
            across.append(x + over * cos - above * sin)
            up.append(y + over * sin + above * cos)
    return (max(across) - min(across), max(up) - min(up)) if across else (0.0, 0.0)


def glyph_area(segments: tuple[Segment, ...]) -> float:
    """The signed area inside a glyph's outline, in font units squared (Green's theorem, exact)."""
    total = 0.0
    start = pen = (0.0, 0.0)
    for operator, numbers in segments:
        if operator == "m":
            start = pen = (numbers[0], numbers[1])
        elif operator == "l":
            end = (numbers[0], numbers[1])
            total += _cross(pen, end) / 2
            pen = end
        elif operator == "c":
            one, two, end = [(numbers[at], numbers[at + 1]) for at in (0, 2, 4)]
            total += _cubic(pen, one, two, end)
            pen = end
        else:
            total += _cross(pen, start) / 2
            pen = start
    return total


Point = tuple[float, float]


def _cross(one: Point, other: Point) -> float:
    return one[0] * other[1] - other[0] * one[1]


def _cubic(a: Point, b: Point, c: Point, d: Point) -> float:
    """Half the integral of x dy - y dx along a cubic."""
    return (
        6 * _cross(a, b)
        + 3 * _cross(a, c)
        + _cross(a, d)
        + 3 * _cross(b, c)
        + 3 * _cross(b, d)
        + 6 * _cross(c, d)
    ) / 20
