"""What a list says of somebody beside the rows of guests is dealt with once, and stays so."""

import json
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess
from typing import Any

import pytest

Run = Callable[..., CompletedProcess[str]]
MAIL = """Hi Odile,

Mr. and Mrs. Tobias Penhew
14 Larkmoor Lane
Litchfield, CT 06759

Dr. Ingrid Coldwell
22 Quarry Hill
Duluth, MN 55802

Hugo Farrenby
3 Osier Row
Litchfield, CT 06759

The Coldwells have moved.
The Penhews and the Farrenbys moved too.

Love,
Bea
"""
NEW = "9 Mill Row, Litchfield, CT 06759"


@pytest.fixture
def path(tmp_path: Path) -> Path:
    (tmp_path / "mail.txt").write_text(MAIL, "utf-8")
    return tmp_path / "mail.txt"


def told(run: Run, command: str, path: Path) -> dict[str, Any]:
    return dict(json.loads(run(command, path, "--json").stdout))


def remarks(run: Run, path: Path) -> list[str]:
    """The cells of the remarks that are open, one for each household."""
    found = told(run, "check", path)["findings"]
    return sorted(each["cell"] for each in found if each["code"] == "said-elsewhere")


def asked(run: Run, path: Path) -> list[str]:
    return [
        each["cell"]
        for each in told(run, "questions", path)["questions"]
        if "said-elsewhere" in each["codes"]
    ]


def test_two_remarks_hold_three_households(addressing: Run, path: Path) -> None:
    assert remarks(addressing, path) == ["A15", "A16", "A16"]


@pytest.mark.parametrize("name", ["A15", "A15:said-elsewhere", "The Coldwells have", "Coldwell"])
def test_a_remark_is_settled_by_its_place_its_words_or_the_household(
    addressing: Run, path: Path, name: str
) -> None:
    done = addressing("answer", path, "--settled", name)
    assert done.returncode == 0, done.stderr
    assert "Dealt with (1)" in done.stdout
    assert remarks(addressing, path) == ["A16", "A16"]
    assert asked(addressing, path) == ["A16"]
    undo = done.stdout.partition("answer --undo '")[2].partition("'")[0]
    assert addressing("answer", path, "--undo", undo).returncode == 0
    assert remarks(addressing, path) == ["A15", "A16", "A16"]


def test_a_remark_about_two_is_settled_for_both(addressing: Run, path: Path) -> None:
    assert addressing("answer", path, "--settled", "A16").returncode == 0
    assert remarks(addressing, path) == ["A15"]
    assert addressing("plates", path).returncode == 1
    assert asked(addressing, path) == ["A15"]


def test_the_place_of_a_remark_names_its_household_for_a_correction(
    addressing: Run, path: Path
) -> None:
    assert addressing("answer", path, "--set", "A15", "address", NEW).returncode == 0
    refused = addressing("answer", path, "--set", "A16", "address", NEW)
    assert refused.returncode == 2
    assert "row 3" in refused.stderr
    assert "row 11" in refused.stderr


def test_a_fitting_correction_deals_with_a_remark_and_taken_back_it_is_open_again(
    addressing: Run, path: Path
) -> None:
    done = addressing("answer", path, "--set", "Coldwell", "names", "Dr. Ingrid Marsh")
    assert "Dealt with" not in done.stdout
    done = addressing("answer", path, "--set", "Marsh", "address", NEW)
    assert "Dealt with (1)" in done.stdout
    assert remarks(addressing, path) == ["A16", "A16"]
    assert addressing("answer", path, "--undo", "Coldwell:address").returncode == 0
    assert remarks(addressing, path) == ["A15", "A16", "A16"]


def test_a_remark_about_two_is_dealt_with_by_corrections_of_both(
    addressing: Run, path: Path
) -> None:
    one = ("--set", "Penhew", "address", "3 Osier Row, Litchfield, CT 06759")
    two = ("--set", "Farrenby", "address", "14 Larkmoor Lane, Litchfield, CT 06759")
    assert "Dealt with" not in addressing("answer", path, *one).stdout
    assert "Dealt with (1)" in addressing("answer", path, *one, *two).stdout
    assert remarks(addressing, path) == ["A15"]


def test_the_same_remark_in_a_later_list_is_settled_and_another_is_asked(
    addressing: Run, path: Path
) -> None:
    addressing("answer", path, "--settled", "A15", "--settled", "A16")
    later = MAIL.replace("Hugo Farrenby\n", "Hugo Farrenby\n").replace("moved.", "moved.\nHi!")
    path.write_text(later, "utf-8")
    assert remarks(addressing, path) == []
    path.write_text(MAIL.replace("have moved", "have parted"), "utf-8")
    assert remarks(addressing, path) == ["A15"]


def test_what_cannot_stand_and_what_is_not_told_apart_is_refused_with_the_way_on(
    addressing: Run, tmp_path: Path
) -> None:
    path = tmp_path / "guests.csv"
    row = "Hugo Coldwell,,,,\n"
    path.write_text(f"Name,Street,City,State,ZIP\n{row}", "utf-8")
    refused = addressing("answer", path, "--settled", "A2:address-missing")
    assert refused.returncode == 2
    assert "--set" in refused.stderr
    refused = addressing("answer", path, "--settled", "A2")
    assert refused.returncode == 2
    assert "A2:title-missing" in refused.stderr
    assert addressing("answer", path, "--settled", "A2:title-missing").returncode == 0
    left = {each["code"] for each in told(addressing, "check", path)["findings"]}
    assert "title-missing" not in left
    assert "address-missing" in left
