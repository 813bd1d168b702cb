"""What a job hands over to be priced: runs, each place's own terms, and what a quote leaves."""

import subprocess
from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal
from importlib.resources import files
from pathlib import Path

import pytest

from addressing.estimating import plans
from addressing.job.costing import dry_between, runs_of, terms_of
from addressing.job.estimating import Estimate, margin_of
from addressing.job.reading import Reading, read_job
from addressing.materials.shelf import open_shelf
from addressing.records.costs import Offer, OnSheets, Part, Place, Quote, Run
from addressing.records.docket import Docket
from addressing.records.rates import Rates

Ran = subprocess.CompletedProcess[str]
Write = Callable[..., Path]
ROWS = tuple(
    (f"Mr. Tobias {letter}wexcombe", "14 Larkmoor Lane", "Litchfield", "CT", "06759")
    for letter in "ABCDEFGHIJKLM"
)
HOSTS = """
[hosts]
name = "Mr. Gideon Penhew"
street = "1 Larkmoor Lane"
city = "Litchfield"
region = "CT"
postcode = "06759"
[overs]
percent = 0
minimum = 4
pack = 25
"""


@pytest.fixture
def job(tmp_path: Path, write_list: Write) -> Callable[[str], Reading]:
    """A job of thirteen households by a docket."""

    def read(docket: str) -> Reading:
        path = tmp_path / "docket.toml"
        path.write_text(HOSTS + docket)
        return read_job(write_list(ROWS), path, None, None)

    return read


def by_kind(reading: Reading) -> dict[str, Run]:
    return {run.kind: run for run in runs_of(reading)}


def test_what_is_bought_is_what_is_needed_and_the_overs_not_the_tally_s_packs(
    job: Callable[[str], Reading],
) -> None:
    """The rates have packs of their own."""
    runs = by_kind(job('[pieces]\nmake = ["outer", "return", "reply"]\n'))
    assert {kind: (run.quantity, run.stock, run.static) for kind, run in runs.items()} == {
        "outer": (13, 17, False),
        "return": (17, 0, True),  # on the outers' own flaps
        "reply": (17, 17, True),
    }


def test_a_return_on_envelopes_of_its_own_buys_them(job: Callable[[str], Reading]) -> None:
    apart = '[pieces]\nmake = ["outer", "return"]\n[[piece]]\nkind = "return"\nlayout = "a6"\n'
    assert by_kind(job(apart))["return"].stock == 17


def test_a_suite_piece_is_ordered_with_its_overs_and_needs_no_ink(
    job: Callable[[str], Reading],
) -> None:
    suite = '[pieces]\nmake = ["outer"]\n[[suite]]\nname = "card"\ngrams = 5.0\ncount = 2\n'
    card = by_kind(job(suite))["card"]
    assert (card.quantity, card.stock, card.ink_area) == (30, 30, 0.0)
    assert card.suite


def test_cards_on_sheets_are_fed_by_the_sheet_and_bought_with_their_overs(
    job: Callable[[str], Reading],
) -> None:
    sheet = (
        '[pieces]\nmake = ["place-card"]\n[[sheet]]\npiece = "place-card"\nacross = 2\ndown = 2\n'
    )
    (run,) = runs_of(job(sheet))
    assert run.on == OnSheets(sheets=4, stock=5, paper="ivory letter", sides=1)
    assert (run.quantity, run.fed) == (13, 4)


def test_fronts_and_backs_are_one_run_that_goes_through_twice(
    job: Callable[[str], Reading],
) -> None:
    sheet = (
        '[pieces]\nmake = ["place-card", "escort-card"]\n[[sheet]]\npiece = "place-card"\n'
        'behind = "escort-card"\nturned = true\nacross = 1\ndown = 2\n'
    )
    (run,) = runs_of(job(sheet))
    assert run.shared == ("escort-card",)
    assert run.on == OnSheets(sheets=4, stock=5, paper="ivory letter", sides=2)
    (front,) = runs_of(job('[pieces]\nmake = ["place-card"]\n'))
    (back,) = runs_of(job('[pieces]\nmake = ["escort-card"]\n'))
    assert run.ink_area == pytest.approx(front.ink_area + back.ink_area)


def test_each_ink_counts_as_often_as_it_is_laid(job: Callable[[str], Reading]) -> None:
    outer = '[pieces]\nmake = ["outer"]\n[[piece]]\nkind = "outer"\nink = "White"\n'
    once = by_kind(job(outer))["outer"]
    twice = by_kind(job(outer + "hits = { White = 2 }\n"))["outer"]
    assert (twice.hits, twice.inks) == (2, 1)
    assert twice.ink_area == pytest.approx(2 * once.ink_area)
    based = by_kind(job(outer.replace("White", "Gold") + 'underbase = "White"\n'))["outer"]
    assert (based.hits, based.inks) == (2, 2)
    areas = dict(based.inks_laid)
    assert areas["Gold"] == pytest.approx(once.ink_area)
    assert 0.5 * areas["Gold"] < areas["White"] < 0.95 * areas["Gold"]  # drawn in


def test_a_varnish_takes_what_it_lies_over_and_an_address_s_ink_its_own(
    job: Callable[[str], Reading],
) -> None:
    piece = '[pieces]\nmake = ["outer"]\n[[piece]]\nkind = "outer"\nink = "Gold"\n'
    own = '[piece.address]\nink = "Black"\n'
    parted = by_kind(job(piece + own))["outer"]
    coated = by_kind(job(piece + 'varnish = "names"\n' + own))["outer"]
    areas = dict(coated.inks_laid)
    assert dict(parted.inks_laid) == {ink: areas[ink] for ink in ("Gold", "Black")}
    assert areas["Spot Varnish"] == areas["Gold"]
    assert 0 < areas["Black"] != areas["Gold"]


def test_a_second_hit_dries_first_at_home_and_a_single_one_never(
    job: Callable[[str], Reading], tmp_path: Path
) -> None:
    shelf = open_shelf(tmp_path)
    black = (
        '[pieces]\nmake = ["outer"]\n[[piece]]\nkind = "outer"\nink = "Black"\nstock = "ivory"\n'
    )
    (once,) = job(black).kinds
    (twice,) = job(black + "hits = { Black = 2 }\n").kinds
    inkjet, toner = shelf.device("home-inkjet"), shelf.device("home-toner")
    assert [dry_between(inkjet, kind) for kind in (once, twice)] == [0, 1]
    assert dry_between(toner, twice) == 0
    assert dry_between(shelf.shop("farrenby-press"), twice) == 0


def test_the_records_of_shop_and_device_have_their_say(tmp_path: Path) -> None:
    (tmp_path / "shops").mkdir()
    (tmp_path / "shops" / "penhew-press.toml").write_text(
        'title = "Penhew Press"\nmargin_mm = 3.0\ninks = { White = "White" }\n'
        "order = { minimum = 12, pack = 50, days = 9, under_percent = 10 }\n"
        'sent_in = { spare_percent = 8.0, leftovers = "kept" }\n'
    )
    packaged = (files("addressing") / "data" / "devices.toml").read_text("utf-8")
    toner = packaged.partition("[home-toner]\n")[2].partition("\n[home-toner-white]")[0]
    (tmp_path / "devices").mkdir()
    (tmp_path / "devices" / "home-toner.toml").write_text(
        toner.replace("pause_minutes = 0", "pause_minutes = 20").replace("load = 10", "load = 25")
    )
    (tmp_path / "rates.toml").write_text(
        'currency = "USD"\nas_of = "2026-01-15"\n[labour]\nper_hour = "45.00"\n'
        '[[device]]\nname = "home-toner"\ncartridge_price = "1"\ncartridge_pages = 1\n'
        '[[shop]]\nname = "penhew-press"\nbreaks = [{ from = 1, each = "1" }]\n'
        'spoilage_percent = "5"\ndays = 3\n'
    )
    shelf = open_shelf(tmp_path)
    rates = terms_of(shelf.rates(), shelf)
    (shop,), (home,) = rates.shops, rates.homes
    assert (shop.least, shop.pack, shop.days, shop.under) == (12, 50, 9, Decimal(10))
    assert (shop.spoilage, shop.keeps) == (Decimal(8), True)
    assert (home.load, home.pause) == (25, 20)


def estimate() -> Estimate:
    """Outers at home for 10 or at a shop for 30; cards of the suite at the shop for 20."""
    places = (Place("h", "Home", (), 0, home=True), Place("s", "Shop", (), 5))
    prices = (("outer", "h", 10), ("outer", "s", 30), ("card", "s", 20))
    offers = (
        *(
            Offer(kind, key, key, home=key == "h", parts=(Part("all", Decimal(price), ""),))
            for kind, key, price in prices
        ),
        Offer("card", "h", "h", home=True, why_not="no plate"),
    )
    runs = (Run("outer", "a7", 1, 1), Run("card", "", 1, 1, static=True, suite=True))
    rates = Rates("USD", 2, "", Decimal(1), (), (), ())
    bought = (Part("liner", Decimal(3), ""),)
    return Estimate(rates, runs, offers, places, *plans(offers, places), bought=bought)


def test_a_quote_leaves_what_plan_and_suite_and_packs_do_not_take() -> None:
    asked = Quote((), Decimal(100), Decimal(0), Decimal(100), Decimal(0))
    found = estimate()
    assert margin_of(found, Docket(), asked) == 100 - 10 - 20 - 3
    assert margin_of(found, Docket(shop="s"), asked) == 100 - 30 - 20 - 3
    assert margin_of(replace(found, cheapest=None), Docket(), asked) is None


def test_the_suite_goes_with_plates_that_are_all_at_one_place() -> None:
    found = estimate()
    home, shop = found.places
    whole = found.whole_at(home)
    assert whole is not None
    assert {offer.kind: offer.place for offer in whole.offers} == {"outer": "h", "card": "s"}
    alone = found.in_one_place(home)
    assert alone is not None
    assert [offer.kind for offer in alone.offers] == ["outer"]
    both = found.whole_at(shop)
    assert both is not None
    assert both.total == 50
