"""Who is perhaps one household: short forms elsewhere, and many alike asked about once."""

from collections.abc import Callable

import pytest

from addressing.guestlist.households.crowds import crowds
from addressing.questions.asking import questions_for
from addressing.records.findings import Finding
from addressing.records.guests import GuestList

Read = Callable[..., tuple[GuestList, tuple[Finding, ...]]]
HEADER = ("Name", "Street", "City", "State", "ZIP")
HERE = ("14 Larkmoor Lane", "Litchfield", "CT", "06759")
THERE = ("431 Weathervane Drive", "Bar Harbor", "ME", "04609")
OTHERS = (("Ms. Annika Vale", "3 Farrenby Road", "Penhew", "ME", "04496"),)


def doubles(read: Read, *rows: tuple[str, ...]) -> list[Finding]:
    _, findings = read([HEADER, *rows, *OTHERS])
    return [found for found in findings if found.code == "duplicate-probable"]


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("Jon Wexcombe", "Jonathan Wexcombe"),
        ("Timothy Wexcombe", "Mr. Tim Wexcombe"),
        ("Mr. and Mrs. Bob Wexcombe", "Robert Wexcombe"),
    ],
)
def test_a_name_and_its_short_form_at_two_doors_are_asked_about(
    read_rows: Read, one: str, other: str
) -> None:
    assert len(doubles(read_rows, (one, *HERE), (other, *THERE))) == 2


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("Jon Wexcombe", "Jonathan Wexcomber"),
        ("Tim Wexcombe", "Timothy Wexcombe Jr."),
        ("Tim P. Wexcombe", "Timothy R. Wexcombe"),
        ("Mr. Chris Wexcombe", "Ms. Christine Wexcombe"),
        ("Liz Wexcombe", "Beth Wexcombe"),
    ],
)
def test_two_names_at_two_doors_are_not_asked_about(read_rows: Read, one: str, other: str) -> None:
    assert doubles(read_rows, (one, *HERE), (other, *THERE)) == []


@pytest.mark.parametrize(
    ("one", "other", "times"),
    [
        ("Gino and Rosalie Wexcombe", "Mr. and Mrs. Luigi Wexcombe", 2),
        ("Mr. and Mrs. Tobias Wexcombe", "Corwin & Odile Wexcombe", 2),
        ("Mr. and Mrs. Tobias Wexcombe, Jr.", "Corwin & Odile Wexcombe", 0),
        ("Mr. and Mrs. Tobias Wexcombe", "Mr. and Mrs. Corwin Wexcombe", 0),
        ("Mr. and Mrs. Tobias Wexcombe", "Odile Wexcombe", 0),
        ("Mr. and Mrs. Tobias Wexcombe", "Corwin & Odile Penhew", 0),
    ],
)
def test_two_couples_of_one_family_name_at_one_door_are_asked_about(
    read_rows: Read, one: str, other: str, times: int
) -> None:
    assert len(doubles(read_rows, (one, *HERE), (other, *HERE))) == times


@pytest.mark.parametrize(
    ("one", "other", "times"),
    [
        ("Tom Wexcombe", "Wexcombe Thomas & Odile", 2),
        ("Mr. and Mrs. Corwin T. Wexcombe III", "Wexcomb Corwin", 2),
        ("Lee Kim", "Kim Lee", 1),  # two plain names: one household already
        ("Corwin Thomas", "Thomas Wexcombe", 0),
        ("Corwin Wexcombe", "Wexcombe Tobias", 0),
    ],
)
def test_a_name_turned_about_at_one_door_is_asked_about(
    read_rows: Read, one: str, other: str, times: int
) -> None:
    assert len(doubles(read_rows, (one, *HERE), (other, *HERE))) == times


@pytest.mark.parametrize(
    ("one", "other", "times"),
    [
        ("The Wexcombe Family", "The Wexcombes", 2),
        ("The Wexcombes", "Wexcombe Family", 2),
        ("The Wexcombe Family", "The Penhews", 0),
        ("The Wexcombe Family", "Tobias Wexcombe", 0),
    ],
)
def test_one_family_at_two_doors_is_asked_about_however_it_is_called(
    read_rows: Read, one: str, other: str, times: int
) -> None:
    assert len(doubles(read_rows, (one, *HERE), (other, *THERE))) == times


@pytest.mark.parametrize(
    ("one", "other", "asked"),
    [
        ("Ann Low", "Ann Lowe", True),
        ("Kit Ng", "Kit Ngo", True),
        ("Ada Low", "Ida Low", False),
        ("Ann Low", "Amy Lowe", False),
        ("Ann Low", "Ann Hale", False),
    ],
)
def test_a_letter_of_a_short_family_name_at_one_door_is_asked_about(
    read_rows: Read, one: str, other: str, *, asked: bool
) -> None:
    assert bool(doubles(read_rows, (one, *HERE), (other, *HERE))) is asked


def test_many_rows_that_are_all_alike_are_one_question(read_rows: Read) -> None:
    doors = [(f"{number} Larkmoor Lane", *HERE[1:]) for number in range(1, 8)]
    guests, findings = read_rows([HEADER, *(("Odile Penhew", *door) for door in doors), *OTHERS])
    found = [each for each in findings if each.code == "duplicate-probable"]
    assert len(found) == len(doors)
    asked = [q for q in questions_for(guests, found) if q.kind == "pair"]
    assert [len(question.households) for question in asked] == [len(doors)]
    assert [choice.effect for choice in asked[0].choices] == ["keep", "first", "second"]


def test_two_that_are_told_apart_are_in_no_crowd() -> None:
    pairs = [(1, 2, "a"), (1, 3, "b"), (2, 3, "c"), (3, 4, "d"), (4, 5, "e")]
    assert [members for members, _ in crowds(pairs)] == [(1, 2, 3), (3, 4), (4, 5)]
