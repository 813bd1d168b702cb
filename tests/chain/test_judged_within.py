"""A job's folder judged with what lies in it: reprints still to print, packages of other plates."""

import json
import re
import shutil
import subprocess
import zipfile
from collections.abc import Callable
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

Ran = subprocess.CompletedProcess[str]
Run = Callable[..., Ran]
Write = Callable[..., Path]

PLACE = ("Litchfield", "CT", "06759")
ROWS = [
    ("Mr. Tobias Wexcombe", "14 Larkmoor Lane", *PLACE),
    ("Ms. Odile Farrenby", "2 Larkmoor Lane", *PLACE),
]
JOB = Path("guests-job")
REPRINT = JOB / "reprint-01"
PLATE = REPRINT / "plates" / "01-outer-white.pdf"


@pytest.fixture
def job(addressing: Run, write_list: Write) -> Path:
    """A printed job whose second envelope was spoiled, and is made again."""
    path = write_list(ROWS)
    for words in (("plates",), ("printed",), ("spoiled", "2"), ("reprint",)):
        command, *which = words
        assert addressing(command, path, *which, "--json").returncode == 0
    return path


def judged(addressing: Run) -> tuple[int, dict[str, Any]]:
    ran = addressing("preflight", JOB, "--json")
    return ran.returncode, json.loads(ran.stdout)


def test_a_reprint_still_to_print_is_judged_with_its_job(
    addressing: Run, job: Path, taken_apart: ModuleType
) -> None:
    code, told = judged(addressing)
    assert code == 0
    assert str(PLATE) in [each["path"] for each in told["plates"]]
    assert str(REPRINT) in [each["folder"] for each in told["orders"]]
    plate = taken_apart.Plate(PLATE)
    plate.redraw(plate.contents(0), lambda drawn: re.sub(rb"(/g\d+) Do", b"/g1 Do", drawn, count=1))
    plate.write()
    said = addressing("preflight", JOB)
    assert said.returncode == 5
    assert f"{PLATE}: not to be printed." in said.stdout
    assert "Page 1 (" in said.stdout
    assert "Odile Farrenby" in said.stdout
    PLATE.unlink()
    said = addressing("preflight", JOB)
    assert said.returncode == 5
    assert f"{PLATE}: not to be printed.\n  It isn't there." in said.stdout
    assert job.exists()


def test_a_reprint_that_was_printed_is_told_and_left(addressing: Run, job: Path) -> None:
    assert addressing("printed", job, "--reprint", 1, "--json").returncode == 0
    PLATE.unlink()
    code, told = judged(addressing)
    assert code == 0
    assert str(REPRINT) not in [each["folder"] for each in told["plates"]]
    (record,) = told["manifests"]
    (note,) = record["notes"]
    assert note.startswith(f"{REPRINT} is noted as printed and wasn't judged again.")


def test_plates_of_a_reprint_without_a_manifest_are_told(addressing: Run, job: Path) -> None:
    (REPRINT / "manifest.json").unlink()
    code, told = judged(addressing)
    assert (code, job.exists()) == (5, True)
    (file,) = (each for each in told["files"] if each["faults"])
    assert file["path"] == str(PLATE)
    assert "addressing reprint" in file["faults"][0]


def test_a_package_of_other_plates_beside_the_job_s_own_is_told(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    hosts = '[hosts]\nname = "Mrs. Odile Larkmoor"\nstreet = "48 Larkmoor Lane"\n'
    hosts += 'city = "Litchfield"\nregion = "CT"\npostcode = "06759"\n'
    (tmp_path / "job.toml").write_text(
        f'[job]\ndate = "2026-03-10"\n{hosts}[shop]\nname = "farrenby-press"\n'
    )
    path = write_list(ROWS)
    for command in ("plates", "package"):
        assert addressing(command, path, "--docket", "job.toml", "--json").returncode == 0
    old = shutil.copy(JOB / "for-farrenby-press.zip", tmp_path / "old.zip")
    write_list([*ROWS, ("Dr. Ysolde Penhew", "77 Larkmoor Lane", *PLACE)])
    assert addressing("plates", path, "--docket", "job.toml", "--json").returncode == 0
    with zipfile.ZipFile(JOB / "pictures.zip", "w") as package:
        package.writestr("envelope.txt", "no package of ours")
    assert judged(addressing)[0] == 0
    shutil.copy(old, JOB / "for-farrenby-press.zip")
    code, told = judged(addressing)
    assert code == 5
    (file,) = (each for each in told["files"] if each["faults"])
    assert file["path"] == str(JOB / "for-farrenby-press.zip")
    assert "It holds other plates than these." in file["faults"][0]
