"""Columns that change what is owed: a second address for a season, by hand, and plain facts."""

from collections.abc import Callable
from pathlib import Path

import pytest

from addressing.guestlist import read_list
from addressing.guestlist.homes.seasons import window
from addressing.records.findings import Finding
from addressing.records.guests import GuestList

Reading = tuple[GuestList, tuple[Finding, ...]]
MakeBook = Callable[..., Path]
ReadRows = Callable[..., Reading]

HEADER = ("Name", "Street", "City", "State", "ZIP")
HERE = ("14 Larkmoor Lane", "Litchfield", "CT", "06759")
WINTER = ("Winter Street", "Winter City", "Winter State", "Winter ZIP", "Season Dates")
THERE = ("9 Birchbark Trail", "Duluth", "MN", "55802")


@pytest.mark.parametrize(
    ("posting", "street", "other"),
    [
        ("2027-01-10", "9 Birchbark Trail", "14 Larkmoor Lane"),
        ("2026-11-01", "9 Birchbark Trail", "14 Larkmoor Lane"),
        ("2027-04-30", "9 Birchbark Trail", "14 Larkmoor Lane"),
        ("2027-05-01", "14 Larkmoor Lane", "9 Birchbark Trail"),
        ("2026-08-08", "14 Larkmoor Lane", "9 Birchbark Trail"),
    ],
)
def test_the_day_of_posting_chooses_the_address(
    make_book: MakeBook, posting: str, street: str, other: str
) -> None:
    rows = [(*HEADER, *WINTER), ("Mr. Tobias Penhew", *HERE, *THERE, "Nov - Apr")]
    guest_list, findings = read_list(make_book(rows), {}, "US", posting)
    (home,) = guest_list.households
    assert home.address is not None
    assert home.address.street is not None
    assert home.address.street.text == street
    assert home.other_address is not None
    assert home.other_address.street is not None
    assert home.other_address.street.text == other
    assert [found.code for found in findings] == ["season-chosen"]


@pytest.mark.parametrize("dates", ["when it is cold", ""])
def test_a_time_that_cannot_be_read_is_asked_even_with_a_day(
    make_book: MakeBook, dates: str
) -> None:
    rows = [(*HEADER, *WINTER), ("Mr. Tobias Penhew", *HERE, *THERE, dates)]
    _, findings = read_list(make_book(rows), {}, "US", "2027-01-10")
    assert [(found.code, found.holds) for found in findings] == [("season-address", True)]


@pytest.mark.parametrize(
    ("said", "window_"),
    [
        ("Nov - Apr", ((11, 1), (4, 31))),
        ("November 15 through March 1st", ((11, 15), (3, 1))),
        ("15 Nov bis 1. Mai", ((11, 15), (5, 1))),
        ("11/15 to 4/1", ((11, 15), (4, 1))),
        ("2026-11-15 to 2027-04-01", ((11, 15), (4, 1))),
        ("13/14 to 4/1", (None, None)),
        ("summer", (None, None)),
        ("June", (None, None)),
        ("", (None, None)),
    ],
)
def test_times_are_read_as_lists_write_them(said: str, window_: object) -> None:
    assert window(said) == window_


def test_by_hand_owes_no_address_and_its_doubts_are_not_asked(read_rows: ReadRows) -> None:
    row = ("Mr. Tobias Penhew", "14 Larkmoor Lane", "Litchfield", "ME", "06759", "yes")
    guest_list, findings = read_rows([(*HEADER, "By Hand"), row])
    assert guest_list.households[0].by_hand
    assert guest_list.households[0].address is None
    assert guest_list.households[0].other_address is not None
    assert [found.code for found in findings] == ["by-hand"]


def test_a_note_that_says_by_hand_stands_for_the_address_that_is_missing(
    read_rows: ReadRows,
) -> None:
    rows = [(*HEADER, "Notes"), ("Mr. Tobias Penhew", *[None] * 4, "giving it in person")]
    _, findings = read_rows(rows)
    assert {found.code for found in findings} == {"by-hand", "remark"}


def test_wave_side_and_suite_are_kept_with_their_cells(read_rows: ReadRows) -> None:
    header = (*HEADER, "Wave", "Side", "Invitation Suite")
    guest_list, _ = read_rows([header, ("Mr. Tobias Penhew", *HERE, "B", "bride", "garden")])
    (home,) = guest_list.households
    facts = [(fact.text, fact.cells[0].cell) for fact in (home.wave, home.side, home.suite) if fact]
    assert facts == [("B", "F2"), ("bride", "G2"), ("garden", "H2")]
