"""Rows become households: split columns, a row a guest, shared cells, doubles, keys."""

from collections.abc import Callable, Sequence
from pathlib import Path

import pytest
from openpyxl.workbook import Workbook

from addressing.guestlist import read_list
from addressing.records.findings import Finding
from addressing.records.guests import GuestList, Household, Person
from addressing.tables import table

Brief = Callable[[Sequence[Person]], str]
Reading = tuple[GuestList, tuple[Finding, ...]]
ReadRows = Callable[..., Reading]

PLACES = ("Street", "City", "State", "ZIP")
HERE = ("14 Larkmoor Lane", "Litchfield", "CT", "06759")
THERE = ("431 Weathervane Drive", "Bar Harbor", "ME", "04609")
FAR = ("1440 Birchbark Trail", "Duluth", "MN", "55802")
NONE = (None, None, None, None)
COUPLES = (("Mr. and Mrs. Alaric Grayling", *THERE), ("Dr. and Mrs. Ludo Halvorsby", *FAR))
"""Two rows that make a list of households, not of guests."""


def codes(findings: Sequence[Finding]) -> list[str]:
    return [finding.code for finding in findings]


def pairs(findings: Sequence[Finding]) -> set[str | None]:
    """The keys of the households that are perhaps one with another."""
    return {finding.household for finding in findings if finding.code == "duplicate-probable"}


# ---------------------------------------------------------------- columns of one row


@pytest.mark.parametrize(
    ("header", "row", "people"),
    [
        (
            ("Title", "First Name", "Last Name"),
            ("Mr.", "Tobias", "Wexcombe"),
            "Mr./Tobias/Wexcombe",
        ),
        (
            ("Title", "First Name", "Middle Name", "Last Name", "Suffix"),
            ("Dr", "Tobias", "Arden", "van der Larkmoor", "Jr"),
            "Dr./Tobias Arden/van der Larkmoor/Jr.",
        ),
        (("First Name", "Last Name"), ("Mary Ann", "Wexcombe"), "-/Mary Ann/Wexcombe"),
        (("First Name", "Last Name"), ("Ortega", "Ruiz Larkmoor"), "-/Ortega/Ruiz Larkmoor"),
        (
            ("First Name", "Last Name"),
            ("Tobias & Odile", "Wexcombe"),
            "-/Tobias/Wexcombe & -/Odile/Wexcombe",
        ),
        (
            ("Nombre", "Apellidos"),
            ("Luis y Marta", "Robledo"),
            "-/Luis/Robledo & -/Marta/Robledo",
        ),
        (
            ("Title", "First Name", "Last Name"),
            ("Mr. & Mrs.", "Tobias", "Wexcombe"),
            "Mr./Tobias/Wexcombe & Mrs./-/Wexcombe",
        ),
        (
            ("Title", "First Name", "Last Name"),
            ("Mr. & Mrs.", "Tobias & Odile", "Wexcombe"),
            "Mr./Tobias/Wexcombe & Mrs./Odile/Wexcombe",
        ),
        (
            ("First Name", "Last Name"),
            ("Tobias & Odile", "Wexcombe & Farrenby"),
            "-/Tobias/Wexcombe & -/Odile/Farrenby",
        ),
        (("First Name", "Last Name"), ("", "The Wexcombe Family"), ""),
        (
            ("Name", "Partner"),
            ("Mr. Tobias Wexcombe", "Ms. Odile Farrenby"),
            "Mr./Tobias/Wexcombe ; Ms./Odile/Farrenby",
        ),
        (
            ("Title", "First Name", "Last Name", "Partner Title", "Partner First Name",
             "Partner Last Name"),
            ("Mr.", "Tobias", "Wexcombe", "Ms.", "Odile", "Farrenby"),
            "Mr./Tobias/Wexcombe ; Ms./Odile/Farrenby",
        ),
        (("Name", "Plus One"), ("Mr. Tobias Wexcombe", "yes"), "Mr./Tobias/Wexcombe ; guest"),
        (("Name", "Plus One"), ("Mr. Tobias Wexcombe", "no"), "Mr./Tobias/Wexcombe"),
        (("Name", "Plus One"), ("Mr. Tobias Wexcombe", 2), "Mr./Tobias/Wexcombe ; guest ; guest"),
        (
            ("Name", "Plus One"),
            ("Mr. Tobias Wexcombe", "Ms. Odile Farrenby"),
            "Mr./Tobias/Wexcombe ; Ms./Odile/Farrenby",
        ),
        (
            ("Name", "Children"),
            ("Mr. and Mrs. Tobias Wexcombe", "Linnet (9), Bram (4)"),
            ("Mr./Tobias/Wexcombe & Mrs./-/Wexcombe ; -/Linnet/Wexcombe 9 child"
            " ; -/Bram/Wexcombe 4 child"),
        ),
        (
            ("Name", "Children"),
            ("Ms. Odile Farrenby and Mr. Tobias Wexcombe", "Linnet"),
            "Ms./Odile/Farrenby & Mr./Tobias/Wexcombe ; -/Linnet/- child",
        ),
        (
            ("Name", "Number of Children"),
            ("Mr. and Mrs. Tobias Wexcombe", 2),
            "Mr./Tobias/Wexcombe & Mrs./-/Wexcombe ; child ; child",
        ),
        (("Name", "Children"), ("Mr. Tobias Wexcombe", "none"), "Mr./Tobias/Wexcombe"),
    ],
)  # fmt: skip
def test_columns_of_a_row_name_these_people(
    header: Sequence[str], row: Sequence[object], people: str, read_rows: ReadRows, brief: Brief
) -> None:
    guest_list, _ = read_rows([(*header, *PLACES), (*row, *HERE)])
    (household,) = guest_list.households
    assert brief(household.people) == people


def test_a_person_carries_the_cells_of_its_columns(read_rows: ReadRows) -> None:
    header = ("Title", "First Name", "Last Name", "Plus One", *PLACES)
    guest_list, _ = read_rows([header, ("Mr.", "Tobias", "Wexcombe", "yes", *HERE)])
    tobias, guest = guest_list.households[0].people
    assert {where.cell for where in tobias.cells} == {"A2", "B2", "C2"}
    assert {where.cell for where in guest.cells} == {"D2"}


def test_a_partner_without_a_family_name_is_asked_about(read_rows: ReadRows, brief: Brief) -> None:
    header = ("First Name", "Last Name", "Partner First Name", "Partner Last Name", *PLACES)
    guest_list, findings = read_rows([header, ("Tobias", "Wexcombe", "Odile", None, *HERE)])
    assert brief(guest_list.households[0].people) == "-/Tobias/Wexcombe & -/Odile/Wexcombe"
    assert "partner-family-assumed" in codes(findings)
    _, findings = read_rows([header, ("Tobias", "Wexcombe", "Odile", "Farrenby", *HERE)])
    assert "partner-family-assumed" not in codes(findings)


def test_sr_before_a_name_is_asked_about(read_rows: ReadRows) -> None:
    _, findings = read_rows([("Name", *PLACES), ("Sr. Odile Penhew", *HERE)])
    assert "title-doubtful" in codes(findings)
    _, findings = read_rows([("Name", *PLACES), ("Sister Odile Penhew", *HERE)])
    assert "title-doubtful" not in codes(findings)


def test_a_child_without_an_adult_at_the_door_waits_for_an_answer(read_rows: ReadRows) -> None:
    guest_list, findings = read_rows([("Name", *PLACES), ("Linnet Penhew (8)", *HERE)])
    (asked,) = [each for each in findings if each.code == "name-doubtful"]
    assert asked.holds
    assert asked.household == guest_list.households[0].key
    for adult in ("Odile Penhew & Linnet (8)", "Linnet Penhew (28)", "Linnet Penhew"):
        _, findings = read_rows([("Name", *PLACES), (adult, *HERE)])
        assert "name-doubtful" not in codes(findings)


ABROAD = ("Name", "Address", "City", "State", "Zip", "Country")
LYON = ("8 rue des Lilas", "Lyon", None, "69003", "France")
BOSTON = ("16 Elm Street", "Boston", "MA", "02116", "USA")


def test_an_m_before_a_name_is_monsieur_where_land_and_list_speak_french(
    read_rows: ReadRows, brief: Brief
) -> None:
    rows = [
        ABROAD,
        ("Mme Odile Petit", *LYON),
        ("M. Luc Moreau", "12 rue des Lilas", *LYON[1:]),
        ("M. Tobias Penhew", *BOSTON),
    ]
    guest_list, findings = read_rows(rows)
    assert [brief(home.people) for home in guest_list.households] == [
        "Madame/Odile/Petit",
        "Monsieur/Luc/Moreau",
        "M./Tobias/Penhew",
    ]
    (asked,) = [each for each in findings if each.code == "title-doubtful"]
    assert asked.where.cell == "A4"
    assert ("title", "Monsieur") in asked.likely


def test_an_m_before_a_name_stays_an_initial_where_nothing_is_french(
    read_rows: ReadRows, brief: Brief
) -> None:
    guest_list, findings = read_rows([ABROAD, ("M. Tobias Penhew", *BOSTON)])
    assert brief(guest_list.households[0].people) == "-/M. Tobias/Penhew"
    assert "title-doubtful" not in codes(findings)
    guest_list, _ = read_rows([ABROAD, ("Mme Odile Petit", *LYON), ("M. J. Penhew", *BOSTON)])
    assert brief(guest_list.households[1].people) == "-/M. J./Penhew"


def test_a_column_that_is_surely_family_first_vouches_for_the_others(
    read_rows: ReadRows, brief: Brief
) -> None:
    rows = [("Wexcombe, Mr. Tobias", *HERE), ("Grayling, Mr. and Mrs. Alaric", *THERE)]
    doubtful = ("Halvorsby, Ludo", *FAR)
    guest_list, findings = read_rows([("Name", *PLACES), *rows, doubtful])
    assert brief(guest_list.households[2].people) == "-/Ludo/Halvorsby"
    assert "name-order-doubtful" not in codes(findings)
    _, findings = read_rows([("Name", *PLACES), *COUPLES, doubtful])
    assert "name-order-doubtful" in codes(findings)


# ---------------------------------------------------------------- rows of one household


def test_a_row_a_guest_is_gathered_by_the_door(read_rows: ReadRows, brief: Brief) -> None:
    rows = [
        ("Mr. Tobias Wexcombe", *HERE),
        ("Mrs. Odile Wexcombe", *HERE),
        ("Ms. Linnet Ashgrove", *THERE),
        ("Mr. Bram Ashgrove", "431 Weathervane Dr.", *THERE[1:]),
    ]
    guest_list, _ = read_rows([("Name", *PLACES), *rows])
    one, other = guest_list.households
    assert brief(one.people) == "Mr./Tobias/Wexcombe ; Mrs./Odile/Wexcombe"
    assert brief(other.people) == "Ms./Linnet/Ashgrove ; Mr./Bram/Ashgrove"
    assert [where.cell for where in other.rows] == ["A4", "A5"]


def test_a_row_without_an_address_belongs_to_its_family_above_and_is_asked(
    read_rows: ReadRows, brief: Brief
) -> None:
    rows = [
        ("Mr. Tobias Wexcombe", *HERE),
        ("Mrs. Odile Wexcombe", *HERE),
        ("Miss Linnet Wexcombe", *NONE),
        ("Ms. Ysolde Penhew", *THERE),
    ]
    guest_list, findings = read_rows([("Name", *PLACES), *rows])
    assert brief(guest_list.households[0].people) == (
        "Mr./Tobias/Wexcombe ; Mrs./Odile/Wexcombe ; Miss/Linnet/Wexcombe"
    )
    assert "household-assumed" in codes(findings)
    _, findings = read_rows([("Name", *PLACES), *rows[:2], rows[3]])
    assert "household-assumed" not in codes(findings)


def test_a_stranger_without_an_address_does_not_move_in_with_those_above(
    read_rows: ReadRows,
) -> None:
    rows = [
        ("Mr. Tobias Wexcombe", *HERE),
        ("Mrs. Odile Wexcombe", *HERE),
        ("Ms. Ysolde Penhew", *NONE),
    ]
    guest_list, findings = read_rows([("Name", *PLACES), *rows])
    assert len(guest_list.households) == 2
    assert "address-missing" in codes(findings)


@pytest.mark.parametrize("words", ["tbd", "TBA", "need address", "to come"])
def test_a_street_cell_that_says_to_come_is_no_address_and_no_country_is_asked(
    words: str, read_rows: ReadRows
) -> None:
    rows = [("Name", *PLACES), *COUPLES, ("Odile Farrenby", words, None, None, None)]
    guest_list, findings = read_rows(rows)
    assert codes(findings).count("address-missing") == 1
    assert "country-unknown" not in codes(findings)
    assert guest_list.households[-1].address is None


def test_a_row_whose_address_is_to_come_is_none_of_the_family_above(read_rows: ReadRows) -> None:
    rows = [("Name", *PLACES), ("Ludo Farrenby", *FAR), ("Odile Farrenby", "tbd", *NONE[1:])]
    guest_list, findings = read_rows(rows)
    assert len(guest_list.households) == 2
    assert "household-assumed" not in codes(findings)


@pytest.mark.parametrize("words", ["by hand", "Hand deliver", "in person"])
def test_a_street_cell_that_says_by_hand_owes_no_address(words: str, read_rows: ReadRows) -> None:
    rows = [("Name", *PLACES), *COUPLES, ("Odile Farrenby", words, None, None, None)]
    guest_list, findings = read_rows(rows)
    assert guest_list.households[-1].by_hand
    assert "by-hand" in codes(findings)
    assert {"address-missing", "country-unknown"}.isdisjoint(codes(findings))


def test_a_street_named_by_hand_is_a_street(read_rows: ReadRows) -> None:
    rows = [("Name", *PLACES), *COUPLES, ("Odile Farrenby", "14 By Hand Lane", *HERE[1:])]
    guest_list, _ = read_rows(rows)
    assert guest_list.households[-1].address is not None
    assert not guest_list.households[-1].by_hand


def test_a_household_column_gathers_rows_in_any_place(read_rows: ReadRows, brief: Brief) -> None:
    rows = [
        ("A", "Mr. Tobias Wexcombe", *HERE),
        ("B", "Ms. Ysolde Penhew", *THERE),
        ("A", "Mrs. Odile Wexcombe", *NONE),
    ]
    guest_list, findings = read_rows([("Household", "Name", *PLACES), *rows])
    one, other = guest_list.households
    assert brief(one.people) == "Mr./Tobias/Wexcombe ; Mrs./Odile/Wexcombe"
    assert brief(other.people) == "Ms./Ysolde/Penhew"
    assert "household-doubtful" not in codes(findings)


def test_a_household_at_two_addresses_is_parted_and_asked_about(read_rows: ReadRows) -> None:
    rows = [
        ("A", "Mr. Tobias Wexcombe", *HERE),
        ("A", "Mrs. Odile Wexcombe", *THERE),
        ("B", "Ms. Ysolde Penhew", *FAR),
    ]
    guest_list, findings = read_rows([("Household", "Name", *PLACES), *rows])
    assert len(guest_list.households) == 3
    asked = [finding for finding in findings if finding.code == "household-doubtful"]
    assert {f.household for f in asked} == {h.key for h in guest_list.households[:2]}


def test_a_column_of_groups_gathers_nobody_and_asks_nothing(read_rows: ReadRows) -> None:
    doors = [(f"{number} Larkmoor Lane", *HERE[1:]) for number in range(11, 17)]
    names = ("Tobias", "Odile", "Ysolde", "Una", "Bram", "Corwin")
    rows = [
        ("friends" if place % 2 else "family", f"Mx. {name} Wexcombe", *where)
        for place, (name, where) in enumerate(zip(names, doors, strict=True))
    ]
    guest_list, findings = read_rows([("Group", "Name", *PLACES), *rows])
    assert len(guest_list.households) == 6
    assert codes(findings).count("groups-not-households") == 1
    assert "household-doubtful" not in codes(findings)


def test_a_title_and_one_name_beside_a_family_name_are_a_partner_of_that_name(
    read_rows: ReadRows, brief: Brief
) -> None:
    header = ("Title", "First", "Last", "Spouse / partner", *PLACES)
    rows = [
        ("Mr.", "Tobias", "Wexcombe", "Mrs. Odile", *HERE),
        ("Mr.", "Bram", "Penhew", "Mrs. Penhew", *THERE),
        ("Mr.", "Corwin", "Farrenby", "-", *FAR),
    ]
    guest_list, findings = read_rows([header, *rows])
    assert [brief(household.people) for household in guest_list.households] == [
        "Mr./Tobias/Wexcombe & Mrs./Odile/Wexcombe",
        "Mr./Bram/Penhew & Mrs./-/Penhew",
        "Mr./Corwin/Farrenby",
    ]
    assert codes(findings) == []


def test_guests_beside_the_name_of_their_party_are_names(read_rows: ReadRows, brief: Brief) -> None:
    rows = [
        ("Mr. Tobias Wexcombe", "Wexcombe (Tobias)", *HERE),
        ("Mrs. Odile Wexcombe", "Wexcombe (Tobias)", *NONE),
        ("Ms. Ysolde Penhew", "Penhew", *THERE),
    ]
    guest_list, _ = read_rows([("Guest", "Family / party", *PLACES), *rows])
    assert [brief(household.people) for household in guest_list.households] == [
        "Mr./Tobias/Wexcombe ; Mrs./Odile/Wexcombe",
        "Ms./Ysolde/Penhew",
    ]


@pytest.mark.parametrize("words", ["same as above", "Same", "ditto", '"', "〃"])
def test_same_as_above_takes_the_address_of_the_row_above(words: str, read_rows: ReadRows) -> None:
    rows = [*COUPLES, ("Mr. and Mrs. Tobias Wexcombe", words, None, None, None)]
    guest_list, findings = read_rows([("Name", *PLACES), *rows])
    wexcombe = guest_list.households[-1]
    assert wexcombe.address == guest_list.households[-2].address
    assert "address-as-above" in codes(findings)


def test_same_as_above_in_the_first_row_has_no_address(read_rows: ReadRows) -> None:
    _, findings = read_rows(
        [("Name", *PLACES), ("Mr. and Mrs. Tobias Wexcombe", "same", None, None, None), *COUPLES]
    )
    assert "address-missing" in codes(findings)


def test_a_merged_address_serves_its_rows_and_is_noted_for_each(
    read_rows: ReadRows,
) -> None:
    rows = [("Mr. and Mrs. Tobias Wexcombe", *HERE), ("Ms. Ysolde Penhew", *NONE), *COUPLES]

    def merge(book: Workbook) -> None:
        for letter in "BCDE":
            book.worksheets[0].merge_cells(f"{letter}2:{letter}3")

    guest_list, findings = read_rows([("Name", *PLACES), *rows], merge)
    one, other = guest_list.households[:2]
    assert other.address is not None
    assert other.address.street == one.address.street if one.address else None
    merged = {finding.household for finding in findings if finding.code == "address-merged"}
    assert merged == {one.key, other.key}
    assert "cells-merged" not in codes(findings)


@pytest.mark.parametrize("letters", ["B", "BCDE"])
def test_a_merged_address_is_asked_about_once_a_row_where_one_family_may_share_an_envelope(
    read_rows: ReadRows, letters: str
) -> None:
    rows = [("Mr. and Mrs. Tobias Wexcombe", *HERE), ("Ysolde Wexcombe", *NONE), *COUPLES]

    def merge(book: Workbook) -> None:
        for letter in letters:
            book.worksheets[0].merge_cells(f"{letter}2:{letter}3")

    guest_list, findings = read_rows([("Name", *PLACES), *rows], merge)
    assert len(guest_list.households) == 4
    assert codes(findings).count("cells-merged") == 2


def test_one_merged_address_serves_a_family_with_a_row_each(read_rows: ReadRows) -> None:
    rows = [
        ("Mr. Tobias Wexcombe", *HERE),
        ("Mrs. Odile Wexcombe", *NONE),
        ("Linnet (9)", *NONE),
        ("Bram", *NONE),
        *COUPLES,
    ]

    def merge(book: Workbook) -> None:
        for letter in "BCDE":
            book.worksheets[0].merge_cells(f"{letter}2:{letter}5")

    guest_list, findings = read_rows([("Name", *PLACES), *rows], merge)
    assert [p.given for p in guest_list.households[0].people] == [
        "Tobias",
        "Odile",
        "Linnet",
        "Bram",
    ]
    assert len(guest_list.households) == 3
    assert not [found for found in findings if found.holds]


def test_a_merged_street_is_asked_about_where_the_rows_name_two_towns(read_rows: ReadRows) -> None:
    rows = [("Mr. and Mrs. Tobias Wexcombe", *HERE), ("Ms. Ysolde Penhew", *THERE), *COUPLES]
    merge = lambda book: book.worksheets[0].merge_cells("B2:B3")  # noqa: E731 - one line
    guest_list, findings = read_rows([("Name", *PLACES), *rows], merge)
    asked = {found.household for found in findings if found.code == "cells-merged" and found.holds}
    assert asked == {home.key for home in guest_list.households[:2]}
    assert "address-merged" not in codes(findings)


# ---------------------------------------------------------------- doubles


@pytest.mark.parametrize(
    ("one", "other", "why"),
    [
        (("Mr. and Mrs. Tobias Wexcombe", *HERE), ("Tobias Wexcombe & Guest", *THERE), "same name"),
        (("Mr. and Mrs. T. Wexcombe", *HERE), ("Tobias & Odile Wexcombe", *HERE), "initial"),
        (("Tobias & Odile Wexcombe", *HERE), ("Tobias & Odile Wexcomb", *HERE), "typing error"),
        (("Tobias & Odile Wexcombe", *HERE), ("Tobias & Odile Wexcomb", *THERE), "typing error"),
        (("The Wexcombe Family", *HERE), ("Tobias & Odile Wexcombe", *HERE), "family at a door"),
        (("José & Odile Wexcombe", *HERE), ("Jose & Odile Wexcombe", *HERE), "accent"),
        (
            ("Tobias & Odile O’Farrelly", *HERE),
            ("Tobias & Odile OFarrelly", "14 Larkmoor Ln", *HERE[1:]),
            "apostrophe",
        ),
    ],
)
def test_two_rows_that_are_perhaps_one_are_asked_about(
    one: Sequence[str], other: Sequence[str], why: str, read_rows: ReadRows
) -> None:
    guest_list, findings = read_rows([("Name", *PLACES), one, *COUPLES, other])
    assert pairs(findings) == {guest_list.households[0].key, guest_list.households[-1].key}, why


@pytest.mark.parametrize(
    ("one", "other", "why"),
    [
        (
            ("Mr. and Mrs. Tobias Wexcombe, Sr.", *HERE),
            ("Mr. and Mrs. Tobias Wexcombe, Jr.", *HERE),
            "father and son",
        ),
        (
            ("Mr. and Mrs. Tobias Wexcombe", *HERE),
            ("Mr. and Mrs. Tobias Wexcombe III", *HERE),
            "father and son",
        ),
        (("Tobias Wexcombe & Guest", *HERE), ("Odile Wexcombe & Guest", *HERE), "siblings"),
        (("Ada Wexcombe & Guest", *HERE), ("Ida Wexcombe & Guest", *HERE), "siblings, one letter"),
        (
            ("Tobias & Odile Wexcombe", "16 Quince Road", *HERE[1:]),
            ("Corwin & Linnet Wexcombe", "61 Quince Road", *HERE[1:]),
            "neighbours",
        ),
        (
            ("Tobias & Odile Penhew", "14 Larkmoor Lane, Apt. 3", *HERE[1:]),
            ("Corwin & Linnet Penhew", "14 Larkmoor Lane, Apt. 4", *HERE[1:]),
            "two flats",
        ),
        (("Tobias & Odile Wexcombe", *HERE), ("Corwin & Linnet Penhew", *HERE), "one house"),
    ],
)
def test_two_rows_that_a_field_tells_apart_are_not_asked_about(
    one: Sequence[str], other: Sequence[str], why: str, read_rows: ReadRows
) -> None:
    guest_list, findings = read_rows([("Name", *PLACES), one, *COUPLES, other])
    assert pairs(findings) == set(), why
    assert len(guest_list.households) == 4


def test_a_row_equal_to_the_letter_is_used_once_and_accounted_for(read_rows: ReadRows) -> None:
    rows = [*COUPLES, COUPLES[0]]
    guest_list, findings = read_rows([("Name", *PLACES), *rows])
    assert len(guest_list.households) == 2
    assert [(row.row, row.sheet) for row in guest_list.unused] == [(4, "Guests")]
    assert codes(findings).count("duplicate-merged") == 1


# ---------------------------------------------------------------- keys


def key_of(guest_list: GuestList, name: str) -> str:
    (found,) = [h.key for h in guest_list.households if h.name == name]
    return found


def test_a_key_has_its_form(read_rows: ReadRows) -> None:
    guest_list, _ = read_rows([("Name", *PLACES), *COUPLES])
    for household in guest_list.households:
        head, _, digest = household.key.partition("-")
        assert head == "h"
        assert len(digest) == 8
        assert set(digest) <= set("abcdefghijklmnopqrstuvwxyz234567")


def test_twins_have_keys_of_their_own_in_either_order(read_rows: ReadRows) -> None:
    one = ("Mr. and Mrs. Tobias Wexcombe", *HERE)
    other = ("Mr. and Mrs. Tobias Wexcombe", "9 Quince Road", *HERE[1:])
    first, _ = read_rows([("Name", *PLACES), one, other, *COUPLES])
    second, _ = read_rows([("Name", *PLACES), other, *COUPLES, one])

    def by_street(read: GuestList) -> dict[str, str]:
        return {h.address.street.text: h.key for h in read.households if h.address
                and h.address.street}  # fmt: skip

    assert by_street(first) == by_street(second)
    assert len(set(by_street(first).values())) == 4


def test_a_key_does_not_change_with_case_accents_or_the_address_line(
    read_rows: ReadRows,
) -> None:
    def key(name: str, street: str) -> str:
        guest_list, _ = read_rows([("Name", *PLACES), (name, street, *HERE[1:])])
        household: Household = guest_list.households[0]
        return household.key

    assert key("Mr. Zoë Wexcombe", HERE[0]) == key("MR. ZOE WEXCOMBE", "14 Larkmoor Ln.")
    assert key("Mr. Zoë Wexcombe", HERE[0]) != key("Mr. Zora Wexcombe", HERE[0])


def test_one_person_in_two_spellings_at_one_door_is_asked_about_within_a_household(
    tmp_path: Path,
) -> None:
    path = tmp_path / "guests.csv"
    path.write_text(
        "First Name,Last Name,Address,City,State,Zip\n"
        "Catherine,Ellsmoor,650 Lanternmaker St,Chicago,IL,60614\n"
        "Katherine,Elsmoor,650 Lanternmaker Street,Chicago,IL,60614\n"
        "Tobias,Wexcombe,14 Larkmoor Lane,Boston,MA,02116\n"
        "Odile,Wexcombe,14 Larkmoor Lane,Boston,MA,02116\n"
    )
    _, findings = read_list(path, {})
    doubles = [str(found.where) for found in findings if found.code == "duplicate-probable"]
    assert doubles == ["A2"]


# ---------------------------------------------------------------- rows that lean on others


@pytest.mark.parametrize(
    "marks",
    [
        ("ditto", None, None, None),
        ('"', '"', '"', '"'),
        ('-"-', '-"-', '-"-', '-"-'),
        ("as above", "as above", "as above", "as above"),
        ("14 Larkmoor Lane", '"', '"', '"'),
        ("14 Larkmoor Lane", None, None, None),
        ("same as Tobias", None, None, None),
        ("see Tobias Wexcombe", None, None, None),
    ],
)
def test_a_cell_that_means_another_takes_its_words_and_its_place(
    marks: Sequence[str | None], read_rows: ReadRows
) -> None:
    rows = [("Mr. and Mrs. Tobias Wexcombe", *HERE), ("Ms. Ysolde Penhew", *marks), *COUPLES]
    guest_list, findings = read_rows([("Name", *PLACES), *rows])
    one, other = guest_list.households[:2]
    assert one.address is not None
    assert other.address is not None
    assert other.address.postcode == one.address.postcode
    assert [row.cell for row in other.rows] == ["A3"]
    assert codes(findings).count("address-as-above") == 1


@pytest.mark.parametrize(
    ("row", "street"),
    [
        (("Ms. Ysolde Penhew", "9 Same Street", "Litchfield", "CT", "06759"), "9 Same Street"),
        (("Ms. Ysolde Penhew", "9 Osier Row", "Do", "CT", "06759"), "9 Osier Row"),
    ],
)
def test_a_word_that_only_looks_like_a_ditto_stays(
    row: Sequence[str], street: str, read_rows: ReadRows
) -> None:
    guest_list, findings = read_rows([("Name", *PLACES), COUPLES[0], row, COUPLES[1]])
    address = guest_list.households[1].address
    assert address is not None
    assert address.street is not None
    assert address.street.text == street
    assert "address-as-above" not in codes(findings)


def test_same_as_somebody_who_is_two_people_takes_no_address(read_rows: ReadRows) -> None:
    rows = [
        ("Mr. Felix Penhew", *HERE),
        ("Mr. Felix Sallow", *THERE),
        ("Ms. Ysolde Umber", "same as Felix", None, None, None),
    ]
    guest_list, findings = read_rows([("Name", *PLACES), *rows, *COUPLES])
    held = {finding.household for finding in findings if finding.holds}
    assert guest_list.households[2].key in held
    assert "address-as-above" not in codes(findings)


def test_somebody_named_shortly_or_with_a_partner_is_found(read_rows: ReadRows) -> None:
    rows = [
        ("Mr. and Mrs. Theodore Penhew", *HERE),
        ("Mr. Felix Sallow and Ms. Adele Ruddock", *THERE),
        ("Ms. Ysolde Umber", "same as Theo", None, None, None),
        ("Mr. Bram Umber", "same as Felix & Adele", None, None, None),
    ]
    guest_list, findings = read_rows([("Name", *PLACES), *rows, *COUPLES])
    homes = [home.address.postcode for home in guest_list.households if home.address]
    codes_ = [postcode.text if postcode else "" for postcode in homes]
    assert codes_[2:4] == codes_[:2]
    assert codes(findings).count("address-as-above") == 2


def test_whose_address_is_meant_is_asked_in_the_cells_own_words(read_rows: ReadRows) -> None:
    rows = [("Mr. Felix Penhew", *HERE), ("Ms. Ysolde Umber", "same as Leo", None, None, None)]
    guest_list, findings = read_rows([("Name", *PLACES), *rows, *COUPLES])
    asked = [found for found in findings if found.code == "address-missing"]
    assert [found.where.cell for found in asked] == ["B3"]
    assert "same as Leo" in asked[0].text
    assert guest_list.households[1].address is None


def test_what_is_doubtful_of_an_address_is_asked_of_those_who_share_it_by_a_ditto(
    read_rows: ReadRows,
) -> None:
    rows = [
        ("Mr. and Mrs. Tobias Wexcombe", "14 Larkmoor Lane", "Litchfield", "ME", "06759"),
        ("Ms. Ysolde Penhew", "ditto", None, None, None),
    ]
    guest_list, findings = read_rows([("Name", *PLACES), *rows, *COUPLES])
    asked = {f.household for f in findings if f.code == "zip-not-in-state"}
    assert asked == {home.key for home in guest_list.households[:2]}


def test_an_empty_party_below_a_party_belongs_to_it(read_rows: ReadRows) -> None:
    rows = [
        ("Wexcombe", "Mr. Tobias Wexcombe", *HERE),
        (None, "Mrs. Odile Wexcombe", *NONE),
        (None, "Linnet Wexcombe (7)", *NONE),
        ("Penhew", "Ms. Ysolde Penhew", *THERE),
        (None, "Guest", *NONE),
        (None, "Mr. Ludo Halvorsby", *FAR),
    ]
    guest_list, findings = read_rows([("Party", "Name", *PLACES), *rows])
    assert [len(home.people) for home in guest_list.households] == [3, 2, 1]
    assert "household-assumed" not in codes(findings)
    stranger = (None, "Mr. Otto Brandt", *NONE)
    guest_list, findings = read_rows([("Party", "Name", *PLACES), *rows[:4], stranger])
    assert codes(findings).count("household-assumed") == 1


def test_companions_and_children_below_a_couple_belong_to_it_and_a_grown_one_is_asked(
    read_rows: ReadRows,
) -> None:
    couple = ("Mr. and Mrs. Tobias Wexcombe", *HERE)
    below = [("Bram Wexcombe (4)", *NONE), ("Guest", *NONE)]
    guest_list, findings = read_rows([("Name", *PLACES), couple, *below, *COUPLES])
    assert [len(home.people) for home in guest_list.households] == [4, 2, 2]
    assert "household-assumed" not in codes(findings)
    grown = ("Mr. Corwin Wexcombe", *NONE)
    guest_list, findings = read_rows([("Name", *PLACES), couple, grown, *COUPLES])
    assert len(guest_list.households) == 3
    assert codes(findings).count("household-assumed") == 1


def test_a_label_above_its_people_is_theirs(read_rows: ReadRows) -> None:
    rows = [
        ("The Wexcombe Family", *NONE),
        ("Mr. Tobias Wexcombe", *HERE),
        ("Mrs. Odile Wexcombe", *HERE),
        ("Ms. Ysolde Penhew", *THERE),
        ("Mr. Ludo Halvorsby", *FAR),
    ]
    guest_list, findings = read_rows([("Name", *PLACES), *rows])
    assert [len(home.rows) for home in guest_list.households] == [3, 1, 1]
    assert "address-missing" not in codes(findings)


def test_more_than_a_family_at_one_door_is_asked_about(read_rows: ReadRows) -> None:
    def asked(*names: str) -> bool:
        rows = [(name, *HERE) for name in names]
        _, findings = read_rows([("Name", *PLACES), *rows, ("Ms. Ysolde Penhew", *THERE)])
        return "same-door" in codes(findings)

    assert asked("Mr. Tobias Wexcombe", "Mrs. Odile Wexcombe", "Mr. Corwin Wexcombe")
    assert asked("Tobias Wexcombe", "Hugo Sallow", "Otto Brandt")
    assert asked("Tobias Wexcombe Sr.", "Tobias Wexcombe Jr.", "Ada Wexcombe")
    assert not asked("Mr. Tobias Wexcombe", "Mrs. Odile Wexcombe", "Miss Linnet Wexcombe")
    assert not asked("Tobias Wexcombe", "Odile Farrenby", "Linnet Wexcombe")


def test_one_guest_of_a_household_who_is_out_is_asked_about_alone(read_rows: ReadRows) -> None:
    rows = [
        ("Mr. Tobias Wexcombe", *HERE, None),
        ("Mrs. Odile Wexcombe", *HERE, "declined"),
        ("Ms. Ysolde Penhew", *THERE, "no"),
    ]
    guest_list, findings = read_rows([("Name", *PLACES, "RSVP"), *rows])
    out = {f.code: f for f in findings if f.code in ("guest-out", "marker-in-list")}
    assert set(out) == {"guest-out", "marker-in-list"}
    assert (out["guest-out"].quoted, out["guest-out"].where.cell) == ("Mrs. Odile Wexcombe", "A3")
    assert [where.cell for where in out["guest-out"].also] == ["F3"]
    assert out["guest-out"].household == guest_list.households[0].key


@pytest.mark.parametrize(
    ("one", "other"),
    [("Robert Penhew", "Bob Penhew"), ("Margaret Cray", "Peggy Cray")],
)
def test_a_nickname_on_a_second_row_is_one_person_perhaps(
    one: str, other: str, read_rows: ReadRows
) -> None:
    guest_list, findings = read_rows([("Name", *PLACES), (one, *HERE), (other, *HERE), *COUPLES])
    assert len(guest_list.households) == 4
    assert pairs(findings) == {home.key for home in guest_list.households[:2]}


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("Paul Penhew & Guest", "Paula Penhew & Guest"),
        ("Mr. Christian Penhew and Guest", "Ms. Christina Penhew and Guest"),
    ],
)
def test_brother_and_sister_are_two(one: str, other: str, read_rows: ReadRows) -> None:
    _, findings = read_rows([("Name", *PLACES), (one, *HERE), (other, *HERE), *COUPLES])
    assert pairs(findings) == set()


def test_a_note_that_names_whom_a_row_is_with_gives_its_address(read_rows: ReadRows) -> None:
    header = ("Name", *PLACES, "Notes")
    guests, findings = read_rows([
        header,
        ("Ms. Rosalind Ebbesen", *HERE, None),
        ("Mr. Kit Lowther", *NONE, "with Rosalind, one invitation"),
        *((*row, None) for row in COUPLES),
        ("Mr. Silas Grey", *NONE, "with the band"),
    ])  # fmt: skip
    together = next(home for home in guests.households if len(home.people) == 2 and home.address)
    assert [person.given for person in together.people] == ["Rosalind", "Kit"]
    assert "same-door" in codes(findings)
    assert "address-missing" in codes(findings)


@pytest.mark.parametrize(
    ("columns", "cells", "street"),
    [
        (("Street", "House No."), ("Lindenweg", "4"), "Lindenweg 4"),
        (("House No.", "Street"), ("12 bis", "rue des Tilleuls"), "12 bis rue des Tilleuls"),
    ],
)
def test_abroad_a_number_stands_on_the_side_of_its_column(
    read_rows: ReadRows, columns: tuple[str, str], cells: tuple[str, str], street: str
) -> None:
    header = ("Name", columns[0], columns[1], "Postcode", "City", "Country")
    place = ("75011", "Paris", "France") if "rue" in cells[1] else ("10115", "Berlin", "Germany")
    rows = [header, ("Grete Ansbrook", *cells, *place), ("Uwe Tannbach", *cells, *place)]
    address = read_rows(rows)[0].households[0].address
    assert address is not None
    assert address.street is not None
    assert address.street.text == street


@pytest.mark.parametrize(
    ("note", "apart"),
    [
        ("roommates but separate invites pls", [["Kit"], ["Wren"], ["Una"]]),
        ("own invite please", [["Kit"], ["Wren", "Una"]]),
        ("no separate invites", [["Kit", "Wren", "Una"]]),
        ("share a flat", [["Kit", "Wren", "Una"]]),
    ],
)
def test_a_note_parts_those_who_live_at_one_door(
    note: str, apart: list[list[str]], read_rows: ReadRows
) -> None:
    rows = (("Kit Marlow", note), ("Wren Lorne", None), ("Una Pike", None))
    guests, _ = read_rows([
        ("Name", *PLACES, "Notes"),
        *((name, *HERE, said) for name, said in rows),
        *(("Ada Snell", f"{number} Quay Street", *HERE[1:], None) for number in (3, 5)),
    ])  # fmt: skip
    named = [[p.given for p in home.people] for home in guests.households]
    assert [home for home in named if home != ["Ada"]] == apart


@pytest.mark.parametrize(
    ("names", "counts", "asked"),
    [
        (("Hugh Carrow",), (2,), True),
        (("Hugh & Ada Carrow",), (2,), False),
        (("Hugh & Ada Carrow and Guest",), (3,), False),
        (("Hugh & Ada Carrow, Ned (6)",), (2,), False),
        (("Hugh Carrow", "Ada Carrow"), (2, None), False),
        (("Hugh Carrow", "Ada Carrow"), (3, None), True),
        (("Hugh Carrow and Family",), (2,), False),
        (("The Carrow Family",), (2,), False),
    ],
)
def test_a_number_of_adults_is_held_against_the_grown_of_a_household(
    names: tuple[str, ...], counts: tuple[int | None, ...], *, asked: bool, read_rows: ReadRows
) -> None:
    _, findings = read_rows([
        ("Name", *PLACES, "Adults"),
        *((name, *HERE, count) for name, count in zip(names, counts, strict=True)),
        *((f"{name} Snell", f"{n} Quay Street", *HERE[1:], 1) for n, name in enumerate("JKLM", 3)),
    ])  # fmt: skip
    assert ("count-differs" in codes(findings)) is asked


@pytest.mark.parametrize(
    ("partner", "expected", "asked"),
    [
        ("Abby, Zach & Luke", ["Abby/named", "Zach/child", "Luke/child"], True),
        ("Abby & Zach", ["Abby/named", "Zach/child"], True),
        ("Abby", ["Abby/named"], False),
        ("Abby Lorne", ["Abby/named"], False),
        ("Abby, Zach (6) & Luke (4)", ["Abby/named", "Zach/child", "Luke/child"], False),
    ],
)
def test_names_behind_a_partners_in_her_column_are_children(
    partner: str, expected: list[str], *, asked: bool, read_rows: ReadRows
) -> None:
    guests, findings = read_rows([
        ("First Name", "Last Name", "Spouse/Guest", *PLACES),
        ("Tom", "Grindle", partner, *HERE),
        ("Hugh", "Carrow", "Ada", "3 Quay Street", *HERE[1:]),
    ])  # fmt: skip
    people = guests.households[0].people[1:]
    assert [f"{person.given}/{person.kind}" for person in people] == expected
    family = "Lorne" if "Lorne" in partner else "Grindle"
    assert {person.family for person in people} == {family}
    assert ("children-assumed" in codes(findings)) is asked


SINGLES = tuple(
    (f"{name} Snell", f"{n} Quay Street", *HERE[1:])
    for n, name in ((3, "Ivo"), (4, "Kit"), (5, "Lettice"), (5, "Opal"))
)
"""Rows enough for a list to have a row for each guest."""


@pytest.mark.parametrize(
    ("one", "other", "why"),
    [
        ("Alban Fothergay", "Mr. Alban Fothergay", "The same name stands on both rows."),
        ("Zoë Adler", "Zoe Adler", "The same name stands on both rows."),
        ("Cecily Marchbank & Guest", "Cecily Marchbank", "The same name stands on both rows."),
        ("Mrs. Embry", "June Embry", "A title with the family name, and a whole name"),
        ("Dr. Ishaan Velloor", "Ishaan Velor", "Nearly the same name at the same door."),
        ("Alban Fothergay", "Alban Fothergay", ""),
        ("Mr. Embry", "Ms. June Embry", ""),
        ("Mrs. Embry", "June Marlow", ""),
        ("Alban Fothergay Sr.", "Alban Fothergay Jr.", ""),
        ("Wren Marlow", "Kit Marlow", ""),
    ],
)
def test_two_rows_of_a_door_that_may_be_one_person_are_asked_about_and_lose_no_title(
    one: str, other: str, why: str, read_rows: ReadRows
) -> None:
    rows = [("Name", *PLACES), (one, *HERE), *SINGLES, (other, *HERE)]
    guests, findings = read_rows(rows)
    asked = [found.text for found in findings if found.code == "duplicate-probable"]
    assert len(asked) == bool(why)
    assert not asked or asked[0].startswith(why)
    here = guests.households[0].people
    titles = {part for name in (one, other) for part in name.split() if part.endswith(".")}
    assert {p.title or p.suffix for p in here} - {None} == titles
    merged = [found for found in findings if found.code == "duplicate-merged"]
    assert len(merged) == (one == other)


def test_a_family_as_a_whole_is_not_put_together_with_one_of_the_name(read_rows: ReadRows) -> None:
    rows = [("Name", *PLACES), ("The Grindle Family", *HERE), *SINGLES, ("Tom Grindle", *HERE)]
    guests, findings = read_rows(rows)
    assert len(guests.households) == 5
    assert pairs(findings) == {guests.households[0].key, guests.households[-1].key}


@pytest.mark.parametrize(
    ("name", "street", "asked"),
    [
        ("Rhea Dunmoor", "17 Lake Drive", True),
        ("Rhea Dunmoor", "17 Hill Drive", False),
        ("Rhea Pike", "17 Lake Drive", False),
        ("Theo Dunmoor", "17 Lake Drive", False),
    ],
)
def test_nearly_the_same_name_in_one_street_is_asked_about(
    name: str, street: str, *, asked: bool, read_rows: ReadRows
) -> None:
    place = HERE[1:]
    rows = [("Name", *PLACES), ("Rhea Dunmore", "71 Lake Drive", *place), (name, street, *place)]
    assert bool(pairs(read_rows(rows)[1])) is asked


def test_a_family_and_a_firm_in_one_household_are_asked_about_and_neither_is_lost(
    read_rows: ReadRows,
) -> None:
    rows = [
        ("Household", "Name", "Street", "City", "State", "ZIP"),
        ("H3", "The Penhew Family", "431 Weathervane Drive", "Bar Harbor", "ME", "04609"),
        ("H3", "Larkmoor Bakery LLC", "431 Weathervane Drive", "Bar Harbor", "ME", "04609"),
    ]
    guest_list, findings = read_rows(rows)
    (asked,) = (found for found in findings if found.code == "household-doubtful")
    assert asked.holds
    assert "The Penhew Family" in asked.text
    assert "Larkmoor Bakery LLC" in asked.text
    assert "duplicate-merged" not in {found.code for found in findings}
    assert len(guest_list.households) == 1


def test_a_titled_row_without_a_family_name_beside_others_is_asked_about(
    read_rows: ReadRows,
) -> None:
    rows = [
        ("Party", "Title", "First", "Last", *PLACES),
        ("Penhew", "Mr.", "Ned", "Penhew", *HERE),
        ("Penhew", "Mrs.", "Sue", None, None, None, None, None),
    ]
    _, findings = read_rows(rows)
    assert "surname-missing" in codes(findings)


def test_who_is_in_the_care_of_somebody_at_a_door_is_no_guest_of_its_household(
    read_rows: ReadRows,
) -> None:
    rows = (
        ("Name", "Street", "City", "State", "ZIP"),
        ("Hugo Farrenby", "4 Osier Row", "Duluth", "MN", "55802"),
        ("Wes Teasel", "c/o Larkmoor & Co., 4 Osier Row", "Duluth", "MN", "55802"),
        ("Ada Teasel", "c/o Larkmoor & Co., 4 Osier Row", "Duluth", "MN", "55802"),
        ("Ms. Ida Orr", "9 Mill Row", "Litchfield", "CT", "06759"),
    )
    guest_list, _ = read_rows(rows)
    homes = [
        (
            [person.given for person in home.people],
            home.address.recipient_extra.text
            if home.address and home.address.recipient_extra
            else "",
        )
        for home in guest_list.households
    ]
    assert homes == [
        (["Hugo"], ""),
        (["Wes", "Ada"], "c/o Larkmoor & Co."),
        (["Ida"], ""),
    ]


# The English everyday titles give way to any other; in German both are borne. Common practice, no
# source.
@pytest.mark.parametrize(
    ("title", "given", "read", "asked"),
    [
        ("Mr.", "Dr. Tobias", "Mr. Dr.", True),
        ("Mrs.", "Rev. Odile", "Mrs. The Reverend", True),
        ("Herr", "Dr. Tobias", "Herr Dr.", False),
        ("Frau", "Prof. Dr. Odile", "Frau Prof. Dr.", False),
        ("Dr.", "Dr. Tobias", "Dr.", False),
        ("Rev.", "Dr. Tobias", "The Reverend Doctor", False),
        ("Mr.", "Dean", "Mr.", False),
    ],
)
def test_a_title_before_the_given_name_is_not_lost_beside_a_column_of_titles(
    read_rows: ReadRows, title: str, given: str, read: str, *, asked: bool
) -> None:
    header = ("Title", "First", "Last", "Street", "City", "State", "ZIP")
    row = (title, given, "Penhew", "14 Larkmoor Lane", "Litchfield", "CT", "06759")
    guest_list, findings = read_rows([header, row])
    (home,) = guest_list.households
    assert home.people[0].title == read
    assert home.people[0].given == given.rsplit(maxsplit=1)[-1]
    found = [each for each in findings if each.code == "titles-beside"]
    assert [dict(each.likely)["title"] for each in found] == ([title] if asked else [])
    assert found == [] or found[0].likely[0][0] == "title"


# Common practice, no source.
@pytest.mark.parametrize(
    "row", [r for r in table("row_words") if r["kind"] == "trial-entry"], ids=lambda r: r["word"]
)
def test_an_entry_that_tried_out_a_form_is_asked_about(
    read_rows: ReadRows, row: dict[str, str]
) -> None:
    header = ("First", "Last", "Street", "City", "State", "ZIP")
    for name, asked in ((row["example"], True), (row["counter_example"], False)):
        entry = (*name.split(), "14 Larkmoor Lane", "Litchfield", "CT", "06759")
        _, findings = read_rows([header, entry])
        assert ("name-doubtful" in codes(findings)) is asked
