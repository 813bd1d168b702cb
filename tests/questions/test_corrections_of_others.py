"""What a designer set of a household that a later list has under another name holds them."""

import csv
import json
from collections.abc import Callable, Sequence
from pathlib import Path
from subprocess import CompletedProcess
from typing import Any

import pytest

Run = Callable[..., CompletedProcess[str]]
HEADER = ("Name", "Street", "City", "State", "ZIP")
OTHER = ("Ms. Odile Farrenby", "431 Weathervane Drive", "Bar Harbor", "ME", "04609")
SANDS = ("Mr. Ivo Sands", "9 Quarry Hill", "Rutland", "VT", "05701")
DOOR = SANDS[1:]
ELSEWHERE = ("8 Dock Street", "Camden", "ME", "04843")


class Desk:
    """A job with two households; the street of one is set by hand."""

    def __init__(self, run: Run, folder: Path) -> None:
        self.run, self.folder = run, folder
        self.first = self.write("v1.csv", SANDS)
        self.path = self.first
        self.job = ("--to", folder / "job")

    def write(self, name: str, row: Sequence[str]) -> Path:
        path = self.folder / name
        with path.open("w", newline="", encoding="utf-8") as file:
            csv.writer(file).writerows([HEADER, OTHER, row])
        return path

    def set(self, *more: str) -> CompletedProcess[str]:
        return self.run("answer", self.path, *more, *self.job)

    def home(self) -> tuple[str, str]:
        """("held" or "printed", the street) of the second household."""
        told = json.loads(self.run("lines", self.path, "--json", *self.job).stdout)["households"]
        assert not told[0]["held"]
        street = told[1]["pieces"][0]["lines"][1]["text"]
        return "held" if told[1]["held"] else "printed", street

    def found(self) -> list[dict[str, Any]]:
        told = json.loads(self.run("check", self.path, "--json", *self.job).stdout)["findings"]
        return [
            each
            for each in told
            if each["code"].endswith("-stale") or "remark-gone" in each["code"]
        ]


@pytest.fixture
def desk(addressing: Run, tmp_path: Path) -> Desk:
    """A job in a folder of its own."""
    return Desk(addressing, tmp_path)


@pytest.mark.parametrize(
    "row",
    [
        ("Ms. Lena Sands", *DOOR),
        ("Mr. Ivo Thornton", *DOOR),
        ("Ms. Wilma Oakes", *DOOR),
        ("Mr. I. Sands", *ELSEWHERE),
    ],
)
def test_who_may_be_meant_by_a_correction_waits_and_both_commands_say_so(
    desk: Desk, row: Sequence[str]
) -> None:
    desk.set("--set", "Ivo Sands", "street", "9A Quarry Hill")
    desk.path = desk.write("v2.csv", row)
    compared = desk.run("compare", desk.first, desk.path, *desk.job, "--json").stdout
    assert desk.home()[0] == "held"
    assert [each["code"] for each in desk.found()] == ["correction-stale"]
    assert json.loads(compared)["findings"] == desk.found()
    desk.set("--set", "Farrenby", "city", "Bar Harbor")
    assert desk.home()[0] == "held", "another answer doesn't settle it"
    compared = desk.run("compare", desk.first, desk.path, *desk.job, "--json").stdout
    assert json.loads(compared)["findings"] == desk.found()


@pytest.mark.parametrize(
    ("more", "street"),
    [
        (("--settled", "--set!1"), "9A Quarry Hill"),
        (("--undo", "--set!1"), "9 Quarry Hill"),
        (("--set", "Lena Sands", "street", "9B Quarry Hill"), "9B Quarry Hill"),
    ],
)
def test_one_word_says_whose_a_correction_is(
    desk: Desk, more: tuple[str, ...], street: str
) -> None:
    desk.set("--set", "Ivo Sands", "street", "9A Quarry Hill")
    desk.path = desk.write("v2.csv", ("Ms. Lena Sands", *DOOR))
    assert desk.set(*more).returncode == 0
    for _ in range(2):
        assert desk.home() == ("printed", street)
        assert desk.found() == []
        assert desk.set("--set", "Farrenby", "city", "Bar Harbor").returncode == 0


def test_a_list_that_has_taken_a_correction_over_is_not_asked_about(desk: Desk) -> None:
    desk.set("--set", "Ivo Sands", "names", "Ms. Wilma Oakes")
    desk.path = desk.write("v2.csv", ("Ms. Wilma Oakes", *DOOR))
    assert desk.home() == ("printed", "9 Quarry Hill")


def test_whoever_has_nothing_in_common_with_one_who_left_is_printed(desk: Desk) -> None:
    desk.set("--set", "Ivo Sands", "street", "9A Quarry Hill")
    desk.path = desk.write("v2.csv", ("Ms. Wilma Oakes", *ELSEWHERE))
    assert desk.home() == ("printed", "8 Dock Street")


def test_what_check_holds_for_a_changed_row_compare_tells_too(desk: Desk) -> None:
    desk.set("--set", "Ivo Sands", "street", "9A Quarry Hill")
    desk.path = desk.write("v2.csv", (SANDS[0], *ELSEWHERE))
    compared = desk.run("compare", desk.first, desk.path, *desk.job, "--json").stdout
    assert [each["code"] for each in desk.found()] == ["correction-stale"]
    assert json.loads(compared)["findings"] == desk.found()
    said = desk.run("compare", desk.first, desk.path, *desk.job).stdout
    assert "Decisions that no longer apply, or wait (1)" in said
