"""Shaping and outlines, held against fontTools' own reading of the same font files."""

import hashlib
from dataclasses import replace
from importlib.resources import files
from pathlib import Path
from typing import Any

import pytest
from fontTools.fontBuilder import FontBuilder
from fontTools.pens.basePen import BasePen
from fontTools.pens.boundsPen import BoundsPen
from fontTools.pens.t2CharStringPen import T2CharStringPen
from fontTools.ttLib import TTFont

from addressing.faults import Exit, Fault
from addressing.records.shelf import Face
from addressing.typesetting import shape_line
from addressing.typesetting.outlines import ink_bounds
from addressing.typesetting.typeface import open_typeface

SHELF = {
    "script": ("fontpkg_great_vibes", "GreatVibes-Regular.ttf", ()),
    "roman at 500": (
        "fontpkg_cormorant_garamond",
        "CormorantGaramond[wght].ttf",
        (("wght", 500.0),),
    ),
    "roman at 400": ("fontpkg_eb_garamond", "EBGaramond[wght].ttf", (("wght", 400.0),)),
    "serif": ("fontpkg_noto_serif", "NotoSerif[wdth,wght].ttf", (("wght", 400.0), ("wdth", 100.0))),
}


def shelf_face(name: str) -> Face:
    package, file, axes = SHELF[name]
    path = Path(str(files(package) / "files" / file))
    return Face(name, name, path, hashlib.sha256(path.read_bytes()).hexdigest(), axes=axes)


class CubicPen(BasePen):  # type: ignore[misc]
    """fontTools' own decomposition into cubics (BasePen raises quadratics by itself)."""

    def __init__(self, glyphs: Any) -> None:  # noqa: ANN401 - no types
        super().__init__(glyphs)
        self.points: list[float] = []

    def _moveTo(self, pt: tuple[float, float]) -> None:  # noqa: N802 - the library's name
        self.points += pt

    def _lineTo(self, pt: tuple[float, float]) -> None:  # noqa: N802
        self.points += pt

    def _curveToOne(self, *pts: tuple[float, float]) -> None:  # noqa: N802
        self.points += [value for pt in pts for value in pt]


@pytest.mark.parametrize("name", SHELF)
def test_outlines_are_those_that_fonttools_reads(name: str) -> None:
    face = shelf_face(name)
    typeface = open_typeface(face)
    font = TTFont(face.path)
    glyphs = font.getGlyphSet(location=dict(face.axes))
    order = font.getGlyphOrder()
    seen = 0
    for number in range(0, len(order), 7):
        pen = CubicPen(glyphs)
        glyphs[order[number]].draw(pen)
        ours = [value for _, values in typeface.outlines[number] for value in values]
        # A closing line back to the start is drawn by one library and implied by the other, so
        # the sets of points are compared.
        ours_points = {(round(x), round(y)) for x, y in zip(ours[::2], ours[1::2], strict=True)}
        theirs = {(x, y) for x, y in zip(pen.points[::2], pen.points[1::2], strict=True)}
        for x, y in theirs:
            assert any(abs(x - a) <= 1.01 and abs(y - b) <= 1.01 for a, b in ours_points)
        seen += len(theirs)
    assert seen > 1000


@pytest.mark.parametrize("name", SHELF)
def test_ink_bounds_are_those_of_the_curves_and_not_of_their_control_points(name: str) -> None:
    face = shelf_face(name)
    typeface = open_typeface(face)
    font = TTFont(face.path)
    glyphs = font.getGlyphSet(location=dict(face.axes))
    order = font.getGlyphOrder()
    for number in range(0, len(order), 5):
        pen = BoundsPen(glyphs)
        glyphs[order[number]].draw(pen)
        ours = ink_bounds(typeface.outlines[number])
        if pen.bounds is None:
            assert ours is None
        else:
            assert ours == pytest.approx(pen.bounds, abs=0.51)


def test_a_line_without_kerning_or_ligatures_is_as_wide_as_its_advances() -> None:
    face = shelf_face("serif")
    font = TTFont(face.path)
    widths, names = font["hmtx"], font.getBestCmap()
    for text in ("HHHH", "nnn", "1234"):
        expected = sum(widths[names[ord(character)]][0] for character in text)
        assert shape_line(face, text).advance == expected


def test_kerning_is_on_and_belongs_to_the_line_across_the_blank(script: Face) -> None:
    roman = shelf_face("roman at 400")
    apart = shape_line(roman, "A").advance + shape_line(roman, "V").advance
    assert shape_line(roman, "AV").advance < apart
    # A cache by word would set this line otherwise: its context crosses the blank.
    words = ["331", "Quay", "Road"]
    blank = shape_line(script, "n n").advance - 2 * shape_line(script, "n").advance
    by_word = blank * 2 + sum(shape_line(script, word).advance for word in words)
    assert shape_line(script, " ".join(words)).advance != by_word


def test_weight_changes_the_width_and_the_outline() -> None:
    light = replace(shelf_face("roman at 500"), axes=(("wght", 300.0),))
    bold = replace(light, axes=(("wght", 700.0),))
    assert shape_line(light, "Wexcombe").advance != shape_line(bold, "Wexcombe").advance
    glyph = shape_line(light, "W").glyphs[0]
    assert open_typeface(light).outlines[glyph] != open_typeface(bold).outlines[glyph]


def test_features_of_the_face_are_set() -> None:
    old = shelf_face("roman at 500")
    lining = replace(old, features=(("lnum", 1),))
    assert shape_line(old, "02134").glyphs != shape_line(lining, "02134").glyphs


def test_every_letter_of_the_ruler_is_half_an_em(ruler: Face) -> None:
    line = shape_line(ruler, "AB c")
    assert line.xs == (0, 500, 1000, 1500)
    assert (line.advance, line.ink) == (2000, (0, 0, 2000, 700))


def test_equal_words_are_one_record(ruler: Face) -> None:
    assert shape_line(ruler, "Farrenby") is shape_line(ruler, "Farrenby")


def test_a_mark_set_by_an_anchor_keeps_its_height() -> None:
    line = shape_line(shelf_face("serif"), "Q\u0323\u0301")
    assert any(line.ys), "no mark was raised or lowered"
    assert line.ink[1] < shape_line(shelf_face("serif"), "H").ink[1]


@pytest.mark.parametrize(
    "data", [b"", b"\0" * 44, b"not a font at all"], ids=["empty", "zeros", "words"]
)
def test_a_file_that_is_no_font_stops_the_program(tmp_path: Path, data: bytes) -> None:
    path = tmp_path / "face.ttf"
    path.write_bytes(data)
    with pytest.raises(Fault) as caught:
        shape_line(Face("x", "Xe", path, hashlib.sha256(data).hexdigest()), "A")
    assert (caught.value.exit, caught.value.code) == (Exit.INPUT, "face-unusable")


def test_a_missing_or_changed_font_file_stops_the_program(ruler: Face, tmp_path: Path) -> None:
    with pytest.raises(Fault, match="can't be read") as caught:
        shape_line(replace(ruler, path=tmp_path / "gone.ttf"), "A")
    assert caught.value.exit is Exit.INPUT
    with pytest.raises(Fault, match="has changed"):
        shape_line(replace(ruler, sha256="0" * 64), "A")


@pytest.fixture
def postscript(tmp_path: Path) -> Face:
    """A font with PostScript outlines: A is an arch, B a glyph that exists and draws nothing."""
    arch, empty = T2CharStringPen(600, None), T2CharStringPen(600, None)
    arch.moveTo((0, 0))
    arch.curveTo((0, 800), (500, 800), (500, 0))
    arch.closePath()
    blank = T2CharStringPen(250, None)
    names = [".notdef", "space", "A", "B"]
    drawn = {".notdef": arch, "space": blank, "A": arch, "B": empty}
    builder = FontBuilder(1000, isTTF=False)
    builder.setupGlyphOrder(names)
    builder.setupCharacterMap({0x20: "space", 0x41: "A", 0x42: "B"})
    strings = {name: pen.getCharString() for name, pen in drawn.items()}
    builder.setupCFF("Arch", {}, strings, {})
    builder.setupHorizontalMetrics(dict.fromkeys(names, (600, 0)))
    builder.setupHorizontalHeader(ascent=800, descent=-200)
    builder.setupOS2()
    builder.setupPost()
    path = tmp_path / "arch.otf"
    builder.save(path)
    return Face("arch", "Arch", path, hashlib.sha256(path.read_bytes()).hexdigest())


def test_a_font_with_postscript_outlines_is_set_by_its_curves(postscript: Face) -> None:
    line = shape_line(postscript, "AA")
    # The arch of a cubic with both controls at 800 stands 3/4 of that high.
    assert line.ink == (0, 0, 1100, 600)


def test_a_visible_character_whose_outline_is_empty_is_found(postscript: Face) -> None:
    typeface = open_typeface(postscript)
    assert typeface.without_ink("A A") == ()
    assert typeface.without_ink("A B") == ("B",)
