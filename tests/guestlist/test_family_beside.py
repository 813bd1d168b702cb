"""Given names beside a column of family names that say more than given names.

Common practice, no source.
"""

from collections.abc import Callable

import pytest

from addressing.records.findings import Finding
from addressing.records.guests import GuestList

Read = Callable[..., tuple[GuestList, tuple[Finding, ...]]]
HEADER = ("Last Name", "First Names", "Street", "City", "State", "ZIP")
PLACE = ("14 Larkmoor Lane", "Litchfield", "CT", "06759")


def read(read_rows: Read, given: str, family: str) -> tuple[list[tuple[str | None, ...]], set[str]]:
    guests, found = read_rows([HEADER, (family, given, *PLACE)])
    people: list[tuple[str | None, ...]] = [
        (p.title, p.given, p.family, p.suffix) for p in guests.households[0].people
    ]
    return people, {each.code for each in found if each.severity == "ask"} - {"title-missing"}


@pytest.mark.parametrize(
    ("given", "family", "people"),
    [
        ("Mr. and Mrs. Ben A. Penhew III", "Penhew",
         [("Mr.", "Ben A.", "Penhew", "III"), ("Mrs.", None, "Penhew", None)]),
        ("Mr. Ben Penhew", "Penhew", [("Mr.", "Ben", "Penhew", None)]),
        ("Mary Ann", "Penhew", [(None, "Mary Ann", "Penhew", None)]),
        ("Penhew Ann", "Penhew", [(None, "Penhew Ann", "Penhew", None)]),
        ("Rob & Rob", "Penhew", [(None, "Rob", "Penhew", None), (None, "Rob", "Penhew", None)]),
        ("Mary Grace & Tom", "Penhew",
         [(None, "Mary Grace", "Penhew", None), (None, "Tom", "Penhew", None)]),
    ],
)  # fmt: skip
def test_a_family_name_is_said_once_and_two_of_one_name_are_two(
    read_rows: Read, given: str, family: str, people: list[tuple[str | None, ...]]
) -> None:
    read_people, asked = read(read_rows, given, family)
    assert read_people == people
    assert not asked


def test_a_bracket_that_brings_somebody_leaves_the_family_name(read_rows: Read) -> None:
    people, asked = read(read_rows, "Marcus (+1)", "Penhew")
    assert people[0] == (None, "Marcus", "Penhew", None)
    assert asked == {"guest-unnamed"}


@pytest.mark.parametrize("given", ["Dr. Elena & Tom Reed", "Elena & Tom Larkmoor"])
def test_a_second_word_beside_a_short_name_may_be_a_family_name(
    read_rows: Read, given: str
) -> None:
    people, asked = read(read_rows, given, "Penhew")
    assert asked == {"family-name-doubtful"}
    assert people[0][2] == "Penhew"
    assert people[1][1] == "Tom"


@pytest.mark.parametrize(
    ("cell", "people", "asked"),
    [
        ("Penhew, Leah, David, Noah (4) & baby girl due in June",
         [("Leah", "Penhew", None), ("David", "Penhew", None), ("Noah", "Penhew", 4)],
         {"name-order-doubtful"}),
        ("Penhew, Greg, Amy, Zach & Zoe",
         [(each, "Penhew", None) for each in ("Greg", "Amy", "Zach", "Zoe")],
         {"name-order-doubtful"}),
        ("Penhew, Tobias, Odile and Guest",
         [("Tobias", "Penhew", None), ("Odile", "Penhew", None), (None, None, None)],
         {"guest-unnamed", "name-order-doubtful"}),
        ("Tobias Due and Odile Penhew",
         [("Tobias", "Due", None), ("Odile", "Penhew", None)], set()),
    ],
)  # fmt: skip
def test_a_family_name_before_all_who_bear_it_is_theirs_and_the_unborn_are_a_remark(
    read_rows: Read,
    cell: str,
    people: list[tuple[str | None, str | None, int | None]],
    asked: set[str],
) -> None:
    guests, found = read_rows([("Name", "Street", "City", "State", "ZIP"), (cell, *PLACE)])
    assert [(p.given, p.family, p.age) for p in guests.households[0].people] == people
    assert {f.code for f in found if f.severity == "ask"} - {"title-missing"} == asked
