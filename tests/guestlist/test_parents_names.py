"""Children who have a parent's name, and what stands behind a family name in its own column."""

from collections.abc import Callable

import pytest

from addressing.records.findings import Finding
from addressing.records.guests import GuestList, Kind

Read = Callable[..., tuple[GuestList, tuple[Finding, ...]]]
HEADER = ("First", "Last", "Children", "Street", "City", "State", "ZIP")
HERE = ("14 Larkmoor Lane", "Litchfield", "CT", "06759")


def of(read: Read, first: str, last: str, children: str = "") -> tuple[list[str], list[str], str]:
    """(grown, children, codes of what is asked) of a row."""
    guests, findings = read([HEADER, (first, last, children, *HERE)])
    people = guests.households[0].people
    grown = [f"{p.given} {p.family}" for p in people if p.kind is Kind.NAMED]
    young = [str(p.given) for p in people if p.kind is Kind.CHILD]
    asked = " ".join(f.code for f in findings if f.code in {"children-unsaid", "name-doubtful"})
    return grown, young, asked


@pytest.mark.parametrize(
    ("first", "children", "grown", "young", "asked"),
    [
        ("Bill & Sue", "Bill Jr.", ["Bill", "Sue"], ["Bill"], ""),
        ("Bill & Sue", "Bill, Kit", ["Bill", "Sue"], ["Bill", "Kit"], "children-unsaid"),
        ("Bill", "Bill", ["Bill"], ["Bill"], "children-unsaid"),
        ("Bill, Sue & Ava", "Ava", ["Bill", "Sue"], ["Ava"], ""),
    ],
)
def test_a_child_with_a_parents_name_takes_nobody_from_the_outer_envelope(
    read_rows: Read, first: str, children: str, grown: list[str], young: list[str], asked: str
) -> None:
    names = [f"{name} Wexcombe" for name in grown]
    assert of(read_rows, first, "Wexcombe", children) == (names, young, asked)


@pytest.mark.parametrize(
    ("last", "name", "asked"),
    [
        ("Wexcombe (née Vale)", "Odile Wexcombe", ""),
        ("Wexcombe nee Vale", "Odile Wexcombe", ""),
        ("Wexcombe (divorced)", "Odile Wexcombe", ""),
        ("Wexcombe-", "Odile Wexcombe-", "name-doubtful"),
        ("Vale-Wexcombe", "Odile Vale-Wexcombe", ""),
    ],
)
def test_what_stands_behind_a_family_name_is_no_part_of_it(
    read_rows: Read, last: str, name: str, asked: str
) -> None:
    assert of(read_rows, "Odile", last) == ([name], [], asked)
