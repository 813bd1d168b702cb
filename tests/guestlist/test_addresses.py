"""An address in one cell is cut into its parts, by table; lost zeros come back where proved."""

import csv
from pathlib import Path

import pytest

from addressing.guestlist.domestic.dwellings import Segment, kind_of, split_unit
from addressing.guestlist.domestic.tail import cut_country, cut_tail
from addressing.guestlist.homes.addresses import read_address
from addressing.guestlist.homes.doors import door
from addressing.guestlist.places.countries import country_code, is_postcode, region_codes
from addressing.guestlist.places.places import (
    fold_town,
    state_code,
    town_in_zip,
    town_zips,
    zip_in_state,
    zip_state,
)
from addressing.guestlist.written import Written
from addressing.records.guests import Address, Cited
from addressing.where import Where

FIELDS = ("extra", "street", "unit", "city", "region", "postcode", "country")
HERE = (Where("list.csv", None, "B2"),)


def cells() -> list[dict[str, str]]:
    path = Path(__file__).with_name("address_cells.tsv")
    lines = [line for line in path.read_text("utf-8").splitlines() if not line.startswith("#")]
    rows = csv.DictReader(lines, delimiter="\t", quoting=csv.QUOTE_NONE, restval="")
    return [{key: value.replace("\\n", "\n") for key, value in row.items()} for row in rows]


def parts(address: Address | None) -> dict[str, str]:
    assert address is not None
    read = {
        "extra": address.recipient_extra,
        "street": address.street,
        "unit": address.unit,
        "city": address.city,
        "region": address.region,
        "postcode": address.postcode,
        "country": address.country,
    }
    return {name: cited.text if cited else "" for name, cited in read.items()}


@pytest.mark.parametrize("row", cells(), ids=lambda row: f"{row['rule']}: {row['cell']!a}")
def test_an_address_has_these_parts(row: dict[str, str]) -> None:
    address, troubles, _ = read_address(
        Written(lines=(Cited(row["cell"], HERE),)), frozenset(("tobias", "wexcombe"))
    )
    assert parts(address) == {name: row[name] for name in FIELDS}
    assert [trouble.code for trouble in troubles] == row["codes"].split()


@pytest.mark.parametrize("row", cells(), ids=lambda row: f"{row['rule']}: {row['cell']!a}")
def test_every_part_of_an_address_says_its_cell(row: dict[str, str]) -> None:
    address, _, _ = read_address(Written(lines=(Cited(row["cell"], HERE),)), frozenset())
    assert address is not None
    read = (address.street, address.unit, address.recipient_extra, address.city, address.region)
    assert all(cited.cells == HERE for cited in (*read, address.postcode) if cited)


def columns(city: str, region: str, postcode: str, *, shown: str | None = None) -> Written:
    """An address in columns; `shown` is how the ZIP's number format shows it."""
    return Written(
        lines=(Cited("14 Larkmoor Lane", HERE),),
        city=Cited(city, HERE) if city else None,
        region=Cited(region, HERE) if region else None,
        postcode=Cited(postcode, HERE),
        zip_shown=shown,
        zip_number=True,
    )


@pytest.mark.parametrize(
    ("written", "postcode", "codes", "why"),
    [
        (columns("Litchfield", "CT", "6759"), "06759", ["zip-zero-restored"], "the state proves"),
        (columns("Litchfield", "Conn.", "6759"), "06759", ["zip-zero-restored"], "the state"),
        (
            columns("Litchfield", "CT", "67591234"),
            "06759-1234",
            ["zip-zero-restored"],
            "nine digits",
        ),
        (columns("San Juan", "PR", "907"), "00907", ["zip-zero-restored"], "two zeros"),
        (columns("Litchfield", "", "6759"), "06759", ["zip-zero-restored", "state-from-zip"],
         "the town proves"),
        (columns("Duluth", "MN", "5580"), "5580", ["zip-doubtful"], "05580 is in Vermont"),
        (columns("Nowhere Mills", "", "6759"), "6759", ["zip-doubtful", "address-incomplete"],
         "nothing proves it"),
        (columns("Litchfield", "CT", "6759", shown="06759"), "06759", ["zip-zero-restored"],
         "the format shows it, and the state proves it"),
        (columns("Litchfield", "CT", "06759"), "06759", [], "nothing is wrong"),
        (columns("Litchfield", "CT", "67"), "67", ["zip-doubtful"], "too short"),
        (columns("Litchfield", "CT", "O6759"), "06759", ["zip-tidied"], "a letter for a zero"),
        (columns("Duluth", "MN", "O6759"), "O6759", ["zip-doubtful"], "the ZIP has another town"),
    ],
)  # fmt: skip
def test_a_zip_gets_its_zeros_back_only_where_proved(
    written: Written, postcode: str, codes: list[str], why: str
) -> None:
    address, troubles, _ = read_address(written, frozenset())
    assert parts(address)["postcode"] == postcode, why
    assert [trouble.code for trouble in troubles] == codes


def test_a_mended_zip_is_logged_with_what_it_was() -> None:
    _, troubles, _ = read_address(columns("Litchfield", "CT", "6759"), frozenset())
    assert [trouble.repair for trouble in troubles] == [("6759", "06759")]


def test_a_part_that_repeats_the_names_is_left_out() -> None:
    text = "Tobias Wexcombe, 14 Larkmoor Lane, Litchfield, CT 06759"
    written = Written(lines=(Cited(text, HERE),))
    address, _, _ = read_address(written, frozenset(("tobias", "wexcombe")))
    assert parts(address)["extra"] == ""
    address, _, _ = read_address(written, frozenset(("odile", "farrenby")))
    assert parts(address)["extra"] == "Tobias Wexcombe"


def test_a_remark_in_brackets_comes_back_as_a_remark() -> None:
    written = Written(lines=(Cited("14 Larkmoor Lane (ring twice), Litchfield, CT 06759", HERE),))
    assert read_address(written, frozenset())[2] == ("ring twice",)


def test_an_empty_address_is_none() -> None:
    assert read_address(Written(), frozenset()) == (None, (), ())


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("14 Larkmoor Lane", Segment.STREET),
        ("N6W23001 Larkmoor Road", Segment.STREET),
        ("County Road 20", Segment.STREET),
        ("P.O. Box 12", Segment.BOX),
        ("RR 2 Box 152", Segment.BOX),
        ("Apt. 4B", Segment.UNIT),
        ("# 12", Segment.UNIT),
        ("Penthouse", Segment.UNIT),
        ("4B", Segment.BARE_UNIT),
        ("c/o Odile Farrenby", Segment.EXTRA),
        ("Attn: Odile Farrenby", Segment.EXTRA),
        ("Larkmoor House", Segment.WORDS),
        ("Boxwood House", Segment.WORDS),
        ("Apton Hall", Segment.WORDS),
    ],
)
def test_a_part_is_known_by_its_form(text: str, kind: Segment) -> None:
    assert kind_of(text) is kind


@pytest.mark.parametrize(
    ("street", "parted"),
    [
        ("14 Larkmoor Lane Apt 3", ("14 Larkmoor Lane", "Apt 3")),
        ("14 Larkmoor Lane, Unit 3, Floor 2", ("14 Larkmoor Lane", "Unit 3, Floor 2")),
        ("#3 14 Larkmoor Lane", ("14 Larkmoor Lane", "#3")),
        ("14 Larkmoor Lane", ("14 Larkmoor Lane", None)),
        ("14 Front Street", ("14 Front Street", None)),
        ("14 Suite Lane", ("14 Suite Lane", None)),
        ("Apt 3", ("Apt 3", None)),
    ],
)
def test_a_unit_is_parted_from_its_street(street: str, parted: tuple[str, str | None]) -> None:
    assert split_unit(street) == parted


def test_the_tail_says_how_the_town_was_found() -> None:
    assert cut_tail("14 Larkmoor Lane, Litchfield, CT 06759").town_by == "comma"
    assert cut_tail("14 Larkmoor Lane Litchfield CT 06759").town_by == "zip"
    assert cut_tail("14 Larkmoor Lane Duluth MN").town_by == "state"
    assert cut_tail("14 Larkmoor Lane Wexcombe Mills CT 06759").town_by == "suffix"
    assert cut_tail("14 Larkmoor Lane").town_by == ""


@pytest.mark.parametrize(
    ("text", "country"),
    [
        ("14 Larkmoor Road, Leeds LS1 4DY, England", "England"),
        ("14 Larkmoor Road\nLeeds LS1 4DY\nUK", "UK"),
        ("14 Larkmoor Lane, Litchfield, CT 06759 USA", "USA"),
        ("14 Larkmoor Lane, Atlanta, Georgia", None),
        ("14 Larkmoor Lane, Litchfield, CT", None),
        ("14 Larkmoor Lane, Pasadena, CA", None),
    ],
)
def test_a_country_is_cut_off_where_one_is_named(text: str, country: str | None) -> None:
    assert cut_country(text)[1] == country


@pytest.mark.parametrize(
    ("written", "code"),
    [
        ("USA", "US"), ("U.S.A.", "US"), ("United States of America", "US"), ("England", "GB"),
        ("Scotland", "GB"), ("Deutschland", "DE"), ("Allemagne", "DE"), ("Holland", "NL"),
        ("Éire", "IE"), ("España", "ES"), ("CA", "CA"), ("Larkmoor", None), ("", None),
    ],
)  # fmt: skip
def test_a_country_is_known_by_its_names(written: str, code: str | None) -> None:
    assert country_code(written) == code


def test_postcodes_and_regions_are_those_of_their_country() -> None:
    assert is_postcode("K1A 0B1", "CA")
    assert not is_postcode("K1A 0BI", "CA")
    assert not is_postcode("06759", "GB")
    assert region_codes("CA")["ontario"] == "ON"
    assert region_codes("AU")["tas"] == "TAS"
    assert region_codes("DE") == {}


def test_states_zips_and_towns_agree() -> None:
    # ZIP codes and towns: package zipcodes 3.0.0
    assert state_code("Mass.") == "MA"
    assert state_code("D.C.") == "DC"
    assert state_code("Larkmoor") is None
    assert zip_state("06759") == "CT"
    assert zip_state("00000") is None
    assert zip_in_state("06390", "NY")  # Fishers Island has a prefix of Connecticut
    assert not zip_in_state("06759", "ME")
    assert town_in_zip("Saint Paul", "55101")
    assert town_in_zip("St. Paul", "55101")
    assert not town_in_zip("Duluth", "55101")
    assert "06759" in town_zips("Litchfield", "CT")
    assert town_zips("Wexcombe Mills", "CT") == ()
    assert fold_town("Ft. Wayne") == fold_town("Fort Wayne") != fold_town("Wayne")


def test_a_door_is_the_same_however_it_is_written() -> None:
    def at(street: str, unit: str | None = None, postcode: str = "06759") -> str:
        cited = Cited(unit) if unit else None
        return door(Address(Cited(street), cited, postcode=Cited(postcode)))

    assert at("14 Larkmoor Lane") == at("14 larkmoor ln.", postcode="06759-1234")
    assert at("14 North Larkmoor Street") == at("14 N. Larkmoor St")
    assert at("P.O. Box 12") == at("PO BOX 12") != at("PO Box 21")
    assert at("14 Larkmoor Lane", "Apt. 3") == at("14 Larkmoor Lane", "#3")
    assert at("14 Larkmoor Lane", "Apt. 3") != at("14 Larkmoor Lane", "Apt. 4")
    assert at("16 Quince Road") != at("61 Quince Road")
    assert door(None) == door(Address()) == ""


@pytest.mark.parametrize(
    "place",
    ["Santa Fe, NM 17501", "santa fe, nm 17501", "Santa Fe, NM, 17501", "Santa Fe, NM 17501-1234"],
)
def test_a_number_and_a_province_of_elsewhere_are_no_country_beside_a_town_and_its_state(
    place: str,
) -> None:
    """2940 and Santa Fe alone would be Argentina's; the ZIP is off and asked about."""
    text = f"2940 Larkmoor Drive East, {place}"
    read, troubles, _ = read_address(Written(lines=(Cited(text),)), frozenset())
    assert read is not None
    assert read.country is not None
    assert read.country.text == "US"
    assert "zip-not-in-state" in {each.code for each in troubles}


def test_a_province_behind_its_town_stays_abroad() -> None:
    text = "Via Larkmoor 12, Milano, MI 20121"
    read, _, _ = read_address(Written(lines=(Cited(text),)), frozenset())
    assert read is not None
    assert read.country is not None
    assert read.country.text == "IT"
