"""What a client writes to a whole table is kept for whom it names, and told until it is settled."""

import json
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess
from typing import Any

import openpyxl
import pytest

Run = Callable[..., CompletedProcess[str]]
Write = Callable[..., Path]
ROWS = (
    ("Mr. Hugo Farrenby and Guest", "3 Osier Row", "Portland", "OR", "97201"),
    ("Ms. Ottoline Grayling and Guest", "431 Weathervane Drive", "Bar Harbor", "ME", "04609"),
    ("Dr. Ingrid Coldwell and Guest", "22 Quarry Hill", "Duluth", "MN", "55802"),
    ("Mr. Hugo Ashgrove", "9 Mill Row", "Litchfield", "CT", "06759"),
)
TOLD = {"client-wrote", "client-answered", "client-adds"}


@pytest.fixture
def listed(addressing: Run, write_list: Write) -> Path:
    path = write_list(ROWS)
    assert addressing("questions", path).returncode == 0
    return path


def reply(run: Run, path: Path, said: str, name: str = "reply.txt") -> str:
    """What `answer` says of a reply to the letter."""
    letter = Path("guests-job/questions.txt").read_text("utf-8")
    mark = next(line for line in letter.splitlines() if "letter " in line)
    Path(name).write_text(f"{mark}\n\n{said}\n", "utf-8")
    return run("answer", path, name).stdout


def held(run: Run, path: Path) -> list[str]:
    homes = json.loads(run("lines", path, "--json").stdout)["households"]
    return [str(home["people"][0]["family"]) for home in homes if home["held"]]


def told(run: Run, path: Path) -> list[dict[str, Any]]:
    found = json.loads(run("check", path, "--json").stdout)["findings"]
    return [each for each in found if each["code"] in TOLD]


@pytest.mark.parametrize(
    ("said", "families"),
    [
        ("Hugo is bringing Julia Park", ["Farrenby"]),
        ("a, but Ottoline brings Ana Ruiz", ["Grayling"]),
        ("yes: Hugo: Julia Park; Ottoline: Omar Lake", ["Farrenby", "Grayling"]),
        ("Ingrid's guest is Omar Lake, of the others I don't know", ["Coldwell"]),
        ("Hugo Ashgrove brings somebody too", ["Ashgrove"]),
    ],
)
def test_words_at_a_table_hold_whom_they_name_in_it_before_others(
    addressing: Run, listed: Path, said: str, families: list[str]
) -> None:
    assert said in reply(addressing, listed, f"1: {said}")
    assert held(addressing, listed) == families
    assert all(said in each["text"] for each in told(addressing, listed))


def test_words_at_a_table_are_settled_by_the_answer_in_the_row_that_they_are_about(
    addressing: Run, listed: Path
) -> None:
    reply(addressing, listed, "1: Hugo is bringing Julia Park")
    assert "Dealt with" in reply(addressing, listed, "1.1: Ms. Julia Park", "later.txt")
    assert held(addressing, listed) == []


def test_words_at_a_table_that_name_nobody_are_told_every_time(
    addressing: Run, listed: Path
) -> None:
    reply(addressing, listed, "1: all of them bring their husbands")
    assert [each["code"] for each in told(addressing, listed)] == ["client-adds"]


@pytest.mark.parametrize("said", ["a", "not sure", "b"])
def test_a_proposed_answer_for_all_or_none_yet_is_no_words_to_keep(
    addressing: Run, listed: Path, said: str
) -> None:
    reply(addressing, listed, f"1: {said}")
    assert told(addressing, listed) == []


def test_words_in_the_workbook_s_row_for_all_are_kept_too(addressing: Run, listed: Path) -> None:
    book = openpyxl.load_workbook("guests-job/questions.xlsx")
    for page in book.worksheets:
        for row in page.iter_rows():
            if str(row[-1].value).startswith("all:"):
                headers = [cell.value for cell in page[2]]
                row[headers.index("Your answer")].value = "Hugo is bringing Julia Park"
    book.save("guests-job/questions.xlsx")
    assert addressing("questions", listed).returncode == 4  # it isn't read yet
    addressing("answer", listed, "guests-job/questions.xlsx")
    assert held(addressing, listed) == ["Farrenby"]
    assert addressing("questions", listed).returncode == 0
