"""A country typed in another column is the row's country, and no state. Invented lists."""

from collections.abc import Callable
from typing import Any

import pytest

from addressing.guestlist.homes.addresses import read_address
from addressing.guestlist.written import Written
from addressing.records.guests import Cited


def read(city: str, region: str, code: str, country: str = "") -> tuple[str, ...]:
    """(town, region, code, country, *codes of troubles) of an address in columns."""
    written = Written(
        lines=(Cited("14 Larkmoor Lane"),),
        city=Cited(city),
        region=Cited(region) if region else None,
        postcode=Cited(code) if code else None,
        country=Cited(country) if country else None,
    )
    address, troubles, _ = read_address(written, frozenset())
    assert address is not None
    parts = (address.city, address.region, address.postcode, address.country)
    return (*(part.text if part else "" for part in parts), *(each.code for each in troubles))


@pytest.mark.parametrize(
    ("cells", "parts"),
    [
        (("Farrenby", "UK", "SG10 6DH"), ("Farrenby", "", "SG10 6DH", "GB")),
        (("Farrenby", "England", "SG10 6DH"), ("Farrenby", "", "SG10 6DH", "GB")),
        (("Galway", "Ireland", "H91 X2F8"), ("Galway", "", "H91 X2F8", "IE")),
        (("Toronto, ON", "Canada", "M5J 2X2"), ("Toronto", "ON", "M5J 2X2", "CA")),
        (("Toronto", "Ontario, Canada", "M5J 2X2"), ("Toronto", "ON", "M5J 2X2", "CA")),
        (("Litchfield, CT", "USA", "06759"), ("Litchfield", "CT", "06759", "US")),
        (("Paris", "France", "75007"), ("Paris", "", "75007", "FR")),
        (("Tbilisi", "Georgia", "0108"), ("Tbilisi", "", "0108", "GE")),
    ],
)
def test_a_country_in_the_column_of_states_is_the_country_and_no_state(
    cells: tuple[str, str, str], parts: tuple[str, ...]
) -> None:
    assert read(*cells) == parts


def test_a_country_alone_in_the_column_of_codes_is_the_country() -> None:
    assert read("75011 Paris", "", "France") == ("Paris", "", "75011", "FR")
    assert read("20121 Milano", "MI", "Italy")[3] == "IT"


@pytest.mark.parametrize(
    ("cells", "parts"),
    [
        (("Galway, Ireland", "", "H91 X2F8"), ("Galway", "", "H91 X2F8", "IE")),
        (("London England", "", "SW1A 1AA"), ("London", "", "SW1A 1AA", "GB")),
        (("Paris FRANCE", "", "75007"), ("Paris", "", "75007", "FR")),
        (("Farrenby (UK)", "", "SG10 6DH"), ("Farrenby", "", "SG10 6DH", "GB")),
        (("Litchfield", "CT", "06759 USA"), ("Litchfield", "CT", "06759", "US")),
    ],
)
def test_a_country_behind_the_town_or_the_code_is_cut_off(
    cells: tuple[str, str, str], parts: tuple[str, ...]
) -> None:
    assert read(*cells) == parts


@pytest.mark.parametrize(
    ("cells", "parts"),
    [
        (("Atlanta", "Georgia", "30303"), ("Atlanta", "GA", "30303", "US")),
        (("East Jordan", "MI", "49727"), ("East Jordan", "MI", "49727", "US")),
        (("Peru", "IL", "61354"), ("Peru", "IL", "61354", "US")),
        (("Wilmington", "DE", "19801"), ("Wilmington", "DE", "19801", "US")),
        (("New Holland", "PA", "17557"), ("New Holland", "PA", "17557", "US")),
    ],
)
def test_a_us_state_or_town_with_the_name_of_a_country_stays_one(
    cells: tuple[str, str, str], parts: tuple[str, ...]
) -> None:
    assert read(*cells) == parts


def test_a_county_with_the_name_of_a_country_is_told_by_the_code() -> None:
    assert read("Diss", "Norfolk", "IP22 4ZZ")[3] == "GB"
    assert read("Kingston", "Norfolk Island", "2899")[3] == "NF"


def test_beside_a_column_of_countries_only_the_same_country_is_cut_off() -> None:
    same = read("London", "UK", "SW1A 1AA", "United Kingdom")
    assert same == ("London", "", "SW1A 1AA", "GB")
    assert read("Lyon", "Ireland", "69002", "France")[3] == "FR"


def test_a_country_whose_codes_look_otherwise_is_asked_about() -> None:
    assert "postcode-doubtful" in read("Belfast", "Ireland", "BT7 1NN")


@pytest.mark.parametrize(
    ("note", "place", "country"),
    [
        ("Portugal", ("Porto", None, "4050-262"), "PT"),
        ("England!", ("London", None, None), "GB"),
        ("Jordan", ("Bath", "ME", "04530"), "US"),
        ("Georgia", ("Atlanta", None, "30303"), "US"),
        ("loves Portugal", ("Porto", None, "4050-262"), None),
        ("USA", ("Porto", None, "4050-262"), None),
    ],
)
def test_a_note_of_a_country_alone_is_an_address_abroads(
    read_rows: Callable[..., Any], note: str, place: tuple[str | None, ...], country: str | None
) -> None:
    header = ("Name", "Street", "City", "State", "ZIP", "Notes")
    guests, findings = read_rows([header, ("Mr. Kit Orr", "12 Quince Street", *place, note)])
    address = guests.households[0].address
    assert (address.country.text if address and address.country else None) == country
    assert any(each.code == "country-unknown" for each in findings) is (country is None)
