"""The answers to a form that guests fill in themselves: its headers ask, its cells talk back."""

from collections.abc import Callable

import pytest

from addressing.guestlist.people.children_column import read_children
from addressing.guestlist.tables.meanings import meaning_of
from addressing.records.findings import Finding
from addressing.records.guests import GuestList

Read = Callable[..., tuple[GuestList, tuple[Finding, ...]]]
HEADER = ("Your name", "Street", "City", "State / Zip (and country if not US)")


# Common practice, no source.
@pytest.mark.parametrize(
    ("town", "place", "lines"),
    [
        ("Hoboken", "NJ 07030", ("Hoboken", "NJ", "07030")),
        ("Ann Arbor", "Michigan 48104", ("Ann Arbor", "MI", "48104")),
        ("Washington", "DC 20009", ("Washington", "DC", "20009")),
        ("New York", "New York 10001", ("New York", "NY", "10001")),
        ("", "Boise, ID 83701", ("Boise", "ID", "83701")),
        ("Boise", "Boise, ID 83701", ("Boise", "ID", "83701")),
    ],
)
def test_a_town_of_its_own_goes_before_state_and_zip(
    read_rows: Read, town: str, place: str, lines: tuple[str, ...]
) -> None:
    guests, findings = read_rows([HEADER, ("Tobias Penhew", "41 Larkmoor Lane", town, place)])
    address = guests.households[0].address
    assert address is not None
    parts = (address.city, address.region, address.postcode)
    assert tuple(part and part.text for part in parts) == lines
    assert not {f.code for f in findings if f.code.startswith("address")}


def test_a_town_abroad_stands_before_its_code(read_rows: Read) -> None:
    row = ("Aoife Penhew", "3 Larkmoor Terrace", "Dublin 6", "D06 X2C4, Ireland")
    guests, _ = read_rows([HEADER, row])
    address = guests.households[0].address
    assert address is not None
    assert address.country is not None
    assert address.country.text == "IE"
    assert [cite and cite.text for cite in (address.city, address.postcode)] == [
        "Dublin 6",
        "D06 X2C4",
    ]


@pytest.mark.parametrize(
    ("header", "meaning"),
    [
        ("Are you bringing kids? Names + ages", "children"),
        ("Please list your children (names, ages)", "children"),
        ("What is your street address?", "street"),
        ("Please enter your zip code", "postcode"),
        ("Any allergies or dietary stuff?", "elsewhere"),
        ("Do you have any dietary restrictions?", "elsewhere"),
    ],
)
def test_a_header_that_asks_means_what_it_asks_for(header: str, meaning: str) -> None:
    hit = meaning_of(header)
    assert hit is not None
    assert hit.meaning == meaning


@pytest.mark.parametrize("header", ["Is it right?", "What can we get you from the bar?"])
def test_a_header_that_asks_for_another_thing_means_nothing(header: str) -> None:
    assert meaning_of(header) is None


@pytest.mark.parametrize(
    "text",
    [
        "N/A - GROWN", "n/a (all grown)", "no, grown", "No. They are staying with a sitter",
        "staying with a sitter", "our 3 are grown, they'll fill in their own", "alle erwachsen",
        "just the dog, Biscuit", "our dog Rex",
    ],
)  # fmt: skip
def test_words_that_name_no_child_are_a_remark(text: str) -> None:
    reading = read_children(text)
    assert (reading.people, reading.doubts) == ((), ())
    assert reading.remarks == (text,)


@pytest.mark.parametrize(
    ("text", "named"),
    [
        ("Ella 4 and our cat Tom", ["Ella"]),
        ("Ella, Home", ["Ella", "Home"]),
        ("the dog Biscuit, Ella 4", ["Ella"]),
        ("Nona - 4", ["Nona"]),
        ("Noa, Ben", ["Noa", "Ben"]),
    ],
)
def test_children_beside_such_words_are_named(text: str, named: list[str]) -> None:
    assert [person.given for person in read_children(text).people] == named
