"""What letters before names mean is asked once for each, and the answer holds for all of them."""

import json
import subprocess
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

import pytest

Run = Callable[..., subprocess.CompletedProcess[str]]
Fill = Callable[[Path, Mapping[str, str]], Path]
PLACE = "Litchfield,CT,06759"
LIST = f"""T,Name,Street,City,State,ZIP
MM,Kit Orr Jr.,1 Larkmoor Lane,{PLACE}
W,Odile Penhew,2 Larkmoor Lane,{PLACE}
MM,Bram and Ida Vale,3 Larkmoor Lane,{PLACE}
D,Linnet Lorne,4 Larkmoor Lane,{PLACE}
Ms.,Nina Quince,5 Larkmoor Lane,{PLACE}
"""


@pytest.fixture
def path(tmp_path: Path) -> Path:
    path = tmp_path / "guests.csv"
    path.write_text(LIST, encoding="utf-8")
    return path


def asked(addressing: Run, path: Path) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = json.loads(addressing("questions", path, "--json").stdout)[
        "questions"
    ]
    return found


def letters(addressing: Run, path: Path) -> dict[str, dict[str, Any]]:
    """The open questions by the letters that they are about."""
    return {row["text"].split("“")[1].split("”")[0]: row for row in asked(addressing, path)}


def outer(addressing: Run, path: Path) -> dict[str, str]:
    """The first line of each envelope by its door; "waits" before those who do."""
    homes = json.loads(addressing("lines", path, "--json").stdout)["households"]
    return {
        home["address"]["street"].partition(" ")[0]: ("waits: " if home["held"] else "")
        + home["pieces"][0]["lines"][0]["text"]
        for home in homes
    }


def answered(addressing: Run, fill: Fill, path: Path, **means: str) -> str:
    """Fill in what letters mean and read it back; what the command says."""
    open_ = letters(addressing, path)
    words = {open_[said]["question"]: answer for said, answer in means.items()}
    filled = fill(path.parent / "guests-job" / "questions.xlsx", words)
    return addressing("answer", path, filled).stdout


def test_each_letter_is_asked_once_in_a_table_and_all_wait(addressing: Run, path: Path) -> None:
    rows = letters(addressing, path)
    assert list(rows) == ["MM", "W", "D"]
    assert rows["MM"]["answers"][0] == "Mr. and Mrs."
    assert rows["W"]["answers"][:2] == ["Mrs.", "Ms."]
    assert [line[:5] for line in outer(addressing, path).values()] == ["waits"] * 4 + ["Ms. N"]


def test_what_they_mean_holds_for_all_and_for_who_comes_with_the_next_list(
    addressing: Run, fill: Fill, path: Path
) -> None:
    answered(addressing, fill, path, MM="Mr. and Mrs.", W="Mrs.", D="Dr.")
    assert asked(addressing, path) == []
    said = {
        "1": "Mr. and Mrs. Kit Orr, Jr.",
        "2": "Mrs. Odile Penhew",
        "3": "Mr. and Mrs. Bram Vale",
        "4": "Doctor Linnet Lorne",
        "5": "Ms. Nina Quince",
    }
    assert outer(addressing, path) == said
    more = LIST.replace("Odile Penhew", "Odile Farrenby") + f"MM,Abe Thorne,6 Elm Row,{PLACE}\n"
    path.write_text(more, encoding="utf-8")
    now = {**said, "2": "Mrs. Odile Farrenby", "6": "Mr. and Mrs. Abe Thorne"}
    assert outer(addressing, path) == now


def test_no_title_and_a_title_of_ones_own_are_answers_and_other_words_are_none(
    addressing: Run, fill: Fill, path: Path
) -> None:
    told = answered(addressing, fill, path, MM="=The Hon. and Mrs.", W="=widow", D="No title")
    assert "It gives no title" in told
    assert list(letters(addressing, path)) == ["W"]
    lines = outer(addressing, path)
    assert lines["1"] == "The Honorable Kit Orr, Jr. and Mrs. Orr"
    assert lines["2"] == "waits: Odile Penhew"
    assert lines["4"] == "Linnet Lorne"


def test_who_is_given_a_title_or_names_waits_no_longer(addressing: Run, path: Path) -> None:
    assert addressing("answer", path, "--set", "B3", "title", "Ms.").returncode == 0
    addressing("answer", path, "--set", "B2", "names", "Mr. Kit Orr and Ms. Ada Thorne")
    lines = outer(addressing, path)
    assert lines["2"] == "Ms. Odile Penhew"
    assert lines["1"] == "Mr. Kit Orr and Ms. Ada Thorne"
    assert lines["3"].startswith("waits")


def test_an_answer_is_taken_back(addressing: Run, fill: Fill, path: Path) -> None:
    answered(addressing, fill, path, D="Dr.")
    assert outer(addressing, path)["4"] == "Doctor Linnet Lorne"
    assert list(letters(addressing, path)) == ["MM", "W"]
    kept = (path.parent / "guests-job" / "decisions.toml").read_text("utf-8")
    ref = kept.partition('question = "')[2].partition('"')[0]
    assert addressing("answer", path, "--undo", ref).returncode == 0
    assert outer(addressing, path)["4"] == "waits: Linnet Lorne"
