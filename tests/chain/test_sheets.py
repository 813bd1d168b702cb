"""Cards on sheets, from the docket to the proved plate, and what programs are told of them."""

import json
import subprocess
import zipfile
from collections.abc import Callable
from contextlib import closing
from pathlib import Path
from typing import Any

import pikepdf
import pypdfium2 as pdfium
import pytest

Ran = subprocess.CompletedProcess[str]
Run = Callable[..., Ran]
Write = Callable[..., Path]

DOCKET = """\
[job]
date = "2026-03-10"
[hosts]
name = "Mrs. Odile Larkmoor"
street = "48 Larkmoor Lane"
city = "Litchfield"
region = "CT"
postcode = "06759"
[pieces]
make = ["place-card", "reply"]
[[sheet]]
piece = "place-card"
on = "letter"
across = 1
down = 2
[[sheet]]
piece = "reply"
on = "tabloid"
gutter_mm = 6.0
"""


@pytest.fixture
def arguments(write_list: Write, tmp_path: Path) -> tuple[str, ...]:
    (tmp_path / "job.toml").write_text(DOCKET)
    return str(write_list()), "--docket", "job.toml"


def plates_of(addressing: Run, arguments: tuple[str, ...]) -> list[dict[str, Any]]:
    assert addressing("plates", *arguments, "--json").returncode == 0
    content = json.loads(Path("guests-job/manifest.json").read_text("utf-8"))
    return [file for file in content["files"] if file["ink"]]


def test_cards_share_sheets_and_each_is_on_one(addressing: Run, arguments: tuple[str, ...]) -> None:
    cards, replies = plates_of(addressing, arguments)
    # three households are four guests: four cards, two up, on two letter sheets
    assert (cards["pages"], cards["up"], len(set(cards["households"]))) == (2, 2, 4)
    assert (cards["width_mm"], cards["height_mm"]) == (215.9, 279.4)
    # 3 + 10 replies of 130.175 by 92.075 mm, four up on 279.4 by 431.8 mm: four sheets
    assert (replies["pages"], replies["up"], replies["copies"]) == (1, 4, 4)
    for plate in (cards, replies):
        with pikepdf.open(Path("guests-job") / plate["path"]) as pdf:
            assert len(pdf.pages) == plate["pages"]
    assert addressing("preflight", "guests-job").returncode == 0


def test_the_same_docket_gives_the_same_sheets(addressing: Run, arguments: tuple[str, ...]) -> None:
    first = [plate["sha256"] for plate in plates_of(addressing, arguments)]
    assert [plate["sha256"] for plate in plates_of(addressing, arguments)] == first


def test_a_shop_is_told_how_many_pieces_come_of_the_sheets(
    addressing: Run, arguments: tuple[str, ...], tmp_path: Path
) -> None:
    (tmp_path / "job.toml").write_text(f'{DOCKET}[shop]\nname = "farrenby-press"\n')
    plates_of(addressing, arguments)
    ran = addressing("package", *arguments, "--json")
    assert ran.returncode == 0, ran.stderr
    with zipfile.ZipFile(json.loads(ran.stdout)["package"]) as package:
        rows = [line.split("\t") for line in package.read("data.tsv").decode().splitlines()[1:]]
        sent = package.read("envelopes-sent-in.pdf")
    assert [row[1] for row in rows] == ["1", "2", "1", "2", "1"]
    with closing(pdfium.PdfDocument(sent)) as document:
        said = " ".join(document[0].get_textpage().get_text_range().split())
    # two letter sheets and one spare, four tabloid sheets and one spare (5 % of each, rounded up)
    assert "Place card, sheets 8½ × 11 in. (215.9 × 279.4 mm) Ivory 2 1 1 3" in said
    assert "4 1 1 5" in said


def test_a_sheet_that_the_device_does_not_take_is_refused(
    addressing: Run, arguments: tuple[str, ...], tmp_path: Path
) -> None:
    docket = DOCKET.replace(', "reply"', "").replace('"letter"', '"tabloid"')
    (tmp_path / "job.toml").write_text(f'{docket}[device]\nname = "home-toner"\n')
    ran = addressing("plates", *arguments, "--json")
    fault = json.loads(ran.stderr.splitlines()[-1])["fault"]
    assert (ran.returncode, fault["code"]) == (3, "sheet-not-fed")
    assert "US Tabloid" in fault["text"]


WRONG = {
    "a piece that is none": ('piece = "reply"', 'piece = "replly"', "Did you mean reply"),
    "a sheet that nobody knows": ('"tabloid"', '"tabloyd"', "Did you mean tabloid?"),
    "twice the same piece": ('piece = "reply"', 'piece = "place-card"', "is there twice"),
    "no margin for marks": ("gutter_mm = 6.0", "margin_mm = 2.0", "margin_mm"),
    "more than there is room for": ("gutter_mm = 6.0", "across = 9", "there is room for"),
    "a fold beyond the card": ("gutter_mm = 6.0", "folds_mm = [200.0]", "beyond the card"),
}


@pytest.mark.parametrize("wrong", WRONG)
def test_a_docket_that_asks_for_wrong_sheets_is_told(
    wrong: str, addressing: Run, arguments: tuple[str, ...], tmp_path: Path
) -> None:
    was, now, told = WRONG[wrong]
    assert was in DOCKET
    (tmp_path / "job.toml").write_text(DOCKET.replace(was, now))
    ran = addressing("plates", *arguments, "--json")
    assert ran.returncode == 3
    assert told in ran.stderr


def test_at_home_a_batch_is_of_the_device_s_sheets_and_has_its_slip(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    # three cards a sheet, batches of one sheet: four cards are two batches, of 3 and of 1
    (tmp_path / "job.toml").write_text(
        '[pieces]\nmake = ["place-card"]\n[device]\nname = "home-toner"\n[print]\nbatch = 1\n'
        '[[sheet]]\npiece = "place-card"\nacross = 1\ndown = 3\n'
    )
    ran = addressing("plates", write_list(), "--docket", "job.toml", "--json")
    assert ran.returncode == 0, ran.stderr
    content = json.loads(Path("guests-job/manifest.json").read_text("utf-8"))
    plates = [file for file in content["files"] if file["ink"]]
    assert [(len(file["households"]), file["pages"], file["first"]) for file in plates] == [
        (3, 1, 1), (1, 1, 4),
    ]  # fmt: skip
    assert Path("guests-job/slips.pdf").is_file()
    with closing(pdfium.PdfDocument("guests-job/job-sheet.pdf")) as sheet:
        told = " ".join(" ".join(page.get_textpage().get_text_range() for page in sheet).split())
    assert "2 sheets in 2 files, each a pile of its own" in told
    assert "--from 4 --kind place-card" in told
    assert "the flap on the left" not in told
    assert addressing("preflight", "guests-job").returncode == 0
    assert addressing("printed", "guests.csv").returncode == 0


def test_without_a_margin_cards_keep_to_what_the_device_can_print(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    devices = tmp_path / "devices"
    devices.mkdir()
    (devices / "wide-edge.toml").write_text(
        'title = "Wide of edge"\nmethod = "toner"\nmargin_mm = 5.0\nload = 10\n'
        "edges_mm = { lead = 14.0, trail = 14.0, left = 5.0, right = 5.0 }\n"
        'smallest_mm = [76.2, 127.0]\nlargest_mm = [215.9, 355.6]\ninks = ["Black"]\n'
        'sheets = ["letter"]\n'
    )
    write_list()
    made = '[pieces]\nmake = ["place-card"]\n[[sheet]]\npiece = "place-card"\n'
    ups = {}
    for device in ("home-toner", "wide-edge"):
        (tmp_path / "job.toml").write_text(f'{made}[device]\nname = "{device}"\n')
        ran = addressing("plates", "guests.csv", "--docket", "job.toml", "--to", device, "--json")
        assert ran.returncode == 0, ran.stderr
        content = json.loads(Path(device, "manifest.json").read_text("utf-8"))
        ups[device] = next(file["up"] for file in content["files"] if file["ink"])
    assert ups == {"home-toner": 10, "wide-edge": 8}


SHARED = """\
[hosts]
name = "Mrs. Odile Larkmoor"
street = "48 Larkmoor Lane"
city = "Litchfield"
region = "CT"
postcode = "06759"
[pieces]
make = ["place-card", "escort-card", "reply"]
[[piece]]
kind = "place-card"
ink = "Gold"
[[piece]]
kind = "escort-card"
ink = "Gold"
stock = "ivory"
[[sheet]]
piece = "place-card"
"""
BESIDE = 'piece = "place-card"\nbeside = [{ piece = "escort-card" }]\n'
BEHIND = 'piece = "place-card"\nbehind = "escort-card"\nturned = true\n'
SHEET = 'piece = "place-card"\n'
PLACE = 'kind = "place-card"\nink = "Gold"\n'
ESCORT = 'kind = "escort-card"\nink = "Gold"\n'
UNLIKE: dict[str, tuple[tuple[tuple[str, str], ...], str]] = {
    "a turn without backs": (((SHEET, f'{SHEET}turn = "work-and-tumble"\n'),), "these have none"),
    "backs in two ways": (((SHEET, f"{BEHIND}back = true\n"),), "have the sheet to themselves"),
    "a front without its back": (
        ((SHEET, BEHIND), (', "escort-card"', "")), "are front and back, and escort-card isn't made"
    ),
    "two papers": (((SHEET, BESIDE), ('"ivory"', '"kraft"')), "they are on Ivory and Kraft"),
    "two inks": (
        ((SHEET, BESIDE), (ESCORT, ESCORT.replace("Gold", "Navy"))), "they are in Gold and Navy"
    ),
    "two hands": (((SHEET, BESIDE), (ESCORT, f'{ESCORT}face = "eb-garamond"\n')), "lettered in"),
    "a base under one": (
        ((SHEET, BESIDE), (ESCORT, f'{ESCORT}underbase = "White"\n')), "can't share a plate"
    ),
    "varnish on one": (
        ((SHEET, BESIDE), (ESCORT, f'{ESCORT}varnish = "names"\n')), "and Gold with Spot Varnish"
    ),
    "varnish over other lines": (
        (
            (SHEET, BESIDE),
            (ESCORT, f'{ESCORT}varnish = "all"\n'),
            (PLACE, f'{PLACE}varnish = "names"\n'),
        ),
        "have a varnish over other lines",
    ),
    "fronts alike, backs not": (
        (
            (SHEET, 'piece = "reply"\nbehind = "place-card"\n'),
            (PLACE, f'kind = "reply"\nink = "Gold"\nstock = "ivory"\n[[piece]]\n{PLACE}'),
        ),
        "the fronts are the same for all, the backs aren't",
    ),
}  # fmt: skip


@pytest.mark.parametrize("unlike", UNLIKE)
def test_kinds_that_can_t_share_a_sheet_are_told_why(
    unlike: str, addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    changes, told = UNLIKE[unlike]
    docket = SHARED
    for was, now in changes:
        assert was in docket
        docket = docket.replace(was, now)
    (tmp_path / "job.toml").write_text(docket)
    ran = addressing("check", write_list(), "--docket", "job.toml", "--json")
    assert (ran.returncode, ran.stdout) == (3, "")
    assert told in json.loads(ran.stderr.splitlines()[-1])["fault"]["text"]


def test_kinds_that_are_alike_share_a_sheet(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    for now in (SHEET, BESIDE, BEHIND):
        (tmp_path / "job.toml").write_text(SHARED.replace(SHEET, now))
        ran = addressing("check", write_list(), "--docket", "job.toml", "--json")
        assert ran.returncode == 0, ran.stderr
