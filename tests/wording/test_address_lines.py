"""Address lines in each style, at home and abroad, and where their parts may stand."""

from dataclasses import replace

import pytest

from addressing.job.styling import styles_for
from addressing.materials.shelf import open_shelf
from addressing.records.docket import Docket, Hosts, WordingChoices
from addressing.records.guests import Address, Cited
from addressing.records.pieces import Line, Role
from addressing.tables import table
from addressing.where import Where
from addressing.wording import word_hosts
from addressing.wording.address_lines import address_lines
from addressing.wording.streets import (
    numbers_in_words,
    street_in_full,
    street_in_short,
    unit_in_full,
    unit_in_short,
)


def address(**parts: str) -> Address:
    """An address whose every part stands in a cell of its own, named by the part."""
    cited = {name: Cited(text, (Where("list", None, name),)) for name, text in parts.items()}
    return Address(
        street=cited.get("street"),
        unit=cited.get("unit"),
        recipient_extra=cited.get("recipient_extra"),
        city=cited.get("city"),
        region=cited.get("region"),
        postcode=cited.get("postcode"),
        country=cited.get("country"),
    )


def texts(lines: tuple[Line, ...] | None) -> list[str]:
    return [line.text for line in lines or ()]


HOME = {
    "street": "520 W. Marlpit St.",
    "unit": "Apt. 2R",
    "city": "Litchfield",
    "region": "CT",
    "postcode": "06759",
    "country": "US",
}


def test_formal_style_spells_out_street_unit_and_state() -> None:
    # Several independent wedding etiquette pages; comma: USPS Publication 28, 222.
    inline, apart = address_lines(address(**HOME), "US", postal=False)
    assert texts(inline) == [
        "520 West Marlpit Street, Apartment 2R",
        "Litchfield, Connecticut 06759",
    ]
    assert texts(apart) == [
        "520 West Marlpit Street",
        "Apartment 2R",
        "Litchfield, Connecticut 06759",
    ]


def test_postal_style_is_that_of_publication_28() -> None:
    inline, _ = address_lines(address(**HOME), "US", postal=True)
    assert texts(inline) == ["520 W MARLPIT ST APT 2R", "LITCHFIELD CT 06759"]


@pytest.mark.parametrize(("unit", "formal", "short"), [("5", "#5", "# 5"), ("4B", "#4B", "# 4B")])
def test_a_number_without_a_designator_is_marked_as_a_unit(
    unit: str, formal: str, short: str
) -> None:
    # Publication 28, 213.2: # where the designator isn't known, a blank behind it in postal style.
    bare = address(**{**HOME, "unit": unit})
    assert texts(address_lines(bare, "US", postal=False)[1])[1] == formal
    assert texts(address_lines(bare, "US", postal=True)[0])[0] == f"520 W MARLPIT ST {short}"


def test_every_line_names_the_cells_that_it_joins() -> None:
    inline, apart = address_lines(address(**HOME), "US", postal=False)
    assert [[where.cell for where in line.cells] for line in inline] == [
        ["street", "unit"],
        ["city", "region", "postcode"],
    ]
    assert apart is not None
    assert [[where.cell for where in line.cells] for line in apart][:2] == [["street"], ["unit"]]


@pytest.mark.parametrize(
    ("parts", "home", "expected", "source"),
    [
        (
            {"street": "14 Larkmoor Road", "city": "Ottawa", "region": "ON",
             "postcode": "K1A 0B1", "country": "CA"},
            "US",
            ["14 Larkmoor Road", "Ottawa ON  K1A 0B1", "CANADA"],
            "USPS International Mail Manual 122.1: two spaces before the postal code",
        ),
        (
            {"street": "14 Larkmoor Road", "city": "Leeds", "postcode": "LS1 4DY",
             "country": "GB"},
            "US",
            ["14 Larkmoor Road", "Leeds", "LS1 4DY", "UNITED KINGDOM"],
            "public address guides: the postcode on its own line",
        ),
        (
            {"street": "Larkmoorweg 14", "city": "Berlin", "postcode": "10115", "country": "DE"},
            "US",
            ["Larkmoorweg 14", "10115 Berlin", "GERMANY"],
            "USPS Publication 28, A31: the country alone on the last line, in capitals",
        ),
        (
            {"street": "14 rue de Larkmoor", "city": "Paris", "postcode": "75004",
             "country": "FR"},
            "US",
            ["14 rue de Larkmoor", "75004 Paris", "FRANCE"],
            "UPU postal addressing sheet, France",
        ),
        (
            {"street": "14 Larkmoor Road", "city": "Hobart", "region": "TAS",
             "postcode": "7000", "country": "AU"},
            "US",
            ["14 Larkmoor Road", "Hobart TAS 7000", "AUSTRALIA"],
            "Australia Post guidance",
        ),
        (
            {"street": "14 Larkmoor Lane", "city": "Litchfield", "region": "CT",
             "postcode": "06759", "country": "US"},
            "CA",
            ["14 Larkmoor Lane", "Litchfield, Connecticut 06759", "UNITED STATES OF AMERICA"],
            "common practice, no source",
        ),
        (
            {"street": "14 Larkmoor Road", "city": "Ottawa", "region": "ON",
             "postcode": "K1A 0B1", "country": "CA"},
            "CA",
            ["14 Larkmoor Road", "Ottawa ON  K1A 0B1"],
            "the country is absent at home",
        ),
        (
            {"street": "14 Larkmoor Lane", "city": "San Juan", "region": "PR",
             "postcode": "00907", "country": "US"},
            "US",
            ["14 Larkmoor Lane", "San Juan, Puerto Rico 00907"],
            "Publication 28, appendix B",
        ),
        (
            {"street": "PSC 1650 Box 10", "city": "APO", "region": "AE", "postcode": "09001",
             "country": "US"},
            "US",
            ["PSC 1650 Box 10", "APO AE 09001"],
            "Publication 28, 225.1: military last lines stay as they are",
        ),
        (
            {"recipient_extra": "c/o Odile Farrenby", "street": "14 Larkmoor Ln",
             "city": "LITCHFIELD", "region": "CT", "postcode": "06759-1234", "country": "US"},
            "US",
            ["in care of Odile Farrenby", "14 Larkmoor Lane", "Litchfield, Connecticut 06759-1234"],
            "common practice, no source",
        ),
    ],
    ids=lambda value: value if isinstance(value, str) and len(value) > 2 else None,
)  # fmt: skip
def test_an_address_is_set_by_its_country(
    parts: dict[str, str], home: str, expected: list[str], source: str
) -> None:
    assert source
    lines, _ = address_lines(address(**parts), home, postal=False)
    assert texts(lines) == expected
    countries = [line for line in lines if line.role is Role.COUNTRY]
    assert len(countries) <= 1
    assert not countries or lines[-1] is countries[0]


def test_canada_keeps_its_two_spaces_in_postal_style() -> None:
    # USPS International Mail Manual 122.1, sample: OTTAWA ON  K1A 0B1
    parts = {"street": "1010 Clear Street", "city": "Ottawa", "region": "ON"}
    parts |= {"postcode": "K1A 0B1", "country": "CA"}
    lines, _ = address_lines(address(**parts), "US", postal=True)
    assert texts(lines) == ["1010 CLEAR STREET", "OTTAWA ON  K1A 0B1", "CANADA"]


@pytest.mark.parametrize(
    ("written", "full"),
    [
        ("14 Larkmoor Ln", "14 Larkmoor Lane"),
        ("14 Larkmoor Ln.", "14 Larkmoor Lane"),
        ("14 Larkmoor Lane", "14 Larkmoor Lane"),
        ("14 LARKMOOR LN NW", "14 Larkmoor Lane Northwest"),
        ("14 St. Clarrow St.", "14 St. Clarrow Street"),
        ("14 Avenue N", "14 Avenue N"),
        ("14 N Avenue", "14 N Avenue"),
        ("14 North Ave", "14 North Avenue"),
        ("14 Court St", "14 Court Street"),
        ("14 Park Ave S", "14 Park Avenue South"),
        ("14 W 42nd St", "14 West 42nd Street"),
        ("14 Dr. Penhew Dr", "14 Dr. Penhew Drive"),
        ("842 E 1700 S", "842 East 1700 South"),
        ("1501 Hwy 50", "1501 Highway 50"),
        ("14 Broadway", "14 Broadway"),
        ("P.O. Box 12", "Post Office Box 12"),
        ("PO BOX 12", "Post Office Box 12"),
        ("RR 2 Box 152", "Rural Route 2, Box 152"),
        ("HC 68 Box 23A", "Highway Contract Route 68, Box 23A"),
        ("14A Larkmoor Ln", "14A Larkmoor Lane"),
        ("14 1/2 Larkmoor Ln", "14 1/2 Larkmoor Lane"),
        ("14 van der Larkmoor Way", "14 van der Larkmoor Way"),
        ("14 McWhirren Rd", "14 McWhirren Road"),
    ],
)
def test_a_street_is_written_out(written: str, full: str) -> None:
    assert street_in_full(written) == full
    assert street_in_full(full) == full


@pytest.mark.parametrize(
    ("written", "full", "short"),
    [
        ("Apt. 2R", "Apartment 2R", "APT 2R"),
        ("apt b", "Apartment B", "APT B"),
        ("apt 2r", "Apartment 2r", "APT 2R"),
        ("Ste 210", "Suite 210", "STE 210"),
        ("#4B", "#4B", "# 4B"),
        ("Apt #4B", "Apartment 4B", "APT 4B"),
        ("Bldg 2, Apt 5", "Building 2, Apartment 5", "BLDG 2 APT 5"),
        ("2nd Fl", "2nd Floor", "2ND FL"),
        ("Penthouse", "Penthouse", "PH"),
        ("Apt. 2 South", "Apartment 2 South", "APT 2 SOUTH"),
        ("4B", "4B", "# 4B"),
    ],
)
def test_a_unit_in_full_and_in_short(written: str, full: str, short: str) -> None:
    # Publication 28, C2 and 213.2
    assert unit_in_full(written) == full
    assert unit_in_short(written) == short


def test_postal_style_knows_what_formal_style_wrote() -> None:
    for street in ("14 Larkmoor Ln", "520 W. Marlpit St.", "P.O. Box 12", "RR 2 Box 152"):
        assert street_in_short(street_in_full(street)) == street_in_short(street)


HOSTS = Hosts("Mr. and Mrs. Alaric Grayling", "431 Weathervane Dr", None, "Bar Harbor", "ME",
              "04609")  # fmt: skip


def test_the_flap_bears_the_address_alone_and_the_reply_the_names_too() -> None:
    pieces, findings = word_hosts(Docket(hosts=HOSTS), styles_for(Docket(), open_shelf(None)))
    lines = {piece.kind: texts(piece.wordings[0].lines) for piece in pieces}
    assert lines == {
        "return": ["431 Weathervane Drive", "Bar Harbor, Maine 04609"],
        "reply": [
            "Mr. and Mrs. Alaric Grayling",
            "431 Weathervane Drive",
            "Bar Harbor, Maine 04609",
        ],
    }
    assert findings == ()
    assert {where.cell for where in pieces[1].wordings[0].lines[1].cells} == {"docket:hosts.street"}


def test_the_docket_may_put_the_hosts_names_on_the_flap() -> None:
    docket = Docket(hosts=HOSTS, wording=WordingChoices(flap="names"))
    pieces, _ = word_hosts(docket, styles_for(docket, open_shelf(None)))
    flap, reply = (texts(piece.wordings[0].lines) for piece in pieces)
    assert flap == reply
    assert flap[0] == "Mr. and Mrs. Alaric Grayling"


def test_without_hosts_there_is_no_static_piece_and_a_note_says_so() -> None:
    pieces, findings = word_hosts(Docket(), {})
    assert pieces == ()
    assert [finding.code for finding in findings] == ["hosts-missing"]
    assert word_hosts(Docket(make=("outer",)), {}) == ((), ())


def test_a_building_typed_in_capitals_with_its_street_is_set_as_names_are() -> None:
    """Beside a street in small letters its capitals may be its own (YMCA)."""
    shouted = address(**HOME | {"street": "520 MARLPIT ST", "recipient_extra": "PENHEW RESIDENCE"})
    assert texts(address_lines(shouted, "US", postal=False)[0])[0] == "Penhew Residence"
    plain = address(**HOME | {"recipient_extra": "YMCA"})
    assert texts(address_lines(plain, "US", postal=False)[0])[0] == "YMCA"


def test_a_box_beside_a_street_is_above_the_town_and_takes_no_unit() -> None:
    # Publication 28, 215: delivered is what stands above the town.
    pair = address(**HOME | {"street": "56 Marlpit St.\nPOB 130", "unit": "Apt 5"})
    assert texts(address_lines(pair, "US", postal=False)[0])[:2] == [
        "56 Marlpit Street, Apartment 5",
        "Post Office Box 130",
    ]
    bare = {part: text for part, text in HOME.items() if part != "unit"}
    road = address(**bare | {"street": "RR 2 Box 130\nHwy 31"})
    assert texts(address_lines(road, "US", postal=True)[0])[:2] == ["HIGHWAY 31", "RR 2 BOX 130"]
    kept = address(**bare | {"street": "PO Box 130\n56 Marlpit St."})
    assert texts(address_lines(kept, "US", postal=False)[0])[:2] == [
        "Post Office Box 130",
        "56 Marlpit Street",
    ]


def test_a_lockbox_beside_a_street_stays_one_and_leaves_the_unit_to_the_street() -> None:
    # Publication 28 knows a lockbox alone as PO BOX (283); beside a street it is in that house.
    bank = address(**HOME | {"street": "520 W. Marlpit St.\nLbx # 77", "unit": "Ste 5"})
    assert texts(address_lines(bank, "US", postal=False)[0])[:2] == [
        "520 West Marlpit Street, Suite 5",
        "Lockbox 77",
    ]
    assert texts(address_lines(bank, "US", postal=True)[0])[:2] == [
        "520 W MARLPIT ST STE 5",
        "LOCKBOX 77",
    ]


@pytest.mark.parametrize("row", table("number_words"), ids=lambda row: row["written"])
def test_a_docket_may_want_small_numbers_in_words_and_no_others(row: dict[str, str]) -> None:
    changed = row["example"].replace(row["written"], row["words"])
    assert numbers_in_words(row["example"]) == changed
    assert numbers_in_words(row["counter_example"]) == row["counter_example"]


def test_numbers_stay_figures_unasked_in_postal_style_and_abroad() -> None:
    home = Address(street=Cited("1 W 7th St", ()), city=Cited("Ely", ()), country=Cited("US", ()))
    abroad = replace(home, country=Cited("GB", ()))

    def street(address: Address, *, postal: bool = False, in_words: bool = False) -> str:
        lines, _ = address_lines(address, "US", postal=postal, in_words=in_words)
        return lines[0].text

    assert street(home) == "1 West 7th Street"
    assert street(home, in_words=True) == "One West Seventh Street"
    assert street(home, postal=True, in_words=True) == "1 W 7TH ST"
    assert street(abroad, in_words=True) == "1 W 7th St"


@pytest.mark.parametrize("postal", [False, True])
def test_the_post_s_last_line_and_the_country_may_never_be_broken(*, postal: bool) -> None:
    towns = [
        address(street="14 Larkmoor Lane", city="Chattahoochee Hills", region=row["code"],
                postcode="30268-0014", country="US")
        for row in table("states")
    ] + [
        address(street="14 Larkmoor Lane", city="Stow-on-the-Wold, Gloucestershire", region="",
                postcode="GL54 1AB", country=country)
        for country in ("GB", "IE", "CA", "DE", "FR", "AU", "JP")
    ]  # fmt: skip
    for town in towns:
        lines, _ = address_lines(town, "US", postal=postal)
        last = [line for line in lines if line.role in {Role.PLACE, Role.COUNTRY}]
        assert last
        assert [line.breaks for line in last] == [()] * len(last)
