"""What a remark beside the list proposes to the client for the household that it names."""

import pytest

from addressing.guestlist.households.proposed import proposals
from addressing.records.guests import Address, Cited, Household, Kind, Person

ADDRESS = Address(
    street=Cited("350 Willow Row"),
    unit=Cited("Apt 48"),
    city=Cited("Bath"),
    region=Cited("ME"),
    postcode=Cited("04530"),
)
ODILE = Person(given="Odile", family="Penhew")
GUEST = Person(kind=Kind.GUEST)
LUCY = Person(given="Lucy", family="Penhew", kind=Kind.CHILD)


def of(said: str, *people: Person) -> tuple[tuple[str, str], ...]:
    return proposals(said, Household("h-aaaaaaaa", people or (ODILE,), address=ADDRESS))


@pytest.mark.parametrize(
    ("said", "field", "value"),
    [
        ("Odile moved: 812 Alder Row, Eugene OR 97401", "lines", "812 Alder Row, Eugene OR 97401"),
        ("Odile is at 812 Alder Row now", "street", "812 Alder Row"),
        ("Odile's apt is 4B not 48", "unit", "Apt 4B"),
        ("Odile's number should be 305 not 350", "street", "305 Willow Row"),
        ("Odile Penhew: the zip is 04532, I swapped the digits", "postcode", "04532"),
    ],
)
def test_the_part_of_the_address_that_a_remark_gives_is_proposed(
    said: str, field: str, value: str
) -> None:
    assert of(said) == ((field, value),)


def test_a_named_companion_is_proposed_in_the_place_of_a_guest() -> None:
    said = "Odile's plus one is Devon Marsh"
    assert of(said, ODILE, GUEST) == (("names", "Odile Penhew and Devon Marsh"),)


@pytest.mark.parametrize(
    "said",
    [
        "Odile is still at 350 Willow Row, Bath, ME 04530",
        "Odile paid 12345 for the hall",
        "Odile's zip is 04530 or 04532 or 04531",
        "call Odile at 555-0101",
    ],
)
def test_what_the_list_has_or_nobody_can_know_is_not_proposed(said: str) -> None:
    assert of(said) == ()


def test_the_own_address_of_a_child_is_not_proposed_for_the_parents() -> None:
    said = "Lucy has her own place: 31 Tannery St Apt 2, Ithaca NY 14850"
    assert of(said, ODILE, LUCY) == ()
