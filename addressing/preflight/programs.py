"""The font programs of a plate of live type, read again, and spelled again from what was read.

A program is what its letters' outlines and widths make it, and nothing else: built anew from these
it must be the same bytes. So no table, no hint, no name and no further letter can be in it.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from io import BytesIO
from math import ceil, floor
from typing import Any

from fontTools import cffLib
from fontTools.fontBuilder import FontBuilder
from fontTools.pens.t2CharStringPen import T2CharStringPen
from fontTools.ttLib import TTFont
from fontTools.ttLib.tables import ttProgram
from fontTools.ttLib.tables._g_l_y_f import Glyph

from addressing.preflight.letters import Tracer, closed
from addressing.preflight.values import Objection
from addressing.records.pages import Segment

TABLES = {"glyf", "head", "hhea", "hmtx", "loca", "maxp"}
"""All that a TrueType program has in a plate."""
NO_DAY = 24107 * 86400
"""The only date that a program may have: days from 1904 to 1970, in seconds."""
_ON = 1
"""A point's flag: it lies on the outline."""


@dataclass(frozen=True, slots=True)
class Program:
    """What a program holds: outlines and widths by the letters' numbers, a box around all points.

    `again` are its bytes as they must be.
    """

    outlines: Mapping[int, tuple[Segment, ...]]
    widths: Mapping[int, float]
    box: tuple[int, int, int, int]
    again: bytes


def read_truetype(data: bytes, units: int, what: str) -> Program:
    """A TrueType program with letters by their numbers.

    Raises:
        Objection: it has other tables than it may, or composites.
    """
    font = TTFont(BytesIO(data), lazy=False)
    if sorted(font.reader.keys()) != sorted(TABLES):
        raise Objection(f"{what} has a font with other tables than a plate's.")
    names = font.getGlyphOrder()
    table, metrics, glyphs = font["glyf"], font["hmtx"].metrics, font.getGlyphSet()
    points: dict[int, Any] = {}
    outlines: dict[int, tuple[Segment, ...]] = {}
    for number, name in enumerate(names):
        glyph = table[name]
        if glyph.isComposite():
            raise Objection(f"{what} has a font with letters put together of others.")
        if glyph.numberOfContours:
            tracer = Tracer(glyphs)
            glyphs[name].draw(tracer)
            outlines[number] = closed(tracer.steps)
            points[number] = glyph
    widths = {number: float(metrics[names[number]][0]) for number in points}
    again = _truetype(points, widths, units)
    head = again["head"]
    with BytesIO() as out:
        again.save(out)
        box = (head.xMin, head.yMin, head.xMax, head.yMax)
        return Program(outlines, widths, box, out.getvalue())


def _truetype(points: Mapping[int, Any], widths: Mapping[int, float], units: int) -> Any:  # noqa: ANN401
    """A font of these points and widths alone."""
    order = [f"glyph{number:05d}" for number in range(max(points, default=0) + 1)]
    made = {name: Glyph() for name in order}
    sides = dict.fromkeys(order, (0, 0))
    for number, read in points.items():
        glyph = made[order[number]]
        glyph.numberOfContours = len(read.endPtsOfContours)
        glyph.endPtsOfContours = list(read.endPtsOfContours)
        glyph.coordinates = read.coordinates.copy()
        glyph.flags = bytearray(flag & _ON for flag in read.flags)
        glyph.program = ttProgram.Program()
        glyph.program.fromBytecode([])
        left = min((x for x, _ in read.coordinates), default=0)
        sides[order[number]] = (int(widths[number]), left)
    builder = FontBuilder(units)
    builder.setupGlyphOrder(order)
    builder.setupGlyf(made)
    builder.setupHorizontalMetrics(sides)
    builder.setupHorizontalHeader()
    builder.updateHead(created=NO_DAY, modified=NO_DAY)
    builder.font.recalcTimestamp = False
    return builder.font


def read_compact(data: bytes, units: int, what: str, name: str) -> Program:
    """A CFF program with letters by their numbers.

    Raises:
        Objection: it isn't built by letters' numbers, or has more parts than it may.
    """
    fonts = cffLib.CFFFontSet()
    fonts.decompile(BytesIO(data), TTFont())
    if len(fonts.topDictIndex) != 1 or not hasattr(fonts[0], "ROS"):
        raise Objection(f"{what} has a font that isn't built by its letters' numbers.")
    outlines: dict[int, tuple[Segment, ...]] = {}
    widths: dict[int, float] = {}
    for letter in fonts[0].charset[1:]:
        if not (letter.startswith("cid") and letter[3:].isdigit()):
            raise Objection(f"{what} has a font with a letter without a number.")
        tracer = Tracer(None)
        drawn = fonts[0].CharStrings[letter]
        drawn.draw(tracer)
        number = int(letter[3:])
        outlines[number], widths[number] = closed(tracer.steps), float(drawn.width)
    box = _around(outlines.values())
    return Program(outlines, widths, box, _compact(outlines, widths, units, (name, box)))


def _around(outlines: Iterable[Sequence[Segment]]) -> tuple[int, int, int, int]:
    """The least box of whole units around all points, read to a thousandth."""
    numbers = [values for outline in outlines for _, values in outline]
    xs = [round(x, 3) for values in numbers for x in values[::2]]
    ys = [round(y, 3) for values in numbers for y in values[1::2]]
    return floor(min(xs)), floor(min(ys)), ceil(max(xs)), ceil(max(ys))


def _compact(
    outlines: Mapping[int, Sequence[Segment]],
    widths: Mapping[int, float],
    units: int,
    named: tuple[str, tuple[int, int, int, int]],
) -> bytes:
    """A CFF program of these outlines and widths alone; `named` are its name and its box."""
    order = [".notdef", *(f"cid{number:05d}" for number in outlines)]
    fonts, top, only = cffLib.CFFFontSet(), cffLib.TopDict(), cffLib.FontDict()
    fonts.major, fonts.minor = 1, 0
    fonts.fontNames = [named[0]]
    fonts.GlobalSubrs, fonts.topDictIndex = cffLib.GlobalSubrsIndex(), cffLib.TopDictIndex()
    only.Private = cffLib.PrivateDict()
    top.ROS, top.CIDCount = ("Adobe", "Identity", 0), max(outlines) + 1
    top.FontMatrix = [1 / units, 0, 0, 1 / units, 0, 0]
    top.FontBBox = list(named[1])
    top.charset, top.GlobalSubrs = order, fonts.GlobalSubrs
    top.FDArray, top.FDSelect = cffLib.FDArrayIndex(), cffLib.FDSelect()
    top.FDArray.append(only)
    top.FDSelect.format, top.FDSelect.gidArray = 3, [0 for _ in order]
    top.CharStrings = cffLib.CharStrings(
        None, order, fonts.GlobalSubrs, only.Private, top.FDSelect, top.FDArray
    )
    shapes = [(0.0, ()), *((widths[number], outline) for number, outline in outlines.items())]
    for name, (width, outline) in zip(order, shapes, strict=True):
        pen = T2CharStringPen(int(width), None, roundTolerance=0)
        for kind, values in outline:
            steps = {"m": pen.moveTo, "l": pen.lineTo, "c": pen.curveTo, "h": pen.closePath}
            rounded = [round(value, 3) for value in values]
            steps[kind](*zip(rounded[::2], rounded[1::2], strict=True))
        top.CharStrings[name] = pen.getCharString(only.Private, fonts.GlobalSubrs, optimize=False)
    fonts.topDictIndex.append(top)
    with BytesIO() as out:
        fonts.compile(out, TTFont(recalcBBoxes=False))
        return out.getvalue()
