"""Cost against quantity, a line for each way, each named at its end: SVG, PDF and PNG.

The picture is a list of lines and words first; PDF and SVG draw the same list.
"""

from collections.abc import Iterator
from contextlib import closing
from dataclasses import dataclass
from io import BytesIO
from xml.sax.saxutils import escape

import pypdfium2 as pdfium

from addressing.proofs.flow import Block, Imprint, Pen, Sheet, write_sheets
from addressing.proofs.lettering import Cut, Style
from addressing.proofs.look import ASIDE, FAINT, FOOTING, GREY, HAIRLINE, HEAD, INK, MARGIN, SMALL
from addressing.records.costs import CostPicture

WIDE, DEEP = 560.0, 300.0
"""The picture with its words, points."""
_LEFT, _RIGHT, _TOP, _BOTTOM = 48.0, 350.0, 270.0, 38.0
_COLOURS = ((0.13, 0.35, 0.30), (0.64, 0.32, 0.12), (0.25, 0.30, 0.55), (0.45, 0.20, 0.40), GREY)
_APART = 12.0
_DPI_SCALE = 3.0

Point = tuple[float, float]
Colour = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class Stroke:
    """A line through points; the origin is the lower left corner."""

    points: tuple[Point, ...]
    colour: Colour
    weight: float


@dataclass(frozen=True, slots=True)
class Label:
    """Words on a baseline; `align` tells which end stands there."""

    at: Point
    text: str
    style: Style
    align: str = "left"


def cost_svg(picture: CostPicture) -> bytes:
    """The picture as SVG 1.1, its words as text."""
    parts = "\n".join(_element(each) for each in _shapes(picture))
    head = f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDE:g} {DEEP:g}"'
    face = 'font-family="EB Garamond, Georgia, serif"'
    ground = f'<rect width="{WIDE:g}" height="{DEEP:g}" fill="#fff"/>'
    return f"{head} {face}>\n<title>Cost</title>\n{ground}\n{parts}\n</svg>\n".encode()


def cost_pdf(picture: CostPicture) -> bytes:
    """The picture as a PDF of one page."""
    shapes = tuple(_shapes(picture))

    def draw(pen: Pen, left: float, top: float) -> None:
        for each in shapes:
            _draw(pen, each, left, top - DEEP)

    drawn = BytesIO()
    sheet = Sheet(WIDE + 2 * MARGIN, DEEP + HEAD + FOOTING)
    footer = "These prices are invented." if picture.invented else ""
    imprint = Imprint(title="Cost", producer="addressing", footer=footer)
    write_sheets(drawn, sheet, (Block(DEEP, draw),), imprint)
    return drawn.getvalue()


def cost_png(picture: CostPicture) -> bytes:
    """The picture as PNG, from its PDF."""
    written = BytesIO()
    with (
        closing(pdfium.PdfDocument(cost_pdf(picture))) as document,
        closing(document[0]) as page,
        closing(page.render(scale=_DPI_SCALE)) as bitmap,
    ):
        bitmap.to_pil().save(written, "PNG")
    return written.getvalue()


def _shapes(picture: CostPicture) -> Iterator[Stroke | Label]:
    most = len(picture.lines[0].costs)
    dearest = max(float(line.costs[-1]) for line in picture.lines)
    step = _round_step(dearest)
    ceiling = step * (int(dearest / step) + 1)

    def place(quantity: float, cost: float) -> Point:
        across = _LEFT + (_RIGHT - _LEFT) * quantity / most
        return across, _BOTTOM + (_TOP - _BOTTOM) * cost / ceiling

    yield Label((0, _TOP + 14), f"Cost of everything, {picture.currency}", ASIDE)
    for number in range(int(ceiling / step) + 1):
        level = place(0, number * step)
        yield Stroke((level, (_RIGHT, level[1])), HAIRLINE, 0.5)
        yield Label((_LEFT - 6, level[1] - 3), f"{number * step:,}", SMALL, "right")
    wide = _round_step(most)
    for quantity in range(0, most + 1, wide):
        yield Label((place(quantity, 0)[0], _BOTTOM - 13), f"{quantity:,}", SMALL, "centre")
    yield Label((_RIGHT, _BOTTOM - 28), "addressed envelopes", ASIDE, "right")
    here = place(picture.here, 0)[0]
    yield Stroke(((here, _BOTTOM), (here, _TOP)), FAINT, 0.7)
    yield Label((here, _TOP + 3), f"this job: {picture.here}", SMALL, "centre")
    ends = []
    for at, line in enumerate(picture.lines):
        points = tuple(
            place(n, float(cost)) for n, cost in enumerate(line.costs, start=1) if cost.is_finite()
        )
        yield Stroke(points, _COLOURS[at % len(_COLOURS)], 1.4)
        ends.append((points[-1][1], at))
    yield from _named(picture, ends)
    for quantity, at in picture.crossings[1:]:
        x, y = place(quantity, float(picture.lines[at].costs[quantity - 1]))
        yield Stroke(((x - 3, y - 3), (x + 3, y + 3)), INK, 1.0)
        yield Stroke(((x - 3, y + 3), (x + 3, y - 3)), INK, 1.0)
        yield Label((x + 6, y - 11), f"from {quantity}", SMALL)


def _named(picture: CostPicture, ends: list[tuple[float, int]]) -> Iterator[Label]:
    """Each way's name at the end of its line, moved up where two would touch."""
    lowest = 0.0
    for height, at in sorted(ends):
        y = max(height - 3, lowest)
        lowest = y + _APART
        colour = _COLOURS[at % len(_COLOURS)]
        style = Style(Cut.ROMAN, 8.5, 11, colour)
        yield Label((_RIGHT + 7, y), picture.lines[at].title, style)


def _round_step(most: float) -> int:
    """A round number of which some four to ten go into `most`.

    >>> _round_step(325), _round_step(1400), _round_step(9)
    (50, 200, 1)
    """
    step = 1
    for step in (unit * 10**power for power in range(7) for unit in (1, 2, 5)):
        if most / step <= 9:  # noqa: PLR2004 - ten figures on an axis are enough
            break
    return step


def _draw(pen: Pen, shape: Stroke | Label, left: float, low: float) -> None:
    if isinstance(shape, Label):
        x, y = shape.at
        pen.words(left + x, low + y, shape.text, shape.style, shape.align)
        return
    path = pen.canvas.beginPath()
    path.moveTo(left + shape.points[0][0], low + shape.points[0][1])
    for x, y in shape.points[1:]:
        path.lineTo(left + x, low + y)
    pen.canvas.setStrokeColorRGB(*shape.colour)
    pen.canvas.setLineWidth(shape.weight)
    pen.canvas.drawPath(path)


def _element(shape: Stroke | Label) -> str:
    """A shape in SVG, whose y runs downwards."""
    if isinstance(shape, Stroke):
        points = " ".join(f"{x:.2f},{DEEP - y:.2f}" for x, y in shape.points)
        colour = _hex(shape.colour)
        return (
            f'<polyline points="{points}" fill="none" stroke="{colour}"'
            f' stroke-width="{shape.weight:g}"/>'
        )
    anchor = {"left": "start", "right": "end"}.get(shape.align, "middle")
    slant = ' font-style="italic"' if shape.style.cut is Cut.ITALIC else ""
    x, y = shape.at
    return (
        f'<text x="{x:.2f}" y="{DEEP - y:.2f}" font-size="{shape.style.size:g}"{slant}'
        f' text-anchor="{anchor}" fill="{_hex(shape.style.colour)}">{escape(shape.text)}</text>'
    )


def _hex(colour: Colour) -> str:
    return "#" + "".join(f"{round(part * 255):02x}" for part in colour)
