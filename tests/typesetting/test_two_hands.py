"""Names in one hand, the address in another: sizes, leading, gap, capitals, tracking."""

from dataclasses import replace
from itertools import pairwise

import pytest

from addressing.records.docket import AddressChoice, PieceChoice
from addressing.records.findings import Severity
from addressing.records.pages import Setting
from addressing.records.pieces import Line, Piece, Role, Wording
from addressing.records.shelf import Face, Ink, Layout
from addressing.typesetting import fit, shape_line, stream

CHOICE = PieceChoice(
    "outer", "trial", "names", "White", "deep-green", largest=24.0, address=AddressChoice(size=0.6)
)
ROLES = (Role.NAME, Role.NAME, Role.STREET, Role.PLACE)
TEXTS = ("Ottoline Penhew", "Cosmo Larkmoor", "14 Larkmoor Lane", "Farrenby, Vermont")


def piece(*texts: str, key: str = "h-a", roles: tuple[Role, ...] = ROLES) -> Piece:
    lines = tuple(Line(text, role) for text, role in zip(texts, roles, strict=True))
    return Piece("outer", key, texts[0], (Wording(lines),))


def set_all(listed: list[Piece], faces: tuple[Face, Face], layout: Layout, ink: Ink) -> Setting:
    setting, findings = fit(listed, CHOICE, layout, faces, ink, 0.0)
    assert not [found for found in findings if found.severity is Severity.STOP]
    return setting


def test_the_address_keeps_its_part_of_the_names_size(
    script: Face, roman: Face, envelope: Layout, white: Ink
) -> None:
    long = piece("Wilhelmina Ottoline Featherstonehaugh", "of Wexcombe", *TEXTS[2:], key="h-b")
    setting = set_all(
        [*(piece(*TEXTS) for _ in range(150)), long], (script, roman), envelope, white
    )
    sizes = [[line.size for line in one.lines] for one in setting.pieces]
    assert sizes[0] == [setting.size] * 2 + [pytest.approx(setting.size * 0.6, abs=1e-6)] * 2
    assert sizes[-1][0] < setting.size
    assert sizes[-1][2] == pytest.approx(sizes[-1][0] * 0.6, abs=1e-6)


def test_between_baselines_stands_a_hands_own_leading_and_more_where_the_hand_changes(
    script: Face, roman: Face, envelope: Layout, white: Ink
) -> None:
    setting = set_all([piece(*TEXTS)], (script, roman), envelope, white)
    assert setting.second is not None
    names, change, address = (
        upper.y - lower.y for upper, lower in pairwise(setting.pieces[0].lines)
    )
    assert names == pytest.approx(setting.leading, abs=0.002)
    assert address == pytest.approx(setting.second.leading, abs=0.002)
    assert change == pytest.approx((names + address) / 2 + setting.second.gap, abs=0.002)
    assert 1.299 <= address / 14.4 <= 1.601
    assert setting.second.gap == pytest.approx(14.4 / 2)


def test_equal_blocks_have_equal_baselines_over_the_whole_set(
    script: Face, roman: Face, envelope: Layout, white: Ink
) -> None:
    others = ("Peggy Quigley", "Ágnes Öhlkopf", "9 Jaypenny Yard", "Ely")
    setting = set_all([piece(*TEXTS), piece(*others)], (script, roman), envelope, white)
    first, second = ([line.y for line in one.lines] for one in setting.pieces)
    assert first == second


def test_no_hand_is_smaller_than_the_smallest_size(
    ruler: Face, roman: Face, envelope: Layout, white: Ink
) -> None:
    listed = [piece("A" * 40, "Ida Quill", *TEXTS[2:])]
    setting, findings = fit(listed, CHOICE, envelope, (ruler, roman), white, 0.0)
    assert (setting.pieces, findings[0].code) == ((), "line-too-wide")  # 12 pt would be needed
    smallest = replace(CHOICE, smallest=7.0)
    setting, _ = fit(listed, smallest, envelope, (ruler, roman), white, 0.0)
    assert min(line.size for line in setting.pieces[0].lines) >= 7.0


def test_a_character_that_one_hand_lacks_is_told_of_that_hand(
    script: Face, ruler: Face, envelope: Layout, white: Ink
) -> None:
    listed = [piece("Zoë Penhew", "Ida Quill", "14 Larkmoor Läne", "Ely")]
    setting, (stop,) = fit(listed, CHOICE, envelope, (script, ruler), white, 0.0)
    assert setting.pieces == ()
    assert (stop.code, stop.text[:13]) == ("glyph-missing", "Ruler has no ")


def test_two_hands_of_one_font_draw_from_the_same_letters(
    roman: Face, envelope: Layout, white: Ink
) -> None:
    small = replace(roman, features=(("smcp", 1),))
    setting = set_all([piece(*TEXTS)], (roman, small), envelope, white)
    pages, outlines = stream(setting)
    (page,) = pages
    used = {glyph for line, *_ in page.lines for glyph in line.glyphs}
    assert max(used) < len(outlines.glyphs) < 1 << 16


def test_two_fonts_have_letters_of_their_own(
    script: Face, roman: Face, envelope: Layout, white: Ink
) -> None:
    setting = set_all([piece(*TEXTS)], (script, roman), envelope, white)
    pages, outlines = stream(setting)
    (page,) = pages
    assert {glyph >> 16 for line, *_ in page.lines[:2] for glyph in line.glyphs} == {0}
    assert {glyph >> 16 for line, *_ in page.lines[2:] for glyph in line.glyphs} == {1}
    assert len(outlines.glyphs) == len(list(outlines.glyphs))
    for number in (2 << 16, (1 << 16) + len(outlines.glyphs)):
        with pytest.raises(KeyError):
            outlines.glyphs[number]


def test_words_in_capitals_are_the_capitals(roman: Face) -> None:
    line = shape_line(replace(roman, in_capitals=True), "Weißdorn Lane")
    assert line.glyphs == shape_line(roman, "WEISSDORN LANE").glyphs
    assert line.text == "Weißdorn Lane"


def test_small_capitals_are_the_fonts_own(roman: Face) -> None:
    """By fontTools' names of EB Garamond's glyphs."""
    from fontTools.ttLib import TTFont  # noqa: PLC0415 - only here

    line = shape_line(replace(roman, features=(("smcp", 1),)), "Lane")
    assert TTFont(roman.path).getGlyphNameMany(line.glyphs) == ["L", "a.sc", "n.sc", "e.sc"]


def test_tracking_stands_before_every_letter_but_the_first_and_before_no_blank(ruler: Face) -> None:
    plain, spaced = (
        shape_line(replace(ruler, tracking=tracking), "ABC DE") for tracking in (0, 100)
    )
    assert plain.xs == (0, 500, 1000, 1500, 2000, 2500)
    assert spaced.xs == (0, 600, 1200, 1700, 2300, 2900)
    assert spaced.ink[::2] == (0, 3400)
    assert shape_line(replace(ruler, tracking=-40), "AB").xs == (0, 460)


def test_accents_stay_with_their_letters_when_letters_are_spaced(roman: Face) -> None:
    """A q with a caron is no letter of any font, so the accent is placed by itself."""
    plain, spaced = (
        shape_line(replace(roman, tracking=tracking), "aq\u030cb") for tracking in (0, 200)
    )
    step = round(0.2 * plain.em)
    moved = [after - before for before, after in zip(plain.xs, spaced.xs, strict=True)]
    assert len(plain.glyphs) == 4
    assert moved == [0, step, step, 2 * step]
