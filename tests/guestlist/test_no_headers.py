"""Lists without a header, with words over their parts and beside their rows; invented."""

from collections.abc import Callable

import pytest

from addressing.records.findings import Finding
from addressing.records.guests import GuestList

Read = Callable[..., tuple[GuestList, tuple[Finding, ...]]]
ROWS = (
    ("WEDDING LIST - FINAL FINAL",),
    ("FAMILY (MINE)",),
    ("Mom & Dad", "Gerald and Ruth Vale", "5 Mill Row, Camden, ME 04843", "", 2, "x"),
    ("Nana", "Odile Vale", "same", "", 1, "x"),
    ("Uncle Ray", "Ray Vale & Dot Vale", "88 Bay View, Camden 04843", "", 2, "x"),
    ("FRIENDS",),
    ("College", "Tess Orr & guest", "14 Larkmoor Lane Apt 3, Boston MA 02116", "", 2, "x"),
    ("", "Jon Penhew / Kira Lisle", "9 Quarry Rd. Salem MA 1970", "", 2, "x"),
    ("Work", "Dr. Linnet Sorrel", "31 Elm Row, Newton MA", "need zip", 1, "x"),
    ("", "Hesper Wexcombe", "", "getting address", 1, ""),
    ("TOTAL", "", "", "", 11, ""),
)
NAMES = [
    "Gerald Vale", "Odile Vale", "Ray Vale", "Tess Orr", "Jon Penhew", "Linnet Sorrel",
    "Hesper Wexcombe",
]  # fmt: skip


def test_words_over_the_parts_of_a_list_are_no_header(read_rows: Read) -> None:
    guests, _ = read_rows(ROWS)
    assert [home.name for home in guests.households] == NAMES


def test_each_keeps_the_address_in_its_row(read_rows: Read) -> None:
    guests, _ = read_rows(ROWS)
    cities = [
        home.address.city.text if home.address and home.address.city else None
        for home in guests.households
    ]
    assert cities == ["Camden", "Camden", "Camden", "Boston", "Salem", "Newton", None]


@pytest.mark.parametrize("words", ["WEDDING LIST - FINAL FINAL", "FAMILY (MINE)"])
def test_words_alone_in_a_column_of_no_use_are_told_and_are_no_household(
    read_rows: Read, words: str
) -> None:
    _, findings = read_rows(ROWS)
    assert any(words in found.text for found in findings)


def test_every_row_is_a_households_or_is_told_as_not_used(read_rows: Read) -> None:
    guests, _ = read_rows(ROWS)
    used = {where.row for home in guests.households for where in home.rows}
    assert used | {row.row for row in guests.unused} == set(range(1, len(ROWS) + 1))


def test_ages_in_brackets_make_no_other_thing_of_a_column_of_names(read_rows: Read) -> None:
    rows = [
        ("Number", "Party", "Street", "City/State/Zip"),
        (2, "Paul & Ada Vale", "1 Mill Row", "Camden, ME 04843"),
        ("", "Kit Vale (9)", "", ""),
        ("", "Una Vale (6)", "", ""),
        (1, "Hesper Orr", "2 Mill Row", "Camden, ME 04843"),
    ]
    header = ("Number", "Of whom", *rows[0][2:])
    guests, _ = read_rows([header, *rows[1:]])
    assert [len(home.people) for home in guests.households] == [4, 1]


@pytest.mark.parametrize("words", ["VALE FAMILY", "ORR FAMILY (ADA)", "OFFICE / DENTAL"])
def test_a_heading_with_a_familys_name_holds_nobody_of_that_name(
    read_rows: Read, words: str
) -> None:
    header = ("No.", "Title", "Last", "First", "Street", "City", "St", "Zip")
    rows = [
        (1, "Ms.", "Vale", "Odile", "5 Mill Row", "Camden", "ME", "04843"),
        (2, "Ms.", "Orr", "Ada", "6 Mill Row", "Camden", "ME", "04843"),
    ]
    guests, findings = read_rows([header, (words,), *rows])
    assert [home.name for home in guests.households] == ["Odile Vale", "Ada Orr"]
    assert not [found for found in findings if found.holds]
