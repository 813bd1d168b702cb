"""Everyday words in small lists: a title that is a first name, who somebody is, who typed it."""

from collections.abc import Callable

import pytest

from addressing.guestlist.people.cell import read_people
from addressing.records.findings import Finding
from addressing.records.guests import GuestList

Read = Callable[..., tuple[GuestList, tuple[Finding, ...]]]
HEADER = ("Name", "Address", "Notes")
DOOR = "9 Elm St, Bath ME 04530"
OTHER = ("Mr. Tobias Wexcombe", "14 Elm St, Bath ME 04530", "")


def people(cell: str) -> list[str]:
    """Title, given and family name of everybody in a cell."""
    found = read_people(cell, family_first=False).people
    return [" ".join(filter(None, (p.title, p.given, p.family))) for p in found]


@pytest.mark.parametrize(
    ("cell", "read"),
    [
        ("Dean & Susan Penhew", ["Dean Penhew", "Susan Penhew"]),
        ("Dean, Susan and Ada Penhew", ["Dean Penhew", "Susan Penhew", "Ada Penhew"]),
        ("Dean and Mrs. Walter Penhew", ["Dean Walter Penhew", "Mrs. Penhew"]),
        ("Dean Walter Penhew", ["Dean Walter Penhew"]),
    ],
)
def test_a_title_before_another_first_name_is_one_itself(cell: str, read: list[str]) -> None:
    assert people(cell) == read


@pytest.mark.parametrize("cell", ["Dean & Larkmoor Penhew", "Major & Susan Penhew"])
def test_a_title_before_anything_else_is_asked_about(cell: str) -> None:
    assert read_people(cell, family_first=False).doubts


@pytest.mark.parametrize(
    ("cell", "read", "remarks"),
    [
        ("Tariq, flatmate, & Leo", ["Tariq", "Leo"], ("flatmate",)),
        ("Tariq Orr, my cousin, and Leo Bell", ["Tariq Orr", "Leo Bell"], ("my cousin",)),
        ("Penhew, Tobias, & Odile", ["Tobias Penhew", "Odile Penhew"], ()),
    ],
)
def test_who_somebody_is_between_two_commas_is_nobody_beside_them(
    cell: str, read: list[str], remarks: tuple[str, ...]
) -> None:
    found = read_people(cell, family_first=False)
    assert (people(cell), found.remarks) == (read, remarks)


def held(read: Read, *row: str) -> set[str]:
    """The codes that hold the household of a row."""
    guest_list, findings = read([HEADER, row, OTHER])
    key = guest_list.households[0].key
    return {each.code for each in findings if each.holds and each.household == key}


@pytest.mark.parametrize("name", ["The Penhew Family", "Kit and Ada Penhew and Family"])
def test_no_kids_beside_a_family_holds_it(read_rows: Read, name: str) -> None:
    assert "marker-in-list" in held(read_rows, name, DOOR, "no kids")


def test_no_kids_beside_a_couple_is_told(read_rows: Read) -> None:
    assert held(read_rows, "Mr. and Mrs. Kit Penhew", DOOR, "no kids") == set()


@pytest.mark.parametrize("note", ["make that Ms.", "change to Ms."])
def test_a_note_that_changes_the_title_holds(read_rows: Read, note: str) -> None:
    assert held(read_rows, "Mrs. Ada Penhew", DOOR, note) == {"name-noted"}


@pytest.mark.parametrize("said", ["Typed for Odile by Wren", "Updated 3/4 by Odile"])
def test_who_typed_a_list_is_nobody_on_it(read_rows: Read, said: str) -> None:
    guest_list, _ = read_rows([HEADER, ("Mr. Kit Penhew", DOOR, ""), OTHER, (said, "", "")])
    assert len(guest_list.households) == 2
    assert [row.row for row in guest_list.unused] == [4]
