"""Font programs of a few letters, made from their outlines: TrueType's quadratics, or CFF's cubics.

Each letter keeps its number in the face. There are no hints, no composites, no names and no dates;
of the tables only those that a PDF asks for (ISO 32000-1, 9.9).
"""

import io
from collections.abc import Iterator, Mapping, Sequence
from itertools import chain
from math import floor
from typing import Any, NamedTuple

from fontTools import cffLib
from fontTools.fontBuilder import FontBuilder
from fontTools.pens.t2CharStringPen import T2CharStringPen
from fontTools.ttLib import TTFont
from fontTools.ttLib.tables._g_l_y_f import Glyph, GlyphCoordinates
from fontTools.ttLib.tables.ttProgram import Program

from addressing.plates.glyphs import form_box
from addressing.records.live import LiveFace
from addressing.records.pages import Segment

NEAR = 0.01
"""Font units: a point so near the middle of two control points is theirs by rule, and left out."""

NO_DAY = 2_082_844_800
"""Seconds from 1904 to 1970: where a font must have a date, it has always this one."""

Letters = Mapping[int, Sequence[Segment]]
_Point = tuple[float, float, bool]
"""x, y, and whether it lies on the outline."""


class FontProgram(NamedTuple):
    """A font program's bytes, and the least box of whole units that holds all points in it."""

    data: bytes
    box: tuple[int, int, int, int]


def truetype(face: LiveFace, letters: Letters) -> FontProgram:
    """A TrueType font with these letters; all numbers between are empty, without a width."""
    names = [f"glyph{glyph:05d}" for glyph in range(max(letters) + 1)]
    glyphs = {name: Glyph() for name in names}
    glyphs |= {names[glyph]: _glyph(outline) for glyph, outline in letters.items()}
    builder = FontBuilder(face.units, isTTF=True)
    builder.setupGlyphOrder(names)
    builder.setupGlyf(glyphs)
    builder.setupHorizontalMetrics(
        {
            name: (
                face.advances[glyph] if glyph in letters else 0,
                getattr(glyphs[name], "xMin", 0),
            )
            for glyph, name in enumerate(names)
        }
    )
    builder.setupHorizontalHeader()
    builder.updateHead(created=NO_DAY, modified=NO_DAY)
    font = builder.font
    font.recalcTimestamp = False
    with io.BytesIO() as out:
        font.save(out)
        head = font["head"]
        return FontProgram(out.getvalue(), (head.xMin, head.yMin, head.xMax, head.yMax))


def _glyph(outline: Sequence[Segment]) -> Any:  # noqa: ANN401 - fontTools has no types
    """An outline as TrueType has it, in whole units."""
    glyph = Glyph()
    contours = [_spare(contour) for contour in _contours(outline)]
    points = list(chain.from_iterable(contours))
    glyph.numberOfContours = len(contours)
    glyph.coordinates = GlyphCoordinates([(floor(x + 0.5), floor(y + 0.5)) for x, y, _ in points])
    glyph.flags = bytearray(int(on) for *_, on in points)
    glyph.endPtsOfContours = []
    for contour in contours:
        before = glyph.endPtsOfContours[-1] if glyph.endPtsOfContours else -1
        glyph.endPtsOfContours.append(before + len(contour))
    glyph.program = Program()
    glyph.program.fromBytecode(b"")
    return glyph


def _contours(outline: Sequence[Segment]) -> Iterator[list[_Point]]:
    """Each contour as points; of a cubic the one control point of the quadratic that it was."""
    points: list[_Point] = []
    for operator, values in outline:
        if operator == "m":
            points = [(values[0], values[1], True)]
        elif operator == "l":
            points.append((values[0], values[1], True))
        elif operator == "c":
            (x0, y0, _), (x1, y1) = points[-1], values[:2]
            points.append((x0 + 1.5 * (x1 - x0), y0 + 1.5 * (y1 - y0), False))
            points.append((values[4], values[5], True))
        elif points:
            if len(points) > 1 and points[-1] == points[0]:
                points.pop()
            yield points


def _spare(contour: list[_Point]) -> list[_Point]:
    """A contour without points that lie between two control points by rule.

    So none is rounded that isn't written. The first stays, since an outline begins there, but where
    all others are control points.
    """
    count = len(contour)
    kept = [
        point
        for at, point in enumerate(contour)
        if at == 0 or not _is_between(contour[at - 1], point, contour[(at + 1) % count])
    ]
    alone = not any(on for *_, on in kept[1:])
    return kept[1:] if alone and _is_between(contour[-1], contour[0], contour[1]) else kept


def _is_between(before: _Point, point: _Point, behind: _Point) -> bool:
    if before[2] or behind[2] or not point[2]:
        return False
    return all(abs((before[at] + behind[at]) / 2 - point[at]) <= NEAR for at in (0, 1))


def compact(face: LiveFace, letters: Letters) -> FontProgram:
    """A CFF font program with these letters by their numbers (Adobe Technical Note 5176)."""
    lefts, bottoms, rights, tops = zip(*map(form_box, letters.values()), strict=True)
    box = min(lefts), min(bottoms), max(rights), max(tops)
    order = [".notdef", *(f"cid{glyph:05d}" for glyph in sorted(letters))]
    program = cffLib.CFFFontSet()
    program.major, program.minor = 1, 0
    program.fontNames = [face.name]
    program.topDictIndex = cffLib.TopDictIndex()
    program.GlobalSubrs = cffLib.GlobalSubrsIndex()
    private = cffLib.PrivateDict()
    part = cffLib.FontDict()
    part.Private = private
    parts = cffLib.FDArrayIndex()
    parts.append(part)
    which = cffLib.FDSelect()
    which.format, which.gidArray = 3, [0] * len(order)
    top = cffLib.TopDict()
    top.ROS = ("Adobe", "Identity", 0)
    top.CIDCount = max(letters) + 1
    top.FontMatrix = [1 / face.units, 0, 0, 1 / face.units, 0, 0]
    top.FontBBox = list(box)
    top.charset, top.FDArray, top.FDSelect = order, parts, which
    drawn = cffLib.CharStrings(None, order, program.GlobalSubrs, private, which, parts)
    drawn[".notdef"] = _charstring(0, (), private, program.GlobalSubrs)
    for glyph, outline in letters.items():
        name = f"cid{glyph:05d}"
        drawn[name] = _charstring(face.advances[glyph], outline, private, program.GlobalSubrs)
    top.CharStrings, top.GlobalSubrs = drawn, program.GlobalSubrs
    program.topDictIndex.append(top)
    with io.BytesIO() as out:
        program.compile(out, TTFont(recalcBBoxes=False))
        return FontProgram(out.getvalue(), box)


def _charstring(width: int, outline: Sequence[Segment], private: Any, subrs: Any) -> Any:  # noqa: ANN401
    """The steps of an outline, in thousandths of a unit; what closes a contour isn't written.

    None are drawn together: two level strokes in a row stay two, as in the face.
    """
    pen = T2CharStringPen(width, None, roundTolerance=0)
    start: tuple[float, ...] = ()
    for at, (operator, values) in enumerate(outline):
        points = [
            (round(x, 3), round(y, 3)) for x, y in zip(values[::2], values[1::2], strict=True)
        ]
        if operator == "m":
            pen.moveTo(*points)
            start = values
        elif operator == "c":
            pen.curveTo(*points)
        elif operator == "l" and (values != start or outline[at + 1][0] != "h"):
            pen.lineTo(*points)
        elif operator == "h":
            pen.closePath()
    return pen.getCharString(private, subrs, optimize=False)
