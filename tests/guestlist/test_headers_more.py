"""Headers whose columns were once left out of an envelope without a word."""

from collections.abc import Callable

import pytest

from addressing.records.findings import Finding
from addressing.records.guests import GuestList

Read = Callable[..., tuple[GuestList, tuple[Finding, ...]]]
PLACES = ("Address", "City", "State", "ZIP")
HERE = ("14 Larkmoor Lane", "Litchfield", "CT", "06759")
OTHER = ("Ms. Annika Vale", "3 Farrenby Road", "Litchfield", "CT", "06759", "")


def read_first(read: Read, header: str, said: str, name: str = "Mr. Tobias Penhew") -> tuple[
    GuestList, list[str]
]:  # fmt: skip
    """The list, and the codes that hold its first household."""
    guests, findings = read([("Name", *PLACES, header), (name, *HERE, said), OTHER])
    first = guests.households[0].key
    return guests, [each.code for each in findings if each.household == first and each.holds]


@pytest.mark.parametrize("header", ["New address", "Forwarding Address", "Neue Adresse"])
def test_an_address_under_a_header_that_says_it_is_new_is_asked_about(
    read_rows: Read, header: str
) -> None:
    _, held = read_first(read_rows, header, "9 Mill Row, Duluth MN 55802")
    assert held == ["address-doubtful"]
    assert read_first(read_rows, header, "")[1] == []


@pytest.mark.parametrize("header", ["Do not mail", "Don't send", "No invitation"])
def test_a_mark_under_a_header_that_says_no_holds(read_rows: Read, header: str) -> None:
    assert read_first(read_rows, header, "x")[1] == ["marker-in-list"]
    assert read_first(read_rows, header, "no")[1] == []


@pytest.mark.parametrize("said", ["22", "#22", "PO Box 22"])
def test_a_number_in_a_column_of_boxes_is_a_box_and_no_unit(read_rows: Read, said: str) -> None:
    rows = [("Name", "Street", "PO Box", "City", "State", "ZIP"),
            ("Mr. Tobias Penhew", "", said, *HERE[1:]), OTHER]  # fmt: skip
    guests, _ = read_rows(rows)
    address = guests.households[0].address
    assert address is not None
    assert (address.street.text if address.street else "", address.unit) == ("PO Box 22", None)


def test_the_second_line_of_an_envelope_names_the_second_person(read_rows: Read) -> None:
    header = ("Outer envelope line 1", "Outer envelope line 2", *PLACES)
    guests, _ = read_rows(
        [
            header,
            ("Mr. Tobias Penhew", "and Ms. Odile Vale", *HERE),
            ("Mr. and Mrs. Bram Lorne", "and Family", "3 Mill Row", *HERE[1:]),
        ]
    )
    assert [p.given for p in guests.households[0].people] == ["Tobias", "Odile"]
    assert guests.households[1].family is not None


def test_a_column_of_ranks_is_one_of_titles_and_of_degrees_one_of_endings(read_rows: Read) -> None:
    guests, _ = read_rows(
        [
            ("Rank", "First & Last", "Degree", *PLACES),
            ("Col.", "Tobias Penhew", "", *HERE),
            ("", "Odile Vale", "MD", "3 Mill Row", *HERE[1:]),
        ]
    )
    (first,), (second,) = (home.people for home in guests.households)
    assert (first.title, first.given, second.credentials) == ("Colonel", "Tobias", ("MD",))


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("1301 Lamar Blvd", "2205 Duval St NW"),
        ("14100 Larkmoor Ln", "9020 Mill Row Rd"),
        ("1301 Broadway", "2205 Duval"),
    ],
)
def test_streets_with_long_numbers_are_no_towns_with_their_codes(
    read_rows: Read, one: str, other: str
) -> None:
    header = ("Name", "Street", "City", "State", "ZIP")
    places = ("Austin", "TX", "78703")
    rows = [("Mr. Tobias Penhew", one, *places), ("Ms. Annika Vale", other, *places)]
    _, findings = read_rows([header, *rows])
    assert "column-doubtful" not in {each.code for each in findings}


def test_towns_with_their_codes_under_a_header_of_streets_are_asked_about(read_rows: Read) -> None:
    rows = [("Name", "Street", "Country"), ("Tobias Penhew", "1010 Wien", "Austria")]
    _, findings = read_rows([*rows, ("Annika Vale", "8010 Graz", "Austria")])
    assert "column-doubtful" in {each.code for each in findings}
