"""Paper weights against the trade's equivalents; classes by the published sizes."""

import itertools
from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from addressing.estimating import assemble, postage_for
from addressing.estimating.posting import stamps_for
from addressing.estimating.weighing import caliper_of, grams_per_m2, sheet_of
from addressing.materials.shelf import open_shelf
from addressing.records.postage import Assembly, PostClass, PostRates, SuitePiece
from addressing.tables import table
from addressing.units import mm_to_pt

SHELF = open_shelf(None)
A7 = SHELF.layout("a7")
SQUARE = SHELF.layout("sq6")
LETTER = PostClass("letter", ((1.0, Decimal("0.80")), (2.0, Decimal("1.10"))), Decimal("0.50"))
LARGE = PostClass("large", ((1.0, Decimal("1.60")), (13.0, Decimal("5.20"))))
RATES = PostRates("USD", "2026-01-15", (LETTER, LARGE), (LETTER,))


def mail(grams: float, thickness: float = 1.0, *, stiff: bool = False) -> Assembly:
    return Assembly(grams, thickness, (), stiff, uneven=False)


@pytest.mark.parametrize("row", table("papers"), ids=lambda row: row["kind"])
def test_each_word_for_a_kind_of_paper_has_its_basis_sheet(row: dict[str, str]) -> None:
    for word in row["words"].split("|"):
        found = grams_per_m2(f"{row['example_lb']} lb {word}")
        assert found == pytest.approx(float(row["example_gsm"]), abs=0.06)


@pytest.mark.parametrize(("paper", "mm"), [("50 lb text", 0.100), ("80 lb text", 0.160)])
def test_a_sheet_is_as_thick_as_the_government_s_table_says(paper: str, mm: float) -> None:
    # Government Paper Specification Standards 11, 1999, JCP A55: average thickness, ±0.013 mm.
    assert sheet_of(paper) == pytest.approx(mm, abs=0.013)


def test_what_is_sold_by_thickness_weighs_what_paper_of_it_does() -> None:
    # One ply of museum board is 0.0125 to 0.015 in, four are 0.050 to 0.060 (S. Saitzyk, Art
    # Hardware, 1987); the same table gives 75 g/m² for 0.100 mm.
    assert 4 * 12.5 <= (caliper_of("4 ply") or 0) <= 4 * 15
    assert sheet_of("2-ply cotton") == pytest.approx(27.5 * 0.0254)
    assert grams_per_m2("10 pt cover") == pytest.approx(10 * 25.4 / 100 * 75)
    assert caliper_of("110 lb cover") is None


def test_a_liner_is_cut_to_its_envelope_unless_it_has_a_size() -> None:
    liner = SuitePiece("liner", paper="100 gsm", liner=True)
    whole = A7.width * (A7.height + A7.flap_depth) / mm_to_pt(1) ** 2
    (_, _), (name, grams) = assemble([(A7, "80 lb text")], [liner]).parts
    assert name == "liner"
    assert 0.8 * whole < grams / 100 * 1e6 < whole
    sized = replace(liner, width=100.0, height=100.0)
    assert assemble([(A7, "80 lb text")], [sized]).parts[1][1] == pytest.approx(1.0)


@pytest.mark.parametrize("written", ["300 gsm", "300 g/m²", "300g/m2", " 300 GSM "])
def test_grams_are_taken_as_they_are(written: str) -> None:
    assert grams_per_m2(written) == 300.0


@pytest.mark.parametrize("written", ["heavy", "110 lb", "cover 110", "-80 lb text", "80 lb silk"])
def test_what_is_no_weight_is_refused(written: str) -> None:
    with pytest.raises(ValueError, match="no weight of a paper"):
        grams_per_m2(written)


def test_a_sheet_of_letter_bond_weighs_as_everybody_knows() -> None:
    """A ream of 20 lb letter paper (a quarter of the basis sheet) weighs 5 lb: 4.54 g a sheet."""
    sheet = SuitePiece("sheet", 8.5 * 25.4, 11 * 25.4, "20 lb bond")
    assert assemble((), [sheet]).grams == pytest.approx(5 * 453.59237 / 500)


def test_an_a7_envelope_of_80_lb_text_weighs_about_what_a_scale_says() -> None:
    """Some 8 g (common practice, no source)."""
    assert 7.0 < assemble([(A7, "80 lb text")], ()).grams < 12.0


def test_everything_in_the_envelope_is_added_up() -> None:
    card = SuitePiece("card", 127, 177.8, "300 gsm", caliper=16)
    seal = SuitePiece("seal", grams=2.5, uneven=True)
    found = assemble((), [card, replace(card, count=2), seal])
    one = 127 * 177.8 / 1e6 * 300
    assert found.grams == pytest.approx(3 * one + 2.5)
    assert found.thickness == pytest.approx(3 * 0.016 * 25.4)
    assert (found.stiff, found.uneven) == (False, True)


@pytest.mark.parametrize(
    ("grams", "post_class", "price"),
    [
        (28.34, "letter", "0.80"),
        (28.349523125, "letter", "0.80"),  # an ounce is not over an ounce
        (28.36, "letter", "1.10"),
        (56.6, "letter", "1.10"),
        (56.8, "large", "5.20"),  # heavier than the letters of these rates
    ],
)
def test_the_price_is_that_of_the_step_that_the_weight_reaches(
    grams: float, post_class: str, price: str
) -> None:
    found = postage_for("home", A7, mail(grams), RATES)
    assert found is not None
    assert (found.post_class, found.price) == (post_class, Decimal(price))


def test_a_large_envelope_that_is_stiff_or_uneven_is_a_parcel() -> None:
    # USPS DMM 101, 2.1: flats are flexible and uniformly thick.
    thick = mail(60, thickness=8.0)
    found = postage_for("home", A7, thick, RATES)
    assert found is not None
    assert found.post_class == "large"
    assert postage_for("home", A7, replace(thick, stiff=True), RATES) is None
    assert postage_for("home", A7, replace(thick, uneven=True), RATES) is None


def test_the_surcharge_is_paid_once_whatever_number_of_reasons_there_are() -> None:
    one = postage_for("home", A7, mail(20, stiff=True), RATES)
    both = postage_for("home", A7, replace(mail(20, stiff=True), uneven=True), RATES)
    assert one is not None
    assert both is not None
    assert len(both.reasons) == len(one.reasons) + 1
    assert both.price == one.price


def test_a_square_or_stiff_letter_costs_the_surcharge_and_says_why() -> None:
    # USPS DMM 101 (archived 4 January 2010), 1.2.
    square = postage_for("home", SQUARE, mail(20), RATES)
    assert square is not None
    assert square.price == Decimal("1.30")
    assert "length divided by height is 1.00" in square.reasons[0]
    stiff = postage_for("home", A7, mail(20, stiff=True), RATES)
    assert stiff is not None
    assert stiff.reasons == ("it doesn't bend easily",)


def test_what_is_too_thick_or_too_large_for_a_letter_is_a_large_envelope() -> None:
    # USPS DMM 101, 1.1b: a quarter of an inch, 6 1/8 by 11 1/2 in.
    thick = postage_for("home", A7, mail(20, thickness=6.5), RATES)
    assert thick is not None
    assert thick.post_class == "large"
    high = replace(A7, height=mm_to_pt(6.2 * 25.4))
    large = postage_for("home", high, mail(20), RATES)
    assert large is not None
    assert large.post_class == "large"


def test_what_no_class_takes_has_no_price() -> None:
    assert postage_for("home", A7, mail(20, thickness=25), RATES) is None
    assert postage_for("abroad", A7, mail(60), RATES) is None


def test_a_weight_just_below_a_step_is_warned_of() -> None:
    near = postage_for("home", A7, mail(27.5), RATES)
    far = postage_for("home", A7, mail(20.0), RATES)
    assert near is not None
    assert far is not None
    assert (near.near, far.near) == (True, False)
    assert near.room == pytest.approx(28.349523125 - 27.5)


def test_a_country_with_rates_of_its_own_is_priced_by_them_and_all_others_alike() -> None:
    north = PostClass("letter", ((1.0, Decimal("1.60")),))
    rates = replace(RATES, countries=(("CA", (north,)),))
    prices = {
        to: found.price
        for to in ("home", "CA", "FR", "abroad")
        if (found := postage_for(to, A7, mail(20), rates))
    }
    assert prices == {
        "home": Decimal("0.80"),
        "CA": Decimal("1.60"),
        "FR": Decimal("0.80"),
        "abroad": Decimal("0.80"),
    }


def test_an_envelope_smaller_than_the_post_takes_has_no_class() -> None:
    # USPS DMM 101, 1.1a: not less than 5 inches long and 3 1/2 inches high.
    inch = mm_to_pt(25.4)
    assert postage_for("home", replace(A7, width=5 * inch, height=3.5 * inch), mail(10), RATES)
    short = replace(A7, width=4.9 * inch, height=3.5 * inch)
    low = replace(A7, width=5 * inch, height=3.4 * inch)
    assert postage_for("home", short, mail(10), RATES) is None
    assert postage_for("home", low, mail(10), RATES) is None


def test_a_large_thin_letter_and_one_that_stands_upright_cost_the_surcharge() -> None:
    # USPS DMM 201, 1.1.1a: over 4 1/4 in high or 6 in long, 0.009 in thick or more.
    thin = postage_for("home", A7, mail(5, thickness=0.2), RATES)
    enough = postage_for("home", A7, mail(5, thickness=0.23), RATES)
    assert thin is not None
    assert enough is not None
    assert (thin.reasons, enough.reasons) == (("it is thinner than 0.009 in",), ())
    small = replace(A7, width=mm_to_pt(6 * 25.4), height=mm_to_pt(4.25 * 25.4))
    assert postage_for("home", small, mail(5, thickness=0.2), RATES).reasons == ()  # type: ignore[union-attr]
    upright = replace(A7, width=A7.height, height=A7.width)
    portrait = postage_for("home", upright, mail(20), RATES)
    assert portrait is not None
    assert portrait.reasons == ("the address stands along the shorter side",)


VALUES = st.lists(st.integers(1, 40), min_size=1, max_size=4, unique=True)


@given(VALUES, st.integers(1, 120))
def test_no_other_stamps_pay_so_little_too_much_and_none_so_few(
    values: list[int], price: int
) -> None:
    """Every choice of up to four stamps is tried."""
    found = stamps_for(Decimal(price), [Decimal(value) for value in values])
    ways = [
        (sum(way), len(way))
        for many in range(1, 5)
        for way in itertools.combinations_with_replacement(values, many)
        if sum(way) >= price
    ]
    if ways:
        assert (int(sum(found)), len(found)) <= min(ways)
        assert sum(found) >= price
        assert list(found) == sorted(found, reverse=True)


def test_without_values_or_within_a_dozen_no_stamps_are_named() -> None:
    assert stamps_for(Decimal("0.80"), ()) == ()
    assert stamps_for(Decimal(13), [Decimal(1)]) == ()
    assert len(stamps_for(Decimal(12), [Decimal(1)])) == 12


def test_a_handful_of_small_stamps_never_saves_a_cent() -> None:
    values = [Decimal("0.83"), Decimal("0.31"), Decimal("0.05")]
    assert stamps_for(Decimal("2.35"), values) == (Decimal("0.83"),) * 3
    assert stamps_for(Decimal("4.10"), values) == (Decimal("0.83"),) * 5


def test_a_folded_card_lies_as_many_sheets_thick_as_it_has_layers_and_weighs_what_it_did() -> None:
    flat = SuitePiece("card", 200, 140, "120 lb cover", caliper=16)
    folded = replace(flat, layers=2)
    one, two = assemble((), [flat]), assemble((), [folded])
    assert two.thickness == pytest.approx(2 * one.thickness)
    assert two.grams == pytest.approx(one.grams)
    by_weight = replace(folded, caliper=0.0)
    assert assemble((), [by_weight]).thickness == pytest.approx(2 * sheet_of("120 lb cover"))


def test_how_near_is_near_grows_with_the_weight() -> None:
    # A scale errs by a share of what lies on it: 5 % of two ounces are 2.8 g.
    near, far = (postage_for("home", A7, mail(grams), RATES) for grams in (54.5, 53.5))
    assert near is not None
    assert far is not None
    assert (near.near, far.near) == (True, False)


def test_an_empty_envelope_is_as_thick_as_its_two_sides() -> None:
    assert assemble([(A7, "80 lb text")], []).thickness == pytest.approx(2 * sheet_of("80 lb text"))


def test_of_what_is_weighed_as_many_weigh_as_there_are() -> None:
    seal = SuitePiece("seal", grams=2.5)
    one, three = (assemble((), [replace(seal, count=number)]).grams for number in (1, 3))
    assert (one, three) == (2.5, 7.5)
