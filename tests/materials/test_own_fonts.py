"""Fonts as they arrive from anywhere: told apart, and tried where they can do no harm."""

import json
from collections.abc import Callable
from importlib.resources import files
from pathlib import Path
from typing import Any

import pytest
from fontTools.fontBuilder import FontBuilder
from fontTools.pens.t2CharStringPen import T2CharStringPen
from fontTools.ttLib import TTCollection, TTFont
from fontTools.ttLib.tables._g_l_y_f import Glyph, GlyphComponent
from fontTools.ttLib.tables.DefaultTable import DefaultTable

from addressing.faults import Exit, Fault
from addressing.materials import font_trial
from addressing.materials.faces import read_face
from addressing.materials.font_trial import SAMPLE, try_face, try_font
from addressing.materials.shelf import open_shelf
from addressing.records.shelf import Face
from addressing.typesetting import shape_line


def fault_of(path: Path) -> Fault:
    with pytest.raises(Fault) as raised:
        try_font(path)
    assert raised.value.exit is Exit.INPUT
    assert path.name in raised.value.text
    return raised.value


@pytest.mark.parametrize("key", ["great-vibes", "eb-garamond", "noto-serif"])
def test_a_sound_font_passes_its_trial(key: str) -> None:
    face = open_shelf(None).face(key)
    try_font(face.path)
    try_face(face, (*SAMPLE, "Ottoline Farrenby"))


def bomb(ruler: Face, path: Path, levels: int) -> None:
    """A font whose A is made of two of a letter that is made of two of a letter, and so on."""
    with TTFont(ruler.path) as font:
        glyf = font["glyf"]
        order = font.getGlyphOrder()
        below = "u0042"
        for level in range(levels):
            name = f"level{level}"
            order.append(name)
            glyf.glyphs[name] = _twice(below)
            font["hmtx"][name] = (500, 0)
            below = name
        glyf.glyphs["u0041"] = _twice(below)
        font.setGlyphOrder(order)
        glyf.glyphOrder = order
        font["maxp"].recalc = lambda _font: None
        font.save(path, reorderTables=None)


def _twice(name: str) -> Glyph:
    glyph = Glyph()
    glyph.numberOfContours = -1
    glyph.components = []
    for _ in range(2):
        part = GlyphComponent()
        part.glyphName, part.x, part.y, part.flags = name, 0, 0, 0x4
        glyph.components.append(part)
    glyph.xMin = glyph.yMin = 0
    glyph.xMax = glyph.yMax = 500
    glyph.recalcBounds = lambda *_, **__: None
    return glyph


@pytest.fixture
def quick(monkeypatch: pytest.MonkeyPatch) -> None:
    """A trial that is stopped after a second, so that the test needn't wait."""
    monkeypatch.setattr(font_trial, "SECONDS", 2)


@pytest.mark.usefixtures("quick")
def test_a_letter_made_of_letters_without_end_is_refused(ruler: Face, tmp_path: Path) -> None:
    """Twenty-eight levels of two parts each are 268 million outlines."""
    path = tmp_path / "bomb.ttf"
    bomb(ruler, path, 28)
    fault = fault_of(path)
    assert fault.code == "face-damaged"
    assert "too" in fault.text


@pytest.mark.usefixtures("quick")
def test_a_letter_that_is_a_part_of_itself_is_refused(ruler: Face, tmp_path: Path) -> None:
    path = tmp_path / "loop.ttf"
    with TTFont(ruler.path) as font:
        font["glyf"].glyphs["u0041"] = _twice("u0041")
        font["maxp"].recalc = lambda _font: None
        font.save(path)
    assert fault_of(path).code == "face-damaged"


def test_a_letter_of_far_too_many_curves_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "ornate.otf"
    names = {code: f"u{code:04X}" for code in range(0x20, 0x7F)}
    pen = T2CharStringPen(500, None)
    pen.moveTo((0, 0))
    for step in range(60_000):
        pen.lineTo((step % 500, (step * 7) % 500))
    pen.closePath()
    ornate, plain = pen.getCharString(), T2CharStringPen(500, None).getCharString()
    order = [".notdef", *names.values()]
    builder = FontBuilder(1000, isTTF=False)
    builder.setupGlyphOrder(order)
    builder.setupCharacterMap(names)
    drawn = dict.fromkeys(order, plain) | {"u0041": ornate}
    builder.setupCFF("Ornate", {"FullName": "Ornate"}, drawn, {})
    builder.setupHorizontalMetrics(dict.fromkeys(order, (500, 0)))
    builder.setupHorizontalHeader(ascent=900, descent=-200)
    builder.setupNameTable({"familyName": "Ornate", "styleName": "Regular"})
    builder.setupOS2()
    builder.setupPost()
    builder.save(path)
    assert "far too many curves" in fault_of(path).text


def test_rules_that_make_far_more_letters_of_a_line_are_refused(
    ruler: Face, tmp_path: Path
) -> None:
    path = tmp_path / "many.ttf"
    with TTFont(ruler.path) as font:
        builder = FontBuilder(font=font)
        rule = f"sub u0061 by {'u0062 ' * 30};"
        builder.addOpenTypeFeatures(f"feature calt {{ {rule} }} calt;")
        font.save(path)
    face = read_face("many", path)
    with pytest.raises(Fault, match="far more letters"):
        try_face(face, ("a" * 40,))


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"wOFF" + bytes(60), "web font"),
        (b"wOF2" + bytes(60), "web font"),
        (b"%!PS-AdobeFont-1.0", "Type 1"),
        (b"PK\x03\x04" + bytes(60), "ZIP archive"),
        (b"<html>", "isn't a TrueType or OpenType font"),
    ],
)
def test_what_is_handed_over_for_a_font_is_told_by_its_kind(
    content: bytes, said: str, tmp_path: Path
) -> None:
    path = tmp_path / "face.otf"
    path.write_bytes(content)
    fault = fault_of(path)
    assert (fault.code, said in fault.text, "TTF or OTF" in fault.mend) == (
        "face-damaged",
        True,
        True,
    )


def test_a_font_of_pictures_in_colour_is_told_as_one(ruler: Face, tmp_path: Path) -> None:
    path = tmp_path / "signs.ttf"
    with TTFont(ruler.path) as font:
        del font["glyf"], font["loca"]
        pictures = font["CBDT"] = DefaultTable("CBDT")
        pictures.data = bytes(8)
        font.save(path)
    fault = fault_of(path)
    assert "pictures in colour" in fault.text
    assert "foundry" not in fault.mend


def test_a_font_of_symbols_is_told_as_one(ruler: Face, tmp_path: Path) -> None:
    """OpenType 1.9, cmap: platform 3, encoding 0 is Symbol; letters stand at F020 and above."""
    path = tmp_path / "symbols.ttf"
    with TTFont(ruler.path) as font:
        (table,) = [each for each in font["cmap"].tables if each.isUnicode()][:1]
        table.platformID, table.platEncID = 3, 0
        table.cmap = {0xF000 + code: name for code, name in table.cmap.items()}
        font["cmap"].tables = [table]
        font.save(path)
    assert "filed as symbols" in fault_of(path).text


@pytest.mark.parametrize("names", ["Alpha Beta Chi Delta", "a10 a29 a30 a31"])
def test_a_font_that_maps_letters_to_signs_is_told_as_one_of_symbols(
    ruler: Face, tmp_path: Path, names: str
) -> None:
    """Such a font answers to every letter of a name, and would print a row of signs."""
    path = tmp_path / "signs.ttf"
    with TTFont(ruler.path) as font:
        order = font.getGlyphOrder()
        font.setGlyphOrder([order[0], *names.split(), *order[5:]])
        (table,) = [each for each in font["cmap"].tables if each.isUnicode()][:1]
        table.cmap = dict(zip(map(ord, "ABCD"), names.split(), strict=True))
        font["cmap"].tables = [table]
        font.save(path)
    assert "symbol font" in fault_of(path).text


def test_a_collection_gives_the_face_that_its_entry_names(tmp_path: Path) -> None:
    fonts = tmp_path / "fonts"
    fonts.mkdir()
    collection = TTCollection()
    for package, file in (
        ("fontpkg_great_vibes", "GreatVibes-Regular.ttf"),
        ("fontpkg_noto_serif", "NotoSerif[wdth,wght].ttf"),
    ):
        collection.fonts.append(TTFont(str(files(package) / "files" / file)))
    collection.save(fonts / "both.ttc")
    (fonts / "second.toml").write_text('family = "Second"\nfile = "both.ttc"\nindex = 1\n')
    (fonts / "third.toml").write_text('family = "Third"\nfile = "both.ttc"\nindex = 2\n')
    shelf = open_shelf(tmp_path)
    first, second = shelf.face("both"), shelf.face("second")
    assert (first.family, first.index, second.index) == ("Great Vibes", 0, 1)
    assert shape_line(first, "Ελένη").glyphs.count(0) > 0
    assert shape_line(second, "Ελένη").glyphs.count(0) == 0
    with pytest.raises(Fault, match="no face of number 2"):
        shelf.face("third")


@pytest.mark.usefixtures("quick")
def test_a_run_with_a_hostile_font_ends_with_three_and_says_which(
    addressing: Callable[..., Any],
    write_list: Callable[..., Path],
    ruler: Face,
    tmp_path: Path,
) -> None:
    (tmp_path / "fonts").mkdir()
    bomb(ruler, tmp_path / "fonts" / "bomb.ttf", 28)
    (tmp_path / "docket.toml").write_text('[[piece]]\nkind = "outer"\nface = "bomb"\n')
    ran = addressing("plates", write_list(), "--docket", "docket.toml", "--json")
    fault = json.loads(ran.stderr.splitlines()[-1])["fault"]
    assert (ran.returncode, fault["code"]) == (3, "face-damaged")
    assert fault["file"].endswith("bomb.ttf")
    faces = json.loads(addressing("faces", "--json").stdout)["faces"]
    (row,) = [row for row in faces if row["key"] == "bomb"]
    assert row["fault"] is not None


@pytest.mark.usefixtures("quick")
def test_letters_that_only_the_list_asks_for_are_tried_too(
    addressing: Callable[..., Any],
    write_list: Callable[..., Path],
    ruler: Face,
    tmp_path: Path,
) -> None:
    """The sample has no É; the guest has."""
    (tmp_path / "fonts").mkdir()
    with TTFont(ruler.path) as font:
        font["glyf"].glyphs["u00C9"] = _twice("u00C9")
        font["maxp"].recalc = lambda _font: None
        font.save(tmp_path / "fonts" / "loop.ttf")
    pieces = "".join(f'[[piece]]\nkind = "{kind}"\nface = "loop"\n' for kind in ("outer", "inner"))
    (tmp_path / "docket.toml").write_text(pieces)
    town = ("Litchfield", "CT", "06759")
    plain = write_list([("Mr. Silas Umber", "3 Osier Row", *town)], "plain.csv")
    accent = write_list([("Ms. Élodie Umber", "3 Osier Row", *town)], "accent.csv")
    given = ("--docket", "docket.toml", "--json")
    assert addressing("check", plain, *given).returncode == 0
    ran = addressing("check", accent, *given)
    assert (ran.returncode, "can't be drawn" in ran.stderr) == (3, True)
