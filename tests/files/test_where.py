"""A place in a list: three words outside, whatever it is made of inside."""

import pickle

import pytest

from addressing.where import Where

CELL = Where("list.xlsx", "Guests", "C14")


@pytest.mark.parametrize(
    "cell", [None, "C14", "XFD1048576", "docket:hosts.street", "C014", "c14", "AAAA1", "14", "C"]
)
def test_a_place_has_the_file_sheet_and_cell_that_it_was_made_of(cell: str | None) -> None:
    for sheet in (None, "Guests", "a!b"):
        place = Where("list.xlsx", sheet, cell)
        assert (place.file, place.sheet, place.cell) == ("list.xlsx", sheet, cell)
        assert pickle.loads(pickle.dumps(place)) == place  # noqa: S301 - our own


def test_places_are_equal_in_all_three_or_not_at_all() -> None:
    row = ("list.xlsx", "Guests", 14)
    assert Where.in_row(row, "C") == CELL
    assert hash(Where.in_row(row, "C")) == hash(CELL)
    others = [
        Where("list.csv", "Guests", "C14"),
        Where("list.xlsx", None, "C14"),
        CELL.at("C15"),
        CELL.at("D14"),
        CELL.at("docket:C14"),
        Where("list.xlsx", "Guests"),
    ]
    assert CELL not in others
    assert len({CELL, *others}) == len(others) + 1


def test_places_stand_in_the_order_of_their_words() -> None:
    words = ["B2", "C1", "C14", "C2"]
    assert [place.cell for place in sorted(CELL.at(word) for word in reversed(words))] == words


def test_a_place_cannot_be_moved() -> None:
    for name in ("file", "sheet", "cell", "column", "of_row"):
        with pytest.raises(AttributeError):
            setattr(CELL, name, "D15")


def test_a_place_is_named_as_people_name_it() -> None:
    assert str(CELL) == "Guests!C14"
    assert str(Where("list.csv", None, "C14")) == "C14"
    assert str(Where("list.csv")) == "list.csv"
    assert repr(CELL) == "Where(file='list.xlsx', sheet='Guests', cell='C14')"
