"""Lines that are read from right to left, and lines of both directions."""

import hashlib
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

import bidi
import hypothesis.strategies as st
import pytest
from fontTools.ttLib import TTFont
from hypothesis import given, settings

from addressing.plates import write_plate
from addressing.preflight import judge_plate
from addressing.preflight.direction import visual_runs
from addressing.records.docket import PieceChoice
from addressing.records.findings import Finding
from addressing.records.pages import Setting
from addressing.records.pieces import Line, Piece, Role, Wording
from addressing.records.plates import PlateOrder
from addressing.records.shelf import Face, Ink, Layout
from addressing.typesetting import fit, shape_line, stream
from addressing.typesetting.direction import runs
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


EXAMPLES = {
    "Dan אב": ["Dan ", "<אב"],
    "אב 12": ["12", "<אב "],
    "אב (Dan)": ["<)", "Dan", "<אב ("],
    "הרצל 12, תל אביב": ["<, תל אביב", "12", "<הרצל "],
    "Dan אב 12 גד Penhew": ["Dan ", "< גד", "12", "<אב ", " Penhew"],
    "شارع 12-14": ["14", "<-", "12", "<شارع "],
}
"""Worked by hand from the rules (UAX #9, W2, W4, N0 to N2, L2); < marks what runs leftwards."""


def shown(found: Sequence[tuple[str, bool]]) -> str:
    """A line's characters as they stand from left to right (brackets are mirrored in shaping)."""
    return "".join(words[::-1] if leftwards else words for words, leftwards in found)


@pytest.mark.parametrize("text", list(EXAMPLES))
def test_a_line_of_both_directions_is_cut_and_ordered_by_the_rules(text: str) -> None:
    assert [f"<{words}" if leftwards else words for words, leftwards in runs(text)] == EXAMPLES[
        text
    ]


LINES = st.text("abאבגشب12٣ .,-/+$%()[]'", max_size=14).map(str.strip)


@settings(deadline=None, max_examples=600)
@given(LINES)
def test_setter_judge_and_another_library_order_a_line_alike(text: str) -> None:
    """The library is python-bidi, whose algorithm is that of the Unicode crates of Rust."""
    ours = shown(runs(text))
    assert shown(visual_runs(text)) == ours
    assert bidi.get_display(text) == ours


def glyphs_of(face: Face, text: str) -> tuple[int, ...]:
    return shape_line(face, text).glyphs


def test_hebrew_with_a_number_is_set_with_the_number_at_the_left(hebrew: Face) -> None:
    line = shape_line(hebrew, "אב 12")
    assert line.glyphs == glyphs_of(hebrew, "12 BA")
    assert line.xs == (0, 500, 1000, 1500, 2000)


def test_a_latin_name_behind_a_hebrew_one_keeps_its_order_and_its_brackets(hebrew: Face) -> None:
    assert glyphs_of(hebrew, "אב (Dan)") == glyphs_of(hebrew, "(Dan) BA")
    assert glyphs_of(hebrew, "Dan אב") == glyphs_of(hebrew, "Dan BA")


def test_only_what_runs_rightwards_is_spaced(hebrew: Face) -> None:
    assert shape_line(replace(hebrew, tracking=100), "אב 12").xs == (0, 600, 1100, 1600, 2100)


def set_one(
    text: str, face: Face, layout: Layout, ink: Ink
) -> tuple[Piece, Setting, Finding | None]:
    cell = Where("list.csv", None, "B2")
    piece = Piece("outer", "h-a", "Dan", (Wording((Line(text, Role.NAME, (cell,)),)),))
    choice = PieceChoice("outer", "trial", "hebrew", "White", "deep-green")
    setting, findings = fit([piece], choice, layout, face, ink, 0.0)
    return piece, setting, next(iter(findings), None)


@pytest.mark.parametrize("text", ["Dan אב", "אב 12", "אב (Dan)", "בג 14-16, אד 7"])
def test_a_line_of_both_directions_is_set_and_proved(
    hebrew: Face, envelope: Layout, white: Ink, tmp_path: Path, text: str
) -> None:
    piece, setting, finding = set_one(text, hebrew, envelope, white)
    assert finding is None
    order = PlateOrder("01-outer-white", "outer", white, (522, 378), ("h-a",), 1, "0")
    pages, outlines = stream(setting)
    write_plate(tmp_path / "plate.pdf", order, pages, outlines)
    assert judge_plate(tmp_path / "plate.pdf", order, setting, [piece]).faults == ()
    turned = replace(
        piece, wordings=(Wording((replace(piece.wordings[0].lines[0], text=text[::-1]),)),)
    )
    assert not judge_plate(tmp_path / "plate.pdf", order, setting, [turned]).proved


def test_a_mark_that_turns_the_direction_is_asked_about_and_holds(
    hebrew: Face, envelope: Layout, white: Ink
) -> None:
    _, setting, ask = set_one("Dan \u202eba\u202c", hebrew, envelope, white)
    assert setting.pieces == ()
    assert ask is not None
    assert ask.holds
    assert ask.code in {"mixed-direction", "glyph-missing"}
