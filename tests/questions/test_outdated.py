"""A title that was answered goes with a respelled name; with another name its household waits."""

import json
from collections.abc import Callable, Mapping
from pathlib import Path
from subprocess import CompletedProcess
from typing import Any

import pytest

Run = Callable[..., CompletedProcess[str]]
Fill = Callable[[Path, Mapping[str, str]], Path]
AT = "14 Larkmoor Lane,Litchfield,CT,06759"
OTHERS = f"Mr. Hugh Carrow,9 Quarry Hill,Duluth,MN,55802\nUna Pike,3 {AT[3:]}\n"


def write(path: Path, name: str) -> Path:
    path.write_text(f"Name,Address,City,State,ZIP\n{name},{AT}\n{OTHERS}", "utf-8")
    return path


def told(run: Run, path: Path) -> dict[str, dict[str, Any]]:
    """By code what is found of the first row's household."""
    said = json.loads(run("check", path, "--json").stdout)["findings"]
    return {each["code"]: each for each in said if each["household"] == key_of(run, path)}


def key_of(run: Run, path: Path) -> str:
    key: str = json.loads(run("lines", path, "--json").stdout)["households"][0]["key"]
    return key


def printed(run: Run, path: Path, fill: Fill, ref: str = "title-missing:1") -> None:
    """A job in which the title was answered and all is on paper."""
    assert run("questions", path).returncode == 0
    book = path.with_name("guests-job") / "questions.xlsx"
    assert run("answer", path, fill(book, {ref: "Ms."})).returncode == 0
    assert run("plates", path).returncode == 0
    assert run("printed", path).returncode == 0


@pytest.mark.parametrize(
    ("first", "then"),
    [
        ("Ana Beltrán", "Anna Beltrán"),
        ("Ana Beltrán", "Ana Beltran"),
        ("Marisol Brandt", "Marisoll Brandt"),
        ("Kate Marlow", "Katherine Marlow"),
    ],
)
def test_a_title_holds_for_somebody_who_is_respelled_and_the_reprint_says_so(
    addressing: Run, tmp_path: Path, fill: Fill, first: str, then: str
) -> None:
    path = write(tmp_path / "guests.csv", f"{first} and Mr. Marcus O'Dell")
    printed(addressing, path, fill)
    write(path, f"{then} and Mr. Marcus O'Dell")
    assert f"Ms. {then} and Mr. Marcus O'Dell" in addressing("lines", path).stdout
    again = addressing("reprint", path)
    assert again.returncode == 0
    assert f"“Ms.” was said of {first}; it holds for {then}." in again.stdout


@pytest.mark.parametrize(
    "then", ["Eva Beltrán and Mr. Marcus O'Dell", "Mr. Marcus O'Dell and Eva Beltrán"]
)
def test_an_answer_for_another_name_holds_its_household_until_it_is_answered_or_dropped(
    addressing: Run, tmp_path: Path, fill: Fill, then: str
) -> None:
    path = write(tmp_path / "guests.csv", "Ana Beltrán and Mr. Marcus O'Dell")
    printed(addressing, path, fill)
    write(path, then)
    key = key_of(addressing, path)
    again = addressing("reprint", path)
    assert again.returncode == 1
    assert "“Ms.” was said of “Ana Beltrán”. Now the list has “Eva Beltrán”." in again.stdout
    assert told(addressing, path)["answer-stale"]["holds"]
    addressing("answer", path, "--set", "Hugh Carrow", "invited", "yes")
    assert told(addressing, path)["answer-stale"]["holds"], "the next answer doesn't lose it"
    kept = (tmp_path / "guests-job" / "decisions.toml").read_text("utf-8")
    at = told(addressing, path)["answer-stale"]["mend"].partition("'")[2].rpartition("'")[0]
    addressing("answer", path, "--undo", at)
    assert "answer-stale" not in told(addressing, path)
    (tmp_path / "guests-job" / "decisions.toml").write_text(kept, "utf-8")
    assert addressing("questions", path).returncode == 0
    book = tmp_path / "guests-job" / "questions.xlsx"
    addressing("answer", path, fill(book, {f"{key}:title-missing": "Mrs."}))
    assert "answer-stale" not in told(addressing, path)
    assert "Mrs. Eva Beltrán" in addressing("lines", path).stdout


def test_names_that_are_set_anew_end_the_wait(addressing: Run, tmp_path: Path, fill: Fill) -> None:
    path = write(tmp_path / "guests.csv", "Ana Beltrán and Mr. Marcus O'Dell")
    printed(addressing, path, fill)
    write(path, "Eva Beltrán and Mr. Marcus O'Dell")
    both = "Ms. Eva Beltrán and Mr. Marcus O'Dell"
    assert addressing("answer", path, "--set", "A2", "names", both).returncode == 0
    assert "answer-stale" not in told(addressing, path)


def test_an_answer_that_let_the_list_stand_holds_nobody(
    addressing: Run, tmp_path: Path, fill: Fill
) -> None:
    path = write(tmp_path / "guests.csv", "Ana Beltrán and Mr. Marcus O'Dell")
    assert addressing("questions", path).returncode == 0
    book = tmp_path / "guests-job" / "questions.xlsx"
    assert addressing("answer", path, fill(book, {"title-missing:1": "No title"})).returncode == 0
    write(path, "Eva Beltrán and Mr. Marcus O'Dell")
    assert not told(addressing, path)["answer-stale"]["holds"]


def test_a_reprint_shows_what_is_still_asked_of_those_whom_it_prints(
    addressing: Run, tmp_path: Path
) -> None:
    path = write(tmp_path / "guests.csv", "Ms. Ana Beltrán and Mr. Marcus O'Dell")
    assert addressing("plates", path).returncode == 0
    assert addressing("printed", path).returncode == 0
    write(path, "Ana Beltrán and Mr. Marcus O'Dell")
    said = addressing("reprint", path).stdout
    assert "Ana Beltrán: No title is given." in said
    assert "Una Pike: No title" not in said, "hers is on paper already"
