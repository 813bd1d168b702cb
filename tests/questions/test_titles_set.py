"""A title set alone: of one person; of two it is told how the names are set instead."""

import json
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess

import pytest

Run = Callable[..., CompletedProcess[str]]
LIST = """Name,Street,City,State,ZIP
Hugo Orr,5 Mill Row,Litchfield,CT,06759
Ms. Ottoline Grayling and Guest,3 Mill Row,Litchfield,CT,06759
Wes & Dina Okafor,14 Larkmoor Lane,Litchfield,CT,06759
"""


@pytest.fixture
def path(tmp_path: Path) -> Path:
    path = tmp_path / "guests.csv"
    path.write_text(LIST, "utf-8")
    return path


def outer(run: Run, path: Path, number: int) -> str:
    home = json.loads(run("lines", path, "--json").stdout)["households"][number]
    piece = next(piece for piece in home["pieces"] if piece["kind"] == "outer")
    line: str = piece["lines"][0]["text"]
    return line


@pytest.mark.parametrize(
    ("who", "title", "number", "line"),
    [
        ("Hugo Orr", "Dr.", 0, "Doctor Hugo Orr"),
        ("A2", "judge", 0, "Judge Hugo Orr"),
        ("Ottoline Grayling", "Mrs.", 1, "Mrs. Ottoline Grayling"),
    ],
)
def test_the_title_of_one_person_is_set(
    addressing: Run, path: Path, *, who: str, title: str, number: int, line: str
) -> None:
    assert addressing("answer", path, "--set", who, "title", title).returncode == 0
    assert outer(addressing, path, number) == line


def test_a_title_for_two_is_refused_with_the_names_that_say_it(addressing: Run, path: Path) -> None:
    done = addressing("answer", path, "--set", "A4", "title", "Dr.")
    assert done.returncode == 2
    assert "Wes and Dina Okafor: a title alone doesn't say whose it is." in done.stderr
    told = " ".join(done.stderr.split())
    assert "--set A4 names 'Wes Okafor and Dina Okafor' (“Dr.” before whose it is)." in told
    names = "Dr. Wes Okafor and Dina Okafor"
    assert addressing("answer", path, "--set", "A4", "names", names).returncode == 0
    done = addressing("answer", path, "--set", "Dina Okafor", "title", "Mrs.")
    assert "--set A4 names 'Dr. Wes Okafor and Mrs. Dina Okafor'." in " ".join(done.stderr.split())


@pytest.mark.parametrize("words", ["none", "not sure", "7", "Hugo is a doctor of history now"])
def test_what_is_no_title_is_refused(addressing: Run, path: Path, words: str) -> None:
    done = addressing("answer", path, "--set", "Hugo Orr", "title", words)
    assert (done.returncode, "is no title" in done.stderr) == (2, True)


def test_a_title_stands_over_an_answer_and_names_with_titles_stand_over_it(
    addressing: Run, path: Path
) -> None:
    key = json.loads(addressing("lines", path, "--json").stdout)["households"][0]["key"]
    back = path.parent / "back.toml"
    back.write_text(f'[[answer]]\nquestion = "{key}:title-missing:1"\nanswer = "Mr."\n', "utf-8")
    addressing("answer", path, back)
    addressing("answer", path, "--set", "Hugo Orr", "title", "Dr.")
    assert outer(addressing, path, 0) == "Doctor Hugo Orr"
    addressing("answer", path, "--set", "Hugo Orr", "names", "Hugh Orr")
    assert outer(addressing, path, 0) == "Doctor Hugh Orr"
    addressing("answer", path, "--set", "Hugh Orr", "names", "Judge Hugh Orr")
    assert outer(addressing, path, 0) == "Judge Hugh Orr"


def test_a_title_waits_when_the_next_list_names_two(addressing: Run, path: Path) -> None:
    addressing("answer", path, "--set", "Hugo Orr", "title", "Dr.")
    path.write_text(LIST.replace("Hugo Orr", "Dr. Hugo Orr"), "utf-8")
    homes = json.loads(addressing("lines", path, "--json").stdout)["households"]
    assert not homes[0]["held"]
    path.write_text(LIST.replace("Hugo Orr", "Hugo Orr and Ida Orr"), "utf-8")
    homes = json.loads(addressing("lines", path, "--json").stdout)["households"]
    assert homes[0]["held"]


def test_a_title_that_is_set_is_asked_no_more(addressing: Run, path: Path) -> None:
    def asked() -> list[str]:
        questions = json.loads(addressing("questions", path, "--json").stdout)["questions"]
        return [each["who"] for each in questions if "title-missing" in each["codes"]]

    assert "Hugo Orr" in asked()
    addressing("answer", path, "--set", "Hugo Orr", "title", "Dr.")
    assert not any("Hugo" in who for who in asked())


@pytest.mark.parametrize(
    ("names", "line"),
    [
        ("Ms. Ottoline M. Grayling", "Ms. Ottoline M. Grayling"),
        ("Ottoline Grayling", "Doctor Ottoline Grayling"),
    ],
)
def test_a_title_goes_where_names_with_another_are_set_behind_it(
    addressing: Run, path: Path, names: str, line: str
) -> None:
    addressing("answer", path, "--set", "A3", "title", "Dr.")
    addressing("answer", path, "--set", "A3", "names", names)
    assert outer(addressing, path, 1) == line
