"""One size for the whole set: as large as a careful typesetter would dare.

A row of envelopes should look like one hand, so the set has one size. Were it the size at which
every line fits whole, a few long names would make the whole row small: on 3 000 generated
envelopes that size was 21.26 pt, and 22.78 pt with one in a hundred treated apart. So sizes are
weighed, in quarter points; the size that is worth most is taken, the larger of equals:

    worth = ln(size) - 0.75 x broken - 3 x smaller - 15 x held

where the last three are shares of the set: pieces with a line broken (or a lesser wording), set
in a smaller size than the rest, or held back because nothing fits. In words: ten per cent of the
set with a broken line must buy seven and a half per cent of size for all (a joint name broken
before its "and" is common on envelopes); one per cent that looks as if by another hand must buy
three; and the set gives way by fifteen per cent before it holds back one household of a hundred.
Above three quarters of the largest size the set is large enough already, and size counts half.
So three broken of seventy at 22 pt beat 17 pt for all, and half the set is never broken to go
from 20 pt to 24. A piece without others beside it (the return address on a flap) breaks sooner,
for a tenth of size: no row of envelopes is uneven by it. A line of names that would be broken for
balance where it just fits costs nothing: it is broken either way. Not so one that stands alone: it
is broken only where it fills the room, would stand whole with some air in a smaller size, and so
counts as one that fits no larger. The weights are judgement, tried on generated sets of 8 to 10 000
pieces in the six faces of the shelf; no source.
"""

import math
from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass
from operator import itemgetter

from addressing.records.docket import PieceChoice
from addressing.records.pieces import Piece
from addressing.records.swiftly import swiftly
from addressing.typesetting.demerits import airy
from addressing.typesetting.measuring import Part
from addressing.typesetting.outlines import Bounds
from addressing.typesetting.patterns import Pattern
from addressing.typesetting.taking import SLACK, Taken, Taker

QUARTER = 0.25
"""Sizes are quarter points: what a designer writes in a docket and can be matched later."""

STEP = 0.15
"""One piece may be set smaller by this share at most: beyond it the eye sees another size
(display sizes in print step by a sixth or more: 18, 21, 24 pt; from memory)."""

GIVES_WAY = 0.05
"""So much smaller one piece may be set for balance alone: half a point of eighteen, which the eye
doesn't see beside the others (by eye on proofs of the shelf's six faces; no source)."""

LEGIBLE = 6.0
"""Below this (pt) no size is proposed: the least that is read with ease (common practice, no
source)."""

BROKEN, SMALLER, HELD = 0.75, 3.0, 15.0
BROKEN_ALONE = 0.1
"""What a broken line costs of a set of one piece. By eye on flaps; no source."""

AMPLE, ABOVE_AMPLE = 0.75, 0.5
"""Above this share of the largest size, growth counts by this factor."""


@swiftly
@dataclass(frozen=True, slots=True)
class Measured:
    """A piece, the lines of its preferred wording, and the largest size (pt) at which they fit.

    `inks` are the bounds of the lines (em), kept where it was measured: a large set has too many to
    look each up by its words.
    """

    piece: Piece
    texts: Sequence[str]
    pattern: Pattern
    inks: Sequence[Bounds]
    limit: float

    @property
    def parts(self) -> tuple[Part, ...]:
        """The lines with where each is from."""
        return parts_of(self.texts, self.pattern)


def parts_of(texts: Sequence[str], pattern: Pattern) -> tuple[Part, ...]:
    """Lines with where each is from."""
    return tuple(zip(texts, pattern.sources, pattern.hands, strict=True))


def quarter_below(size: float) -> float:
    """The largest quarter point that is not above a size.

    >>> quarter_below(21.26), quarter_below(9)
    (21.25, 9.0)
    """
    return math.floor(size / QUARTER + SLACK) * QUARTER


def least_size(size: float, smallest: float, *, kept: bool = False) -> float:
    """The smallest size (pt) allowed for one piece of a set at `size`.

    Where that size is `kept` for what is on paper the set can't give way, and the piece may.
    """
    return smallest if kept else max(smallest, size * (1 - STEP))


def take_smaller(
    piece: Piece, taker: Taker, size: float, least: float
) -> tuple[Taken, float] | None:
    """The largest quarter size below `size`, and not below `least`, at which a piece fits."""
    smaller = min(quarter_below(size - SLACK * 10), quarter_below(taker.reach(piece)))
    if smaller < least - SLACK:
        return None
    taken = taker.take(piece, smaller)
    return None if taken is None else (taken, smaller)


def take_lighter(one: Measured, taker: Taker, size: float) -> tuple[Taken, float] | None:
    """A piece whose heavy line of names is broken, and its size; None where none need be or can.

    A tall block has no room for one more line: then it alone is set a little smaller, since a
    line from edge to edge over short ones is seen and so little isn't.
    """
    parts, least = one.parts, size * (1 - GIVES_WAY)
    if not taker.dwarfs(one.piece, parts, one.inks, size):
        return None  # most
    found = taker.lighter(one.piece, parts, one.inks, size)
    if found is not None:
        return found, size
    size = quarter_below(size - SLACK * 10)
    while size >= least - SLACK:
        found = taker.lighter(one.piece, parts, one.inks, size)
        if found is not None:
            return found, size
        size -= QUARTER
    return None


def set_size(measured: Sequence[Measured], taker: Taker, choice: PieceChoice) -> float:
    """The size (pt) for a set, by the rule above; `choice.size` where the docket says it."""
    if choice.size is not None:
        return round(choice.size, 2)
    largest = max(quarter_below(choice.largest), choice.smallest)
    if not measured:
        return largest
    whole = [(_stands_whole(one, taker, choice, largest), one) for one in measured]
    whole.sort(key=itemgetter(0))
    ordered = [one for _, one in whole]
    limits = [limit for limit, _ in whole]
    best = size = max(min(quarter_below(limits[0]), largest), choice.smallest)
    most = -math.inf
    broken = BROKEN if len(ordered) > 1 else BROKEN_ALONE
    reached: list[tuple[float, float]] = []
    while size <= largest + SLACK:
        apart = bisect_left(limits, size - SLACK)
        newly = ordered[len(reached) : apart]
        reached += [_apart(one, taker, choice, broken) for one in newly]
        if _value(largest, largest) - sum(own for _, own in reached) / len(limits) < most:
            break  # no larger size can be worth more: those apart only grow in number
        cost = sum(_cost(reach, size, choice.smallest, own) for reach, own in reached)
        worth = _value(size, largest) - cost / len(limits)
        if worth >= most - SLACK:
            best, most = size, worth
        size = quarter_below(size + QUARTER)
    return best


def _stands_whole(one: Measured, taker: Taker, choice: PieceChoice, largest: float) -> float:
    """The largest size (pt) at which a piece stands whole.

    That is below its limit for a line alone that would fill the room and may be broken.
    """
    if len(one.texts) > 1 or not choice.balance:
        return one.limit
    limit = one.limit * airy()
    if limit >= largest:
        return one.limit
    lighter = taker.lighter(one.piece, one.parts, one.inks, one.limit)
    return one.limit if lighter is None else limit


def _apart(one: Measured, taker: Taker, choice: PieceChoice, broken: float) -> tuple[float, float]:
    """The largest size (pt) at which a piece fits somehow, and what it costs to break its lines."""
    reach = quarter_below(taker.reach(one.piece))
    heavy = (
        choice.balance
        and len(one.texts) > 1
        and taker.lighter(one.piece, one.parts, one.inks, one.limit) is not None
    )
    return reach, 0.0 if heavy else broken


def _value(size: float, largest: float) -> float:
    ample = AMPLE * largest
    if size <= ample:
        return math.log(size)
    return math.log(ample) + ABOVE_AMPLE * math.log(size / ample)


def _cost(reach: float, size: float, smallest: float, broken: float) -> float:
    """What a piece treated apart costs at a size, in the weights above; `broken` is a break's."""
    if reach >= size - SLACK:
        return broken
    return SMALLER if reach >= least_size(size, smallest) - SLACK else HELD
