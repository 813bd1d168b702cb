"""Columns that ask for a companion and for children: yes, a number, a name, or words."""

from collections.abc import Callable

import pytest

from addressing.records.findings import Finding
from addressing.records.guests import GuestList, Kind
from addressing.tables import table

ReadRows = Callable[..., tuple[GuestList, tuple[Finding, ...]]]

PLACE = ("Address", "City", "State", "ZIP")
ADDRESS = ("14 Larkmoor Lane", "Asheville", "NC", "28803")
COLUMNS = ("First", "Last", "Plus One?", "Plus One Name", "Kids?", "Kids' Names", *PLACE)


@pytest.mark.parametrize(
    ("cells", "named", "unnamed", "children"),
    [
        (("Y", "Odile Farrenby", "", ""), ["Odile"], 0, []),
        (("Y", "TBD", "N", ""), [], 1, []),
        (("Y", "", "", ""), [], 1, []),
        (("2", "Odile Farrenby", "", ""), ["Odile"], 1, []),
        (("Y", "Odile Farrenby (fiancée)", "Y", "Una, Kit"), ["Odile"], 0, ["Una", "Kit"]),
        (("Y", "her boyfriend", "2", "Una and Kit"), [], 1, ["Una", "Kit"]),
        (("yes please", "", "yes 1", ""), [], 1, [None]),
        (("N", "", "", "Yes, Una and Kit"), [], 0, ["Una", "Kit"]),
        (("N", "", "", "3 (Una, Kit)"), [], 0, ["Una", "Kit", None]),
        (("N", "", "two", ""), [], 0, [None, None]),
    ],
)
def test_two_columns_that_tell_of_one_companion_are_one(
    cells: tuple[str, ...],
    named: list[str],
    unnamed: int,
    children: list[str | None],
    read_rows: ReadRows,
) -> None:
    guests, _ = read_rows([COLUMNS, ("Tobias", "Wexcombe", *cells, *ADDRESS)])
    first, *others = guests.households[0].people
    assert first.given == "Tobias"
    grown = [p for p in others if p.kind is not Kind.CHILD]
    assert [p.given for p in grown if p.given] == named
    assert len([p for p in grown if not p.given]) == unnamed
    assert [p.given for p in others if p.kind is Kind.CHILD] == children


def test_columns_of_companions_by_number_are_one_each(read_rows: ReadRows) -> None:
    guests, _ = read_rows(
        [
            ("Name", "Plus one", "Plus one 2", *PLACE),
            ("Tobias Wexcombe", "Odile Farrenby", "Y", *ADDRESS),
        ]
    )
    assert {p.given for p in guests.households[0].people} == {"Tobias", "Odile", None}


@pytest.mark.parametrize("said", ["?", "possibly", "not sure", "ask her"])
def test_words_for_a_companion_that_are_no_name_hold_and_are_on_no_envelope(
    said: str, read_rows: ReadRows
) -> None:
    guests, findings = read_rows(
        [("Name", "Plus one", *PLACE), ("Tobias Wexcombe", said, *ADDRESS)]
    )
    assert len(guests.households[0].people) == 1
    assert [(f.quoted, f.holds) for f in findings if f.code == "guest-noted"] == [(said, True)]


@pytest.mark.parametrize("said", ["maybe", "depends", "?"])
def test_words_for_children_that_are_no_name_hold_and_are_on_no_envelope(
    said: str, read_rows: ReadRows
) -> None:
    guests, findings = read_rows(
        [("Name", "Children", *PLACE), ("Tobias Wexcombe", said, *ADDRESS)]
    )
    assert len(guests.households[0].people) == 1
    assert [f for f in findings if f.holds and f.quoted == said]


def test_children_in_small_letters_are_children(read_rows: ReadRows) -> None:
    guests, _ = read_rows([("Name", "Children", *PLACE), ("Kit Orr", "zell and una", *ADDRESS)])
    assert [p.given for p in guests.households[0].people] == ["Kit", "zell", "una"]


def test_a_companion_with_a_first_name_alone_is_asked_for_the_other(read_rows: ReadRows) -> None:
    _, findings = read_rows([COLUMNS, ("Kit", "Orr", "Y", "Una", "", "", *ADDRESS)])
    assert "surname-missing" in {found.code for found in findings}


@pytest.mark.parametrize(
    ("cell", "partner", "guests"),
    [
        ("me + 1", [], 1),
        ("just me", [], 0),
        ("my wife Odile", ["Odile"], 0),
        ("Odile, wife", ["Odile"], 0),
    ],
)
def test_whoever_fills_in_a_form_is_not_their_own_partner(
    cell: str, partner: list[str], guests: int, read_rows: ReadRows
) -> None:
    found, _ = read_rows(
        [
            ("First name", "Last name", "Partner's name", *PLACE),
            ("Tobias", "Wexcombe", cell, *ADDRESS),
        ]
    )
    _, *others = found.households[0].people
    assert [p.given for p in others if p.kind is Kind.NAMED] == partner
    assert len([p for p in others if p.kind is Kind.GUEST]) == guests


def test_a_family_typed_into_two_columns_is_a_familys_label(read_rows: ReadRows) -> None:
    guests, findings = read_rows(
        [
            ("First name", "Last name", *PLACE),
            ("The Wexcombe", "Family", *ADDRESS),
            ("Kit", "Orr", *ADDRESS),
        ]
    )
    assert guests.households[0].name == "The Wexcombe Family"
    assert "name-doubtful" not in {found.code for found in findings}


def test_grandchildren_are_nobodys_name(read_rows: ReadRows) -> None:
    guests, findings = read_rows(
        [("Name", "Children", *PLACE), ("Mrs. Odile Orr", "grandchildren", *ADDRESS)]
    )
    assert [p.given for p in guests.households[0].people] == ["Odile"]
    assert "family-unnamed" in {found.code for found in findings}


@pytest.mark.parametrize(
    "row", [r for r in table("row_words") if r["kind"] == "one-more"], ids=lambda r: r["word"]
)
def test_a_baby_beside_named_children_is_asked_for(
    read_rows: ReadRows, row: dict[str, str]
) -> None:
    for cell, asked in ((row["example"], True), (row["counter_example"], False)):
        name = "Mr. & Mrs. Tobias Penhew"
        rows = [
            ("Name", "Street", "City", "State", "ZIP", "Kids"),
            (name, "14 Larkmoor Lane", "Litchfield", "CT", "06759", cell),
        ]
        _, found = read_rows(rows)
        assert ("family-unnamed" in {each.code for each in found}) is asked
