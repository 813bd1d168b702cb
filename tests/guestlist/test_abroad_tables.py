"""Tables by which addresses abroad are read: a row's example is known by it, its counter is not."""

import re

import pytest

from addressing.guestlist.abroad.parts_abroad import Kind, has_road_word, is_unit, kind_abroad
from addressing.guestlist.abroad.places_abroad import cut_region
from addressing.guestlist.abroad.which_country import country_by_signs
from addressing.guestlist.homes.addresses import read_address
from addressing.guestlist.places.countries import country_code, country_of_cell
from addressing.guestlist.places.postcodes import is_never, tidy, with_zeros
from addressing.guestlist.places.sub_areas import areas_of, lies_in, sub_area
from addressing.guestlist.written import Written
from addressing.records.guests import Cited
from addressing.tables import table


def in_a_cell(text: str) -> Written:
    return Written(lines=(Cited(text),))


@pytest.mark.parametrize("row", table("unit_forms_abroad"), ids=lambda row: row["example"])
def test_a_flat_is_known_by_its_form(row: dict[str, str]) -> None:
    assert re.fullmatch(row["pattern"], row["example"], re.IGNORECASE)
    assert is_unit(row["example"])
    assert not is_unit(row["counter"])


@pytest.mark.parametrize(
    "row",
    table("street_words_abroad"),
    ids=lambda row: " ".join((row["kind"], row["language"], row["word"])),
)
def test_a_part_is_known_by_its_word(row: dict[str, str]) -> None:
    kinds = {"box": Kind.BOX, "locality": Kind.LOCALITY}
    if row["kind"] in kinds:
        assert kind_abroad(row["example"]) is kinds[row["kind"]]
        assert kind_abroad(row["counter"]) is not kinds[row["kind"]]
    else:
        assert has_road_word(row["example"])
        assert not has_road_word(row["counter"])


@pytest.mark.parametrize("row", table("country_signs"), ids=lambda row: row["example"])
def test_a_country_is_told_by_its_sign(row: dict[str, str]) -> None:
    assert country_by_signs(in_a_cell(row["example"])) == row["country"]
    assert country_by_signs(in_a_cell(row["counter"])) is None


@pytest.mark.parametrize("row", table("postcodes_abroad"), ids=lambda row: row["country"])
def test_a_postcode_is_read_and_an_impossible_one_is_not(row: dict[str, str]) -> None:
    neat, never = tidy(row["example"], row["country"]), tidy(row["counter"], row["country"])
    assert neat is not None
    assert not is_never(neat, row["country"])
    assert never is None or is_never(never, row["country"])


@pytest.mark.parametrize("row", table("country_names"), ids=lambda row: row["written"])
def test_a_country_s_other_names_are_known(row: dict[str, str]) -> None:
    assert country_code(row["written"]) == row["code"]


@pytest.mark.parametrize(
    ("text", "code"),
    [("uk", "GB"), ("England (UK)", "GB"), ("Þýskaland", "DE"), ("Narnia", None), ("CAN", "CA"),
     ("Germany / France", None), ("Kongo", None)],
)  # fmt: skip
def test_a_cell_of_countries_is_read_in_any_language(text: str, code: str | None) -> None:
    assert country_of_cell(text) == code


@pytest.mark.parametrize(
    ("text", "country", "region", "town"),
    [
        ("Milano (MI)", "IT", "MI", "Milano"),
        ("Rio de Janeiro/RJ", "BR", "RJ", "Rio de Janeiro"),
        ("toronto on", "CA", "on", "toronto"),
        ("Châtillon sur Marne", "FR", None, "Châtillon sur Marne"),
        ("New Delhi", "IN", "New Delhi", ""),
        ("Monterrey N.L.", "MX", "N.L.", "Monterrey"),
        ("Stoke on Trent", "CA", None, "Stoke on Trent"),
        ("Buchs SG", "CH", None, "Buchs SG"),
    ],
)
def test_a_region_is_cut_off_its_town_and_not_off_a_name(
    text: str, country: str, region: str | None, town: str
) -> None:
    assert cut_region(text, country) == (region, town)


def test_codes_and_regions_are_held_against_each_other() -> None:
    ontario, jalisco = sub_area("Ont.", "CA"), sub_area("Jalisco", "MX")
    assert ontario is not None
    assert jalisco is not None
    assert lies_in("M5V 2T6", ontario)
    assert not lies_in("64000", jalisco)
    assert [area.name for area in areas_of("64000", "MX")] == ["Nuevo León"]
    assert sub_area("Larkmoor", "CA") is None


def test_lost_zeros_come_back_only_to_codes_that_are_short() -> None:
    assert with_zeros("6000", "FR") == "06000"
    assert with_zeros("6000", "AU") is None
    assert with_zeros("6", "FR") is None
    assert with_zeros("K1A", "CA") is None


@pytest.mark.parametrize(
    "text",
    [
        "14 Larkmoor Lane, Litchfield, CT 06759",
        "N 5000 County Road, Eagle River, WI 54521",
        "11603 N Larkmoor Building 2 Houston, TX 77086",
        "12 Larkmoor Lane, Peru, IL 61354",
        "12 Larkmoor Lane, Peru 61354",
        "1012 NW Larkmoor Street, Portland, OR 97209",
        "12-345 Larkmoor Lane, Queens, New York 11101",
        "12 Larkmoor Lane Apt B1 2nd Floor, Boston Massachusetts 02116",
        "12 Larkmoor Lane, Detroit, MI 20121",
    ],
)
def test_an_address_at_home_bears_no_other_country_s_sign(text: str) -> None:
    assert country_by_signs(in_a_cell(text)) is None


@pytest.mark.parametrize(
    ("text", "home", "country"),
    [
        ("Lerchenweg 12, 50667 Köln", "US", "DE"),
        ("12 rue des Alouettes, 75011 Paris", "US", None),
        ("Lerchenweg 12, 50667 Köln", "DE", "DE"),
        ("12 rue des Alouettes, 75011 Paris", "FR", "FR"),
        ("14 Larkmoor Lane, Litchfield, CT 06759", "DE", "US"),
        ("14 Larkmoor Road, Leeds LS1 4DY", "DE", "GB"),
        ("14 Larkmoor Road, Richmond VIC 3121", "AU", "AU"),
        ("14 Larkmoor Lane, Ballylark, Co. Cork", "IE", "IE"),
    ],
)
def test_an_address_without_a_country_lies_at_the_sender_s_home(
    text: str, home: str, country: str | None
) -> None:
    address, _, _ = read_address(in_a_cell(text), frozenset(), home)
    assert address is not None
    assert (address.country.text if address.country else None) == country


@pytest.mark.parametrize(
    ("column", "kept"), [("Altstadt", "Lerchenweg 12\nAltstadt"), ("Sachsen", "Lerchenweg 12")]
)
def test_a_quarter_in_the_region_s_column_is_not_lost(column: str, kept: str) -> None:
    written = Written(
        lines=(Cited("Lerchenweg 12"),),
        city=Cited("Dresden"),
        region=Cited(column),
        postcode=Cited("01067"),
        country=Cited("Germany"),
    )
    address, troubles, _ = read_address(written, frozenset())
    assert troubles == ()
    assert address is not None
    assert address.street is not None
    assert address.street.text == kept


def test_a_first_part_that_repeats_the_names_is_left_out_abroad_too() -> None:
    written = in_a_cell("Familie Wexcombe, Lerchenweg 12, 50667 Köln, Germany")
    address, _, _ = read_address(written, frozenset(("wexcombe",)))
    assert address is not None
    assert address.street is not None
    assert address.street.text == "Lerchenweg 12"


def test_an_address_in_the_country_s_own_characters_stays_as_it_is() -> None:
    text = "〒106-0032 東京都港区雲雀町1-2-3 メゾン雲雀 405号室"
    address, troubles, _ = read_address(in_a_cell(text), frozenset())
    assert address is not None
    assert address.street is not None
    assert address.street.text == "東京都港区雲雀町1-2-3 メゾン雲雀 405号室"
    assert address.postcode is not None
    assert address.postcode.text == "106-0032"
    assert [trouble.code for trouble in troubles] == ["country-assumed"]
