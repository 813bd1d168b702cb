"""A mail's end is the sender's own; an address may go on below its town."""

from collections.abc import Callable
from pathlib import Path

import pytest

from addressing.guestlist import read_list
from addressing.records.guests import GuestList

HEAD = "From: {sender}\nTo: Odile\n\nHi Odile,\n\n"
GUESTS = (
    "Mr. and Mrs. Tobias Penhew\n14 Larkmoor Lane\nLitchfield, CT 06759\n\n"
    "Ms. Ottoline Grayling\n431 Weathervane Drive\nBar Harbor, ME 04609\n\n"
)
DOOR = "9 Tansy Court\nDuluth, MN 55802\n"

Reading = Callable[[str], GuestList]


@pytest.fixture
def reading(tmp_path: Path) -> Reading:
    def read(text: str) -> GuestList:
        path = tmp_path / "mail.txt"
        path.write_text(text, encoding="utf-8")
        return read_list(path, {})[0]

    return read


def families(guests: GuestList) -> list[str | None]:
    return [home.people[0].family for home in guests.households]


@pytest.mark.parametrize(
    "end",
    [
        "Love,\nBea\n\nBea Orrwell\n" + DOOR,
        "Love,\nBea and Kit\n\nKit & Bea Orrwell\n" + DOOR,
        "Thank you so much!\n\nBea\n903-555-0142\n\nBea & Kit Orrwell\n" + DOOR,
        "Hugs,\nMom\n\nBeatrix Orrwell\n" + DOOR,
    ],
)
def test_the_senders_own_address_below_a_signed_closing_is_no_guests(
    end: str, reading: Reading
) -> None:
    guests = reading(HEAD.format(sender="Beatrix Orrwell <bea@example.com>") + GUESTS + end)
    assert families(guests) == ["Penhew", "Grayling"]
    assert any(row.why == "the signature of a mail" for row in guests.unused[-3:])


def test_another_guest_below_a_signed_closing_is_still_a_guest(reading: Reading) -> None:
    late = "Love,\nBea\n\nMr. Amos Wexcombe\n" + DOOR
    guests = reading(HEAD.format(sender="Beatrix Orrwell") + GUESTS + late)
    assert families(guests) == ["Penhew", "Grayling", "Wexcombe"]


def test_a_country_between_the_town_and_a_remark_stays_with_its_address(reading: Reading) -> None:
    abroad = "Jens and Ida Rauhberg\nUlmenweg 14\n79100 Freiburg\nGermany\n(we met them skiing!)\n"
    guests = reading(HEAD.format(sender="Bea") + GUESTS + abroad)
    address = guests.households[-1].address
    assert address is not None
    assert address.country is not None
    assert address.country.text == "DE"


def test_a_guest_who_is_called_as_a_country_begins_a_household(reading: Reading) -> None:
    below = "Kit Orr\n9 Tansy Court\nDuluth, MN 55802\nJordan\n12 Elm Lane\nBath, ME 04530\n"
    guests = reading(HEAD.format(sender="Bea") + GUESTS + below)
    assert guests.households[-1].people[0].given == "Jordan"


def test_a_code_on_a_line_of_its_own_belongs_to_the_town_above_it(reading: Reading) -> None:
    broken = "Wren Penhew\n4402 Larkmoor Ct.\nRockford, IL\n61107\n"
    guests = reading(HEAD.format(sender="Bea") + GUESTS + broken)
    address = guests.households[-1].address
    assert address is not None
    parts = (address.city, address.region, address.postcode)
    assert [part and part.text for part in parts] == ["Rockford", "IL", "61107"]


def test_below_a_heading_that_says_perhaps_everybody_waits(tmp_path: Path) -> None:
    path = tmp_path / "mail.txt"
    below = "MAYBE (if the hall is big enough)\nKit and Wren Orr\n12 Elm Lane\nBath, ME 04530\n"
    path.write_text(HEAD.format(sender="Bea") + GUESTS + below, encoding="utf-8")
    guests, found = read_list(path, {})
    asked = [each for each in found if each.code == "marker-in-list"]
    assert [each.household for each in asked] == [guests.households[-1].key]


POSTSCRIPT = "Love,\nBea\n\nP.S. The Penhews' zip is right.\n\n"


def test_the_senders_block_below_a_postscript_waits_until_it_is_said_whether_it_is_a_guests(
    tmp_path: Path,
) -> None:
    path = tmp_path / "mail.txt"
    head = HEAD.format(sender="Beatrix Orrwell <bea@example.com>")
    path.write_text(f"{head}{GUESTS}{POSTSCRIPT}Beatrix Orrwell\n{DOOR}", encoding="utf-8")
    guests, found = read_list(path, {})
    asked = [each for each in found if each.code == "sender-listed"]
    assert [each.household for each in asked] == [guests.households[-1].key]
    assert asked[0].holds


def test_another_guest_below_a_postscript_is_no_sender(tmp_path: Path) -> None:
    path = tmp_path / "mail.txt"
    late = f"{POSTSCRIPT}Mr. Amos Wexcombe\n{DOOR}\nBeatrix Lorne\n12 Elm Lane\nBath, ME 04530\n"
    head = HEAD.format(sender="Beatrix Orrwell")
    path.write_text(head + GUESTS + late, encoding="utf-8")
    guests, found = read_list(path, {})
    assert families(guests)[2:] == ["Wexcombe", "Lorne"]
    assert not [each for each in found if each.code == "sender-listed"]


def test_the_senders_block_that_is_left_aside_is_quoted_to_the_client(tmp_path: Path) -> None:
    path = tmp_path / "mail.txt"
    head = HEAD.format(sender="Beatrix Orrwell")
    path.write_text(f"{head}{GUESTS}Love,\nBea\n\nBea Orrwell\n{DOOR}", encoding="utf-8")
    told = [each.text for each in read_list(path, {})[1] if each.code == "lines-not-read"]
    assert len(told) == 1
    assert "“Bea Orrwell, 9 Tansy Court, Duluth, MN 55802”" in told[0]
