"""What all tests share: a ruler face, an envelope, an ink, a face of the shelf, Ghostscript."""

import hashlib
import os
import shutil
import string
from importlib.resources import files
from pathlib import Path

import pytest
from fontTools.fontBuilder import FontBuilder
from fontTools.pens.ttGlyphPen import TTGlyphPen

from addressing.records.shelf import Box, Face, Ink, Layout, Zone

HIGH, LOW, DEEP = 700, 500, -200
"""The ruler face: capitals and figures 700 units high, small letters 500, gjpqy 200 down."""


def _height(character: str) -> tuple[int, int]:
    if character in string.ascii_lowercase:
        ascends = character in "bdfhklt"
        return (DEEP if character in "gjpqy" else 0), (HIGH if ascends else LOW)
    if character in string.ascii_uppercase or character.isdigit():
        return 0, HIGH
    return 0, 100


def _bar(bottom: int, top: int) -> object:
    """A glyph that fills its whole width: half an em."""
    pen = TTGlyphPen(None)
    if top > bottom:
        pen.moveTo((0, bottom))
        for point in ((0, top), (500, top), (500, bottom)):
            pen.lineTo(point)
        pen.closePath()
    return pen.glyph()


def build_ruler(path: Path) -> None:
    """Write a font whose every glyph is half an em wide, in advance and in ink (12 pt at 24 pt).

    1000 units an em; no kerning, no ligatures; blanks have no ink; nothing beyond ASCII but É.
    """
    characters = [chr(code) for code in range(0x20, 0x7F)] + ["É"]
    names = {character: f"u{ord(character):04X}" for character in characters}
    glyphs = {".notdef": _bar(0, HIGH)}
    for character, name in names.items():
        bottom, top = _height(character)
        glyphs[name] = _bar(0, 0) if character == " " else _bar(bottom, top)
    glyphs[names["É"]] = _bar(0, 900)
    builder = FontBuilder(1000, isTTF=True)
    builder.setupGlyphOrder(list(glyphs))
    builder.setupCharacterMap({ord(character): name for character, name in names.items()})
    builder.setupGlyf(glyphs)
    builder.setupHorizontalMetrics(dict.fromkeys(glyphs, (500, 0)))
    builder.setupHorizontalHeader(ascent=900, descent=-200)
    builder.setupNameTable({"familyName": "Ruler", "styleName": "Regular"})
    builder.setupOS2(sCapHeight=HIGH, sxHeight=LOW, sTypoAscender=900, sTypoDescender=-200)
    builder.setupPost()
    # A fixed date, or the file would differ from run to run.
    builder.updateHead(created=0, modified=0)
    builder.font.recalcTimestamp = False
    builder.save(path)


def face_of(path: Path, key: str, axes: tuple[tuple[str, float], ...] = ()) -> Face:
    """The record of a font file."""
    digest = hashlib.sha256(path.read_bytes()).hexdigest()
    return Face(key, key.replace("-", " ").title(), path, digest, axes=axes)


@pytest.fixture(scope="session")
def ruler(tmp_path_factory: pytest.TempPathFactory) -> Face:
    """A face in which every letter is half an em wide: 12 pt at 24 pt."""
    path = tmp_path_factory.mktemp("faces") / "ruler.ttf"
    build_ruler(path)
    return face_of(path, "ruler")


@pytest.fixture(scope="session")
def script() -> Face:
    """Great Vibes: swashes, contextual forms, ligatures, kerning across blanks."""
    path = Path(str(files("fontpkg_great_vibes") / "files" / "GreatVibes-Regular.ttf"))
    return face_of(path, "great-vibes")


@pytest.fixture(scope="session")
def envelope() -> Layout:
    """7 1/4 by 5 1/4 inches, with round numbers: zones of 240 by 120 pt in its middle."""
    zone = Box(141, 129, 240, 120)
    zones = tuple(Zone(kind, zone, "centre", "middle") for kind in ("outer", "inner"))
    return Layout(
        "trial", "Trial", 522, 378, "square", 100, zones, Box(18, 18, 486, 342), (), "made up"
    )


@pytest.fixture(scope="session")
def white() -> Ink:
    """White as a spot ink, with an alternate that can be seen."""
    return Ink("White", "White", (0.1, 0.0, 0.0, 0.2), (1.0, 1.0, 1.0))


@pytest.fixture(scope="session")
def ghostscript() -> str:
    """The path of Ghostscript; without it the test is skipped, but fails where CI runs."""
    found = shutil.which("gs")
    if found is None:
        missing = "Ghostscript is not installed"
        if os.environ.get("CI"):  # noqa: TID251 - only the tests ask where they run
            pytest.fail(missing)
        pytest.skip(missing)
    return found
