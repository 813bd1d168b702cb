"""What a job costs, from the list to the plan."""

import json
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest
from defusedxml import ElementTree

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
    assert "Cheapest: " in said
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
