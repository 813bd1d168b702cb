"""A list that a couple keeps in a sheet of their own: a row a guest, the family name said once."""

from collections.abc import Callable

import pytest
from openpyxl import Workbook

from addressing.records.findings import Finding
from addressing.records.guests import GuestList

Read = Callable[..., tuple[GuestList, tuple[Finding, ...]]]
HEADER = ("hh", "first", "last", "p", "go", "street", "city", "st", "zip", "notes")
TOWN = ("Litchfield", "CT", "06759", "")
NONE = ("", "", "", "", "")
ROWS = (
    ("T01", "Henrik", "Vale", 1, "", "9 Ferry Road", *TOWN),
    ("T01", "Lotte", "", 1, "", *NONE),
    ("T02", "Astrid", "Orr", 1, "", "61 Mill Row", *TOWN),
    ("T02", "Noor", "Penhew", 1, "", *NONE),
    ("T 03", "Mats", "Lisle", 1, "", "3 Quarry Hill", *TOWN),
    ("T03", "Gemma", "", 1, "", *NONE),
    ("T03", "Ida", "", 2, "", *NONE),
    ("T04", "Cole", "Sorrel", 1, "", "12 Elm Row", *TOWN),
    ("T04", "", "", 9, "", *NONE),
)


def read(read_rows: Read, *more: tuple[object, ...]) -> tuple[list[list[str]], list[Finding]]:
    """The full names of each household's people, and all that is found."""
    guests, findings = read_rows([HEADER, *ROWS, *more])
    homes = [[f"{p.given} {p.family}" for p in home.people] for home in guests.households]
    return homes, list(findings)


FOUND = [
    ["Henrik Vale", "Lotte Vale"],
    ["Astrid Orr", "Noor Penhew"],
    ["Mats Lisle", "Gemma Lisle", "Ida Lisle"],
    ["Cole Sorrel"],
]


def test_a_first_name_below_a_whole_one_is_of_that_family_and_asked_about(read_rows: Read) -> None:
    homes, findings = read(read_rows)
    assert homes == FOUND
    asked = {f.where.cell for f in findings if f.code == "partner-family-assumed"}
    assert asked == {"B3", "B7", "B8"}


def test_three_of_one_family_a_row_each_may_be_parents_and_a_child(read_rows: Read) -> None:
    _, findings = read(read_rows)
    assert [f.where.cell for f in findings if f.code == "children-unsaid"] == ["B6"]


def test_a_row_of_a_household_that_names_nobody_is_asked_about(read_rows: Read) -> None:
    _, findings = read(read_rows)
    (asked,) = [found for found in findings if found.code == "guest-noted"]
    assert asked.holds
    assert asked.where.row == 10


def test_where_two_families_stand_above_a_first_name_stays_alone(read_rows: Read) -> None:
    homes, _ = read(read_rows, ("T02", "Kit", "", 1, "", *NONE))
    assert homes[1] == ["Astrid Orr", "Noor Penhew", "Kit None"]


@pytest.mark.parametrize("number", ["T01", "L 2", "A3", "O 10"])
def test_a_letter_and_a_number_are_no_sum(read_rows: Read, number: str) -> None:
    rows = [(number, *row[1:]) if row[0] == "T01" else row for row in ROWS]
    guests, _ = read_rows([HEADER, *rows])
    assert guests.unused == ()
    assert [len(home.people) for home in guests.households] == [2, 2, 3, 1]


@pytest.mark.parametrize("word", ["OUT", "out", "hold", "maybe"])
def test_a_lone_out_in_a_column_that_says_nothing_holds(read_rows: Read, word: str) -> None:
    _, findings = read(read_rows, ("T05", "Greta", "Voss", 1, word, "5 Ash Row", *TOWN))
    assert [f.where.cell for f in findings if f.code == "marker-in-list"] == ["E11"]


def test_small_words_with_a_colon_are_a_heading_and_no_guest(read_rows: Read) -> None:
    homes, _ = read(
        read_rows, ("", "added later:"), ("T05", "Greta", "Voss", 1, "", "5 Ash Row", *TOWN)
    )
    assert homes == [*FOUND, ["Greta Voss"]]


def test_a_sheet_that_explains_the_marks_is_told(read_rows: Read) -> None:
    def add(book: Workbook) -> None:
        page = book.create_sheet("codes (read me)")
        page.append(["hh = household, 1 envelope per hh"])
        page.append(["p: 1 grown-up, 2 kid, 9 = plus one without a name"])

    _, findings = read_rows([HEADER, *ROWS], add)
    (told,) = [found for found in findings if found.code == "legend"]
    assert "2 kid, 9 = plus one" in told.text


def test_a_couple_that_stands_twice_in_its_household_stands_once(read_rows: Read) -> None:
    header = ("Household", "Name", "Street", "City", "State", "ZIP")
    row = ("H1", "Mr. and Mrs. Tobias Wexcombe", "5 Ash Row", *TOWN[:3])
    other = ("H2", "Ms. Odile Vale", "6 Ash Row", *TOWN[:3])
    guests, _ = read_rows([header, row, row, other])
    assert [len(home.people) for home in guests.households] == [2, 1]
