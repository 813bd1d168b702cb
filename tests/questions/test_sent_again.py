"""A form that a household sent in twice: which answer holds is asked, the later one proposed."""

import json
import subprocess
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

import pytest

from addressing.guestlist.households.sent import Stamp, is_later, stamp_of
from addressing.tables import table

Run = Callable[..., subprocess.CompletedProcess[str]]
Fill = Callable[[Path, Mapping[str, str]], Path]
PLACE = "Litchfield,CT,06759"
HEAD = "Name,Street,City,State,ZIP"
PARTIES = "Party,Title,First name,Last name,Street,City,State,ZIP"


def asked(addressing: Run, path: Path, code: str) -> list[dict[str, Any]]:
    rows = json.loads(addressing("questions", path, "--json").stdout)["questions"]
    return [row for row in rows if code in row["question"]]


def listed(folder: Path, head: str, *rows: str) -> Path:
    path = folder / "guests.csv"
    path.write_text("\n".join((head, *rows, "")), encoding="utf-8")
    return path


def outer(addressing: Run, path: Path) -> list[list[str]]:
    homes = json.loads(addressing("lines", path, "--json").stdout)["households"]
    return [[line["text"] for line in home["pieces"][0]["lines"]] for home in homes]


@pytest.mark.parametrize(
    ("stamps", "later"),
    [
        (("2/3/2027 10:22:41", "2/5/2027 9:01:12"), "second"),
        (("2/5/2027 9:01:12", "2/3/2027 10:22:41"), "first"),
        (("2027-02-05 09:01:12", "2027-02-05 09:01:13"), "second"),
        (("13.02.2027 09:01", "14.02.2027 08:00"), "second"),
        (("2/5/2027 9:01 PM", "2/5/2027 10:01 AM"), "first"),
        (("2027/02/05 9:01:12 AM EST", "2027/02/05 12:01:12 PM EST"), "second"),
    ],
)
def test_the_later_of_two_answers_is_proposed_first(
    addressing: Run, fill: Fill, tmp_path: Path, stamps: tuple[str, str], later: str
) -> None:
    doors = ("14 Larkmoor Lane", "9 Quince Street")
    rows = [
        f"{at},Mr. Tobias Wexcombe,{door},{PLACE}" for at, door in zip(stamps, doors, strict=True)
    ]
    path = listed(tmp_path, f"Timestamp,{HEAD}", *rows)
    (question,) = asked(addressing, path, "duplicate-probable")
    at = ("first", "second").index(later)
    assert f"the {later} was sent in later ({stamps[at]})" in question["text"]
    assert question["answers"][0] == f"Yes, one household, use the {later}"
    answers = dict.fromkeys(("-doubtful", "-probable"), question["answers"][0])
    filled = fill(tmp_path / "guests-job" / "questions.xlsx", answers)
    assert addressing("answer", path, filled).returncode == 0
    assert [lines[1] for lines in outer(addressing, path)] == [doors[at]]


@pytest.mark.parametrize(
    ("head", "stamps"),
    [
        ("Timestamp", ("2/3/2027 10:22", "2/3/2027 10:22")),
        ("Timestamp", ("2/3/2027 10:22", "")),
        ("Timestamp", ("3/2/2027", "2/4/2027")),
        ("Notes", ("2/3/2027 10:22:41", "2/5/2027 9:01:12")),
        ("Birthday", ("2/3/1987", "2/5/1987")),
    ],
)
def test_without_a_certain_later_one_none_is_proposed(
    addressing: Run, tmp_path: Path, head: str, stamps: tuple[str, str]
) -> None:
    doors = ("14 Larkmoor Lane", "9 Quince Street")
    rows = [
        f"{at},Mr. Tobias Wexcombe,{door},{PLACE}" for at, door in zip(stamps, doors, strict=True)
    ]
    path = listed(tmp_path, f"{head},{HEAD}", *rows)
    (question,) = asked(addressing, path, "duplicate-probable")
    assert "later" not in question["text"]
    assert question["answers"][0] == "Two households, an envelope each"


def test_of_a_party_at_two_doors_the_later_is_proposed_and_asked_once(
    addressing: Run, fill: Fill, tmp_path: Path
) -> None:
    path = listed(
        tmp_path,
        f"Timestamp,{PARTIES}",
        f"8/4/2026 6:14:17,Orr,Dr.,Odile,Orr,14 Larkmoor Lane,{PLACE}",
        f"8/6/2026 6:14:17,Orr,Dr.,Odile,Orr,9 Quince Street,{PLACE}",
        f"8/6/2026 6:14:17,Orr,Mr.,Kit,Penhew,9 Quince Street,{PLACE}",
    )
    assert asked(addressing, path, "duplicate-probable") == []
    (question,) = asked(addressing, path, "household-doubtful")
    assert "the second was sent in later (8/6/2026 6:14:17)" in question["text"]
    assert question["answers"][0] == "One envelope, to the second"
    answers = dict.fromkeys(("-doubtful", "-probable"), question["answers"][0])
    filled = fill(tmp_path / "guests-job" / "questions.xlsx", answers)
    assert addressing("answer", path, filled).returncode == 0
    (lines,) = outer(addressing, path)
    assert lines[:3] == ["Doctor Odile Orr", "Mr. Kit Penhew", "9 Quince Street"]


def test_who_is_named_only_by_the_answer_before_is_asked_about_and_waits(
    addressing: Run, fill: Fill, tmp_path: Path
) -> None:
    path = listed(
        tmp_path,
        f"Timestamp,{PARTIES}",
        f"8/4/2026 6:14:17,Orr,Dr.,Odile,Orr,14 Larkmoor Lane,{PLACE}",
        f"8/4/2026 6:14:17,Orr,Mr.,Kit,Penhew,14 Larkmoor Lane,{PLACE}",
        f"8/6/2026 6:14:17,Orr,Dr.,Odile,Orr,14 Larkmoor Lane,{PLACE}",
    )
    assert addressing("lines", path).returncode == 1
    (question,) = asked(addressing, path, "duplicate-probable")
    assert "only the one before names Mr. Kit Penhew" in question["text"]
    assert question["answers"] == ["Only Dr. Odile Orr", "All of them"]
    filled = fill(tmp_path / "guests-job" / "questions.xlsx", {"-probable": "Only Dr. Odile Orr"})
    assert addressing("answer", path, filled).returncode == 0
    (lines,) = outer(addressing, path)
    assert lines[:2] == ["Doctor Odile Orr", "14 Larkmoor Lane"]


@pytest.mark.parametrize("third", ["8/4/2026 6:15", "8/6/2026 6:14"])
def test_guests_of_a_party_who_each_answer_once_are_not_asked_about(
    addressing: Run, tmp_path: Path, third: str
) -> None:
    path = listed(
        tmp_path,
        f"Timestamp,{PARTIES}",
        f"8/4/2026 6:14,Orr,Dr.,Odile,Orr,14 Larkmoor Lane,{PLACE}",
        f"{third},Orr,Mr.,Kit,Penhew,14 Larkmoor Lane,{PLACE}",
    )
    assert asked(addressing, path, "duplicate-probable") == []


@pytest.mark.parametrize("word", [w for r in table("headers") if r["meaning"] == "sent-sign"
                                  for w in r["synonyms"].split(" | ")])  # fmt: skip
def test_a_column_of_times_is_used_for_nothing_else(
    addressing: Run, tmp_path: Path, word: str
) -> None:
    path = listed(tmp_path, f"{word},{HEAD}", f"2/3/2027 10:22,Mr. Kit Orr,9 Quince St,{PLACE}")
    columns = json.loads(addressing("check", path, "--json").stdout)["findings"]
    assert all(each["code"] != "column-unknown" for each in columns)


def test_a_time_of_day_and_month_in_either_order_is_later_only_in_both() -> None:
    def later(one: str, other: str) -> bool:
        return is_later(stamp_of(one), stamp_of(other))

    assert later("13/2/2027", "12/2/2027")
    assert not later("2/4/2027", "3/2/2027")
    assert not later("32/13/2027", "31/12/2026")
    assert stamp_of("never") == Stamp("never", (None, None))
