"""Readings whose every part is in a form of the tables, and readings where a part is in none."""

import pytest

from addressing.guestlist.domestic.known_forms import is_known_form, is_unmixed
from addressing.guestlist.domestic.us import read_us
from addressing.guestlist.written import Written
from addressing.records.guests import Cited
from addressing.tables import table

TOWN = "Hurst, TX 76054"


def is_known(street: str) -> bool:
    """Whether the rules' reading of a street and a town is of a known form."""
    written = Written(lines=(Cited(f"{street}, {TOWN}"),))
    return is_known_form(read_us(written, frozenset())[0], written)


@pytest.mark.parametrize(
    "street",
    [
        "14 Larkmoor Lane",
        "14 W Larkmoor Hollow Rd NE",
        "14 St Larkmoor Ave",
        "One Larkmoor Dr",
        "14 34th Street Dr SE",
        "14 South Blvd",
        "14 C St SW",
        "14 Broadway",
        "14 Ave D",
        "14 Avenue of the Poplars",
        "455 S 700 E",  # Publication 28, October 2023, D2
        "14 N State Road 7 Suite 100",  # the same, appendix F
        "14 US Highway No 202",
        "14 County Road DB",
        "14 State Highway #50",
        "Farrenby Tower, 10th Floor, 14 Larkmoor Lane",
        "14 W Larkmoor 37th Floor",
        "14 W Larkmoor 1506",
        "14 Larkmoor Ave SW A",
        "14 Larkmoor Lane, B-2",
        "14 Larkmoor Lane, af 1025",
        "14 Larkmoor Lane # 403 Rm 306",
        "14 Larkmoor Lane PMB 175",
        "14 Larkmoor Lane attn Farrenby",
        "14 Larkmoor St SE Farrenby Lofts",
        "14 Larkmoor St Ste 900 Farrenby Bldg",
        "RR 2 Box 18",
        "14 E Via de Larkmoor",
        "14 Larkmoor Ave No",
        "14 Larkmoor Street North 1001",
        "14 Larkmoor Ct Unit",
        "14 Larkmoor St Unit K, L",
        "14 Larkmoor Prom 3R",
        "One Farrenby Plaza, 14 Larkmoor Street",
        "14 Larkmoor Ave Luxe Quince Square",
        "14 Larkmoor Road Route 776",
    ],
)
def test_a_reading_in_forms_of_the_tables_is_known(street: str) -> None:
    assert is_known(street)


@pytest.mark.parametrize(
    "street",
    [
        "14 Larkmoor Ave St 1400",  # St may be a slip for Ste
        "14 Larkmoor Street kba",
        "14 Larkmoor Dr N 507",  # a unit N 507, or a street Dr N
        "14 Larkmoor Heights Trl 14",  # a trail, or a trailer
        "14 Larkmoor Ave No 14",  # north, or number
        "14 Larkmoor 14",
        "14 Avenue of the Poplars 5C",
        "14 Larkmoor Side",
        "14 Larkmoor D Ste 201",
        "Larkmoor House",
        "14 Via Larkmoor Side",
        "32 - 233 Larkmoor Street",  # a unit and a number, or one number
        "14 Larkmoor Road, PO Box 12",
    ],
)
def test_a_reading_that_may_be_cut_elsewhere_is_open(street: str) -> None:
    assert not is_known(street)


@pytest.mark.parametrize(
    "street", ["14 Larkmoor D Ste 201", "G-J Larkmoor Avenue", "14 Larkmoor Rd Farrenby Grove Rd"]
)
def test_an_odd_street_in_which_nothing_hints_at_a_second_part_is_unmixed(street: str) -> None:
    assert not is_known(street)
    assert reads_unmixed(street)


@pytest.mark.parametrize(
    "street",
    [
        "14 Larkmoor 1 N",  # a unit, or a street's direction
        "14 Larkmoor Street kba",
        "14 Larkmoor Side",
        "14 Larkmoor Ave St 1400",
        "14 Larkmoor Dr N 507",
        "14 Larkmoor Road, PO Box 12",
    ],
)
def test_a_street_in_which_a_second_part_may_hide_is_not_unmixed(street: str) -> None:
    assert not reads_unmixed(street)


def reads_unmixed(street: str) -> bool:
    """Whether nothing in the rules' reading of a street hints at a second part."""
    written = Written(lines=(Cited(f"{street}, {TOWN}"),))
    return is_unmixed(read_us(written, frozenset())[0], written)


@pytest.mark.parametrize("row", table("leading_roads"), ids=lambda row: row["word"])
def test_a_road_named_by_what_follows_is_known(row: dict[str, str]) -> None:
    assert is_known(row["example"])
    assert not is_known(row["counter"].replace("14 ", "14 Quince 3 "))


def test_the_one_town_of_the_zip_ends_a_street_without_suffix() -> None:
    written = Written(lines=(Cited("14 Larkmoor Hurst TX 76054"),))
    assert is_known_form(read_us(written, frozenset())[0], written)
    side = Written(lines=(Cited("14 Larkmoor Side Hurst TX 76054"),))
    assert not is_known_form(read_us(side, frozenset())[0], side)
