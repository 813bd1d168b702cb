"""What a job costs, from the list to the plan."""

import json
import subprocess
from collections.abc import Callable
from decimal import Decimal
from pathlib import Path

import pytest
from defusedxml import ElementTree

from addressing.estimating import plans, without_each
from addressing.job.advising import advice
from addressing.job.estimating import Estimate
from addressing.records.costs import Offer, Part, Place, Rates

Ran = subprocess.CompletedProcess[str]
Run = Callable[..., Ran]
Write = Callable[..., Path]
ROW = ("Mr. Tobias Wexcombe", "14 Larkmoor Lane", "Litchfield", "CT", "06759")


def test_each_place_is_priced_or_says_why_it_can_t_print_the_job(
    addressing: Run, write_list: Write
) -> None:
    said = json.loads(addressing("estimate", write_list([ROW] * 1), "--json").stdout)
    routes = {route["place"]: route for route in said["routes"]}
    assert set(routes) == {"home-toner-white", "home-toner", "home-inkjet", "farrenby-press"}
    white = routes["home-toner-white"]
    assert white["feasible"]
    pieces = sum(piece["total"] for piece in white["pieces"])
    once = sum(part["amount"] for part in white["once"])
    assert white["total"] == pytest.approx(pieces + once)
    for piece in white["pieces"]:
        assert piece["total"] == pytest.approx(sum(part["amount"] for part in piece["parts"]))
    black = routes["home-toner"]
    assert (black["feasible"], black["total"]) == (False, None)
    assert "White" in black["why_not"]
    totals = [route["total"] for route in said["routes"] if route["feasible"]]
    assert said["cheapest"]["total"] <= min(totals)
    assert said["invented_rates"] is True


def test_twice_the_households_take_twice_the_ink(addressing: Run, write_list: Write) -> None:
    def ink(count: int) -> float:
        rows = [(f"Mr. Tobias {'ABCDEFGH'[n]}wexcombe", *ROW[1:]) for n in range(count)]
        said = json.loads(addressing("estimate", write_list(rows), "--json").stdout)
        return float(said["ink_mm2"]["inner"])

    assert ink(8) == pytest.approx(2 * ink(4), rel=0.2)


def test_a_person_reads_the_plan_and_that_the_prices_are_invented(
    addressing: Run, write_list: Write
) -> None:
    said = addressing("estimate", write_list([ROW])).stdout
    assert "Where to print" in said
    advice = said.partition("Where to print")[2].strip().splitlines()[:3]
    assert advice[0].startswith("Print everything at Toner device at home")
    assert "the next best, everything at Farrenby Press" in advice[1]
    assert advice[2].startswith("  If Toner device at home, white in the black slot is closed")
    assert "These prices are invented." in said


def test_prices_that_can_t_be_are_refused(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    path = write_list([ROW])
    (tmp_path / "rates.toml").write_text('currency = "USD"\n')
    ran = addressing("estimate", path, "--json")
    assert ran.returncode == 3
    assert '"rates-wrong"' in ran.stderr


def test_the_picture_names_every_way_and_is_of_the_job_s_own_cost(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    path = write_list([ROW])
    drawn = tmp_path / "cost.svg"
    ran = addressing("estimate", path, "--json", "--picture", drawn)
    routes = [each for each in json.loads(ran.stdout)["routes"] if each["feasible"]]
    text = drawn.read_text("utf-8")
    root = ElementTree.fromstring(text)
    words = [each.text for each in root.iter("{http://www.w3.org/2000/svg}text")]
    assert len(routes) == 2
    assert {route["title"] for route in routes} <= set(words)
    assert "this job: 1" in words


@pytest.mark.parametrize(("name", "magic"), [("c.png", b"\x89PNG"), ("c.pdf", b"%PDF")])
def test_the_picture_is_drawn_the_same_again(
    addressing: Run, write_list: Write, tmp_path: Path, name: str, magic: bytes
) -> None:
    path, drawn = write_list([ROW]), tmp_path / name
    assert addressing("estimate", path, "--picture", drawn).returncode == 0
    first = drawn.read_bytes()
    assert first.startswith(magic)
    assert addressing("estimate", path, "--picture", drawn).returncode == 0
    assert drawn.read_bytes() == first


def test_a_picture_with_another_ending_is_refused(addressing: Run, write_list: Write) -> None:
    assert addressing("estimate", write_list([ROW]), "--picture", "cost.gif").returncode == 2


def test_the_picture_goes_by_the_packs_and_the_least_order_of_the_shop(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    """At the job's own number each line stands where the estimate does; below 12 no shop's does."""
    rows = [(f"Mr. Tobias {'ABCDEFGHIJKLMNO'[n]}wexcombe", *ROW[1:]) for n in range(14)]
    path = write_list(rows)
    (tmp_path / "shops").mkdir()
    (tmp_path / "shops" / "penhew-press.toml").write_text(
        'title = "Penhew Press"\nmargin_mm = 3.0\ninks = { White = "White" }\n'
        "order = { minimum = 12, pack = 50 }\n"
    )
    (tmp_path / "rates.toml").write_text(
        'currency = "USD"\nas_of = "2026-01-15"\n[labour]\nper_hour = "45.00"\n'
        '[[shop]]\nname = "penhew-press"\nbreaks = [{ from = 1, each = "1.00" }]\n'
    )
    docket = tmp_path / "docket.toml"
    docket.write_text('[pieces]\nmake = ["outer"]\n')
    command = ("estimate", path, "--docket", docket, "--picture", tmp_path / "cost.svg")
    said = json.loads(addressing(*command, "--json").stdout)
    (route,) = said["routes"]
    assert route["total"] == 50.0
    assert route["pieces"][0]["parts"][1]["why"] == "50 at 1.00, in packs of 50"
    root = ElementTree.fromstring((tmp_path / "cost.svg").read_text("utf-8"))
    lines = [each.get("points", "") for each in root.iter("{http://www.w3.org/2000/svg}polyline")]
    longest = max(lines, key=len).split()
    assert len(longest) == 300 - 11
    assert len({point.split(",")[1] for point in longest}) == 6  # 50, 100 … 300: six steps
    assert "Penhew Press from 12 on" in addressing(*command).stdout


HOME, SHOP = "home-toner-white", "farrenby-press"


def found(prices: dict[tuple[str, str], str], days: int = 7) -> Estimate:
    """Two places, of which the shop takes `days`; what has no price can't be done there."""
    places = (
        Place(HOME, "Home", (), 0),
        Place(SHOP, "Shop", (Part("once", Decimal(5), ""),), days),
    )
    offers = tuple(
        Offer(kind, place.key, place.title, home=place.key == HOME,
              parts=(Part("all", Decimal(price), ""),))
        if (price := prices.get((kind, place.key))) is not None
        else Offer(kind, place.key, place.title, home=place.key == HOME, why_not="can't")
        for kind in ("outer", "reply")
        for place in places
    )  # fmt: skip
    rates = Rates("USD", 2, "2026-01-15", Decimal(1), (), (), ())
    cheapest, fastest = plans(offers, places)
    return Estimate(
        rates, (), offers, places, cheapest, fastest, without_each(offers, places, cheapest)
    )


@pytest.mark.parametrize(
    ("prices", "sentences"),
    [
        (
            {("outer", HOME): "10", ("reply", HOME): "9", ("outer", SHOP): "20",
             ("reply", SHOP): "2"},
            (
                ("Print outer at Home; reply at Shop: 17 USD in all, each place with its set-up,"
                " its shipping and your own time, 7 days until the shop is done."),
                "7 days sooner is everything at Home, for 2 USD more.",
                ("If Home is closed, print everything at Shop for 27 USD; if Shop is closed, print"
                " everything at Home for 19 USD."),
            ),
        ),
        (
            {("outer", HOME): "10", ("reply", HOME): "9", ("outer", SHOP): "20",
             ("reply", SHOP): "8"},
            (
                ("Print everything at Home: 19 USD in all, each place with its set-up, its shipping"
                " and your own time."),
                ("Nothing is faster; the next best, everything at Shop, costs 14 USD more and takes"
                " 7 days."),
                "If Home is closed, print everything at Shop for 33 USD.",
            ),
        ),
        (
            {("outer", HOME): "10", ("reply", HOME): "9"},
            (
                ("Print everything at Home: 19 USD in all, each place with its set-up, its shipping"
                " and your own time."),
                "Nothing is faster, and there is no other way with the places of your rates.",
                "If Home is closed, some piece has no other place.",
            ),
        ),
        ({("outer", HOME): "10", ("outer", SHOP): "9"}, ()),
    ],
)  # fmt: skip
def test_the_plan_is_told_in_three_sentences(
    prices: dict[tuple[str, str], str], sentences: tuple[str, ...]
) -> None:
    assert advice(found(prices)) == sentences
