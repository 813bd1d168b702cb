"""What this program writes, and what marks an open list, is refused as a guest list with a word."""

import json
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess

import openpyxl
import pytest

Run = Callable[..., CompletedProcess[str]]
Write = Callable[..., Path]
OWN = {
    "guests-job/questions.xlsx": "the workbook of questions",
    "guests-job/questions.txt": "the letter of questions",
    "guests-job/households.json": "data for programs",
    "guests-job/letters.json": "data for programs",
    "guests-job/manifest.json": "data for programs",
    "guests-job/counts.tsv": "the counts of a job",
    "guests-job/stuffing.tsv": "the stuffing list",
    "guests-job/stuffing.xlsx": "the stuffing list",
    "order.xlsx": "the counts of a job",
    "order.tsv": "the counts of a job",
}


@pytest.fixture
def job(addressing: Run, write_list: Write) -> Path:
    door = ("14 Larkmoor Lane", "Litchfield", "CT", "06759")
    path = write_list((("Hugo Penhew and Guest", *door), ("Ms. Odile Farrenby", *door)))
    addressing("questions", path)
    addressing("plates", path)
    for name in ("stuffing.tsv", "stuffing.xlsx"):
        addressing("stuffing", path, "--name", name)
    for name in ("order.tsv", "order.xlsx"):
        addressing("tally", path, "--table", name)
    return path


def fault(ran: CompletedProcess[str]) -> dict[str, str]:
    assert ran.returncode == 3, ran.stdout
    told: dict[str, str] = json.loads(ran.stderr.splitlines()[-1])["fault"]
    return told


def test_a_file_that_this_program_wrote_is_no_guest_list(addressing: Run, job: Path) -> None:
    assert job.exists()
    for name, what in OWN.items():
        told = fault(addressing("check", name, "--json"))
        assert told["code"] == "list-own-file", name
        assert what in told["text"]
        assert "Give the client's list" in told["mend"]


def test_a_filled_workbook_of_questions_saved_as_text_is_none_either(
    addressing: Run, job: Path, tmp_path: Path
) -> None:
    assert job.exists()
    page = openpyxl.load_workbook("guests-job/questions.xlsx")["Everyone"]
    rows = [[str(cell.value or "") for cell in row] for row in page.iter_rows()]
    path = tmp_path / "saved.csv"
    path.write_text("\n".join(";".join(row) for row in rows), "utf-8")
    assert fault(addressing("check", path, "--json"))["code"] == "list-own-file"


def test_a_letter_without_a_question_is_no_guest_list(addressing: Run, write_list: Write) -> None:
    addressing("questions", write_list())
    told = fault(addressing("check", "guests-job/questions.txt", "--json"))
    assert "the letter of questions" in told["text"]


def test_a_tidied_list_is_a_list(addressing: Run, job: Path) -> None:
    addressing("tidy", job, "--to", "tidy.xlsx")
    assert addressing("check", "tidy.xlsx").returncode != 3


def test_a_list_that_begins_with_a_bracket_is_a_list(addressing: Run, tmp_path: Path) -> None:
    path = tmp_path / "mail.txt"
    path.write_text("[x] Ms. Odile Penhew\n14 Larkmoor Lane\nLitchfield, CT 06759\n", "utf-8")
    assert addressing("check", path).returncode == 0


@pytest.mark.parametrize(
    ("mark", "marked"), [("~$guests.xlsx", "guests.xlsx"), (".~lock.guests.ods#", "guests.ods")]
)
@pytest.mark.parametrize("command", ["check", "questions", "plates"])
def test_the_mark_of_an_open_list_says_to_save_and_close_it(
    addressing: Run, tmp_path: Path, mark: str, marked: str, command: str
) -> None:
    path = tmp_path / mark
    path.write_bytes(b"\x0bBea Wexcombe" + b" " * 40)
    told = fault(addressing(command, path, "--json"))
    assert told["code"] == "list-open"
    assert f"{marked} is still open" in told["text"]
    assert f"close it, then give {marked}" in told["mend"]
