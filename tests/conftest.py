"""What all tests share: a ruler face, an envelope, an ink, a face of the shelf, Ghostscript."""

import csv
import hashlib
import importlib.util
import os
import shutil
import string
import subprocess
import sys
from collections.abc import Callable, Sequence
from importlib.resources import files
from pathlib import Path
from types import ModuleType

import pytest
from fontTools.fontBuilder import FontBuilder
from fontTools.pens.t2CharStringPen import T2CharStringPen
from fontTools.pens.transformPen import TransformPen
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.ttLib import TTFont
from hypothesis import HealthCheck, settings

from addressing.cli import main
from addressing.records.shelf import Box, Face, Ink, Layout, Zone

UNTIMED = settings(deadline=None, suppress_health_check=[HealthCheck.too_slow])  # a busy machine
settings.register_profile("desk", UNTIMED)
settings.register_profile("ci", UNTIMED, derandomize=True)
settings.load_profile("desk")
if os.environ.get("CI"):  # noqa: TID251 - only the tests ask where they run
    settings.load_profile("ci")  # the same examples each time there; new ones at a desk

Ran = subprocess.CompletedProcess[str]
"""What a run of the command left: returncode, stdout, stderr."""

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


def build_cubic(source: Path, path: Path) -> None:
    """Write a CFF font of 2048 units an em: a TrueType face's Latin letters, raised and larger."""
    font = TTFont(source)
    scale = 2048 / font["head"].unitsPerEm
    glyphs = font.getGlyphSet()
    mapped = {code: name for code, name in font.getBestCmap().items() if code < 0x180}
    names = list(dict.fromkeys([".notdef", *mapped.values()]))
    drawn = {}
    for name in names:
        pen = T2CharStringPen(round(glyphs[name].width * scale), glyphs)
        glyphs[name].draw(TransformPen(pen, (scale, 0, 0, scale, 0, 0)))
        drawn[name] = pen.getCharString()
    builder = FontBuilder(2048, isTTF=False)
    builder.setupGlyphOrder(names)
    builder.setupCharacterMap(mapped)
    builder.setupCFF("Cubic-Regular", {"FullName": "Cubic"}, drawn, {})
    builder.setupHorizontalMetrics({n: (round(glyphs[n].width * scale), 0) for n in names})
    builder.setupHorizontalHeader(ascent=1800, descent=-500)
    builder.setupNameTable({"familyName": "Cubic", "styleName": "Regular"})
    builder.setupOS2(sCapHeight=1300, sxHeight=800)
    builder.setupPost()
    builder.updateHead(created=3_000_000_000, modified=3_000_000_000)
    builder.font.recalcTimestamp = False
    builder.save(path)


@pytest.fixture(scope="session")
def cubic(tmp_path_factory: pytest.TempPathFactory) -> Face:
    """A face whose outlines are cubics (CFF)."""
    source = Path(str(files("fontpkg_eb_garamond") / "files" / "EBGaramond[wght].ttf"))
    path = tmp_path_factory.mktemp("faces") / "cubic.otf"
    build_cubic(source, path)
    return face_of(path, "cubic")


@pytest.fixture(scope="session")
def roman() -> Face:
    """EB Garamond at its lightest: small capitals, lining and old-style figures."""
    path = Path(str(files("fontpkg_eb_garamond") / "files" / "EBGaramond[wght].ttf"))
    return face_of(path, "eb-garamond")


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


@pytest.fixture
def addressing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> Callable[..., Ran]:
    """Run the command inside this process, in the test's own folder."""
    monkeypatch.chdir(tmp_path)

    def run(*arguments: str | Path) -> Ran:
        given = [str(argument) for argument in arguments]
        capsys.readouterr()
        with pytest.raises(SystemExit) as left:
            main(given)
        said = capsys.readouterr()
        assert isinstance(left.value.code, int)
        return Ran(given, left.value.code, said.out, said.err)

    return run


@pytest.fixture
def spawn(tmp_path: Path) -> Callable[..., Ran]:
    """Run the command as a process of its own, in the test's own folder."""

    def run(*arguments: str | Path, environment: dict[str, str] | None = None) -> Ran:
        return subprocess.run(  # noqa: S603 - our own command
            [sys.executable, "-m", "addressing", *map(str, arguments)],
            cwd=tmp_path,
            env={**os.environ, **(environment or {})},  # noqa: TID251 - a child inherits it
            capture_output=True,
            encoding="utf-8",
            check=False,
        )

    return run


@pytest.fixture
def write_list(tmp_path: Path) -> Callable[..., Path]:
    """Write a list as text: header and rows, by default three households without any doubt."""

    def write(rows: Sequence[Sequence[str]] = CLEAN, name: str = "guests.csv") -> Path:
        path = tmp_path / name
        with path.open("w", encoding="utf-8", newline="") as stream:
            csv.writer(stream, lineterminator="\n").writerows([HEADER, *rows])
        return path

    return write


HEADER = ("Name", "Street", "City", "State", "ZIP")
CLEAN = (
    ("Mr. and Mrs. Tobias Penhew", "14 Larkmoor Lane", "Litchfield", "CT", "06759"),
    ("Ms. Ottoline Grayling", "431 Weathervane Drive", "Bar Harbor", "ME", "04609"),
    ("Dr. Ingrid Halvorsby", "1440 Birchbark Trail", "Duluth", "MN", "55802"),
)
"""Invented guests in towns whose ZIP codes are right."""


def _module_of_the_judge(name: str) -> ModuleType:
    """A module beside the judge's tests that isn't a test."""
    path = Path(__file__).with_name("preflight") / f"{name}.py"
    spec = importlib.util.spec_from_file_location(name, path)
    assert spec is not None
    assert spec.loader is not None
    module = sys.modules[name] = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.fixture(scope="session")
def drafts() -> ModuleType:
    """The judge's tests write plates by a writer of their own, preflight/plate_drafts.py."""
    return _module_of_the_judge("plate_drafts")


@pytest.fixture(scope="session")
def taken_apart() -> ModuleType:
    """Plates taken apart to be hurt, preflight/taken_apart.py."""
    return _module_of_the_judge("taken_apart")
