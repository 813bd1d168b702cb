"""Names for the envelope in a column of their own, beside the names that people go by; invented."""

from collections.abc import Callable

import pytest

from addressing.records.findings import Finding
from addressing.records.guests import GuestList, Kind

Read = Callable[..., tuple[GuestList, tuple[Finding, ...]]]
HERE = ("14 Larkmoor Lane", "Litchfield", "CT", "06759")
COLUMNS = ("First", "Last", "Formal names", "Kids", "Street", "City", "State", "ZIP")


def of(read: Read, *cells: str, header: tuple[str, ...] = COLUMNS) -> tuple[list[str], list[str]]:
    """(who is invited, with a companion as "+" and children in brackets; the codes that hold)."""
    guests, findings = read([header, (*cells, *HERE)])
    named = []
    for p in guests.households[0].people:
        words = " ".join(part for part in (p.title, p.given, p.family, p.suffix) if part)
        named.append({Kind.GUEST: "+", Kind.CHILD: f"({p.given})"}.get(p.kind, words))
    return named, [found.code for found in findings if found.holds]


@pytest.mark.parametrize(
    ("first", "formal", "people"),
    [
        ("Jim and Carol", "Mr. and Mrs. James Vale", ["Mr. James Vale", "Mrs. Carol Vale"]),
        ("Carol & Jim", "Mr. and Mrs. James Vale", ["Mr. James Vale", "Mrs. Carol Vale"]),
        ("Amy", "Dr. Amy Vale and Guest", ["Dr. Amy Vale", "+"]),
        ("Tom", "Mr. Thomas Vale, Jr.", ["Mr. Thomas Vale Jr."]),
        ("Ottoline", "Judge Vale", ["Judge Ottoline Vale"]),
        ("Odile", "", ["Odile Vale"]),
    ],
)
def test_names_for_the_envelope_are_the_same_people_in_full(
    read_rows: Read, first: str, formal: str, people: list[str]
) -> None:
    assert of(read_rows, first, "Vale", formal, "") == (people, [])


def test_children_of_another_column_stay(read_rows: Read) -> None:
    people = ["Mr. James Vale", "Mrs. Carol Vale", "(Kit)"]
    assert of(read_rows, "Jim and Carol", "Vale", "Mr. and Mrs. James Vale", "Kit") == (people, [])


@pytest.mark.parametrize(
    ("first", "formal"),
    [
        ("Tom & Ned", "Mr. Tom Vale and Mr. Ned Orr"),
        ("Jim and Carol", "Mr. James Vale"),
        ("Jim", "Mrs. Odile Vale"),
        ("Jim and Carol", "The Vale Family"),
        ("Carol", "Mr. and Mrs. James Orr"),
    ],
)
def test_where_both_columns_name_other_people_the_household_waits(
    read_rows: Read, first: str, formal: str
) -> None:
    _, held = of(read_rows, first, "Vale", formal, "")
    assert held == ["formal-differs"]


@pytest.mark.parametrize("header", ["Name on envelope", "Outer Envelope", "How to address"])
def test_without_another_column_of_names_it_is_the_names(read_rows: Read, header: str) -> None:
    columns = (header, *COLUMNS[4:])
    found = of(read_rows, "Mr. and Mrs. James Vale", header=columns)
    assert found == (["Mr. James Vale", "Mrs. Vale"], [])
