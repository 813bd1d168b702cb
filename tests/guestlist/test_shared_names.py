"""A column of family names beside columns for two people: whose name it is."""

from collections.abc import Callable

import pytest

from addressing.records.findings import Finding
from addressing.records.guests import GuestList

ReadRows = Callable[..., tuple[GuestList, tuple[Finding, ...]]]
PLACE = ("Street", "City", "State", "ZIP")
HOME = ("14 Larkmoor Lane", "Litchfield", "CT", "06759")
HEADERS = [
    ("Husband", "Wife"),
    ("First (him)", "First (her)"),
    ("First Name", "Partner First Name"),
]


def names(guests: GuestList) -> list[str]:
    return [f"{p.given} {p.family}" for p in guests.households[0].people]


@pytest.mark.parametrize(("one", "other"), HEADERS)
@pytest.mark.parametrize("nobody", ["", "x", "n/a", "-"])
def test_of_an_empty_first_person_the_other_has_the_name(
    read_rows: ReadRows, one: str, other: str, nobody: str
) -> None:
    rows = [("Last Name", one, other, *PLACE), ("Wexcombe", nobody, "Odile", *HOME),
            ("Orr", "Hugo", "Nell", "3 Larkmoor Lane", *HOME[1:])]  # fmt: skip
    guests, findings = read_rows(rows)
    assert names(guests) == ["Odile Wexcombe"]
    assert "name-doubtful" not in {found.code for found in findings}


@pytest.mark.parametrize(("one", "other"), HEADERS)
def test_two_family_names_in_one_cell_are_one_each(
    read_rows: ReadRows, one: str, other: str
) -> None:
    rows = [("Last Name", one, other, *PLACE), ("Penhew / Orr", "Rufus", "Nell", *HOME)]
    guests, _ = read_rows(rows)
    assert names(guests) == ["Rufus Penhew", "Nell Orr"]


def test_only_a_partner_whose_header_says_no_more_is_asked_for_the_name(
    read_rows: ReadRows,
) -> None:
    asked = []
    for one, other in HEADERS:
        rows = [("Last Name", one, other, *PLACE), ("Orr", "Hugo", "Nell", *HOME)]
        _, findings = read_rows(rows)
        asked.append("partner-family-assumed" in {found.code for found in findings})
    assert asked == [False, False, True]


def test_first_names_of_which_the_first_is_no_family_name_are_a_list(read_rows: ReadRows) -> None:
    rows = [("Name", *PLACE), ("Hannah, Jess & baby Rory Orr", *HOME)]
    guests, findings = read_rows(rows)
    assert names(guests) == ["Hannah Orr", "Jess Orr", "Rory Orr"]
    assert not [found for found in findings if found.holds]
