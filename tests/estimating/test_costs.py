"""Prices of each way, exactly; the plan against trying everything and a general solver."""

import itertools
from dataclasses import replace
from decimal import Decimal
from importlib.resources import files
from pathlib import Path

import numpy as np
import pytest
from fontTools.pens.areaPen import AreaPen
from fontTools.ttLib import TTFont
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import Bounds, LinearConstraint, milp

from addressing.estimating import (
    cheaper_order,
    cheapest_from,
    home_offer,
    in_a_rush,
    ink_area,
    packs_of,
    plans,
    shop_offer,
    without_each,
)
from addressing.estimating.area import MM2_PER_PT2, glyph_area
from addressing.estimating.prices import best_quantity, paid
from addressing.records.costs import Offer, OnSheets, Part, Place, Plan, Run
from addressing.records.docket import PieceChoice
from addressing.records.pages import Outlines, Page, ShapedLine, Word
from addressing.records.pieces import Line, Piece, Role, Wording
from addressing.records.rates import (
    Cartridge,
    EnvelopePrice,
    HomeRates,
    PiecePrice,
    Rates,
    Rush,
    ShopRates,
)
from addressing.records.shelf import Face, Ink, Layout
from addressing.typesetting import fit, stream

INK = (("White", 1.0),)
"""Next to no ink."""
HOME = HomeRates("home", Decimal(100), 2000, Decimal(0), 30, 10, 30, Decimal(0))
SHOP = ShopRates(
    "shop", Decimal(0), ((1, Decimal("0.50")),), Decimal(0), Decimal(0), 0, 7, Decimal(0)
)
RATES = Rates("USD", 2, "2026-01-15", Decimal(45), (HOME,), (SHOP,), ())


def run(quantity: int, area: float = 400.0) -> Run:
    return Run("outer", "a7", quantity, quantity, (("White", area * quantity),))


def part(offer: Offer, name: str) -> Decimal:
    return next(each.amount for each in offer.parts if each.name == name)


def test_ink_is_priced_by_area_against_a_yield_at_five_per_cent() -> None:
    # ISO/IEC 19752: yields are stated for pages covered at about 5 %; an A4 page has 62 370 mm².
    page = 210 * 297 * 0.05
    offer = home_offer(RATES, HOME, run(2000, page), "Home")
    assert part(offer, "ink") == Decimal("100.00")


def test_three_cents_of_ink_at_home_can_be_dearer_than_fifty_cents_at_a_shop() -> None:
    # Common practice, no source: labour, adjusting and spoilage are what home printing costs.
    few = run(60, 210 * 297 * 0.05 * 0.6)  # three cents of ink each at these prices
    home, shop = home_offer(RATES, HOME, few, "Home"), shop_offer(RATES, SHOP, few, "Shop")
    assert part(home, "ink") / 60 == Decimal("0.03")
    assert part(shop, "printing") / 60 == Decimal("0.50")
    assert home.total + Decimal("22.50") > shop.total  # half an hour of set-up at 45 an hour


def test_a_quantity_at_the_next_break_may_cost_less() -> None:
    breaks = ((1, Decimal("1.00")), (150, Decimal("0.90")))
    shop = ShopRates("s", Decimal(0), breaks, Decimal(0), Decimal(0), 0, 5, Decimal(0))
    assert best_quantity(shop, 141) == (150, Decimal("0.90"))
    assert best_quantity(shop, 134) == (134, Decimal("1.00"))
    assert best_quantity(shop, 160) == (160, Decimal("0.90"))


def test_a_minimum_is_asked_for_small_runs() -> None:
    shop = ShopRates("s", Decimal(5), SHOP.breaks, Decimal(60), Decimal(0), 0, 5, Decimal(0))
    offer = shop_offer(RATES, shop, run(20), "Shop")
    assert (part(offer, "set-up"), part(offer, "printing")) == (Decimal("5.00"), Decimal("60.00"))


def test_envelopes_are_bought_in_whole_packs_with_what_is_spoiled() -> None:
    rates = Rates("USD", 2, "", Decimal(0), (), (), (EnvelopePrice("a7", 25, Decimal("16.25")),))
    home = HomeRates("h", Decimal(0), 1, Decimal(0), 0, 0, 0, Decimal(6))
    assert part(home_offer(rates, home, run(96), "H"), "envelopes") == Decimal("81.25")  # 102: 5
    assert part(home_offer(rates, home, run(94), "H"), "envelopes") == Decimal("65.00")  # 100: 4


def test_what_is_printed_on_another_kinds_envelopes_buys_none() -> None:
    price = EnvelopePrice("a7", 25, Decimal("16.25"))
    rates = Rates("USD", 2, "", Decimal(0), (), (), (price,))
    flap = Run("return", "a7", 90, 0, INK)
    names = [each.name for each in home_offer(rates, HOME, flap, "H").parts]
    assert "envelopes" not in names


def test_twice_the_hourly_rate_changes_labour_alone() -> None:
    twice = Rates("USD", 2, "", Decimal(90), (HOME,), (SHOP,), ())
    before, after = (home_offer(each, HOME, run(100), "H") for each in (RATES, twice))
    changed = [a.name for a, b in zip(before.parts, after.parts, strict=True) if a != b]
    assert changed == ["labour"]
    assert part(after, "labour") == 2 * part(before, "labour")


def test_money_is_rounded_as_the_currency_is_paid() -> None:
    yen = Rates("JPY", 0, "", Decimal(4500), (HOME,), (), ())
    offer = home_offer(yen, HOME, run(33, 777.7), "H")
    assert all(each.amount == each.amount.to_integral_value() for each in offer.parts)


@pytest.mark.parametrize(
    ("amount", "digits", "rounded"),
    [
        ("1.005", 2, "1.01"),
        ("1.0049", 2, "1.00"),
        ("0.5", 0, "1"),  # yen have no smaller part (ISO 4217)
        ("1234.4999", 0, "1234"),
        ("0.0005", 3, "0.001"),  # a dinar has a thousand fils (ISO 4217)
    ],
)
def test_halves_are_rounded_up_at_the_currency_s_last_digit(
    amount: str, digits: int, rounded: str
) -> None:
    assert str(paid(Decimal(amount), digits)) == rounded


def test_where_the_cheaper_way_changes_is_found_at_every_step() -> None:
    one = [Decimal(50 + n) for n in range(1, 101)]
    other = [Decimal(2 * n if n < 80 else 30 + n) for n in range(1, 101)]
    assert cheapest_from([one, other]) == ((1, 1), (51, 0), (80, 1))


PLACES = ("a", "b", "c", "d")
KINDS = ("outer", "inner", "reply")
PRICE = st.decimals(0, 200, places=2)


@st.composite
def markets(draw: st.DrawFn) -> tuple[list[Offer], list[Place]]:
    """Shops with their days, homes with minutes, rests and days between hits."""
    places = []
    for key in PLACES[: draw(st.integers(1, 4))]:
        home = draw(st.booleans())
        days, minutes = (0, draw(st.integers(0, 90))) if home else (draw(st.integers(0, 9)), 0)
        parts = (Part("once", draw(PRICE), ""),)
        places.append(Place(key, key, parts, days, home=home, minutes=minutes))
    offers = [
        Offer(kind, place.key, "", home=place.home, parts=(Part("all", draw(PRICE), ""),),
              why_not=draw(st.sampled_from([None, None, None, "can't"])),
              minutes=draw(st.integers(0, 500)),
              rest=draw(st.integers(0, 200)) if place.home else 0,
              between=draw(st.sampled_from([0, 0, 1, 2])) if place.home else 0)
        for kind in KINDS
        for place in places
    ]  # fmt: skip
    return offers, places


@settings(max_examples=400, deadline=None)
@given(markets())
def test_the_plans_are_the_best_of_all_that_there_are(
    market: tuple[list[Offer], list[Place]],
) -> None:
    offers, places = market
    ways = []
    by_kind = [[o for o in offers if o.kind == kind and o.feasible] for kind in KINDS]
    for way in itertools.product(*by_kind):
        used = {offer.place for offer in way}
        ways.append(Plan(way, tuple(place for place in places if place.key in used)))
    cheapest, fastest = plans(offers, places)
    if not ways:
        assert cheapest is fastest is None
        return
    assert cheapest is not None
    assert fastest is not None
    assert cheapest.total == min(way.total for way in ways)
    assert (fastest.days, fastest.total) == min((way.days, way.total) for way in ways)


def test_a_fast_plan_spreads_the_work_that_one_day_at_home_is_too_short_for() -> None:
    """Both at home cost 20 and take two days; one of them at the shop costs more, and one day."""
    home = Place("h", "Home", (), 0, home=True, minutes=10)
    shop = Place("s", "Shop", (Part("once", Decimal(30), ""),), 1)
    offers = [
        Offer(kind, "h", "", home=True, parts=(Part("all", Decimal(10), ""),), minutes=200)
        for kind in ("outer", "inner")
    ] + [
        Offer(kind, "s", "", home=False, parts=(Part("all", Decimal(15 + at), ""),))
        for at, kind in enumerate(("outer", "inner"))
    ]
    cheapest, fastest = plans(offers, [home, shop])
    assert cheapest is not None
    assert fastest is not None
    assert (cheapest.total, cheapest.days) == (Decimal(20), 2)  # 410 minutes
    assert (fastest.total, fastest.days) == (Decimal(55), 1)  # 10 + 15 + 30
    assert {offer.kind: offer.place for offer in fastest.offers} == {"outer": "s", "inner": "h"}


def test_hits_dry_between_and_a_device_rests_between_loads() -> None:
    white = replace(HOME, load=10, pause=30, spoilage=Decimal(5))
    twice = Run("outer", "a7", 95, 110, INK, hits=2, inks=2, dry=1)
    offer = home_offer(RATES, white, twice, "H")
    assert offer.rest == 20 * 30  # 95 and 10 spoiled by two hits are 210 passes: 21 loads
    assert offer.between == 1
    plan = Plan((offer,), (Place("home", "", (), 0, home=True, minutes=30),))
    # Adjusting 2 × 10, feeding 63, resting 600, setting up 30: two days of 360 minutes; one to dry.
    assert plan.days == 3
    assert home_offer(RATES, replace(white, load=210), twice, "H").rest == 0


def test_cards_on_sheets_are_fed_spoiled_bought_and_cut_by_the_sheet() -> None:
    rates = replace(
        RATES, cut_per_hundred=40, papers=(EnvelopePrice("ivory letter", 25, Decimal(7)),)
    )
    home = replace(HOME, spoilage=Decimal(10), wear=Decimal("0.10"), adjust=10, per_hundred=50)
    page = 210 * 297 * 0.05
    laid, on = (("Black", page * 12),), OnSheets(12, 14, "ivory letter")
    cards = Run("place-card", "place-card", 120, 138, laid, on=on)
    offer = home_offer(rates, home, cards, "H")
    # 12 sheets and 2 spoiled: 14 passes; 14 pages of a cartridge of 2000 at 100.00.
    assert part(offer, "ink") == Decimal("0.70")
    assert part(offer, "wear") == Decimal("1.40")
    assert part(offer, "paper") == Decimal("7.00")
    assert offer.minutes == 10 + 7 + 6  # 14 sheets to feed and to cut
    assert part(offer, "labour") == Decimal("17.25")
    both = replace(cards, on=OnSheets(12, 14, "ivory letter", sides=2))
    assert part(home_offer(rates, home, both, "H"), "wear") == Decimal("2.80")


def test_a_shop_that_keeps_what_is_sent_in_leaves_no_spare_for_overs() -> None:
    price = EnvelopePrice("a7", 1, Decimal(1))
    rates = replace(RATES, envelopes=(price,))
    few = Run("outer", "a7", 100, 115, INK)
    shop = replace(SHOP, spoilage=Decimal(5))
    assert part(shop_offer(rates, shop, few, "S"), "envelopes") == 115
    kept = shop_offer(rates, replace(shop, keeps=True), few, "S")
    assert part(kept, "envelopes") == 120
    assert kept.parts[-1].why == "120 packs of 1 for 100, 15 overs and 5 that the shop keeps"


def test_a_rush_is_a_share_of_set_up_and_printing_alone() -> None:
    shop = replace(SHOP, set_up=Decimal(20), rush=Rush(Decimal(30), 3))
    rates = replace(RATES, envelopes=(EnvelopePrice("a7", 25, Decimal(16)),))
    offer = shop_offer(rates, shop, run(100), "S")
    assert part(in_a_rush(rates, shop, offer), "rush") == Decimal("21.00")  # 30 % of 20 + 50
    assert in_a_rush(rates, SHOP, offer) == offer
    refused = shop_offer(rates, replace(shop, least=500), run(100), "S")
    assert in_a_rush(rates, shop, refused) == refused


def test_what_a_shop_prices_apart_goes_by_that_and_the_suite_only_where_it_is_priced() -> None:
    card = PiecePrice("invitation", Decimal(40), ((1, Decimal(2)),), Decimal(150))
    shop = replace(SHOP, pieces=(card,), under=Decimal(10))
    suite = Run("invitation", "", 90, 90, static=True, suite=True)
    offer = shop_offer(RATES, shop, suite, "S")
    assert part(offer, "set-up") == 40
    assert part(offer, "printing") == 200  # 90 even if 10 % fewer come: 100
    few = shop_offer(RATES, shop, replace(suite, quantity=50, stock=50), "S")
    assert part(few, "printing") == 150
    other = shop_offer(RATES, shop, replace(suite, kind="details card"), "S")
    assert other.why_not == "S has no price for details card in your rates."
    assert not home_offer(RATES, HOME, suite, "H").feasible
    assert part(shop_offer(RATES, shop, run(100), "S"), "printing") == 50


def test_a_piece_that_is_bought_comes_in_whole_packs() -> None:
    rates = replace(RATES, bought=(EnvelopePrice("liner", 10, Decimal("6.50")),))
    suite = Run("liner", "", 101, 101, static=True, suite=True)
    found = packs_of(rates, suite)
    assert found is not None
    assert found.amount == Decimal("71.50")
    assert packs_of(rates, replace(suite, kind="seal")) is None


def test_more_places_than_can_be_tried_are_refused() -> None:
    with pytest.raises(ValueError, match="13 places"):
        plans([], [Place(str(n), "", (), 0) for n in range(13)])


def test_areas_of_letters_are_those_of_fonttools(
    script: Face, envelope: Layout, white: Ink
) -> None:
    """fontTools' area pen as second opinion, on every letter of a line of Great Vibes."""
    piece = Piece("outer", "h", "H", (Wording((Line("Quillfeather & Oßwald 27", Role.NAME),)),))
    choice = PieceChoice("outer", "t", "f", "White", "g", size=20.0)
    setting, _ = fit([piece], choice, envelope, script, white, 0.0)
    pages, outlines = stream(setting)
    font = TTFont(script.path)
    glyphs = font.getGlyphSet()
    (page,) = pages
    for glyph in page.lines[0][0].glyphs:
        pen = AreaPen(glyphs)
        glyphs[font.getGlyphName(glyph)].draw(pen)
        assert glyph_area(outlines.glyphs[glyph]) == pytest.approx(pen.value, rel=1e-6, abs=1e-6)


def test_the_ink_of_a_square_is_its_area() -> None:
    square = (("m", (0, 0)), ("l", (100, 0)), ("l", (100, 100)), ("l", (0, 100)), ("h", ()))
    word = Word((1, 1), (0, 200), (0, 0), (400, 0, 0, 0, 300, 100))
    line = ShapedLine("x", (word,), 100)
    pages = [Page("h", ((line, 0.0, 0.0, 72.0),))] * 3
    found = ink_area(pages, Outlines({1: square}))
    assert list(found) == pytest.approx([3 * 2 * 25.4**2, 0])
    assert pytest.approx((25.4 / 72) ** 2) == MM2_PER_PT2


def test_the_ink_of_the_address_is_measured_apart() -> None:
    square = (("m", (0, 0)), ("l", (100, 0)), ("l", (100, 100)), ("l", (0, 100)), ("h", ()))
    word = Word((1,), (0,), (0,), (200, 0, 0, 0, 100, 100))
    line = ShapedLine("x", (word,), 100)
    pages = [Page("h", ((line, 0.0, 0.0, 72.0), (line, 0.0, 0.0, 36.0)), inks=(0, 1))] * 2
    found = ink_area(pages, Outlines({1: square}))
    assert list(found) == pytest.approx([2 * 25.4**2, 2 * 12.7**2])


def test_each_ink_is_paid_for_by_its_own_cartridge() -> None:
    page = 210 * 297 * 0.05  # what a page of a stated yield lays down
    laid = (("White", 10 * page), ("Black", 20 * page))
    run = Run("outer", "a7", 100, 100, laid, hits=2, inks=2)
    white = Cartridge("White", Decimal(300), 1000)
    offer = home_offer(RATES, replace(HOME, cartridges=(white,)), run, "Home")
    inks = [(part.amount, part.why.split(": ")[1]) for part in offer.parts if part.name == "ink"]
    assert inks == [
        (Decimal("3.00"), "10.0 of a cartridge's 1000 pages"),
        (Decimal("1.00"), "20.0 of a cartridge's 2000 pages"),
    ]


def test_the_packaged_rates_are_an_invented_example() -> None:
    text = Path(str(files("addressing"))) / "data" / "rates.toml"
    assert "invented" in text.read_text("utf-8").splitlines()[0]


def test_what_is_spoiled_is_taken_from_the_overs_and_the_sum_says_so() -> None:
    rates = Rates("USD", 2, "", Decimal(0), (), (), (EnvelopePrice("a7", 25, Decimal(1)),))
    home = HomeRates("h", Decimal(0), 1, Decimal(0), 0, 0, 0, Decimal(6))
    few, many = Run("outer", "a7", 100, 115, INK), Run("outer", "a7", 100, 103, INK)
    said = [
        next(p.why for p in home_offer(rates, home, run, "H").parts if p.name == "envelopes")
        for run in (few, many)
    ]
    assert said == [
        "5 packs of 25 for 100 and 15 overs; 6 of these for spoiling",
        "5 packs of 25 for 100 and 6 for spoiling (more than the 3 overs)",
    ]


def test_what_is_the_same_for_all_is_spoiled_out_of_the_overs_within_it() -> None:
    """A hundred with their overs: no more go through, and no more are bought."""
    rates = replace(RATES, envelopes=(EnvelopePrice("a1", 1, Decimal(1)),))
    static = Run("reply", "a1", 100, 100, INK, static=True)
    home = home_offer(rates, replace(HOME, spoilage=Decimal(6), wear=Decimal(1)), static, "H")
    assert part(home, "wear") == part(home, "envelopes") == 100
    shop = replace(SHOP, spoilage=Decimal(6))
    assert part(shop_offer(rates, shop, static, "S"), "envelopes") == 100
    named = replace(static, static=False)
    assert part(shop_offer(rates, shop, named, "S"), "envelopes") == 106


def test_of_static_pieces_so_many_are_ordered_that_enough_come() -> None:
    # Trade custom: 10 % over or under. Of 112 ordered, 100.8 come at least; of 111 only 99.9.
    shop = replace(SHOP, under=Decimal(10))
    static = Run("reply", "a1", 100, 100, INK, static=True)
    assert part(shop_offer(RATES, shop, static, "S"), "printing") == Decimal("56.00")
    assert part(shop_offer(RATES, shop, replace(static, static=False), "S"), "printing") == 50
    assert part(shop_offer(RATES, shop, replace(static, stock=0), "S"), "printing") == 50
    # So many envelopes are sent in, too.
    rates = replace(RATES, envelopes=(EnvelopePrice("a1", 1, Decimal(1)),))
    sent = shop_offer(rates, shop, static, "S")
    assert part(sent, "envelopes") == 112
    assert (
        sent.parts[-1].why
        == "112 packs of 1 for 100, overs in them, and 12 that the shop wants more"
    )


def test_a_shop_charges_whole_packs_and_refuses_small_orders() -> None:
    shop = replace(SHOP, pack=25, least=50)
    assert part(shop_offer(RATES, shop, run(51), "S"), "printing") == Decimal("37.50")  # 75
    assert part(shop_offer(RATES, shop, run(75), "S"), "printing") == Decimal("37.50")
    few = shop_offer(RATES, shop, run(49), "S")
    assert few.why_not == "S takes orders of 50 and more; here are 49."


def test_of_what_is_the_same_for_all_the_least_that_a_shop_takes_is_ordered() -> None:
    shop = replace(SHOP, least=50, pack=20, under=Decimal(10))
    few = Run("reply", "a1", 35, 35, static=True)
    offer = shop_offer(RATES, shop, few, "S")
    assert part(offer, "printing") == Decimal("30.00")  # 39 that 35 come, 50 at least, 3 packs
    rates = replace(RATES, envelopes=(EnvelopePrice("a1", 1, Decimal(1)),))
    assert part(shop_offer(rates, shop, few, "S"), "envelopes") == 60
    flap = replace(few, stock=0)
    assert not shop_offer(RATES, shop, flap, "S").feasible


BREAKS = st.lists(st.tuples(st.integers(2, 300), PRICE), max_size=4, unique_by=lambda b: b[0])


@given(PRICE, BREAKS, st.integers(1, 60), PRICE, st.integers(1, 350))
def test_no_other_number_of_whole_packs_costs_less(
    first: Decimal, more: list[tuple[int, Decimal]], pack: int, minimum: Decimal, quantity: int
) -> None:
    """Every number of packs from the one that is needed to well past the last break is tried."""
    breaks = ((1, first), *sorted(more))
    shop = replace(SHOP, breaks=breaks, pack=pack, minimum=minimum)
    number, each = best_quantity(shop, quantity)
    assert number % pack == 0
    assert number >= quantity

    def cost(many: int) -> Decimal:
        return max(many * [price for start, price in breaks if start <= many][-1], minimum)

    packs = range(-(-quantity // pack), 700 // pack + 2)
    assert max(number * each, minimum) == min(cost(n * pack) for n in packs)


def test_where_nothing_can_be_had_no_way_is_the_cheapest() -> None:
    never = Decimal("Infinity")
    assert cheapest_from([[never, never, Decimal(9)], [never, Decimal(5), Decimal(12)]]) == (
        (2, 1),
        (3, 0),
    )


def solved(offers: list[Offer], places: list[Place], days: int | None = None) -> float | None:
    """The least cost by scipy's milp: x for each offer, y for each place; x only where y.

    Within `days`, by hand: what dries longer or is done later can't be taken, and the minutes at
    home fit into the days that are left.
    """
    by_key = {place.key: place for place in places}
    found = []
    for between in (0,) if days is None else range(days + 1):
        can = [
            offer
            for offer in offers
            if offer.feasible
            and (
                days is None
                or (offer.between <= between if offer.home else by_key[offer.place].days <= days)
            )
        ]
        rows, low, high = [], [], []
        for kind in dict.fromkeys(offer.kind for offer in offers):
            rows.append([float(o.kind == kind) for o in can] + [0.0] * len(places))
            low.append(1.0)
            high.append(1.0)
        for at, offer in enumerate(can):
            opened = [-float(place.key == offer.place) for place in places]
            rows.append([float(at == other) for other in range(len(can))] + opened)
            low.append(-np.inf)
            high.append(0.0)
        if days is not None:
            spent = [float((o.minutes + o.rest) * o.home) for o in can]
            rows.append(spent + [float(place.minutes) for place in places])
            low.append(0.0)
            high.append(360.0 * (days - between))
        prices = [float(o.total) for o in can] + [float(place.fixed) for place in places]
        best = milp(
            np.array(prices),
            constraints=LinearConstraint(np.array(rows), low, high),
            integrality=np.ones(len(prices)),
            bounds=Bounds(0, 1),
        )
        if best.success:
            found.append(float(best.fun))
    return min(found, default=None)


def agrees(offers: list[Offer], places: list[Place]) -> None:
    cheapest, fastest = plans(offers, places)
    best = solved(offers, places)
    assert (best is None) == (cheapest is None) == (fastest is None)
    if best is None or cheapest is None or fastest is None:
        return
    assert best == pytest.approx(float(cheapest.total), abs=1e-6)
    assert solved(offers, places, fastest.days) == pytest.approx(float(fastest.total), abs=1e-6)
    if fastest.days:
        assert solved(offers, places, fastest.days - 1) is None


@settings(max_examples=40, deadline=None)
@given(markets())
def test_a_general_solver_finds_no_cheaper_and_no_faster_plan(
    market: tuple[list[Offer], list[Place]],
) -> None:
    agrees(*market)


@pytest.mark.parametrize("seed", range(3))
def test_a_general_solver_agrees_on_a_dozen_places_and_eight_kinds(seed: int) -> None:
    chance = np.random.default_rng(seed)
    places = [
        Place(
            f"p{at:02d}", "", (Part("once", Decimal(int(chance.integers(5, 60))), ""),),
            days=0 if at < 3 else int(chance.integers(1, 12)),
            home=at < 3, minutes=int(chance.integers(5, 40)) if at < 3 else 0,
        )
        for at in range(12)
    ]  # fmt: skip
    offers = [
        Offer(
            f"kind {kind}", place.key, "", home=place.home,
            parts=(Part("all", Decimal(int(chance.integers(1000, 20000))) / 100, ""),),
            why_not="can't" if chance.random() < 0.3 else None,
            minutes=int(chance.integers(20, 200)),
            between=int(place.home and chance.integers(0, 2)),
        )
        for kind in range(8)
        for place in places
    ]  # fmt: skip
    agrees(offers, places)


def test_of_plans_that_cost_the_same_the_faster_is_taken_though_it_needs_more_places() -> None:
    places = [Place("a", "", (), 9), Place("b", "", (), 5), Place("c", "", (), 5)]
    offers = [
        Offer(kind, place, "", home=False, parts=(Part("all", Decimal(10), ""),))
        for kind, place in (("outer", "a"), ("inner", "a"), ("outer", "b"), ("inner", "c"))
    ]
    cheapest, fastest = plans(offers, places)
    assert cheapest is not None
    assert cheapest.total == 20
    assert cheapest.days == 5
    assert fastest == cheapest


@given(markets())
def test_the_plan_in_reserve_does_without_the_place_that_is_closed(
    market: tuple[list[Offer], list[Place]],
) -> None:
    offers, places = market
    cheapest, _ = plans(offers, places)
    for each in without_each(offers, places, cheapest):
        key, other = each.closed, each.plan
        left = [place for place in places if place.key != key]
        assert {offer.kind for offer in offers} - set(each.stranded) == {
            offer.kind for offer in offers if offer.feasible and offer.place != key
        }
        kept = [offer for offer in offers if offer.kind not in each.stranded]
        assert other == (plans(kept, left)[0] if kept else None)
        if other is not None and cheapest is not None:
            assert each.stranded or other.total >= cheapest.total
            assert key not in {place.key for place in other.places}


def test_plates_are_set_up_once_an_ink_and_paid_for_once_a_hit() -> None:
    """White twice and gold once on it: two plates, three hits."""
    run = Run("outer", "a7", 100, 100, INK, hits=3, inks=2)
    offer = shop_offer(RATES, replace(SHOP, set_up=Decimal(20)), run, "S")
    assert part(offer, "set-up") == 40
    assert part(offer, "printing") == 150
    home = home_offer(RATES, replace(HOME, wear=Decimal(1)), run, "H")
    assert part(home, "wear") == 300
    assert home.minutes == 2 * 10 + 90  # adjusted for each ink, 300 fed at 30 a hundred


@given(PRICE, BREAKS, st.integers(1, 60), PRICE, st.tuples(st.integers(1, 350), st.integers(1, 3)))
def test_more_is_proposed_just_where_a_larger_order_costs_less(
    first: Decimal,
    more: list[tuple[int, Decimal]],
    pack: int,
    minimum: Decimal,
    ordered: tuple[int, int],
) -> None:
    """A recount of every number of packs: one that costs less is found, and none is made up."""
    quantity, hits = ordered
    breaks = ((1, first), *sorted(more))
    shop = replace(SHOP, breaks=breaks, pack=pack, minimum=minimum)
    found = cheaper_order(shop, Run("reply", "a1", quantity, quantity, static=True, hits=hits))

    def cost(many: int) -> Decimal:
        return hits * max(many * [price for start, price in breaks if start <= many][-1], minimum)

    packs = [n * pack for n in range(-(-quantity // pack), 700 // pack + 2)]
    least = min(map(cost, packs))
    if least == cost(packs[0]):
        assert found is None
        return
    assert found is not None
    assert (found.fewer, found.fewer_cost) == (packs[0], cost(packs[0]))
    assert found.more in packs[1:]
    assert (found.more_cost, cost(found.more)) == (least, least)
