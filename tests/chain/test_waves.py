"""A second round of invitations is counted now and printed later."""

import csv
import json
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess
from typing import Any

import pytest

Run = Callable[..., CompletedProcess[str]]
ROWS = (
    ("Name", "Street", "City", "State", "ZIP", "Wave"),
    ("Mr. and Mrs. Tobias Penhew", "14 Larkmoor Lane", "Litchfield", "CT", "06759", "A"),
    ("Ms. Ottoline Grayling", "431 Weathervane Drive", "Bar Harbor", "ME", "04609", "B"),
    ("Dr. Ingrid Halvorsby", "1440 Birchbark Trail", "Duluth", "MN", "55802", ""),
)


@pytest.fixture
def job(addressing: Run, tmp_path: Path) -> Callable[[str, str], dict[str, Any]]:
    """What a command answers for the list with a choice of waves."""

    def run(command: str, waves: str) -> dict[str, Any]:
        with (tmp_path / "guests.csv").open("w", encoding="utf-8", newline="") as stream:
            csv.writer(stream).writerows(ROWS)
        (tmp_path / "docket.toml").write_text(f'[pieces]\nmake = ["outer"]\nwave = {waves}\n')
        ran = addressing(command, "guests.csv", "--docket", "docket.toml", "--json")
        told: dict[str, Any] = json.loads(ran.stdout or ran.stderr.splitlines()[-1])
        return {**told, "exit": ran.returncode}

    return run


def test_a_later_round_is_on_no_plate_and_nothing_waits(
    job: Callable[[str, str], dict[str, Any]], tmp_path: Path
) -> None:
    made = job("plates", '["a"]')
    assert (made["exit"], made["held"]) == (0, [])
    manifest = json.loads((tmp_path / "guests-job" / "manifest.json").read_text())
    (plate,) = [file for file in manifest["files"] if file["kind"] == "outer"]
    assert plate["pages"] == 2
    assert len(manifest["later"]) == 1
    assert manifest["later"][0] not in plate["households"]
    lines = job("lines", '["a"]')["households"]
    assert [(home["wave"], home["later"]) for home in lines] == [
        ("A", False), ("B", True), (None, False),
    ]  # fmt: skip


def test_every_round_is_counted(job: Callable[[str, str], dict[str, Any]]) -> None:
    assert job("tally", '["A"]')["pieces"]["outer"]["needed"] == 3
    (told,) = [f for f in job("check", '["A"]')["findings"] if f["code"] == "wave-later"]
    assert "A (1), B (1)" in told["text"]


def test_without_a_choice_all_are_printed_and_which_is_meant_is_asked(
    job: Callable[[str, str], dict[str, Any]], tmp_path: Path
) -> None:
    job("plates", "[]")
    (asked,) = [f for f in job("check", "[]")["findings"] if f["code"].startswith("wave")]
    assert (asked["code"], asked["severity"]) == ("wave-unsaid", "ask")
    manifest = json.loads((tmp_path / "guests-job" / "manifest.json").read_text())
    assert manifest["later"] == []
    assert [file["pages"] for file in manifest["files"] if file["kind"] == "outer"] == [3]


def test_a_round_that_the_list_does_not_have_is_a_fault(
    job: Callable[[str, str], dict[str, Any]],
) -> None:
    told = job("check", '["C"]')
    assert (told["exit"], told["fault"]["code"]) == (3, "wave-unknown")
