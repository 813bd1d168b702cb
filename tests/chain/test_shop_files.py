"""Plates made for a shop: named and parted by its rules, every household once."""

import json
import subprocess
import zipfile
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pikepdf
import pypdfium2 as pdfium
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


def test_a_base_goes_by_the_shop_s_rules_too(
    addressing: Run, write_list: Write, docket: Path
) -> None:
    shop = docket.with_name("shops") / "penhew.toml"
    shop.write_text(
        SHOP.replace("inks = {", 'inks = { Gold = "Penhew Gold",')
        + '[[prints]]\ninks = ["Gold"]\n[[prints]]\ninks = ["White"]\nstocks = ["navy"]\n'
    )
    docket.write_text(
        '[shop]\nname = "penhew"\n[pieces]\nmake = ["outer"]\n'
        '[[piece]]\nkind = "outer"\nink = "Gold"\nunderbase = "White"\nstock = "deep-green"\n'
    )
    ran = addressing("plates", write_list(), "--docket", docket, "--json")
    fault = json.loads(ran.stderr.splitlines()[-1])["fault"]
    assert (ran.returncode, fault["code"]) == (3, "shop-not-on-this")
    assert "White on deep-green" in fault["text"]
    docket.write_text(docket.read_text().replace("deep-green", "navy"))
    assert addressing("plates", write_list(), "--docket", docket, "--json").returncode == 0


def test_fewer_than_the_shop_takes_are_told_with_the_plates_and_on_the_ticket(
    addressing: Run, write_list: Write, docket: Path
) -> None:
    shop = docket.with_name("shops") / "penhew.toml"
    shop.write_text(f"{SHOP}[order]\nminimum = 4\n")
    arguments = (write_list(), "--docket", docket)
    said = json.loads(addressing("plates", *arguments, "--json").stdout)
    told = [note["text"] for note in said["notes"] if note["code"] == "order-small"]
    assert told == [
        f"Penhew Print takes 4 of a kind at least; the {kind} plates have 3."
        for kind in ("outer", "inner")
    ]
    assert addressing("package", *arguments).returncode == 0
    with zipfile.ZipFile("guests-job/for-penhew.zip") as package:
        ticket = package.read("job-ticket.pdf")
    with closing(pdfium.PdfDocument(ticket)) as pages:
        words = " ".join(pages[0].get_textpage().get_text_range().split())
    assert "Outer: 3 of the 4 that are the least: to be agreed." in words
    shop.write_text(f"{SHOP}[order]\nminimum = 3\n")
    said = json.loads(addressing("plates", *arguments, "--json").stdout)
    assert not [note for note in said["notes"] if note["code"] == "order-small"]


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


X4 = 'standard = "pdf/x-4"\ncondition = "FOGRA51"\nprofile = "press.icc"\nbleed_mm = 3.175\n'


def press_profile() -> bytes:
    """The header of a press's ICC profile (ICC.1:2010, 7.2); no profile may be shipped."""
    header = bytearray(132)
    header[0:4], header[8:12] = (132).to_bytes(4, "big"), b"\x02\x10\x00\x00"
    header[12:16], header[16:20], header[36:40] = b"prtr", b"CMYK", b"acsp"
    return bytes(header)


def test_a_shop_that_wants_x_4_gets_it_dated_and_with_its_profile(
    addressing: Run, write_list: Write, docket: Path
) -> None:
    shops = docket.with_name("shops")
    (shops / "press.icc").write_bytes(press_profile())
    (shops / "penhew.toml").write_text(SHOP + X4)
    arguments = (write_list(), "--docket", docket)
    ran = addressing("plates", *arguments, "--json")
    assert ran.returncode == 3
    assert json.loads(ran.stderr.splitlines()[-1])["fault"]["code"] == "date-missing"
    docket.write_text(f'[job]\ndate = "2026-03-10"\n{DOCKET}')
    assert addressing("plates", *arguments, "--json").returncode == 0
    plate = Path("guests-job/plates/PP_outer_penhew-white_01of02.pdf")
    with pikepdf.open(plate) as pdf:
        intent = pdf.Root.OutputIntents[0]
        assert intent.DestOutputProfile.read_bytes() == press_profile()
        assert [float(edge) for edge in pdf.pages[0].trimbox] == [9, 9, 531, 387]
    (shops / "press.icc").unlink()
    assert addressing("preflight", "guests-job").returncode == 0
    ran = addressing("plates", *arguments, "--json")
    assert ran.returncode == 3
    assert json.loads(ran.stderr.splitlines()[-1])["fault"]["code"] == "shop-wrong"


def test_a_long_ink_s_name_does_not_outgrow_what_file_systems_take(
    addressing: Run, write_list: Write, docket: Path
) -> None:
    shop = docket.with_name("shops") / "penhew.toml"
    shop.write_text(SHOP.replace("Penhew White", "Penhew White " * 20 + "Deep"))
    arguments = (write_list(), "--docket", docket)
    assert addressing("plates", *arguments, "--json").returncode == 0
    assert addressing("package", *arguments).returncode == 0
