"""Somebody of one name only, or a suffix that may be either's, is asked about. Invented names."""

from collections.abc import Callable
from typing import Any

import pytest

from addressing.guestlist.people.cell import read_people

HEADER = ("Name", "Address", "City", "State", "ZIP")
HERE = ("14 Larkmoor Lane", "Litchfield", "CT", "06759")


def asked(read_rows: Callable[..., Any], name: str) -> list[str]:
    """The codes of the questions about the names of one row."""
    _, findings = read_rows((HEADER, (name, *HERE)))
    codes = [finding.code for finding in findings]
    return [code for code in codes if code in ("name-doubtful", "title-missing")]


@pytest.mark.parametrize("name", ["Kim", "Jess", "Anna & Mark", "Grandma Jo", "Kim & kids", "Jo?"])
def test_a_household_without_a_family_name_is_asked_about_once(
    read_rows: Callable[..., Any], name: str
) -> None:
    assert asked(read_rows, name) == ["name-doubtful"]


@pytest.mark.parametrize(
    "name",
    [
        "Sister Mary Odile",
        "Rabbi Odile",
        "Larkmoor Garden Club",
        "The Wexcombe Family",
        "Ms. Kim Wexcombe",
        "Mr. and Mrs. Tobias Wexcombe",
    ],
)
def test_a_titled_single_name_a_label_and_a_whole_name_are_not_asked_about(
    read_rows: Callable[..., Any], name: str
) -> None:
    assert asked(read_rows, name) == []


def test_a_suffix_behind_the_second_whole_name_of_a_couple_is_asked_about() -> None:
    doubts = read_people("Mr. Ravi Penhew & Mrs. Penhew Sr.").doubts
    assert [doubt.code for doubt in doubts] == ["name-doubtful"]


@pytest.mark.parametrize(
    "cell",
    [
        "Mr. and Mrs. Ravi Penhew Sr.",
        "Mr. & Mrs. Ravi & Odile Penhew Sr.",
        "Mr. Ravi Penhew Sr. & Mrs. Penhew",
    ],
)
def test_a_suffix_that_is_plainly_the_husbands_is_not_asked_about(cell: str) -> None:
    assert read_people(cell).doubts == ()


def test_a_firm_beside_somebody_is_asked_about_and_a_firm_alone_is_a_label() -> None:
    doubts = read_people("Mr. Tobias Wexcombe, Larkmoor Press LLC").doubts
    assert [doubt.code for doubt in doubts] == ["name-doubtful"]
    assert read_people("Larkmoor Press LLC").label == "Larkmoor Press LLC"
    assert read_people("The Larkmoor Trust").label == "The Larkmoor Trust"
    assert read_people("Odile Trust").label is None
