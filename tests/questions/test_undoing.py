"""A designer names a household as she knows it, corrects it, and takes one decision back."""

import json
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess
from typing import Any

import pytest

Run = Callable[..., CompletedProcess[str]]
OTHER = "10 Birchbark Trail"
LIST = """Name,Address,City,State,ZIP
Mr. Tobias Wexcombe,14 Larkmoor Lane,Litchfield,CT,06759
Odile Farrenby,9 Birchbark Trail,Duluth,MN,55802
The Penhew Family,431 Weathervane Drive,Bar Harbor,ME,04609
Mr. Rufus Gray,3 Birchbark Trail,Duluth,MN,55802
Mrs. Rufus Gray,77 Larkmoor Lane,Litchfield,CT,06759
Ms. Odile Gray,5 Birchbark Trail,Duluth,MN,55802
Ms. Odile Gray,79 Larkmoor Lane,Litchfield,CT,06759
"""


@pytest.fixture
def path(tmp_path: Path) -> Path:
    (tmp_path / "guests.csv").write_text(LIST, "utf-8")
    return tmp_path / "guests.csv"


def told(run: Run, command: str, path: Path) -> dict[str, Any]:
    return dict(json.loads(run(command, path, "--json").stdout))


def decisions(run: Run, path: Path) -> list[str]:
    return [each["answer"] for each in told(run, "check", path)["decisions"]]


def test_a_household_is_named_by_the_plain_name_of_one_in_it(addressing: Run, path: Path) -> None:
    done = addressing("answer", path, "--set", "odile farrenby", "street", "10 Birchbark Trail")
    assert done.returncode == 0
    assert "the street of Odile Farrenby: “10 Birchbark Trail” is set" in done.stdout
    assert decisions(addressing, path) == ["10 Birchbark Trail"]


def test_a_name_of_two_households_is_refused_with_both_their_cells(
    addressing: Run, path: Path
) -> None:
    done = addressing("answer", path, "--set", "Odile Gray", "street", "10 Birchbark Trail")
    assert done.returncode == 2
    assert "row 7" in done.stderr
    assert "row 8" in done.stderr


def test_lines_tell_the_cell_that_names_a_household(addressing: Run, path: Path) -> None:
    shown = addressing("lines", path).stdout.splitlines()
    assert any("Odile Farrenby" in line and "A3" in line for line in shown)


def test_one_decision_is_taken_back_and_the_others_hold(addressing: Run, path: Path) -> None:
    said = ("--set", "A2", "street", "15 Larkmoor Lane", "--set", "A3", "street", OTHER)
    named = ("--set", "A2", "names", "Mr. Toby Wexcombe")
    assert addressing("answer", path, *said, *named).returncode == 0
    done = addressing("answer", path, "--undo", "Tobias Wexcombe:street")
    assert done.returncode == 0
    assert "“15 Larkmoor Lane” is taken back" in done.stdout
    assert "The client adds" not in done.stdout
    assert sorted(decisions(addressing, path)) == [OTHER, "Mr. Toby Wexcombe"]
    assert addressing("answer", path, "--undo", "A2").returncode == 0
    assert decisions(addressing, path) == [OTHER]


def test_an_answer_taken_back_is_asked_again(addressing: Run, path: Path) -> None:
    before = told(addressing, "questions", path)["questions"]
    title = next(each["question"] for each in before if "title-missing" in each["question"])
    (path.parent / "a.toml").write_text(f'[[answer]]\nquestion = "{title}"\nanswer = "Ms."\n')
    assert addressing("answer", path, path.parent / "a.toml").returncode in (0, 1)
    assert title not in json.dumps(told(addressing, "questions", path)["questions"])
    assert addressing("answer", path, "--undo", "Odile Farrenby:title").returncode == 0
    assert told(addressing, "questions", path)["questions"] == before


@pytest.mark.parametrize("name", ["Nobody Known", "A2", "A2:names", "Odile Gray"])
def test_taking_back_what_was_never_decided_is_a_wrong_option(
    addressing: Run, path: Path, name: str
) -> None:
    done = addressing("answer", path, "--undo", name)
    assert done.returncode == 2
    assert "Nothing was decided" in done.stderr


def test_a_family_corrected_to_its_names_is_not_asked_for_them_again(
    addressing: Run, path: Path
) -> None:
    assert "family-unnamed" in json.dumps(told(addressing, "questions", path))
    said = ("--set", "A4", "names", "Mr. Ludo Penhew and Mrs. Nell Penhew")
    done = addressing("answer", path, *said)
    assert done.returncode == 0
    assert "family-unnamed" not in json.dumps(told(addressing, "questions", path))


def test_the_count_of_what_is_open_names_the_households_that_wait(
    addressing: Run, path: Path
) -> None:
    done = addressing("answer", path, "--set", "A2", "street", "15 Larkmoor Lane")
    assert "still open; " in done.stdout
    assert "held back." in done.stdout


def test_the_second_of_two_addresses_can_be_chosen(addressing: Run, tmp_path: Path) -> None:
    path = tmp_path / "winter.csv"
    path.write_text(
        "Name,Address,City,State,ZIP,Winter Address\n"
        "Mr. Tobias Wexcombe,14 Larkmoor Lane,Litchfield,CT,06759,"
        '"880 Gulf Shore Blvd N, Naples FL 34102"\n'
        "Ms. Odile Farrenby,9 Birchbark Trail,Duluth,MN,55802,\n"
    )
    asked = next(each for each in told(addressing, "questions", path)["questions"]
                 if "season" in each["question"])  # fmt: skip
    second = asked["answers"][1]
    assert second == "The second one: 880 Gulf Shore Blvd N, Naples FL 34102"
    (tmp_path / "a.toml").write_text(
        f'[[answer]]\nquestion = "{asked["question"]}"\nanswer = "{second}"\n'
    )
    assert addressing("answer", path, tmp_path / "a.toml").returncode == 0
    home = told(addressing, "lines", path)["households"][0]
    assert home["address"]["city"] == "Naples"
    assert home["held"] is False


def test_what_is_taken_back_is_told_with_its_household(addressing: Run, path: Path) -> None:
    addressing("answer", path, "--set", "A3", "street", OTHER)
    done = addressing("answer", path, "--undo", "A3:street")
    assert f"The street of Odile Farrenby: “{OTHER}” is taken back" in done.stdout
    assert "question" not in done.stdout.partition("taken back")[2].splitlines()[0]


def test_a_household_is_named_by_its_new_family_name_and_by_one_name_alone(
    addressing: Run, path: Path
) -> None:
    addressing("answer", path, "--set", "Farrenby", "names", "Odile Ostrander-Vole")
    done = addressing("answer", path, "--set", "Ostrander-Vole", "street", OTHER)
    assert done.returncode == 0, done.stderr
    assert OTHER in decisions(addressing, path)
    assert addressing("answer", path, "--set", "Gray", "street", OTHER).returncode == 2


def test_no_two_corrections_have_one_place_and_each_is_taken_back_by_its_own(
    addressing: Run, path: Path
) -> None:
    addressing("answer", path, "--set", "A2", "street", "15 Larkmoor Lane")
    addressing("answer", path, "--set", "A3", "street", OTHER)
    places = [each["from"] for each in told(addressing, "check", path)["decisions"]]
    assert len(set(places)) == 2
    assert addressing("answer", path, "--undo", "--set!2").returncode == 0
    assert decisions(addressing, path) == ["15 Larkmoor Lane"]
