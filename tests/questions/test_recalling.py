"""An answer about a person goes with her when the list respells her; newcomers are asked of too."""

import json
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess
from typing import Any

import openpyxl
import pytest

from addressing.questions.asking import mark_of

Run = Callable[..., CompletedProcess[str]]
HEADER = "Name,Address,City,State,ZIP\n"
PLACE = ",14 Larkmoor Lane,Litchfield,CT,06759\n"


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return write(tmp_path / "guests.csv", "Tobias Wexcomb & Odile Farrenby")


def write(path: Path, name: str) -> Path:
    path.write_text(f"{HEADER}{name}{PLACE}", "utf-8")
    return path


def asked(run: Run, path: Path) -> dict[str, str]:
    """Whom each question of a title is about, and its ref."""
    told: dict[str, Any] = json.loads(run("questions", path, "--json").stdout)
    return {each["listed"]: each["question"] for each in told["questions"] if
            ":title-" in each["question"]}  # fmt: skip


def answer(run: Run, path: Path, said: dict[str, str]) -> CompletedProcess[str]:
    """Answer with the marks of the questions, as a filled workbook has them."""
    refs = asked(run, path)
    back = path.parent / "back.toml"
    back.write_text(
        "\n".join(
            f'[[answer]]\nquestion = "{refs[who]}"\nmark = "{mark_of(who)}"\nanswer = "{title}"'
            for who, title in said.items()
        )
    )
    return run("answer", path, back)


def titles(run: Run, path: Path) -> list[tuple[str | None, str | None]]:
    told = json.loads(run("lines", path, "--json").stdout)["households"]
    return [(p["title"], p["given"]) for home in told for p in home["people"]]


BOTH = {"Tobias Wexcomb": "Mr.", "Odile Farrenby": "Ms."}


@pytest.mark.parametrize(
    ("name", "expected"),
    [
        ("Tobias Wexcombe & Odile Farrenby", [("Mr.", "Tobias"), ("Ms.", "Odile")]),
        ("Odile Farrenby & Tobias Wexcomb", [("Ms.", "Odile"), ("Mr.", "Tobias")]),
        ("Odile Farrenby & Tobias Wexcombe", [("Ms.", "Odile"), ("Mr.", "Tobias")]),
        ("Dr. Tobias Wexcombe & Odile Farrenby", [("Dr.", "Tobias"), ("Ms.", "Odile")]),
    ],
)
def test_a_title_goes_with_the_person_whom_the_list_respells_or_moves(
    addressing: Run, path: Path, name: str, expected: list[tuple[str, str]]
) -> None:
    assert answer(addressing, path, BOTH).returncode == 0
    write(path, name)
    assert titles(addressing, path) == expected
    assert asked(addressing, path) == {}


def test_a_title_stays_with_nobody_else(addressing: Run, path: Path) -> None:
    assert answer(addressing, path, BOTH).returncode == 0
    write(path, "Rufus Wexcomb & Odile Farrenby")
    assert titles(addressing, path) == [(None, "Rufus"), ("Ms.", "Odile")]
    assert list(asked(addressing, path)) == ["Rufus Wexcomb"]


def test_who_is_recalled_is_kept_as_the_list_has_the_name_now(addressing: Run, path: Path) -> None:
    assert answer(addressing, path, BOTH).returncode == 0
    write(path, "Tobias Wexcombe & Odile Farrenby")
    said = ("--set", "A2", "street", "15 Larkmoor Lane")
    assert addressing("answer", path, *said).returncode == 0
    kept = (path.parent / "guests-job" / "decisions.toml").read_text()
    assert 'about = "Tobias Wexcombe"' in kept
    assert 'Wexcomb"' not in kept
    assert titles(addressing, path)[0] == ("Mr.", "Tobias")


def test_a_companion_named_by_answer_is_asked_for_a_title(addressing: Run, tmp_path: Path) -> None:
    path = write(tmp_path / "guests.csv", "Mr. Tobias Wexcombe and Guest")
    told = json.loads(addressing("questions", path, "--json").stdout)["questions"]
    ref = next(each["question"] for each in told if "guest-unnamed" in each["question"])
    (tmp_path / "a.toml").write_text(f'[[answer]]\nquestion = "{ref}"\nanswer = "Nell Farrenby"\n')
    assert addressing("answer", path, tmp_path / "a.toml").returncode == 0
    assert list(asked(addressing, path)) == ["Nell Farrenby"]
    assert answer(addressing, path, {"Nell Farrenby": "Dr."}).returncode == 0
    assert titles(addressing, path) == [("Mr.", "Tobias"), ("Dr.", "Nell")]
    assert asked(addressing, path) == {}
    assert addressing("answer", path, "--undo", "Nell Wexcombe:title").returncode == 2
    assert addressing("answer", path, "--undo", "Nell Farrenby:title").returncode == 0
    assert list(asked(addressing, path)) == ["Nell Farrenby"]


def test_a_name_that_an_answer_respells_is_asked_once(addressing: Run, path: Path) -> None:
    said = ("--set", "A2", "names", "Tobias Wexcombe and Odile Farrenby")
    assert addressing("answer", path, *said).returncode == 0
    assert len(asked(addressing, path)) == 2


def test_a_family_that_gets_names_is_asked_for_their_titles(
    addressing: Run, tmp_path: Path
) -> None:
    path = write(tmp_path / "guests.csv", "The Penhew Family")
    said = ("--set", "A2", "names", "Ludo Penhew and Mrs. Nell Penhew")
    assert addressing("answer", path, *said).returncode == 0
    assert list(asked(addressing, path)) == ["Ludo Penhew"]


def test_whoever_asks_for_no_titles_asks_none_of_newcomers(addressing: Run, tmp_path: Path) -> None:
    path = write(tmp_path / "guests.csv", "The Penhew Family")
    (tmp_path / "relaxed.toml").write_text('[wording]\nstyle = "relaxed"\n')
    said = ("--set", "A2", "names", "Ludo Penhew and Mrs. Nell Penhew")
    done = addressing("answer", path, *said, "--docket", "relaxed.toml")
    assert "Nothing is open" in done.stdout


def test_a_workbook_that_is_read_again_takes_nothing_from_what_was_carried_over(
    addressing: Run, path: Path
) -> None:
    assert addressing("questions", path).returncode == 0
    filled = path.parent / "filled.xlsx"
    book = openpyxl.load_workbook(path.parent / "guests-job" / "questions.xlsx")
    for row in book["Questions"].iter_rows():
        if "title-missing" in str(row[7].value):
            row[4].value = "Dr."
    book.save(filled)
    assert addressing("answer", path, filled).returncode == 0
    then = titles(addressing, path)
    assert ("Dr.", "Tobias") in then
    write(path, "Tobias Wexcombe & Odile Farrenby")
    assert addressing("answer", path, "--set", "A2", "street", "15 Larkmoor Lane").returncode == 0
    again = addressing("answer", path, filled)
    assert "what was decided since holds" in again.stdout
    assert titles(addressing, path) == then
    assert asked(addressing, path) == {}
