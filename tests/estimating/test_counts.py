"""Needed, overs and packs: examples worked by hand."""

import csv
import io

import pytest

from addressing.estimating import (
    blanks_of,
    count_again,
    count_pieces,
    counts_tsv,
    ordered_of,
    span_of,
)
from addressing.records.counts import Blanks, Span
from addressing.records.docket import Overs


def test_fifteen_percent_of_120_is_18_and_138_come_in_three_packs_of_50() -> None:
    (outer,) = count_pieces({"outer": 120}, {"outer": 4}, Overs(percent=15, minimum=10, pack=50))
    assert (outer.needed, outer.held, outer.overs) == (120, 4, 18)
    assert (outer.packs, outer.to_order) == (3, 150)


def test_the_minimum_counts_where_the_share_is_smaller() -> None:
    (inner,) = count_pieces({"inner": 40}, {}, Overs(percent=15, minimum=10, pack=25))
    assert (inner.overs, inner.packs, inner.to_order) == (10, 2, 50)


def test_a_part_of_a_piece_counts_as_a_whole_one() -> None:
    # 15 % of 67 is 10.05
    (outer,) = count_pieces({"outer": 67}, {}, Overs(percent=15, minimum=10, pack=25))
    assert (outer.overs, outer.packs, outer.to_order) == (11, 4, 100)


@pytest.mark.parametrize(
    ("needed", "percent", "overs"),
    [
        (100, 7.0, 7),  # 0.07 * 100 is 7.000000000000001 as a float
        (300, 1.1, 4),  # 3.3
        (1000, 0.1, 1),
        (50, 14.0, 7),  # 0.14 * 50 is 7.000000000000001 as a float
        (700, 12.5, 88),  # 87.5
    ],
)
def test_a_share_that_is_whole_is_never_rounded_up_by_float_error(
    needed: int, percent: float, overs: int
) -> None:
    (count,) = count_pieces({"outer": needed}, {}, Overs(percent=percent, minimum=0, pack=1))
    assert count.overs == overs


def test_nothing_needed_means_no_overs_and_no_packs() -> None:
    (reply,) = count_pieces({"reply": 0}, {}, Overs())
    assert (reply.overs, reply.packs, reply.to_order) == (0, 0, 0)


def test_a_full_pack_is_not_followed_by_an_empty_one() -> None:
    (outer,) = count_pieces({"outer": 90}, {}, Overs(percent=10, minimum=10, pack=25))
    assert (outer.packs, outer.to_order) == (4, 100)


def test_kinds_keep_their_order() -> None:
    wanted = {"outer": 3, "inner": 2, "return": 3, "reply": 3}
    assert [count.kind for count in count_pieces(wanted, {}, Overs())] == list(wanted)


@pytest.mark.parametrize(
    ("wanted", "held", "overs"),
    [
        ({"outer": 3}, {"outer": 4}, Overs()),
        ({"outer": -1}, {}, Overs()),
        ({"outer": 3}, {"inner": 1}, Overs()),
        ({"outer": 3}, {}, Overs(pack=0)),
        ({"outer": 3}, {}, Overs(percent=-1.0)),
        ({"outer": 3}, {}, Overs(minimum=-1)),
    ],
    ids=["more held", "negative", "stranger", "empty pack", "negative share", "negative minimum"],
)
def test_numbers_that_cannot_be_are_refused(
    wanted: dict[str, int], held: dict[str, int], overs: Overs
) -> None:
    with pytest.raises(ValueError, match=r"held|overs"):
        count_pieces(wanted, held, overs)


def test_the_table_reads_back_as_the_same_numbers() -> None:
    counts = count_pieces({"outer": 120, "reply": 0}, {"outer": 4}, Overs(15, 10, 50))
    rows = list(csv.DictReader(io.StringIO(counts_tsv(counts)), delimiter="\t"))
    assert rows[0] == {
        "kind": "outer",
        "needed": "120",
        "held": "4",
        "overs": "18",
        "pack": "50",
        "packs": "3",
        "to_order": "150",
    }
    assert rows[1]["to_order"] == "0"
    assert counts_tsv(()) == "kind\tneeded\theld\tovers\tpack\tpacks\tto_order\n"


def test_keepsakes_come_on_top_and_a_way_of_printing_has_its_own_share() -> None:
    overs = Overs(10, 0, 1, keepsakes=2, methods=(("home", 20.0),))
    (at_home,) = count_pieces({"outer": 100}, {}, overs.by((None, "home")))
    (elsewhere,) = count_pieces({"outer": 100}, {}, overs.by(("letterpress", "shop")))
    assert (at_home.overs, elsewhere.overs) == (22, 12)


def test_keepsakes_come_on_top_of_the_minimum_too() -> None:
    (few,) = count_pieces({"outer": 20}, {}, Overs(15, 10, 1, keepsakes=2))
    assert few.overs == 12


def test_blanks_are_the_order_without_the_addressed_ones() -> None:
    (outer,) = count_pieces({"outer": 120}, {}, Overs(15, 10, 50))
    assert blanks_of(outer, flap=True) == Blanks(addressed=120, flap_printed=18, plain=12)
    assert blanks_of(outer, flap=False) == Blanks(addressed=120, flap_printed=0, plain=30)


def test_a_reprint_orders_only_what_the_blanks_left_do_not_cover() -> None:
    (outer,) = count_pieces({"outer": 120}, {}, Overs(15, 10, 50))
    assert count_again(outer, due=5, used=125).to_order == 0
    assert count_again(outer, due=26, used=125).to_order == 50


def test_the_need_lies_between_nobody_held_and_every_guest_and_family_apart() -> None:
    (outer,) = count_pieces({"outer": 120}, {"outer": 4}, Overs(15, 10, 50))
    assert span_of(outer, 7) == Span(116, 127, covered=True, more_packs=0)
    assert span_of(outer, 19) == Span(116, 139, covered=False, more_packs=1)  # 157 of 150


def test_what_was_used_beyond_the_order_is_not_ordered_again() -> None:
    (outer,) = count_pieces({"outer": 120}, {}, Overs(15, 10, 1))  # 138
    assert count_again(outer, due=5, used=150).to_order == 5


def test_where_a_shop_may_deliver_fewer_so_many_more_are_ordered_and_no_one_more() -> None:
    (reply,) = count_pieces({"reply": 100}, {}, Overs(0, 20, 25))
    more = ordered_of(reply, 10.0)
    assert (more.needed, more.overs) == (100, 34)  # of 134 come 120.6, of 133 119.7
    assert (more.packs, more.to_order) == (6, 150)
    assert ordered_of(reply, 0.0) == reply


def test_of_what_nobody_needs_a_shop_is_ordered_nothing() -> None:
    none = count_pieces({"reply": 0}, {}, Overs(10.0, 5, 25))[0]
    assert ordered_of(none, 10.0, least=50, pack=20) == none
    assert none.to_order == 0
