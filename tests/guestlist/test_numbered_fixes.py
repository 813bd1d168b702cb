"""A sheet of changes that names guests by their number on the list: common practice, no source."""

import datetime as dt
from collections.abc import Callable

import pytest
from openpyxl.workbook import Workbook

from addressing.guestlist.files.numbered import with_names
from addressing.records.findings import Finding
from addressing.records.guests import GuestList

Read = Callable[..., tuple[GuestList, tuple[Finding, ...]]]
TOWN = ("Litchfield", "CT", "06759")
GUESTS = (
    ("#", "First name(s)", "Last name", "Street", "City", "State", "Zip"),
    (1, "Tobias & Maud", "Penhew", "14 Larkmoor Lane", *TOWN),
    (2, "Maj. Corwin & Dr. Wren", "Lorne", "9 Mill Row", *TOWN),
    (3, "Marianne", "Grayling-Pike", "66 Cobbler Green", *TOWN),
    ("3a", "Liv", "Grayling", "7 Cobbler Green", *TOWN),
)
HEAD = (("Changes since October",), ("# = number on the list",), ("date", "by", "#", "what"))


def asked(read_rows: Read, *lines: tuple[object, ...], guests: object = GUESTS) -> dict[str, str]:
    """What is asked of each household by the sheet's lines, its words by the household's name."""

    def changes(book: Workbook) -> None:
        sheet = book.create_sheet("Changes")
        for row in (*HEAD, *lines):
            sheet.append(row)

    found, findings = read_rows(guests, changes)
    names = {home.key: home.name for home in found.households}
    told = [each for each in findings if each.code == "said-elsewhere"]
    return {names[each.household or ""]: each.quoted for each in told}


def test_a_line_is_asked_with_the_household_of_its_number(read_rows: Read) -> None:
    day = dt.datetime(2026, 10, 3)  # noqa: DTZ001 - as a workbook has it
    said = asked(read_rows, (day, "A", 1, "Farfar passed away"), (day, "T", "3a", "moved to Ohio"))
    assert said == {
        "Tobias Penhew": "#1 Tobias & Maud Penhew – Farfar passed away",
        "Liv Grayling": "#3a Liv Grayling – moved to Ohio",
    }


def test_a_title_with_a_point_ends_no_sentence(read_rows: Read) -> None:
    said = asked(read_rows, (None, "A", 2, "off the list"))
    assert said == {"Corwin Lorne": "#2 Maj Corwin & Dr Wren Lorne – off the list"}


def test_a_line_of_two_numbers_is_asked_with_both(read_rows: Read) -> None:
    assert asked(read_rows, (None, "A", "1 + 3a", "one invite now")).keys() == {
        "Tobias Penhew", "Liv Grayling",
    }  # fmt: skip


def test_a_number_of_nobody_or_of_two_rows_names_nobody(read_rows: Read) -> None:
    assert not asked(read_rows, (None, "A", 9, "off the list"))
    twice = (*GUESTS, (1, "Ottoline", "Vale", "8 Mill Row", *TOWN))
    assert not asked(read_rows, (None, "A", 1, "off the list"), guests=twice)


@pytest.mark.parametrize("text", ["adds 2", "9 Mill Row", "2026", "1-2", ""])
def test_words_that_are_no_number_of_the_list_stay(text: str) -> None:
    assert with_names(text, {"1": "Odile Penhew", "2": "Wren Lorne"}) == text


@pytest.mark.parametrize(
    ("head", "told"),
    [(("No.", "Remark"), 2), (("No.", "Name"), 0), (("Table", "Remark"), 0)],
)
def test_a_sheet_of_remarks_by_number_is_told_whatever_its_name(
    read_rows: Read, head: tuple[str, str], told: int
) -> None:
    def remarks(book: Workbook) -> None:
        sheet = book.create_sheet("Sheet2")
        for row in (head, (1, "strike"), (2, "has moved to 5 Elm St"), ("", "thanks!")):
            sheet.append(row)

    _, findings = read_rows(GUESTS, remarks)
    assert len([each for each in findings if each.code == "said-elsewhere"]) == told
