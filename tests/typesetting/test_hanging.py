"""Light marks at the ends of centred lines hang out; setter and judge agree on where."""

from dataclasses import replace
from pathlib import Path

import pytest

from addressing.plates import write_plate
from addressing.preflight import judge_plate
from addressing.preflight.lines import Lines
from addressing.records.docket import PieceChoice
from addressing.records.pages import Setting
from addressing.records.pieces import Line, Piece, Role, Wording
from addressing.records.plates import PlateOrder
from addressing.records.shelf import Face, Ink, Layout
from addressing.tables import table
from addressing.typesetting import fit, stream
from addressing.typesetting.hanging import usual_marks

ROWS = table("hanging_marks")


def set_lines(
    texts: tuple[str, ...],
    face: Face,
    layout: Layout,
    *,
    align: str = "centre",
    marks: str | None = None,
    size: float | None = 14.0,
) -> tuple[Setting, Piece]:
    zones = tuple(replace(zone, hanging=marks) for zone in layout.zones)
    piece = Piece("outer", "h-a", "A", (Wording(tuple(Line(each, Role.NAME) for each in texts)),))
    choice = PieceChoice("outer", "trial", "face", "White", "deep-green", size=size, align=align)
    ink = Ink("White", "White", (0.1, 0.0, 0.0, 0.2), (1.0, 1.0, 1.0))
    setting, findings = fit([piece], choice, replace(layout, zones=zones), face, ink, 0.0)
    assert not findings
    return setting, piece


def aside(setting: Setting, words: str, number: int = 0) -> float:
    """How far (pt) the middle of some words of a line is from that of the room.

    The words are taken out of the line letter by letter: a letter each, in these faces.
    """
    line = setting.pieces[0].lines[number]
    lines = Lines(setting.face)
    drawn = lines.line(line.text)
    letters = list(lines._spelling.letters(drawn.body))  # noqa: SLF001 - the judge's own
    begin = line.text.index(words)
    inked = len(line.text[:begin].replace(" ", ""))
    own = letters[inked : inked + len(words.replace(" ", ""))]
    assert len(letters) == len(line.text.replace(" ", ""))
    found = [lines._letters.letter(glyph) for glyph, _, _ in own]  # noqa: SLF001
    left = min(x + letter.left for (_, x, _), letter in zip(own, found, strict=True))
    right = max(x + letter.right for (_, x, _), letter in zip(own, found, strict=True))
    middle = line.x + (left + right) / 2 * line.size / drawn.units
    return middle - (setting.room.left + setting.room.right) / 2


def plain(face: Face) -> Face:
    """The face without ligatures, so that each character is a letter."""
    return replace(face, features=(("liga", 0), ("calt", 0), ("clig", 0)))


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["what"])
def test_a_line_is_centred_by_its_words_where_a_light_mark_begins_or_ends_it(
    row: dict[str, str], roman: Face, envelope: Layout
) -> None:
    setting, _ = set_lines((row["hangs"], row["stays"]), plain(roman), envelope)
    assert aside(setting, row["hangs"].strip(row["mark"])) == pytest.approx(0, abs=0.001)
    assert aside(setting, row["stays"], 1) == pytest.approx(0, abs=0.001)


@pytest.mark.parametrize("align", ["centre", "arch", "bowl"])
def test_the_mark_itself_stands_outside_the_middle_and_may_be_told_to_count(
    align: str, ruler: Face, envelope: Layout
) -> None:
    hung, _ = set_lines(("Wexcombe,",), ruler, envelope, align=align)
    counted, _ = set_lines(("Wexcombe,",), ruler, envelope, align=align, marks="")
    assert hung.pieces[0].lines[0].x - counted.pieces[0].lines[0].x == pytest.approx(14 / 4)


def test_flush_lines_and_lines_of_marks_alone_stand_as_before(
    ruler: Face, envelope: Layout
) -> None:
    for text, align in (("Wexcombe,", "left"), ("Wexcombe,", "right"), (".,.", "centre")):
        hung, counted = (
            set_lines((text,), ruler, envelope, align=align, marks=marks)[0] for marks in (None, "")
        )
        assert hung.pieces[0].lines == counted.pieces[0].lines


def test_a_mark_that_hangs_stays_in_the_room(ruler: Face, envelope: Layout) -> None:
    """Twenty letters fill the room at 24 pt; a mark beside nineteen takes the room of two."""
    text = "W" * 19 + ","
    setting, _ = set_lines((text,), ruler, envelope, size=None)
    line = setting.pieces[0].lines[0]
    assert line.size == 22.75  # 240 / (21 x 0.5), to the quarter below
    assert line.x + len(text) / 2 * line.size <= setting.room.right


@pytest.mark.parametrize("align", ["centre", "arch"])
def test_the_judge_wants_the_words_in_the_middle_and_not_all_ink(
    align: str, roman: Face, envelope: Layout, tmp_path: Path
) -> None:
    texts = ("“Mr. Tobias Wexcombe, Jr.”", "Larkmoor,")
    hung, piece = set_lines(texts, roman, envelope, align=align)
    order = PlateOrder("01-outer-white", "outer", hung.ink, (522, 378), ("h-a",), 1, "0")
    path = tmp_path / "plate.pdf"
    write_plate(path, order, *stream(hung))
    assert judge_plate(path, order, hung, [piece]).proved
    by_ink, _ = set_lines(texts, roman, envelope, align=align, marks="")
    as_hung = replace(by_ink, zone=hung.zone)
    write_plate(path, order, *stream(as_hung))
    told = judge_plate(path, order, as_hung, [piece])
    assert any("out of line" in each for each in map(str, told.faults))


def test_every_mark_has_its_source_and_hangs_in_its_example() -> None:
    assert set(usual_marks()) == {row["mark"] for row in ROWS}
    assert all(row["source"] and row["mark"] in row["hangs"] for row in ROWS)


def test_a_set_piece_of_a_forged_place_is_found_though_its_marks_hang(
    ruler: Face, envelope: Layout, tmp_path: Path
) -> None:
    setting, piece = set_lines(("Wexcombe,",), ruler, envelope)
    (placed,) = setting.pieces
    moved = tuple(line._replace(x=line.x - 3.5) for line in placed.lines)
    other = replace(setting, pieces=(replace(placed, lines=moved),))
    order = PlateOrder("01-outer-white", "outer", setting.ink, (522, 378), ("h-a",), 1, "0")
    write_plate(tmp_path / "plate.pdf", order, *stream(other))
    assert not judge_plate(tmp_path / "plate.pdf", order, other, [piece]).proved
