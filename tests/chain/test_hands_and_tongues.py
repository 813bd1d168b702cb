"""The rooms that set, write and judge, together: in any locale, and with any number of hands."""

import hashlib
import os
import shutil
import subprocess
import sys
from importlib.resources import files
from pathlib import Path

import pytest
import uharfbuzz as hb

from addressing.preflight.lines import Lines
from addressing.records.shelf import Face
from addressing.typesetting import shape_line

WORDS = "Fitzgerald Quillfeather"
"""In Turkish "fi" stays apart (i with and without its dot are two letters); in English it joins."""


def garamond() -> Face:
    path = Path(str(files("fontpkg_eb_garamond") / "files" / "EBGaramond[wght].ttf"))
    return Face("garamond", "Garamond", path, hashlib.sha256(path.read_bytes()).hexdigest())


def shaped(face: Face, language: str) -> tuple[int, ...]:
    """What HarfBuzz makes of the words in a language."""
    buffer = hb.Buffer()
    buffer.add_str(WORDS)
    buffer.language = language
    buffer.guess_segment_properties()
    hb.shape(hb.Font(hb.Face(hb.Blob(face.path.read_bytes()))), buffer, {})
    return tuple(info.codepoint for info in buffer.glyph_infos)


def drawn(body: bytes) -> tuple[int, ...]:
    """The glyphs that a plate's line draws."""
    return tuple(int(line.split(b"/g")[1].split()[0]) for line in body.splitlines())


def test_both_rooms_shape_in_the_senders_language_and_not_in_the_machines() -> None:
    face = garamond()
    english = shaped(face, "en")
    assert english != shaped(face, "tr")  # or this would show nothing
    assert shape_line(face, WORDS).glyphs == english
    (blank,) = shape_line(face, " ").glyphs
    assert drawn(Lines(face).line(WORDS).body) == tuple(g for g in english if g != blank)


TURKISH = """
import locale, sys
from pathlib import Path
print(locale.setlocale(locale.LC_ALL, ""))
from addressing.preflight.lines import Lines
from addressing.records.shelf import Face
from addressing.typesetting import shape_line
face = Face("garamond", "Garamond", Path(sys.argv[1]), "")
print(*shape_line(face, sys.argv[2]).glyphs)
print(Lines(face).line(sys.argv[2]).letters)
"""


@pytest.mark.skipif(shutil.which("localedef") is None, reason="no locale can be made here")
def test_a_machine_set_to_turkish_sets_and_judges_the_same(tmp_path: Path) -> None:
    made = tmp_path / "tr_TR.UTF-8"
    command = [shutil.which("localedef") or "", "-i", "tr_TR", "-f", "UTF-8", str(made)]
    if subprocess.run(command, capture_output=True, check=False).returncode > 1:  # noqa: S603
        pytest.skip("the Turkish locale can't be made here")
    face = garamond()
    environment = {**os.environ, "LOCPATH": str(tmp_path), "LC_ALL": "tr_TR.UTF-8"}  # noqa: TID251
    done = subprocess.run(  # noqa: S603
        [sys.executable, "-c", TURKISH, str(face.path), WORDS],
        env=environment,
        capture_output=True,
        text=True,
        check=True,
    )
    language, glyphs, letters = done.stdout.splitlines()
    assert language == "tr_TR.UTF-8"
    assert tuple(map(int, glyphs.split())) == shaped(face, "en")
    assert int(letters) == len(shaped(face, "en")) - 1


BOTH = """
import sys
from pathlib import Path
from addressing import hands
from addressing.job import drawing
from addressing.job.drawing import draw_setting
from addressing.plates import bind_plate
from addressing.preflight import judge_plate, shares
from addressing.records.docket import PieceChoice
from addressing.records.pieces import Line, Piece, Role, Wording
from addressing.records.plates import PlateOrder
from addressing.records.shelf import Box, Face, Ink, Layout, Zone
from addressing.typesetting import fit

hands.SEVERAL = sys.argv[1] != "one"
if sys.argv[1] == "batches":
    drawing.WORTH, drawing.BATCH = 100, 600
    shares.WHOLE, shares.BATCH = 1000, 400
forked = []
begin = hands.Hand._fork
hands.Hand._fork = lambda hand: (forked.append(1), begin(hand))
face = Face("garamond", "Garamond", Path(sys.argv[2]), "")
ink = Ink("White", "White", (0.1, 0.0, 0.0, 0.2), (1.0, 1.0, 1.0))
zone = Zone("outer", Box(60, 60, 402, 230), "centre", "middle")
layout = Layout(
    "a7", "A7", 522, 378, "euro", 100, (zone,), Box(0, 0, 522, 378), (), "invented"
)
pieces = tuple(
    Piece("outer", f"h-{n:05d}", f"House {n}", (Wording((
        Line(f"Tobias and Agnes Wexcombe the {n}th", Role.NAME, breaks=(7, 17)),
        Line(f"{n} Larkmoor Lane" if n % 7 else f"{n} Qüay Row", Role.STREET),
        Line(f"Farrenby, Vermont {5000 + n}", Role.PLACE),
    )),))
    for n in range(1, 1301)
)
choice = PieceChoice("outer", "a7", "garamond", "White", "deep-green")
setting, findings = fit(pieces, choice, layout, face, ink, 0.0)
households = tuple(piece.household for piece in setting.pieces)
order = PlateOrder("01-outer-white", "outer", ink, (522, 378), households, 1, "0")
sheaves, outlines = draw_setting(setting, order)
bind_plate(Path(sys.argv[3]), order, sheaves, outlines)
verdict = judge_plate(Path(sys.argv[3]), order, setting, pieces)
print(len(forked), verdict)
"""


@pytest.mark.skipif(not hasattr(os, "fork"), reason="this system doesn't fork")
def test_one_process_or_two_or_batches_write_the_same_bytes_and_find_the_same(
    tmp_path: Path,
) -> None:
    told = {}
    for hands in ("one", "two", "batches"):
        command = [sys.executable, "-c", BOTH, hands, str(garamond().path), f"{hands}.pdf"]
        done = subprocess.run(  # noqa: S603
            command, capture_output=True, text=True, check=True, cwd=tmp_path
        )
        told[hands] = done.stdout.split(" ", 1)
    assert "faults=()" in told["one"][1]
    assert told["one"][1] == told["two"][1] == told["batches"][1]
    # drawn, judged, seen as pixels; in batches drawn of 600 pages, judged of 400, the last of 100
    assert [forked for forked, _ in told.values()] == ["0", "3", "8"]
    plates = {(tmp_path / f"{hands}.pdf").read_bytes() for hands in told}
    assert len(plates) == 1
