"""One family name in two spellings, and a man's and a woman's ending: from memory."""

import pytest

from addressing.guestlist.folding import fold
from addressing.guestlist.households.two_spellings import are_one_name
from addressing.tables import table


@pytest.mark.parametrize("row", table("name_endings"), ids=lambda row: str(row["example"]))
def test_a_womans_ending_is_no_slip_and_another_letter_is(row: dict[str, str]) -> None:
    names = [fold(each) for each in row["example"].split(" and ")]
    others = [fold(each) for each in row["counter_example"].split(" and ")]
    assert not are_one_name(*names)
    assert not are_one_name(*reversed(names))
    assert are_one_name(*others)
