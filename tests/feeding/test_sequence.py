"""The order of print, and the judge who works it out again and refuses any other."""

from collections.abc import Callable, Sequence
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from addressing.feeding import in_order
from addressing.preflight import judge_sequence
from addressing.records.pieces import card_key
from addressing.records.plates import PlateOrder
from addressing.records.runs import ORDERS, RunOrder, Standing
from addressing.records.set_lines import SetPiece
from addressing.records.shelf import Ink

WHITE = Ink("White", "White", (0.3, 0.1, 0.0, 0.0), (1.0, 1.0, 1.0))
STANDINGS = (
    Standing("h-mm", abroad=False, postcode="06759"),
    Standing("h-cc", abroad=True, postcode="BA2 9ZZ"),
    Standing("h-zz", abroad=False, postcode=""),
    Standing("h-aa", abroad=False, postcode="04609"),
    Standing("h-kk", abroad=True, postcode="1010"),
    Standing("h-bb", abroad=False, postcode="06759"),
)
ALL = tuple(standing.household for standing in STANDINGS)
RUN = RunOrder("list", None, reverse=False, first=1, standings=STANDINGS)


def pieces(keys: Sequence[str]) -> list[SetPiece]:
    return [SetPiece(key, key, 0, ()) for key in keys]


def keys(run: RunOrder, among: Sequence[str] = ALL) -> list[str]:
    return [str(piece.household)[2:] for piece in in_order(pieces(among), run)]


def orders(kind: str, run: RunOrder, among: Sequence[str]) -> list[PlateOrder]:
    """The orders that such pieces make."""
    placed = [piece.household for piece in in_order(pieces(among), run)]
    load = run.load or max(len(placed), 1)
    return [
        PlateOrder(
            f"{kind}-{start}",
            kind,
            WHITE,
            (522, 378),
            tuple(placed[start : start + load]),
            1,
            "0",
            first=run.first + start,
            reverse=run.reverse,
        )
        for start in range(0, len(placed), load)
    ]


def test_the_list_s_order_is_the_list_s_whatever_order_pieces_come_in() -> None:
    assert keys(RUN, ["h-bb", "h-mm", "h-zz"]) == ["mm", "zz", "bb"]


def test_by_key_and_by_zip_with_abroad_behind_and_by_hand_last() -> None:
    assert keys(replace(RUN, order="key")) == ["aa", "bb", "cc", "kk", "mm", "zz"]
    assert keys(replace(RUN, order="zip")) == ["aa", "mm", "bb", "kk", "cc", "zz"]


def test_batches_are_turned_one_by_one_where_the_exit_turns_the_stack() -> None:
    run = replace(RUN, order="key", load=4, reverse=True)
    assert keys(run) == ["kk", "cc", "bb", "aa", "zz", "mm"]
    assert keys(replace(run, load=None)) == ["zz", "mm", "kk", "cc", "bb", "aa"]
    assert keys(replace(run, load=1)) == ["aa", "bb", "cc", "kk", "mm", "zz"]


def test_from_a_number_on_the_rest_is_cut_anew() -> None:
    run = replace(RUN, order="key", load=4, reverse=True, first=3)
    assert keys(run) == ["zz", "mm", "kk", "cc"]


def test_a_household_s_cards_stay_together() -> None:
    cards = [card_key("h-bb", 1), card_key("h-aa", 1), card_key("h-bb", 2)]
    run = replace(RUN, order="key")
    assert [p.household for p in in_order(pieces(cards), run)] == [cards[1], cards[0], cards[2]]
    assert judge_sequence({"place-card": orders("place-card", run, cards)}, run) == ()


KEYS = st.lists(
    st.text("abcdefgh234567", min_size=8, max_size=8), min_size=1, max_size=30, unique=True
)


@given(data=st.data())
def test_whatever_is_put_in_order_is_proved(data: st.DataObject) -> None:
    households = data.draw(KEYS)
    zips = st.sampled_from(["", "06759", "04609", "BA2 9ZZ", "ba2 9zz"])
    run = RunOrder(
        data.draw(st.sampled_from(ORDERS)),
        data.draw(st.none() | st.integers(1, 12)),
        reverse=data.draw(st.booleans()),
        first=data.draw(st.integers(1, len(households))),
        standings=tuple(
            Standing(key, data.draw(st.booleans()), data.draw(zips)) for key in households
        ),
    )
    mixed = data.draw(st.permutations(households))
    made = {kind: orders(kind, run, mixed) for kind in ("outer", "inner")}
    assert judge_sequence(made, run) == ()


BY_TWO = replace(RUN, load=2)

Hurt = Callable[[list[PlateOrder]], list[PlateOrder]]


def _swapped(order: PlateOrder) -> PlateOrder:
    return replace(order, households=order.households[::-1])


HURTS: dict[str, tuple[Hurt, str]] = {
    "two pages swapped": (lambda o: [_swapped(o[0]), *o[1:]], "aren't in their order"),
    "two piles swapped": (
        lambda o: [
            replace(o[1], first=1),
            replace(o[0], first=3),
            o[2],
        ],
        "aren't in their order",
    ),
    "a pile missing": (lambda o: [o[0], o[2]], "aren't numbered"),
    "a pile twice": (lambda o: [*o, replace(o[0], first=7)], "printed twice"),
    "a number that skips": (lambda o: [*o[:2], replace(o[2], first=6)], "aren't numbered"),
    "turned unsaid": (lambda o: [replace(o[0], reverse=True), *o[1:]], "turned round"),
    "a pile too large": (
        lambda o: [replace(o[0], households=(*o[0].households, *o[1].households)), o[2]],
        "more pages than the 2",
    ),
    "a pile cut short": (
        lambda o: [
            replace(o[0], households=o[0].households[:1]),
            replace(o[1], first=2),
            replace(o[2], first=4),
        ],
        "isn't a whole batch",
    ),
    "a stranger": (
        lambda o: [*o[:2], replace(o[2], households=(o[2].households[0], "h-xx"))],
        "isn't on the list",
    ),
    "a page for nobody": (
        lambda o: [*o[:2], replace(o[2], households=(o[2].households[0], None))],
        "page for nobody",
    ),
}


@pytest.mark.parametrize("what", HURTS)
def test_another_order_is_refused(what: str) -> None:
    hurt, told = HURTS[what]
    right = orders("outer", BY_TWO, ALL)
    assert judge_sequence({"outer": right}, BY_TWO) == ()
    faults = judge_sequence({"outer": hurt(right)}, BY_TWO)
    assert any(told in fault for fault in faults), faults


def test_inners_that_do_not_match_the_outers_are_refused() -> None:
    outer = orders("outer", RUN, ALL)
    by_key = replace(RUN, order="key")
    faults = judge_sequence({"outer": outer, "inner": orders("inner", by_key, ALL)}, RUN)
    assert "The outer pieces and the inner pieces don't match, pile by pile." in faults


def test_the_same_number_is_the_same_envelope_in_every_ink() -> None:
    right = orders("outer", BY_TWO, ALL)
    gold = replace(WHITE, key="Gold")
    other = [replace(order, ink=gold, name=f"gold-{order.first}") for order in right]
    assert judge_sequence({"outer": [*right, *other]}, BY_TWO) == ()
    other[0] = _swapped(other[0])
    faults = judge_sequence({"outer": [*right, *other]}, BY_TWO)
    assert "Number 1 is another envelope on the plate gold-1." in faults
