"""What a job costs, from the list to the plan."""

import json
import subprocess
from collections.abc import Callable
from decimal import Decimal
from pathlib import Path

import pytest
from defusedxml import ElementTree

from addressing.estimating import plans, without_each
from addressing.job.advising import advice, backups
from addressing.job.estimating import Estimate
from addressing.records.costs import Offer, Part, Place
from addressing.records.rates import Rates

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


def test_three_kinds_that_a_place_can_t_print_are_told_as_a_list(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    hosts = '[hosts]\nname = "Mr. Gideon Penhew"\nstreet = "1 Larkmoor Lane"\n'
    hosts += 'city = "Litchfield"\nregion = "CT"\npostcode = "06759"\n'
    docket = tmp_path / "job.toml"
    docket.write_text(f'{hosts}[pieces]\nmake = ["outer", "inner", "return"]\n', "utf-8")
    said = addressing("estimate", write_list([ROW]), "--docket", docket).stdout
    assert "  outer, inner and return: Toner device at home can't lay down White." in said


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
                " its shipping and your own time, 7 days until all is printed."),
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
                "If Home is closed, outer and reply have no other place.",
            ),
        ),
        (
            {("outer", HOME): "10", ("reply", HOME): "9", ("outer", SHOP): "20"},
            (
                ("Print everything at Home: 19 USD in all, each place with its set-up, its shipping"
                " and your own time."),
                "Nothing is faster, and there is no other way with the places of your rates.",
                ("If Home is closed, reply has no other place, and the rest is printed at Shop for"
                " 25 USD."),
            ),
        ),
        ({("outer", HOME): "10", ("outer", SHOP): "9"}, ()),
    ],
)  # fmt: skip
def test_the_plan_is_told_in_three_sentences(
    prices: dict[tuple[str, str], str], sentences: tuple[str, ...]
) -> None:
    assert advice(found(prices)) == sentences


def test_each_piece_has_the_place_that_prints_it_when_its_own_is_closed() -> None:
    prices = {("outer", HOME): "10", ("reply", HOME): "9", ("outer", SHOP): "20",
              ("reply", SHOP): "2"}  # fmt: skip
    told = [(kind, first.key, other and other.key) for kind, first, other in backups(found(prices))]
    assert told == [("outer", HOME, SHOP), ("reply", SHOP, HOME)]
    del prices["outer", SHOP]
    told = [(kind, first.key, other and other.key) for kind, first, other in backups(found(prices))]
    assert told == [("outer", HOME, None), ("reply", SHOP, HOME)]


RATES = """
currency = "USD"
as_of = "2026-01-15"
[labour]
per_hour = "60.00"
cut_minutes_per_hundred = 60
[[paper]]
stock = "ivory"
sheet = "letter"
pack = 5
price = "2.00"
[[bought]]
name = "liner"
pack = 10
price = "6.50"
[[device]]
name = "home-toner"
cartridge_price = "100.00"
cartridge_pages = 2000
set_up_minutes = 10
adjust_minutes = 12
minutes_per_hundred = 50
[[shop]]
name = "farrenby-press"
set_up = "10.00"
breaks = [{ from = 1, each = "1.00" }]
shipping = "5.00"
rush_percent = "50"
rush_days = 2
[[shop.piece]]
name = "invitation"
set_up = "40.00"
breaks = [{ from = 1, each = "2.00" }]
minimum = "30.00"
"""
SUITE = """
[pieces]
make = ["outer"]
[[piece]]
kind = "outer"
ink = "Black"
stock = "ivory"
[overs]
percent = 0
minimum = 2
pack = 1
[[suite]]
name = "invitation"
width_mm = 127.0
height_mm = 177.8
paper = "120 lb cover"
[[suite]]
name = "liner"
paper = "70 lb text"
liner = true
[[suite]]
name = "seal"
grams = 2.0
"""


def test_the_suite_is_printed_where_it_is_priced_and_bought_where_it_comes_in_packs(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    """One household and two overs: three invitations at 2.00, but at least 30.00, and 40.00."""
    docket, path = tmp_path / "docket.toml", write_list([ROW])
    (tmp_path / "rates.toml").write_text(RATES)
    docket.write_text(SUITE)
    run = ("estimate", path, "--docket", docket)
    said = json.loads(addressing(*run, "--json").stdout)
    home, shop = said["routes"]
    assert [piece["kind"] for piece in shop["pieces"]] == ["outer"]
    invitation = next(piece for piece in said["suite"] if piece["feasible"])
    assert (invitation["place"], invitation["total"]) == ("farrenby-press", 70.0)
    assert [(part["name"], part["amount"]) for part in said["bought"]] == [("liner", 6.5)]
    assert said["unpriced"] == ["seal"]
    # Its shipping is paid for the invitations all the same, so the shop's outer costs 11.00.
    assert shop["total"] == 11.0 + 5.0
    assert said["cheapest"]["pieces"] == {
        "outer": "farrenby-press",
        "invitation": "farrenby-press",
    }
    assert said["cheapest"]["total"] == 70.0 + 11.0 + 5.0
    assert home["feasible"]
    told = addressing(*run).stdout
    assert "invitation at Farrenby Press" in told
    assert "seal: no price in your rates" in told
    assert "With what is bought for the suite: 92.50 USD." in told


def test_in_a_rush_the_shop_takes_its_days_and_its_surcharge(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    docket, path = tmp_path / "docket.toml", write_list([ROW])
    (tmp_path / "rates.toml").write_text(RATES)
    docket.write_text(SUITE)
    run = ("estimate", path, "--docket", docket, "--json")
    calm, rushed = (json.loads(addressing(*run, *more).stdout) for more in ((), ("--rush",)))
    assert [each["routes"][1]["days"] for each in (calm, rushed)] == [7, 2]
    assert rushed["routes"][1]["total"] == calm["routes"][1]["total"] + 5.5  # half of 11.00
    assert rushed["routes"][0] == calm["routes"][0]
    assert rushed["rush"] is True


def test_cards_on_sheets_are_priced_by_the_sheet_and_cut(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    docket = tmp_path / "docket.toml"
    (tmp_path / "rates.toml").write_text(RATES)
    docket.write_text(
        '[pieces]\nmake = ["place-card"]\n[[sheet]]\npiece = "place-card"\non = "letter"\n'
        "across = 2\ndown = 3\n[overs]\npercent = 0\nminimum = 0\npack = 1\n"
    )
    rows = [(f"Mr. Tobias {'ABCDEFGHIJKLM'[n]}wexcombe", *ROW[1:]) for n in range(13)]
    said = json.loads(addressing("estimate", write_list(rows), "--docket", docket, "--json").stdout)
    home = said["routes"][0]
    assert home["feasible"], home["why_not"]
    (card,) = home["pieces"]
    why = {part["name"]: part["why"] for part in card["parts"]}
    # 13 cards, six on a sheet: 3 sheets to feed and to cut.
    assert why["labour"] == "16 min: 12 to adjust, 2 to feed 3, 2 to cut 3 sheets"
    assert why["paper"].startswith("1 pack of 5 for 3")


def test_a_way_of_printing_that_a_place_hasn_t_is_why_it_can_t(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    docket = tmp_path / "docket.toml"
    docket.write_text(
        '[hosts]\nname = "Mr. Gideon Penhew"\nstreet = "1 Larkmoor Lane"\ncity = "Litchfield"\n'
        'region = "CT"\npostcode = "06759"\n[pieces]\nmake = ["outer", "return"]\n'
        '[[piece]]\nkind = "return"\nmethod = "letterpress"\n'
    )
    said = json.loads(
        addressing("estimate", write_list([ROW]), "--docket", docket, "--json").stdout
    )
    why = {route["place"]: route["why_not"] for route in said["routes"]}
    assert "doesn't print by letterpress" in why["home-toner-white"]
    assert why["farrenby-press"] is None  # it has dies for it


def test_a_die_is_priced_once_and_costs_nothing_while_it_stands(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    docket, path = tmp_path / "docket.toml", write_list([ROW])
    text = (
        '[hosts]\nname = "Mr. Gideon Penhew"\nstreet = "1 Larkmoor Lane"\ncity = "Litchfield"\n'
        'region = "CT"\npostcode = "06759"\n[pieces]\nmake = ["outer", "return"]\n'
        '[[piece]]\nkind = "return"\nmethod = "letterpress"\n'
    )
    for more, amount, words in (
        ("", 85.0, "at least 100 cm² at 0.85"),  # 100 cm² at the least, 0.85 each
        ('die_since = "2026-01-15"\n', 0.0, "kept standing since 2026-01-15, until 2027-01-15"),
    ):
        docket.write_text(text + more)
        said = json.loads(addressing("estimate", path, "--docket", docket, "--json").stdout)
        (shop,) = [each for each in said["routes"] if each["place"] == "farrenby-press"]
        dies = {
            (piece["kind"], part["amount"]): part["why"]
            for piece in shop["pieces"]
            for part in piece["parts"]
            if part["name"] == "die"
        }
        assert list(dies) == [("return", amount)]  # names that differ have no die
        assert words in dies["return", amount]


def test_what_is_wrong_with_a_price_list_is_told_in_its_place(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    path = write_list([ROW])
    wrong = (
        ('minimum = "30.00"', 'minimum = "-30.00"', "no sign"),
        ('[{ from = 1, each = "2.00" }]', '[{ from = 1, each = "2" }, { from = 1, each = "1" }]',
         "out of order"),
        ('[{ from = 1, each = "2.00" }]', '[{ from = 5, each = "2" }]', "out of order"),
        ("rush_days = 2", "", "one of the two is missing"),
        ('"USD"', '"USX"', "is no currency"),
        ('"USD"', '"usd"', "is no currency"),
    )  # fmt: skip
    for old, new, said in wrong:
        (tmp_path / "rates.toml").write_text(RATES.replace(old, new, 1))
        ran = addressing("estimate", path)
        assert ran.returncode == 3, (new, ran.stdout)
        assert said in ran.stderr


def test_a_piece_of_the_suite_is_printed_at_the_shop_that_the_docket_names_for_it(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    """The other shop is cheaper, and isn't asked."""
    (tmp_path / "shops").mkdir()
    text = 'title = "Hollin Works"\nmargin_mm = 5.0\n[inks]\nBlack = "Black"\n'
    (tmp_path / "shops" / "hollin.toml").write_text(text)
    own = '[[shop]]\nname = "hollin"\nbreaks = [{ from = 1, each = "9" }]\n[[shop.piece]]\n'
    own += 'name = "invitation"\nbreaks = [{ from = 1, each = "90" }]\n'
    (tmp_path / "rates.toml").write_text(RATES + own)
    docket, path = tmp_path / "docket.toml", write_list([ROW])
    docket.write_text(SUITE.replace('paper = "120 lb cover"', 'grams = 9.0\nshop = "hollin"'))
    said = json.loads(addressing("estimate", path, "--docket", docket, "--json").stdout)
    asked = {each["place"]: each for each in said["suite"] if each["kind"] == "invitation"}
    assert asked["hollin"]["total"] == 270.0
    assert asked["farrenby-press"]["why_not"] == (
        "The docket has invitation printed at Hollin Works."
    )
    assert said["cheapest"]["pieces"]["invitation"] == "hollin"


def test_the_answer_says_from_how_many_on_each_piece_is_cheaper_elsewhere(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    """At home one a piece, at the shop 20 and a half each: they meet at 40."""
    (tmp_path / "shops").mkdir()
    (tmp_path / "shops" / "penhew-press.toml").write_text(
        'title = "Penhew Press"\nmargin_mm = 3.0\ninks = { White = "White" }\n'
    )
    (tmp_path / "rates.toml").write_text(
        'currency = "USD"\nas_of = "2026-01-15"\n[labour]\nper_hour = "45.00"\n'
        '[[device]]\nname = "home-toner-white"\ncartridge_price = "0"\ncartridge_pages = 1\n'
        'wear = "1.00"\n'
        '[[shop]]\nname = "penhew-press"\nset_up = "20.00"\n'
        'breaks = [{ from = 1, each = "0.50" }]\n'
    )
    docket, path = tmp_path / "docket.toml", write_list([ROW])
    docket.write_text('[pieces]\nmake = ["outer"]\n')
    command = ("estimate", path, "--docket", docket)
    told = addressing(*command).stdout
    assert "Of one piece alone, up to 300" in told
    line = next(each for each in told.splitlines() if "from 41 on" in each)
    assert line.startswith("    outer")
    assert line.endswith("from 41 on Penhew Press")
    (tmp_path / "rates.toml").write_text(
        (tmp_path / "rates.toml").read_text().replace('"1.00"', '"0.10"')
    )
    assert "Of one piece alone" not in addressing(*command).stdout
