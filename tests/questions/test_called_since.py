"""A later letter calls everybody as they are called since something was decided of them."""

import json
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess

import openpyxl
import pytest

from addressing.questions.asking import mark_of

Run = Callable[..., CompletedProcess[str]]
Write = Callable[..., Path]

DOOR = ("Larkmoor Lane", "Litchfield", "CT", "06759")
CELLS = (
    "Tobias and Odile Wexcombe and Family",
    "Ottoline Grayling and Guest",
    "Mr. Bram Vesper and Ms. Roz Tarn",
)


@pytest.fixture
def path(addressing: Run, write_list: Write) -> Path:
    """A list that was asked of once, and in which names and an address were corrected then."""
    path = write_list([(cell, f"{2 * at} {DOOR[0]}", *DOOR[1:]) for at, cell in enumerate(CELLS)])
    assert addressing("questions", path).returncode == 0
    said = (
        ("A2", "names", "Tobias Wexcombe and Linnet Orr"),
        ("A3", "names", "Ottoline Greyling"),
        ("A4", "street", "9 Vesper Street"),
    )
    more = [word for each in said for word in ("--set", *each)]
    assert addressing("answer", path, *more).returncode == 0
    for left in ("questions.xlsx", "questions.txt"):
        (Path("guests-job") / left).unlink()
    return path


def test_the_letter_names_nobody_by_the_names_that_were_corrected(
    addressing: Run, path: Path
) -> None:
    assert addressing("questions", path).returncode == 0
    letter = (Path("guests-job") / "questions.txt").read_text("utf-8")
    for name in ("Linnet Orr", "Guest of Ottoline Greyling", "Tobias Wexcombe, Linnet Orr, Family"):
        assert name in letter
    for name in ("Odile", "Grayling"):
        assert name not in letter


def test_the_workbook_shows_everybody_as_they_are_called_and_where_they_live_now(
    addressing: Run, path: Path
) -> None:
    assert addressing("questions", path).returncode == 0
    book = openpyxl.load_workbook(Path("guests-job") / "questions.xlsx")
    rows = [[str(cell.value) for cell in row] for page in book for row in page.iter_rows()]
    cells = "\n".join(cell for row in rows for cell in row)
    assert "Ottoline Greyling, Guest" in cells
    assert "9 Vesper Street, Litchfield, CT 06759" in cells
    for gone in ("Odile", "Grayling", "--set"):
        assert gone not in cells


def test_an_answer_to_a_letter_from_before_the_correction_still_holds(
    addressing: Run, path: Path, tmp_path: Path
) -> None:
    asked = json.loads(addressing("questions", path, "--json").stdout)["questions"]
    ref = next(each["question"] for each in asked if "guest-unnamed" in each["question"])
    answers = tmp_path / "a.toml"
    # The mark is that of the words of the first letter, "Guest of Ottoline Grayling".
    mark = mark_of("Guest of Ottoline Grayling")
    answers.write_text(
        f'[[answer]]\nquestion = "{ref}"\nanswer = "Mr. Hugo Sallow"\nmark = "{mark}"\n', "utf-8"
    )
    done = addressing("answer", path, answers)
    assert done.returncode == 0, done.stdout


def test_who_was_corrected_away_is_asked_of_no_more_and_who_stays_is(
    addressing: Run, path: Path
) -> None:
    asked = json.loads(addressing("questions", path, "--json").stdout)["questions"]
    titles = [each["listed"] for each in asked if ":title-" in each["question"]]
    assert sorted(titles) == ["Linnet Orr", "Ottoline Greyling", "Tobias Wexcombe"]


def test_check_names_those_without_a_title_as_they_are_called_since(
    addressing: Run, path: Path
) -> None:
    found = json.loads(addressing("check", path, "--json").stdout)["findings"]
    texts = [each["text"] for each in found if each["code"] == "title-missing"]
    assert "No title is given: Tobias Wexcombe." in texts
    assert not [text for text in texts if "Odile" in text]
