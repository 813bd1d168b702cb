"""An address that another row has ("same as #1", "wie Nr 1"), or that replaces a struck one."""

from collections.abc import Callable

import pytest
from openpyxl.cell.rich_text import CellRichText, TextBlock
from openpyxl.cell.text import InlineFont
from openpyxl.workbook import Workbook

from addressing.records.findings import Finding
from addressing.records.guests import GuestList

Read = Callable[..., tuple[GuestList, tuple[Finding, ...]]]
HEADER = ("Nr", "Name", "Street", "City", "State", "ZIP", "Country", "Notes")
TOBIAS = ("Tobias Penhew", "14 Larkmoor Lane", "Litchfield", "CT", "06759", "USA")


def streets(guests: GuestList) -> dict[str, str]:
    return {
        home.name: home.address.street.text if home.address and home.address.street else ""
        for home in guests.households
    }


# Common practice, no source.
@pytest.mark.parametrize(
    "said",
    [
        "wie Nr 1", "same as #1", "see 1", "siehe Nr. 1", "same address as no. 1",
        "même adresse que Tobias", "vedi Tobias", "wie Tobias", "come sopra", "same as Tobias P.",
        "same as Tobias (roommates)", "see 1 [her brother]",
    ],
)  # fmt: skip
def test_an_address_that_another_row_has_is_taken_from_it(read_rows: Read, said: str) -> None:
    row = (2, "Wren Lorne", said, "", "", "", "USA", "own invitation")
    guests, findings = read_rows([HEADER, (1, *TOBIAS), row])
    assert streets(guests) == dict.fromkeys(("Tobias Penhew", "Wren Lorne"), "14 Larkmoor Lane")
    codes = {each.code for each in findings}
    assert not codes & {"address-missing", "address-incomplete", "zip-missing", "apart-noted"}


@pytest.mark.parametrize("said", ["wie Nr 7", "see 2", "same as T.", "same as Tobias (for now)"])
def test_a_row_that_refers_to_nobody_is_asked_about(read_rows: Read, said: str) -> None:
    guests, findings = read_rows([HEADER, (1, *TOBIAS), (2, "Wren Lorne", said)])
    assert streets(guests)["Wren Lorne"] != "14 Larkmoor Lane"
    assert {each.code for each in findings} & {"address-missing", "address-incomplete"}


def test_who_lives_with_others_and_wants_an_envelope_gets_one(read_rows: Read) -> None:
    note = "lives w/ Tobias, gets her OWN envelope"
    rows = [HEADER, (1, *TOBIAS), (2, "Mrs. Rosa Penhew", *[""] * 5, note)]
    guests, findings = read_rows(rows)
    assert streets(guests) == dict.fromkeys(("Tobias Penhew", "Rosa Penhew"), "14 Larkmoor Lane")
    assert not {each.code for each in findings} & {"apart-noted", "household-assumed"}


def test_a_town_that_replaces_a_struck_one_is_no_question(read_rows: Read) -> None:
    def strike(book: Workbook) -> None:
        gone = InlineFont(strike=True)
        cells = {"C2": ("50 Old Lane", "14 Larkmoor Lane"), "D2": ("Darien", "Litchfield")}
        for cell, (was, now) in {**cells, "E2": ("NY", "CT"), "F2": ("06820", "06759")}.items():
            book.worksheets[0][cell] = CellRichText(TextBlock(gone, was), f" {now}")

    guests, findings = read_rows([HEADER, (1, *TOBIAS)], strike)
    assert "row-struck" not in {each.code for each in findings}
    address = guests.households[0].address
    assert address is not None
    assert address.city is not None
    assert address.city.text == "Litchfield"


def test_a_name_struck_beside_another_is_asked_about_still(read_rows: Read) -> None:
    def strike(book: Workbook) -> None:
        gone = InlineFont(strike=True)
        book.worksheets[0]["B2"] = CellRichText(TextBlock(gone, "Odile and "), "Tobias Penhew")

    _, findings = read_rows([HEADER, (1, *TOBIAS)], strike)
    assert "row-struck" in {each.code for each in findings}
