"""A list's own codes with a key, members under a household, children in rows of their own."""

from collections.abc import Callable

import pytest

from addressing.records.findings import Finding
from addressing.records.guests import GuestList, Household, Kind

Read = tuple[GuestList, tuple[Finding, ...]]
ReadRows = Callable[..., Read]
PLACE = ("Street", "City", "State", "ZIP")
HOMES = [(f"{number} Larkmoor Lane", "Litchfield", "CT", "06759") for number in (3, 14, 25, 36)]


def named(home: Household) -> list[str]:
    return [f"{p.given} {p.family}" for p in home.people if p.kind is Kind.NAMED]


KEY = "Codes: 1 = no guest, 2 = couple, 0 = not invited"


def coded(*codes: str, key: str = KEY) -> list[tuple[str, ...]]:
    names = ("Tobias Penhew", "Odile & Hugo Orr", "Nell Farrenby", "Maud Wexcombe")
    rows = zip(names, HOMES, codes, strict=False)
    return [
        ("Name", *PLACE, "Code"),
        *((name, *home, code) for name, home, code in rows),
        ("", "", "", "", "", ""),
        (key, "", "", "", "", ""),
    ]


def test_a_code_that_a_key_explains_is_read_in_its_words(read_rows: ReadRows) -> None:
    guests, findings = read_rows(coded("1", "2", "0", "1"))
    held = [f for f in findings if f.holds]
    assert [f.code for f in held] == ["marker-in-list"]
    assert "not invited" in held[0].text
    assert held[0].household == guests.households[2].key
    assert "legend" in {f.code for f in findings}


@pytest.mark.parametrize("key", ["Codes are Mom's", "Total = 7, Rooms = 2"])
def test_a_line_that_is_no_key_explains_no_code(read_rows: ReadRows, key: str) -> None:
    _, findings = read_rows(coded("1", "2", "0", "1", key=key))
    assert "marker-in-list" not in {f.code for f in findings}


def test_members_by_first_names_have_their_households_family_name(read_rows: ReadRows) -> None:
    rows = [
        ("Household", "Members", "Invite addressed to", *PLACE),
        ("Penhew", "Tobias, Odile, Kit (6)", "", *HOMES[0]),
        ("Orr", "Dan, Abby", "Mr. and Mrs. Daniel Orr", *HOMES[1]),
        ("Farrenby", "Nell", "Ms. Nell Farrenby", *HOMES[2]),
    ]
    guests, findings = read_rows(rows)
    assert named(guests.households[0]) == ["Tobias Penhew", "Odile Penhew"]
    assert [p.title for p in guests.households[1].people] == ["Mr.", "Mrs."]
    assert not [f for f in findings if f.holds]


def test_a_suffix_behind_a_comma_in_a_column_of_first_names_is_nobody(read_rows: ReadRows) -> None:
    rows = [
        ("First", "Last", *PLACE),
        ("Robert, Jr.", "Orr", *HOMES[0]),
        ("Nell", "Penhew", *HOMES[1]),
    ]
    guests, _ = read_rows(rows)
    assert [len(home.people) for home in guests.households] == [1, 1]


def test_a_child_in_a_row_of_its_own_goes_with_parents_at_one_door(read_rows: ReadRows) -> None:
    rows = [
        ("Name", *PLACE),
        ("Mr. and Mrs. Hugo Orr", *HOMES[0]),
        ("Ms. Maud Orr and Guest", *HOMES[0]),
        ("Kit Orr (9)", *HOMES[0]),
        ("Nell and Bram Penhew", *HOMES[1]),
    ]
    guests, findings = read_rows(rows)
    kinds = [[p.kind.value for p in home.people] for home in guests.households]
    assert kinds == [["named", "named", "child"], ["named", "guest"], ["named", "named"]]
    assert "same-door" in {f.code for f in findings}


def test_a_child_at_another_door_stays_alone(read_rows: ReadRows) -> None:
    rows = [("Name", *PLACE), ("Mr. and Mrs. Hugo Orr", *HOMES[0]), ("Kit Orr (9)", *HOMES[1])]
    guests, _ = read_rows(rows)
    assert len(guests.households) == 2


@pytest.mark.parametrize("joint", ["& partner", "and guest", "+1", "and date"])
def test_a_companion_whom_a_bracket_names_is_named(read_rows: ReadRows, joint: str) -> None:
    rows = [("Name", *PLACE), (f"Hugo Orr {joint} (Nell Farrenby)", *HOMES[0])]
    guests, _ = read_rows(rows)
    assert named(guests.households[0]) == ["Hugo Orr", "Nell Farrenby"]


def test_a_sentence_in_brackets_names_nobody(read_rows: ReadRows) -> None:
    rows = [("Name", *PLACE), ("Hugo Orr (and Nell if they are still together)", *HOMES[0])]
    guests, findings = read_rows(rows)
    assert named(guests.households[0]) == ["Hugo Orr"]
    assert any("still together" in f.text for f in findings if f.holds)
