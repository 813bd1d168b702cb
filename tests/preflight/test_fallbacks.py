"""Plates with words of several faces are proved as made, and refused when a word strays."""

from collections.abc import Callable
from dataclasses import replace
from importlib.resources import files
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from addressing.plates import write_plate
from addressing.preflight import judge_plate
from addressing.records.docket import AddressChoice, PieceChoice
from addressing.records.pages import Page, Setting
from addressing.records.pieces import Line, Piece, Role, Wording
from addressing.records.plates import PlateOrder, Verdict
from addressing.records.shelf import ALIGNS, Box, Face, Fallback, Ink, Layout, Zone
from addressing.typesetting import fit, stream

WHITE = Ink("White", "White", (0.3, 0.1, 0.0, 0.0), (1.0, 1.0, 1.0))


def face_of(package: str, file: str, **axes: float) -> Face:
    path = Path(str(files(package) / "files" / file))
    return Face(file, file, path, "", axes=tuple(axes.items()), features=(("kern", 1),))


SCRIPT = face_of("fontpkg_great_vibes", "GreatVibes-Regular.ttf")
ROMAN = face_of("fontpkg_eb_garamond", "EBGaramond[wght].ttf", wght=500.0)
NOTO = face_of("fontpkg_noto_serif", "NotoSerif[wdth,wght].ttf", wght=450.0)
DISPLAY = face_of("fontpkg_playfair_display", "PlayfairDisplay[wght].ttf", wght=500.0)
GREEK, GARAMOND = Fallback("Grek", NOTO), Fallback("Grek", ROMAN, 0.9)
SPACED = replace(DISPLAY, tracking=80, fallbacks=(Fallback("Grek", replace(NOTO, tracking=80)),))
CAPITALS = Fallback("capitals", face_of("fontpkg_eb_garamond", "EBGaramond-Italic[wght].ttf"), 1.1)
SMALL = replace(ROMAN, features=(("kern", 1), ("smcp", 1)), tracking=60, small_words=True)
HANDS = {
    "another face for capitals": (replace(SCRIPT, fallbacks=(GREEK, CAPITALS)), SMALL),
    "capitals small where they are words": (
        SPACED,
        replace(SMALL, fallbacks=(Fallback("Grek", replace(NOTO, small_words=True)),)),
    ),
    "script": (replace(SCRIPT, fallbacks=(GREEK,)),) * 2,
    "a size of one's own": (replace(SCRIPT, fallbacks=(GARAMOND,)),) * 2,
    "spaced": (SPACED, SPACED),
    "capitals": (replace(DISPLAY, in_capitals=True, fallbacks=(GREEK,)),) * 2,
    "two hands, the second steps in": (replace(SCRIPT, fallbacks=(GARAMOND,)), ROMAN),
    "two hands, each helped": (replace(SCRIPT, fallbacks=(GREEK,)), SPACED),
}


def piece(number: int, *texts: str) -> Piece:
    roles = (Role.NAME, Role.STREET, Role.PLACE)
    lines = tuple(Line(text, role) for text, role in zip(texts, roles, strict=False))
    return Piece("outer", f"h-{number:08d}", f"Household {number}", (Wording(lines),))


PIECES = (
    piece(1, "Ms. Ελένη Παπαδοπούλου", "14 Larkmoor Lane", "Farrenby, Vermont 05201"),
    piece(2, "Tobias Wexcombe", "Οδός Πένχου 12", "Farrenby"),
    piece(3, "Νίκος Penhew Ash III", "9 Αμπερλι-Court", "Ely"),
    piece(4, "Ida Quill, MD", "2B HOLLIN ROW", "FRANCE SW1A 1AA"),
)


def setting_of(
    hands: tuple[Face, Face], align: str = "centre", pieces: tuple[Piece, ...] = PIECES
) -> Setting:
    zone = Zone("outer", Box(100, 60, 320, 200), align, "middle")
    layout = Layout("a7", "A7", 522, 378, "euro", 90, (zone,), Box(18, 18, 486, 342), (), "none")
    choice = PieceChoice(
        "outer", "a7", "x", "White", "deep-green", smallest=5.0, address=AddressChoice()
    )
    setting, findings = fit(pieces, choice, layout, hands, WHITE, 14.17)
    assert not [found for found in findings if found.holds]
    return setting


def made(
    path: Path,
    setting: Setting,
    change: Callable[[Page], Page] | None = None,
    said: Setting | None = None,
    pieces: tuple[Piece, ...] = PIECES,
) -> Verdict:
    """A plate of a setting, each page changed on its way, judged against what was said of it."""
    households = tuple(placed.household for placed in setting.pieces)
    order = PlateOrder("01-outer-white", "outer", WHITE, (522, 378), households, 1, "0.1.0")
    pages, outlines = stream(setting)
    write_plate(path, order, pages if change is None else map(change, pages), outlines)
    return judge_plate(path, order, said or setting, pieces)


@pytest.mark.parametrize("hands", HANDS)
def test_plates_with_words_of_other_faces_are_proved(tmp_path: Path, hands: str) -> None:
    for align in ALIGNS:
        setting = setting_of(HANDS[hands], align)
        assert any(placed.fallbacks for placed in setting.pieces)
        assert made(tmp_path / "plate.pdf", setting).faults == ()


def first_page(change: Callable[[Page], Page]) -> Callable[[Page], Page]:
    return lambda page: change(page) if page.household == "h-00000001" else page


def moved(page: Page) -> Page:
    """The Greek words of the first line a hundredth of a point aside."""
    first, (words, x, y, size), *rest = page.lines
    return Page(page.household, (first, (words, x + 0.01, y, size), *rest))


def larger(page: Page) -> Page:
    first, (words, x, y, size), *rest = page.lines
    return Page(page.household, (first, (words, x, y, size * 1.01), *rest))


def without(page: Page) -> Page:
    return Page(page.household, (page.lines[0], *page.lines[2:]))


@pytest.mark.parametrize("change", [moved, larger, without])
def test_a_word_moved_set_larger_or_left_out_is_refused(
    tmp_path: Path, change: Callable[[Page], Page]
) -> None:
    setting = setting_of(HANDS["script"])
    assert made(tmp_path / "plate.pdf", setting, first_page(change)).faults


def test_a_plate_with_another_face_than_was_named_is_refused(tmp_path: Path) -> None:
    setting = setting_of(HANDS["script"])
    said = replace(setting, face=replace(SCRIPT, fallbacks=(Fallback("Grek", ROMAN),)))
    assert made(tmp_path / "plate.pdf", setting, said=said).faults


def test_a_set_that_does_not_say_that_another_face_stepped_in_is_refused(tmp_path: Path) -> None:
    setting = setting_of(HANDS["script"])
    silent = replace(setting, pieces=tuple(replace(p, fallbacks=()) for p in setting.pieces))
    faults = made(tmp_path / "plate.pdf", setting, said=silent).faults
    assert any("words in other faces than the set says" in fault for fault in faults)


LETTERS = st.sampled_from("aefnrstuEHKT" + "αβγδεζηθλμπΣΩ" + "-.’é")
CODES = st.sampled_from(["III", "FRANCE", "SW1A", "J.R.", "14B", "ΕΛΛΑΔΑ", "O’NEIL", "A"])
WORDS = st.lists(st.text(LETTERS, min_size=1, max_size=7) | CODES, min_size=1, max_size=4).map(
    " ".join
)


@settings(
    max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(st.lists(WORDS, min_size=1, max_size=4), st.sampled_from(sorted(HANDS)))
def test_law_the_judge_finds_the_same_faces_and_places_for_any_words(
    tmp_path: Path, texts: list[str], hands: str
) -> None:
    pieces = tuple(piece(number, text, text) for number, text in enumerate(texts))
    setting = setting_of(HANDS[hands], pieces=pieces)
    assert made(tmp_path / "plate.pdf", setting, pieces=pieces).faults == ()


def test_the_judge_widens_the_blank_beside_a_word_that_runs_leftwards_too(tmp_path: Path) -> None:
    hebrew = face_of("fontpkg_frank_ruhl_libre", "FrankRuhlLibre[wght].ttf", wght=500.0)
    own = replace(SCRIPT, word_space=120, fallbacks=(Fallback("Hebr", hebrew),))
    pieces = (piece(1, "12 משפחת כהן", "Herzl Street", "Tel Aviv"),)
    setting = setting_of((own, own), pieces=pieces)
    assert made(tmp_path / "plate.pdf", setting, pieces=pieces).faults == ()
    said = replace(setting, face=replace(own, word_space=119))
    assert made(tmp_path / "plate.pdf", setting, said=said, pieces=pieces).faults


FRANK = Face(
    "frank",
    "Frank",
    Path(str(files("fontpkg_frank_ruhl_libre") / "files" / "FrankRuhlLibre[wght].ttf")),
    "",
    axes=(("wght", 500.0),),
)
HEBREW = (piece(1, "משפחת כהן", "רחוב הרצל 12", "Tel Aviv ISRAEL"),)


def right_ends(setting: Setting) -> list[float]:
    pages, _ = stream(setting)
    return [x + line.ink[2] * size / line.em for line, x, _, size in next(iter(pages)).lines]


@pytest.mark.parametrize("align", ["left", "block", "block-right", "stepped"])
def test_lines_that_are_read_from_the_right_are_flush_there_and_step_to_the_left(
    tmp_path: Path, align: str
) -> None:
    """The block stands where one that is read from the left would stand."""
    mirrored = setting_of((FRANK, FRANK), align, HEBREW)
    ends = right_ends(mirrored)
    step = mirrored.zone.step * mirrored.size if align == "stepped" else 0.0
    assert ends == pytest.approx([ends[0] - number * step for number in range(3)], abs=0.01)
    assert made(tmp_path / "plate.pdf", mirrored, pieces=HEBREW).faults == ()


def test_the_judge_refuses_such_lines_flush_at_the_left(tmp_path: Path) -> None:
    setting = setting_of((FRANK, FRANK), "block", HEBREW)
    (placed,) = setting.pieces
    first, *others = placed.lines
    moved = (first, *(line._replace(x=line.x - 3.0) for line in others))
    wrong = replace(setting, pieces=(replace(placed, lines=moved),))
    faults = made(tmp_path / "plate.pdf", wrong, pieces=HEBREW).faults
    assert any("3.000 pt out of line" in fault for fault in faults)
