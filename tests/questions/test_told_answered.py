"""Answers to what a mail says beside its list of somebody on it."""

import json
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess
from typing import Any

import pytest

Run = Callable[..., CompletedProcess[str]]
LIST = """Hi Odile,

Mr. and Mrs. Tobias Penhew
14 Larkmoor Lane
Litchfield, CT 06759

Ms. Ottoline Grayling
431 Weathervane Drive
Bar Harbor, ME 04609

Dr. Ingrid Halvorsby, 1440 Birchbark Trail, Duluth, MN 55802

Love,
Bea

PS """
MOVED = "The Penhews have moved down the road, it is 22 Larkmoor Lane now. Same town.\n"
BOTH = "Ottoline Grayling and the Penhews may be away in June.\n"


def asked(run: Run, folder: Path, said: str) -> tuple[Path, list[dict[str, Any]]]:
    path = folder / "mail.txt"
    path.write_text(f"{LIST}{said}", "utf-8")
    questions = json.loads(run("questions", path, "--json").stdout)["questions"]
    return path, [each for each in questions if "said-elsewhere" in each["question"]]


def after(
    run: Run, path: Path, ref: str, answer: str, *, taken: bool = True
) -> list[dict[str, Any]]:
    """The households with the question answered."""
    back = path.parent / "back.toml"
    back.write_text(f'[[answer]]\nquestion = "{ref}"\nanswer = "{answer}"\n')
    done = run("answer", path, back)
    assert done.returncode == (0 if taken else 1), done.stdout + done.stderr
    homes: list[dict[str, Any]] = json.loads(run("lines", path, "--json").stdout)["households"]
    return homes


def outer(home: dict[str, Any]) -> list[str]:
    piece = next(piece for piece in home["pieces"] if piece["kind"] == "outer")
    return [line["text"] for line in piece["lines"]]


@pytest.mark.parametrize(
    ("answer", "lines"),
    [
        ("No, as listed", ["Mr. and Mrs. Tobias Penhew", "14 Larkmoor Lane"]),
        ("The street is 22 Larkmoor Lane", ["Mr. and Mrs. Tobias Penhew", "22 Larkmoor Lane"]),
        ("8 Mill Row", ["Mr. and Mrs. Tobias Penhew", "8 Mill Row"]),
    ],
)
def test_who_is_named_beside_the_list_waits_and_is_set_as_the_client_says(
    addressing: Run, tmp_path: Path, answer: str, lines: list[str]
) -> None:
    path, (question,) = asked(addressing, tmp_path, MOVED)
    assert f"“{MOVED.strip().removesuffix('.')}”" in question["text"]
    before = json.loads(addressing("lines", path, "--json").stdout)["households"]
    assert [home["held"] for home in before] == [True, False, False]
    homes = after(addressing, path, question["question"], answer)
    assert outer(homes[0])[:2] == lines
    assert outer(homes[0])[2:] == ["Litchfield, Connecticut 06759"]
    assert not homes[0]["held"]


@pytest.mark.parametrize(
    ("said", "answer", "lines"),
    [
        ("Dr. Halvorsby has moved to 8 Mill Row, Bath, ME 04530\n",
         "The address is 8 Mill Row, Bath, ME 04530",
         ["Doctor Ingrid Halvorsby", "8 Mill Row", "Bath, Maine 04530"]),
        ("Dr. Halvorsby's zip is 55804.\n", "The ZIP code is 55804",
         ["Doctor Ingrid Halvorsby", "1440 Birchbark Trail", "Duluth, Minnesota 55804"]),
        ("Dr. Halvorsby's partner is Kit Marsh.\n", "Yes, Dr. Ingrid Halvorsby and Kit Marsh",
         ["Doctor Ingrid Halvorsby and Kit Marsh", "1440 Birchbark Trail",
          "Duluth, Minnesota 55802"]),
    ],
)  # fmt: skip
def test_what_a_remark_gives_is_proposed_and_set_as_proposed(
    addressing: Run, tmp_path: Path, said: str, answer: str, lines: list[str]
) -> None:
    path, (question,) = asked(addressing, tmp_path, said)
    assert answer in question["answers"]
    homes = after(addressing, path, question["question"], answer)
    assert outer(homes[2]) == lines


def test_a_whole_address_in_an_answer_is_the_whole_address(addressing: Run, tmp_path: Path) -> None:
    path, (question,) = asked(addressing, tmp_path, MOVED)
    new = "8 Mill Row, Duluth, MN 55802"
    homes = after(addressing, path, question["question"], new)
    assert outer(homes[0])[1:] == ["8 Mill Row", "Duluth, Minnesota 55802"]


def test_a_sentence_that_names_two_households_holds_both_and_is_asked_once(
    addressing: Run, tmp_path: Path
) -> None:
    path, (question,) = asked(addressing, tmp_path, BOTH)
    before = json.loads(addressing("lines", path, "--json").stdout)["households"]
    assert [home["held"] for home in before] == [True, True, False]
    homes = after(addressing, path, question["question"], "No, as listed")
    assert [home["held"] for home in homes] == [False, False, False]


def test_both_that_a_sentence_names_are_left_out_by_one_answer(
    addressing: Run, tmp_path: Path
) -> None:
    path, (question,) = asked(addressing, tmp_path, BOTH)
    words = next(words for words in question["answers"] if words.startswith("Leave out"))
    (home,) = after(addressing, path, question["question"], words)
    assert outer(home)[0] == "Doctor Ingrid Halvorsby"


def test_leave_them_out_takes_neither_of_two_that_a_sentence_names(
    addressing: Run, tmp_path: Path
) -> None:
    path, (question,) = asked(addressing, tmp_path, BOTH)
    homes = after(addressing, path, question["question"], "Leave them out", taken=False)
    assert [home["held"] for home in homes] == [True, True, False]


def test_names_for_two_households_at_once_are_not_taken(addressing: Run, tmp_path: Path) -> None:
    path, (question,) = asked(addressing, tmp_path, BOTH)
    homes = after(addressing, path, question["question"], "Ms. Ottoline Grayling", taken=False)
    assert [home["held"] for home in homes] == [True, True, False]


def test_two_sentences_of_one_household_are_asked_each(addressing: Run, tmp_path: Path) -> None:
    said = f"{MOVED}\nDr. Halvorsby retired.\n\nIngrid Halvorsby will be 80.\n"
    _, questions = asked(addressing, tmp_path, said)
    assert len({each["question"] for each in questions}) == 3


@pytest.mark.parametrize(
    ("said", "proposed", "lines"),
    [
        ("The Penhews have moved: 200 Birch Road, Rutland, VT 05701",
         "The address is 200 Birch Road, Rutland, VT 05701",
         ["200 Birch Road", "Rutland, Vermont 05701"]),
        ("The Penhews have moved: 14 Elm St, Apt 3, Bethel ME 04217",
         "The address is 14 Elm St, Apt 3, Bethel ME 04217",
         ["14 Elm Street, Apartment 3", "Bethel, Maine 04217"]),
        ("The Penhews have moved, it is 22 Larkmoor Lane, Litchfield",
         "The street is 22 Larkmoor Lane",
         ["22 Larkmoor Lane", "Litchfield, Connecticut 06759"]),
        ("The Penhews moved to 9 Mill Row, Duluth", "", []),
    ],
)  # fmt: skip
def test_a_street_is_proposed_only_in_the_households_own_town(
    addressing: Run, tmp_path: Path, said: str, proposed: str, lines: list[str]
) -> None:
    path, (question,) = asked(addressing, tmp_path, f"{said}\n")
    offered = [each for each in question["answers"] if each.startswith("The ")]
    assert offered == ([proposed] if proposed else [])
    if proposed:
        homes = after(addressing, path, question["question"], proposed)
        assert outer(homes[0])[1:] == lines
