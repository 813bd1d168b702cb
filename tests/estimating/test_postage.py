"""Paper weights against the trade's equivalents; classes by the published sizes."""

from dataclasses import replace
from decimal import Decimal

import pytest

from addressing.estimating import assemble, postage_for
from addressing.estimating.weighing import grams_per_m2
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
def test_a_basis_weight_is_the_grammage_of_trade_tables(row: dict[str, str]) -> None:
    for word in row["words"].split("|"):
        found = grams_per_m2(f"{row['example_lb']} lb {word}")
        assert found == pytest.approx(float(row["example_gsm"]), rel=0.01)


@pytest.mark.parametrize(
    ("paper", "factor"),
    # Published conversion factors from pounds to g/m² (trade tables, from memory).
    [("text", 1.48), ("cover", 2.7047), ("bond", 3.7597), ("index", 1.8073), ("bristol", 2.1945)],
)
def test_pounds_become_grams_by_the_published_factors(paper: str, factor: float) -> None:
    assert grams_per_m2(f"100 lb {paper}") == pytest.approx(100 * factor, rel=2e-3)


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
