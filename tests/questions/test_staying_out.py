"""Who was left out stays so while the list says of them what it said then; else it is asked."""

import csv
import json
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess
from typing import Any

import pytest

Run = Callable[..., CompletedProcess[str]]
HEADER = ("Name", "Street", "City", "State", "ZIP", "Notes")
OTHERS = (
    ("Ms. Odile Farrenby", "431 Weathervane Drive", "Bar Harbor", "ME", "04609", ""),
    ("Mr. and Mrs. Tobias Penhew", "14 Larkmoor Lane", "Litchfield", "CT", "06759", ""),
)
SANDS = ("Mr. Ivo Sands", "9 Quarry Hill", "Rutland", "VT", "05701")
AWAY = "moved away, not coming"
ELSEWHERE = ("100 Church Street", "Burlington", "VT", "05401")
NOBODY = ("", "", "", "", "")
PART = "Without the plus-one, else as listed"
OUT = "No, leave out the whole household"


class Desk:
    """A job whose list comes in several versions; each has the same two others."""

    def __init__(self, run: Run, folder: Path) -> None:
        self.run, self.folder, self.path = run, folder, folder / "v1.csv"
        self.job = ("--to", folder / "job")

    def read(self, name: str, *row: str) -> "Desk":
        """A version of the list, with a row of its own unless it has none."""
        self.path = self.folder / name
        rows = [HEADER, *OTHERS, *([row] if row else [])]
        with self.path.open("w", newline="", encoding="utf-8") as file:
            csv.writer(file).writerows(rows)
        return self

    def say(self, code: str, answer: str) -> CompletedProcess[str]:
        """Answer what is asked under a code."""
        told = self.run("questions", self.path, "--json", *self.job).stdout
        refs = [q["question"] for q in json.loads(told)["questions"] if f":{code}" in q["question"]]
        back = self.folder / "back.toml"
        back.write_text(
            f"[[answer]]\nquestion = {json.dumps(refs[0])}\nanswer = {json.dumps(answer)}\n"
        )
        return self.answer(back)

    def answer(self, *more: object) -> CompletedProcess[str]:
        return self.run("answer", self.path, *more, *self.job)

    def homes(self) -> list[dict[str, Any]]:
        told = self.run("lines", self.path, "--json", *self.job).stdout
        return list(json.loads(told)["households"])

    def third(self) -> str:
        """What becomes of the household that isn't one of the two others."""
        homes = self.homes()
        assert not any(home["held"] for home in homes[:2])
        if len(homes) == 2:
            return "out"
        return "held" if homes[2]["held"] else "printed"

    def codes(self) -> list[str]:
        told = json.loads(self.run("check", self.path, "--json", *self.job).stdout)["findings"]
        mine = ("remark-gone", "correction-stale", "answer-stale", "left-out")
        return sorted(each["code"] for each in told if each["code"] in mine)


@pytest.fixture
def desk(addressing: Run, tmp_path: Path) -> Desk:
    """A job in a folder of its own."""
    return Desk(addressing, tmp_path)


@pytest.mark.parametrize(
    "then",
    [
        (*SANDS, ""),
        (*SANDS, "coming after all"),
        (SANDS[0], *ELSEWHERE, ""),
        (SANDS[0], *ELSEWHERE, AWAY),
        (*SANDS, f"{AWAY}; coming after all"),
    ],
)
def test_who_was_left_out_for_a_remark_waits_once_the_list_says_something_else(
    desk: Desk, then: tuple[str, ...]
) -> None:
    desk.read("v1.csv", *SANDS, AWAY).say("marker-in-list", OUT)
    assert desk.third() == "out"
    desk.read("v2.csv", *then)
    assert desk.third() == "held"
    desk.answer("--set", "Farrenby", "city", "Bar Harbor")
    assert desk.third() == "held", "another answer loses nothing"


@pytest.mark.parametrize(
    "then",
    [
        (*SANDS, AWAY),
        (*SANDS, "Moved away, not coming."),
        ("Mr. Ivo Sands", "9 Quarry Hl", "Rutland", "Vermont", "05701", AWAY),
        ("Sands, Ivo (Mr.)", *SANDS[1:], AWAY),
    ],
)
def test_who_was_left_out_stays_out_where_the_list_says_the_same_in_other_letters(
    desk: Desk, then: tuple[str, ...]
) -> None:
    desk.read("v1.csv", *SANDS, AWAY).say("marker-in-list", OUT)
    assert desk.read("v2.csv", *then).third() == "out"


def test_who_was_left_out_for_want_of_an_address_waits_when_one_comes(desk: Desk) -> None:
    desk.read("v1.csv", SANDS[0], *NOBODY).say("address-missing", "Leave them out")
    assert desk.third() == "out"
    assert desk.read("v2.csv", SANDS[0], *NOBODY).third() == "out"
    assert desk.read("v3.csv", *SANDS, "").third() == "held"


@pytest.mark.parametrize("then", [(SANDS[0], *ELSEWHERE, ""), (*SANDS, "coming after all")])
def test_whom_the_designer_left_out_waits_once_the_list_says_something_else(
    desk: Desk, then: tuple[str, ...]
) -> None:
    desk.read("v1.csv", *SANDS, "").answer("--set", "Ivo Sands", "invited", "no")
    assert desk.third() == "out"
    assert desk.read("v2.csv", *then).third() == "held"
    assert "correction-stale" in desk.codes()
    told = desk.run("check", desk.path, *desk.job).stdout
    assert "Keep it: answer --settled '--set!1'" in told


@pytest.mark.parametrize(
    ("more", "after"),
    [(("--settled", "back.toml!answer[1]"), "out"), (("--undo", "back.toml!answer[1]"), "printed")],
)
def test_it_is_asked_once(desk: Desk, more: tuple[str, str], after: str) -> None:
    desk.read("v1.csv", *SANDS, AWAY).say("marker-in-list", OUT)
    desk.read("v2.csv", SANDS[0], *ELSEWHERE, "")
    assert desk.third() == "held"
    assert desk.answer(*more).returncode == 0
    for _ in range(2):
        assert desk.third() == after
        assert desk.answer("--set", "Farrenby", "city", "Bar Harbor").returncode == 0
    assert desk.read("v3.csv", SANDS[0], *ELSEWHERE, "").third() == after


@pytest.mark.parametrize(
    "back",
    [
        (*SANDS, ""),
        (SANDS[0], *ELSEWHERE, ""),
        ("Mr. Ivo and Mrs. Lena Sands", *ELSEWHERE, ""),
        ("Ms. Lena Sands", *SANDS[1:], ""),
    ],
)
def test_who_was_left_out_left_the_list_and_comes_back_waits(
    desk: Desk, back: tuple[str, ...]
) -> None:
    desk.read("v1.csv", *SANDS, AWAY).say("marker-in-list", OUT)
    desk.read("v2.csv").answer("--set", "Farrenby", "city", "Bar Harbor")
    assert desk.codes() == [], "nobody needs to be told of who isn't on the list"
    desk.read("v3.csv", *back)
    assert desk.third() == "held"
    desk.answer("--set", "Farrenby", "city", "Bar Harbor")
    assert desk.third() == "held"


@pytest.mark.parametrize(
    ("more", "after"),
    [
        (("--settled", "back.toml!answer[1]"), "out"),
        (("--undo", "back.toml!answer[1]"), "printed"),
        (("--set", "Lena Sands", "invited", "yes"), "printed"),
        (("--set", "Lena Sands", "invited", "no"), "out"),
    ],
)
def test_under_a_new_key_it_is_asked_once_too(
    desk: Desk, more: tuple[str, ...], after: str
) -> None:
    desk.read("v1.csv", *SANDS, AWAY).say("marker-in-list", OUT)
    desk.read("v2.csv", "Ms. Lena Sands", *SANDS[1:], "")
    assert desk.third() == "held"
    assert desk.answer(*more).returncode == 0
    for _ in range(2):
        assert desk.third() == after
        assert desk.answer("--set", "Farrenby", "city", "Bar Harbor").returncode == 0


def test_part_of_a_household_that_a_note_left_out_waits_when_the_note_is_gone(desk: Desk) -> None:
    both = ("Ms. Maud Tressel and Guest", *SANDS[1:])
    desk.read("v1.csv", *both, "plus one declined").say("marker-in-list", PART)
    assert desk.third() == "printed"
    assert desk.read("v2.csv", *both, "").third() == "held"
    assert desk.read("v3.csv", "Ms. Maud Tressel", *SANDS[1:], "").third() == "printed"
