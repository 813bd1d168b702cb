"""A street and a box in one address (USPS Publication 28, October 2023, 215)."""

import pytest

from addressing.guestlist.homes.addresses import read_address
from addressing.guestlist.written import Written
from addressing.records.guests import Cited


def codes_of(text: str) -> list[str]:
    _, troubles, _ = read_address(Written(lines=(Cited(text),)), frozenset())
    return [trouble.code for trouble in troubles]


@pytest.mark.parametrize(
    "text",
    [
        "14 Larkmoor Lane, PO Box 12, Litchfield, CT 06759",
        "14 Larkmoor Lane RR 1 Box 12, Litchfield, CT 06759",
        "14 Larkmoor Lane, 2nd Floor, POB 12, Litchfield, CT 06759-0012",
        "PO Box 12, Hwy 31, Litchfield, CT 06759",
    ],
)
def test_what_stands_above_a_town_with_one_zip_is_delivered(text: str) -> None:
    assert codes_of(text) == ["address-dual"]


@pytest.mark.parametrize(
    "text",
    [
        "1201 BROAD ST E, PO BOX 1001, FALLS CHURCH VA 22042",  # 215: the box has a ZIP of its own
        "PO Box 12, 14 Larkmoor Lane, Litchfield, CT 06759",  # the street stands above the town
        "14 Larkmoor Lane, 9 Quarry Hill, Litchfield, CT 06759",
        "14 Larkmoor Lane, PO Box 12, RR 1 Box 3, Litchfield, CT 06759",
    ],
)
def test_only_the_client_knows_where_another_pair_goes(text: str) -> None:
    assert "address-doubtful" in codes_of(text)


def test_a_lockbox_is_in_its_street_and_no_second_address() -> None:
    assert codes_of("Lockbox 77, 14 Larkmoor Lane, Litchfield, CT 06759") == []
