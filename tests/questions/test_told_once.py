"""An answer that no longer holds is told once, of whom it was said, and with what is to be done."""

import json
from collections.abc import Callable, Mapping
from pathlib import Path
from subprocess import CompletedProcess

import pytest

Fill = Callable[[Path, Mapping[str, str]], Path]
Run = Callable[..., CompletedProcess[str]]
Write = Callable[..., Path]

NAMES = ("Mr. Ansel Brandreth", "Mr. Corin Umber", "Mr. Theo Vesper", "Ms. Ida Quenby")
DOOR = ("Larkmoor Lane", "Litchfield", "CT", "06759")


def rows(names: Mapping[str, int]) -> list[tuple[str, ...]]:
    return [(name, f"{number} {DOOR[0]}", *DOOR[1:]) for name, number in names.items()]


@pytest.fixture
def answered(addressing: Run, write_list: Write, fill: Fill) -> tuple[Path, Path]:
    """(a list of four with a guest each, the workbook with one answer to all of them, kept)."""
    path = write_list(rows({f"{name} and Guest": 2 * at for at, name in enumerate(NAMES, 1)}))
    assert addressing("questions", path).returncode == 0
    answers = fill(
        Path("guests-job/questions.xlsx"), {"all:guest-unnamed": "No, “and Guest” for all"}
    )
    assert addressing("answer", path, answers).returncode == 0
    return path, answers


@pytest.mark.parametrize("command", ["check", "plates", "answer"])
def test_an_answer_to_a_whole_table_is_told_of_each_household_that_left(
    addressing: Run, answered: tuple[Path, Path], write_list: Write, command: str
) -> None:
    write_list(rows({f"{NAMES[0]} and Guest": 2, f"{NAMES[3]} and Guest": 8}))
    path, answers = answered
    more = (answers,) if command == "answer" else ()
    told = addressing(command, path, *more).stdout.splitlines()
    said = [line for line in told if "is fine”" in line]
    assert len(said) == 2
    for name, line in zip(("Corin Umber", "Theo Vesper"), said, strict=True):
        assert f"“and Guest” is fine” was said of {name}, no longer on the list." in line


def test_two_answers_of_one_household_that_would_be_told_alike_are_one_line(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    path = write_list(rows({"Tobias and Odile Wexcombe": 4, "Ms. Ida Quenby": 8}))
    told = json.loads(addressing("questions", path, "--json").stdout)
    refs = [ref for matter in told["matters"] for ref in matter["questions"]]
    both = [ref for ref in refs if ":title-missing:" in ref]
    assert len(both) == 2
    kept = "".join(
        f'[[answer]]\nquestion = "{ref}"\nanswer = "No title"\nfile = "a.xlsx"\n'
        f'sheet = "a.xlsx!Titles"\ncell = "E4"\nmark = "00000000"\n'
        for ref in both
    )
    (tmp_path / "kept.toml").write_text(kept, "utf-8")
    for where in ("answer", "plates"):
        if where == "plates":
            (Path("guests-job") / "decisions.toml").write_text(kept, "utf-8")
        more = (tmp_path / "kept.toml",) if where == "answer" else ()
        lines = addressing(where, path, *more).stdout.splitlines()
        assert len([line for line in lines if "“No title”" in line]) == 1, where


def test_words_that_are_no_answer_are_told_once_with_what_is_to_be_done(
    addressing: Run, answered: tuple[Path, Path], tmp_path: Path
) -> None:
    path, _ = answered
    told = json.loads(addressing("check", path, "--json").stdout)
    ref = next(each["question"] for each in told["decisions"])
    answers = tmp_path / "more.toml"
    answers.write_text(
        f'[[answer]]\nquestion = "{ref}"\nanswer = "the tall one with 2 dogs"\n', "utf-8"
    )
    said = addressing("answer", path, answers).stdout.splitlines()
    lines = [line for line in said if "2 dogs" in line]
    assert len(lines) == 1
    assert "can't be taken as an answer here. The household waits. Correct it" in lines[0]


def test_the_way_to_free_a_household_names_its_row_where_an_answer_holds_it(
    addressing: Run, answered: tuple[Path, Path], write_list: Write
) -> None:
    path, _ = answered
    assert addressing("answer", path, "--set", "A3", "street", "9 Vesper Street").returncode == 0
    write_list(
        rows({f"{name} and Guest": 2 * at + 70 for at, name in enumerate(NAMES, 1)}),
    )
    told = addressing("plates", path).stdout
    assert "was set when the list had" in told
    assert "--set A3 WHAT WORDS" in told
