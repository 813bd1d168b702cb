"""Lists out of an address book: firms, the address at work, and labels that say who is invited."""

from collections.abc import Callable

import pytest

from addressing.guestlist.folding import fold
from addressing.records.findings import Finding
from addressing.records.guests import Address, GuestList
from addressing.tables import table

Read = Callable[..., tuple[GuestList, tuple[Finding, ...]]]
HOME = ("Home Street", "Home City", "Home State", "Home ZIP")
PLAIN = ("Street", "City", "State", "ZIP")
WORK = ("Work Street", "Work City", "Work State", "Work ZIP")
HERE = ("14 Larkmoor Lane", "Litchfield", "CT", "06759")
THERE = ("431 Weathervane Drive", "Bar Harbor", "ME", "04609")
NONE = ("", "", "", "")
FIRM = "Larkmoor Press"


def read_first(read: Read, header: tuple[str, ...], *rows: tuple[str, ...]) -> tuple[
    Address | None, list[str]
]:  # fmt: skip
    """The address of the first household, and the codes of what is said of it."""
    guests, findings = read([header, *rows])
    first = guests.households[0]
    return first.address, [each.code for each in findings if each.household == first.key]


def street(address: Address | None) -> str:
    return address.street.text if address and address.street else ""


def extra(address: Address | None) -> str:
    return address.recipient_extra.text if address and address.recipient_extra else ""


def test_a_home_beside_an_address_at_work_has_no_firm(read_rows: Read) -> None:
    header = ("Name", *HOME, "Company", *WORK)
    address, codes = read_first(read_rows, header, ("Mr. Tobias Penhew", *HERE, FIRM, *THERE))
    assert (street(address), extra(address)) == (HERE[0], "")
    assert "firm-left-out" in codes


def test_without_a_home_the_address_at_work_is_used_with_its_firm(read_rows: Read) -> None:
    header = ("Name", *HOME, "Company", *WORK)
    address, codes = read_first(read_rows, header, ("Mr. Tobias Penhew", *NONE, FIRM, *THERE))
    assert (street(address), extra(address)) == (THERE[0], FIRM)
    assert "address-at-work" in codes
    assert "address-missing" not in codes


def test_a_header_that_says_home_needs_no_question_about_a_firm(read_rows: Read) -> None:
    address, codes = read_first(
        read_rows, ("Name", *HOME, "Company"), ("Mr. Tobias Penhew", *HERE, FIRM)
    )
    assert (extra(address), "firm-doubtful" in codes) == ("", False)


def test_a_firm_beside_an_address_of_nobody_said_is_asked_about(read_rows: Read) -> None:
    guests, findings = read_rows([("Name", *PLAIN, "Company"), ("Mr. Tobias Penhew", *HERE, FIRM)])
    asked = next(each for each in findings if each.code == "firm-doubtful")
    assert asked.holds
    assert asked.likely == (("lines", ", ".join(HERE)),)
    assert extra(guests.households[0].address) == FIRM


@pytest.mark.parametrize(
    "row",
    [
        (FIRM, *HERE, FIRM),
        ("Mr. Tobias Penhew", f"{FIRM}, {HERE[0]}", *HERE[1:], FIRM),
        ("Mr. Tobias Penhew", *HERE, ""),
    ],
)
def test_a_firm_that_is_the_guest_or_stands_in_the_address_is_not(
    read_rows: Read, row: tuple[str, ...]
) -> None:
    _, codes = read_first(read_rows, ("Name", *PLAIN, "Company"), row)
    assert "firm-doubtful" not in codes


@pytest.mark.parametrize("header", ["c/o", "Attn", "Building", "House name"])
def test_a_column_that_belongs_to_an_address_is_printed(read_rows: Read, header: str) -> None:
    address, codes = read_first(
        read_rows, ("Name", *HOME, header), ("Mr. Tobias Penhew", *HERE, "Larkmoor House")
    )
    assert (extra(address), codes.count("firm-left-out")) == ("Larkmoor House", 0)


def labelled(read: Read, *labels: str, header: str = "Labels") -> list[str | None]:
    """Where somebody is asked about, of rows with these labels."""
    rows = [
        (f"Mr. {given} Penhew", f"{number} Larkmoor Lane", *HERE[1:], label)
        for number, (given, label) in enumerate(zip("ABCDEFG", labels, strict=False), start=2)
    ]
    _, findings = read([("Name", *PLAIN, header), *rows])
    return [each.where.cell for each in findings if each.code == "marker-in-list"]


@pytest.mark.parametrize(
    "other", ["Wedding?", "Christmas cards", "Wedding vendor", "House;Golf", "Family ::: Medical"]
)
def test_who_lacks_the_label_of_most_is_asked_about(read_rows: Read, other: str) -> None:
    assert labelled(read_rows, "Wedding", "Wedding;Family", "Golf; wedding", other) == ["F5"]


@pytest.mark.parametrize(
    "labels",
    [
        ("Family", "Family", "Family", "Golf"),
        ("Wedding", "Golf", "Golf", "Family", "Work"),
        ("Wedding", "Wedding", "Wedding", "Family, Wedding", ""),
    ],
)
def test_labels_of_which_none_says_who_is_invited_ask_nothing(
    read_rows: Read, labels: tuple[str, ...]
) -> None:
    assert labelled(read_rows, *labels) == []


ROWS = [row for row in table("row_words") if row["kind"] == "invited-label"]


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["word"])
def test_a_word_of_the_table_says_who_is_invited_and_its_counter_example_does_not(
    read_rows: Read, row: dict[str, str]
) -> None:
    assert fold(row["example"]) == row["word"]
    said = row["example"]
    assert labelled(read_rows, said, said, said, row["counter_example"]) == ["F5"]


SETS = tuple(
    f"Address {number} - {part}"
    for number in (1, 2)
    for part in ("Label", "Formatted", "Street", "City", "Region", "Postal Code", "Country")
)


def in_sets(*sets: tuple[str, tuple[str, ...]]) -> tuple[str, ...]:
    """The cells of numbered sets: each has its label, the whole and the parts of an address."""
    return tuple(
        cell
        for label, parts in sets
        for cell in (label, "\n".join(filter(None, parts)), *parts, "United States")
    )


def test_of_two_labelled_addresses_the_homes_is_used_in_every_row(read_rows: Read) -> None:
    for sets in (("Home", HERE), ("Work", THERE)), (("* Work", THERE), ("Home", HERE)):
        address, codes = read_first(
            read_rows, ("Name", *SETS), ("Mr. Tobias Penhew", *in_sets(*sets))
        )
        assert street(address) == HERE[0]
        assert not {"season-address", "address-at-work", "address-doubtful"} & set(codes)


def test_only_an_address_labelled_as_work_is_asked_about(read_rows: Read) -> None:
    cells = in_sets(("Work", THERE), ("", NONE))[:-1]
    address, codes = read_first(read_rows, ("Name", *SETS), ("Mr. Tobias Penhew", *cells))
    assert (street(address), "address-at-work" in codes) == (THERE[0], True)


def test_two_homes_are_asked_about_and_one_that_stands_twice_is_not(read_rows: Read) -> None:
    for second, asked in ((THERE, True), (HERE, False)):
        cells = in_sets(("Home", HERE), ("Home", second))
        _, codes = read_first(read_rows, ("Name", *SETS), ("Mr. Tobias Penhew", *cells))
        assert ("season-address" in codes) is asked


def test_the_whole_of_an_address_beside_its_parts_doesnt_stand_twice(read_rows: Read) -> None:
    cells = in_sets(("Home", HERE), ("", NONE))[:-1]
    address, codes = read_first(read_rows, ("Name", *SETS), ("Mr. Tobias Penhew", *cells))
    assert address is not None
    assert address.city is not None
    assert (street(address), address.city.text, extra(address)) == (HERE[0], HERE[1], "")
    assert not set(codes) & {"address-doubtful", "town-not-listed"}


def test_a_labelled_relation_is_a_partner_only_where_the_label_says_so(read_rows: Read) -> None:
    header = ("Name", "Relation 1 - Label", "Relation 1 - Value", *PLAIN)
    rows = (
        ("Bridget Farrenby", "Spouse", "Corinne Farrenby", *HERE),
        ("Tobias Penhew", "Friend", "Jonas Orr", *THERE),
    )
    guests, _ = read_rows([header, *rows])
    people = [[p.given for p in each.people] for each in guests.households]
    assert people == [["Bridget", "Corinne"], ["Tobias"]]


def test_a_moved_cell_is_told_where_it_stands_in_the_list(read_rows: Read) -> None:
    cells = in_sets(("Work", THERE), ("Home", HERE))
    guests, _ = read_rows([("Name", *SETS), ("Mr. Tobias Penhew", *cells)])
    read = guests.households[0].address
    assert read is not None
    assert read.street is not None
    assert [cell.cell for cell in read.street.cells] == ["K2"]
    letters = {column.header: column.letters for column in guests.columns}
    assert (letters["Home Street"], letters["Work Street"]) == ("K", "D")
