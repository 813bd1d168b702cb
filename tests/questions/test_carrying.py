"""What the list says of a row goes along with names that an answer spells; nobody is doubled."""

import json
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess
from typing import Any

import pytest

Run = Callable[..., CompletedProcess[str]]
LIST = """Name,Kids,Address,City,State,ZIP,Table
The Penhew Family,"Rosie, Otto, Wren",431 Weathervane Drive,Bar Harbor,ME,04609,4
Uncle Tobias,,14 Larkmoor Lane,Litchfield,CT,06759,1
Mrs. Odile Farrenby,,9 Birchbark Trail,Duluth,MN,55802,2
Mr. Rufus Gray and Guest,,3 Birchbark Trail,Duluth,MN,55802,3
"""


@pytest.fixture
def path(tmp_path: Path) -> Path:
    (tmp_path / "guests.csv").write_text(LIST, "utf-8")
    docket = '[pieces]\nmake = ["outer", "inner", "place-card", "escort-card"]\n'
    (tmp_path / "job.toml").write_text(docket, "utf-8")
    return tmp_path / "guests.csv"


def told(run: Run, command: str, path: Path) -> dict[str, Any]:
    return dict(json.loads(run(command, path, "--docket", "job.toml", "--json").stdout))


def answer(run: Run, path: Path, part: str, words: str) -> CompletedProcess[str]:
    asked = told(run, "questions", path)["questions"]
    ref = next(each["question"] for each in asked if part in each["question"])
    answers = path.parent / "answers.toml"
    said = f"[[answer]]\nquestion = {json.dumps(ref)}\nanswer = {json.dumps(words)}\n"
    answers.write_text(said, "utf-8")
    return run("answer", path, answers, "--docket", "job.toml")


def pieces(run: Run, path: Path, name: str, kind: str) -> list[list[str]]:
    homes = told(run, "lines", path)["households"]
    home = next(home for home in homes if name in json.dumps(home["people"]))
    return [
        [line["text"] for line in piece["lines"]]
        for piece in home["pieces"]
        if piece["kind"] == kind
    ]


@pytest.mark.parametrize(
    "words",
    [
        "Mr. and Mrs. Theo Penhew, Rosie, Otto, Wren",
        "Mr. and Mrs. Theo Penhew",
        "Mr. and Mrs. Theo Penhew, Wren",
    ],
)
def test_children_whom_an_answer_names_again_are_named_once(
    addressing: Run, path: Path, words: str
) -> None:
    assert answer(addressing, path, "family-unnamed", words).returncode == 0
    ((_, children),) = pieces(addressing, path, "Theo", "inner")
    assert children == "Rosie, Otto and Wren"
    assert len(pieces(addressing, path, "Theo", "place-card")) == 5
    ((*_, seat),) = pieces(addressing, path, "Theo", "escort-card")
    assert seat == "Table 4"


def test_a_father_of_a_childs_name_is_not_the_child(addressing: Run, path: Path) -> None:
    words = "Mr. and Mrs. Otto Penhew, Rosie, Otto, Wren"
    assert answer(addressing, path, "family-unnamed", words).returncode == 0
    assert pieces(addressing, path, "Wren", "inner")[0][1] == "Rosie, Otto and Wren"
    assert len(pieces(addressing, path, "Wren", "place-card")) == 5


@pytest.mark.parametrize("words", ["Rosie, Otto and Wren", "Otto and Maud Penhew, Rosie, Wren"])
def test_an_answer_that_may_mean_a_child_or_a_parent_is_asked_again(
    addressing: Run, path: Path, words: str
) -> None:
    done = answer(addressing, path, "family-unnamed", words)
    assert done.returncode != 0
    assert "give the" in done.stdout


def test_a_name_that_an_answer_spells_keeps_the_table_of_its_row(
    addressing: Run, path: Path
) -> None:
    assert answer(addressing, path, "name-doubtful", "Mr. Tobias Wexcombe").returncode == 0
    assert pieces(addressing, path, "Wexcombe", "escort-card") == [
        ["Mr. Tobias Wexcombe", "Table 1"]
    ]
    codes = [found["code"] for found in told(addressing, "check", path)["findings"]]
    assert "table-missing" not in codes


def test_a_companion_who_is_named_sits_where_the_guest_would(addressing: Run, path: Path) -> None:
    assert answer(addressing, path, "guest-unnamed", "Ms. Corin Umber").returncode == 0
    ((*names, seat),) = pieces(addressing, path, "Umber", "escort-card")
    assert "Umber" in " ".join(names)
    assert seat == "Table 3"


@pytest.mark.parametrize("name", ["Odile Farrenby", "Maud Farrenby"])
def test_a_renamed_household_is_found_by_its_old_name_and_its_new(
    addressing: Run, path: Path, name: str
) -> None:
    addressing("answer", path, "--set", "A4", "names", "Mrs. Maud Farrenby")
    done = addressing("answer", path, "--set", name, "street", "10 Birchbark Trail")
    assert done.returncode == 0
    assert addressing("answer", path, "--undo", f"{name}:names").returncode == 0
    assert not pieces(addressing, path, "Odile", "outer")[0][0].count("Maud")
