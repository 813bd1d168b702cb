"""What a note names of a family or of a companion is asked once, with the note's own words."""

import json
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess
from typing import Any

import pytest

Run = Callable[..., CompletedProcess[str]]
HEADER = "Name,Notes,Address,City,State,ZIP\n"
PLACE = "14 Larkmoor Lane,Litchfield,CT,06759\n"
KIDS = "kids: Nell, Bram"


def asked(run: Run, folder: Path, name: str, note: str) -> list[dict[str, Any]]:
    path = folder / "guests.csv"
    path.write_text(f'{HEADER}"{name}","{note}",{PLACE}', "utf-8")
    (folder / "job.toml").write_text('[pieces]\nmake = ["outer", "inner"]\n', "utf-8")
    told = json.loads(run("questions", path, "--docket", "job.toml", "--json").stdout)
    return [each for each in told["questions"] if "title-missing" not in each["codes"]]


def inner(run: Run, folder: Path, ref: str, words: str) -> list[str]:
    path, back = folder / "guests.csv", folder / "back.toml"
    back.write_text(f"[[answer]]\nquestion = {json.dumps(ref)}\nanswer = {json.dumps(words)}\n")
    run("answer", path, back, "--docket", "job.toml")
    told = json.loads(run("lines", path, "--docket", "job.toml", "--json").stdout)
    (home,) = told["households"]
    assert not home["held"]
    piece = next(piece for piece in home["pieces"] if piece["kind"] == "inner")
    return [line["text"] for line in piece["lines"] if line["role"] == "name"]


@pytest.mark.parametrize(
    "row",
    [
        ("The Penhew Family", KIDS, "family-unnamed", "The Penhew Family"),
        ("The Penhew Family (kids: Nell, Bram)", "", "family-unnamed", "The Penhew Family"),
        ("Mr. and Mrs. Theo Vale and family", KIDS, "family-unnamed", "Mr. and Mrs. Vale"),
        ("Mr. and Mrs. Theo Vale", KIDS, "children-noted", "Mr. and Mrs. Vale"),
        ("Mr. and Mrs. Theo Vale", "kids are Nell, Bram", "children-noted", "Mr. and Mrs. Vale"),
    ],
)
@pytest.mark.parametrize(
    ("words", "children"),
    [("", "Nell and Bram"), ("Nell, Bram and Tuck", "Nell, Bram and Tuck")],
)
def test_children_whom_a_note_names_are_asked_about_once_and_proposed_by_name(
    addressing: Run, tmp_path: Path, row: tuple[str, str, str, str], words: str, children: str
) -> None:
    name, note, code, first = row
    (question,) = asked(addressing, tmp_path, name, note)
    assert question["codes"] == [code]
    assert "Nell, Bram” beside" in question["text"]
    proposed = next(each for each in question["answers"] if "by name: Nell, Bram" in each)
    told = inner(addressing, tmp_path, question["question"], words or proposed)
    assert told == [first, children]


@pytest.mark.parametrize(
    ("note", "proposed", "children"),
    [
        ("kids: Zora 8, Ike 5", "Yes, by name: Zora 8, Ike 5", "Zora and Ike"),
        ("Children: Pip & Rue", "Yes, by name: Pip & Rue", "Pip and Rue"),
        ("+ baby Otto", "Yes, by name: Otto", "Otto"),
        ("with Zora and Ike", "Yes, as children: Zora and Ike", "Zora and Ike"),
        ("girls too (Ivy, Pearl)", "Yes, by name: Ivy, Pearl", "Ivy and Pearl"),
        ("Finn (4)", "Yes, by name: Finn (4)", "Finn"),
    ],
)
def test_whom_a_note_names_beside_two_is_asked_about_and_set_on_the_inner_envelope(
    addressing: Run, tmp_path: Path, note: str, proposed: str, children: str
) -> None:
    (question,) = asked(addressing, tmp_path, "Mr. and Mrs. Theo Vale", note)
    assert question["codes"] == ["children-noted"]
    assert proposed in question["answers"]
    told = inner(addressing, tmp_path, question["question"], proposed)
    assert told == ["Mr. and Mrs. Vale", children]


def test_whom_a_note_names_may_stay_off_the_envelope(addressing: Run, tmp_path: Path) -> None:
    (question,) = asked(addressing, tmp_path, "Mr. and Mrs. Theo Vale", "with Zora and Ike")
    told = inner(addressing, tmp_path, question["question"], "No, as it stands")
    assert told == ["Mr. and Mrs. Vale"]


@pytest.mark.parametrize("note", ["bringing her mother", "+ mom", "bringing her mother's pie"])
def test_a_mother_without_a_name_is_asked_about(addressing: Run, tmp_path: Path, note: str) -> None:
    questions = asked(addressing, tmp_path, "Mr. and Mrs. Theo Vale", note)
    codes = [code for each in questions for code in each["codes"]]
    assert codes == ([] if "pie" in note else ["name-noted"])


@pytest.mark.parametrize("note", ["kids not invited", "loves kids", "met at Finn's (2019)"])
def test_a_note_that_invites_nobody_is_no_question(
    addressing: Run, tmp_path: Path, note: str
) -> None:
    assert asked(addressing, tmp_path, "Mr. and Mrs. Theo Vale", note) == []


def test_a_note_that_names_children_of_the_list_is_no_question(
    addressing: Run, tmp_path: Path
) -> None:
    names = "Mr. and Mrs. Theo Vale, Nell (6) and Bram (4)"
    assert asked(addressing, tmp_path, names, KIDS) == []


@pytest.mark.parametrize("note", ["kids: vegan", "Kids Menu", "Kids: Table 4", "kids: Chicken"])
def test_a_note_of_children_that_names_nobody_proposes_no_names(
    addressing: Run, tmp_path: Path, note: str
) -> None:
    assert asked(addressing, tmp_path, "Mr. and Mrs. Theo Vale", note) == []


@pytest.mark.parametrize(
    ("note", "code"),
    [
        ("Lou?", "note-open"),
        ("bringing Lou Orr", "name-noted"),
        ("plus one (Lou?)", "guest-unnamed"),
        ("plus one", "guest-unnamed"),
    ],
)
def test_a_companion_of_row_and_note_is_asked_about_once(
    addressing: Run, tmp_path: Path, note: str, code: str
) -> None:
    (question,) = asked(addressing, tmp_path, "Mr. Ivo Sands and Guest", note)
    assert question["codes"] == [code]
    assert note == "plus one" or f"“{note}”" in question["text"]


def test_a_companion_whom_a_note_names_takes_the_place_of_the_guest(
    addressing: Run, tmp_path: Path
) -> None:
    (question,) = asked(addressing, tmp_path, "Mr. Ivo Sands +1", "bringing Lou Orr")
    proposed = "Mr. Ivo Sands and Lou Orr"
    assert proposed in question["answers"]
    told = inner(addressing, tmp_path, question["question"], "Mr. Ivo Sands and Ms. Lou Orr")
    assert told == ["Mr. Sands and Ms. Orr"]
