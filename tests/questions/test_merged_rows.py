"""Two rows are one household, the client says: what only the row that goes has isn't lost."""

import json
import subprocess
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

import pytest

Ran = subprocess.CompletedProcess[str]
Run = Callable[..., Ran]
Fill = Callable[[Path, Mapping[str, str]], Path]

HEAD = "Name,Street,City,State,ZIP,Side,Notes\n"
PLACE = "Litchfield,CT,06759"
FIRST = {"duplicate-probable": "One household, use the first"}


@pytest.fixture
def merged(addressing: Run, fill: Fill, tmp_path: Path) -> Callable[[str, str], Path]:
    """A list of two rows that the client says are one household: the first one's spelling."""

    def made(one: str, other: str) -> Path:
        path = tmp_path / "guests.csv"
        path.write_text(f"{HEAD}{one}\n{other}\n", encoding="utf-8")
        addressing("questions", path)
        addressing("answer", path, fill(tmp_path / "guests-job" / "questions.xlsx", FIRST))
        return path

    return made


def said(ran: Ran) -> dict[str, Any]:
    found: dict[str, Any] = json.loads(ran.stdout)
    return found


def asked(addressing: Run, path: Path) -> list[str]:
    """The codes of what is asked of two rows that are one household."""
    rows = said(addressing("questions", path, "--json"))["questions"]
    codes = [row["question"].split(":")[1] for row in rows]
    return [code for code in codes if code.startswith("merged-")]


def names(addressing: Run, path: Path) -> str:
    return addressing("lines", path).stdout


ALONE = f"Mr. Tobias Wexcombe,14 Larkmoor Lane,{PLACE},,"


@pytest.mark.parametrize(
    ("other", "there"),
    [
        ("Mr. Tobias Wexcomb and Guest", "and Guest"),
        ("Mr. Tobias Wexcomb & Ms. Ida Penhew", "Ida Penhew"),
    ],
)
def test_who_stands_only_on_the_row_that_goes_is_asked_about_and_comes_along(
    addressing: Run, merged: Callable[[str, str], Path], fill: Fill, other: str, there: str
) -> None:
    path = merged(ALONE, f"{other},14 Larkmoor Lane,{PLACE},,")
    assert asked(addressing, path) == ["merged-people"]
    assert addressing("plates", path, "--json").returncode == 1
    book = path.parent / "guests-job" / "questions.xlsx"
    addressing("answer", path, fill(book, {"merged-people": "Yes"}))
    assert asked(addressing, path) == []
    assert there in names(addressing, path)


def test_who_isn_t_invited_after_all_stays_away(
    addressing: Run, merged: Callable[[str, str], Path], fill: Fill
) -> None:
    path = merged(ALONE, f"Mr. Tobias Wexcomb and Guest,14 Larkmoor Lane,{PLACE},,")
    addressing("questions", path)
    book = path.parent / "guests-job" / "questions.xlsx"
    addressing("answer", path, fill(book, {"merged-people": "No"}))
    assert asked(addressing, path) == []
    assert "Guest" not in names(addressing, path)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("Mr. Tobias Wexcombe", "Mr. Tobias Wexcomb"),
        ("Mr. Tobias and Mrs. Nora O'Drennan", "Mr. and Mrs. Tobias ODrennan"),
    ],
)
def test_two_spellings_that_say_the_same_ask_nothing_more(
    addressing: Run, merged: Callable[[str, str], Path], one: str, other: str
) -> None:
    path = merged(*(f"{name},14 Larkmoor Lane,{PLACE},," for name in (one, other)))
    assert asked(addressing, path) == []


def test_a_title_and_a_side_that_only_the_other_row_has_are_taken_over_and_told(
    addressing: Run, merged: Callable[[str, str], Path]
) -> None:
    path = merged(
        f"Tobias Wexcombe,14 Larkmoor Lane,{PLACE},,",
        f"Dr. Tobias Wexcomb,14 Larkmoor Lane,{PLACE},groom,",
    )
    assert "Doctor Tobias Wexcombe" in names(addressing, path)
    found = said(addressing("check", path, "--json"))["findings"]
    (told,) = [each["text"] for each in found if each["code"] == "merged-told"]
    assert "Dr. Tobias Wexcombe" in told
    assert "whose guests “groom” is taken over" in told


def test_a_remark_beside_the_row_that_goes_is_asked_about(
    addressing: Run, merged: Callable[[str, str], Path]
) -> None:
    path = merged(ALONE, f"Mr. Tobias Wexcomb,14 Larkmoor Lane,{PLACE},,plus one?")
    assert asked(addressing, path) == ["merged-noted"]


@pytest.mark.parametrize(
    ("one", "other", "whole"),
    [
        ("14 Larkmoor Lane", '"14 Larkmoor Lane, Apt 3"', "14 Larkmoor Lane, Apartment 3"),
        ("14 Larkmoor Lane", '"The Elms, 14 Larkmoor Ln"', "The Elms\n14 Larkmoor Lane"),
        ("14 Larkmoor Lane", '"c/o Orr, 14 Larkmoor Lane"', "in care of Orr\n14 Larkmoor Lane"),
    ],
)
def test_a_part_of_the_address_that_only_the_row_that_goes_has_is_asked_about(
    addressing: Run,
    merged: Callable[[str, str], Path],
    fill: Fill,
    *,
    one: str,
    other: str,
    whole: str,
) -> None:
    path = merged(f"Mr. Tobias Wexcombe,{one},{PLACE},,", f"Mr. Tobias Wexcomb,{other},{PLACE},,")
    assert asked(addressing, path) == ["merged-place"]
    assert addressing("lines", path).returncode == 1
    book = path.parent / "guests-job" / "questions.xlsx"
    rows = said(addressing("questions", path, "--json"))["questions"]
    (choices,) = [row["answers"] for row in rows if "merged-place" in row["question"]]
    addressing("answer", path, fill(book, {"merged-place": choices[0]}))
    assert asked(addressing, path) == []
    shown = "\n".join(line.strip() for line in names(addressing, path).splitlines())
    assert f"\n{whole}\n" in shown


def test_the_address_of_the_row_that_stays_holds_if_the_client_says_so(
    addressing: Run, merged: Callable[[str, str], Path], fill: Fill
) -> None:
    path = merged(ALONE, f'Mr. Tobias Wexcomb,"14 Larkmoor Lane, Apt 3",{PLACE},,')
    addressing("questions", path)
    book = path.parent / "guests-job" / "questions.xlsx"
    addressing("answer", path, fill(book, {"merged-place": "As it stands on the other row"}))
    assert asked(addressing, path) == []
    assert "Apartment" not in names(addressing, path)


@pytest.mark.parametrize("words", ["Yes, it goes by post", "No, given by hand"])
def test_a_row_that_says_by_hand_is_asked_about(
    addressing: Run, merged: Callable[[str, str], Path], fill: Fill, words: str
) -> None:
    between = f"Ms. Ida Orr,9 Elm Street,{PLACE},,"
    path = merged(f"{ALONE}\n{between}", "Mr. Tobias Wexcomb,,,,,,by hand")
    assert asked(addressing, path) == ["merged-place"]
    addressing(
        "answer", path, fill(path.parent / "guests-job/questions.xlsx", {"merged-place": words})
    )
    assert asked(addressing, path) == []
    assert ("14 Larkmoor Lane" in names(addressing, path)) is words.startswith("Yes")


def test_another_street_on_the_row_that_goes_is_no_part_of_the_address(
    addressing: Run, merged: Callable[[str, str], Path]
) -> None:
    path = merged(ALONE, f'Mr. Tobias Wexcombe,"9 Quince Street, Apt 3",{PLACE},,')
    assert asked(addressing, path) == []
