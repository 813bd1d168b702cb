"""The price to the client, added up as on paper."""

from dataclasses import replace
from decimal import Decimal

from hypothesis import given
from hypothesis import strategies as st

from addressing.estimating import quote
from addressing.records.costs import Fees

FEES = Fees(
    pieces=(("outer", Decimal("2.75")), ("inner", Decimal("1.75")), ("other", Decimal("1.00"))),
    tidying=Decimal("0.50"),
    change=Decimal(6),
    minimum=Decimal(100),
    rush_percent=Decimal(25),
    deposit_percent=Decimal(50),
    tax_percent=Decimal(8),
)


def test_a_quote_is_added_up_as_on_paper() -> None:
    asked = quote(FEES, 2, {"outer": 70, "inner": 70, "menu": 10}, 70, changes=2)
    amounts = {part.name: part.amount for part in asked.parts}
    assert amounts == {
        "outer": Decimal("192.50"),
        "inner": Decimal("122.50"),
        "menu": Decimal("10.00"),
        "list": Decimal("35.00"),
        "changes": Decimal("12.00"),
    }
    assert (asked.net, asked.tax) == (Decimal("372.00"), Decimal("29.76"))
    assert (asked.total, asked.deposit) == (Decimal("401.76"), Decimal("200.88"))


def test_a_small_job_costs_the_minimum_and_says_so() -> None:
    asked = quote(FEES, 2, {"outer": 3}, 3)
    assert asked.net == Decimal(100)
    assert asked.parts[-1].name == "minimum"


def test_a_rush_is_taken_on_the_minimum_too() -> None:
    asked = quote(FEES, 2, {"outer": 3}, 3, rush=True)
    assert asked.net == Decimal(125)


@given(
    st.dictionaries(st.sampled_from(["outer", "inner", "reply", "menu"]), st.integers(0, 300)),
    st.integers(0, 300),
    st.integers(0, 20),
    st.sampled_from([0, 2]),
)
def test_the_parts_and_the_tax_are_the_whole(
    pieces: dict[str, int], households: int, changes: int, digits: int
) -> None:
    fees = replace(FEES, minimum=Decimal(100))
    asked = quote(fees, digits, pieces, households, changes=changes, rush=True)
    assert sum(part.amount for part in asked.parts) == asked.net
    assert asked.net + asked.tax == asked.total
    assert asked.deposit <= asked.total
