"""The price to the client, added up as on paper."""

from dataclasses import replace
from decimal import Decimal

from hypothesis import given
from hypothesis import strategies as st

from addressing.estimating import quote
from addressing.records.costs import Extras
from addressing.records.rates import Fees

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
    asked = quote(FEES, 2, {"outer": 70, "inner": 70, "menu": 10}, 70, Extras(changes=2))
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
    asked = quote(FEES, 2, {"outer": 3}, 3, Extras(rush=True))
    assert asked.net == Decimal(125)


@given(
    st.dictionaries(st.sampled_from(["outer", "inner", "reply", "menu"]), st.integers(0, 300)),
    st.integers(0, 300),
    st.integers(0, 20),
    st.sampled_from([0, 2, 3]),
)
def test_the_parts_and_the_tax_are_the_whole(
    pieces: dict[str, int], households: int, changes: int, digits: int
) -> None:
    fees = replace(FEES, minimum=Decimal("100.1234"), hour=Decimal("33.337"))
    asked = quote(fees, digits, pieces, households, Extras(Decimal("1.5"), changes, rush=True))
    money = (*(part.amount for part in asked.parts), asked.tax, asked.total, asked.deposit)
    assert all(each == round(each, digits) for each in money)  # yen have no cents, dinars three
    assert sum(part.amount for part in asked.parts) == asked.net
    assert asked.net + asked.tax == asked.total
    assert asked.deposit <= asked.total


def test_hours_on_the_list_are_charged_where_they_are_told() -> None:
    fees = replace(FEES, hour=Decimal(40), minimum=Decimal(0))
    parts = quote(fees, 2, {}, 10, Extras(Decimal("1.5"))).parts
    assert [(part.name, part.amount) for part in parts] == [
        ("list", Decimal(5)),
        ("hours", Decimal(60)),
    ]
    assert [part.name for part in quote(fees, 2, {}, 10).parts] == ["list"]


@given(st.integers(0, 60), st.decimals(Decimal(0), Decimal(200), places=2))
def test_before_rush_and_tax_a_job_costs_its_parts_or_the_minimum_if_that_is_more(
    outers: int, minimum: Decimal
) -> None:
    asked = quote(replace(FEES, minimum=minimum), 2, {"outer": outers}, 3)
    work = outers * Decimal("2.75") + 3 * Decimal("0.50")
    assert asked.net == max(work, minimum)
    lacking = [part.amount for part in asked.parts if part.name == "minimum"]
    assert lacking == ([minimum - work] if work < minimum else [])
