"""An envelope on the sheet: its paper, its flap, its words from the plate's own outlines."""

import math
from dataclasses import dataclass

from addressing.proofs.flow import Pen
from addressing.proofs.lettering import Cut, Style, runs, width
from addressing.proofs.look import FAINT, INK
from addressing.records.pages import Page, Segment, ShapedLine
from addressing.records.pieces import Role
from addressing.records.proofs import ProofSet
from addressing.records.shelf import Layout

Colour = tuple[float, float, float]
WHITE: Colour = (1.0, 1.0, 1.0)
SHADE = 0.86
"""The edge is the paper's colour, this much darker: seen on white stock, quiet on dark."""
RIM = 0.025
"""How far a varnish's rim stands aside and below, as a part of the line's size (by eye)."""
POINTED = frozenset({"pointed", "euro"})


@dataclass(frozen=True, slots=True)
class Spot:
    """Where an envelope stands: its lower left corner in points, and its scale."""

    x: float
    y: float
    scale: float


@dataclass(frozen=True, slots=True)
class Paint:
    """Colours of paper and ink, and whether the edge is dashed (what won't be printed yet)."""

    paper: Colour
    ink: Colour
    edge: Colour
    dashed: bool = False
    second: Colour | None = None
    """The address's ink, where it has one of its own."""
    coat: Colour | None = None
    """A varnish's stand-in: a rim below the letters that it lies over."""


GHOST = Paint(paper=WHITE, ink=FAINT, edge=FAINT, dashed=True)
"""An envelope that waits for an answer."""


def paint_of(shown: ProofSet) -> Paint:
    """The real colours: the stock's, and the ink's on the screen."""
    paper = shown.stock.screen
    edge = (paper[0] * SHADE, paper[1] * SHADE, paper[2] * SHADE)
    setting = shown.setting
    own = setting.second.ink if setting.second is not None else None
    second = own.screen if own is not None else None
    coat = setting.varnish.ink.screen if setting.varnish is not None else None
    return Paint(paper=paper, ink=setting.ink.screen, edge=edge, second=second, coat=coat)


def draw_envelope(pen: Pen, spot: Spot, shown: ProofSet, page: Page, paint: Paint) -> None:
    """Draw one page of a set on its envelope.

    Under the outlines lie the same words as text that isn't painted, so that the proof can be
    searched and read aloud.
    """
    layout = shown.setting.layout
    draw_paper(pen, spot, layout, paint)
    inks = page.inks or (0,) * len(page.lines)
    turns = page.turns or ((1.0, 0.0),) * len(page.lines)
    varnish = shown.setting.varnish
    over = [varnish is not None and varnish.covers(role) for role in (Role.NAME, Role.STREET)]
    for (line, x, y, size), ink, (cos, sin) in zip(page.lines, inks, turns, strict=True):
        place = (spot.x + x * spot.scale, spot.y + y * spot.scale)
        em = size * spot.scale / line.em
        step = (em * cos, em * sin, -em * sin, em * cos)
        if over[ink] and paint.coat is not None:
            aside = RIM * size * spot.scale
            _draw_line(pen, shown, line, (*step, place[0] + aside, place[1] - aside), paint.coat)
        colour = (paint.second if ink else None) or paint.ink
        _draw_line(pen, shown, line, (*step, *place), colour)
        _hidden_words(pen, place, line.text, size * spot.scale, line.advance * em)


def _draw_line(
    pen: Pen, shown: ProofSet, line: ShapedLine, step: tuple[float, ...], colour: Colour
) -> None:
    """The letters of a line; `step` takes font units to its place on the sheet."""
    canvas = pen.canvas
    canvas.saveState()
    canvas.setFillColorRGB(*colour)
    canvas.transform(*step)
    before = (0, 0)
    for glyph, gx, gy in line.placed():
        segments = shown.outlines.glyphs.get(glyph, ())
        if segments:
            # As text: reportlab's translate formats six floats a glyph, a third of the time.
            canvas.addLiteral(f"1 0 0 1 {gx - before[0]} {gy - before[1]} cm")
            canvas.doForm(_form(pen, shown, glyph, segments))
            before = (gx, gy)
    canvas.restoreState()


def draw_paper(pen: Pen, spot: Spot, layout: Layout, paint: Paint) -> None:
    """The envelope's rectangle at true proportions, with a soft edge."""
    canvas = pen.canvas
    canvas.saveState()
    canvas.setFillColorRGB(*paint.paper)
    canvas.setStrokeColorRGB(*paint.edge)
    canvas.setLineWidth(0.5)
    if paint.dashed:
        canvas.setDash(2.5, 2)
    canvas.rect(spot.x, spot.y, layout.width * spot.scale, layout.height * spot.scale, fill=1)
    canvas.restoreState()


def draw_flap(pen: Pen, spot: Spot, layout: Layout, paint: Paint) -> None:
    """The flap's edge on the back of the closed envelope, as a line between paper and ink."""
    if layout.flap_depth <= 0:
        return
    across, top = layout.width * spot.scale, spot.y + layout.height * spot.scale
    depth = layout.flap_depth * spot.scale
    inset = across / 2 if layout.flap in POINTED else min(depth * 0.35, across / 8)
    canvas = pen.canvas
    canvas.saveState()
    mixed = tuple(0.65 * a + 0.35 * b for a, b in zip(paint.paper, paint.ink, strict=True))
    canvas.setStrokeColorRGB(*mixed)
    canvas.setLineWidth(0.6)
    canvas.setLineJoin(1)
    edge = canvas.beginPath()
    edge.moveTo(spot.x, top)
    edge.lineTo(spot.x + inset, top - depth)
    edge.lineTo(spot.x + across - inset, top - depth)
    edge.lineTo(spot.x + across, top)
    canvas.drawPath(edge, stroke=1, fill=0)
    canvas.restoreState()


def _hidden_words(
    pen: Pen, place: tuple[float, float], text: str, size: float, advance: float
) -> None:
    """The line as text in a plain face, as wide as the outlines, painted nowhere."""
    style = Style(Cut.ROMAN, size, size, INK)
    plain = width(text, style)
    if plain <= 0:
        return
    words = pen.canvas.beginText(*place)
    words.setTextRenderMode(3)
    words.setHorizScale(100 * advance / plain if advance > 0 else 100)
    for cut, run in runs(text, style.cut):
        words.setFont(cut.value, size)
        words.textOut(run)
    words.setHorizScale(100)
    words.setTextRenderMode(0)
    pen.canvas.drawText(words)


def _form(pen: Pen, shown: ProofSet, glyph: int, segments: tuple[Segment, ...]) -> str:
    """The name of a glyph's form; it is drawn into the file when it is first asked for."""
    name = f"{shown.setting.kind}-{glyph}"
    if name in pen.drawn:
        return name
    pen.drawn.add(name)
    canvas = pen.canvas
    canvas.beginForm(name, *_bounds(segments))
    path = canvas.beginPath()
    for operator, numbers in segments:
        match operator:
            case "m":
                path.moveTo(*numbers)
            case "l":
                path.lineTo(*numbers)
            case "c":
                path.curveTo(*numbers)
            case _:
                path.close()
    # nonzero: contours of variable faces overlap, and even-odd would leave holes
    canvas.drawPath(path, stroke=0, fill=1, fillMode=1)
    canvas.endForm()
    return name


def _bounds(segments: tuple[Segment, ...]) -> tuple[int, int, int, int]:
    """A box of whole numbers that holds every point of the outline."""
    xs = [value for _, numbers in segments for value in numbers[0::2]]
    ys = [value for _, numbers in segments for value in numbers[1::2]]
    return math.floor(min(xs)), math.floor(min(ys)), math.ceil(max(xs)), math.ceil(max(ys))


def scale_for(sets: tuple[ProofSet, ...], across: float, down: float) -> float:
    """The largest scale at which every set's envelope fits `across` by `down` points, at most 1."""
    fits = [
        min(across / shown.setting.layout.width, down / shown.setting.layout.height)
        for shown in sets
    ]
    return min([1.0, *fits])
