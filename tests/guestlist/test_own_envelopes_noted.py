"""A note that a child of the list gets an envelope of her own: common practice, no source."""

from collections.abc import Callable
from pathlib import Path

import pytest

from addressing.guestlist import read_list

COLUMNS = ("Name", "Kids", "Street", "City", "State", "ZIP", "Notes")


def codes(write_list: Callable[..., Path], note: str, names: str = "Ms. Rosa Trujillo") -> set[str]:
    row = (names, "Ines 19, Mateo 12", "6 Maple Street", "Concord", "NH", "03301", note)
    _, found = read_list(write_list([COLUMNS, row]), {})
    return {each.code for each in found if each.holds}


@pytest.mark.parametrize("names", ["Ms. Rosa Trujillo", "Mr. and Mrs. Leo Ives"])
@pytest.mark.parametrize(
    "note",
    [
        "Ines gets her own envelope",
        "Ines separately please",
        "own invitation for Ines",
        "send Ines a separate envelope",
    ],
)
def test_it_is_asked_whose_envelope_is_whose(
    write_list: Callable[..., Path], note: str, names: str
) -> None:
    assert codes(write_list, note, names) == {"note-open"}


@pytest.mark.parametrize("note", ["Ines gets her own meal", "Ines pays separately", "Ines is 19"])
def test_what_is_said_of_a_thing_asks_nothing(write_list: Callable[..., Path], note: str) -> None:
    assert "note-open" not in codes(write_list, note)
