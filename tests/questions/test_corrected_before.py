"""A correction was said of what the list had then: news in a later list are never lost to it."""

import itertools
import json
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess
from typing import Any

import pytest

Run = Callable[..., CompletedProcess[str]]
HEADER = "Name,Street,City,State,ZIP\n"
WAS = "Mr. Tobias Penhew,14 Larkmoor Lane,Litchfield,CT,06759\n"
OTHER = "Ms. Odile Farrenby,431 Weathervane Drive,Bar Harbor,ME,04609\n"


@pytest.fixture
def corrected(addressing: Run, tmp_path: Path) -> Callable[..., dict[str, Any]]:
    """Correct the first list, read another one into the same job, and give the first household.

    Each call is a job of its own: job1, job2 and so on.
    """
    numbers = itertools.count(1)

    def read(said: tuple[str, str], then: str, *more: str) -> dict[str, Any]:
        first, later = tmp_path / "v1.csv", tmp_path / "v2.csv"
        first.write_text(HEADER + WAS + OTHER, "utf-8")
        later.write_text(HEADER + then + OTHER, "utf-8")
        job = ("--to", tmp_path / f"job{next(numbers)}")
        done = addressing("answer", first, "--set", "A2", *said, *job)
        assert done.returncode == 0, done.stdout + done.stderr
        if more:
            done = addressing("answer", later, *more, *job)
            assert done.returncode in (0, 1), done.stdout + done.stderr
        told = json.loads(addressing("lines", later, "--json", *job).stdout)
        home: dict[str, Any] = told["households"][0]
        return home

    return read


def codes(home: dict[str, Any]) -> set[str]:
    return {each["code"] for each in home["findings"]}


def test_an_address_that_the_list_has_anew_holds_the_household_for_its_correction(
    corrected: Callable[..., dict[str, Any]],
) -> None:
    moved = "Mr. Tobias Penhew,9 Vesper Street,Bethel,ME,04217\n"
    home = corrected(("street", "16 Larkmoor Lane"), moved)
    assert (home["held"], home["address"]["street"]) == (True, "9 Vesper Street")
    assert "correction-stale" in codes(home)


@pytest.mark.parametrize(
    "then",
    [
        WAS,
        WAS.replace("Lane", "Ln."),
        WAS.replace("06759", "6759"),
        WAS.replace("Mr. Tobias", "Mr. Tobias A."),
    ],
)
def test_a_correction_holds_where_the_list_says_the_same_or_spells_it_anew(
    corrected: Callable[..., dict[str, Any]], then: str
) -> None:
    home = corrected(("street", "16 Larkmoor Lane"), then)
    assert (home["held"], home["address"]["street"]) == (False, "16 Larkmoor Lane")
    assert "correction-stale" not in codes(home)


@pytest.mark.parametrize("street", ["16 Larkmoor Lane", "16 Larkmoor Ln", "16 LARKMOOR LANE"])
def test_a_correction_that_the_list_has_taken_over_is_done_with(
    corrected: Callable[..., dict[str, Any]], street: str
) -> None:
    home = corrected(("street", "16 Larkmoor Lane"), WAS.replace("14 Larkmoor Lane", street))
    assert (home["held"], home["address"]["street"]) == (False, street)
    assert not {"correction-stale", "answer-stale"} & codes(home)


def test_names_that_the_list_has_anew_hold_the_household_for_their_correction(
    corrected: Callable[..., dict[str, Any]],
) -> None:
    said = ("names", "Mr. Tobias Penhew and Ms. Linnet Orr")
    home = corrected(said, WAS.replace("Mr. Tobias", "Mr. Tobias and Mrs. Rosalind"))
    assert (home["held"], "correction-stale" in codes(home)) == (True, True)
    home = corrected(said, WAS.replace("Mr. Tobias Penhew", "Mr. Tobias Penhew & Ms. Linnet Orr"))
    assert (home["held"], "correction-stale" in codes(home)) == (False, False)


def test_a_stale_correction_stays_until_it_is_set_again_or_taken_back(
    corrected: Callable[..., dict[str, Any]],
) -> None:
    moved = "Mr. Tobias Penhew,9 Vesper Street,Bethel,ME,04217\n"
    said = ("street", "16 Larkmoor Lane")
    home = corrected(said, moved, "--set", "A3", "names", "Ms. Odile Orr")
    assert home["held"], "another answer doesn't settle it"
    home = corrected(said, moved, "--undo", "A2:street")
    assert (home["held"], home["address"]["street"]) == (False, "9 Vesper Street")
    home = corrected(said, moved, "--set", "A2", "street", "11 Vesper Street")
    assert (home["held"], home["address"]["street"]) == (False, "11 Vesper Street")
    whole = "12 Vesper Street, Bethel, ME 04217"
    home = corrected(said, moved, "--set", "A2", "address", whole)
    assert (home["held"], home["address"]["street"]) == (False, "12 Vesper Street")


def test_the_finding_says_what_the_list_had_and_has_and_what_was_set(
    corrected: Callable[..., dict[str, Any]], addressing: Run, tmp_path: Path
) -> None:
    corrected(("street", "16 Larkmoor Lane"), WAS.replace("14 Lark", "9 Lark"))
    told = addressing("check", tmp_path / "v2.csv", "--to", tmp_path / "job1").stdout
    for words in ("“16 Larkmoor Lane”", "14 Larkmoor Lane", "9 Larkmoor Lane", "--undo"):
        assert words in told


PLACED = "Name,Street,Unit,City,State,ZIP,Country\n"
FLAT = 'Kit Vale,"Flat 2, 11 Larkmoor Terrace",,London,,W11 2PX,UK\n'


@pytest.mark.parametrize(
    ("row", "said", "street", "unit"),
    [
        (WAS, "8 Larkmoor Lane, Apt 2", "8 Larkmoor Lane", "Apt 2"),
        (WAS, "8 Larkmoor Lane Apt 2", "8 Larkmoor Lane", "Apt 2"),
        (WAS.replace("Lane,", "Lane Apt 9,"), "8 Larkmoor Lane Apt 2", "8 Larkmoor Lane", "Apt 2"),
        (WAS.replace("Lane,", "Lane Apt 9,"), "8 Larkmoor Lane Apt 9", "8 Larkmoor Lane", "Apt 9"),
        (WAS.replace("Lane,", "Lane Apt 9,"), "8 Larkmoor Lane", "8 Larkmoor Lane", "Apt 9"),
    ],
)
def test_a_street_that_is_set_with_its_apartment_brings_it(
    addressing: Run, tmp_path: Path, row: str, said: str, street: str, unit: str
) -> None:
    path = tmp_path / "guests.csv"
    path.write_text(HEADER + row + OTHER, "utf-8")
    done = addressing("answer", path, "--set", "A2", "street", said)
    assert done.returncode == 0, done.stdout
    address = json.loads(addressing("lines", path, "--json").stdout)["households"][0]["address"]
    assert (address["street"], address["unit"]) == (street, unit)


@pytest.mark.parametrize("said", ["Flat 2, 12 Larkmoor Terrace", "Flat 5, 12 Larkmoor Terrace"])
def test_a_flat_stands_once_when_its_street_is_set(
    addressing: Run, tmp_path: Path, said: str
) -> None:
    path = tmp_path / "guests.csv"
    path.write_text(PLACED + FLAT, "utf-8")
    assert addressing("answer", path, "--set", "A2", "street", said).returncode == 0
    home = json.loads(addressing("lines", path, "--json").stdout)["households"][0]
    lines = [line["text"] for line in home["pieces"][0]["lines"]]
    assert lines[1] == said


@pytest.mark.parametrize("said", ["drop Kit", "add Posy", "Tobias and husband", "swap the order"])
def test_an_instruction_is_no_name(addressing: Run, tmp_path: Path, said: str) -> None:
    path = tmp_path / "guests.csv"
    path.write_text(HEADER + WAS + OTHER, "utf-8")
    done = addressing("answer", path, "--set", "A2", "names", said)
    assert "Not taken (1)" in done.stdout
    home = json.loads(addressing("lines", path, "--json").stdout)["households"][0]
    assert [person["given"] for person in home["people"]] == ["Tobias"]


def test_a_correction_of_what_the_list_has_otherwise_is_the_designers_to_keep_or_take_back(
    addressing: Run, tmp_path: Path
) -> None:
    path, job = tmp_path / "v1.csv", ("--to", tmp_path / "job")
    path.write_text(HEADER + WAS + OTHER, "utf-8")
    addressing("answer", path, "--set", "A2", "street", "16 Larkmoor Lane", *job)
    path.write_text(HEADER + WAS.replace("14 Larkmoor", "9 Vesper") + OTHER, "utf-8")
    told = addressing("check", path, *job).stdout
    assert "correction-stale" in told
    assert "Ask the client" not in told
    assert "--settled --set!1:correction-stale" in told.replace("'", "").replace('"', "")
    done = addressing("answer", path, "--settled", "--set!1:correction-stale", *job)
    assert done.returncode == 0, done.stderr
    home = json.loads(addressing("lines", path, "--json", *job).stdout)["households"][0]
    assert (home["held"], home["address"]["street"]) == (False, "16 Larkmoor Lane")
