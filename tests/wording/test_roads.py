"""Numbered roads take the standard form of their table's row, and nothing else is taken for one."""

import pytest

from addressing.tables import table
from addressing.wording.boxes import box_line, route_line
from addressing.wording.roads import numbered_road
from addressing.wording.streets import street_in_full, street_in_short

ROWS = table("roads")


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["example"])
def test_a_row_of_the_table_does_what_its_example_says(row: dict[str, str]) -> None:
    for house in ("", "14 ", "14 1/2 "):
        assert street_in_short(house + row["example"]) == house + row["standard"]


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["example"])
def test_formal_style_says_the_same_road(row: dict[str, str]) -> None:
    street = f"14 {row['example']}"
    assert street_in_short(street_in_full(street)) == street_in_short(street)


@pytest.mark.parametrize(
    "street", [row["counter_example"] for row in ROWS if row["counter_example"]]
)
def test_a_street_that_only_begins_like_a_road_is_none(street: str) -> None:
    assert numbered_road(street.split(), 1 if street[0].isdigit() else 0) is None


@pytest.mark.parametrize(
    ("written", "full", "short"),
    [
        ("14 KY 1207", "14 Kentucky Highway 1207", "14 KY HIGHWAY 1207"),
        ("14 Tex. Hwy. 9 N", "14 Texas Highway 9 North", "14 TX HIGHWAY 9 N"),
        ("14 I-10 Frontage Rd", "14 Interstate 10 Frontage Road", "14 INTERSTATE 10 FRONTAGE RD"),
        ("14 us hwy 41 sw", "14 US Highway 41 Southwest", "14 US HIGHWAY 41 SW"),
        ("14 County Rd HH", "14 County Road HH", "14 COUNTY ROAD HH"),
        ("14 N State Rd 37", "14 North State Road 37", "14 N STATE ROAD 37"),
        ("14 N St", "14 N Street", "14 N ST"),
        ("14 W Highway 9 S", "14 West Highway 9 South", "14 W HIGHWAY 9 S"),
        ("14 Co Hwy 9", "14 Co. Highway 9", "14 CO HIGHWAY 9"),
        ("14 State Route 9 #2", "14 State Route 9 #2", "14 STATE ROUTE 9 #2"),
        ("14 or 16 Larkmoor Ln", "14 or 16 Larkmoor Lane", "14 OR 16 LARKMOOR LN"),
        ("14 State Road", "14 State Road", "14 STATE RD"),
        ("14 Highway Dr", "14 Highway Drive", "14 HIGHWAY DR"),
        ("14 I St", "14 I Street", "14 I ST"),
        ("14 Old St Rd", "14 Old St Road", "14 OLD ST RD"),
        ("14 Main Ave Dr", "14 Main Avenue Drive", "14 MAIN AVENUE DR"),
    ],
)
def test_a_road_in_full_and_in_short(written: str, full: str, short: str) -> None:
    # USPS Publication 28, October 2023, appendix F and 234.2; the formal form is common practice
    assert street_in_full(written) == full
    assert street_in_short(written) == short
    assert street_in_full(full) == full


@pytest.mark.parametrize(
    ("written", "full", "short"),
    [
        ("RFD 4 Box 87A", "Rural Route 4, Box 87A", "RR 4 BOX 87A"),
        ("RD 4, Box 87A", "Rural Route 4, Box 87A", "RR 4 BOX 87A"),
        ("R.D. 2", "Rural Route 2", "RR 2"),
        ("R.D. #4, Box 87A", "Rural Route 4, Box 87A", "RR 4 BOX 87A"),
        ("R.F.D. 4 Box 87A", "Rural Route 4, Box 87A", "RR 4 BOX 87A"),
        ("Rural Route #2 Box #152", "Rural Route 2, Box 152", "RR 2 BOX 152"),
        ("Rt. 2 Box 152", "Route 2, Box 152", "RR 2 BOX 152"),
        ("RR 1 BOX 12 # 596", "Rural Route 1, Box 12, PMB 596", "RR 1 BOX 12 PMB 596"),
        ("PO Box 159753 PMB 3571", "Post Office Box 159753, PMB 3571", "PO BOX 159753 PMB 3571"),
        ("P. O. Box 0012", "Post Office Box 0012", "PO BOX 0012"),
        ("P.O. Drawer L", "Post Office Drawer L", "PO BOX L"),
        ("Lockbox 12", "Lockbox 12", "PO BOX 12"),
        ("Lockbox # 12", "Lockbox 12", "PO BOX 12"),
        ("Apartado 825", "Apartado 825", "PO BOX 825"),
        ("HC 72 Box 18 Bryan Dairy Rd", "Highway Contract Route 72, Box 18, Bryan Dairy Rd",
         "HC 72 BOX 18"),
    ],
)  # fmt: skip
def test_a_box_or_route_in_full_and_in_short(written: str, full: str, short: str) -> None:
    # USPS Publication 28, October 2023, 241 to 245, 251 to 254, 281 to 285, 293
    assert street_in_full(written) == full
    assert street_in_short(written) == short
    assert street_in_short(full) == short


@pytest.mark.parametrize("street", ["14 Larkmoor Lane", "Bin Lane", "RD 5A", "Boxwood House", "12"])
def test_what_is_no_box_is_left_to_the_streets(street: str) -> None:
    for formal in (True, False):
        assert box_line(street, formal=formal) is None
        assert route_line(street, formal=formal) is None


def test_a_number_on_a_grid_stands_before_a_numbered_road() -> None:
    """Rural Wisconsin; a direction and a number in one word (common practice, no source)."""
    assert street_in_full("N4120 County Rd K") == "N4120 County Road K"
    assert street_in_full("W5432 Cty Hwy 12") == "W5432 County Highway 12"
    assert street_in_full("N Penhew Rd") == "North Penhew Road"


def test_a_block_and_number_before_a_calle_is_a_house_and_no_interstate() -> None:
    # USPS Publication 28, October 2023, 295.3
    assert street_in_short("I-10 Calle 14") == "I-10 CALLE 14"
    assert street_in_full("I-10 Calle 14") == "I-10 Calle 14"
    assert street_in_short("I-10 Bypass") == "INTERSTATE 10 BYP"
