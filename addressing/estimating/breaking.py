"""From how many on another way is cheaper."""

from collections.abc import Callable, Sequence
from decimal import Decimal

Price = Callable[[int], Decimal]
"""What so many cost in all; infinity where it can't be had."""

FURTHEST = 2000
"""Quantities that are looked at; no wedding has more."""


def break_even(one: Price, other: Price) -> tuple[tuple[int, str], ...]:
    """Where the cheaper way changes: (quantity, "one" or "other") from that quantity on.

    Prices step at breaks and packs, so the cheaper way may change more than once; every quantity
    is looked at. Equal prices leave it with the way that was cheaper before ("one" at first); where
    neither can be had, neither is named.

    >>> break_even(lambda n: Decimal(10 + n), lambda n: Decimal(4 * n))[:2]
    ((1, 'other'), (4, 'one'))
    """
    found: list[tuple[int, str]] = []
    for quantity in range(1, FURTHEST + 1):
        first, second = one(quantity), other(quantity)
        if not min(first, second).is_finite():
            continue
        now = found[-1][1] if found and first == second else "other" if second < first else "one"
        if not found or found[-1][1] != now:
            found.append((quantity, now))
    return tuple(found)


def cheapest_from(ways: Sequence[Sequence[Decimal]]) -> tuple[tuple[int, int], ...]:
    """Where the cheapest of several ways changes: (quantity, index) from that quantity on.

    Each way's costs are for 1, 2, 3 … Equal costs leave it with the way that was cheapest before;
    quantities that no way can do are passed over.

    >>> cheapest_from([[Decimal(9), Decimal(9), Decimal(9)], [Decimal(4), Decimal(8), Decimal(12)]])
    ((1, 1), (3, 0))
    """
    found: list[tuple[int, int]] = []
    for quantity, costs in enumerate(zip(*ways, strict=True), start=1):
        least = min(costs)
        if not least.is_finite():
            continue
        if not found or costs[found[-1][1]] > least:
            found.append((quantity, costs.index(least)))
    return tuple(found)
