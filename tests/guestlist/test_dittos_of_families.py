"""Marks for the address above, where the row above is another family's or has none itself."""

from collections.abc import Callable

import pytest

from addressing.records.findings import Finding
from addressing.records.guests import GuestList

Read = tuple[GuestList, tuple[Finding, ...]]
HEADER = ("Name", "Street", "City", "State", "ZIP")
PENHEW = ("Mr. Rufus Penhew", "3 Larkmoor Lane", "Litchfield", "CT", "06759")
ORR = ("Mr. and Mrs. Hugo Orr", "14 Larkmoor Lane", "Litchfield", "CT", "06759")


@pytest.mark.parametrize("words", ["same", "Same address", "s.o."])
def test_same_below_another_family_is_asked_where_this_one_stands_further_up(
    read_rows: Callable[..., Read], words: str
) -> None:
    guests, findings = read_rows((HEADER, PENHEW, ORR, ("Miss Maud Penhew", words, "", "", "")))
    assert guests.households[-1].address is None
    assert "address-missing" in {found.code for found in findings}


@pytest.mark.parametrize(
    ("name", "words"), [("Miss Maud Penhew", "same as above"), ("Miss Maud Farrenby", "same")]
)
def test_as_above_and_a_name_that_stands_nowhere_else_are_not_asked(
    read_rows: Callable[..., Read], name: str, words: str
) -> None:
    guests, _ = read_rows((HEADER, PENHEW, ORR, (name, words, "", "", "")))
    assert guests.households[-1].address == guests.households[-2].address


def test_a_ditto_below_a_row_that_leaves_its_address_above_takes_that_one(
    read_rows: Callable[..., Read],
) -> None:
    rows = (
        ORR,
        PENHEW,
        ("Mrs. Nell Penhew", "", "", "", ""),
        ("Ms. Maud Penhew", '"', '"', '"', '"'),
    )
    guests, findings = read_rows((HEADER, *rows))
    homes = [home.address.street for home in guests.households if home.address]
    assert "address-missing" not in {found.code for found in findings}
    assert len(homes) == len(guests.households)


def test_a_man_and_his_wife_by_his_name_are_no_doubles(read_rows: Callable[..., Read]) -> None:
    rows = (("Mr. Paul Orr", *ORR[1:]), ("Mrs. Paul Orr", "", "", "", ""))
    guests, findings = read_rows((HEADER, *rows))
    assert len(guests.households) == 1
    assert "duplicate-probable" not in {found.code for found in findings}


def test_a_column_of_postcode_and_town_under_a_towns_header_stands_once(
    read_rows: Callable[..., Read],
) -> None:
    rows = (
        ("Name", "Adresse", "Ort", "Land"),
        ("Ludo Penhew", "Lerchenweg 2", "6020 Innsbruck", "Österreich"),
        ("Maud Orr", "Lerchenweg 3", "8010 Graz", "Österreich"),
    )
    guests, _ = read_rows(rows)
    (first, _) = guests.households
    assert first.address is not None
    assert first.address.city is not None
    assert first.address.city.text == "Innsbruck"


def test_invites_over_numbers_counts_who_is_invited(read_rows: Callable[..., Read]) -> None:
    rows = (
        ("Name", "Invites", *HEADER[1:]),
        ("Rufus Penhew", "1", *PENHEW[1:]),
        ("Hugo and Maud Orr", "2", *ORR[1:]),
    )
    _, findings = read_rows(rows)
    assert not {"column-doubtful", "count-differs"} & {found.code for found in findings}
