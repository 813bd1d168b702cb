"""Ways to lay an envelope on a device's page, and refusals that name what works."""

from dataclasses import replace
from typing import Any

import pytest

from addressing.faults import Exit, Fault
from addressing.feeding import check_stock, lay_for, within_reach
from addressing.feeding.laying import turn_of
from addressing.materials.shelf import open_shelf
from addressing.records.affine import moved, moved_box, on_page, piece_box, undone
from addressing.records.docket import FeedChoice
from addressing.records.lays import Calibration, Edges
from addressing.records.shelf import Box, Device, Feed, StockLimits
from addressing.units import mm_to_pt

SHELF = open_shelf(None)
TONER = SHELF.device("home-toner")
A7 = SHELF.layout("a7")
TRIM = (A7.width, A7.height)
LETTER = (612.0, 792.0)
EDGES = Edges(lead=10.0, trail=40.0, left=20.0, right=30.0)


def laid(device: Device = TONER, layout: str = "a7", **choice: str) -> tuple[float, ...]:
    lay = lay_for(device, SHELF.layout(layout), FeedChoice(**choice))
    return (*lay.page, lay.turn)


def near(box: Box) -> tuple[float, ...]:
    return tuple(round(edge, 3) for edge in (box.left, box.bottom, box.right, box.top))


def test_the_page_is_the_envelope_where_nothing_else_is_said() -> None:
    assert laid() == (*TRIM, 0)


def test_a_turned_envelope_lies_on_its_page_as_it_goes_in() -> None:
    # Face down with the flap on the left: seen from the printed side it is on the right, so the
    # top of the writing points to the right.
    assert laid(way="turned") == (TRIM[1], TRIM[0], 270)
    up = replace(TONER, feed=Feed(face="up", flap="left"))
    assert laid(up, way="turned") == (TRIM[1], TRIM[0], 90)


@pytest.mark.parametrize(("side", "left"), [("left", 0.0), ("centre", 117.0), ("right", 234.0)])
def test_on_a_sheet_it_lies_at_the_lead_where_the_device_feeds(side: str, left: float) -> None:
    device = replace(TONER, feed=replace(TONER.feed, side=side))
    lay = lay_for(device, A7, FeedChoice(way="sheet", sheet="letter"))
    assert lay.page == pytest.approx(LETTER)
    assert near(piece_box(lay, TRIM)) == (left, 792 - 522, left + 378, 792)


def test_a_driver_that_turns_the_sheet_by_half_gets_it_at_the_other_end() -> None:
    device = replace(TONER, feed=replace(TONER.feed, side="left", rotation=180))
    lay = lay_for(device, A7, FeedChoice(way="sheet", sheet="letter"))
    assert (lay.turn, lay.feed) == (90, 270)
    assert near(piece_box(lay, TRIM)) == (612 - 378, 0, 612, 522)


def test_a_carrier_takes_what_is_too_small_for_the_feed() -> None:
    small = replace(A7, key="tiny", width=mm_to_pt(100), height=mm_to_pt(70))
    lay = lay_for(TONER, small, FeedChoice())
    assert (lay.way, lay.side) == ("carrier", "centre")
    assert near(piece_box(lay, (small.width, small.height))) == pytest.approx(
        (206.787, 254.268, 405.213, 537.732), abs=0.002
    )


def test_a_size_that_the_driver_has_not_is_laid_on_a_sheet() -> None:
    device = replace(TONER, sizes=("n10", "dl"))
    assert lay_for(device, A7, FeedChoice()).way == "sheet"
    assert lay_for(device, SHELF.layout("n10"), FeedChoice()).way == "envelope"


def test_with_the_long_edge_first_a_long_envelope_is_too_wide() -> None:
    device = replace(TONER, feed=Feed(edge="long", flap="lead"))
    assert laid(device, way="turned") == (*TRIM, 0)
    with pytest.raises(Fault, match="long edge first") as caught:
        lay_for(device, SHELF.layout("n10"), FeedChoice())
    assert caught.value.code == "layout-not-fed"


@pytest.mark.parametrize("key", SHELF.devices())
def test_a_device_takes_the_default_layouts_and_refuses_c4_with_the_nearest(key: str) -> None:
    device = SHELF.device(key)
    for layout in ("a7", "a7-inner", "a1", "n10", "sq5"):
        lay_for(device, SHELF.layout(layout), FeedChoice())
    with pytest.raises(Fault) as caught:
        lay_for(
            device,
            SHELF.layout("c4"),
            FeedChoice(),
            lambda: [SHELF.layout(each) for each in SHELF.layouts()],
        )
    assert (caught.value.exit, caught.value.code) == (Exit.INPUT, "layout-not-fed")
    assert "324 × 229 mm" in caught.value.text
    assert "b5" in caught.value.mend


def test_the_nearest_layouts_have_the_zones_that_are_asked_for_and_work_that_way() -> None:
    others = [SHELF.layout(key) for key in ("a7-inner", "c7", "b4")]
    with pytest.raises(Fault) as caught:
        lay_for(TONER, SHELF.layout("c4"), FeedChoice(), lambda: others)
    assert caught.value.mend == "Choose another size. Or choose another device or a shop."
    narrow = replace(TONER, sizes=("dl",))
    with pytest.raises(Fault, match=r"no size for No\. 10 in its driver; it has: dl") as caught:
        lay_for(
            narrow,
            SHELF.layout("n10"),
            FeedChoice(way="envelope"),
            lambda: [SHELF.layout("n9"), SHELF.layout("dl")],
        )
    assert "takes: dl." in caught.value.mend


def test_a_way_that_does_not_work_names_the_one_that_does() -> None:
    small = replace(A7, key="tiny", title="Tiny", width=mm_to_pt(100), height=mm_to_pt(70))
    for way in ("envelope", "turned", "sheet"):
        with pytest.raises(Fault, match=f"laid as {way}; Tiny is 100 × 70 mm") as caught:
            lay_for(TONER, small, FeedChoice(way=way))
        assert caught.value.mend.startswith('It goes in with way = "carrier"')


@pytest.mark.parametrize(
    ("way", "bare", "told"),
    [
        ("carrier", {"carrier": None}, "names no carrier"),
        ("sheet", {"sheets": ()}, "names no sheets"),
    ],
)
def test_a_way_for_which_the_record_has_no_sheet_is_no_matter_of_size(
    way: str, bare: dict[str, Any], told: str
) -> None:
    with pytest.raises(Fault, match=told) as caught:
        lay_for(replace(TONER, **bare), A7, FeedChoice(way=way))
    assert caught.value.code == "way-unknown"
    assert "Choose envelope or turned or" in caught.value.mend


def test_a_sheet_that_the_device_does_not_take_is_refused_with_those_that_it_does() -> None:
    with pytest.raises(Fault, match="letter, legal, a4") as caught:
        lay_for(TONER, A7, FeedChoice(way="sheet", sheet="a5"))
    assert caught.value.code == "sheet-unknown"


@pytest.mark.parametrize(
    ("feed", "free"),
    [
        # As the stock goes in: lead 10, trail 40, left 20, right 30; as it is read it stands:
        (Feed(face="up", flap="left"), (40.0, 30.0, 522 - 10, 378 - 20)),
        (Feed(face="up", flap="right"), (10.0, 20.0, 522 - 40, 378 - 30)),
        (Feed(edge="long", flap="lead"), (20.0, 40.0, 522 - 30, 378 - 10)),
        (Feed(edge="long", flap="trail"), (30.0, 10.0, 522 - 20, 378 - 40)),
    ],
    ids=["flap left", "flap right", "flap first", "flap last"],
)
@pytest.mark.parametrize("way", ["envelope", "turned"])
def test_the_unprinted_edges_turn_with_the_envelope(
    feed: Feed, free: tuple[float, ...], way: str
) -> None:
    device = replace(TONER, feed=feed, edges=EDGES)
    bare = replace(A7, safe=Box(0, 0, *TRIM))
    lay = lay_for(device, bare, FeedChoice(way=way))
    safe = within_reach(bare, lay).safe
    assert near(safe) == free


def test_on_a_sheet_the_sheet_s_own_edges_count_too() -> None:
    device = replace(TONER, edges=EDGES, feed=replace(TONER.feed, side="left"))
    bare = replace(A7, safe=Box(0, 0, *TRIM))
    lay = lay_for(device, bare, FeedChoice(way="sheet", sheet="letter"))
    on_sheet = moved_box(on_page(lay, TRIM), within_reach(bare, lay).safe)
    # the envelope reaches from 0 to 378 across and from 270 to 792 along
    assert near(on_sheet) == (20, 270 + 40, 378 - 30, 792 - 10)


def test_a_calibration_asks_for_what_lands_right_and_leaves_it_room() -> None:
    true = Calibration("trial", (1.002, 0.004, 2.5), (-0.004, 0.998, -1.5), 0.0, 4)
    lay = replace(lay_for(TONER, A7, FeedChoice(way="turned")), calibration=true)
    plain = replace(lay, calibration=None)
    for point in ((0.0, 0.0), (100.0, 50.0), TRIM):
        x, y = moved(undone(on_page(plain, TRIM)), *moved(on_page(lay, TRIM), *point))
        landed = (1.002 * x + 0.004 * y + 2.5, -0.004 * x + 0.998 * y - 1.5)
        assert landed == pytest.approx(point)
    cut = within_reach(A7, lay).safe
    assert within_reach(A7, plain).safe.holds(cut)
    asked = moved_box(on_page(lay, TRIM), cut)
    assert moved_box(on_page(plain, TRIM), within_reach(A7, plain).safe).holds(asked)


def test_an_envelope_higher_than_wide_has_its_flap_at_the_short_edge() -> None:
    tall = replace(A7, width=A7.height, height=A7.width)
    assert {turn_of(Feed(face="up", flap=flap), tall) for flap in ("left", "right")} == {0, 180}


def test_a_paper_that_the_device_can_not_print_on_is_refused_and_a_doubtful_one_is_told() -> None:
    device = replace(TONER, stock=StockLimits(never=("handmade",), test_first=("felt",)))
    ivory = SHELF.stock("ivory")
    assert check_stock(device, ivory) is None
    assert "test one envelope first" in str(check_stock(device, replace(ivory, surface="felt")))
    with pytest.raises(Fault, match="handmade") as caught:
        check_stock(device, replace(ivory, surface="handmade"))
    assert caught.value.code == "stock-not-fed"
    assert check_stock(SHELF.device("home-inkjet"), replace(ivory, surface="handmade"))
    others = [SHELF.device(key) for key in SHELF.devices()]
    with pytest.raises(Fault) as caught:
        check_stock(device, replace(ivory, surface="handmade"), lambda: others)
    assert "another paper, Inkjet device at home (after a trial), or a shop" in caught.value.mend
    with pytest.raises(Fault, match="translucent") as caught:
        check_stock(TONER, replace(ivory, surface="translucent"), lambda: others)
    assert "another paper, another device, or a shop" in caught.value.mend
