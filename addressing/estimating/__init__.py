"""How many, and at what cost: pieces needed, overs, packs; each way's price and the plan.

In: the pieces of the job, held ones too, the docket's overs, the user's rates. Out: counts and
their table, offers of each place, the cheapest and the fastest plan.
"""

from addressing.estimating.area import ink_area, ink_box
from addressing.estimating.breaking import cheapest_from
from addressing.estimating.calendar import calendar, drying_days
from addressing.estimating.counts import (
    blanks_of,
    count_again,
    count_pieces,
    counts_tsv,
    expected,
    ordered_of,
    span_of,
)
from addressing.estimating.dies import Wanted, die_parts
from addressing.estimating.planning import cheapest_plan, plans, without_each
from addressing.estimating.posting import postage_for
from addressing.estimating.prices import (
    cheaper_order,
    home_offer,
    home_place,
    in_a_rush,
    packs_of,
    shop_offer,
    shop_place,
    unpriced_paper,
)
from addressing.estimating.quoting import quote
from addressing.estimating.resting import holidays
from addressing.estimating.weighing import assemble, grams_per_m2

__all__ = [
    "Wanted",
    "assemble",
    "blanks_of",
    "calendar",
    "cheaper_order",
    "cheapest_from",
    "cheapest_plan",
    "count_again",
    "count_pieces",
    "counts_tsv",
    "die_parts",
    "drying_days",
    "expected",
    "grams_per_m2",
    "holidays",
    "home_offer",
    "home_place",
    "in_a_rush",
    "ink_area",
    "ink_box",
    "ordered_of",
    "packs_of",
    "plans",
    "postage_for",
    "quote",
    "shop_offer",
    "shop_place",
    "span_of",
    "unpriced_paper",
    "without_each",
]
