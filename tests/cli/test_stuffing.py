"""The stuffing list: the outers in the order of print, once each, in three forms."""

import csv
import io
import json
import subprocess
from collections.abc import Callable
from pathlib import Path

import openpyxl
import pypdfium2
import pytest

Run = Callable[..., subprocess.CompletedProcess[str]]
Write = Callable[..., Path]

PLACE = ("Litchfield", "CT", "06759")
ROWS = [
    ("Mr. Tobias Wexcombe", "14 Larkmoor Lane", *PLACE),
    ("Ms. Odile Farrenby", "2 Larkmoor Lane", *PLACE),
    ("=Dr. Ysolde Penhew", "77 Larkmoor Lane", *PLACE),
]


def rows_of(text: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(text), delimiter="\t"))


def test_the_list_follows_the_plate_page_by_page(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    path = write_list(ROWS)
    assert addressing("plates", path).returncode in {0, 1}
    folder = tmp_path / "guests-job"
    assert addressing("stuffing", path, "--name", "stuffing.tsv").returncode in {0, 1}
    manifest = json.loads((folder / "manifest.json").read_text("utf-8"))
    outers = [key for f in manifest["files"] if f["kind"] == "outer" for key in f["households"]]
    rows = rows_of((folder / "stuffing.tsv").read_text("utf-8"))
    assert [row["key"] for row in rows] == outers
    assert [row["print"] for row in rows] == [str(n) for n in range(1, len(outers) + 1)]
    assert list(rows[0])[-4:] == ["printed", "filled", "stamped", "posted"]
    assert any(file["path"] == "stuffing.tsv" for file in manifest["files"])


def test_the_workbook_has_no_formula_and_the_counts_beside_it(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    path = write_list(ROWS)
    assert addressing("stuffing", path, "--name", "tables.xlsx").returncode in {0, 1}
    book = openpyxl.load_workbook(tmp_path / "guests-job" / "tables.xlsx")
    assert book.sheetnames == ["Stuffing", "Counts"]
    cells = [cell for page in book.worksheets for row in page for cell in row]
    assert not [cell for cell in cells if cell.data_type == "f"]
    assert [row[0].value for row in book["Counts"]][1:] == [
        "outer",
        "inner",
        "stamp, outer",
        "stamp, reply",
    ]


def test_the_sheet_names_every_envelope(addressing: Run, write_list: Write, tmp_path: Path) -> None:
    path = write_list(ROWS[:2])
    said = addressing("stuffing", path, "--json")
    assert json.loads(said.stdout)["envelopes"] == 2
    with pypdfium2.PdfDocument(tmp_path / "guests-job" / "stuffing-list.pdf") as pdf:
        text = pdf[0].get_textpage().get_text_bounded()
    assert "Tobias Wexcombe" in text
    assert "Odile Farrenby" in text
    assert "Litchfield, CT" in text


@pytest.mark.parametrize("name", ["list.doc", "../list.pdf"])
def test_another_ending_or_place_is_refused(
    addressing: Run, write_list: Write, tmp_path: Path, name: str
) -> None:
    assert addressing("stuffing", write_list(ROWS[:1]), "--name", name).returncode == 2
    assert not (tmp_path / "guests-job").exists()


def test_the_job_sheet_says_what_the_envelopes_become(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    assert addressing("plates", write_list(ROWS[:2])).returncode in {0, 1}
    with pypdfium2.PdfDocument(tmp_path / "guests-job" / "job-sheet.pdf") as pdf:
        text = " ".join(page.get_textpage().get_text_bounded() for page in pdf)
    assert "Outer: 2 addressed, 23 plain, out of the 25 to order." in " ".join(text.split())


def test_overs_follow_the_way_of_printing_and_an_unknown_one_is_refused(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    path, docket = write_list(ROWS), tmp_path / "docket.toml"
    docket.write_text(
        "[overs]\nminimum = 0\nmethod = { home = 200 }\n[device]\nname = 'home-toner-white'\n"
    )
    said = json.loads(addressing("tally", path, "--docket", docket, "--json").stdout)
    assert said["pieces"]["outer"]["overs"] == 2 * said["pieces"]["outer"]["needed"]
    docket.write_text("[overs]\nmethod = { leterpress = 20 }\n")
    ran = addressing("tally", path, "--docket", docket, "--json")
    assert ran.returncode == 3
    assert "letterpress" in ran.stderr


def test_plates_made_anew_say_that_the_list_of_the_plates_before_is_gone(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    path = write_list(ROWS)
    assert json.loads(addressing("plates", path, "--json").stdout)["gone"] == []
    assert addressing("stuffing", path).returncode in {0, 1}
    told = addressing("plates", path).stdout
    (line,) = (line for line in told.splitlines() if "stuffing-list.pdf" in line)
    assert line.endswith("taken away: it was made of the plates before; make it anew")
    assert not (tmp_path / "guests-job" / "stuffing-list.pdf").exists()
    assert addressing("stuffing", path, "--name", "list.tsv").returncode in {0, 1}
    assert json.loads(addressing("plates", path, "--json").stdout)["gone"] == ["list.tsv"]


def test_who_is_on_a_reprint_is_told_with_the_place_there(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    rows = [
        ("Mr. Tobias Wexcombe", "14 Larkmoor Lane", "Litchfield", "CT", "06759"),
        ("Ms. Odile Farrenby", "2 Larkmoor Lane", "Litchfield", "CT", "06759"),
    ]
    path, job = write_list(rows), tmp_path / "guests-job"
    assert addressing("plates", path).returncode == 0
    assert addressing("printed", path).returncode == 0
    more = ("Dr. Ysolde Penhew", "77 Larkmoor Lane", "Litchfield", "CT", "06759")
    path = write_list([*rows, more])
    assert addressing("reprint", path).returncode == 0
    assert addressing("stuffing", path, "--name", "list.tsv").returncode == 0
    told = (job / "list.tsv").read_text("utf-8")
    assert "on no plate" not in told
    (late,) = [row for row in told.splitlines() if "Penhew" in row]
    assert "in reprint-01: print 1" in late


def test_what_only_some_get_is_named_beside_their_envelope(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    abroad = ("Mme Ysolde Penhew", "4 Rue du Four, 75006 Paris, France", "", "", "")
    path, docket = write_list([*ROWS[:2], abroad]), tmp_path / "docket.toml"
    docket.write_text(
        '[[suite]]\nname = "invitation"\ngrams = 9.0\n'
        '[[suite]]\nname = "map"\ngrams = 5.0\nonly = ["abroad"]\n'
    )
    run = ("stuffing", path, "--docket", docket, "--name", "list.tsv")
    assert addressing(*run).returncode in {0, 1}
    rows = rows_of((tmp_path / "guests-job" / "list.tsv").read_text("utf-8"))
    told = {row["household"].split()[-1]: row["inside"] for row in rows}
    assert told == {"Wexcombe": "1 seat", "Farrenby": "1 seat", "Penhew": "map, 1 seat"}


def test_where_the_list_changed_order_and_numbers_are_those_of_the_plates(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    guests = [
        (f"{title} {name}", f"{n} Larkmoor Lane", *PLACE)
        for n, (title, name) in enumerate(
            [("Mr.", "Tobias Wexcombe"), ("Ms.", "Odile Farrenby"), ("Dr.", "Ysolde Penhew")], 2
        )
    ]
    path, folder = write_list(guests), tmp_path / "guests-job"
    assert addressing("plates", path).returncode == 0
    assert addressing("stuffing", path, "--name", "then.tsv").returncode == 0
    then = rows_of((folder / "then.tsv").read_text("utf-8"))
    new = ("Mr. Silas Umber", "9 Larkmoor Lane", *PLACE)
    write_list([new, guests[2], guests[0]])
    ran = addressing("stuffing", path, "--name", "now.tsv")
    assert ran.returncode == 0, ran.stderr
    assert "The list was changed since the plates were made" in ran.stdout
    now = rows_of((folder / "now.tsv").read_text("utf-8"))
    assert [(row["print"], row["key"]) for row in now[:3]] == [
        (row["print"], row["key"]) for row in then
    ]
    (gone,) = (row for row in now if "Farrenby" in row["household"])
    assert gone["to"] == "not on the list now: take it out"
    assert (now[3]["print"], now[3]["inside"]) == ("", "on no plate of these yet")
    assert "Umber" in now[3]["household"]
    assert addressing("stuffing", path).returncode == 0
    judged = addressing("preflight", folder)
    assert judged.returncode == 0, judged.stdout


def test_each_sheet_has_the_headings_of_its_boxes_and_military_towns_are_letters(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    letters = [f"{one}{two}" for one in "abcdefg" for two in "abcdefgh"]
    rows = [(f"Mr. Tobias W{each}xcombe", f"{n} Larkmoor Lane", *PLACE)
            for n, each in enumerate(letters, 1)]  # fmt: skip
    rows.append(("Ms. Odile Farrenby", "PSC 9999 Box 412", "APO", "AE", "09012"))
    path = write_list(rows)
    assert addressing("stuffing", path).returncode in {0, 1}
    with pypdfium2.PdfDocument(tmp_path / "guests-job" / "stuffing-list.pdf") as sheets:
        told = [" ".join(page.get_textpage().get_text_range().split()) for page in sheets]
    assert len(told) > 1
    assert all(words.count("Print Household To Proof Inside Printed") == 1 for words in told)
    assert "Odile Farrenby APO AE" in told[-1]
