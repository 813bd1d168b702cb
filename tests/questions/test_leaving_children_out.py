"""“No kids” behind names or a title takes the listed children off, or waits; nobody is doubled."""

import json
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess

import pytest

Run = Callable[..., CompletedProcess[str]]
LIST = """\
First,Partner,Kids,Street,City,State,ZIP,Notes
Prof. Desmond Okonjo,Adaeze Okonjo,"Chidi 15, Nneka 9",12 Elm Street,Troy,NY,12180,
Chas. Ames,Beatrix Ames,,14 Elm Street,Troy,NY,12180,
Mr. Robt. Dorn,Kathy Dorn,,16 Elm Street,Troy,NY,12180,her name is Katharine on paper
"""


class Job:
    """A list of three couples, and its letter."""

    def __init__(self, run: Run, folder: Path) -> None:
        self.run, self.path = run, folder / "guests.csv"
        self.path.write_text(LIST, "utf-8")
        run("questions", self.path)
        self.letter = Path("guests-job/questions.txt").read_text("utf-8")

    def number(self, words: str) -> str:
        """The number of the question or row of a letter that says so."""
        line = next(each for each in self.letter.splitlines() if words in each)
        return line.strip().removeprefix("Question ").split()[0].rstrip(",:")

    def reply(self, *lines: str) -> None:
        mark = next(each for each in self.letter.splitlines() if "letter " in each)
        Path("reply.txt").write_text("\n".join((mark, "", *lines)), "utf-8")
        self.run("answer", self.path, "reply.txt")

    def piece(self, place: int, kind: str) -> list[str]:
        told = json.loads(self.run("lines", self.path, "--json").stdout)["households"][place]
        piece = next(each for each in told["pieces"] if each["kind"] == kind)
        return [line["text"] for line in piece["lines"]]

    def held(self, place: int) -> bool:
        told = json.loads(self.run("lines", self.path, "--json").stdout)["households"]
        return bool(told[place]["held"])


@pytest.fixture
def job(addressing: Run, tmp_path: Path) -> Job:
    return Job(addressing, tmp_path)


@pytest.mark.parametrize(
    "words", ["Mrs. (no kids please)", "Mrs., no kids please", "Mrs. (no children)"]
)
def test_a_title_with_no_kids_beside_it_holds(job: Job, words: str) -> None:
    row = job.number("Adaeze Okonjo:")
    job.reply(f"{row.partition('.')[0]}: b", f"{row} {words}")
    assert job.held(0)


@pytest.mark.parametrize("words", ["no kids", "without the kids", "no children"])
def test_names_with_no_kids_behind_them_take_them_off(job: Job, words: str) -> None:
    names = f"Prof. Desmond Okonjo and Mrs. Adaeze Okonjo, {words}"
    done = job.run("answer", job.path, "--set", "A2", "names", names)
    assert "Chidi Okonjo (15), Nneka Okonjo (9)" in done.stdout
    assert job.piece(0, "inner") == ["Professor and Mrs. Okonjo"]


def test_names_without_such_words_keep_them(job: Job) -> None:
    names = "Prof. Desmond Okonjo and Mrs. Adaeze Okonjo"
    job.run("answer", job.path, "--set", "A2", "names", names)
    assert job.piece(0, "inner") == ["Professor and Mrs. Okonjo", "Chidi and Nneka"]


def test_a_correction_of_a_couple_makes_no_third_of_the_wife(job: Job) -> None:
    job.run("answer", job.path, "--set", "A3", "names", "Mr. and Mrs. Charles Ames")
    assert job.piece(1, "outer")[0] == "Mr. and Mrs. Charles Ames"
    assert job.piece(1, "inner") == ["Mr. and Mrs. Ames"]


def test_an_answer_of_both_names_makes_no_third_of_one_in_short(job: Job) -> None:
    number = job.number("Mr. Robt. and Kathy Dorn (row 4)")
    job.reply(f"{number}: Mr. Robert Dorn and Mrs. Katharine Dorn")
    assert job.piece(2, "outer")[0] == "Mr. and Mrs. Robert Dorn"
    assert job.piece(2, "inner") == ["Mr. and Mrs. Dorn"]
