"""Parts of an address corrected together are judged together, and settle what was asked."""

import csv
import json
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess

import pytest

Run = Callable[..., CompletedProcess[str]]
ROWS = (
    ("Name", "Address", "City", "State", "Zip"),
    ("Mr. Tobias Penhew", "12 Larkmoor Lane", "", "MA", ""),
    ("Mr. Corwin Vale", "14 Larkmoor Lane", "Dover", "DE", "01742"),
    ("Mr. Hugo Sallow", "16 Larkmoor Lane", "Duluth", "MN", "55802"),
)


@pytest.fixture
def path(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    with (tmp_path / "guests.csv").open("w", encoding="utf-8", newline="") as stream:
        csv.writer(stream).writerows(ROWS)
    return tmp_path / "guests.csv"


def corrected(run: Run, path: Path, cell: str, **parts: str) -> tuple[bool, str]:
    """Whether the household of a cell is held after its corrections, and its last line."""
    said = [word for part in parts.items() for word in ("--set", cell, *part)]
    run("answer", path, *said)
    homes = json.loads(run("lines", path, "--json").stdout)["households"]
    home = homes[int(cell[1:]) - 2]
    outer = next(piece for piece in home["pieces"] if piece["kind"] == "outer")
    return home["held"], outer["lines"][-1]["text"]


def test_a_town_and_a_code_given_apart_free_a_household(addressing: Run, path: Path) -> None:
    found = corrected(addressing, path, "A2", city="Concord", postcode="01742")
    assert found == (False, "Concord, Massachusetts 01742")


def test_parts_that_are_right_only_together_are_taken(addressing: Run, path: Path) -> None:
    found = corrected(addressing, path, "A3", city="Concord", region="MA", postcode="01742")
    assert found == (False, "Concord, Massachusetts 01742")


def test_one_part_alone_leaves_open_what_it_does_not_put_right(addressing: Run, path: Path) -> None:
    assert corrected(addressing, path, "A2", city="Concord")[0]


def test_parts_that_contradict_each_other_are_not_taken(addressing: Run, path: Path) -> None:
    said = ("--set", "A4", "city", "Concord", "--set", "A4", "postcode", "01742")
    told = addressing("answer", path, *said)
    assert "Not taken (2)" in told.stdout
    homes = json.loads(addressing("lines", path, "--json").stdout)["households"]
    assert (homes[2]["address"]["city"], homes[2]["address"]["postcode"]) == ("Duluth", "55802")
