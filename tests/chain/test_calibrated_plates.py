"""From a measured test sheet to corrected plates, by the commands."""

import json
import re
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess

import pikepdf
import pytest

from addressing.units import mm_to_pt

Ran = CompletedProcess[str]
Run = Callable[..., Ran]

DOCKET = """\
[pieces]
make = ["outer"]
[[piece]]
kind = "outer"
layout = "a7"
ink = "Black"
stock = "ivory"
[device]
name = "home-toner"
"""
MARKS = ("A=21.5,19.2", "B=165.65,19.2", "C=165.65,112.55", "D=21.5,112.55")
"""Everything 1.5 mm to the right and 0.8 mm up."""


def steps(path: Path) -> list[bytes]:
    with pikepdf.open(path) as pdf:
        return [page.Contents.read_bytes().split(b"\n")[1] for page in pdf.pages]


def test_plates_of_a_calibrated_device_ask_for_what_lands_right(
    addressing: Run, write_list: Callable[..., Path], tmp_path: Path
) -> None:
    guests, docket = write_list(), tmp_path / "docket.toml"
    docket.write_text(DOCKET, encoding="utf-8")
    chosen = ("--docket", docket)
    assert addressing("plates", guests, *chosen, "--to", "plain").returncode == 0
    ran = addressing(
        "calibrate", "a7", *chosen, *(f for mark in MARKS for f in ("--mark", mark)), "--json"
    )
    assert ran.returncode == 0, ran.stderr
    told = json.loads(ran.stdout)
    assert told["shift_mm"] == pytest.approx([1.5, 0.8])
    assert told["unsure_mm"] == pytest.approx(0.0, abs=1e-3)
    assert Path(told["file"]).parent == tmp_path
    assert addressing("plates", guests, *chosen, "--to", "true").returncode == 0
    manifests = [
        json.loads((tmp_path / d / "manifest.json").read_text()) for d in ("plain", "true")
    ]
    named = [manifest["files"][0]["calibration"] for manifest in manifests]
    assert named == [None, told["calibration"]]
    before, after = (
        steps(tmp_path / d / "plates" / "01-outer-black.pdf") for d in ("plain", "true")
    )
    assert all(step.startswith(b"q ") for step in before)
    wanted = b"1 0 0 1 %.3f %.3f cm" % (-mm_to_pt(1.5), -mm_to_pt(0.8))
    assert set(after) == {wanted}
    sheet = (tmp_path / "true" / "job-sheet.pdf").read_bytes()
    assert sheet.startswith(b"%PDF")
    assert addressing("preflight", "true").returncode == 0


def test_another_tray_is_not_corrected_by_it(
    addressing: Run, write_list: Callable[..., Path], tmp_path: Path
) -> None:
    docket = tmp_path / "docket.toml"
    docket.write_text(DOCKET, encoding="utf-8")
    marks = [f for mark in MARKS for f in ("--mark", mark)]
    assert (
        addressing("calibrate", "a7", "--docket", docket, "--tray", "rear", *marks).returncode == 0
    )
    assert addressing("plates", write_list(), "--docket", docket, "--to", "job").returncode == 0
    manifest = json.loads((tmp_path / "job" / "manifest.json").read_text())
    assert manifest["files"][0]["calibration"] is None
    assert manifest["files"][0]["way"] == "envelope"


def test_marks_come_from_a_file_too_if_it_is_right(addressing: Run, tmp_path: Path) -> None:
    path = tmp_path / "measured.toml"
    path.write_text("A = [20.5, 20.0]\nC = [164.65, 113.35]\n", encoding="utf-8")
    ran = addressing("calibrate", "a7", "--device", "home-toner", "--measured", path)
    assert ran.returncode == 0
    assert re.search(r"shift +0\.50 mm right, 0\.00 mm", ran.stdout)
    path.write_text("A = [20.5]\n", encoding="utf-8")
    ran = addressing("calibrate", "a7", "--device", "home-toner", "--measured", path, "--json")
    assert (ran.returncode, ran.stdout) == (3, "")
    assert json.loads(ran.stderr.splitlines()[-1])["fault"]["code"] == "measured-unreadable"


@pytest.mark.parametrize(
    ("arguments", "code", "told"),
    [
        (("--mark", "A"), 2, "A=20.5,19"),
        (("--mark", "A=1,2"), 3, "too few"),
        ((), 3, "too few"),
    ],
    ids=["no distances", "one mark", "no mark"],
)
def test_what_can_not_be_solved_leaves_no_file(
    addressing: Run, tmp_path: Path, arguments: tuple[str, ...], code: int, told: str
) -> None:
    ran = addressing("calibrate", "a7", "--device", "home-toner", *arguments)
    assert ran.returncode == code
    assert told in ran.stderr
    assert list(tmp_path.iterdir()) == []


def test_without_a_device_nothing_is_calibrated(addressing: Run) -> None:
    ran = addressing("calibrate", "a7", "--mark", "A=20,20")
    assert ran.returncode == 3
    assert "names a device" in ran.stderr


def test_nothing_is_told_as_less_than_nought(addressing: Run) -> None:
    # A parallelogram by hand: its corners are off by -0.004 degrees.
    measured = ("A=21.5,19", "B=165.8,19.3", "C=165.6,112.4", "D=21.3,112.1")
    marks = [word for mark in measured for word in ("--mark", mark)]
    ran = addressing("calibrate", "a7", "--device", "home-toner-white", *marks)
    assert ran.returncode == 0, ran.stderr
    assert "corners off by +0.00" in ran.stdout
    assert "-0.00" not in ran.stdout
