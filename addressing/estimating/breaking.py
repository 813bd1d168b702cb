"""From how many on another way is cheaper."""

from collections.abc import Sequence
from decimal import Decimal


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
