"""Fitting with the ruler face: at 24 pt a letter is 12 pt wide, so sums are done in the head.

The room is 240 by 120 pt: twenty letters at 24 pt.
"""

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

import pytest

from addressing.faults import Exit, Fault
from addressing.records.docket import PieceChoice
from addressing.records.findings import Finding, Severity
from addressing.records.pages import Setting
from addressing.records.pieces import Line, Piece, Role, Wording
from addressing.records.shelf import Box, Face, Ink, Layout, Zone
from addressing.typesetting import fit
from addressing.where import Where

CHOICE = PieceChoice("outer", "trial", "ruler", "White", "deep-green", largest=24.0, tighten=0)
CELL = Where("list.csv", None, "C14")


def piece(*texts: str, key: str = "h-a", breaks: tuple[int, ...] = ()) -> Piece:
    lines = tuple(
        Line(text, Role.NAME, (CELL,), breaks if number == 0 else ())
        for number, text in enumerate(texts)
    )
    return Piece("outer", key, texts[0].title(), (Wording(lines),))


UNBALANCED = replace(CHOICE, balance=False)
"""A line alone may then fill the room."""


def letters(count: int) -> str:
    return "ABCDEFGHIJKLMNOPQRSTUVWXYZABCDEFGHIJKLMNOPQRSTUVWXYZ"[:count]


class Trial:
    """One face, layout and ink; `choice` may differ."""

    def __init__(self, face: Face, layout: Layout, ink: Ink) -> None:
        self.face, self.layout, self.ink = face, layout, ink

    def __call__(
        self, pieces: Sequence[Piece], choice: PieceChoice = CHOICE, margin: float = 0.0
    ) -> tuple[Setting, tuple[Finding, ...]]:
        return fit(pieces, choice, self.layout, self.face, self.ink, margin)


@pytest.fixture
def trial(ruler: Face, envelope: Layout, white: Ink) -> Trial:
    return Trial(ruler, envelope, white)


def test_twenty_letters_fill_the_room_at_24_pt(trial: Trial) -> None:
    setting, findings = trial([piece(letters(20))])
    assert (setting.size, findings) == (24.0, ())
    assert setting.pieces[0].lines[0].x == 141.0


def test_the_size_of_the_set_is_the_largest_quarter_point_at_which_the_lines_fit(
    trial: Trial,
) -> None:
    setting, _ = trial([piece(letters(21)), piece(letters(3))])
    assert setting.size == 22.75  # 240 / 10.5 = 22.86
    assert {line.size for one in setting.pieces for line in one.lines} == {22.75}


def test_a_size_in_the_docket_is_the_size(trial: Trial) -> None:
    setting, _ = trial([piece(letters(5))], replace(CHOICE, size=17.3))
    assert setting.size == 17.3


def test_three_broken_of_seventy_beat_a_smaller_size_for_all(trial: Trial) -> None:
    long = [piece(f"{letters(14)} {letters(13)}", key=f"h-{n}", breaks=(15,)) for n in range(3)]
    short = [piece(letters(20), key=f"h-s{n}") for n in range(67)]
    setting, findings = trial(long + short)
    assert (setting.size, findings) == (24.0, ())  # whole, all would be at 17 pt
    assert [line.text for line in setting.pieces[0].lines] == [letters(14), letters(13)]
    assert setting.pieces[0].why.startswith("Line broken: ")
    assert [line.source for line in setting.pieces[0].lines] == [0, 0]


def test_half_the_set_is_not_broken_for_the_sake_of_size(trial: Trial) -> None:
    long = [piece(f"{letters(11)} {letters(11)}", key=f"h-{n}", breaks=(12,)) for n in range(35)]
    short = [piece(letters(20), key=f"h-s{n}") for n in range(35)]
    setting, _ = trial(long + short)
    assert setting.size == 18.75  # 240 x 0.9 / 11.5 = 18.78: a line alone wants some air
    assert all(len(one.lines) == 1 for one in setting.pieces)


def test_one_of_many_is_set_smaller_and_says_so(trial: Trial) -> None:
    long = piece(letters(23), key="h-long")
    setting, findings = trial([long, *(piece(letters(20)) for _ in range(60))])
    assert setting.size == 24.0
    assert setting.pieces[0].lines[0].size == 20.75
    (note,) = findings
    assert (note.severity, note.code, note.household) == (Severity.NOTE, "size-stepped", "h-long")
    assert note.text == (
        f"Set 3.25 pt smaller: “{letters(23)}” is 97.4 mm wide at 24 pt, the room is 84.7 mm."
    )
    assert (note.where, setting.pieces[0].why) == (CELL, note.text)


def test_no_piece_is_ever_more_than_15_per_cent_smaller(trial: Trial) -> None:
    short = [piece(letters(20)) for _ in range(300)]
    setting, findings = trial([piece(letters(40), key="h-long"), *short])
    (stop,) = findings
    assert (stop.severity, stop.code, stop.household) == (Severity.STOP, "line-too-wide", "h-long")
    assert "169.3 mm wide at 24 pt, the room is 84.7 mm" in stop.text
    assert "size in the docket" in stop.mend
    assert len(setting.pieces) == 300
    said = float(stop.mend.split(" pt")[0].split()[-1])
    again, findings = trial([piece(letters(40), key="h-long"), *short], replace(CHOICE, size=said))
    assert len(again.pieces) == 301, "the mend doesn't mend"


def test_a_small_set_gives_way_before_a_household_is_held_back(trial: Trial) -> None:
    setting, findings = trial([piece(letters(26)), *(piece(letters(20)) for _ in range(9))])
    assert len(setting.pieces) == 10
    assert all(finding.severity is Severity.NOTE for finding in findings)


def test_a_line_too_wide_at_the_smallest_size_is_a_stop_that_says_what_would_help(
    trial: Trial,
) -> None:
    setting, findings = trial([piece(letters(40))], replace(CHOICE, smallest=20.0))
    assert setting.pieces == ()
    assert findings[0].mend == (
        "Shorten the line; or choose a layout whose zone is 169.3 mm wide; or choose a"
        " narrower face."
    )


def test_lines_too_many_for_the_room_are_a_stop(trial: Trial) -> None:
    setting, findings = trial([piece(*("ABC",) * 12)], replace(CHOICE, smallest=12.0))
    assert (setting.pieces, findings[0].code) == ((), "block-too-tall")
    assert "12 lines are too tall" in findings[0].text


def test_the_first_wording_that_fits_is_taken_before_a_line_is_broken(trial: Trial) -> None:
    whole = Line(f"{letters(12)} {letters(12)}", Role.NAME, (CELL,), (13,))
    other = Wording((Line(letters(18), Role.NAME, (CELL,)),), "The state is abbreviated.")
    one = Piece("outer", "h-w", "W", (Wording((whole,)), other))
    setting, _ = trial([one], replace(CHOICE, size=24.0))
    assert setting.pieces[0].wording == 1
    assert setting.pieces[0].why.startswith("Another wording: ")
    assert setting.pieces[0].why.endswith("The state is abbreviated.")


def test_the_best_break_whose_parts_fit_is_taken(trial: Trial) -> None:
    text = f"{letters(4)} {letters(21)} {letters(9)} {letters(5)}"
    setting, _ = trial([piece(text, breaks=(5, 37, 27))], replace(CHOICE, size=20.0))
    # 24 letters fit at 20 pt: after the first (5) 36 remain, before the second (37) stand 36.
    texts = [line.text for line in setting.pieces[0].lines]
    assert texts == [letters(4), letters(21), f"{letters(9)} {letters(5)}"]


def test_a_hyphen_before_a_break_stays(trial: Trial) -> None:
    setting, _ = trial([piece("WEXCOMBEWEX-FARRENBYFAR", breaks=(12,))], replace(CHOICE, size=24.0))
    assert [line.text for line in setting.pieces[0].lines] == ["WEXCOMBEWEX-", "FARRENBYFAR"]


def test_equal_numbers_of_lines_stand_on_equal_baselines_whatever_their_letters(
    trial: Trial,
) -> None:
    setting, _ = trial([piece("NAME", "STREET"), piece("xex", "gypq"), piece("A", "B", "C")])
    first, second, third = ([line.y for line in one.lines] for one in setting.pieces)
    assert first == second
    # One line more moves the block by half a leading.
    assert third[0] - first[0] == pytest.approx(setting.leading / 2, abs=0.001)
    # The optical middle, from capitals' height to last baseline, is the middle of the room.
    assert (first[0] + 0.7 * setting.size + first[-1]) / 2 == pytest.approx(189, abs=0.001)


@pytest.mark.parametrize(("valign", "edge"), [("top", 249.0), ("bottom", 129.0)])
def test_a_block_at_an_edge_keeps_one_baseline_for_all(
    trial: Trial, valign: str, edge: float
) -> None:
    zone = replace(trial.layout.zones[0], valign=valign, align="left")
    trial.layout = replace(trial.layout, zones=(zone,))
    setting, _ = trial([piece("NAME", "STREET"), piece("xex", "xex")])
    first, second = setting.pieces
    assert [line.y for line in first.lines] == [line.y for line in second.lines]
    assert {line.x for line in first.lines} == {141.0}
    nearest = first.lines[0].y + 0.7 * 24 if valign == "top" else first.lines[-1].y - 0.2 * 24
    assert nearest == pytest.approx(edge, abs=0.001)


def test_the_docket_can_set_lines_flush_left(trial: Trial) -> None:
    setting, _ = trial([piece("NAME", "LONGER")], replace(CHOICE, align="left"))
    assert setting.zone.align == "left"
    assert {line.x for line in setting.pieces[0].lines} == {141.0}


def test_the_room_is_what_the_press_can_print_of_the_zone(trial: Trial) -> None:
    setting, _ = trial([piece("A")], margin=150.0)
    assert setting.room == Box(150, 150, 222, 78)


def test_posted_pieces_keep_off_the_clear_areas_and_others_do_not(trial: Trial) -> None:
    trial.layout = replace(trial.layout, clear=(("bar code", Box(180, 0, 342, 150)),))
    outer, _ = trial([piece("A")])
    inner, _ = trial([piece("A")], replace(CHOICE, kind="inner"))
    assert outer.room == Box(141, 150, 240, 99)
    assert inner.room == Box(141, 129, 240, 120)


def test_a_layout_without_the_zone_or_without_room_stops_the_program(trial: Trial) -> None:
    with pytest.raises(Fault, match="no zone for the reply") as caught:
        trial([piece("A")], replace(CHOICE, kind="reply"))
    assert caught.value.exit is Exit.INPUT
    with pytest.raises(Fault, match="leaves no room"):
        trial([piece("A")], margin=200.0)


def test_a_missing_glyph_stops_the_household_and_names_the_character(trial: Trial) -> None:
    setting, findings = trial([piece("STANISŁAW", key="h-st"), piece("TOBIAS", key="h-to")])
    assert [one.household for one in setting.pieces] == ["h-to"]
    (stop,) = findings
    assert (stop.severity, stop.code, stop.where) == (Severity.STOP, "glyph-missing", CELL)
    assert "“Ł” (LATIN CAPITAL LETTER L WITH STROKE) for “STANISŁAW”" in stop.text


@pytest.mark.parametrize("hidden", ["\u200b", "\u00ad", "\ufeff"])
def test_a_character_that_prints_nothing_never_vanishes_in_silence(
    trial: Trial, hidden: str
) -> None:
    setting, findings = trial([piece(f"TOB{hidden}IAS")])
    assert (setting.pieces, findings[0].code) == ((), "glyph-missing")


def test_an_alternative_with_a_missing_glyph_is_passed_over(trial: Trial) -> None:
    first = Wording((Line(letters(30), Role.NAME, (CELL,)),))
    flawed = Wording((Line("Ł", Role.NAME, (CELL,)),))
    last = Wording((Line("FITS", Role.NAME, (CELL,)),))
    one = Piece("outer", "h-a", "A", (first, flawed, last))
    setting, findings = trial([one], replace(CHOICE, size=24.0))
    assert (setting.pieces[0].wording, findings) == (2, ())


def test_a_static_piece_has_no_household(trial: Trial) -> None:
    line = Line("LARKMOOR", Role.STREET, (Where("docket.toml", None, "docket:hosts.street"),))
    setting, _ = trial([Piece("outer", None, "the hosts", (Wording((line,)),))])
    assert setting.pieces[0].household is None


def test_no_pieces_make_an_empty_setting(trial: Trial) -> None:
    setting, findings = trial([])
    assert (setting.pieces, findings, setting.size) == ((), (), 24.0)


def test_the_zone_may_be_another_than_the_first(trial: Trial) -> None:
    zone = Zone("reply", Box(50, 50, 100, 100), "left", "top")
    trial.layout = replace(trial.layout, zones=(*trial.layout.zones, zone))
    setting, _ = trial([piece("A")], replace(CHOICE, kind="reply"))
    assert (setting.zone.kind, setting.zone.box) == (zone.kind, zone.box)


def test_size_is_worth_less_once_the_set_is_large_enough(trial: Trial) -> None:
    # Of ten, three are 20 letters (24 pt) whole, or 14 and 5 broken. From 12 pt to 15 pt it is
    # worth breaking three of ten; from 24 pt to 30 pt, above 3/4 of the largest, it is not.
    long = f"{letters(14)} {letters(5)}"
    listed = [piece(long, key=f"h-{n}", breaks=(15,)) for n in range(3)]
    listed += [piece(letters(14), key=f"h-s{n}") for n in range(7)]
    small, _ = trial(listed, replace(UNBALANCED, largest=60.0))
    large, _ = trial(listed, replace(UNBALANCED, largest=30.0))
    assert (small.size, large.size) == (34.25, 24.0)


@pytest.mark.parametrize(
    ("first", "second", "size", "lines"),
    [(15, 14, 24.0, 2), (18, 3, 21.75, 1), (14, 11, 24.0, 2), (14, 9, 20.0, 1)],
)
def test_a_set_of_one_is_broken_for_a_tenth_of_size_and_not_for_less(
    trial: Trial, first: int, second: int, size: float, lines: int
) -> None:
    """24 pt holds 20 letters; above 18 pt (three quarters) growth counts half."""
    one = piece(f"{letters(first)} {letters(second)}", breaks=(first + 1,))
    setting, _ = trial([one], UNBALANCED)
    assert (setting.size, len(setting.pieces[0].lines)) == (size, lines)


def couple(number: int, street: str) -> Piece:
    """Names of 12 and 11 letters in one line, which fit whole at 20 pt, over a street."""
    name = Line(f"{letters(12)} {letters(11)}", Role.NAME, (CELL,), (13,))
    lines = name, Line(street, Role.STREET, (CELL,))
    return Piece("outer", f"h-{number}", "A", (Wording(lines),))


@pytest.mark.parametrize(
    ("street", "balance", "size"),
    [("LANE", True, 24.0), ("LANE", False, 20.0), (letters(20), True, 20.0)],
)
def test_names_that_are_broken_for_balance_anyway_do_not_keep_the_set_small(
    trial: Trial, *, street: str, balance: bool, size: float
) -> None:
    listed = [*(couple(number, street) for number in range(6)), piece("IDA", street, key="h-i")]
    setting, _ = trial(listed, replace(CHOICE, balance=balance))
    assert setting.size == size
    assert {len(one.lines) for one in setting.pieces[:6]} == {3 if size == 24.0 else 2}


def test_of_several_one_is_broken_the_less_easily(trial: Trial) -> None:
    listed = [
        piece(f"{letters(15)} {letters(14)}", key=f"h-{number}", breaks=(16,)) for number in (1, 2)
    ]
    setting, _ = trial(listed, UNBALANCED)
    assert (setting.size, [len(one.lines) for one in setting.pieces]) == (16.0, [1, 1])


def test_a_set_of_one_is_broken_before_it_is_held_back(trial: Trial) -> None:
    one = piece(f"{letters(15)} {letters(14)}", breaks=(16,))
    setting, findings = trial([one], replace(CHOICE, smallest=17.0))
    assert (setting.size, len(setting.pieces[0].lines), findings) == (24.0, 2, ())


def test_a_smaller_block_keeps_the_leading_of_the_set_where_it_fits(trial: Trial) -> None:
    listed = [piece(letters(23), "LANE", key="h-long"), *(piece(letters(20), "LANE"),) * 60]
    setting, _ = trial(listed)
    first, second = setting.pieces[0].lines
    assert first.size < setting.size
    assert first.y - second.y == pytest.approx(setting.leading, abs=0.001)


def test_lines_without_words_take_no_room(trial: Trial) -> None:
    setting, _ = trial([piece("NAME", " ", "LANE")])
    assert [(line.text, line.source) for line in setting.pieces[0].lines] == [
        ("NAME", 0),
        ("LANE", 2),
    ]


def test_a_piece_without_words_is_held_back(trial: Trial) -> None:
    setting, findings = trial([piece(" ", key="h-none"), piece("TOBIAS", key="h-to")])
    assert [one.household for one in setting.pieces] == ["h-to"]
    assert (findings[0].code, findings[0].household) == ("name-missing", "h-none")


def test_letters_stand_a_little_closer_before_a_piece_is_set_smaller(trial: Trial) -> None:
    """24 pt holds 20 letters; 21 need 12 pt more than there is, or 20 gaps of 0.6 pt: 2.5 %."""
    one, short = piece(letters(21), key="h-one"), [piece(letters(20)) for _ in range(99)]
    setting, findings = trial([one, *short], replace(CHOICE, size=24.0, tighten=30))
    (line,) = setting.pieces[0].lines
    assert (line.tighter, line.size, findings) == (25, 24.0, ())
    assert line.x == 141.0  # 21 letters of 12 pt less 20 times 0.6 are 240 pt
    assert setting.pieces[0].why == (
        f"Letters closer by 2.5 % of the size: “{letters(21)}” is 88.9 mm wide at 24 pt, the room"
        " is 84.7 mm."
    )
    assert not any(line.tighter for one in setting.pieces[1:] for line in one.lines)


def test_letters_are_never_closer_than_the_docket_permits(trial: Trial) -> None:
    one, short = piece(letters(21), key="h-one"), [piece(letters(20)) for _ in range(99)]
    setting, findings = trial([one, *short], replace(CHOICE, size=24.0, tighten=20))
    (line,) = setting.pieces[0].lines
    # 21 letters with 20 gaps closer by 2 % of an em are 10.1 em: 240 / 10.1 = 23.76
    assert (line.tighter, line.size) == (20, 23.75)
    assert findings[0].text.startswith("Set 0.25 pt smaller, letters closer by 2 % of the size: ")


def test_a_household_that_nothing_helps_is_told_what_would(trial: Trial) -> None:
    long = "CONSTANTINOPLE FEATHERSTONEHAUGHS"
    _, findings = trial([piece(long)], replace(CHOICE, size=24.0, smallest=24.0))
    assert findings[0].mend == (
        "Break it before “FEATHERSTONEHAUGHS” in words of your own ([[words]] in the docket); or"
        " choose a layout whose zone is 139.7 mm wide; or choose a narrower face."
    )


def test_names_stand_apart_from_the_rest_in_one_hand_where_the_zone_says_so(trial: Trial) -> None:
    lines = [Line("OTTOLINE", Role.NAME), Line("COSMO", Role.NAME), Line("TABLE 4", Role.SEAT)]
    listed = [Piece("outer", "h-a", "Ottoline", (Wording(tuple(lines)),))]
    steps = []
    for apart in (False, True):
        zones = tuple(replace(zone, names_apart=apart) for zone in trial.layout.zones)
        own = Trial(trial.face, replace(trial.layout, zones=zones), trial.ink)
        setting, _ = own(listed, replace(CHOICE, size=12.0))
        heights = [line.y for line in setting.pieces[0].lines]
        steps.append([upper - lower for upper, lower in pairwise(heights)])
    close, apart_ = steps
    assert close[0] == pytest.approx(close[1])
    assert apart_[0] == pytest.approx(close[0])
    assert apart_[1] > close[1] * 1.1
