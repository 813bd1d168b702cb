"""United States addresses as lists write them: read right, or asked about."""

import csv
from pathlib import Path

import pytest

from addressing.guestlist.asking import finding
from addressing.guestlist.domestic.boxes import is_box, split_boxes
from addressing.guestlist.domestic.dwellings import Segment, has_number, kind_of, split_unit
from addressing.guestlist.domestic.seams import open_seams
from addressing.guestlist.domestic.segments import segments
from addressing.guestlist.domestic.street_check import check_street
from addressing.guestlist.domestic.town_cut import cut_town
from addressing.guestlist.domestic.us import read_us
from addressing.guestlist.domestic.zip_check import check_zip
from addressing.guestlist.homes.addresses import read_address
from addressing.guestlist.homes.clearing import addresses_in, clear
from addressing.guestlist.people.news import doubts_address
from addressing.guestlist.places.places import fold_town, near_state, state_code
from addressing.guestlist.written import Written
from addressing.records.guests import Address, Cited
from addressing.tables import table
from addressing.where import Where

HERE = (Where("list.csv", None, "B2"),)
FIELDS = ("extra", "street", "unit", "city", "region", "postcode")


def cells() -> list[dict[str, str]]:
    path = Path(__file__).with_name("us_cells.tsv")
    lines = [line for line in path.read_text("utf-8").splitlines() if not line.startswith("#")]
    rows = csv.DictReader(lines, delimiter="\t", quoting=csv.QUOTE_NONE, restval="")
    return [{key: value.replace("\\n", "\n") for key, value in row.items()} for row in rows]


def read(cell: str) -> tuple[dict[str, str], list[str]]:
    """The parts that were read, and the codes of what holds the household."""
    names = frozenset(("tobias", "wexcombe"))
    address, troubles, remarks = read_address(Written(lines=(Cited(cell, HERE),)), names)
    assert address is not None
    cited = (address.recipient_extra, address.street, address.unit, address.city, address.region)
    texts = [part.text if part else "" for part in (*cited, address.postcode)]
    held = [t.code for t in troubles if finding(t.code, HERE[0], t.text, t.mend).holds]
    held += ["address-doubtful" for remark in remarks if doubts_address(remark)]
    return dict(zip(FIELDS, texts, strict=True)), held


@pytest.mark.parametrize("row", cells(), ids=lambda row: ascii(row["cell"]))
def test_an_address_is_read_right_or_asked_about(row: dict[str, str]) -> None:
    parts, held = read(row["cell"])
    if row["asked"]:
        assert held
        return
    assert parts == {field: row[field] for field in FIELDS}
    assert held == []


@pytest.mark.parametrize("row", table("unit_forms"), ids=lambda row: row["written"])
def test_a_written_form_of_a_unit_is_one_behind_a_street_and_before_it(row: dict[str, str]) -> None:
    assert kind_of(row["example"]) in (Segment.UNIT, Segment.BOX)  # "Box 15" alone is a box
    assert split_unit(f"14 Larkmoor Lane {row['example']}") == ("14 Larkmoor Lane", row["example"])
    assert split_unit(f"{row['example']}, 14 Larkmoor Lane") == ("14 Larkmoor Lane", row["example"])
    if row["counter_example"]:
        assert split_unit(row["counter_example"]) == (row["counter_example"], None)


@pytest.mark.parametrize(
    "row",
    [r for r in table("address_remarks") if r["kind"] in ("remark", "behind", "anywhere", "label")],
    ids=lambda r: f"{r['kind']}: {r['words']}",
)
def test_a_remark_or_label_is_taken_out_of_an_address(row: dict[str, str]) -> None:
    cleared = clear(Written(lines=(Cited(row["example"], HERE),)))
    assert cleared.written.lines == (Cited("14 Larkmoor Lane, Litchfield CT 06759", HERE),)
    assert len(cleared.remarks) == 1
    if row["counter_example"]:
        kept = clear(Written(lines=(Cited(row["counter_example"], HERE),)))
        assert kept.written.lines == (Cited(row["counter_example"], HERE),)


@pytest.mark.parametrize(
    "row",
    [r for r in table("address_remarks") if r["kind"] == "elsewhere"],
    ids=lambda r: f"{r['kind']}: {r['words']}",
)
def test_a_remark_that_doubts_the_address_is_asked_about(row: dict[str, str]) -> None:
    cell = f"14 Larkmoor Lane, Litchfield, CT 06759 ({row['example']})"
    assert "address-doubtful" in read(cell)[1]


@pytest.mark.parametrize("row", table("town_words"), ids=lambda row: row["written"])
def test_a_shortened_town_is_the_same_as_the_long_one(row: dict[str, str]) -> None:
    assert fold_town(row["example"]) == fold_town(row["standard"])


@pytest.mark.parametrize(
    ("text", "opened"),
    [
        ("14 Larkmoor LaneLitchfield,CT06759", "14 Larkmoor Lane, Litchfield,CT06759"),
        ("14 Larkmoor Lane LitchfieldCT 06759", "14 Larkmoor Lane Litchfield CT 06759"),
        ("14Larkmoor Lane", "14 Larkmoor Lane"),
        ("14 McWhirren Rd", "14 McWhirren Rd"),
        ("14 Larkmoor StrEet", "14 Larkmoor StrEet"),
        ("14 LaGrange StGeorge Rd", "14 LaGrange StGeorge Rd"),
        ("42nd St", "42nd St"),
    ],
)
def test_lost_blanks_come_back_only_where_nothing_else_is_meant(text: str, opened: str) -> None:
    assert open_seams(text) == opened
    assert open_seams(opened) == opened


def test_several_whole_addresses_are_told_from_one() -> None:
    two = ("14 Larkmoor Lane, Litchfield CT 06759", "9 Quince St, Durant MS 39063")
    for mark in (" / ", "; ", "\n", " or ", ", NEW: "):
        assert addresses_in(mark.join(two)) == two
    assert addresses_in(two[0]) == ()
    assert addresses_in(f"{two[0]}, Litchfield CT 06759") == ()


def test_a_second_address_is_shown_beside_the_first() -> None:
    cell = "14 Larkmoor Lane, Litchfield CT 06759 / 9 Quince St, Durant MS 39063"
    cleared = clear(Written(lines=(Cited(cell, HERE),)))
    assert [trouble.code for trouble in cleared.troubles] == ["address-doubtful"]
    assert "14 Larkmoor Lane" in cleared.troubles[0].text
    assert "9 Quince St" in cleared.troubles[0].text
    assert cleared.remarks == ("9 Quince St, Durant MS 39063",)


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("1800 M Street, NW", ["1800 M Street NW"]),
        ("1800 M Street, N.W. Ste 7", ["1800 M Street N.W.", "Ste 7"]),
        ("RR 2, Box 12", ["RR 2 Box 12"]),
        ("14, Larkmoor Lane", ["14 Larkmoor Lane"]),
        ("4B/14 Larkmoor Lane", ["4B", "14 Larkmoor Lane"]),
        ("14 1/2 Larkmoor Lane", ["14 1/2 Larkmoor Lane"]),
        ("14 Larkmoor Lane or PO Box 9", ["14 Larkmoor Lane", "PO Box 9"]),
        ("Penhew Bakery 14 Larkmoor Lane", ["Penhew Bakery", "14 Larkmoor Lane"]),
        ("14 Larkmoor Lane, Northwood House", ["14 Larkmoor Lane", "Northwood House"]),
    ],
)
def test_parts_that_belong_together_stay_together(text: str, parts: list[str]) -> None:
    assert segments(text) == parts


@pytest.mark.parametrize(
    ("street", "parted"),
    [
        ("14 Larkmoor Lane 4B", ("14 Larkmoor Lane", "4B")),
        ("14 Larkmoor Lane Apt4B", ("14 Larkmoor Lane", "Apt4B")),
        ("14 Larkmoor Lane Upper", ("14 Larkmoor Lane", "Upper")),
        ("14 State Route 9", ("14 State Route 9", None)),
        ("14 N State Rd 37", ("14 N State Rd 37", None)),
        ("14 KY Highway 9", ("14 KY Highway 9", None)),
        ("14 Highway 9 #2", ("14 Highway 9", "#2")),
        ("14 Highway #9", ("14 Highway #9", None)),
        ("14 Route No. 9", ("14 Route No. 9", None)),
        ("14 Larkmoor Lane No. 9", ("14 Larkmoor Lane", "No. 9")),
        ("14 Larkmoor Lane SE 9", ("14 Larkmoor Lane SE", "9")),
        ("14 N State Route 9", ("14 N State Route 9", None)),
        ("14 Old West State Route 9", ("14 Old West State Route 9", None)),
        ("14 W City Highway 16", ("14 W City Highway 16", None)),
        ("14 Country Road 183", ("14 Country Road 183", None)),
        ("14 W Larkmoor 1506", ("14 W Larkmoor", "1506")),
        ("14 W Farm 1506", ("14 W Farm", "1506")),
        ("14 W Highway 1506", ("14 W Highway 1506", None)),
        ("14 Larkmoor Ave SW A", ("14 Larkmoor Ave SW", "A")),
        ("14 Larkmoor Ave S E", ("14 Larkmoor Ave S E", None)),
        ("14 Larkmoor Ct NE Unit", ("14 Larkmoor Ct NE", "Unit")),
        ("14 Larkmoor BSMT", ("14 Larkmoor", "BSMT")),
        ("14 Larkmoor Basement", ("14 Larkmoor Basement", None)),
        ("14 Water Front", ("14 Water Front", None)),
        ("14 Avenue N", ("14 Avenue N", None)),
        ("PO Box 12 file 3", ("PO Box 12", "file 3")),
        ("lockbox 3 PO Box 12", ("PO Box 12", "lockbox 3")),
        ("RR 1 Box 12 Apt 3", ("RR 1 Box 12", "Apt 3")),
    ],
)
def test_a_unit_is_told_from_the_number_of_a_road(
    street: str, parted: tuple[str, str | None]
) -> None:
    assert split_unit(street) == parted


@pytest.mark.parametrize("row", table("building_words"), ids=lambda row: row["word"])
def test_a_building_behind_a_street_is_a_line_of_its_own(row: dict[str, str]) -> None:
    street, building = segments(row["example"])
    assert f"{street} {building}" == row["example"]
    assert building.startswith(("Farrenby", "Maple"))
    assert segments(f"{row['example']} Apt 3")[1:] == [building, "Apt 3"]
    assert segments(row["counter"]) == [row["counter"]]


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("client # 4000 PO Box 12", ["client # 4000", "PO Box 12"]),
        ("re: acct # 056 552-9329 001 P.O. Box 12", ["re: acct # 056 552-9329 001", "P.O. Box 12"]),
        ("Farrenby Quill RR 3 Box 9", ["Farrenby Quill", "RR 3 Box 9"]),
        ("PO Box 12 attn. Farrenby", ["PO Box 12", "attn. Farrenby"]),
        ("Route 776 14 Larkmoor Road", ["Route 776", "14 Larkmoor Road"]),
        ("14 Larkmoor Road Route 776", ["14 Larkmoor Road", "Route 776"]),
        ("14 Larkmoor Center Lockbox no 77", ["14 Larkmoor Center", "Lockbox no 77"]),
        ("14 Larkmoor Road PO Box 12", ["14 Larkmoor Road", "PO Box 12"]),
        ("104 N Larkmoor RR 1 Box 9", ["104 N Larkmoor", "RR 1 Box 9"]),
        ("PO Box 628 Highway 231", ["PO Box 628", "Highway 231"]),
        ("Farrenby Lockbox 36 500 Quince St", ["Farrenby", "Lockbox 36", "500 Quince St"]),
        ("One Farrenby Plaza 14 Quince St", ["One Farrenby Plaza", "14 Quince St"]),
        ("1 Larkmoor Plaza Rm 3 Quill Bldg", ["1 Larkmoor Plaza", "Rm 3", "Quill Bldg"]),
        ("Rm 3 Larkmoor Administration", ["Rm 3", "Larkmoor Administration"]),
        ("Quill Farrenby 77 W Larkmoor", ["Quill Farrenby", "77 W Larkmoor"]),
        ("14 M Street, NW North Tower", ["14 M Street NW", "North Tower"]),
        ("Dept 3 PO Box 12 attn. Quill", ["Dept 3 PO Box 12", "attn. Quill"]),
        ("attn: lockbox # 40", ["attn: lockbox # 40"]),
        ("14 State Route 776", ["14 State Route 776"]),
        ("14 Old Highway 5", ["14 Old Highway 5"]),
    ],
)
def test_what_stands_beside_a_street_without_a_comma_is_told_from_it(
    text: str, parts: list[str]
) -> None:
    assert segments(text) == parts


@pytest.mark.parametrize(
    ("text", "code", "parted"),
    [
        ("14 Larkmoor Street, af 1025 Hurst", "76054", ("14 Larkmoor Street\naf 1025", "Hurst")),
        ("PO Box 12, scb 223 Hurst", "76054", ("PO Box 12\nscb 223", "Hurst")),
        ("14 Quince Ave, Greater Hurst", "76054", ("14 Quince Ave", "Greater Hurst")),
        ("880 Tern Pkwy St. Peterburg", "33716", ("880 Tern Pkwy", "St. Peterburg")),
        ("880 Tern St Peterburg", "33716", ("880 Tern", "St Peterburg")),
        ("880 Tern St Hurst", "76054", ("880 Tern St", "Hurst")),
        (
            "14 Quince St, Rm 5, Quill Tower of Tern Hurst",
            "76054",
            ("14 Quince St, Rm 5\nQuill Tower of Tern", "Hurst"),
        ),
        ("14 Quince St Fl 5 Saint Peterburg", "33716", ("14 Quince St Fl 5", "Saint Peterburg")),
    ],
)
def test_a_town_is_cut_from_what_stands_before_it(
    text: str, code: str, parted: tuple[str, str]
) -> None:
    assert cut_town(text, None, code)[:2] == parted


def test_a_number_in_words_beside_a_street_in_figures_names_a_building() -> None:
    address, troubles = read_us(
        Written(lines=(Cited("One Farrenby Plaza, 14 Quince Street, Hurst, TX 76054"),)),
        frozenset(),
    )
    assert address.street == Cited("14 Quince Street")
    assert address.recipient_extra == Cited("One Farrenby Plaza")
    assert troubles == ()


@pytest.mark.parametrize("row", table("lone_streets"), ids=lambda row: row["name"])
def test_a_number_behind_a_street_without_suffix_is_a_unit(row: dict[str, str]) -> None:
    street, unit = split_unit(row["example"])
    assert (street, unit) == (row["counter"], row["example"].rsplit(" ", 1)[-1])
    assert split_unit(row["counter"]) == (row["counter"], None)
    assert split_unit(f"{row['counter']} Lane") == (f"{row['counter']} Lane", None)


def test_a_box_is_known_in_all_spellings() -> None:
    for text in (
        "P.O. Box 12", "POB 12", "PO BOX#12", "P.O.Box 12", "Box 12", "Post Office Box 12",
        "Drawer L", "Lockbox 12", "Caller 12", "RR 2", "RFD 2 Box 12", "R.R. 3, Box 44-A",
        "Rt 1 Box 77", "HC68 Box 23A", "Star Route 5 Box 12", "RR 1 Box 12 # 596",
        "R.D. 2", "R. D. #2", "R D 2, Box 14", "R.F.D. 2, Box 14A",
        "General Delivery", "Gen. Del.", "PSC 802 Box 74", "USS Larkmoor",
    ):  # fmt: skip
        assert is_box(text), text
        assert has_number(text), text
    for text in (
        "Boxwood House", "Bin Lane", "Route 9", "RD 5A", "14 Box Elder Rd", "Box", "RD 2", "Rd. 2",
        "R.D. Larkmoor Road",
    ):  # fmt: skip
        assert not is_box(text), text
    assert split_boxes("PO Box 12 PO Box 14") is None


@pytest.mark.parametrize("street", ["RD 2", "Rd. 02", "RD #2", "rd no. 2"])
def test_rd_and_a_number_alone_may_be_a_route_or_a_road_and_is_asked_about(street: str) -> None:
    # USPS Publication 28, October 2023, 244 (RD for rural delivery) and appendix F (RD 5A)
    (trouble,) = check_street(Address(Cited(street)))
    assert trouble.code == "address-doubtful"
    assert trouble.likely == (("street", "RR 2"),)


def test_two_addresses_that_brackets_name_are_each_proposed() -> None:
    one, other = "14 Larkmoor Ln Litchfield CT 06759", "9 Quince St #4 Durant MS 39063"
    cleared = clear(Written(lines=(Cited(f"{one} (summer) / {other} (winter)", HERE),)))
    (trouble,) = cleared.troubles
    assert trouble.likely == (("lines", one), ("lines", other))


def test_a_unit_twice_in_one_cell_stays_and_is_asked_about() -> None:
    parts, held = read("14 Larkmoor Lane, Apt 3, APT. 3, Litchfield, CT 06759")
    assert held == ["address-doubtful"]
    (trouble,) = check_street(Address(Cited("14 Larkmoor Lane"), Cited(parts["unit"])))
    assert trouble.likely == (("unit", "Apt 3"),)
    assert read("14 14 , 14 , 14")[0]["unit"] == "14, 14"


def test_a_unit_that_stands_in_two_cells_is_one() -> None:
    other = Cited("Apt 3", (Where("list.csv", None, "C2"),))
    written = Written((Cited("14 Larkmoor Lane, Apt 3, Litchfield, CT 06759", HERE),), other)
    address, troubles, _ = read_address(written, frozenset())
    assert address is not None
    assert address.unit is not None
    assert address.unit.text == "Apt 3"
    assert troubles == ()


@pytest.mark.parametrize(
    "street", ["14 RD 2", "R.D. 2", "RD 2, Box 14", "RFD 2", "RD 5A", "Road 2"]
)
def test_a_route_that_says_so_and_a_road_with_its_house_are_not_asked_about(street: str) -> None:
    assert check_street(Address(Cited(street))) == ()


def test_a_state_is_known_misspelt_only_beside_its_zip() -> None:
    assert near_state("Conneticut", "06759") == "CT"
    assert near_state("Conneticut", "39063") is None
    assert near_state("lL", "60603") == "IL"
    assert near_state("Maine", "06759") is None
    assert state_code("C.T.") == state_code("Conn.") == "CT"
    assert state_code("USVI") == "VI"


def test_what_stands_behind_a_unit_and_a_unit_without_number_are_asked_about() -> None:
    def troubles(street: str, unit: str | None = None) -> list[str]:
        cited = Cited(unit) if unit else None
        return [trouble.code for trouble in check_street(Address(Cited(street), cited))]

    assert troubles("14 Larkmoor Apt 4 Millhaven") == ["address-doubtful"]
    assert troubles("14 Larkmoor Lane", "Apt") == ["address-incomplete"]
    assert troubles("14 Larkmoor Lane", "Apt 4") == []
    assert troubles("RR 1 Box 12 PMB 596") == []
    assert troubles("9 Larkmoor Lane now 4 Quince Road") == ["address-doubtful"]
    assert troubles("14 Larkmoor 3rd Street") == []
    assert troubles("842 E 1700 S") == []
    assert troubles("14 Number 4 Road") == []


def test_a_letter_among_the_figures_of_a_house_number_is_asked_with_the_likely_one() -> None:
    found = check_street(Address(Cited("1O4 Larkmoor Lane")))
    assert [(one.code, one.likely) for one in found] == [
        ("address-doubtful", (("street", "104 Larkmoor Lane"),))
    ]
    assert check_street(Address(Cited("104l Larkmoor Lane"))) != ()
    assert check_street(Address(Cited("104 Olmoor Lane"))) == ()


def test_a_county_in_the_place_of_its_town_is_asked_with_the_town_of_the_zip() -> None:
    def doubts(city: str) -> list[tuple[str, tuple[tuple[str, str], ...]]]:
        told = Address(Cited("8 Quince Ave"), None, None, Cited(city), Cited("TX"), Cited("76054"))
        found = check_zip(told, Written())[1]
        return [(one.code, one.likely) for one in found]

    assert doubts("Hurst County") == [("town-misspelt", (("city", "Hurst"),))]
    assert doubts("Hurst") == []
    assert "town-misspelt" not in {code for code, _ in doubts("Wexcombe County")}


@pytest.mark.parametrize(
    ("city", "near"), [("Alberqurque", "Albuquerque"), ("Albuqerque", "Albuquerque")]
)
def test_a_town_that_only_looks_like_the_zips_is_asked_about(city: str, near: str) -> None:
    told = Address(Cited("8 Quince Ave"), None, None, Cited(city), Cited("NM"), Cited("87106"))
    found = check_zip(told, Written())[1]
    assert [(one.code, one.likely) for one in found] == [("town-misspelt", (("city", near),))]


@pytest.mark.parametrize(
    ("city", "region", "code", "town"),
    [("NYC", "NY", "10023", "New York"), ("Phila", "PA", "19103", "Philadelphia"),
     ("Bklyn", "NY", "11201", "Brooklyn"), ("SF", "CA", "94110", "San Francisco")],
)  # fmt: skip
def test_a_shortened_town_is_asked_about(city: str, region: str, code: str, town: str) -> None:
    def doubts(city: str) -> list[tuple[str, tuple[tuple[str, str], ...]]]:
        told = Address(Cited("8 Oak St"), None, None, Cited(city), Cited(region), Cited(code))
        return [(one.code, one.likely) for one in check_zip(told, Written())[1]]

    assert doubts(city) == [("town-misspelt", (("city", town),))]
    assert doubts(town) == []


@pytest.mark.parametrize(
    ("cell", "street"),
    [
        ("14 Larkmoor Rd, Lockbox # 4026, Hurst, TX 76054", "14 Larkmoor Rd\nLockbox # 4026"),
        ("Lockbox 402, 14 Larkmoor St, Hurst, TX 76054", "Lockbox 402\n14 Larkmoor St"),
        ("14 Larkmoor Fwy Ste 50 lbx 84 Hurst TX 76054", "14 Larkmoor Fwy\nlbx 84"),
    ],
)
def test_a_banks_lockbox_is_in_its_street_and_asks_nothing(cell: str, street: str) -> None:
    """A remittance address names the bank's house and the lockbox (common practice, no source)."""
    found, held = read(cell)
    assert (found["street"], held) == (street, [])


@pytest.mark.parametrize("beside", ["PO Box 77", "Drawer 77", "RR 1 Box 77", "Caller 77"])
def test_a_box_of_the_post_beside_a_street_is_another_address(beside: str) -> None:
    """Publication 28, October 2023, 215: the post delivers to only one of them."""
    assert read(f"14 Larkmoor Road, {beside}, Hurst, TX 76054")[1] == ["address-doubtful"]
