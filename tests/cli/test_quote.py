"""The client's price; the margin is for the designer alone."""

import json
import re
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest

Ran = subprocess.CompletedProcess[str]
Run = Callable[..., Ran]
Write = Callable[..., Path]
ROW = ("Mr. Tobias Wexcombe", "14 Larkmoor Lane", "Litchfield", "CT", "06759")


def test_a_quote_shows_no_margin_unless_it_is_asked_for(addressing: Run, write_list: Write) -> None:
    path = write_list([ROW])
    said = json.loads(addressing("quote", path, "--json").stdout)
    assert said["margin"] is None
    assert said["total"] == pytest.approx(said["net"] + said["tax"])
    assert "For you" not in addressing("quote", path).stdout
    shown = json.loads(addressing("quote", path, "--margin", "--json").stdout)
    cost = json.loads(addressing("estimate", path, "--json").stdout)["cheapest"]["total"]
    assert shown["margin"] == pytest.approx(said["net"] - cost)
    assert "For you" in addressing("quote", path, "--margin").stdout


def test_rates_without_fees_are_told_what_to_write(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    path = write_list([ROW])
    (tmp_path / "rates.toml").write_text(
        'currency = "USD"\nas_of = "2026-01-15"\n[labour]\nper_hour = "45"\n'
    )
    ran = addressing("quote", path, "--json")
    assert ran.returncode == 3
    assert '"fees-missing"' in ran.stderr


FEES = """currency = "USD"
as_of = "2026-01-15"
[labour]
per_hour = "45"
[fees]
pieces = { outer = "2.75", reply = "0" }
tidying = "0.50"
change = "6.00"
minimum = "0"
rush_percent = "25"
deposit_percent = "50"
tax_percent = "0"
"""
DOCKET = """[pieces]
make = ["outer", "inner", "reply"]
[hosts]
name = "Mr. and Mrs. Piers Farrenby"
street = "14 Larkmoor Lane"
city = "Litchfield"
region = "CT"
postcode = "06759"
[[suite]]
name = "menu"
grams = 5.0
"""


def test_the_columns_of_a_quote_stand_below_each_other_whatever_a_piece_is_called(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    name = "details card with a map"
    fee = f'pieces = {{ outer = "2.75", "{name}" = "1234567.50" }}'
    (tmp_path / "rates.toml").write_text(
        FEES.replace('pieces = { outer = "2.75", reply = "0" }', fee)
    )
    (tmp_path / "docket.toml").write_text(DOCKET.replace('"menu"', f'"{name}"'))
    told = addressing("quote", write_list([ROW]), "--docket", "docket.toml").stdout
    assert "Prices as of 2026-01-15, from rates.toml." in told
    rows = [line for line in told.splitlines() if line.startswith("  ")]
    ends = {re.match(r"  .*?\d+\.\d\d(?!\d)", row).end() for row in rows}  # type: ignore[union-attr]
    assert len(rows) == 5
    assert len(ends) == 1


def test_a_quote_names_what_the_rates_have_no_price_for(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    path = write_list([ROW])
    (tmp_path / "rates.toml").write_text(FEES)
    docket = tmp_path / "docket.toml"
    docket.write_text(DOCKET)
    said = json.loads(addressing("quote", path, "--docket", docket, "--json").stdout)
    assert said["unpriced"] == ["inner", "menu"]
    assert [part["name"] for part in said["parts"]] == ["outer", "list"]
    told = addressing("quote", path, "--docket", docket).stdout
    assert "Not in it: no price for inner, menu in your rates (under [fees] pieces)." in told


def test_a_fee_for_other_pieces_leaves_no_kind_that_is_made_without_a_price(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    path = write_list([ROW])
    (tmp_path / "rates.toml").write_text(FEES.replace('reply = "0"', 'other = "1.00"'))
    docket = tmp_path / "docket.toml"
    docket.write_text(DOCKET.partition("[[suite]]")[0])
    said = json.loads(addressing("quote", path, "--docket", docket, "--json").stdout)
    assert said["unpriced"] == []
    assert "no price" not in addressing("quote", path, "--docket", docket).stdout


def test_named_pieces_are_charged_without_their_overs_and_what_is_the_same_for_all_with_them(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    """One household and three overs: one outer, and four reply envelopes."""
    (tmp_path / "rates.toml").write_text(FEES.replace('reply = "0"', 'reply = "0.60"'))
    docket, path = tmp_path / "docket.toml", write_list([ROW])
    docket.write_text(DOCKET + "[overs]\npercent = 0\nminimum = 3\n")
    said = json.loads(addressing("quote", path, "--docket", docket, "--json").stdout)
    assert {part["name"]: part["why"] for part in said["parts"]} == {
        "outer": "1 at 2.75",
        "reply": "4 at 0.60",
        "list": "1 household to tidy, 0.50 each",
    }
    assert said["net"] == pytest.approx(2.75 + 4 * 0.60 + 0.50)


def test_what_is_bought_without_a_price_is_named_beside_cost_and_margin(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    prices = '[[envelopes]]\nlayout = "a1"\npack = 25\nprice = "9.00"\n'
    device = '[[device]]\nname = "home-toner-white"\ncartridge_price = "1"\ncartridge_pages = 1\n'
    (tmp_path / "rates.toml").write_text(FEES + prices + device)
    docket, path = tmp_path / "docket.toml", write_list([ROW])
    docket.write_text(DOCKET)
    said = json.loads(addressing("estimate", path, "--docket", docket, "--json").stdout)
    assert said["paper_unpriced"] == ["a7", "a7-inner"]
    assert "Not in it: a7, a7-inner" in addressing("estimate", path, "--docket", docket).stdout
    told = addressing("quote", path, "--docket", docket, "--margin").stdout
    assert "no price for isn't taken off: menu, a7, a7-inner." in told
    assert "taken off" not in addressing("quote", path, "--docket", docket).stdout
