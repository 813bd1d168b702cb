"""What a decision added beside the grown ones stays beside names that say nothing of it."""

import json
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess

import pytest

Run = Callable[..., CompletedProcess[str]]
Write = Callable[..., Path]

DOOR = ("14 Larkmoor Lane", "Litchfield", "CT", "06759")
PAIR, GUEST, FAMILY = "Wes & Dina Okafor", "Ms. Ottoline Grayling and Guest", "The Okafor Family"
BOTH = "Mr. Wes Okafor and Mrs. Dina Okafor"
YOUNG = "Wes Okafor, Dina Okafor, Zora (8), Ike (5)"


class Job:
    """A list of one household with a note, and what is decided of it."""

    def __init__(self, run: Run, folder: Path, name: str, note: str = "") -> None:
        self.run, self.folder = run, folder
        self.path = folder / "guests.csv"
        cells = ",".join(f'"{cell}"' for cell in (name, *DOOR, note))
        self.path.write_text(f"Name,Street,City,State,ZIP,Notes\n{cells}\n", "utf-8")
        self.key = json.loads(run("lines", self.path, "--json").stdout)["households"][0]["key"]

    def answer(self, code: str, words: str) -> None:
        """The client's answer to a question about the household."""
        path = self.folder / f"{code.partition(':')[0]}.toml"
        said = f'[[answer]]\nquestion = "{self.key}:{code}"\nanswer = "{words}"\n'
        path.write_text(said, "utf-8")
        done = self.run("answer", self.path, path)
        assert "Not taken" not in done.stdout, done.stdout

    def set(self, kind: str, words: str) -> str:
        """The designer's own correction; gives what she is told."""
        done = self.run("answer", self.path, "--set", "A2", kind, words)
        assert done.returncode == 0, done.stdout + done.stderr
        return done.stdout

    def inner(self) -> list[str]:
        """The lines of names of the inner envelope."""
        told = json.loads(self.run("lines", self.path, "--json").stdout)["households"][0]
        piece = next(piece for piece in told["pieces"] if piece["kind"] == "inner")
        return [line["text"] for line in piece["lines"]]


@pytest.fixture
def job(addressing: Run, tmp_path: Path) -> Callable[..., Job]:
    return lambda name, note="": Job(addressing, tmp_path, name, note)


NOTED = {"name-noted": "check the spelling", "children-noted": "plus kids?"}


@pytest.mark.parametrize("code", NOTED)
@pytest.mark.parametrize(
    ("words", "inner"),
    [
        ("Wes and Dina Okafor and kids", ["and Family"]),
        (YOUNG, ["Zora", "Ike"]),
    ],
)
def test_children_of_an_answer_stay_beside_the_parents_names(
    job: Callable[..., Job], code: str, words: str, inner: list[str]
) -> None:
    it = job(PAIR, NOTED[code])
    it.answer(code, words)
    told = it.set("names", BOTH)
    assert "no longer holds" not in told
    assert "stays what was decided: " in told
    lines = it.inner()
    assert all(any(name in line for line in lines) for name in inner), lines
    assert "Mr." in lines[0]
    assert it.set("names", "Mr. Wesley Okafor and Mrs. Dina Okafor")
    assert it.inner()[1:] == lines[1:], "and beside others after them"


def test_children_given_alone_stay_too(job: Callable[..., Job]) -> None:
    it = job(PAIR, NOTED["children-noted"])
    it.answer("children-noted", "Zora (8) and Ike (5)")
    it.set("names", BOTH)
    assert "Zora" in " ".join(it.inner())
    assert "Ike" in " ".join(it.inner())


@pytest.mark.parametrize("everyone", [YOUNG, "Wes Okafor, Dina Okafor, Zora Okafor and Ike Okafor"])
def test_what_was_set_for_everyone_stays(job: Callable[..., Job], everyone: str) -> None:
    it = job(PAIR)
    it.set("everyone", everyone)
    assert "Zora" in it.set("names", BOTH)
    assert "Zora" in " ".join(it.inner())
    assert "Ike" in " ".join(it.inner())
    it.set("everyone", BOTH)
    assert "Zora" not in " ".join(it.inner())


def test_children_of_a_family_by_name_stay(job: Callable[..., Job]) -> None:
    it = job(FAMILY)
    it.set("everyone", YOUNG)
    it.set("names", BOTH)
    assert it.inner() == ["Mr. and Mrs. Okafor", "Zora and Ike"]


@pytest.mark.parametrize(
    ("words", "gone", "there"),
    [
        (f"{BOTH}, Zora (8)", "Ike", "Zora"),
        (f"{BOTH} and Family", "Zora", "and Family"),
    ],
)
def test_names_that_speak_of_children_say_all_of_them(
    job: Callable[..., Job], words: str, gone: str, there: str
) -> None:
    it = job(PAIR)
    it.set("everyone", YOUNG)
    told = it.set("names", words)
    assert "no longer holds" in told
    lines = " ".join(it.inner())
    assert there in lines
    assert gone not in lines


def test_a_companion_who_was_named_stays_beside_the_guests_name(job: Callable[..., Job]) -> None:
    it = job(GUEST)
    it.answer("guest-unnamed:2", "Fitz Ambrose")
    told = it.set("names", "Ms. Ottoline Greyling")
    assert "no longer holds" not in told
    assert "stays what was decided: Fitz Ambrose" in told
    assert "Ambrose" in " ".join(it.inner())
    told = it.set("names", "Ms. Ottoline Greyling and Mr. Hugo Orr")
    assert "Ambrose” no longer holds" in told
    assert "Ambrose" not in " ".join(it.inner())


@pytest.mark.parametrize("words", ["Ms. Ottoline Grayling and Fitz Ambrose", "Yes"])
def test_a_companion_of_an_answer_with_all_the_names_stays(
    job: Callable[..., Job], words: str
) -> None:
    it = job("Ms. Ottoline Grayling", "plus one?")
    it.answer("guest-noted", words)
    came = "Ambrose" if "Fitz" in words else "Guest"
    assert came in " ".join(it.inner())
    assert "stays what was decided: " in it.set("names", "Ms. Ottoline Greyling")
    assert came in " ".join(it.inner())


def test_a_companion_whom_everyone_left_out_stays_out(job: Callable[..., Job]) -> None:
    it = job(GUEST)
    it.set("everyone", "Ms. Ottoline Grayling")
    it.set("names", "Ms. Ottoline Greyling")
    assert "Guest" not in " ".join(it.inner())


def test_taken_back_the_names_leave_the_answer(job: Callable[..., Job]) -> None:
    it = job(PAIR, NOTED["name-noted"])
    it.answer("name-noted", YOUNG)
    it.set("names", BOTH)
    assert it.run("answer", it.path, "--undo", "--set!1").returncode in (0, 1)
    assert "Zora" in " ".join(it.inner())


@pytest.mark.parametrize("words", [f"{BOTH}, no kids", f"{BOTH} (no children)"])
def test_no_kids_behind_the_names_takes_them_away(job: Callable[..., Job], words: str) -> None:
    it = job(PAIR)
    it.set("everyone", YOUNG)
    assert "no longer holds" in it.set("names", words)
    assert it.inner() == ["Mr. and Mrs. Okafor"]


@pytest.mark.parametrize(
    ("listed", "first", "second", "inner"),
    [
        (PAIR, YOUNG, BOTH, ["Mr. and Mrs. Okafor", "Zora and Ike"]),
        (PAIR, "Wes and Dina Okafor and family", BOTH, ["Mr. and Mrs. Okafor", "and Family"]),
        (GUEST, "Ms. Ottoline Grayling and Mr. Fitz Ambrose", "Ms. Ottoline Greyling",
         ["Ms. Greyling and Mr. Ambrose"]),
        ("Mr. Hugo Orr", "Mr. Hugo Orr, Kit (3)", "Dr. Hugo Orr", ["Doctor Orr", "Kit"]),
    ],
)  # fmt: skip
def test_who_stands_beside_names_that_were_set_before_stays(
    job: Callable[..., Job], listed: str, first: str, second: str, inner: list[str]
) -> None:
    it = job(listed)
    it.set("names", first)
    assert "stays what was decided: " in it.set("names", second)
    assert it.inner() == inner
    it.set("names", second)
    assert it.inner() == inner


def test_names_set_again_that_name_other_children_tell_who_goes(job: Callable[..., Job]) -> None:
    it = job(PAIR)
    it.set("names", YOUNG)
    told = it.set("names", f"{BOTH}, Bo (2)")
    assert "without Zora Okafor (8), Ike Okafor (5)" in told
    assert it.inner() == ["Mr. and Mrs. Okafor", "Bo"]
    assert "without" not in it.set("names", f"{BOTH}, no kids")
    assert it.inner() == ["Mr. and Mrs. Okafor"]


def test_names_that_are_only_spelled_again_leave_one_decision(job: Callable[..., Job]) -> None:
    it = job(PAIR)
    it.set("names", "Wes Okafor and Dina Okafor")
    assert "1 decision is kept" in it.set("names", BOTH)


def test_a_correction_that_cannot_be_taken_leaves_the_one_before(job: Callable[..., Job]) -> None:
    it = job(PAIR)
    it.set("names", YOUNG)
    done = it.run("answer", it.path, "--set", "A2", "names", "Wes please check")
    assert (done.returncode, "Not taken (1)" in done.stdout) == (1, True)
    assert "1 decision is kept" in done.stdout
    assert it.inner() == ["Wes and Dina", "Zora and Ike"]
