"""The whole run with names in one ink and addresses in another."""

import json
import re
from collections.abc import Callable
from pathlib import Path
from types import ModuleType
from typing import Any

DOCKET = """
[[piece]]
kind = "outer"
[piece.address]
ink = "Gold"
[[piece]]
kind = "inner"
[piece.address]
ink = "Gold"
"""
Run = Callable[..., Any]
GIVEN = ("--docket", "docket.toml")


def made(addressing: Run, path: Path, folder: Path, docket: str = DOCKET) -> list[dict[str, Any]]:
    (folder / "docket.toml").write_text(docket)
    assert addressing("plates", path, *GIVEN).returncode == 0
    content = json.loads((folder / "guests-job" / "manifest.json").read_text("utf-8"))
    return [file for file in content["files"] if file["ink"]]


def test_two_inks_are_two_plates_with_the_same_pages_and_count_as_one_piece(
    addressing: Run, write_list: Callable[..., Path], tmp_path: Path
) -> None:
    path = write_list()
    white, gold, inner = made(addressing, path, tmp_path)
    assert [file["path"] for file in (white, gold, inner)] == [
        "plates/01-outer-white.pdf",
        "plates/02-outer-gold.pdf",
        "plates/03-inner-white.pdf",  # nothing on it is in gold: no plate
    ]
    for key in ("households", "names", "prints", "pages", "width_mm", "height_mm", "copies"):
        assert white[key] == gold[key]
    tally = json.loads(addressing("tally", path, *GIVEN, "--json").stdout)
    assert tally["pieces"]["outer"]["needed"] == len(white["households"]) == 3
    assert addressing("preflight", "guests-job").returncode == 0


def test_another_ink_of_the_address_calls_for_new_prints_of_outers_alone(
    addressing: Run, write_list: Callable[..., Path], tmp_path: Path
) -> None:
    path = write_list()
    white, gold, inner = made(addressing, path, tmp_path)
    others = made(addressing, path, tmp_path, DOCKET.replace("Gold", "Silver"))
    assert [file["ink"] for file in others] == ["White", "Silver", "White"]
    assert set(others[0]["prints"]).isdisjoint(white["prints"])
    assert set(others[1]["prints"]).isdisjoint(gold["prints"])
    assert others[2]["prints"] == inner["prints"]


def test_an_envelope_that_is_spoiled_in_one_ink_is_due_in_both(
    addressing: Run, write_list: Callable[..., Path], tmp_path: Path
) -> None:
    path = write_list()
    made(addressing, path, tmp_path)
    assert addressing("printed", path).returncode == 0
    told = json.loads(addressing("spoiled", path, "Grayling", "--json").stdout)["prints"]
    assert [(one["run"], one["page"]) for one in told] == [(1, 2), (2, 2)]
    again = json.loads(addressing("reprint", path, *GIVEN, "--json").stdout)
    due = [(each["kind"], each["ink"]) for each in again["ledger"]["due"]]
    assert due == [("outer", "White"), ("outer", "Gold")]
    manifest = json.loads(
        (tmp_path / "guests-job" / "reprint-01" / "manifest.json").read_text("utf-8")
    )
    assert [file["pages"] for file in manifest["files"] if file["ink"]] == [1, 1]


def test_a_page_that_is_spoiled_in_the_last_ink_is_spoiled_in_the_first_too(
    addressing: Run, write_list: Callable[..., Path], tmp_path: Path
) -> None:
    path = write_list()
    made(addressing, path, tmp_path)
    addressing("printed", path)
    told = json.loads(addressing("spoiled", path, "2", "--json").stdout)["prints"]
    assert [(one["run"], one["page"], one["state"]) for one in told] == [
        (1, 2, "spoiled"), (2, 2, "spoiled"),
    ]  # fmt: skip


def test_a_batch_in_two_inks_is_noted_pass_by_pass(
    addressing: Run, write_list: Callable[..., Path], tmp_path: Path
) -> None:
    path = write_list()
    made(addressing, path, tmp_path)

    def due() -> set[str]:
        told = json.loads(addressing("ledger", path, *GIVEN, "--json").stdout)["due"]
        return {each["ink"] for each in told if each["kind"] == "outer"}

    outer = ("--batch", "1", "--kind", "outer")
    both = addressing("printed", path, *outer)
    assert both.returncode == 2
    assert "goes through once for each ink: in White (plates/01-outer-white.pdf)" in both.stderr
    first = addressing("printed", path, *outer, "--ink", "white", "--json")
    assert [one["path"] for one in json.loads(first.stdout)["printed"]] == [
        "plates/01-outer-white.pdf"
    ]
    assert due() == {"Gold"}
    none = addressing("printed", path, "--ink", "Silver")
    assert none.returncode == 2
    assert "White and Gold" in none.stderr
    assert addressing("printed", path, "--ink", "Gold").returncode == 0
    assert not due()


def test_two_inks_go_through_twice_and_cost_so(
    addressing: Run, write_list: Callable[..., Path], tmp_path: Path
) -> None:
    path = write_list()

    def parts(docket: str) -> dict[str, dict[str, str]]:
        (tmp_path / "docket.toml").write_text(docket)
        told = json.loads(addressing("estimate", path, *GIVEN, "--json").stdout)
        (shop, *_) = [
            route
            for route in told["routes"]
            if any(part["name"] == "set-up" and "plate" in part["why"] for part in parts_of(route))
        ]
        return {part["name"]: part for part in parts_of(shop)}

    one = parts('[[piece]]\nkind = "outer"\n[pieces]\nmake = ["outer"]\n')
    two = parts(DOCKET + '[pieces]\nmake = ["outer"]\n')
    for name in ("set-up", "printing"):
        assert float(two[name]["amount"]) == 2 * float(one[name]["amount"])


def parts_of(route: dict[str, Any]) -> list[dict[str, str]]:
    return [part for each in route["pieces"] for part in each["parts"]]


def test_a_moved_line_is_quoted_as_the_plate_s_own(
    addressing: Run, write_list: Callable[..., Path], tmp_path: Path, taken_apart: ModuleType
) -> None:
    made(addressing, write_list(), tmp_path)
    path = tmp_path / "guests-job" / "plates" / "02-outer-gold.pdf"
    plate = taken_apart.Plate(path)

    def moved(drawn: bytes) -> bytes:
        return re.sub(rb"(q \S+ 0 0 \S+ )(\S+)", lambda m: m[1] + b"99.5", drawn, count=1)

    plate.redraw(plate.contents(1), moved)
    plate.write()
    said = " ".join(addressing("preflight", path).stdout.split())
    found = re.search(r"has line 1 \(“([^”]+)”\) [0-9.]+ mm aside from its place", said)
    assert found is not None, said
    assert found[1][0].isdigit(), found[1]  # a street, no name
