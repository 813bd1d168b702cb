"""Imposition: sheets cut and stacked in the head, and one sheet worked out by hand."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from addressing.faults import Exit, Fault
from addressing.plates import plan_sheet
from addressing.plates.imposing import in_order, marks, place_of
from addressing.records.sheets import Imposition, SheetChoice

LETTER = (612.0, 792.0)
CARD = (252.0, 144.0)
"""3½ by 2 inches."""
KEYS = [f"h-{number}" for number in range(400)]


def cut_and_stacked(sheets: list[tuple[int | None, ...]], up: int) -> list[int]:
    """The sheets laid on each other, cut through, the piles laid on each other: first card on top.

    The first sheet is the top one; each pile keeps the order of the sheets; the pile of the first
    place goes on top of the second's, and so on.
    """
    piles = [[sheet[place] for sheet in sheets] for place in range(up)]
    return [card for pile in piles for card in pile if card is not None]


@given(st.integers(1, 400), st.integers(1, 6), st.integers(1, 8), st.booleans())
def test_after_cutting_and_stacking_the_cards_are_in_order(
    cards: int,
    across: int,
    down: int,
    back: bool,  # noqa: FBT001 - drawn
) -> None:
    at = Imposition(LETTER, CARD, across, down, 0.0, (0.0, 0.0), "cut-and-stack", back=back)
    sheets = list(in_order(at, KEYS[:cards]))
    assert cut_and_stacked(sheets, at.up) == list(range(cards))
    assert len(sheets) == at.sheets(cards)
    for sheet in sheets[:-1]:
        assert sheet[0] is not None


@given(st.integers(1, 400), st.integers(1, 6), st.integers(1, 8))
def test_an_exit_that_turns_the_stack_round_leaves_it_in_order(
    cards: int, across: int, down: int
) -> None:
    at = Imposition(LETTER, CARD, across, down, 0.0, (0.0, 0.0), "cut-and-stack", reverse=True)
    stack: list[tuple[int | None, ...]] = []
    for sheet in in_order(at, KEYS[:cards]):
        stack.insert(0, sheet)  # face up: each sheet falls on the one before
    assert cut_and_stacked(stack, at.up) == list(range(cards))


@given(st.integers(1, 400), st.integers(1, 6), st.integers(1, 8))
def test_in_rows_each_sheet_is_in_order(cards: int, across: int, down: int) -> None:
    at = Imposition(LETTER, CARD, across, down, 0.0, (0.0, 0.0), "rows")
    read = [card for sheet in in_order(at, KEYS[:cards]) for card in sheet if card is not None]
    assert read == list(range(cards))


def test_one_card_for_all_fills_the_sheet() -> None:
    at = Imposition(LETTER, CARD, 2, 5, 0.0, (0.0, 0.0), "cut-and-stack")
    assert list(in_order(at, [None])) == [(0,) * 10]


def test_a_sheet_worked_out_by_hand() -> None:
    # US Letter, 612 by 792 pt, cards of 252 by 144 pt, margin 15 mm = 42.52 pt:
    # 526.96 / 252 = 2 across, 706.96 / 144 = 4 down (4 × 144 = 576);
    # left (612 - 504) / 2 = 54, foot (792 - 576) / 2 = 108
    at = plan_sheet(SheetChoice("reply", margin=15.0), LETTER, CARD)
    assert (at.across, at.down, at.corner) == (2, 4, (54.0, 108.0))
    # places from the upper left, across first
    assert [place_of(at, place) for place in range(8)] == [
        (54, 540), (306, 540), (54, 396), (306, 396), (54, 252), (306, 252), (54, 108), (306, 108),
    ]  # fmt: skip
    # 19 cards on 3 sheets: piles of 1–3, 4–6, 7–9 … 19; the third sheet bears 3, 6, 9, 12, 15, 18
    assert list(in_order(at, KEYS[:19])) == [
        (0, 3, 6, 9, 12, 15, 18, None),
        (1, 4, 7, 10, 13, 16, None, None),
        (2, 5, 8, 11, 14, 17, None, None),
    ]


def test_on_the_second_side_a_card_s_back_lies_behind_its_front() -> None:
    # a sheet turned over its long way: x goes to the sheet's width - x
    front = plan_sheet(SheetChoice("reply", margin=15.0), LETTER, CARD)
    back = plan_sheet(SheetChoice("reply", margin=15.0, back=True), LETTER, CARD)
    for place in range(front.up):
        (x, y), (behind, level) = place_of(front, place), place_of(back, place)
        assert LETTER[0] - (behind + CARD[0]) == x
        assert level == y


@pytest.mark.parametrize("gutter", [0.0, 6.0])
@pytest.mark.parametrize("folds", [(), (25.4,)])
def test_no_mark_stands_on_a_card_and_each_cut_has_its_two(
    gutter: float, folds: tuple[float, ...]
) -> None:
    at = plan_sheet(SheetChoice("reply", margin=15.0, gutter=gutter, folds=folds), LETTER, CARD)
    rows = [tuple(map(float, row.split()[:4])) for row in marks(at).decode().splitlines()[:-1]]
    cards = [place_of(at, place) for place in range(at.up)]
    for left, bottom, wide, high in rows:
        assert left >= 0
        assert bottom >= 0
        assert left + wide <= LETTER[0]
        assert bottom + high <= LETTER[1]
        for x, y in cards:
            beside = left >= x + CARD[0] or left + wide <= x
            assert beside or bottom >= y + CARD[1] or bottom + high <= y
    upright = {round(left + wide / 2, 3) for left, _, wide, high in rows if high > wide}
    assert upright == {round(edge, 3) for x, _ in cards for edge in (x, x + CARD[0])}
    assert len(rows) == 2 * (
        len(upright) + len({e for _, y in cards for e in (y, y + CARD[1])})
    ) + (4 * at.down * len(folds))


def test_more_than_there_is_room_for_is_refused_with_what_there_is() -> None:
    with pytest.raises(Fault) as caught:
        plan_sheet(SheetChoice("reply", margin=15.0, across=3), LETTER, CARD)
    assert (caught.value.exit, caught.value.code) == (Exit.INPUT, "sheet-too-small")
    assert "2 across and 4 down" in caught.value.text
    assert (
        plan_sheet(SheetChoice("reply", margin=15.0, across=2, turned=True), LETTER, CARD).across
        == 2
    )
    with pytest.raises(Fault) as caught:
        plan_sheet(SheetChoice("reply", margin=15.0), (300.0, 200.0), CARD)
    assert "room for none" in caught.value.text


def test_ten_cards_on_letter_have_room_where_no_margin_is_asked_for() -> None:
    # 5 rows of 2 in are 254 mm of 279.4: 12.7 mm above and below
    at = plan_sheet(SheetChoice("reply"), LETTER, CARD)
    assert (at.across, at.down, at.corner) == (2, 5, (54.0, 36.0))


@pytest.mark.parametrize(("margin", "down"), [(15.0, 5), (15.0, 6), (13.0, 5)])
def test_a_refusal_names_the_widest_margin_by_which_so_many_fit(margin: float, down: int) -> None:
    choice = SheetChoice("reply", across=2, down=down, margin=margin)
    with pytest.raises(Fault) as caught:
        plan_sheet(choice, LETTER, CARD)
    assert "2 across and 4 down (8 in all)" in caught.value.text
    told = "10 have room with margin_mm = 12.7 or less" in caught.value.mend
    assert told == (down == 5)
    plan_sheet(replace(choice, down=5, margin=12.7), LETTER, CARD)
    with pytest.raises(Fault):
        plan_sheet(replace(choice, down=5, margin=12.8), LETTER, CARD)


def test_a_fold_beyond_the_card_is_refused() -> None:
    with pytest.raises(Fault) as caught:
        plan_sheet(SheetChoice("reply", margin=15.0, folds=(60.0,)), LETTER, CARD)
    assert caught.value.code == "fold-beyond-card"
