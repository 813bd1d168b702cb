"""Headings that leave open whether those below are invited: common practice, no source."""

from collections.abc import Callable

import pytest

from addressing.guestlist.tables.open_headings import leaves_open
from addressing.records.findings import Finding
from addressing.records.guests import GuestList
from addressing.tables import table

Read = Callable[..., tuple[GuestList, tuple[Finding, ...]]]
HEADER = ("Name", "Street", "City", "State", "ZIP", "Notes")
TOBIAS = ("Mr. Tobias Penhew", "14 Larkmoor Lane", "Litchfield", "CT", "06759")
OTTOLINE = ("Ms. Ottoline Grayling", "431 Weathervane Drive", "Bar Harbor", "ME", "04609")
WREN = ("Ms. Wren Lorne", "9 Tern Street", "Bar Harbor", "ME", "04609")


def waiting(found: tuple[Finding, ...]) -> list[str | None]:
    return [each.quoted for each in found if each.code == "marker-in-list"]


@pytest.mark.parametrize(
    "row", [r for r in table("row_words") if r["kind"] == "heading-open"], ids=lambda r: r["word"]
)
def test_such_words_leave_open_who_is_invited_and_a_name_like_them_does_not(
    row: dict[str, str],
) -> None:
    assert leaves_open(row["example"])
    assert not leaves_open(row["counter_example"])


@pytest.mark.parametrize(
    "heading", ["MAYBES", "IF THERE IS ROOM", "Only if others decline", "B list", "Declined"]
)
def test_all_below_wait_until_the_next_heading(read_rows: Read, heading: str) -> None:
    rows = [HEADER, TOBIAS, (), (heading,), OTTOLINE, ("Friends",), WREN]
    guests, found = read_rows(rows)
    assert len(guests.households) == 3
    asked = [each for each in found if each.code == "marker-in-list"]
    assert [each.quoted for each in asked] == [heading]
    assert asked[0].household == guests.households[1].key


def test_a_remark_just_below_a_row_is_of_that_row(read_rows: Read) -> None:
    _, found = read_rows([HEADER, TOBIAS, ("ask mom first",), OTTOLINE])
    assert not waiting(found)


def test_a_remark_that_names_somebody_is_no_heading(read_rows: Read) -> None:
    _, found = read_rows([HEADER, TOBIAS, (), ("Not sure about the Umbers",), OTTOLINE])
    assert not waiting(found)


def test_a_later_round_below_a_heading_is_one(read_rows: Read) -> None:
    guests, found = read_rows([HEADER, TOBIAS, (), ("Second round",), OTTOLINE])
    assert [home.wave and home.wave.text for home in guests.households] == [None, "Second round"]
    assert not waiting(found)
