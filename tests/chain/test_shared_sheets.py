"""Kinds on one sheet, from the docket to the ledger: beside each other, and front and back."""

import json
import re
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

HOSTS = """\
[job]
date = "2026-03-10"
[hosts]
name = "Mrs. Odile Larkmoor"
street = "48 Larkmoor Lane"
city = "Litchfield"
region = "CT"
postcode = "06759"
"""
BESIDE = f"""{HOSTS}
[pieces]
make = ["place-card", "escort-card"]
[[piece]]
kind = "place-card"
face = "great-vibes"
[[piece]]
kind = "escort-card"
face = "great-vibes"
[[sheet]]
piece = "place-card"
across = 1
down = 2
beside = [{{ piece = "escort-card", across = 1 }}]
"""
POSTCARD = """\
title = "Reply postcard"
width_mm = 114.3
height_mm = 88.9
safe_mm = 4.0
source = "made up"
[flap]
shape = "none"
depth_mm = 0.0
[zones.reply-number]
left_mm = 88.0
bottom_mm = 6.0
width_mm = 19.0
height_mm = 6.0
align = "right"
valign = "bottom"
[zones.reply]
left_mm = 17.0
bottom_mm = 20.0
width_mm = 80.0
height_mm = 45.0
"""
POSTCARDS = f"""{HOSTS}
[pieces]
make = ["reply-number", "reply"]
[[piece]]
kind = "reply-number"
layout = "postcard"
face = "eb-garamond"
ink = "Black"
stock = "ivory"
[[piece]]
kind = "reply"
layout = "postcard"
face = "eb-garamond"
ink = "Black"
stock = "ivory"
[[sheet]]
piece = "reply-number"
turned = true
down = 1
behind = "reply"
"""
ROWS = [
    ("Mr. and Mrs. Tobias Penhew", "14 Larkmoor Lane", "Litchfield", "CT", "06759", "4"),
    ("Ms. Ottoline Grayling", "431 Weathervane Drive", "Bar Harbor", "ME", "04609", "2"),
    ("Dr. Ingrid Halvorsby", "1440 Birchbark Trail", "Duluth", "MN", "55802", "4"),
]


@pytest.fixture
def guests(tmp_path: Path) -> Path:
    path = tmp_path / "guests.csv"
    rows = [("Name", "Street", "City", "State", "ZIP", "Table"), *ROWS]
    path.write_text("".join(",".join(row) + "\n" for row in rows), encoding="utf-8")
    (tmp_path / "layouts").mkdir()
    (tmp_path / "layouts" / "postcard.toml").write_text(POSTCARD, encoding="utf-8")
    return path


def plates_of(addressing: Run, guests: Path, docket: str) -> list[dict[str, Any]]:
    Path("job.toml").write_text(docket, encoding="utf-8")
    ran = addressing("plates", guests, "--docket", "job.toml", "--json")
    assert ran.returncode == 0, ran.stderr
    content = json.loads(Path("guests-job/manifest.json").read_text("utf-8"))
    return [file for file in content["files"] if file["ink"]]


def fault_of(addressing: Run, guests: Path, docket: str) -> tuple[int, str, str]:
    Path("job.toml").write_text(docket, encoding="utf-8")
    ran = addressing("plates", guests, "--docket", "job.toml", "--json")
    fault = json.loads(ran.stderr.splitlines()[-1])["fault"]
    return ran.returncode, fault["code"], fault["text"]


def test_two_kinds_are_on_one_plate_and_each_is_kept_count_of(
    addressing: Run, guests: Path
) -> None:
    place, escort = plates_of(addressing, guests, BESIDE)
    assert place["path"] == escort["path"] == "plates/01-place-card-escort-card-black.pdf"
    assert place["sha256"] == escort["sha256"]
    # four guests two up, three parties one up: three sheets
    assert [(each["kind"], len(each["households"]), each["pages"]) for each in (place, escort)] == [
        ("place-card", 4, 3), ("escort-card", 3, 3),
    ]  # fmt: skip
    with pikepdf.open(Path("guests-job") / place["path"]) as pdf:
        assert len(pdf.pages) == 3
    told = json.loads(addressing("preflight", "guests-job", "--json").stdout)
    assert [plate["proved"] for plate in told["plates"]] == [True]
    assert told["plates"][0]["counted"]["cards"] == 7
    assert told["orders"][0]["proved"]
    assert addressing("printed", guests).returncode == 0
    good = json.loads(addressing("ledger", guests, "--docket", "job.toml", "--json").stdout)
    assert (len(good["good"]), good["due"]) == (7, [])


def test_a_shared_plate_is_told_once_with_all_that_is_on_it(addressing: Run, guests: Path) -> None:
    plates_of(addressing, guests, BESIDE)
    said = addressing("plates", guests, "--docket", "job.toml").stdout
    (line,) = (line for line in said.splitlines() if "place-card-escort-card" in line)
    assert "4 cards (place-card) and 3 cards (escort-card) on 3 sheets" in line


def test_kinds_on_one_sheet_are_noted_together_and_once_whichever_is_named(
    addressing: Run, guests: Path
) -> None:
    plates_of(addressing, guests, BESIDE)
    ran = addressing("printed", guests, "--kind", "place-card")
    assert "3 pages on paper, place-card and escort-card together" in ran.stdout
    twice = addressing("printed", guests, "--kind", "escort-card")
    assert (twice.returncode, "--again" in twice.stderr) == (2, True)
    told = json.loads(addressing("ledger", guests, "--docket", "job.toml", "--json").stdout)
    assert ([each["kind"] for each in told["good"]], told["due"]) == (
        ["place-card"] * 4 + ["escort-card"] * 3, [],
    )  # fmt: skip


def test_a_wrong_numbered_card_is_not_said_to_tell_of_a_guest(
    addressing: Run, guests: Path
) -> None:
    plates_of(addressing, guests, POSTCARDS)
    addressing("printed", guests)
    docket = Path("job.toml")
    docket.write_text(POSTCARDS.replace("eb-garamond", "cormorant-garamond"))
    told = addressing("ledger", guests, "--docket", docket).stdout
    assert "Wrong by now: take out and destroy\n" in told
    plates_of(addressing, guests, BESIDE)
    addressing("printed", guests)
    docket.write_text(BESIDE.replace("great-vibes", "eb-garamond"))
    told = addressing("ledger", guests, "--docket", docket).stdout
    assert "destroy, they carry a guest's name\n" in told


def test_fronts_and_backs_are_printed_by_one_plate_and_packed_once(
    addressing: Run, guests: Path
) -> None:
    docket = f'{POSTCARDS}[shop]\nname = "farrenby-press"\n'
    front, back = plates_of(addressing, guests, docket)
    # a letter sheet on its side, one postcard on each half: two a sheet, three need two sheets
    assert (front["pages"], back["pages"]) == (4, 4)
    assert (front["kind"], front["path"]) == ("reply-number", back["path"])
    assert addressing("preflight", "guests-job").returncode == 0
    ran = addressing("package", guests, "--docket", "job.toml", "--json")
    assert ran.returncode == 0, ran.stderr
    with zipfile.ZipFile(json.loads(ran.stdout)["package"]) as package:
        assert sum(name.startswith("plates/") for name in package.namelist()) == 1
    assert addressing("printed", guests).returncode == 0
    assert addressing("spoiled", guests, "2", "--kind", "reply-number").returncode == 0
    again = json.loads(addressing("reprint", guests, "--docket", "job.toml", "--json").stdout)
    assert [(each["kind"], each["pages"]) for each in again["plates"]] == [
        ("reply-number", 2), ("reply", 2),
    ]  # fmt: skip


def test_batches_of_shared_sheets_have_their_backs_each(addressing: Run, guests: Path) -> None:
    docket = f'{POSTCARDS}[device]\nname = "home-toner"\n[print]\nbatch = 2\n'
    plates = plates_of(addressing, guests, docket)
    assert [(each["kind"], each["pages"]) for each in plates] == [
        ("reply-number", 2), ("reply-number", 2), ("reply", 2), ("reply", 2),
    ]  # fmt: skip
    assert addressing("preflight", "guests-job").returncode == 0
    assert addressing("printed", guests, "--batch", 1).returncode == 0
    ran = addressing("plates", guests, "--docket", "job.toml", "--json", "--from", 2, "--kind",
                     "reply-number")  # fmt: skip
    assert ran.returncode == 0, ran.stderr
    (place,) = Path("guests-job").glob("*-002-reply-number")  # fronts with their backs
    content = json.loads((place / "manifest.json").read_text("utf-8"))
    files = [file for file in content["files"] if file["ink"]]
    assert {file["kind"] for file in files} == {"reply-number", "reply"}
    assert sum(len(file["households"]) for file in files) == 2
    assert addressing("preflight", place).returncode == 0


def test_of_kinds_beside_each_other_one_goes_on_by_its_own_numbers_in_its_own_places(
    addressing: Run, guests: Path
) -> None:
    plates_of(addressing, guests, f'{BESIDE}[device]\nname = "home-toner"\n')
    ran = addressing("plates", guests, "--docket", "job.toml", "--json", "--from", 2, "--kind",
                     "place-card")  # fmt: skip
    assert ran.returncode == 0, ran.stderr
    (place,) = Path("guests-job").glob("*-002-place-card")
    content = json.loads((place / "manifest.json").read_text("utf-8"))
    (file,) = [file for file in content["files"] if file["ink"]]
    assert (file["kind"], len(file["households"]), file["first"]) == ("place-card", 3, 2)
    assert addressing("preflight", place).returncode == 0
    assert lines_at(place / file["path"]) <= lines_at(Path("guests-job") / BESIDE_PLATE)


BESIDE_PLATE = "plates/01-place-card-escort-card-black.pdf"


def lines_at(plate: Path) -> set[tuple[int, int]]:
    """Where lines begin on any page of a plate but those of the foot, to a tenth of a point."""
    with pikepdf.open(plate) as pdf:
        steps = b"".join(page.Contents.read_bytes() for page in pdf.pages)
    placed = re.findall(rb"q (\S+) \S+ \S+ \S+ (\S+) (\S+) cm", steps)
    largest = max(float(size) for size, _, _ in placed)
    return {(round(float(x)), round(float(y))) for size, x, y in placed if float(size) == largest}


ALIKE = f"""{HOSTS}
[pieces]
make = ["place-card", "reply"]
[[piece]]
kind = "place-card"
face = "eb-garamond"
ink = "Black"
stock = "ivory"
[[piece]]
kind = "reply"
layout = "postcard"
face = "eb-garamond"
ink = "Black"
stock = "ivory"
[[sheet]]
piece = "reply"
across = 1
down = 1
beside = [{{ piece = "place-card", across = 2 }}]
[overs]
percent = 0
minimum = 2
"""


def test_what_is_the_same_for_all_stands_on_every_sheet_beside_cards_with_names(
    addressing: Run, guests: Path
) -> None:
    card, reply = plates_of(addressing, guests, ALIKE)
    assert card["path"] == reply["path"] == "plates/01-place-card-reply-black.pdf"
    # four cards two up would be two sheets; three replies and two overs are wanted, one a sheet
    assert (card["pages"], reply["pages"], reply["copies"]) == (5, 5, 1)
    with closing(pdfium.PdfDocument(Path("guests-job") / card["path"])) as document:
        inked = [page.render(scale=0.5).to_numpy() for page in document]
    upper = [int((each[: len(each) // 2] < 128).sum()) for each in inked]
    assert min(upper) > 0
    assert addressing("preflight", "guests-job").returncode == 0
    tampered = Path("guests-job") / card["path"]
    with pikepdf.open(tampered, allow_overwriting_input=True) as pdf:
        del pdf.pages[-1]
        pdf.save(tampered)
    assert addressing("preflight", "guests-job").returncode == 5


def test_a_reprint_of_cards_beside_what_is_the_same_for_all_leaves_that_out(
    addressing: Run, guests: Path
) -> None:
    plates_of(addressing, guests, ALIKE)
    assert addressing("printed", guests).returncode == 0
    assert addressing("spoiled", guests, "print:2", "--kind", "place-card").returncode == 0
    ran = addressing("reprint", guests, "--docket", "job.toml", "--json")
    assert ran.returncode == 0, ran.stderr
    assert [(each["kind"], each["pages"]) for each in json.loads(ran.stdout)["plates"]] == [
        ("place-card", 1)
    ]


TWO_INKS = "".join(
    f"""
[[piece]]
kind = "{kind}"
face = "great-vibes"
size = 14.0
stock = "ivory"
ink = "Gold"
underbase = "White"
choke_mm = 0.01
[piece.address]
ink = "Black"
"""
    for kind in ("place-card", "escort-card")
)


@pytest.mark.parametrize("shop", ["", "composite"])
def test_kinds_on_one_sheet_may_have_a_base_and_two_inks_if_all_have_the_same(
    addressing: Run, guests: Path, shop: str
) -> None:
    head, _, tail = BESIDE.partition("[[piece]]")
    docket = f"{head}{TWO_INKS}[[sheet]]{tail.partition('[[sheet]]')[2]}"
    if shop:
        Path("shops").mkdir()
        Path("shops/hollin.toml").write_text(
            'title = "Hollin Works"\nmargin_mm = 5.0\n[files]\nplates = "composite"\n[inks]\n'
            'White = "HW White"\nGold = "HW Gold"\nBlack = "Black"\n'
        )
        docket += '[shop]\nname = "hollin"\n'
    files = plates_of(addressing, guests, docket)
    inks = [file["ink"] for file in files if file["kind"] == "escort-card"]
    assert inks == (["HW White + HW Gold + Black"] if shop else ["White", "Gold", "Black"])
    assert len({file["pages"] for file in files}) == 1
    assert addressing("preflight", "guests-job").returncode == 0
    assert addressing("printed", guests).returncode == 0
    told = json.loads(addressing("ledger", guests, "--docket", "job.toml", "--json").stdout)
    assert told["due"] == []


WRONG = {
    "different inks": (BESIDE, '[[piece]]\nkind = "place-card"',
                       '[[piece]]\nkind = "place-card"\nink = "Gold"\nstock = "ivory"',
                       "sheet-kinds-differ"),
    "different faces": (BESIDE, 'kind = "escort-card"\nface = "great-vibes"',
                        'kind = "escort-card"\nface = "eb-garamond"', "sheet-kinds-differ"),
    "a back that nobody makes": (POSTCARDS, 'make = ["reply-number", "reply"]',
                                 'make = ["reply-number"]', "sheet-kind-missing"),
    "a front that is the same for all": (
        POSTCARDS, 'piece = "reply-number"\nturned = true\ndown = 1\nbehind = "reply"',
        'piece = "reply"\nturned = true\ndown = 1\nbehind = "reply-number"', "sheet-kinds-differ"),
    "no room for both": (BESIDE, "down = 2", "down = 9", "sheet-too-small"),
}  # fmt: skip


@pytest.mark.parametrize("wrong", WRONG)
def test_kinds_that_can_t_share_a_sheet_are_refused(
    wrong: str, addressing: Run, guests: Path
) -> None:
    docket, was, now, code = WRONG[wrong]
    assert was in docket
    exit_code, found, text = fault_of(addressing, guests, docket.replace(was, now))
    assert (exit_code, found) == (3, code), text
