"""Whom words below a list or in its name cells add to it: common practice, no source."""

from collections.abc import Callable

import pytest

from addressing.records.findings import Finding
from addressing.records.guests import GuestList

Read = Callable[..., tuple[GuestList, tuple[Finding, ...]]]
HEADER = ("Name", "Address", "City", "State", "ZIP")
TOBIAS = ("Mr. Tobias Penhew", "14 Larkmoor Lane", "Litchfield", "CT", "06759")
WREN = ("Ms. Wren Lorne", "9 Tern Street", "Bar Harbor", "ME", "04609")


def names(guests: GuestList) -> list[str]:
    return [home.name for home in guests.households]


@pytest.mark.parametrize("words", ["Also add:", "please add", "forgot:", "+ add", "one more:"])
def test_words_below_a_list_that_add_somebody_with_an_address_make_a_household(
    read_rows: Read, words: str
) -> None:
    row = (f"{words} Ms. Odile Vance, 12 Elm Street, Litchfield, CT 06759",)
    guests, _ = read_rows([HEADER, TOBIAS, WREN, (), row])
    assert names(guests) == ["Tobias Penhew", "Wren Lorne", "Odile Vance"]
    address = guests.households[2].address
    assert address is not None
    assert address.postcode is not None
    assert address.postcode.text == "06759"


@pytest.mark.parametrize(
    "row",
    [
        "Don't add the Vances, 12 Elm Street, Litchfield, CT 06759",
        "add Apt 4 to Lorne, 9 Tern Street, Bar Harbor, ME 04609",
    ],
)
def test_words_that_add_nobody_make_no_household(read_rows: Read, row: str) -> None:
    guests, _ = read_rows([HEADER, TOBIAS, WREN, (), (row,)])
    assert names(guests) == ["Tobias Penhew", "Wren Lorne"]


def test_such_words_are_no_part_of_a_name(read_rows: Read) -> None:
    added = ("Also add Mr. Kit Vance", "12 Elm Street", "Litchfield", "CT", "06759")
    new = ("New, Alice", "14 Elm Street", "Litchfield", "CT", "06759")
    guests, _ = read_rows([HEADER, TOBIAS, added, new])
    assert names(guests) == ["Tobias Penhew", "Kit Vance", "Alice New"]
