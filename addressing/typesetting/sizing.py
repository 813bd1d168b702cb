"""One size for the whole set: as large as a careful typesetter would dare.

A row of envelopes should look like one hand, so the set has one size. Were it the size at which
every line fits whole, a few long names would make the whole row small: on 3 000 generated
envelopes that size was 21.26 pt, and 22.78 pt with one in a hundred treated apart. So sizes are
weighed, in quarter points:

    ln(size) - 1.5 x broken - 3 x smaller - 15 x held

where the last three are shares of the set: pieces with a line broken (or a lesser wording), set
in a smaller size than the rest, or held back because nothing fits. In words: a hundredth of the
set with a broken line must buy one and a half per cent of size for all; a hundredth that looks as
if by another hand twice that; and to hold back one household of a hundred is worth it only if
the rest gains fifteen. Three broken of seventy at 22 pt beat 17 pt for all. The
weights are judgement, tried on sets of 1 to 3 000 pieces; no source.

At most one piece in twenty-five (but always one) may be treated apart for the sake of size,
besides those that fit at no allowed size at all.
"""

import math
from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass

from addressing.records.docket import PieceChoice
from addressing.records.pieces import Piece
from addressing.typesetting.measuring import Gauge
from addressing.typesetting.taking import SLACK, Taken, take

QUARTER = 0.25
"""Sizes are quarter points: what a designer writes in a docket and can be matched later."""

STEP = 0.15
"""One piece may be set smaller by this share at most: beyond it the eye sees another size
(display sizes in print step by a sixth or more: 18, 21, 24 pt; from memory)."""

BROKEN, SMALLER, HELD = 1.5, 3.0, 15.0

APART = 0.04


@dataclass(frozen=True, slots=True)
class Measured:
    """A piece and the largest size (pt) at which its preferred wording stands whole."""

    piece: Piece
    limit: float


def quarter_below(size: float) -> float:
    """The largest quarter point that is not above a size.

    >>> quarter_below(21.26), quarter_below(9)
    (21.25, 9.0)
    """
    return math.floor(size / QUARTER + SLACK) * QUARTER


def least_size(size: float, smallest: float) -> float:
    """The smallest size (pt) allowed for one piece of a set at `size`."""
    return max(smallest, size * (1 - STEP))


def take_smaller(
    piece: Piece, gauge: Gauge, size: float, least: float
) -> tuple[Taken, float] | None:
    """The largest quarter size below `size`, and not below `least`, at which a piece fits."""
    smaller = quarter_below(size - SLACK * 10)
    while smaller >= least - SLACK:
        taken = take(piece, gauge, smaller)
        if taken is not None:
            return taken, smaller
        smaller -= QUARTER
    return None


def set_size(measured: Sequence[Measured], gauge: Gauge, choice: PieceChoice) -> float:
    """The size (pt) for a set, by the rule above; `choice.size` where the docket says it."""
    if choice.size is not None:
        return round(choice.size, 2)
    largest = max(quarter_below(choice.largest), choice.smallest)
    if not measured:
        return largest
    ordered = sorted(measured, key=lambda one: one.limit)
    limits = [one.limit for one in ordered]
    start = max(min(quarter_below(limits[0]), largest), choice.smallest)
    forced = bisect_left(limits, start - SLACK)
    allowed = forced + math.ceil(APART * len(limits))
    best, best_worth = start, -math.inf
    size = start
    while size <= largest + SLACK:
        apart = bisect_left(limits, size - SLACK)
        if apart > allowed:
            break
        cost = _cost([one.piece for one in ordered[:apart]], gauge, size, choice.smallest)
        worth = math.log(size) - cost / len(limits)
        if worth > best_worth + SLACK:
            best, best_worth = size, worth
        size = quarter_below(size + QUARTER)
    return best


def _cost(apart: Sequence[Piece], gauge: Gauge, size: float, smallest: float) -> float:
    """What it costs to treat pieces apart at a size, in the weights above."""
    cost = 0.0
    for piece in apart:
        if take(piece, gauge, size) is not None:
            cost += BROKEN
        elif take_smaller(piece, gauge, size, least_size(size, smallest)) is not None:
            cost += SMALLER
        else:
            cost += HELD
    return cost
