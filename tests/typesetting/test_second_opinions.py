"""Advances, ink and whole pictures, held against other readers of the same font files.

Two libraries that have no part in the product's setting: FreeType for each letter (its own reader
of outlines and advances), and Pillow with Raqm, which shapes, lays out and draws a line by itself.
Where a line stands is worked out here again from what the arrangement promises.
"""

import math
from dataclasses import replace
from functools import lru_cache
from pathlib import Path
from statistics import median

import freetype
import numpy as np
import pypdfium2
import pytest
from fontTools.ttLib import TTFont
from numpy.typing import NDArray
from PIL import Image, ImageDraw, ImageFont, features

from addressing.materials.shelf import open_shelf
from addressing.plates import write_plate
from addressing.records.docket import AddressChoice, PieceChoice
from addressing.records.pages import Setting
from addressing.records.pieces import Line, Piece, Role, Wording
from addressing.records.plates import PlateOrder
from addressing.records.shelf import Box, Face, Fallback, Ink, Layout, Zone
from addressing.typesetting import fit, shape_line, stream

SHELF = open_shelf(None)


def bare(key: str) -> Face:
    """A face of the shelf with its own blank: the other renderer knows no other."""
    return replace(SHELF.face(key), word_space=0)


FACES = ("great-vibes", "dancing-script", "cormorant-garamond", "eb-garamond", "noto-serif")
TEXTS = (
    "Mr. and Mrs. Tobias Wexcombe",
    "Ágnes Öhlkopf & Yolanda AVATAR",
    "1472 Fjord Quay, Apartment 3",
    "To Ty Wa f fi ffl Th",
)

Picture = NDArray[np.float64]
"""Ink from 0 to 1, rows from the top."""

DOTS = 4
"""Dots to a point: 288 an inch, a whole number of points so that pdfium adds no dot."""
FINE = 8
"""Pillow draws this many times finer, so that its rounding to whole dots doesn't count."""
NEAR = 1
"""Dots at 288 an inch (0.088 mm) by which full ink of one picture may be off any ink of the other:
half a dot for each one's own rounding."""
MORE = 0.03
"""By how much the sums of ink may differ, as a share: edges are softened by two rules."""


def freetype_face(face: Face) -> freetype.Face:
    opened = freetype.Face(str(face.path), index=face.index)
    if face.axes:
        given = dict(face.axes)
        axes = opened.get_variation_info().axes
        opened.set_var_design_coords([given.get(axis.tag, axis.default) for axis in axes])
    return opened


@pytest.mark.parametrize("key", FACES)
def test_a_lines_ink_is_that_of_freetypes_letters_at_its_places(key: str) -> None:
    face = bare(key)
    opened = freetype_face(face)
    for text in TEXTS:
        line = shape_line(face, text)
        boxes = []
        for glyph, x, y in zip(line.glyphs, line.xs, line.ys, strict=True):
            opened.load_glyph(glyph, freetype.FT_LOAD_NO_SCALE)
            if opened.glyph.outline.points:
                box = opened.glyph.outline.get_bbox()
                boxes.append((box.xMin + x, box.yMin + y, box.xMax + x, box.yMax + y))
        lefts, bottoms, rights, tops = zip(*boxes, strict=True)
        theirs = min(lefts), min(bottoms), max(rights), max(tops)
        # Both round the points of a variable face to whole units, each in its own place.
        ours = line.ink
        assert ours == pytest.approx(theirs, abs=1.5)


@pytest.mark.parametrize("key", FACES)
def test_without_kerning_a_line_is_as_wide_as_freetypes_advances(key: str) -> None:
    face = replace(bare(key), features=(("kern", 0), ("liga", 0), ("calt", 0), ("clig", 0)))
    opened = freetype_face(face)
    for text in TEXTS:
        line = shape_line(face, text)
        total = 0
        for glyph in line.glyphs:
            opened.load_glyph(glyph, freetype.FT_LOAD_NO_SCALE)
            total += opened.glyph.advance.x
        assert line.advance == pytest.approx(total, abs=len(line.glyphs) / 2)


@pytest.mark.parametrize("key", FACES)
def test_kerning_and_ligatures_are_those_of_another_shaper(key: str) -> None:
    """Raqm brings its own HarfBuzz and asks FreeType for the advances."""
    face = bare(key)
    pen = pillow_font(face, 2000.0)
    for text in TEXTS:
        line = shape_line(face, text)
        theirs = pen.getlength(text, features=switched(face)) / 2000 * line.em
        assert line.advance == pytest.approx(theirs, abs=line.em / 2000 * len(text))


@lru_cache(32)
def pillow_font(face: Face, size: float) -> ImageFont.FreeTypeFont:
    """A face as Pillow draws it, `size` in dots to the em."""
    assert features.check("raqm"), "Pillow comes without Raqm here"
    font = ImageFont.truetype(face.path, size, face.index, layout_engine=ImageFont.Layout.RAQM)
    if face.axes:
        given = dict(face.axes)
        axes = freetype.Face(str(face.path)).get_variation_info().axes
        font.set_variation_by_axes([given.get(axis.tag, axis.default) for axis in axes])
    return font


def switched(face: Face) -> list[str]:
    return [tag if value == 1 else f"{tag}={value}" for tag, value in face.features]


class Painter:
    """Draws lines onto a page of ink, at places in points from its lower left corner."""

    def __init__(self, width: float, height: float) -> None:
        """An empty page of that size (pt)."""
        self.height = height
        self.page: Picture = np.zeros((round(height * DOTS), round(width * DOTS)))

    def draw(self, face: Face, text: str, x: float, y: float, size: float, turn: float = 0) -> None:
        """Words with their origin at (x, y), turned about it by `turn` degrees anticlockwise."""
        font = pillow_font(face, size * DOTS * FINE)
        options = switched(face)
        left, top, right, bottom = font.getbbox(text, anchor="ls", features=options)
        left, right = left - font.size / 2, right + font.size / 2
        if turn:
            reach = max(-left, -top, right, bottom)
            left, top, right, bottom = -reach, -reach, reach, reach
        across, down = x * DOTS * FINE, (self.height - y) * DOTS * FINE
        column, row = math.floor((across + left) / FINE) - 1, math.floor((down + top) / FINE) - 1
        wide, high = (math.ceil((b - a) / FINE) + 3 for a, b in ((left, right), (top, bottom)))
        fine = Image.new("L", (wide * FINE, high * FINE))
        at = across - column * FINE, down - row * FINE
        ImageDraw.Draw(fine).text(at, text, 255, font, anchor="ls", features=options)
        if turn:
            fine = fine.rotate(turn, Image.Resampling.BICUBIC, center=at)
        dots = np.asarray(fine, float).reshape(high, FINE, wide, FINE).mean(axis=(1, 3)) / 255
        part = self.page[row : row + high, column : column + wide]
        np.maximum(part, dots, out=part)


def ink_box(face: Face, text: str) -> tuple[int, int, int, int]:
    """A line's ink as Pillow sees it at 1000 pt, from its origin, downwards."""
    font = pillow_font(face, 1000.0)
    long = round(font.getlength(text, features=switched(face)))
    drawn = Image.new("L", (long + 2000, 2500))
    ImageDraw.Draw(drawn).text((1000, 1500), text, 255, font, anchor="ls", features=switched(face))
    box = drawn.getbbox()  # of the ink; the font's own getbbox counts the advance too
    assert box is not None
    return box[0] - 1000, box[1] - 1500, box[2] - 1000, box[3] - 1500


def ink_edges(face: Face, text: str, size: float) -> tuple[float, float]:
    """Left and right edge of a line's ink as Pillow sees it, in points from its origin."""
    left, _, right, _ = ink_box(face, text)
    return left * size / 1000, right * size / 1000


def middle_of_letters(face: Face, text: str, size: float) -> float:
    """The height at which most letters' ink has its middle, in points above the baseline."""
    boxes = [ink_box(face, letter) for letter in text if letter != " "]
    return -median((top + bottom) / 2 for _, top, _, bottom in boxes) * size / 1000


def plate_picture(setting: Setting, ink: Ink, folder: Path) -> Picture:
    """The plate of an ink, its only page rendered by pdfium."""
    layout = setting.layout
    households = tuple(piece.household for piece in setting.pieces)
    name = f"01-outer-{ink.key.lower()}"
    trim = layout.width, layout.height
    order = PlateOrder(name, "outer", ink, trim, households, 1, "0")
    pages, outlines = stream(setting)
    number = setting.inks.index(ink)
    own = (
        replace(
            page,
            lines=tuple(
                line
                for line, of in zip(page.lines, page.inks or (0,) * len(page.lines), strict=True)
                if of == number
            ),
        )
        for page in pages
    )
    write_plate(folder / name, order, own if setting.two_inks else pages, outlines)
    pdf = pypdfium2.PdfDocument(folder / name)
    grey = pdf[0].render(scale=DOTS, grayscale=True).to_numpy()
    pdf.close()
    picture = 1 - grey.reshape(grey.shape[:2]) / 255
    return np.asarray(picture / picture.max())  # the alternate of a full ink is no full black


def spread(ink: NDArray[np.bool_]) -> NDArray[np.bool_]:
    """Every dot within NEAR of ink."""
    found = ink.copy()
    for down in range(-NEAR, NEAR + 1):
        for across in range(-NEAR, NEAR + 1):
            found |= np.roll(ink, (down, across), (0, 1))
    return found


def assert_alike(ours: Picture, theirs: Picture) -> None:
    assert ours.shape == theirs.shape
    assert theirs.sum() > 500, "nothing was drawn"
    for one, other in ((ours, theirs), (theirs, ours)):
        astray = (one > 0.8) & ~spread(other > 0.2)
        assert not astray.any(), f"{astray.sum()} dots, first at {np.argwhere(astray)[0]}"
    assert ours.sum() == pytest.approx(theirs.sum(), rel=MORE)


FOIL = Ink("Foil", "Foil", (0.0, 0.0, 0.0, 1.0), (0.0, 0.0, 0.0))
GLOSS = Ink("Gloss", "Gloss", (0.0, 0.0, 0.0, 1.0), (0.0, 0.0, 0.0))
SIDE = 432.0
"""Both sides of the page, pt; the room is in its middle, so that a quarter turn keeps it there."""
ROOM = Box(36, 36, 360, 360)
LINES = (
    ("Mr. and Mrs. Tobias Wexcombe", Role.NAME),
    ("14 Larkmoor Lane", Role.STREET),
    ("Fjordby, Vermont 05201", Role.PLACE),
)


def set_lines(
    faces: tuple[Face, ...],
    align: str,
    lines: tuple[tuple[str, Role], ...] = LINES,
    inks: tuple[Ink, Ink] = (FOIL, FOIL),
    radius: float | None = None,
    turn: int = 0,
) -> Setting:
    zone = Zone("outer", ROOM, align, "middle", radius=radius, turn=turn)
    safe = Box(18, 18, SIDE - 36, SIDE - 36)
    layout = Layout("trial", "Trial", SIDE, SIDE, "none", 0, (zone,), safe, (), "made up")
    two = len(faces) > 1
    address = AddressChoice(size=0.8) if two else None
    choice = PieceChoice("outer", "trial", "x", "Foil", "ivory", size=20.0, address=address)
    worded = Wording(tuple(Line(text, role) for text, role in lines))
    given = (faces[0], faces[-1]) if two else faces[0]
    setting, findings = fit(
        [Piece("outer", "h-a", "A", (worded,))], choice, layout, given, inks, 0.0
    )
    assert not [one for one in findings if one.holds]
    return setting


def hand(faces: tuple[Face, ...], role: Role) -> Face:
    return faces[0] if role is Role.NAME else faces[-1]


STEP, GUTTER = 1.5, 18.0


def starts(align: str, setting: Setting, faces: tuple[Face, ...]) -> list[float]:
    """Where lines begin, from what the arrangement promises and Pillow's own edges of ink."""
    lines = setting.pieces[0].lines
    edges = [ink_edges(hand(faces, line.role), line.text, line.size) for line in lines]
    middle = (ROOM.left + ROOM.right) / 2
    wide = [right - left for left, right in edges]
    indents = [STEP * setting.size * number for number in range(len(lines))]
    widest = max(w + i for w, i in zip(wide, indents, strict=True))
    begin = {
        "centre": [middle - w / 2 for w in wide],
        "left": [ROOM.left for _ in wide],
        "right": [ROOM.right - w for w in wide],
        "block": [middle - max(wide) / 2 for _ in wide],
        "block-right": [ROOM.right - max(wide) for _ in wide],
        "stepped": [middle - widest / 2 + indent for indent in indents],
        "columns": [
            middle - GUTTER / 2 - w if line.role is Role.NAME else middle + GUTTER / 2
            for w, line in zip(wide, lines, strict=True)
        ],
    }[align]
    return [at - left for at, (left, _) in zip(begin, edges, strict=True)]


def pillow_picture(
    align: str, setting: Setting, faces: tuple[Face, ...], ink: Ink = FOIL
) -> Picture:
    painter = Painter(SIDE, SIDE)
    places = starts(align, setting, faces)
    for line, x in zip(setting.pieces[0].lines, places, strict=True):
        if setting.ink_of(line.role) == ink:
            painter.draw(hand(faces, line.role), line.text, x, line.y, line.size)
    return painter.page


ALIGNED = ("centre", "left", "right", "block", "block-right", "stepped", "columns")


@pytest.mark.parametrize("align", ALIGNED)
@pytest.mark.parametrize("key", ["great-vibes", "eb-garamond"])
def test_a_plate_is_the_picture_that_another_renderer_draws(
    key: str, align: str, tmp_path: Path
) -> None:
    faces = (bare(key),)
    lines = tuple((text[-14:] if align == "columns" else text, role) for text, role in LINES)
    setting = set_lines(faces, align, lines)
    assert_alike(plate_picture(setting, FOIL, tmp_path), pillow_picture(align, setting, faces))


@pytest.mark.parametrize("turn", [90, 180, 270])
def test_a_turned_block_is_the_other_renderers_picture_turned(turn: int, tmp_path: Path) -> None:
    faces = (bare("cormorant-garamond"),)
    level = pillow_picture("centre", set_lines(faces, "centre"), faces)
    turned = set_lines(faces, "centre", turn=turn)
    assert_alike(plate_picture(turned, FOIL, tmp_path), np.rot90(level, turn // 90))


def test_two_hands_in_two_inks_are_each_the_others_picture(tmp_path: Path) -> None:
    faces = (bare("great-vibes"), bare("eb-garamond"))
    setting = set_lines(faces, "centre", inks=(FOIL, GLOSS))
    for ink in (FOIL, GLOSS):
        theirs = pillow_picture("centre", setting, faces, ink)
        assert_alike(plate_picture(setting, ink, tmp_path), theirs)


@pytest.mark.parametrize(("align", "side"), [("arch", 1), ("bowl", -1)])
def test_bent_lines_have_each_letter_where_geometry_puts_it(
    align: str, side: int, tmp_path: Path
) -> None:
    """Each letter's ink is centred on a spoke of the arc, its baseline square to the spoke.

    Letters are as far apart as on a level line at the height of their middles.
    """
    radius = 300.0
    plain = (("liga", 0), ("clig", 0), ("calt", 0), ("dlig", 0), ("lnum", 1))
    face = replace(bare("eb-garamond"), features=plain)
    setting = set_lines((face,), align, radius=radius)
    painter = Painter(SIDE, SIDE)
    font = pillow_font(face, 4000.0)
    lines = setting.pieces[0].lines
    for line in lines:
        arc = radius - side * (lines[0].y - line.y)
        scale = line.size / 4000
        left, right = ink_edges(face, line.text, line.size)
        even = arc + side * middle_of_letters(face, line.text, line.size)
        for number, letter in enumerate(line.text):
            if letter == " ":
                continue
            until = font.getlength(line.text[: number + 1], features=switched(face))
            begins = (until - font.getlength(letter)) * scale
            first, last = ink_edges(face, letter, line.size)
            half = (first + last) / 2
            angle = (begins + half - (left + right) / 2) / even
            lean = -side * angle
            x = SIDE / 2 + arc * math.sin(angle) - half * math.cos(lean)
            y = line.y + side * arc * (math.cos(angle) - 1) - half * math.sin(lean)
            painter.draw(face, letter, x, y, line.size, math.degrees(lean))
    assert_alike(plate_picture(setting, FOIL, tmp_path), painter.page)


def x_height(face: Face) -> float:
    return float(TTFont(face.path)["OS/2"].sxHeight) / float(freetype_face(face).units_per_EM)


@pytest.mark.parametrize(
    ("key", "helper", "script", "word", "larger"),
    [
        ("great-vibes", "noto-serif", "Grek", "Πέτρος", 1.0),
        ("eb-garamond", "frank-ruhl-libre", "Hebr", "שלום", 1.1),
        ("cormorant-garamond", "amiri", "Arab", "محمد", 1.2),
    ],
)
def test_a_word_of_another_face_stands_where_the_line_goes_on(
    key: str, helper: str, script: str, word: str, larger: float, tmp_path: Path
) -> None:
    """Small letters of both faces are of one height, or the other's are larger as its record
    asks; the other's word begins at the blank's end."""
    other = bare(helper)
    own = replace(bare(key), fallbacks=(Fallback(script, other),))
    setting = set_lines((own,), "left", ((f"Tobias {word}", Role.NAME),))
    (line,) = setting.pieces[0].lines
    size = line.size * min(max(round(x_height(own) / x_height(other) * larger, 3), 0.5), 2.0)
    font = pillow_font(own, 1000.0)
    long = font.getlength("Tobias ", features=switched(own)) / 1000 * line.size
    left, _ = ink_edges(own, "Tobias", line.size)
    painter = Painter(SIDE, SIDE)
    painter.draw(own, "Tobias ", ROOM.left - left, line.y, line.size)
    painter.draw(other, word, ROOM.left - left + long, line.y, size)
    assert_alike(plate_picture(setting, FOIL, tmp_path), painter.page)


@pytest.mark.parametrize(
    ("key", "text"),
    [
        ("frank-ruhl-libre", "רחוב הרצל 12, תל אביב"),
        ("frank-ruhl-libre", "משפחת כהן"),
        ("amiri", "السيد محمد الوردي"),
        ("amiri", "شارع النخيل ١٢"),
    ],
)
def test_lines_from_right_to_left_are_the_other_renderers_picture(
    key: str, text: str, tmp_path: Path
) -> None:
    """Raqm orders and joins the letters by itself (UAX #9 by its own library)."""
    faces = (bare(key),)
    setting = set_lines(faces, "centre", ((text, Role.NAME),))
    assert_alike(plate_picture(setting, FOIL, tmp_path), pillow_picture("centre", setting, faces))
