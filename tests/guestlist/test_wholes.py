"""Names and address in the name cell of a list that has columns for both."""

from collections.abc import Callable, Sequence

import pytest

from addressing.records.findings import Finding
from addressing.records.guests import GuestList

ReadRows = Callable[..., tuple[GuestList, tuple[Finding, ...]]]
HEADER: Sequence[str] = ("Names", "Address")
OTHERS: Sequence[Sequence[str]] = (
    ("Mr. Tobias Wexcombe", "14 Larkmoor Lane, Litchfield, CT 06759"),
    ("Ms. Ottoline Grayling", "431 Weathervane Drive, Bar Harbor, ME 04609"),
)


@pytest.mark.parametrize(
    "cell",
    [
        "Odile Farrenby, 3 Larkmoor Lane, West Chester, PA 19380",
        "Odile Farrenby 3 Larkmoor Lane West Chester, PA 19380",
        "Odile Farrenby\n3 Larkmoor Lane\nWest Chester, PA 19380",
    ],
)
def test_a_household_that_stands_whole_in_its_name_cell_is_parted(
    read_rows: ReadRows, cell: str
) -> None:
    guests, findings = read_rows((HEADER, *OTHERS, (cell, None)))
    home = guests.households[-1]
    assert [(person.given, person.family) for person in home.people] == [("Odile", "Farrenby")]
    assert home.address is not None
    assert home.address.street is not None
    assert home.address.street.text == "3 Larkmoor Lane"
    assert home.address.street.cells[0].cell == "A4"
    assert home.address.city is not None
    assert home.address.city.text == "West Chester"
    assert not [found for found in findings if found.holds]


@pytest.mark.parametrize(
    "cell", ["Odile Farrenby (7)", "Odile Farrenby, 3 of them", "Apt 3 people"]
)
def test_a_cell_that_doesn_t_end_as_an_address_stays_whole(read_rows: ReadRows, cell: str) -> None:
    guests, _ = read_rows((HEADER, *OTHERS, (cell, None)))
    assert guests.households[-1].address is None


def test_a_row_with_an_address_is_never_parted(read_rows: ReadRows) -> None:
    cell = "Odile Farrenby, 3 Larkmoor Lane, West Chester, PA 19380"
    _, findings = read_rows((HEADER, *OTHERS, (cell, "9 Vesper Street, Durant, MS 39063")))
    assert [found.code for found in findings if found.holds] == ["name-doubtful"]
