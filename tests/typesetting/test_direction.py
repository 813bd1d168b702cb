"""Lines that are read from right to left, and lines of both directions."""

import hashlib

import pytest
from fontTools.ttLib import TTFont

from addressing.records.docket import PieceChoice
from addressing.records.findings import Severity
from addressing.records.pieces import Line, Piece, Role, Wording
from addressing.records.shelf import Face, Ink, Layout
from addressing.typesetting import fit, shape_line
from addressing.where import Where


@pytest.fixture(scope="module")
def hebrew(ruler: Face, tmp_path_factory: pytest.TempPathFactory) -> Face:
    """The ruler face with the glyphs of A to E lent to the first five Hebrew letters."""
    font = TTFont(ruler.path)
    for table in font["cmap"].tables:
        table.cmap.update({0x5D0 + n: f"u{0x41 + n:04X}" for n in range(5)})
    path = tmp_path_factory.mktemp("faces") / "hebrew.ttf"
    font.save(path)
    return Face("hebrew", "Hebrew", path, hashlib.sha256(path.read_bytes()).hexdigest())


def test_a_hebrew_line_runs_from_right_to_left(hebrew: Face) -> None:
    line = shape_line(hebrew, "אבג")
    latin = shape_line(hebrew, "ABC")
    assert line.glyphs == tuple(reversed(latin.glyphs))
    assert line.xs == (0, 500, 1000)


@pytest.mark.parametrize(
    "text", ["Dan אב", "אב 12", "אב (Dan)"], ids=["after", "number", "brackets"]
)
def test_a_line_of_both_directions_is_asked_about_and_held(
    hebrew: Face, envelope: Layout, white: Ink, text: str
) -> None:
    cell = Where("list.csv", None, "B2")
    piece = Piece("outer", "h-a", "Dan", (Wording((Line(text, Role.NAME, (cell,)),)),))
    choice = PieceChoice("outer", "trial", "hebrew", "White", "deep-green")
    setting, findings = fit([piece], choice, envelope, hebrew, white, 0.0)
    assert setting.pieces == ()
    (ask,) = findings
    assert (ask.severity, ask.code, ask.where) == (Severity.ASK, "mixed-direction", cell)
    assert ask.holds
