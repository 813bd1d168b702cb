"""Names that are corrected: who stands beside them is said by them, or told."""

import json
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess

import pytest

Run = Callable[..., CompletedProcess[str]]
Write = Callable[..., Path]

DOOR = ("Larkmoor Lane", "Litchfield", "CT", "06759")
CELLS = (
    "Tobias and Odile Wexcombe and Family",
    "Theo and Ida Quenby and 2 kids",
    "Ms. Ottoline Grayling and Guest",
)
BOTH = "Tobias and Odile Wexcombe"
ALL = "Mr. Tobias Wexcombe, Mrs. Odile Wexcombe, Rosie Wexcombe and Otto Wexcombe"


@pytest.fixture
def path(write_list: Write) -> Path:
    return write_list([(cell, f"{2 * at} {DOOR[0]}", *DOOR[1:]) for at, cell in enumerate(CELLS)])


def correct(addressing: Run, path: Path, *said: str) -> CompletedProcess[str]:
    return addressing("answer", path, "--set", *said)


def everyone(addressing: Run, path: Path, at: int) -> list[str]:
    """The lines of names of the inner envelope."""
    told = json.loads(addressing("lines", path, "--json").stdout)["households"][at]
    inner = next(piece for piece in told["pieces"] if piece["kind"] == "inner")
    return [line["text"] for line in inner["lines"]]


def test_names_of_more_than_the_list_are_the_family_and_nobody_stands_beside_them(
    addressing: Run, path: Path
) -> None:
    done = correct(addressing, path, "A2", "names", ALL)
    assert everyone(addressing, path, 0)[1:] == ["Rosie Wexcombe", "Otto Wexcombe"]
    assert "“Family” is gone" in done.stdout
    told = addressing("check", path, "--json").stdout
    assert "beside-names" in told, "told by check too"


def test_a_family_that_the_client_named_before_is_not_named_twice(
    addressing: Run, path: Path, tmp_path: Path
) -> None:
    key = json.loads(addressing("lines", path, "--json").stdout)["households"][0]["key"]
    answers = tmp_path / "a.toml"
    answers.write_text(
        f'[[answer]]\nquestion = "{key}:family-unnamed"\nanswer = "Rosie and Otto"\n', "utf-8"
    )
    assert addressing("answer", path, answers).returncode == 0
    assert correct(addressing, path, "A2", "names", ALL).returncode == 0
    assert everyone(addressing, path, 0)[1:] == ["Rosie Wexcombe", "Otto Wexcombe"]


def test_and_family_behind_the_names_keeps_it(addressing: Run, path: Path) -> None:
    done = correct(addressing, path, "A2", "names", "Tobias, Odile and Ada Wexcombe and Family")
    assert everyone(addressing, path, 0)[-1] == "and Family"
    assert "Family” is gone" not in done.stdout


def test_a_family_that_stays_beside_corrected_names_is_told(addressing: Run, path: Path) -> None:
    done = correct(addressing, path, "A2", "names", "Tobias and Odyle Wexcombe")
    assert everyone(addressing, path, 0)[-1] == "and Family"
    assert "Odyle Wexcombe” stays what the list has: Family" in done.stdout


def test_names_that_change_nothing_beside_a_family_are_refused(addressing: Run, path: Path) -> None:
    done = correct(addressing, path, "A2", "names", BOTH)
    assert done.returncode == 1
    assert "It changes nothing, and Family would stay: give everyone" in done.stdout


def test_everyone_says_all_even_in_the_words_of_the_list(addressing: Run, path: Path) -> None:
    assert correct(addressing, path, "A2", "everyone", BOTH).returncode == 0
    assert everyone(addressing, path, 0) == ["Tobias and Odile"]


@pytest.mark.parametrize(("also", "left"), [("", 1), (", Otto Quenby", 0)])
def test_names_for_children_without_a_name_take_their_places(
    addressing: Run, path: Path, also: str, left: int
) -> None:
    done = correct(addressing, path, "A3", "names", f"Theo Quenby, Ida Quenby, Rosie Quenby{also}")
    assert done.returncode == 0
    told = json.loads(addressing("lines", path, "--json").stdout)["households"][1]
    assert sum(person["given"] is None for person in told["people"]) == left
    assert ("stays what the list has: child" in done.stdout) == bool(left)


@pytest.mark.parametrize(
    ("names", "told"), [("Ms. Ottoline Greyling", 0), ("Mr. Hugo Grayling", 1)]
)
def test_a_companion_beside_other_names_is_told_and_beside_respelled_ones_is_not(
    addressing: Run, path: Path, names: str, told: int
) -> None:
    done = correct(addressing, path, "A4", "names", names)
    assert everyone(addressing, path, 2)[0].endswith("and Guest")
    assert done.stdout.count("stays what the list has: Guest") == told
