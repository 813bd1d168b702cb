"""White under a colour: a plate of its own, first, drawn in, and proved."""

import json
import subprocess
import sys
from pathlib import Path

import pikepdf

LIST = """\
Name,Street,City,State,Zip
Mr. Tobias Wexcombe,12 Larkmoor Lane,Litchfield,CT,06759
Ms. Odile Farrenby,14 Larkmoor Lane,Litchfield,CT,06759
"""
DOCKET = """\
[pieces]
make = ["outer"]
[[piece]]
kind = "outer"
ink = "Gold"
face = "eb-garamond"
underbase = "{base}"
choke_mm = {choke}
"""


def run(
    desk: Path, *words: str, base: str = "White", choke: float = 0.04, more: str = ""
) -> "subprocess.CompletedProcess[str]":
    (desk / "guests.csv").write_text(LIST, encoding="utf-8")
    (desk / "job.toml").write_text(DOCKET.format(base=base, choke=choke) + more, encoding="utf-8")
    return subprocess.run(  # noqa: S603 - our own command
        [sys.executable, "-m", "addressing", *words, "guests.csv", "--docket", "job.toml"],
        cwd=desk,
        capture_output=True,
        encoding="utf-8",
        check=False,
    )


def test_the_base_is_a_plate_of_its_own_before_the_colour(tmp_path: Path) -> None:
    done = run(tmp_path, "plates")
    assert done.returncode == 0, done.stderr
    plates = tmp_path / "guests-job" / "plates"
    assert sorted(path.name for path in plates.iterdir()) == [
        "01-outer-white.pdf",
        "02-outer-gold.pdf",
    ]
    streams = []
    for path in sorted(plates.iterdir()):
        with pikepdf.open(path) as pdf:
            streams.append([page.Contents.read_bytes() for page in pdf.pages])
    assert streams[0] == streams[1]  # the same letters at the same places; only the drawings differ
    content = json.loads((tmp_path / "guests-job" / "manifest.json").read_text("utf-8"))
    inks = [file["ink"] for file in content["files"] if file["ink"]]
    assert inks == ["White", "Gold"]


def test_a_choke_larger_than_the_strokes_is_told(tmp_path: Path) -> None:
    done = run(tmp_path, "plates", choke=0.9)
    assert done.returncode == 3
    assert "vanish" in done.stderr
    assert not list((tmp_path / "guests-job" / "plates").glob("*.pdf"))


def test_strokes_too_fine_for_their_base_are_told(tmp_path: Path) -> None:
    done = run(tmp_path, "plates", choke=0.12)
    assert done.returncode == 0, done.stderr
    assert "such strokes have none under them" in done.stdout + done.stderr


def test_passes_of_an_ink_are_told_and_cost_what_they_take(tmp_path: Path) -> None:
    whys = []
    for more in ("", "hits = { White = 2 }"):
        done = run(tmp_path, "estimate", "--json", more=more)
        assert done.returncode == 0, done.stderr
        parts = json.loads(done.stdout)["routes"][-1]["pieces"][0]["parts"]
        whys.append({part["name"]: part["why"] for part in parts})
    assert [why["set-up"] for why in whys] == ["2 plates", "2 plates"]
    assert whys[0]["printing"].endswith("2 times, once for each ink")
    assert whys[1]["printing"].endswith("3 times, once for each pass of an ink")
    assert run(tmp_path, "plates", more="hits = { White = 2 }").returncode == 0
    sheet = subprocess.run(
        ["pdftotext", "guests-job/job-sheet.pdf", "-"],  # noqa: S607 - poppler
        cwd=tmp_path, capture_output=True, encoding="utf-8", check=True,
    )  # fmt: skip
    assert "White twice and Gold on the same" in " ".join(sheet.stdout.split())


def test_an_ink_that_a_piece_has_not_got_is_not_laid_down_twice(tmp_path: Path) -> None:
    done = run(tmp_path, "plates", more="hits = { Silver = 2 }")
    assert done.returncode == 3
    assert "Its inks are White and Gold." in done.stderr


def test_an_ink_lies_under_no_ink_of_its_own(tmp_path: Path) -> None:
    done = run(tmp_path, "plates", base="Gold")
    assert done.returncode == 3
    assert "Gold is to lie under Gold" in done.stderr
