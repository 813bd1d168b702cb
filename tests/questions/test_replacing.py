"""Answers that meet: names given anew, an address that is no longer owed, nobody left."""

import json
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess
from typing import Any

import openpyxl
import pytest
from openpyxl.styles import Font

Run = Callable[..., CompletedProcess[str]]

HEADER = ("Name", "Address", "City", "State", "ZIP", "Notes", "Kids")
ROWS = (
    ("Mr. Bartholomew Quince and Guest", "12 Birch Road", "Litchfield", "CT", "06759", "", ""),
    ("Mr. and Mrs. Theo Marsh", "14 Birch Road", "Litchfield", "CT", "06759", "",
     "Rosie (6), Otto (3)"),
    ("Ms. Corin Umber", "18 Birch Road", "Litchfield", "CT", "06759", "give by hand", ""),
    ("Mr. Hugo Sallow",
     "20 Birch Road, Litchfield CT 06759\n880 Gulf Shore Blvd N, Naples FL 34102", "", "", "", "",
     ""),
    ("Mr. Teddy Ashby and Mrs. Bea Ashby", "24 Birch Road", "Litchfield", "CT", "06759", "", ""),
    ("Mr. Silas Grey", "28 Birch Road", "Litchfield", "CT", "06759", "", ""),
)  # fmt: skip


@pytest.fixture
def path(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A list in which the last guest is crossed out."""
    monkeypatch.chdir(tmp_path)
    book = openpyxl.Workbook()
    page = book.active
    assert page is not None
    for row in (HEADER, *ROWS):
        page.append(row)
    page["A7"].font = Font(strike=True)
    book.save(tmp_path / "guests.xlsx")
    return tmp_path / "guests.xlsx"


def asked(run: Run, path: Path, part: str) -> dict[str, Any]:
    told = json.loads(run("questions", path, "--json").stdout)
    return next(each for each in told["questions"] if part in each["question"])


def answer(run: Run, path: Path, part: str, words: str) -> CompletedProcess[str]:
    answers = path.parent / "answers.toml"
    ref = json.dumps(asked(run, path, part)["question"])
    answers.write_text(f"[[answer]]\nquestion = {ref}\nanswer = {json.dumps(words)}\n", "utf-8")
    return run("answer", path, answers)


def lines(run: Run, path: Path, name: str, kind: str = "outer") -> list[str]:
    told = json.loads(run("lines", path, "--json").stdout)
    home = next(home for home in told["households"] if name in json.dumps(home["people"]))
    piece = next(piece for piece in home["pieces"] if piece["kind"] == kind)
    return [line["text"] for line in piece["lines"]]


def correct(run: Run, path: Path, cell: str, kind: str, words: str) -> CompletedProcess[str]:
    return run("answer", path, "--set", cell, kind, words)


def test_names_given_later_replace_the_name_of_a_companion(addressing: Run, path: Path) -> None:
    assert answer(addressing, path, "guest-unnamed", "Marguerite Bell").returncode == 0
    both = "Mr. Bartholomew Quince and Ms. Marguerite Bell"
    done = correct(addressing, path, "A2", "names", both)
    assert done.returncode == 0
    assert "“Marguerite Bell” no longer holds" in done.stdout
    assert lines(addressing, path, "Quince")[:-2] == [both]


def test_everyone_given_later_is_all_who_come(addressing: Run, path: Path) -> None:
    answer(addressing, path, "guest-unnamed", "Marguerite Bell")
    done = correct(addressing, path, "A2", "everyone", "Mr. Bartholomew Quince")
    assert done.returncode == 0
    assert lines(addressing, path, "Quince", "inner") == ["Mr. Quince"]


def test_names_with_children_add_no_child_twice(addressing: Run, path: Path) -> None:
    words = "Mr. and Mrs. Theo Marsh, Rosie, Otto and Pip"
    assert correct(addressing, path, "A3", "names", words).returncode == 0
    assert lines(addressing, path, "Theo", "inner")[1:] == ["Rosie, Otto and Pip"]


def test_names_that_leave_all_as_it_was_are_refused_with_a_reason(
    addressing: Run, path: Path
) -> None:
    done = correct(addressing, path, "A3", "names", "Mr. and Mrs. Theo Marsh")
    assert done.returncode == 1
    assert "Rosie Marsh (6), Otto Marsh (3) would stay" in " ".join(done.stdout.split())


def test_titles_of_the_list_stay_and_a_child_is_one_as_it_is_said(
    addressing: Run, path: Path
) -> None:
    words = "Teddy Ashby, Bea Ashby, Rosie Ashby (child)"
    assert correct(addressing, path, "A6", "names", words).returncode == 0
    assert lines(addressing, path, "Teddy")[0] == "Mr. and Mrs. Teddy Ashby"
    assert lines(addressing, path, "Teddy", "inner") == ["Mr. and Mrs. Ashby", "Rosie"]


def test_given_by_hand_takes_the_address_from_the_envelope(addressing: Run, path: Path) -> None:
    assert len(lines(addressing, path, "Umber")) == 3
    assert answer(addressing, path, "by-hand-noted", "No, given by hand").returncode == 0
    assert lines(addressing, path, "Umber") == ["Ms. Corin Umber"]
    assert correct(addressing, path, "A2", "address", "by hand").returncode == 0
    assert lines(addressing, path, "Quince") == ["Mr. Bartholomew Quince"]


def test_by_hand_takes_back_a_street_that_was_corrected(addressing: Run, path: Path) -> None:
    assert correct(addressing, path, "A2", "street", "14 Birch Road").returncode == 0
    done = correct(addressing, path, "A2", "address", "by hand")
    assert "“14 Birch Road” no longer holds" in done.stdout
    assert lines(addressing, path, "Quince") == ["Mr. Bartholomew Quince"]


def test_words_before_an_address_are_no_line_of_it(addressing: Run, path: Path) -> None:
    words = "The Florida one - 880 Gulf Shore Blvd N, Naples FL 34102"
    assert answer(addressing, path, "address-doubtful", words).returncode == 0
    assert lines(addressing, path, "Sallow")[1:] == [
        "880 Gulf Shore Boulevard North",
        "Naples, Florida 34102",
    ]


def test_both_addresses_of_a_cell_are_proposed(addressing: Run, path: Path) -> None:
    question = asked(addressing, path, "address-doubtful")
    both = ["20 Birch Road, Litchfield CT 06759", "880 Gulf Shore Blvd N, Naples FL 34102"]
    assert question["answers"][:2] == both
    assert answer(addressing, path, "address-doubtful", both[1]).returncode == 0
    assert lines(addressing, path, "Sallow")[-1] == "Naples, Florida 34102"


def test_an_age_in_a_question_stands_behind_its_child(addressing: Run, tmp_path: Path) -> None:
    path = tmp_path / "ages.csv"
    path.write_text(
        "Name,Address,City,State,ZIP\n"
        '"Teddy & Bea Marsh and Rosie, 6 (?)",24 Birch Road,Litchfield,CT,06759\n'
    )
    question = asked(addressing, path, "name-doubtful")
    assert question["listed"] == "Teddy Marsh, Bea Marsh, Rosie Marsh (6)"


def test_two_words_that_are_one_family_name_stay_together(addressing: Run, tmp_path: Path) -> None:
    path = tmp_path / "ages.csv"
    path.write_text(
        "Name,Address,City,State,ZIP\n"
        "Mr. and Mrs. Carlos Wexcombe Farrenby,24 Birch Road,Litchfield,CT,06759\n"
    )
    assert answer(addressing, path, "family-words", "The last two words").returncode == 0
    told = json.loads(addressing("lines", path, "--json").stdout)["households"][0]
    assert [person["family"] for person in told["people"]] == ["Wexcombe Farrenby"] * 2
    assert told["held"] is False


@pytest.mark.parametrize(
    ("cell", "code"),
    [
        ("Wexcombe Tobias", "name-order-doubtful"),
        ("Odile Jane & Tobias Farrenby", "family-name-doubtful"),
        ("Mr. Sato Yuki", "name-order-doubtful"),
    ],
)
def test_each_proposed_answer_can_be_taken(
    addressing: Run, tmp_path: Path, cell: str, code: str
) -> None:
    path = tmp_path / "one.csv"
    path.write_text(f"Name,Address,City,State,ZIP\n{cell},24 Birch Road,Litchfield,CT,06759\n")
    for proposed in asked(addressing, path, code)["answers"]:
        assert answer(addressing, path, code, proposed).returncode == 0, proposed
        (path.parent / "one-job" / "decisions.toml").unlink()
    assert asked(addressing, path, code)


@pytest.mark.parametrize(
    ("cell", "kind", "words"),
    [
        ("A2", "names", "They're both fine"),
        ("A2", "address", "She lives with her mother"),
        ("A2", "address", "Florida: 880 Gulf Shore Blvd N, Naples FL 34102"),
    ],
)
def test_a_sentence_is_no_name_and_no_address(
    addressing: Run, path: Path, cell: str, kind: str, words: str
) -> None:
    assert correct(addressing, path, cell, kind, words).returncode == 1


def test_a_household_of_which_nobody_is_left_is_out(addressing: Run, path: Path) -> None:
    assert answer(addressing, path, "row-struck", "No, leave that name out").returncode == 0
    told = json.loads(addressing("check", path, "--json").stdout)
    assert told["households"] == len(ROWS) - 1
    assert [row["row"] for row in told["rows_not_used"]] == [7]
