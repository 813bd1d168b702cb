"""An earlier version of the list is never taken for the newest one unless that is said."""

import json
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess

import openpyxl
import pytest

Run = Callable[..., CompletedProcess[str]]
HEADER = ("Name", "Street", "City", "State", "ZIP")
FIRST = ("Mr. Tobias Penhew", "14 Larkmoor Lane", "Litchfield", "CT", "06759")
MOVED = ("Mr. Tobias Penhew", "9 Vesper Street", "Bethel", "ME", "04217")
OTHER = ("Ms. Odile Farrenby", "431 Weathervane Drive", "Bar Harbor", "ME", "04609")


def csv_of(path: Path, *rows: tuple[str, ...]) -> Path:
    path.write_text("\n".join(",".join(row) for row in (HEADER, *rows)) + "\n", "utf-8")
    return path


def saved_again(path: Path, *rows: tuple[str, ...]) -> Path:
    """The same as a workbook: other bytes, and it reads the same."""
    book = openpyxl.Workbook()
    assert book.active is not None
    for row in (HEADER, *rows):
        book.active.append(row)
    book.save(path)
    return path


@pytest.fixture
def job(addressing: Run, tmp_path: Path) -> Callable[..., CompletedProcess[str]]:
    """Run a command on a list of the one job."""

    def run(command: str, path: Path, *more: str) -> CompletedProcess[str]:
        return addressing(command, path, *more, "--to", tmp_path / "job")

    return run


@pytest.mark.parametrize("command", ["plates", "questions", "proof", "ledger", "reprint"])
@pytest.mark.parametrize("made", ["plates", "questions"])
def test_nothing_is_made_of_a_list_that_came_before_the_last(
    job: Run, tmp_path: Path, made: str, command: str
) -> None:
    one = csv_of(tmp_path / "v1.csv", FIRST, OTHER)
    two = csv_of(tmp_path / "v2.csv", MOVED, OTHER)
    for path in (one, two):
        assert job(made, path).returncode == 0
    refused = job(command, one)
    assert refused.returncode == 2
    assert "v1.csv" in refused.stderr
    assert "v2.csv" in refused.stderr
    assert "--earlier" in refused.stderr
    assert "v2.csv" in job("check", one).stdout, "who only looks is told"


def test_an_earlier_list_that_was_saved_again_is_known_by_what_it_says(
    job: Run, tmp_path: Path
) -> None:
    job("plates", csv_of(tmp_path / "guests.csv", FIRST, OTHER))
    job("plates", csv_of(tmp_path / "guests.csv", MOVED, OTHER))
    refused = job("plates", saved_again(tmp_path / "again.xlsx", FIRST, OTHER))
    assert (refused.returncode, "again.xlsx" in refused.stderr) == (2, True)
    same = job("plates", saved_again(tmp_path / "same.xlsx", MOVED, OTHER))
    assert same.returncode == 0, same.stderr


def test_going_back_on_purpose_makes_it_the_last_one(job: Run, tmp_path: Path) -> None:
    one = csv_of(tmp_path / "v1.csv", FIRST, OTHER)
    two = csv_of(tmp_path / "v2.csv", MOVED, OTHER)
    for path in (one, two):
        job("plates", path)
    assert job("plates", one, "--earlier").returncode == 0
    assert job("plates", one).returncode == 0, "it is the last one now"
    assert job("plates", two).returncode == 2
    lines = json.loads(job("lines", one, "--json").stdout)["households"]
    assert lines[0]["address"]["street"] == FIRST[1]


def test_a_new_list_that_turns_one_household_back_is_no_earlier_one(
    job: Run, tmp_path: Path
) -> None:
    new = ("Ms. Linnet Orr", *OTHER[1:])
    for number, rows in enumerate(((FIRST, OTHER), (MOVED, OTHER), (FIRST, OTHER, new))):
        assert job("plates", csv_of(tmp_path / f"{number}.csv", *rows)).returncode in (0, 1)


def test_a_folder_from_before_versions_were_kept_goes_on(job: Run, tmp_path: Path) -> None:
    one = csv_of(tmp_path / "v1.csv", FIRST, OTHER)
    job("plates", one)
    known = tmp_path / "job" / "households.json"
    known.write_text(json.dumps(json.loads(known.read_text("utf-8"))["households"]), "utf-8")
    keys = [home["key"] for home in json.loads(job("lines", one, "--json").stdout)["households"]]
    done = job("plates", csv_of(tmp_path / "v2.csv", MOVED, OTHER))
    assert done.returncode == 0, done.stderr
    told = json.loads(job("lines", tmp_path / "v2.csv", "--json").stdout)["households"]
    assert [home["key"] for home in told] == keys


def test_plates_of_the_last_list_arent_noted_as_printed_in_an_earlier_ones_name(
    job: Run, tmp_path: Path
) -> None:
    one = csv_of(tmp_path / "v1.csv", FIRST, OTHER)
    two = csv_of(tmp_path / "v2.csv", MOVED, OTHER)
    for path in (one, two):
        job("plates", path)
    refused = job("printed", one)
    assert (refused.returncode, "v2.csv" in refused.stderr) == (2, True)
    assert "2 outer" not in job("ledger", two).stdout
    assert job("printed", two).returncode == 0


def test_the_lines_of_an_earlier_list_say_so(job: Run, tmp_path: Path) -> None:
    one = csv_of(tmp_path / "v1.csv", FIRST, OTHER)
    two = csv_of(tmp_path / "v2.csv", MOVED, OTHER)
    for path in (one, two):
        job("questions", path)
    assert "before v2.csv, a later version" in job("lines", one).stdout
    assert "a later version" not in job("lines", two).stdout
