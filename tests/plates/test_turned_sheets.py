"""Fronts and backs on one plate, and several kinds on a sheet: printed, turned, cut, stacked."""

import re
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from addressing.faults import Exit, Fault
from addressing.plates import plan_sheets, sheet_pages
from addressing.plates.imposing import CardAt, marks
from addressing.records.plates import PlateOrder
from addressing.records.sheets import TURNS, Beside, Imposition, SheetChoice
from addressing.records.shelf import Ink

LETTER = (612.0, 792.0)
CARD = (144.0, 72.0)
"""2 by 1 inches."""
INK = Ink("Black", "Black", (0.0, 0.0, 0.0, 1.0), (0.0, 0.0, 0.0))
TURNED = SheetChoice("reply-number", behind="place-card", across=1, down=2)


def orders_of(plans: dict[str, Imposition], cards: dict[str, int | None]) -> list[PlateOrder]:
    """An order for each kind of so many cards; None is one that is the same for all."""
    keys = {
        kind: (None,) if many is None else tuple(f"h-{n}" for n in range(many))
        for kind, many in cards.items()
    }
    least = max(plans[k].sheets(many) for k, many in cards.items() if many is not None)
    return [
        PlateOrder("01-cards", kind, INK, at.card, keys[kind], 1, "0.1.0",
                   sheets=replace(at, least=least))
        for kind, at in plans.items()
    ]  # fmt: skip


Spot = tuple[int, int]
"""A trim's lower left corner in whole points, from the sheet's as its first side shows it."""
Bit = tuple[tuple[int, int], tuple[int, int] | None]
"""A piece of the cut sheet, as it lies: (part, card) on top, and below."""


def printed(
    orders: list[PlateOrder], turn: str
) -> tuple[list[dict[Spot, CardAt]], list[dict[Spot, CardAt]]]:
    """Both sides of all sheets: what stands in which trim, as seen through from the first side."""
    pages = sheet_pages(orders)
    sheet = sheet_of(orders)
    firsts = [{_spot(card, "", sheet): card for card in page.cards} for page in pages[::2]]
    seconds = [{_spot(card, turn, sheet): card for card in page.cards} for page in pages[1::2]]
    return firsts, seconds


def sheet_of(orders: list[PlateOrder]) -> tuple[float, float]:
    at = orders[0].sheets
    assert at is not None
    return at.sheet


def _spot(card: CardAt, turn: str, sheet: tuple[float, float]) -> Spot:
    x, y = card.corner
    if card.over:  # its own lower left corner is the trim's upper right
        x, y = x - CARD[0], y - CARD[1]
    if turn == "work-and-turn":
        x = sheet[0] - x - CARD[0]
    if turn == "work-and-tumble":
        y = sheet[1] - y - CARD[1]
    return round(x), round(y)


def cut_and_stacked(orders: list[PlateOrder], turn: str) -> list[Bit]:
    """All cards face up, as they lie when the sheets are cut and the piles laid on each other.

    The first sheet is the top one, its first side up. A pile that shows backs is turned over: its
    lowest card comes to lie on top.
    """
    firsts, seconds = printed(orders, turn)
    spots = {spot for side in (*firsts, *seconds) for spot in side}
    face_up: dict[Spot, list[Bit]] = {}
    for spot in spots:
        pile = [(one.get(spot), two.get(spot)) for one, two in zip(firsts, seconds, strict=True)]
        if not any(one is not None and one.part == 0 for one, _ in pile):
            pile = [(two, one) for one, two in pile[::-1]]
        face_up[spot] = [
            ((top.part, top.card), (under.part, under.card) if under else None)
            for top, under in pile
            if top is not None and top.part == 0
        ]
    wide, high = sheet_of(orders)

    # piles in the order of their places as the fronts are read, the turned ones after the others
    def rank(spot: Spot) -> tuple[bool, float, float]:
        x, y = spot
        if turn == "work-and-turn":
            turned = x > wide / 2
            x = round(wide - x - CARD[0]) if turned else x
        else:
            turned = y < high / 2
            y = round(high - y - CARD[1]) if turned else y
        return turned, -y, x

    return [bit for spot in sorted(face_up, key=rank) for bit in face_up[spot]]


@pytest.mark.parametrize("turn", TURNS)
@given(
    cards=st.integers(1, 60), across=st.integers(1, 2), down=st.integers(1, 2),
    static=st.booleans(), gutter=st.sampled_from([0.0, 3.0]),
)  # fmt: skip
def test_turned_cut_and_stacked_each_card_has_its_own_back_and_all_are_in_order(
    turn: str,
    cards: int,
    across: int,
    down: int,
    static: bool,  # noqa: FBT001 - drawn
    gutter: float,
) -> None:
    # a sheet that is turned over its upright middle lies on its side here: two have room then
    choice = replace(
        TURNED, turn=turn, across=across, down=down, gutter=gutter, turned=turn == "work-and-turn"
    )
    plans = plan_sheets(choice, LETTER, dict.fromkeys(choice.kinds, CARD))
    many = {"reply-number": cards, "place-card": None if static else cards}
    bits = cut_and_stacked(orders_of(plans, many), turn)
    assert [front for front, _ in bits] == [(0, number) for number in range(cards)]
    assert [back for _, back in bits] == [(1, 0 if static else n) for n in range(cards)]


def test_a_turned_sheet_worked_out_by_hand() -> None:
    # Letter, cards of 144 by 72 pt, one across and two down on each half. The halves are 14 mm
    # (39.685 pt) apart: left 306 - 19.843 - 144 = 142.157, its mirror 306 + 19.843 = 325.843;
    # foot (792 - 144) / 2 = 324
    plans = plan_sheets(TURNED, LETTER, dict.fromkeys(TURNED.kinds, CARD))
    front, back = plans["reply-number"], plans["place-card"]
    assert (front.corner, back.corner) == ((142.157, 324.0), (325.843, 324.0))
    # seven cards, four a sheet: two sheets. The left piles have 1, 2 and 3, 4 (upper, lower); the
    # right ones, turned over, 5, 6 and 7: so 6 lies on the first sheet and 5 on the second
    pages = sheet_pages(orders_of(plans, {"reply-number": 7, "place-card": 7}))
    stands = [
        {(c.part, c.card + 1): (round(c.corner[0]), round(c.corner[1])) for c in page.cards}
        for page in pages
    ]
    assert stands == [
        {(0, 1): (142, 396), (0, 3): (142, 324), (1, 6): (326, 396)},
        {(0, 6): (142, 396), (1, 1): (326, 396), (1, 3): (326, 324)},
        {(0, 2): (142, 396), (0, 4): (142, 324), (1, 5): (326, 396), (1, 7): (326, 324)},
        {(0, 5): (142, 396), (0, 7): (142, 324), (1, 2): (326, 396), (1, 4): (326, 324)},
    ]
    assert [page.foot.text for page in pages] == [
        "Sheet 1 of 2, side 1: prints 1, 3", "Sheet 1 of 2, side 2: prints 6",
        "Sheet 2 of 2, side 1: prints 2, 4", "Sheet 2 of 2, side 2: prints 5, 7",
    ]  # fmt: skip


def test_tumbled_backs_lie_head_to_foot_and_turned_ones_don_t() -> None:
    for turn, over in (("work-and-turn", False), ("work-and-tumble", True)):
        choice = replace(TURNED, turn=turn)
        plans = plan_sheets(choice, LETTER, dict.fromkeys(choice.kinds, CARD))
        pages = sheet_pages(orders_of(plans, {"reply-number": 4, "place-card": 4}))
        assert {(c.part, c.over) for page in pages for c in page.cards} == {(0, False), (1, over)}


def test_front_and_back_that_are_the_same_for_all_are_one_page_for_both_sides() -> None:
    plans = plan_sheets(TURNED, LETTER, dict.fromkeys(TURNED.kinds, CARD))
    orders = [
        PlateOrder("01", kind, INK, at.card, (None,), 20, "0.1.0", sheets=at)
        for kind, at in plans.items()
    ]
    (page,) = sheet_pages(orders)
    assert [card.part for card in page.cards] == [0, 0, 1, 1]
    assert page.foot.text == "Sheet 1 of 1, both sides: prints 1"


def test_sides_of_two_sizes_are_refused() -> None:
    with pytest.raises(Fault) as caught:
        plan_sheets(TURNED, LETTER, {"reply-number": CARD, "place-card": (144.0, 80.0)})
    assert (caught.value.exit, caught.value.code) == (Exit.INPUT, "sides-differ")


GANG = SheetChoice("place-card", across=2, beside=(Beside("reply-number", down=2),))
WIDE = (252.0, 144.0)


def test_two_kinds_on_a_sheet_worked_out_by_hand() -> None:
    # Letter, room 526.96 by 706.96 pt. Two rows of 252 by 144: 2 across, 288 high. 14 mm
    # (39.685 pt) apart, so 706.96 - 288 - 39.685 = 379.28 are left: 5 rows of 72 = 360.
    # 360 + 39.685 + 288 = 687.685, in the middle: from 739.843 down
    plans = plan_sheets(GANG, LETTER, {"place-card": CARD, "reply-number": WIDE})
    first, other = plans["place-card"], plans["reply-number"]
    assert (first.across, first.down, other.across, other.down) == (2, 5, 2, 2)
    assert first.corner == (162.0, 379.843)
    assert other.corner == (54.0, 52.157)
    pages = sheet_pages(orders_of(plans, {"place-card": 21, "reply-number": 6}))
    assert pages[0].foot.text == (
        "Sheet 1 of 3: prints place-card 1, 4, 7, 10, 13, 16, 19; reply-number 1, 4"
    )


@given(st.integers(1, 80), st.integers(1, 80))
def test_each_kind_on_a_sheet_is_in_order_when_its_piles_are_cut_and_stacked(
    cards: int, others: int
) -> None:
    plans = plan_sheets(GANG, LETTER, {"place-card": CARD, "reply-number": WIDE})
    orders = orders_of(plans, {"place-card": cards, "reply-number": others})
    pages = sheet_pages(orders)
    for part, many in enumerate((cards, others)):
        piles: dict[tuple[float, float], list[int]] = {}
        for page in pages:
            for card in (card for card in page.cards if card.part == part):
                piles.setdefault(card.corner, []).append(card.card)
        ranked = sorted(piles, key=lambda corner: (-corner[1], corner[0]))
        assert [card for spot in ranked for card in piles[spot]] == list(range(many))


@pytest.mark.parametrize("choice", [TURNED, replace(TURNED, turn="work-and-tumble"), GANG])
def test_no_mark_of_one_block_stands_on_a_card_of_another(choice: SheetChoice) -> None:
    sizes = {"reply-number": CARD, "place-card": CARD}
    plans = plan_sheets(choice, LETTER, sizes)
    some = next(iter(plans.values()))
    rows = [tuple(map(float, row.split()[:4])) for row in marks(some).decode().splitlines()[:-1]]
    cards = [
        (b.corner[0] + c * b.card[0], b.corner[1] + r * b.card[1])
        for b in some.together for c in range(b.across) for r in range(b.down)
    ]  # fmt: skip
    assert len(some.together) == 2
    for left, bottom, wide, high in rows:
        for x, y in cards:
            beside = left >= x + CARD[0] or left + wide <= x
            assert beside or bottom >= y + CARD[1] or bottom + high <= y


OFFERED = re.compile(r'turned = (true|false) with turn = "([a-z-]+)"')


def room_in_half(choice: SheetChoice, card: tuple[float, float]) -> Fault | None:
    """The refusal of fronts and backs of this size on letter; None where they have room."""
    try:
        plan_sheets(choice, LETTER, {"reply-number": card, "place-card": card})
    except Fault as fault:
        return fault
    return None


@given(
    card=st.tuples(st.floats(60, 700), st.floats(60, 700)),
    turned=st.booleans(),
    turn=st.sampled_from(TURNS),
    margin=st.floats(7, 40),
)
def test_a_half_without_room_offers_just_the_ways_in_which_a_card_has_room(
    *, card: tuple[float, float], turned: bool, turn: str, margin: float
) -> None:
    choice = replace(TURNED, across=None, down=None, margin=margin)
    own = replace(choice, turned=turned, turn=turn)
    refused = room_in_half(own, card)
    if refused is None:
        return
    offered = {(lies == "true", how) for lies, how in OFFERED.findall(refused.mend)}
    works = {
        (lies, how)
        for lies in (True, False)
        for how in TURNS
        if room_in_half(replace(choice, turned=lies, turn=how), card) is None
    }
    assert (turned, turn) not in offered
    assert offered == works
    assert refused.code == "sheet-too-small"


def test_a_half_that_lacks_room_for_so_many_offers_to_leave_the_number_out() -> None:
    refused = room_in_half(replace(TURNED, across=9), CARD)
    assert refused is not None
    assert "so many cards" in refused.text
    assert "Leave out across and down" in refused.mend
    alone = room_in_half(replace(TURNED, across=None, down=None), (700.0, 700.0))
    assert alone is not None
    assert "There is room" not in alone.mend
    assert alone.mend.startswith("Choose a larger sheet")
