"""What is said of one half of a household that an answer parts is said of that half alone."""

import json
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess

import pytest

Run = Callable[..., CompletedProcess[str]]
NEW = "9 Quarry Hill, Rutland, VT 05701"
LIST = """\
Name,Address,City,State,Zip,Note
Lena Orr,12 Elm Street,Troy,NY,12180,
Kim Vale,12 Elm Street,Troy,NY,12180,
Paul Hart and Ann Hart,7 Oak Lane,Troy,NY,12180,two envelopes please
"""


class Job:
    """Two rows of one door, and a row of two, that the client wants parted."""

    def __init__(self, run: Run, folder: Path) -> None:
        self.run, self.path = run, folder / "guests.csv"
        self.path.write_text(LIST, "utf-8")
        told = json.loads(run("questions", self.path, "--json").stdout)
        numbers = {each["matter"].partition(":")[2]: each["number"] for each in told["matters"]}
        letter = Path("guests-job/questions.txt").read_text("utf-8")
        mark = next(line for line in letter.splitlines() if "letter " in line)
        each = "an envelope each"
        reply = f"{mark}\n\n{numbers['same-door']}: {each}\n{numbers['apart-noted']}: {each}\n"
        Path("reply.txt").write_text(reply, "utf-8")
        run("answer", self.path, "reply.txt")
        told = json.loads(run("lines", self.path, "--json").stdout)["households"]
        self.keys = {lines[0]: home["key"] for home, lines in zip(told, self.outers(), strict=True)}

    def set(self, *said: str) -> CompletedProcess[str]:
        return self.run("answer", self.path, "--set", *said)

    def outers(self) -> list[list[str]]:
        told = json.loads(self.run("lines", self.path, "--json").stdout)["households"]
        outers = (next(p for p in home["pieces"] if p["kind"] == "outer") for home in told)
        return [[line["text"] for line in outer["lines"]] for outer in outers]


@pytest.fixture
def job(addressing: Run, tmp_path: Path) -> Job:
    return Job(addressing, tmp_path)


@pytest.mark.parametrize("by", ["name", "row", "key"])
@pytest.mark.parametrize(("place", "who", "row"), [(0, "Lena Orr", "A2"), (1, "Kim Vale", "A3")])
def test_an_address_set_for_one_half_leaves_the_other_alone(
    job: Job, place: int, who: str, row: str, by: str
) -> None:
    before = job.outers()
    name = {"name": who, "row": row, "key": job.keys[who]}[by]
    assert f"the address of {who}" in job.set(name, "address", NEW).stdout
    before[place] = [who, "9 Quarry Hill", "Rutland, Vermont 05701"]
    assert job.outers() == before


def test_halves_of_one_row_are_told_apart_by_name_and_key(job: Job) -> None:
    done = job.set("A4", "title", "Dr.")
    assert done.returncode == 2
    assert f"Ann Hart: {job.keys['Ann Hart']}" in done.stderr
    job.set("Ann Hart", "title", "Dr.")
    assert [lines[0] for lines in job.outers()[2:]] == ["Paul Hart", "Doctor Ann Hart"]


@pytest.mark.parametrize(("gone", "stays"), [("Paul Hart", "Ann Hart"), ("Ann Hart", "Paul Hart")])
def test_one_half_is_left_out_and_comes_back(job: Job, gone: str, stays: str) -> None:
    job.set(gone, "invited", "no")
    assert [lines[0] for lines in job.outers()[2:]] == [stays]
    job.run("answer", job.path, "--undo", gone)
    assert [lines[0] for lines in job.outers()[2:]] == ["Paul Hart", "Ann Hart"]


def test_what_parts_them_is_taken_back_behind_their_own(job: Job) -> None:
    job.set("Kim Vale", "title", "Ms.")
    job.run("answer", job.path, "--undo", "Kim Vale")
    assert len(job.outers()) == 4
    told = job.run("answer", job.path, "--undo", "Kim Vale").stdout
    assert "The one envelope or two of Lena Orr" in told
    assert len(job.outers()) == 3


def test_a_correction_of_a_half_that_is_none_any_more_is_told(job: Job) -> None:
    job.set("Kim Vale", "address", NEW)
    told = job.run("answer", job.path, "--undo", "reply.txt!line 3").stdout
    assert "answers a question that the list no longer asks" in told
    assert ["Lena Orr", "Kim Vale", "12 Elm Street", "Troy, New York 12180"] in job.outers()


def test_nothing_is_taken_back_of_another_with_a_number_behind_the_same_key(
    addressing: Run, tmp_path: Path
) -> None:
    path = tmp_path / "twins.csv"
    row = "Mr. Kit Hale,3 Elm Street,Troy,NY,12180\n"
    path.write_text(f"Name,Address,City,State,Zip\n{row}{row.replace('3 Elm', '9 Oak')}", "utf-8")
    told = json.loads(addressing("lines", path, "--json").stdout)["households"]
    keys = [home["key"] for home in told]
    assert keys[1] == f"{keys[0]}-2"  # namesakes at two doors
    addressing("answer", path, "--set", keys[0], "title", "Dr.")
    done = addressing("answer", path, "--undo", keys[1])
    assert done.returncode == 2
    assert "Nothing was decided" in done.stderr
