"""A line that only says whose guests follow is their side; a family of that name is a guest."""

from collections.abc import Callable
from pathlib import Path

import pytest

from addressing.guestlist import read_list
from addressing.guestlist.tables.headings import says_whose
from addressing.records.findings import Finding
from addressing.records.guests import GuestList

Write = Callable[..., Path]
Read = tuple[GuestList, tuple[Finding, ...]]
FIRST = ("Tobias Penhew", "14 Larkmoor Lane", "Litchfield", "CT", "06759")
LAST = ("Hugo Farrenby", "3 Osier Row", "Duluth", "MN", "55802")
HEADINGS = [
    "Bride's family",
    "Groom’s family",
    "BRIDE'S FAMILY",
    "Brides side of family",
    "Mom's side",
    "Mom's family",
    "Work friends",
    "Mom & Dad's friends",
    "Tom and Ann's work:",
    "my parents' friends",
    "Maid of honor & bridesmaids",
    "--- Groom ---",
    "Out of town guests",
    "Theo's friends from school",
    "The Extended Family",
    "Table 5",
    "TOM'S OFFICE",
    "Book Club",
]
GUESTS = [
    "The Groom family",
    "The Bride Family",
    "The Penhew Family",
    "Odile's family",
    "The Groomes",
    "Mr. & Mrs. Church",
    "Wes Friend",
    "Ann Church and Guest",
    "Bishop Neighbors",
    "Mom & Dad",
]


def read(path: Path) -> Read:
    return read_list(path, {})


def sides(guests: GuestList) -> list[tuple[str, str | None]]:
    return [(home.name, home.side.text if home.side else None) for home in guests.households]


@pytest.mark.parametrize("words", HEADINGS)
def test_a_heading_in_a_list_is_told_and_is_the_side_of_the_rows_below(
    write_list: Write, words: str
) -> None:
    guests, findings = read(write_list((FIRST, (words, "", "", "", ""), LAST)))
    said = words.strip(" :-")
    assert sides(guests) == [("Tobias Penhew", None), ("Hugo Farrenby", said)]
    (told,) = [found for found in findings if found.code == "headings-read"]
    assert f"“{said}” (A3)" in told.text
    assert [(row.row, row.why) for row in guests.unused] == [(3, "a heading")]


@pytest.mark.parametrize("words", HEADINGS)
def test_a_heading_in_a_mail_is_the_side_of_those_below(tmp_path: Path, words: str) -> None:
    path = tmp_path / "mail.txt"
    first, last = (f"{name}\n{street}\n{a}, {b} {c}" for name, street, a, b, c in (FIRST, LAST))
    path.write_text(f"Hi,\n\n{first}\n\n{words}\n\n{last}\n", "utf-8")
    guests, findings = read(path)
    assert sides(guests) == [("Tobias Penhew", None), ("Hugo Farrenby", words.strip(" :-"))]
    assert not [found for found in findings if found.code == "lines-not-read"]


@pytest.mark.parametrize("words", GUESTS)
def test_a_family_of_such_a_name_is_no_heading(write_list: Write, words: str) -> None:
    guests, findings = read(write_list((FIRST, (words, "", "", "", ""), LAST)))
    assert len(guests.households) == 3
    assert "address-missing" in {found.code for found in findings}


def test_a_count_beside_a_heading_makes_no_guest_of_it(write_list: Write) -> None:
    guests, _ = read(write_list((FIRST, ("Groom's family", "", "", "", "24"), LAST)))
    assert [name for name, _ in sides(guests)] == ["Tobias Penhew", "Hugo Farrenby"]


def test_a_remark_beside_a_heading_makes_no_guest_of_it_and_is_asked_about(
    write_list: Write,
) -> None:
    guests, findings = read(write_list((FIRST, ("Bride's side", "see mom", "", "", ""), LAST)))
    assert sides(guests) == [("Tobias Penhew", None), ("Hugo Farrenby", "Bride's side")]
    (told,) = [found for found in findings if found.code == "rows-not-guests"]
    assert "“see mom”" in told.text


@pytest.mark.parametrize("beside", ["9 Mill Row", "Odile", "see 9 Mill Row"])
def test_a_name_or_an_address_beside_such_words_is_no_remark(
    write_list: Write, beside: str
) -> None:
    guests, _ = read(write_list((FIRST, ("Work friends", beside, "", "", ""), LAST)))
    assert len(guests.households) == 3


def test_a_column_of_sides_goes_before_a_heading(read_rows: Callable[..., Read]) -> None:
    rows = (
        ("Name", "Side", "Street", "City", "State", "ZIP"),
        ("Bride's family", "", "", "", "", ""),
        ("Tobias Penhew", "Groom", *FIRST[1:]),
        ("Hugo Farrenby", "", *LAST[1:]),
    )
    guests, _ = read_rows(rows)
    assert sides(guests) == [("Tobias Penhew", "Groom"), ("Hugo Farrenby", "Bride's family")]


@pytest.mark.parametrize("words", ["Odile's", "5", "Mom", "Penhew's", "James'"])
def test_words_that_name_somebody_or_nothing_are_no_heading(words: str) -> None:
    assert not says_whose(words)


@pytest.mark.parametrize("words", ["By hand:", "BY HAND", "Hand deliver", "To be given in person"])
def test_those_below_a_heading_by_hand_owe_no_address(write_list: Write, words: str) -> None:
    rows = (FIRST, (words, "", "", "", ""), ("Hugo Farrenby", "", "", "", ""))
    guests, findings = read(write_list(rows))
    assert [(home.name, home.by_hand) for home in guests.households] == [
        ("Tobias Penhew", False),
        ("Hugo Farrenby", True),
    ]
    assert sides(guests)[1][1] is None
    assert not {"address-missing", "name-doubtful"} & {found.code for found in findings}


def test_an_address_below_a_heading_by_hand_is_asked_about(write_list: Write) -> None:
    guests, findings = read(write_list((FIRST, ("By hand", "", "", "", ""), LAST)))
    assert not guests.households[1].by_hand
    assert [found.code for found in findings if found.code.startswith("by-hand")] == [
        "by-hand-noted"
    ]


@pytest.mark.parametrize("words", ["Hugo Farrenby, by hand", "In Person Farrenby"])
def test_a_guest_by_hand_is_no_heading(write_list: Write, words: str) -> None:
    guests, _ = read(write_list((FIRST, (words, "", "", "", ""), LAST)))
    assert len(guests.households) == 3
