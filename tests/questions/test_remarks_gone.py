"""An answered remark goes on when the next list lacks it, or the household waits and says why."""

import itertools
import json
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from subprocess import CompletedProcess
from typing import Any

import openpyxl
import pytest

Run = Callable[..., CompletedProcess[str]]
HEADER = ("Name", "Street", "City", "State", "ZIP", "Notes")
PENHEWS = ("Mr. and Mrs. Tobias Penhew", "14 Larkmoor Lane", "Litchfield", "CT", "06759")
OTHER = ("Ms. Odile Farrenby", "431 Weathervane Drive", "Bar Harbor", "ME", "04609")
MOVED = "The Penhews moved: 22 Vesper Street, Bethel, ME 04217"
NEW = "22 Vesper Street, Bethel, ME 04217"


def with_sheet(path: Path, row: Sequence[str], *said: str) -> Path:
    """A workbook of two households, with a sheet of changes where something is said."""
    book = openpyxl.Workbook()
    page = book.worksheets[0]
    for cells in (HEADER, row, OTHER):
        page.append(list(cells))
    if said:
        changes = book.create_sheet("Changes")
        for words in said:
            changes.append([words])
    book.save(path)
    return path


@dataclass(frozen=True)
class Job:
    """A list of a job, its command and its folder."""

    run: Run
    path: Path
    folder: Path

    def home(self) -> dict[str, Any]:
        """The Penhews as they are printed now; nothing when they are on no envelope."""
        told = self.run("lines", self.path, "--json", "--to", self.folder).stdout
        found = [h for h in json.loads(told)["households"] if "Penhew" in json.dumps(h["pieces"])]
        return found[0] if found else {}

    def answer(self, *more: object) -> CompletedProcess[str]:
        """What `answer` says of the list."""
        return self.run("answer", self.path, *more, "--to", self.folder)


Later = Callable[[Path, str, str, Path], Job]


@pytest.fixture
def later(addressing: Run, tmp_path: Path) -> Later:
    """Answer the question of the first list with a code, and give the job with the second list."""
    numbers = itertools.count(1)

    def read(first: Path, code: str, answer: str, then: Path) -> Job:
        folder = tmp_path / f"job{next(numbers)}"
        told = addressing("questions", first, "--json", "--to", folder).stdout
        (ref,) = [
            q["question"] for q in json.loads(told)["questions"] if f":{code}" in q["question"]
        ]
        back = tmp_path / "back.toml"
        back.write_text(
            f"[[answer]]\nquestion = {json.dumps(ref)}\nanswer = {json.dumps(answer)}\n"
        )
        done = addressing("answer", first, back, "--to", folder)
        assert done.returncode == 0, done.stdout + done.stderr
        return Job(addressing, then, folder)

    return read


def outer(home: dict[str, Any]) -> list[str]:
    piece = next(piece for piece in home["pieces"] if piece["kind"] == "outer")
    return [line["text"] for line in piece["lines"]]


def codes(home: dict[str, Any]) -> set[str]:
    return {each["code"] for each in home["findings"]}


@pytest.mark.parametrize(
    ("said", "answer", "row", "lines"),
    [
        (MOVED, NEW, PENHEWS, ["Mr. and Mrs. Tobias Penhew", "22 Vesper Street"]),
        (MOVED, NEW, (PENHEWS[0], "14 Larkmoor Ln.", *PENHEWS[2:]),
         ["Mr. and Mrs. Tobias Penhew", "22 Vesper Street"]),
        (MOVED, NEW, ("Mr. & Mrs. Tobias A. Penhew", *PENHEWS[1:]),
         ["Mr. and Mrs. Tobias A. Penhew", "22 Vesper Street"]),
        (MOVED, NEW, (PENHEWS[0], *NEW.replace("ME ", "ME, ").split(", ")),
         ["Mr. and Mrs. Tobias Penhew", "22 Vesper Street"]),
        ("The Penhews are doctors now", "Drs. Tobias and Ida Penhew", PENHEWS,
         ["Doctors Tobias and Ida Penhew", "14 Larkmoor Lane"]),
        ("Mrs. Penhew is Ida", "Mr. Tobias and Mrs. Ida Penhew",
         (PENHEWS[0], "3 Mill Row", *PENHEWS[2:]),
         ["Mr. and Mrs. Tobias Penhew", "3 Mill Row"]),
    ],
)  # fmt: skip
def test_what_was_answered_to_a_sheet_that_is_gone_goes_on(
    later: Later, tmp_path: Path, *, said: str, answer: str, row: Sequence[str], lines: list[str]
) -> None:
    first = with_sheet(tmp_path / "v1.xlsx", PENHEWS, said)
    job = later(first, "said-elsewhere", answer, with_sheet(tmp_path / "v2.xlsx", row))
    home = job.home()
    assert outer(home)[: len(lines)] == lines
    assert not home["held"]
    assert "remark-gone" not in codes(home)
    assert job.answer("--set", "Farrenby", "city", "Bar Harbor").returncode == 0
    assert outer(job.home())[: len(lines)] == lines, "another answer loses nothing"


def test_who_was_left_out_by_a_sheet_that_is_gone_waits_once(later: Later, tmp_path: Path) -> None:
    first = with_sheet(tmp_path / "v1.xlsx", PENHEWS, "Please skip the Penhews")
    whole = "Leave out the whole household: Mr. Tobias Penhew and Mrs. Penhew"
    job = later(first, "said-elsewhere", whole, with_sheet(tmp_path / "v2.xlsx", PENHEWS))
    assert job.home()["held"], "the list has them, and nothing in it says that they aren't invited"
    assert job.answer("--settled", "back.toml!answer[1]").returncode == 0
    for _ in range(2):
        assert job.home() == {}
        assert job.answer("--set", "Farrenby", "city", "Bar Harbor").returncode == 0


def test_another_address_than_when_it_was_asked_holds_the_household(
    addressing: Run, later: Later, tmp_path: Path
) -> None:
    first = with_sheet(tmp_path / "v1.xlsx", PENHEWS, MOVED)
    then = with_sheet(tmp_path / "v2.xlsx", (PENHEWS[0], "3 Mill Row", *PENHEWS[2:]))
    job = later(first, "said-elsewhere", NEW, then)
    home = job.home()
    assert home["held"]
    assert "remark-gone" in codes(home)
    told = addressing("check", job.path, "--to", job.folder).stdout
    assert "--settled 'back.toml!answer[1]'" in told
    assert job.answer("--set", "Farrenby", "city", "Bar Harbor").returncode == 1
    assert job.home()["held"], "another answer doesn't settle it"
    assert job.answer("--settled", "back.toml!answer[1]").returncode == 0
    home = job.home()
    assert (home["held"], outer(home)[1]) == (False, "22 Vesper Street")


def test_the_lists_own_address_is_taken_where_the_answer_is_taken_back(
    later: Later, tmp_path: Path
) -> None:
    first = with_sheet(tmp_path / "v1.xlsx", PENHEWS, MOVED)
    then = with_sheet(tmp_path / "v2.xlsx", (PENHEWS[0], "3 Mill Row", *PENHEWS[2:]))
    job = later(first, "said-elsewhere", NEW, then)
    assert job.answer("--undo", "back.toml!answer[1]").returncode == 0
    home = job.home()
    assert (home["held"], outer(home)[1]) == (False, "3 Mill Row")


def test_an_address_set_anew_settles_it_and_names_do_not(later: Later, tmp_path: Path) -> None:
    first = with_sheet(tmp_path / "v1.xlsx", PENHEWS, MOVED)
    then = with_sheet(tmp_path / "v2.xlsx", (PENHEWS[0], "3 Mill Row", *PENHEWS[2:]))
    job = later(first, "said-elsewhere", NEW, then)
    job.answer("--set", "Penhew", "names", "Mr. Tobias and Mrs. Ida Penhew")
    assert job.home()["held"]
    job.answer("--set", "Penhew", "address", "5 Mill Row, Litchfield, CT 06759")
    assert not job.home()["held"]


@pytest.mark.parametrize(
    ("note", "code", "answer", "first_line", "held"),
    [
        ("kids too: Nell (6) and Bram (4)", "children-noted",
         "Nell (6), Bram (4)", "Mr. and Mrs. Tobias Penhew", False),
        ("no mail delivery at the house", "by-hand-noted", "No, given by hand",
         "Mr. and Mrs. Tobias Penhew", False),
        ("goes by Tobey", "name-noted", "Mr. Tobey Penhew and Mrs. Ida Penhew",
         "Mr. and Mrs. Tobey Penhew", False),
        ("declined", "marker-in-list", "No, leave out the whole household",
         "Mr. and Mrs. Tobias Penhew", True),
        ("declined", "marker-in-list", "Yes, still invited", "Mr. and Mrs. Tobias Penhew", False),
    ],
)  # fmt: skip
def test_an_answered_note_goes_on_and_who_may_be_invited_again_waits(  # noqa: PLR0913
    later: Later, tmp_path: Path, *, note: str, code: str, answer: str, first_line: str, held: bool
) -> None:
    first = with_sheet(tmp_path / "v1.xlsx", (*PENHEWS, note))
    job = later(first, code, answer, with_sheet(tmp_path / "v2.xlsx", PENHEWS))
    home = job.home()
    assert (outer(home)[0], home["held"]) == (first_line, held)
    assert ("remark-gone" in codes(home)) is held
    if code == "children-noted":
        inner = next(piece for piece in home["pieces"] if piece["kind"] == "inner")
        assert "Nell" in json.dumps(inner["lines"])
    if code == "by-hand-noted":
        assert len(outer(home)) == 1
    if held:
        assert job.answer("--settled", "back.toml!answer[1]").returncode == 0
        for _ in range(2):
            assert job.home() == {}
            assert job.answer("--set", "Farrenby", "city", "Bar Harbor").returncode == 0


def test_a_remark_that_comes_back_is_not_asked_again(later: Later, tmp_path: Path) -> None:
    first = with_sheet(tmp_path / "v1.xlsx", PENHEWS, MOVED)
    then = with_sheet(tmp_path / "v2.xlsx", PENHEWS)
    job = later(first, "said-elsewhere", NEW, then)
    job.answer("--set", "Farrenby", "city", "Bar Harbor")
    with_sheet(then, PENHEWS, MOVED)
    home = job.home()
    assert (home["held"], outer(home)[1]) == (False, "22 Vesper Street")


def test_another_remark_about_somebody_who_was_left_out_holds_them(
    later: Later, tmp_path: Path
) -> None:
    first = with_sheet(tmp_path / "v1.xlsx", PENHEWS, "Please skip the Penhews")
    then = with_sheet(tmp_path / "v2.xlsx", PENHEWS, "The Penhews are back in after all")
    whole = "Leave out the whole household: Mr. Tobias Penhew and Mrs. Penhew"
    home = later(first, "said-elsewhere", whole, then).home()
    assert {"remark-gone", "said-elsewhere"} <= codes(home)


def test_an_answer_that_comes_late_to_a_remark_that_is_gone_holds_the_household(
    addressing: Run, tmp_path: Path
) -> None:
    first = with_sheet(tmp_path / "v1.xlsx", PENHEWS, MOVED)
    then = with_sheet(tmp_path / "v2.xlsx", PENHEWS)
    job = ("--to", tmp_path / "job")
    asked = json.loads(addressing("questions", first, "--json", *job).stdout)["questions"]
    addressing("answer", then, "--set", "Farrenby", "city", "Bar Harbor", *job)
    back = tmp_path / "back.toml"
    back.write_text(f'[[answer]]\nquestion = "{asked[0]["question"]}"\nanswer = "{NEW}"\n', "utf-8")
    done = addressing("answer", then, back, *job)
    assert done.returncode == 1
    assert "1 household is held back" in done.stdout
    addressing("answer", then, "--set", "Farrenby", "city", "Bar Harbor", *job)
    homes = json.loads(addressing("lines", then, "--json", *job).stdout)["households"]
    assert [home["held"] for home in homes] == [True, False]
    told = addressing("answer", then, "--settled", "back.toml!answer[1]", *job)
    assert (told.returncode, "--set" in told.stderr) == (2, True)
    addressing(
        "answer", then, "--set", "Penhew", "address", NEW, "--undo", "back.toml!answer[1]", *job
    )
    homes = json.loads(addressing("lines", then, "--json", *job).stdout)["households"]
    assert [home["held"] for home in homes] == [False, False]
    assert outer(homes[0])[1] == "22 Vesper Street"


def test_the_note_on_a_sheet_of_changes_says_what_was_answered(
    addressing: Run, later: Later, tmp_path: Path
) -> None:
    first = with_sheet(tmp_path / "v1.xlsx", PENHEWS, MOVED)
    job = later(first, "said-elsewhere", NEW, first)
    told = json.loads(addressing("check", first, "--json", "--to", job.folder).stdout)["findings"]
    (note,) = [each["text"] for each in told if each["code"] == "corrections-read"]
    assert "1 line. Asked about: Tobias Penhew." in note
    assert f"Answered by now: Mr. Tobias Penhew and Mrs. Penhew: “{NEW}”." in note
