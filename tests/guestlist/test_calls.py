"""Telephone numbers and e-mail addresses are on no line of an address. Invented numbers only."""

import pytest

from addressing.guestlist.homes.calls import take_calls
from addressing.guestlist.homes.clearing import clear
from addressing.guestlist.written import Written
from addressing.records.guests import Cited


@pytest.mark.parametrize(
    ("cell", "kept", "said"),
    [
        ("23 Larkmoor Lane call first 207-555-0188", "23 Larkmoor Lane", "call first 207-555-0188"),
        ("23 Larkmoor Lane (207) 555-0188", "23 Larkmoor Lane", "(207) 555-0188"),
        ("23 Larkmoor Lane, cell: 207.555.0188", "23 Larkmoor Lane", "cell: 207.555.0188"),
        ("23 Larkmoor Lane 2075550188", "23 Larkmoor Lane", "2075550188"),
        ("23 Larkmoor Lane Apt 4 call 555-0188", "23 Larkmoor Lane Apt 4", "call 555-0188"),
        ("23 Larkmoor Lane - Call/text 207 555 0188", "23 Larkmoor Lane", "Call/text 207 555 0188"),
        ("23 Larkmoor Lane +44 20 7946 0000", "23 Larkmoor Lane", "+44 20 7946 0000"),
        ("23 Larkmoor Lane odile@example.com", "23 Larkmoor Lane", "odile@example.com"),
        ("23 Larkmoor Lane ** TEXT BEFORE **", "23 Larkmoor Lane", "TEXT BEFORE"),
        ("call first\n23 Larkmoor Lane", "23 Larkmoor Lane", "call first"),
    ],
)
def test_what_belongs_to_a_telephone_is_a_remark(cell: str, kept: str, said: str) -> None:
    remarks: list[str] = []
    written = take_calls(Written(lines=(Cited(cell),)), remarks)
    assert (written.lines[0].text, remarks) == (kept, [said])


@pytest.mark.parametrize(
    "cell",
    [
        "23 Larkmoor Lane #555-0188",
        "acct # 056 552-9329, 23 Larkmoor Lane",
        "23 Larkmoor Lane, Hurst, TX 7605476053",
        "23 Larkmoor Lane Unit 207-555",
        "1-2-3 Minami, Chuo-ku, Tokyo 100-0005",
        "23 Larkmoor Lane, Litchfield CT 06759-1234",
        "23 Text Lane, Litchfield CT 06759",
        "123-45 67th Avenue, Queens NY 11375-1234",
    ],
)
def test_the_numbers_of_an_address_are_no_telephone_numbers(cell: str) -> None:
    remarks: list[str] = []
    assert take_calls(Written(lines=(Cited(cell),)), remarks).lines[0].text == cell
    assert not remarks


def test_a_number_in_the_column_of_towns_is_taken_out_too() -> None:
    cleared = clear(Written(city=Cited("Camden 207-555-0188"), region=Cited("ME")))
    assert cleared.written.city == Cited("Camden")
    assert cleared.remarks == ("207-555-0188",)


def test_a_zip_behind_call_first_stays_in_the_address() -> None:
    cleared = clear(Written(lines=(Cited("23 Larkmoor Lane call first Litchfield CT 06759"),)))
    assert cleared.written.lines[0].text == "23 Larkmoor Lane Litchfield CT 06759"
    assert cleared.remarks == ("call first",)
