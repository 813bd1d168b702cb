"""Blocks and sheets without guests, beside a list: common practice, no source."""

from collections.abc import Callable

import pytest
from openpyxl.workbook import Workbook

from addressing.guestlist.tables.blocks_aside import says_uninvited
from addressing.guestlist.tables.headings import says_whose
from addressing.records.findings import Finding
from addressing.records.guests import GuestList
from addressing.tables import table

Read = Callable[..., tuple[GuestList, tuple[Finding, ...]]]
HEADER = ("Name", "Street", "City", "State", "ZIP")
TOBIAS = ("Mr. Tobias Penhew", "14 Larkmoor Lane", "Litchfield", "CT", "06759")
OTTOLINE = ("Ms. Ottoline Grayling", "431 Weathervane Drive", "Bar Harbor", "ME", "04609")


def names(guests: GuestList) -> list[str]:
    return [home.name for home in guests.households]


@pytest.mark.parametrize(
    "row", [r for r in table("row_words") if r["kind"] == "block-aside"], ids=lambda r: r["word"]
)
def test_a_heading_with_such_words_says_that_nobody_is_invited(row: dict[str, str]) -> None:
    assert says_uninvited(row["example"])
    assert not row["counter_example"] or not says_uninvited(row["counter_example"])


def test_who_stands_below_such_a_heading_is_asked_about_once(read_rows: Read) -> None:
    rows = [
        HEADER, TOBIAS, ("VENDORS (meal count only - no invite)",), ("Photographer + assistant",),
        ("The Brass Penhews (band)",), ("Friends",), OTTOLINE, ("TOTAL", 2),
    ]  # fmt: skip
    guests, findings = read_rows(rows)
    assert names(guests) == ["Tobias Penhew", "Ottoline Grayling"]
    (asked,) = (each for each in findings if each.code == "block-aside")
    assert "Photographer + assistant, The Brass Penhews (band)" in asked.text
    assert {row.row for row in guests.unused} >= {3, 4, 5}


def test_a_name_with_such_a_remark_opens_no_block(read_rows: Read) -> None:
    guests, findings = read_rows([HEADER, TOBIAS, ("Wren Lorne - no invite",), OTTOLINE])
    assert "Ottoline Grayling" in names(guests)
    assert "block-aside" not in {each.code for each in findings}


def test_a_sheet_that_only_counts_names_nobody(read_rows: Read) -> None:
    def counts(book: Workbook) -> None:
        sheet = book.create_sheet("Counts")
        for row in ((None, "Households", "People"), ("Family", 18, 41), ("cap", None, 150)):
            sheet.append(row)

    guests, _ = read_rows([HEADER, TOBIAS, OTTOLINE], counts)
    assert names(guests) == ["Tobias Penhew", "Ottoline Grayling"]


@pytest.mark.parametrize("text", ["FAMILY - Penhew side", "Penhew side", "Friends – work"])
def test_a_side_named_after_a_family_is_a_heading(text: str) -> None:
    assert says_whose(text)


@pytest.mark.parametrize("text", ["Odile - Friends", "Penhew family", "Penhew - no kids"])
def test_a_name_and_a_remark_are_no_heading(text: str) -> None:
    assert not says_whose(text)
