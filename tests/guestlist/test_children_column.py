"""What clients write in a column of children: names, numbers, and much else; invented."""

from collections.abc import Callable

import pytest

from addressing.records.findings import Finding
from addressing.records.guests import GuestList, Kind
from addressing.tables import table

Read = Callable[..., tuple[GuestList, tuple[Finding, ...]]]
HEADER = ("Guest", "Children", "Street", "City", "State", "ZIP")
HOME = ("14 Larkmoor Lane", "Litchfield", "CT", "06759")


def read_cell(read_rows: Read, cell: str) -> tuple[list[str], set[str]]:
    """The given names of those beside the couple ("-" without one), and the codes that hold."""
    rows = [HEADER, ("Mr. and Mrs. Tobias Penhew", cell, *HOME)]
    guest_list, findings = read_rows([*rows, ("Mr. and Mrs. Bram Orr", "Una (4)", *HOME)])
    home = guest_list.households[0]
    others = [person for person in home.people if person.kind is not Kind.NAMED]
    holds = {each.code for each in findings if each.holds and each.household == home.key}
    return [person.given or "-" for person in others], holds


# Common practice, no source.
@pytest.mark.parametrize(
    "cell",
    ["No kids please", "no children, please!", "no kids", "none", "Baby on the way", "expecting!"],
)
def test_words_for_no_children_are_nobodys_name(read_rows: Read, cell: str) -> None:
    assert read_cell(read_rows, cell) == ([], set())


@pytest.mark.parametrize(
    "cell",
    ["pregnant", "Baby coming soon, we think", "Linnet + boyfriend"]
    + [row["example"] for row in table("row_words") if row["kind"] == "no-childs-name"],
)
def test_words_that_name_no_child_for_sure_are_asked_about(read_rows: Read, cell: str) -> None:
    others, holds = read_cell(read_rows, cell)
    assert not others or "-" in others or holds, others
    assert set(others) <= {"-", "Linnet"}


@pytest.mark.parametrize(
    ("cell", "names"),
    [
        ("all 3 kids", ["-", "-", "-"]),
        ("Linnet (in college) Max", ["Linnet", "Max"]),
        ("linnet, max", ["linnet", "max"]),
        ("max", ["max"]),
        ("Linnet (Lin)", ["Linnet"]),
        ("Linnet 6 Max 9", ["Max", "Linnet"]),
        ("and Guest", ["-"]),
        ("plus one", ["-"]),
    ],
)
def test_children_by_name_or_number_stay(read_rows: Read, cell: str, names: list[str]) -> None:
    others, _ = read_cell(read_rows, cell)
    assert sorted(others) == sorted(names)
