"""An answer never takes away more than it says."""

import json
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess
from typing import Any

import pytest

Run = Callable[..., CompletedProcess[str]]


class Job:
    """A list of one household with a note, and its letter."""

    def __init__(self, run: Run, folder: Path) -> None:
        self.run, self.path = run, folder / "guests.csv"

    def of(self, names: str, note: str) -> "Job":
        row = f'"{names}",9 Mill Lane,Kingston,NY,12401,"{note}"\n'
        self.path.write_text(f"Name,Street,City,State,ZIP,Notes\n{row}", "utf-8")
        assert self.run("questions", self.path).returncode == 0
        return self

    def answer(self, code: str, words: str, name: str = "reply.txt") -> str:
        """What `answer` says of words at the question with a code, in a reply to the letter."""
        letter = Path("guests-job/questions.txt").read_text("utf-8")
        mark = next(line for line in letter.splitlines() if "letter " in line)
        told = json.loads(self.run("questions", self.path, "--json").stdout)
        number = next(m["number"] for m in told["matters"] if f":{code}" in m["matter"])
        Path(name).write_text(f"{mark}\n\n{number}: {words}\n", "utf-8")
        return self.run("answer", self.path, name).stdout

    def home(self) -> dict[str, Any]:
        homes = json.loads(self.run("lines", self.path, "--json").stdout)["households"]
        return dict(homes[0])

    def lines(self, kind: str = "outer") -> list[str]:
        piece = next(each for each in self.home()["pieces"] if each["kind"] == kind)
        return [line["text"] for line in piece["lines"]]


@pytest.fixture
def job(addressing: Run, tmp_path: Path) -> Job:
    return Job(addressing, tmp_path)


@pytest.mark.parametrize(
    ("names", "note", "words"),
    [
        ("Mr. and Mrs. William Foster", "is he a judge now?", "The Honorable William Foster"),
        ("Mr. and Mrs. William Foster", "is he a judge now?", "William Foster"),
        ("Mr. and Mrs. William Foster", "is he a judge now?", "Judge Bill Foster"),
        ("Mr. and Mrs. William Foster", "is he a judge now?", "Mrs. Foster"),
        ("Ida and Anna Foster", "does she go by Annie?", "Dr. Annie Foster"),
        ("Ida and Anna Foster", "does she go by Annie?", "Anna"),
        ("Ida and Anna Foster", "does she go by Annie?", "Anna and kids"),
    ],
)
def test_fewer_names_than_the_list_has_are_asked_about(
    job: Job, names: str, note: str, words: str
) -> None:
    before = job.of(names, note).lines()
    assert "It doesn't say whether" in job.answer("note-open", words)
    assert job.home()["held"]
    assert job.lines() == before


@pytest.mark.parametrize("words", ["William Foster alone", "only William Foster", "just William"])
def test_a_word_that_leaves_out_everybody_else_takes_the_partner_away(job: Job, words: str) -> None:
    job.of("Mr. and Mrs. William Foster", "is she still with him?").answer("note-open", words)
    assert not job.home()["held"]
    assert job.lines()[0] == "Mr. William Foster"


def test_a_word_for_alone_takes_children_and_a_companion_away_too(job: Job) -> None:
    job.of("William Foster and Guest, Nell (5)", "is he a judge now?")
    job.answer("note-open", "Judge William Foster alone")
    assert [each["given"] for each in job.home()["people"]] == ["William"]


def test_what_a_proposed_answer_takes_away_is_taken_in_other_words_too(job: Job) -> None:
    job.of("Ida and Anna Foster", "is Anna coming?")
    job.answer("note-open", "Ida Foster")
    assert not job.home()["held"]
    assert job.lines()[0] == "Ida Foster"


def test_names_that_are_asked_for_as_all_who_are_invited_are_all(job: Job) -> None:
    job.of("Ida and Anna Foster", "Anna declined").answer("marker-in-list", "Ida Foster")
    assert job.lines()[0] == "Ida Foster"


@pytest.mark.parametrize(
    ("words", "first"),
    [
        ("Liam, Maeve and baby", "Liam and Maeve Doyle"),
        ("Maeve, Liam + baby", "Maeve and Liam Doyle"),
        ("Liam & Maeve and twins", "Liam and Maeve Doyle"),
        ("Liam and Maeve Doyle and infant", "Liam and Maeve Doyle"),
    ],
)
def test_a_child_without_a_name_behind_the_parents_stays_with_them(
    job: Job, words: str, first: str
) -> None:
    job.of("Liam and Maeve Doyle", "they have a baby - how do we write it?")
    job.answer("note-open", words)
    assert not job.home()["held"]
    assert job.lines("inner") == [first, "and Family"]


def test_a_designer_who_sets_fewer_names_is_told_who_goes(job: Job) -> None:
    job.of("Mr. and Mrs. William Foster", "")
    done = job.run("answer", job.path, "--set", "Foster", "names", "The Honorable William Foster")
    assert "leaves out whom the list has: Mrs. Foster" in done.stdout
    assert job.lines()[0] == "The Honorable William Foster"


@pytest.mark.parametrize("words", ["see 10", "same as no. 4", "ditto", "as above", "cf. row 3"])
def test_an_answer_that_speaks_of_another_is_kept_and_asked_again(job: Job, words: str) -> None:
    before = job.of("The Doyle Family", "").lines()
    job.answer("family-unnamed", words)
    assert job.home()["held"]
    assert job.lines() == before
    asked = json.loads(job.run("questions", job.path, "--json").stdout)["questions"]
    assert [each["codes"] for each in asked] == [["family-unnamed"]]
