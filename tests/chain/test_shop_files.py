"""Plates made for a shop: named and parted by its rules, every household once."""

import json
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest

Ran = subprocess.CompletedProcess[str]
Run = Callable[..., Ran]
Write = Callable[..., Path]

SHOP = """\
title = "Penhew Print"
margin_mm = 6.0
inks = { White = "Penhew White" }
[files]
name = "PP_{piece}_{ink}_{part}of{parts}"
most_pages = 2
"""
DOCKET = '[shop]\nname = "penhew"\n[pieces]\nmake = ["outer", "inner"]\n'


@pytest.fixture
def docket(tmp_path: Path) -> Path:
    (tmp_path / "shops").mkdir()
    (tmp_path / "shops" / "penhew.toml").write_text(SHOP)
    path = tmp_path / "job.toml"
    path.write_text(DOCKET)
    return path


def test_plates_bear_the_shop_s_names_and_no_file_has_more_pages_than_it_takes(
    addressing: Run, write_list: Write, docket: Path
) -> None:
    assert addressing("plates", write_list(), "--docket", docket, "--json").returncode == 0
    content = json.loads(Path("guests-job/manifest.json").read_text("utf-8"))
    plates = [file for file in content["files"] if file["ink"]]
    assert [(file["path"], file["pages"]) for file in plates] == [
        ("plates/PP_outer_penhew-white_01of02.pdf", 2),
        ("plates/PP_outer_penhew-white_02of02.pdf", 1),
        ("plates/PP_inner_penhew-white_01of02.pdf", 2),
        ("plates/PP_inner_penhew-white_02of02.pdf", 1),
    ]
    outers = [key for file in plates[:2] for key in file["households"]]
    assert outers == [key for file in plates[2:] for key in file["households"]]
    assert len(set(outers)) == 3
    assert addressing("preflight", "guests-job").returncode == 0
    assert addressing("printed", "guests.csv").returncode == 0


def test_parts_are_numbered_where_the_pattern_says_nothing_of_them(
    addressing: Run, write_list: Write, docket: Path
) -> None:
    shop = docket.with_name("shops") / "penhew.toml"
    shop.write_text(SHOP.replace("_{part}of{parts}", ""))
    assert addressing("plates", write_list(), "--docket", docket, "--json").returncode == 0
    names = sorted(path.name for path in Path("guests-job/plates").iterdir())
    assert names[2:] == ["PP_outer_penhew-white-b01.pdf", "PP_outer_penhew-white-b02.pdf"]


def test_a_shop_that_does_not_print_the_ink_on_the_paper_is_told_before_anything_is_written(
    addressing: Run, write_list: Write, docket: Path
) -> None:
    shop = docket.with_name("shops") / "penhew.toml"
    shop.write_text(f'{SHOP}[[prints]]\nstocks = ["navy"]\n')
    ran = addressing("plates", write_list(), "--docket", docket, "--json")
    assert ran.returncode == 3
    assert json.loads(ran.stderr.splitlines()[-1])["fault"]["code"] == "shop-not-on-this"
    assert not Path("guests-job").exists()


def test_an_order_below_the_shop_s_least_is_no_offer(
    addressing: Run, write_list: Write, docket: Path
) -> None:
    text = Path(__file__).resolve().parents[2] / "addressing" / "data" / "rates.toml"
    rates = text.read_text("utf-8").replace("farrenby-press", "penhew")
    docket.with_name("rates.toml").write_text(rates)
    shop = docket.with_name("shops") / "penhew.toml"
    shop.write_text(f"{SHOP}[order]\nminimum = 50\n")
    said = json.loads(addressing("estimate", write_list(), "--docket", docket, "--json").stdout)
    routes = [route for route in said["routes"] if "penhew" in json.dumps(route)]
    assert routes
    assert all("takes orders of 50 and more" in json.dumps(route) for route in routes)
