"""Cards with a name or a number (common practice, no source)."""

import csv
from collections.abc import Callable, Sequence
from pathlib import Path

import pytest

from addressing.guestlist import read_list
from addressing.job.remembering import remember, with_known
from addressing.job.styling import styles_for
from addressing.materials.shelf import open_shelf
from addressing.records.docket import Docket, WordingChoices
from addressing.records.guests import GuestList
from addressing.records.pieces import household_of
from addressing.wording import ask_tables, word_list

HEADER = ("Name", "Kids", "Street", "City", "State", "Zip", "Table")
PLACE = ("Litchfield", "CT", "06759")
Cards = Callable[..., list[tuple[str, ...]]]
Read = Callable[..., GuestList]


@pytest.fixture
def read(tmp_path: Path) -> Read:
    """Rows of (name, kids, number of the house, table) as a list."""

    def reading(*rows: Sequence[str]) -> GuestList:
        path = tmp_path / "list.csv"
        with path.open("w", encoding="utf-8", newline="") as stream:
            writer = csv.writer(stream, lineterminator="\n")
            writer.writerow(HEADER)
            for name, kids, house, table in rows:
                writer.writerow((name, kids, f"{house} Larkmoor Lane", *PLACE, table))
        return read_list(path, {})[0]

    return reading


@pytest.fixture
def cards(read: Read) -> Cards:
    """The lines of every card of one kind."""

    def made(
        kind: str, *rows: Sequence[str], style: str | None = None, place_card: str = "name"
    ) -> list[tuple[str, ...]]:
        docket = Docket(make=(kind,), wording=WordingChoices(cards=style, place_card=place_card))
        guest_list = remember(read(*rows), (), None).guest_list
        pieces = word_list(guest_list, docket, styles_for(docket, open_shelf(None)))
        keys = [piece.household for piece in pieces]
        assert len(set(keys)) == len(keys)
        assert {household_of(key or "") for key in keys} <= {
            home.key for home in guest_list.households
        }
        return [tuple(line.text for line in piece.wordings[0].lines) for piece in pieces]

    return made


def test_a_place_card_bears_one_guest(cards: Cards) -> None:
    rows = [("Mr. Tobias and Mrs. Odile Wexcombe", "Linnet (9)", "12", "4")]
    assert cards("place-card", *rows) == [
        ("Mr. Tobias Wexcombe",),
        ("Mrs. Odile Wexcombe",),
        ("Linnet Wexcombe",),
    ]
    assert cards("place-card", *rows, style="relaxed")[:2] == [
        ("Tobias Wexcombe",),
        ("Odile Wexcombe",),
    ]


def test_a_companion_without_a_name_is_a_guest_of_somebody(cards: Cards) -> None:
    rows = [("Ms. Odile Farrenby and Guest", "", "12", "")]
    assert cards("place-card", *rows) == [("Ms. Odile Farrenby",), ("Guest of Ms. Odile Farrenby",)]


def test_an_unnamed_child_gets_no_place_card(cards: Cards) -> None:
    assert cards("place-card", ("Ms. Odile Farrenby", "1", "12", "")) == [("Ms. Odile Farrenby",)]


def test_an_escort_card_has_a_party_and_its_table(cards: Cards) -> None:
    rows = [
        ("Mr. and Mrs. Tobias Wexcombe", "Linnet (9)", "12", "4"),
        ("Ms. Odile Farrenby", "", "14", "Head table"),
        ("Ms. Ysolde Penhew", "", "16", ""),
    ]
    assert cards("escort-card", *rows) == [
        ("Mr. and Mrs. Tobias Wexcombe", "Linnet", "Table 4"),
        ("Ms. Odile Farrenby", "Head table"),
        ("Ms. Ysolde Penhew",),
    ]


def test_who_has_no_table_is_asked_about_only_where_others_have_one(read: Read) -> None:
    docket = Docket(make=("escort-card",))
    some = read(("Ms. Odile Farrenby", "", "14", "3"), ("Ms. Ysolde Penhew", "", "16", ""))
    assert [found.code for found in ask_tables(some, docket)] == ["table-missing"]
    assert ask_tables(some, Docket()) == ()
    none = read(("Ms. Odile Farrenby", "", "14", ""), ("Ms. Ysolde Penhew", "", "16", ""))
    assert ask_tables(none, docket) == ()


def test_a_reply_card_keeps_its_number_in_a_second_list(read: Read) -> None:
    odile, ysolde = ("Ms. Odile Farrenby", "", "14", ""), ("Ms. Ysolde Penhew", "", "16", "")
    tobias = ("Mr. Tobias Wexcombe", "", "12", "")
    first = remember(read(odile, ysolde), (), None)
    assert [home.number for home in first.guest_list.households] == [1, 2]
    without = with_known(read(tobias, ysolde), (), first.kept.known)
    assert [home.number for home in without.guest_list.households] == [3, 2]
    again = with_known(read(tobias, ysolde, odile), (), without.kept.known)
    assert [home.number for home in again.guest_list.households] == [3, 2, 1]


def test_a_place_card_bears_the_table_where_the_docket_wants_it(cards: Cards) -> None:
    rows = [
        ("Mr. Tobias and Mrs. Odile Wexcombe", "Linnet (9)", "12", "4"),
        ("Ms. Ysolde Farrenby", "", "14", "Head table"),
        ("Mr. Gideon Grayling", "", "16", ""),
    ]
    assert cards("place-card", *rows, place_card="table") == [
        ("Mr. Tobias Wexcombe", "Table 4"),
        ("Mrs. Odile Wexcombe", "Table 4"),
        ("Linnet Wexcombe", "Table 4"),
        ("Ms. Ysolde Farrenby", "Head table"),
        ("Mr. Gideon Grayling",),
    ]
    assert {len(lines) for lines in cards("place-card", *rows)} == {1}


@pytest.mark.parametrize(("place_card", "asked"), [("name", 0), ("table", 1)])
def test_who_has_no_table_is_asked_for_place_cards_that_bear_one(
    read: Read, place_card: str, asked: int
) -> None:
    guests = read(("Mr. Tobias Wexcombe", "", "12", "4"), ("Ms. Odile Farrenby", "", "14", ""))
    docket = Docket(make=("place-card",), wording=WordingChoices(place_card=place_card))
    found = ask_tables(guests, docket)
    assert [each.code for each in found] == ["table-missing"] * asked
