"""Plates and dies: by area, the least, ganged, kept standing; against sums by hand."""

from decimal import Decimal

import pytest

from addressing.estimating import Wanted, die_parts
from addressing.records.shops import Dies

PRICE = Decimal("0.50")
TWO = (Wanted("return", 20.0), Wanted("reply", 60.0))


def amounts(rule: Dies, wanted: tuple[Wanted, ...] = TWO, today: str | None = None) -> list[str]:
    return [str(part.amount) for part in die_parts(rule, wanted, PRICE, today, 2).values()]


def test_dies_are_charged_by_area_and_each_its_least() -> None:
    assert amounts(Dies("letterpress", 0.0, ganged=False)) == ["10.00", "30.00"]
    assert amounts(Dies("letterpress", 50.0, ganged=False)) == ["25.00", "30.00"]


def test_ganged_dies_share_one_least_by_their_areas() -> None:
    assert amounts(Dies("letterpress", 100.0, ganged=True)) == ["12.50", "37.50"]
    assert amounts(Dies("letterpress", 50.0, ganged=True)) == ["10.00", "30.00"]


@pytest.mark.parametrize(
    ("kept", "today", "first"),
    [
        (12, "2026-12-31", "0.00"),
        (12, "2027-01-15", "0.00"),
        (12, "2027-01-16", "10.00"),
        (12, None, "0.00"),
        (0, "2031-01-01", "0.00"),
    ],
)
def test_a_die_that_stands_costs_nothing_while_it_is_kept(
    kept: int, today: str | None, first: str
) -> None:
    wanted = (Wanted("return", 20.0, "2026-01-15"), TWO[1])
    rule = Dies("letterpress", 0.0, ganged=True, kept=kept)
    assert amounts(rule, wanted, today) == [first, "30.00"]


def test_a_die_without_a_price_is_told() -> None:
    part = die_parts(Dies("hot-foil"), TWO[:1], None, None, 2)["return"]
    assert part.amount == 0
    assert "ask the shop" in part.why
