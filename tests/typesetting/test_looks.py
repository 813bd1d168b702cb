"""What the eye would object to, in a script and three romans of the shelf."""

import hashlib
from dataclasses import replace
from importlib.resources import files
from pathlib import Path

import pytest

from addressing.plates import write_plate
from addressing.preflight import judge_plate
from addressing.records.docket import PieceChoice
from addressing.records.pages import Page, Setting
from addressing.records.pieces import Line, Piece, Role, Wording
from addressing.records.plates import PlateOrder
from addressing.records.shelf import Box, Face, Ink, Layout, Zone
from addressing.typesetting import fit, shape_line, stream
from addressing.typesetting.demerits import is_heavy

SHELF = {
    "great-vibes": ("fontpkg_great_vibes", "GreatVibes-Regular.ttf", ()),
    "cormorant": ("fontpkg_cormorant_garamond", "CormorantGaramond[wght].ttf", (("wght", 500.0),)),
    "eb-garamond": ("fontpkg_eb_garamond", "EBGaramond[wght].ttf", (("wght", 400.0),)),
    "dancing": ("fontpkg_dancing_script", "DancingScript[wght].ttf", (("wght", 400.0),)),
}


@pytest.fixture(params=SHELF)
def face(request: pytest.FixtureRequest) -> Face:
    package, file, axes = SHELF[request.param]
    path = Path(str(files(package) / "files" / file))
    digest = hashlib.sha256(path.read_bytes()).hexdigest()
    return Face(request.param, request.param, path, digest, axes=axes)


def set_one(face: Face, layout: Layout, ink: Ink, *texts: str) -> tuple[Setting, Page]:
    wording = Wording(tuple(Line(text, Role.NAME) for text in texts))
    choice = PieceChoice("outer", "trial", face.key, "White", "deep-green")
    setting, findings = fit(
        [Piece("outer", "h-a", "A", (wording,))], choice, layout, face, ink, 0.0
    )
    assert not findings
    return setting, next(stream(setting)[0])


def test_neighbouring_lines_do_not_touch_even_with_accents_over_descenders(
    face: Face, envelope: Layout, white: Ink
) -> None:
    _, page = set_one(
        face, envelope, white, "Peggy Quigley", "Ágnes Öhlkopf", "Haypenny Way", "Élan by Ûrfold"
    )
    em = page.lines[0][0].em
    for (upper, _, y_upper, size), (lower, _, y_lower, _) in zip(
        page.lines, page.lines[1:], strict=False
    ):
        assert y_upper + upper.ink[1] * size / em > y_lower + lower.ink[3] * size / em


def test_each_line_stands_in_the_middle_by_its_ink_swashes_included(
    face: Face, envelope: Layout, white: Ink
) -> None:
    setting, page = set_one(face, envelope, white, "Katarina Farfield", "Jasper Quay", "Ely")
    em = page.lines[0][0].em
    middle = (setting.room.left + setting.room.right) / 2
    for line, x, _, size in page.lines:
        assert x + (line.ink[0] + line.ink[2]) / 2 * size / em == pytest.approx(middle, abs=0.001)


def test_proof_and_plate_draw_from_the_same_outlines(
    face: Face, envelope: Layout, white: Ink
) -> None:
    setting, page = set_one(face, envelope, white, "Tobias Wexcombe")
    _, first = stream(setting)
    _, second = stream(setting)
    for glyph in page.lines[0][0].glyphs:
        assert first.glyphs[glyph] is second.glyphs[glyph]
    assert len(first.glyphs) == len(list(first.glyphs)) > max(page.lines[0][0].glyphs)
    with pytest.raises(KeyError):
        first.glyphs[len(first.glyphs)]


def test_words_set_apart_stand_so_much_further_at_each_blank_and_at_no_other_place() -> None:
    shelf = SHELF["great-vibes"]
    path = Path(str(files(shelf[0]) / "files" / shelf[1]))
    own = Face("script", "Script", path, hashlib.sha256(path.read_bytes()).hexdigest())
    text = "Ms. Zoë Öhlkopf and Mr. José Villafuerte"
    near, apart = shape_line(own, text), shape_line(replace(own, word_space=120), text)
    more = round(0.12 * near.em)
    assert apart.glyphs == near.glyphs
    blanks = [
        sum(own_glyph == near.glyphs[text.index(" ")] for own_glyph in near.glyphs[:at])
        for at in range(len(near.glyphs))
    ]
    moved = [b - a for a, b in zip(near.xs, apart.xs, strict=True)]
    assert moved == [more * many for many in blanks]
    assert max(moved) == more * text.count(" ")


@pytest.mark.parametrize("said", [0, 60, 121])
def test_the_judge_refuses_words_that_stand_apart_otherwise_than_the_face_says(
    envelope: Layout, white: Ink, tmp_path: Path, said: int
) -> None:
    shelf = SHELF["great-vibes"]
    path = Path(str(files(shelf[0]) / "files" / shelf[1]))
    own = Face("script", "Script", path, hashlib.sha256(path.read_bytes()).hexdigest())
    piece = Piece("outer", "h-a", "A", (Wording((Line("Tobias and Odile Penhew", Role.NAME),)),))
    choice = PieceChoice("outer", "trial", "script", "White", "deep-green")
    setting, _ = fit([piece], choice, envelope, replace(own, word_space=120), white, 0.0)
    order = PlateOrder("01-outer-white", "outer", white, (522, 378), ("h-a",), 1, "0")
    pages, outlines = stream(setting)
    write_plate(tmp_path / "plate.pdf", order, pages, outlines)
    assert judge_plate(tmp_path / "plate.pdf", order, setting, [piece]).proved
    other = replace(setting, face=replace(own, word_space=said))
    assert not judge_plate(tmp_path / "plate.pdf", order, other, [piece]).proved


COUPLE = "Captain Rowena Hatherleigh and Mr. Miles Hatherleigh"


def balanced(
    face: Face,
    layout: Layout,
    ink: Ink,
    below: tuple[str, ...],
    *,
    balance: bool = True,
    role: Role = Role.STREET,
) -> tuple[list[str], str]:
    """The lines that a couple's envelope gets, and why, at a size where its names just fit."""
    lines = (
        Line(COUPLE, Role.NAME, (), (COUPLE.index("and"),)),
        *(Line(text, role) for text in below),
    )
    room = Zone("outer", Box(60, 60, 400, 250), "centre", "middle")
    size = 0.99 * room.box.width / width_of(face, COUPLE)
    choice = PieceChoice(
        "outer", "trial", face.key, "White", "deep-green", size=size, balance=balance
    )
    piece = Piece("outer", "h-a", "A", (Wording(lines),))
    setting, _ = fit([piece], choice, replace(layout, zones=(room,)), face, ink, 0.0)
    (placed,) = setting.pieces
    return [line.text for line in placed.lines], placed.why


def width_of(face: Face, text: str) -> float:
    line = shape_line(face, text)
    return (line.ink[2] - line.ink[0]) / line.em


def test_a_name_line_that_dwarfs_the_rest_is_broken_although_it_fits(
    face: Face, envelope: Layout, white: Ink
) -> None:
    short = ("Post Office Box 61", "Newport, Rhode Island")
    lines, why = balanced(face, envelope, white, short)
    assert lines[:2] == ["Captain Rowena Hatherleigh", "and Mr. Miles Hatherleigh"]
    assert why.startswith("Line broken for balance: “Captain Rowena Hatherleigh and Mr. Miles")
    assert balanced(face, envelope, white, short, balance=False) == ([COUPLE, *short], "")


def test_a_long_name_line_stays_whole_over_a_line_nearly_as_long(
    face: Face, envelope: Layout, white: Ink
) -> None:
    long = ("1207 Greywhistle Junction Boulevard North", "Newport, Rhode Island")
    assert balanced(face, envelope, white, long) == ([COUPLE, *long], "")


def test_a_name_line_that_stands_alone_from_edge_to_edge_is_broken_and_a_shorter_one_is_not(
    face: Face, envelope: Layout, white: Ink
) -> None:
    lines, why = balanced(face, envelope, white, ())
    assert lines == ["Captain Rowena Hatherleigh", "and Mr. Miles Hatherleigh"]
    assert why.endswith(" wide, the room 141.1 mm.")
    assert balanced(face, envelope, white, (), balance=False) == ([COUPLE], "")


def test_a_set_of_names_alone_gives_way_for_some_air_and_is_not_broken_for_it(
    face: Face, envelope: Layout, white: Ink
) -> None:
    at = COUPLE.index("and")
    wording = Wording((Line(COUPLE, Role.NAME, (), (at,)),))
    pieces = [Piece("outer", f"h-{n}", "A", (wording,)) for n in range(9)]
    layout = replace(envelope, zones=(Zone("outer", Box(60, 60, 400, 250), "centre", "middle"),))
    choice = PieceChoice("outer", "trial", face.key, "White", "deep-green")
    setting, _ = fit(pieces, choice, layout, face, white, 0.0)
    limit = 400 / width_of(face, COUPLE)
    assert setting.size <= 0.9 * limit < setting.size + 0.25 or setting.size == choice.largest
    assert [len(piece.lines) for piece in setting.pieces] == [1] * 9


def test_a_name_line_that_dwarfs_the_rest_is_broken_at_the_largest_size_too(
    face: Face, envelope: Layout, white: Ink
) -> None:
    """Broken it need fit no larger size than whole: it is the set's size that it has to fit."""
    short = ("Post Office Box 61", "Newport, Rhode Island")
    width = 400.0
    size = 0.85 * width / width_of(face, COUPLE)
    lines = (
        Line(COUPLE, Role.NAME, (), (COUPLE.index("and"),)),
        *(Line(text, Role.STREET) for text in short),
    )
    piece = Piece("outer", "h-a", "A", (Wording(lines),))
    room = Zone("outer", Box(60, 60, width, 250), "centre", "middle")
    choice = PieceChoice("outer", "trial", face.key, "White", "deep-green", largest=size)
    setting, _ = fit([piece], choice, replace(envelope, zones=(room,)), face, white, 0.0)
    assert len(setting.pieces[0].lines) == 4


def tall(face: Face, layout: Layout, ink: Ink, high: float) -> tuple[Setting, list[str]]:
    """A couple's line over five short ones, at 20 pt, in a room of that height (em of 20 pt)."""
    size = 20.0
    below = ("Isolde and Tamsin", "60 Larkmoor Lane", "Ely", "EL9 4XX", "UNITED KINGDOM")
    lines = (
        Line(COUPLE, Role.NAME, (), (COUPLE.index("and"),)),
        *(Line(text, Role.STREET) for text in below),
    )
    width = width_of(face, COUPLE) * size / 0.97
    room = Zone("outer", Box(10, 10, width, high * size), "centre", "middle")
    layout = replace(layout, width=width + 20, height=500.0, safe=Box(0, 0, width + 20, 500))
    layout = replace(layout, zones=(room,), clear=())
    choice = PieceChoice("outer", "trial", face.key, "White", "deep-green", size=size)
    piece = Piece("outer", "h-a", "A", (Wording(lines),))
    setting, findings = fit([piece], choice, layout, face, ink, 0.0)
    return setting, [each.code for each in findings]


def test_a_tall_block_gives_way_a_little_for_one_line_more_and_no_further(
    face: Face, envelope: Layout, white: Ink
) -> None:
    """Else a line from edge to edge stands over short ones, since a broken one has no room."""
    setting, _ = tall(face, envelope, white, 20.0)
    (roomy,) = setting.pieces
    lines = roomy.lines
    assert len(lines) == 7
    leading = setting.leading / setting.size
    high = (lines[0].y - lines[-1].y) / 20.0 + 1.0  # about an em more than between the baselines
    found: list[tuple[int, float, list[str], str]] = []
    while not found or found[-1][0] == 7:
        setting, codes = tall(face, envelope, white, high + 0.3 - len(found) * leading / 20)
        (piece,) = setting.pieces
        found.append((len(piece.lines), piece.lines[0].size, codes, piece.why))
    assert found[0][:3] == (7, 20.0, [])
    smaller = [each for each in found if each[0] == 7 and each[1] < 20.0]
    assert smaller
    assert min(size for _, size, _, _ in smaller) >= 19.0
    assert all(codes == ["size-stepped"] for _, _, codes, _ in smaller)
    assert all("pt smaller. Line broken for balance: " in why for *_, why in smaller)
    assert found[-1][:3] == (6, 20.0, [])  # too tall by far: it stays whole


def test_of_two_lines_of_names_over_one_street_the_wider_is_broken_first() -> None:
    """Else a couple's line from edge to edge stands whole beside a shorter one that is broken."""
    room, street = 100.0, 60.0
    broken = [width for width in range(60, 101) if is_heavy(width, [street], room)]
    assert broken
    assert broken == list(range(broken[0], 101))
    assert is_heavy(98, [66], room)
    assert not is_heavy(85, [66], room)


def test_a_short_table_below_the_names_breaks_no_line(
    face: Face, envelope: Layout, white: Ink
) -> None:
    seat = ("Table 6",)
    assert balanced(face, envelope, white, seat, role=Role.SEAT) == ([COUPLE, *seat], "")
