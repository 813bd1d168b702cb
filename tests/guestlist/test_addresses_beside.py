"""Guests on one sheet, their addresses on another under names as people note them; invented."""

from collections.abc import Callable, Sequence

import pytest
from openpyxl import Workbook

from addressing.records.findings import Finding
from addressing.records.guests import GuestList

Read = Callable[..., tuple[GuestList, tuple[Finding, ...]]]
Rows = Sequence[Sequence[str]]
GUESTS: Rows = (
    ("Name", "Party of", "Side"),
    ("Mr. and Mrs. Otto Wexcombe", "2", "Bride"),
    ("Ms. Odile Vale", "1", "Bride"),
    ("Dr. Corwin Penhew & Dr. Linnet Penhew", "2", "Groom"),
    ("The Lisle Family", "4", "Groom"),
    ("Albert Orr + guest", "2", "Bride"),
)
TOWN = "Litchfield, CT 06759"
HOMES: Rows = (
    ("Who", "Street", "City/State/Zip"),
    ("Wexcombe", "14 Larkmoor Lane", TOWN),
    ("Odile", "3 Farrenby Road", TOWN),
    ("Corwin & Linnet", "8 Mill Row", TOWN),
    ("Lisles", "21 Quarry Hill", TOWN),
    ("Bert O.", "5 Elm Row", TOWN),
)


def with_sheet(rows: Rows) -> Callable[[Workbook], None]:
    def add(book: Workbook) -> None:
        page = book.create_sheet("Addresses")
        for row in rows:
            page.append(list(row))

    return add


def streets(guests: GuestList) -> dict[str, str]:
    """Where each household lives; "" where no address was found."""
    return {
        home.name: home.address.street.text if home.address and home.address.street else ""
        for home in guests.households
    }


FOUND = ["14 Larkmoor Lane", "3 Farrenby Road", "8 Mill Row", "21 Quarry Hill", "5 Elm Row"]


def test_each_address_goes_to_the_one_whom_it_can_be_of(read_rows: Read) -> None:
    guests, findings = read_rows(GUESTS, with_sheet(HOMES))
    assert list(streets(guests).values()) == FOUND
    (asked,) = [found for found in findings if found.code == "addresses-beside"]
    assert "Albert Orr + guest ← Bert O." in asked.text
    assert not [found for found in findings if found.code == "address-missing"]


def test_an_address_keeps_the_cell_where_it_stands(read_rows: Read) -> None:
    guests, _ = read_rows(GUESTS, with_sheet(HOMES))
    address = guests.households[1].address
    assert address is not None
    assert address.street is not None
    assert [str(cell) for cell in address.street.cells] == ["Addresses!B3"]


def test_names_in_full_are_asked_about_no_more(read_rows: Read) -> None:
    homes = [
        HOMES[0],
        *((guest[0], *home[1:]) for guest, home in zip(GUESTS[1:], HOMES[1:], strict=True)),
    ]
    guests, findings = read_rows(GUESTS, with_sheet(homes))
    assert list(streets(guests).values()) == FOUND
    assert not [found for found in findings if found.code.startswith("addresses-")]


@pytest.mark.parametrize("more", [("Tobias Wexcombe", "1", "Bride"), ("Ann Wexcombe", "1", "")])
def test_an_address_that_can_be_of_two_goes_to_none(read_rows: Read, more: Sequence[str]) -> None:
    guests, findings = read_rows([*GUESTS, more], with_sheet(HOMES))
    homes = streets(guests)
    assert homes.pop("Otto Wexcombe") == homes.pop(more[0]) == ""
    assert list(homes.values()) == FOUND[1:]
    (asked,) = [found for found in findings if found.code == "addresses-of-nobody"]
    assert asked.quoted == "Wexcombe"


def test_who_has_an_address_alone_is_asked_about_and_gets_no_envelope(read_rows: Read) -> None:
    homes = [*HOMES, ("Hesper Sorrel", "9 Ash Row", TOWN)]
    guests, findings = read_rows(GUESTS, with_sheet(homes))
    assert len(guests.households) == len(GUESTS) - 1
    (asked,) = [found for found in findings if found.code == "addresses-of-nobody"]
    assert asked.quoted == "Hesper Sorrel"


def test_every_row_of_both_sheets_is_accounted_for(read_rows: Read) -> None:
    guests, _ = read_rows(GUESTS, with_sheet([*HOMES, ("Hesper Sorrel", "9 Ash Row", TOWN)]))
    whys = {row.row: row.why for row in guests.unused if row.sheet == "Addresses"}
    assert whys[2] == "the address of Mr. and Mrs. Otto Wexcombe"
    assert whys[7] == "an address of nobody on the list"
    assert len(whys) == len(HOMES)


def test_two_sheets_of_other_guests_are_both_read(read_rows: Read) -> None:
    others = [HOMES[0], ("Kit Sorrel", *HOMES[1][1:]), ("Hesper Orr", *HOMES[2][1:])]
    guests, _ = read_rows(GUESTS, with_sheet(others))
    assert len(guests.households) == len(GUESTS) - 1 + len(others) - 1


def test_a_title_alone_names_nobody_who_could_be_found(read_rows: Read) -> None:
    guests, _ = read_rows(
        [*GUESTS, ("Mrs.", "1", "Bride")], with_sheet([*HOMES, ("Dr.", "", TOWN)])
    )
    assert list(streets(guests).values())[: len(FOUND)] == FOUND


def test_a_large_sheet_of_addresses_is_looked_up_by_its_words(read_rows: Read) -> None:
    guests = [GUESTS[0], *((f"Kit{at} Vale{at}", "1", "") for at in range(3000))]
    homes = [HOMES[0], *((f"Vale{at}", f"{at + 1} Mill Row", TOWN) for at in range(3000))]
    read, _ = read_rows(guests, with_sheet(homes))
    assert list(streets(read).values()) == [f"{at + 1} Mill Row" for at in range(3000)]


NEW: Rows = (
    ("Name", "New address"),
    ("The Lisles", "they moved in May: 120 Sycamore Place, Litchfield, CT 06759"),
    ("Hesper Sorrel", "9 Ash Row, Litchfield, CT 06759"),
)


def test_a_new_address_is_asked_of_whom_it_can_be_of_and_makes_no_second_household(
    read_rows: Read,
) -> None:
    listed = [
        ("Name", "Street", "City", "State", "ZIP"),
        ("Ms. Odile Vale", "3 Farrenby Road", "Litchfield", "CT", "06759"),
        ("The Lisle Family", "21 Quarry Hill", "Litchfield", "CT", "06759"),
    ]
    guests, findings = read_rows(listed, with_sheet(NEW))
    lisles = guests.households[1]
    (asked,) = [found for found in findings if found.household == lisles.key and found.holds]
    assert (asked.code, str(asked.where)) == ("address-doubtful", "Addresses!B2")
    assert asked.likely == (("lines", "120 Sycamore Place, Litchfield, CT 06759"),)
    assert [home.name for home in guests.households[2:]] == ["Hesper Sorrel"]
