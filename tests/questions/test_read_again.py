"""An old file of answers that is read again takes nothing from what was decided since."""

import json
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess
from typing import Any

import openpyxl
import pytest

Run = Callable[..., CompletedProcess[str]]
LIST = """Name,Street,City,State,ZIP
Ms. Ottoline Vole,431 Weathervane Drive,Bar Harbor,ME,04609
Dr. Ingrid Coldwell,22 Quarry Hill,Duluth,MN,55802
Mr. Hugo Farrenby,3 Osier Row,Portland,ME,97201
"""
OLD, OWN, NEWER = (f"{number} Mill Row, Litchfield, CT 06759" for number in (9, 77, 41))


@pytest.fixture
def path(addressing: Run, tmp_path: Path) -> Path:
    (tmp_path / "guests.csv").write_text(LIST, "utf-8")
    assert addressing("questions", tmp_path / "guests.csv").returncode == 0
    return tmp_path / "guests.csv"


def book(address: str, name: str = "old.xlsx", who: str = "Ingrid") -> str:
    """A workbook in which the client gives a new address."""
    workbook = openpyxl.load_workbook("guests-job/questions.xlsx")
    page = workbook["Everyone"]
    columns = {str(cell.value): place for place, cell in enumerate(page[2])}
    for row in page.iter_rows(min_row=3):
        if who in str(row[0].value):
            row[columns["New address"]].value = address
    workbook.save(name)
    return name


def told(run: Run, command: str, path: Path) -> dict[str, Any]:
    return dict(json.loads(run(command, path, "--json").stdout))


def ingrid(run: Run, path: Path) -> dict[str, Any]:
    homes = told(run, "lines", path)["households"]
    return dict(next(home for home in homes if home["people"][0]["family"] == "Coldwell"))


def street(run: Run, path: Path) -> str:
    return str(ingrid(run, path)["address"]["street"])


def held(run: Run, path: Path) -> bool:
    return bool(ingrid(run, path)["held"])


def test_a_correction_stands_when_the_old_workbook_is_read_again_and_that_is_told(
    addressing: Run, path: Path
) -> None:
    addressing("answer", path, book(OLD))
    addressing("answer", path, "--set", "Coldwell", "address", OWN)
    for _ in range(2):
        done = addressing("answer", path, "old.xlsx")
        assert done.returncode == 0, done.stderr
        assert done.stdout.startswith("0 of 1 answers hold")
        assert "Kept your correction of the address of Ingrid Coldwell" in done.stdout
        assert f"old.xlsx says “{OLD}” as before" in done.stdout
        assert street(addressing, path) == "77 Mill Row"
        assert not held(addressing, path)


def test_parts_that_were_corrected_stand_beside_an_old_whole_address(
    addressing: Run, path: Path
) -> None:
    addressing("answer", path, book(OLD))
    addressing("answer", path, "--set", "Coldwell", "street", "5 Elm Street")
    addressing("answer", path, "old.xlsx")
    assert street(addressing, path) == "5 Elm Street"
    assert not held(addressing, path)


def test_a_new_answer_that_says_otherwise_holds_until_it_is_settled(
    addressing: Run, path: Path
) -> None:
    addressing("answer", path, book(OLD))
    addressing("answer", path, "--set", "Coldwell", "address", OWN)
    done = addressing("answer", path, book(NEWER))
    assert done.returncode == 1
    assert f"The client says “{NEWER}”; set before: “{OWN}”" in done.stdout
    assert street(addressing, path) == "77 Mill Row"
    assert held(addressing, path)
    found = told(addressing, "check", path)["findings"]
    (one,) = [each for each in found if each["code"] == "correction-gainsaid"]
    place = f"{one['sheet']}!{one['cell']}"
    assert addressing("answer", path, "--settled", place).returncode == 0
    assert not held(addressing, path)
    assert addressing("answer", path, "old.xlsx").returncode == 0
    assert not held(addressing, path)
    assert street(addressing, path) == "77 Mill Row"


def test_a_contradiction_is_settled_by_setting_it_again(addressing: Run, path: Path) -> None:
    addressing("answer", path, "--set", "Coldwell", "address", OWN)
    addressing("answer", path, book(NEWER))
    assert held(addressing, path)
    addressing("answer", path, "--set", "Coldwell", "address", NEWER)
    assert not held(addressing, path)
    assert street(addressing, path) == "41 Mill Row"


def test_an_answer_that_agrees_with_a_correction_is_no_contradiction(
    addressing: Run, path: Path
) -> None:
    addressing("answer", path, "--set", "Coldwell", "address", OWN)
    assert addressing("answer", path, book(OWN)).returncode == 0
    assert not held(addressing, path)


def test_a_correction_beside_a_file_in_one_command_is_the_later_one(
    addressing: Run, path: Path
) -> None:
    done = addressing("answer", path, book(OLD), "--set", "Coldwell", "address", OWN)
    assert done.returncode == 0
    assert "Kept your correction" in done.stdout
    assert street(addressing, path) == "77 Mill Row"
    addressing("answer", path, "old.xlsx")
    assert street(addressing, path) == "77 Mill Row"


def test_a_later_answer_of_the_client_stands_beside_her_old_file(
    addressing: Run, path: Path
) -> None:
    addressing("answer", path, book(OLD))
    assert addressing("answer", path, book(NEWER, "new.xlsx")).returncode == 0
    assert street(addressing, path) == "41 Mill Row"
    assert "Kept the later answer" in addressing("answer", path, "old.xlsx").stdout
    assert street(addressing, path) == "41 Mill Row"
    addressing("answer", path, book("5 Elm Street, Litchfield, CT 06759"))
    assert street(addressing, path) == "5 Elm Street"


def test_a_correction_taken_back_gives_the_clients_answer_again(
    addressing: Run, path: Path
) -> None:
    addressing("answer", path, book(OLD))
    addressing("answer", path, "--set", "Coldwell", "address", OWN)
    done = addressing("answer", path, "--undo", "Coldwell:address")
    assert f"What old.xlsx says holds again: “{OLD}”" in done.stdout
    assert street(addressing, path) == "9 Mill Row"
    addressing("answer", path, "--set", "Coldwell", "address", OWN)
    addressing("answer", path, "--undo", "Coldwell")
    assert street(addressing, path) == "22 Quarry Hill"
    addressing("answer", path, "old.xlsx")
    assert street(addressing, path) == "9 Mill Row"


def test_a_new_answer_to_a_question_that_was_corrected_holds_where_it_says_otherwise(
    addressing: Run, path: Path
) -> None:
    asked = told(addressing, "questions", path)["questions"]
    zip_asked = next(each for each in asked if "zip-not-in-state" in each["codes"])
    addressing("answer", path, "--set", "Farrenby", "postcode", "04101")
    answer = f'[[answer]]\nquestion = "{zip_asked["question"]}"\nanswer = '
    Path("a.toml").write_text(f'{answer}"{zip_asked["answers"][0]}"\n', "utf-8")
    assert addressing("answer", path, "a.toml").returncode == 1
    homes = told(addressing, "lines", path)["households"]
    (hugo,) = [home for home in homes if home["people"][0]["family"] == "Farrenby"]
    assert hugo["held"]
    assert (hugo["address"]["region"], hugo["address"]["postcode"]) == ("ME", "04101")


def test_what_was_replaced_is_no_answer_that_nobody_has_read(addressing: Run, path: Path) -> None:
    book(OLD, "guests-job/questions.xlsx")
    addressing("answer", path, "guests-job/questions.xlsx")
    addressing("answer", path, "--set", "Coldwell", "address", OWN)
    assert addressing("questions", path).returncode == 0


def letter_answered(run: Run, path: Path, said: str, name: str) -> CompletedProcess[str]:
    """A reply to the one question of a letter."""
    letter = Path("guests-job/questions.txt").read_text("utf-8")
    mark = next(line for line in letter.splitlines() if "letter " in line)
    Path(name).write_text(f"{mark}\n\n1: {said}\n", "utf-8")
    return run("answer", path, name)


@pytest.fixture
def moved(addressing: Run, tmp_path: Path) -> Path:
    rows = LIST.replace("ZIP\n", "ZIP,Notes\n").replace("55802\n", "55802,moved to Litchfield\n")
    (tmp_path / "guests.csv").write_text(rows, "utf-8")
    assert addressing("questions", tmp_path / "guests.csv").returncode == 0
    return tmp_path / "guests.csv"


@pytest.mark.parametrize("name", ["first.txt", "first again.txt"])
def test_an_answer_that_could_not_be_taken_takes_nothing_from_a_later_one_when_read_again(
    addressing: Run, moved: Path, name: str
) -> None:
    words = "somewhere on Mill Row I think, please check"
    letter_answered(addressing, moved, words, "first.txt")
    assert held(addressing, moved)
    letter_answered(addressing, moved, OLD, "second.txt")
    before = Path("guests-job/decisions.toml").read_text("utf-8")
    done = letter_answered(addressing, moved, words, name)
    assert "Kept the later answer of Ingrid Coldwell" in done.stdout
    assert Path("guests-job/decisions.toml").read_text("utf-8") == before
    assert street(addressing, moved) == "9 Mill Row"
    assert not held(addressing, moved)


def test_a_later_answer_that_can_t_be_taken_leaves_what_was_decided_and_is_asked_about(
    addressing: Run, moved: Path
) -> None:
    letter_answered(addressing, moved, OLD, "first.txt")
    words = "they may have moved on, I think"
    letter_answered(addressing, moved, words, "second.txt")
    assert street(addressing, moved) == "9 Mill Row"
    assert held(addressing, moved)
    asked = told(addressing, "questions", moved)["questions"]
    assert [each["text"] for each in asked if words in each["text"]]
