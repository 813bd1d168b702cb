"""Answers to what notes ask: a companion, the children, an envelope for each of two in one row."""

import json
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess
from typing import Any

import pytest

Run = Callable[..., CompletedProcess[str]]
HEADER = "Name,Notes,Address,City,State,ZIP\n"
PLACE = "14 Larkmoor Lane,Litchfield,CT,06759\n"


def answered(run: Run, folder: Path, name: str, note: str, answer: str) -> list[dict[str, Any]]:
    """The households of a list of one row with the one question that its note asks answered."""
    path = folder / "guests.csv"
    path.write_text(f"{HEADER}{name},{note},{PLACE}", "utf-8")
    told = json.loads(run("questions", path, "--json").stdout)["questions"]
    ref = next(each["question"] for each in told if "-noted" in each["question"])
    back = folder / "back.toml"
    back.write_text(f'[[answer]]\nquestion = "{ref}"\nanswer = "{answer}"\n')
    done = run("answer", path, back)
    assert done.returncode == 0, done.stdout + done.stderr
    out: dict[str, Any] = json.loads(run("lines", path, "--json").stdout)
    assert not [home for home in out["households"] if home["held"]]
    return list(out["households"])


def outer(home: dict[str, Any]) -> list[str]:
    piece = next(piece for piece in home["pieces"] if piece["kind"] == "outer")
    return [line["text"] for line in piece["lines"] if line["role"] == "name"]


@pytest.mark.parametrize(
    ("answer", "kinds"),
    [
        ("Yes, Mr. Tobias Penhew and Guest", ["named", "guest"]),
        ("No, as they stand", ["named"]),
        ("Mr. Tobias Penhew and Ms. Lucy Orr", ["named", "named"]),
    ],
)
def test_a_companion_of_a_note_comes_as_the_answer_says(
    addressing: Run, tmp_path: Path, answer: str, kinds: list[str]
) -> None:
    (home,) = answered(addressing, tmp_path, "Mr. Tobias Penhew", "plus one?", answer)
    assert [person["kind"] for person in home["people"]] == kinds


def test_two_of_one_row_get_an_envelope_each_with_their_own_titles(
    addressing: Run, tmp_path: Path
) -> None:
    both = "Mr. Kit Marlow & Ms. Wren Lorne"
    homes = answered(addressing, tmp_path, both, "separate invites pls", "An envelope each")
    assert [outer(home) for home in homes] == [["Mr. Kit Marlow"], ["Ms. Wren Lorne"]]
    assert homes[0]["address"]["street"] == homes[1]["address"]["street"] == "14 Larkmoor Lane"
    assert len({home["key"] for home in homes}) == 2


def test_companions_go_with_the_one_before_them_when_a_row_is_parted(
    addressing: Run, tmp_path: Path
) -> None:
    both = "Kit Marlow and Guest & Wren Lorne"
    homes = answered(addressing, tmp_path, both, "separate envelopes", "An envelope each")
    assert [[person["kind"] for person in home["people"]] for home in homes] == [
        ["named", "guest"], ["named"],
    ]  # fmt: skip
    untitled = [
        (finding["code"]) for home in homes for finding in home["findings"]
        if finding["code"] == "title-missing"
    ]  # fmt: skip
    assert len(untitled) == 2


def test_children_of_a_note_are_set_as_family_without_their_names(
    addressing: Run, tmp_path: Path
) -> None:
    both = "Mr. and Mrs. Tobias Penhew"
    yes = "Yes, Mr. Tobias Penhew and Mrs. Penhew and family"
    (home,) = answered(addressing, tmp_path, both, "kids too", yes)
    assert [(p["title"], p["given"]) for p in home["people"]] == [("Mr.", "Tobias"), ("Mrs.", None)]
    inner = next(piece for piece in home["pieces"] if piece["kind"] == "inner")
    assert inner["lines"][-1]["text"].endswith("and Family")


def inner(home: dict[str, Any]) -> list[str]:
    piece = next(piece for piece in home["pieces"] if piece["kind"] == "inner")
    return [line["text"] for line in piece["lines"]]


@pytest.mark.parametrize(
    ("corrected", "words"),
    [
        ("Mr. Tobiah Penhew", ["Mr. Penhew"]),  # "Toby" was said of another name
        (None, ["Uncle Toby"]),
    ],
)
def test_the_lists_words_for_the_inner_go_with_the_names_that_they_were_said_of(
    addressing: Run, tmp_path: Path, corrected: str | None, words: list[str]
) -> None:
    path = tmp_path / "guests.csv"
    path.write_text(f"Inner Envelope,{HEADER}Uncle Toby,Mr. Tobias Penhew,,{PLACE}", "utf-8")
    if corrected:
        done = addressing("answer", path, "--set", "B2", "names", corrected)
        assert done.returncode == 0, done.stdout + done.stderr
    (home,) = json.loads(addressing("lines", path, "--json").stdout)["households"]
    assert inner(home) == words


@pytest.mark.parametrize(
    ("code", "said", "taken"),
    [
        ("name-noted", "Trish", False),
        ("name-noted", "Trisha Orr", False),
        ("name-noted", "Tobyas Penhew and Trish Penhew", True),
        ("title-missing", "same as above", False),
        ("title-missing", "Mr. and Mrs.", False),
        ("title-missing", "Commander", True),
    ],
)
def test_an_answer_that_names_others_or_is_no_title_leaves_the_question_open(
    addressing: Run, tmp_path: Path, code: str, said: str, *, taken: bool
) -> None:
    path = tmp_path / "guests.csv"
    path.write_text(f"{HEADER}Tobias Penhew,wife Trish,{PLACE}", "utf-8")
    told = json.loads(addressing("questions", path, "--json").stdout)["questions"]
    ref = next(each["question"] for each in told if code in each["codes"])
    back = tmp_path / "back.toml"
    back.write_text(f'[[answer]]\nquestion = "{ref}"\nanswer = "{said}"\n')
    done = json.loads(addressing("answer", path, back, "--json").stdout)
    assert (len(done["applied"]) == 1) is taken
    (home,) = json.loads(addressing("lines", path, "--json").stdout)["households"]
    assert taken or "Tobias" in outer(home)[0]
    assert taken or "Trish" not in outer(home)[0]


@pytest.mark.parametrize("given", ["answer", "names"])
def test_a_wife_whom_a_note_names_is_asked_about_once_and_the_answer_releases_the_household(
    addressing: Run, tmp_path: Path, given: str
) -> None:
    path, names = tmp_path / "guests.csv", "Mr. Tobias Penhew and Mrs. Trish Penhew"
    if given == "answer":
        answered(addressing, tmp_path, "Mr. Tobias Penhew & wife", "wife = Trish", names)
    else:
        path.write_text(f"{HEADER}Mr. Tobias Penhew & wife,wife = Trish,{PLACE}", "utf-8")
        addressing("answer", path, "--set", "A2", "names", names)
    (home,) = json.loads(addressing("lines", path, "--json").stdout)["households"]
    assert not home["held"]
    assert outer(home)[0] == "Mr. and Mrs. Tobias Penhew"
