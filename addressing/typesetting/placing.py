"""Where each line stands: centred by its ink, the block by its capitals and its last baseline.

Blocks are centred one by one, each by the optical middle that the eye takes: from the capitals'
height of the first line to the baseline of the last, by the face's own measure and not by the
ink of these words. So two envelopes with the same number of lines have the same baselines, and a
line more moves the block by half a leading: the row looks like one hand. Lines are centred by
ink, since a script's swash would push them up to 3 pt off by their advances (measured).
"""

from collections.abc import Sequence
from functools import lru_cache
from itertools import repeat

from addressing.records.pieces import Piece, Role
from addressing.typesetting.leading import Leading
from addressing.typesetting.measuring import Gauge, extent
from addressing.typesetting.outlines import Bounds
from addressing.typesetting.taking import SLACK, Taken

_THOUSANDTHS = repeat(3)

LEVELS_KEPT = 4096
"""Rows of heights remembered."""

Sizes = tuple[float, Leading]
"""A piece's size (pt, the names') and the set's leading (pt)."""

Placed = tuple[
    tuple[str, ...],
    tuple[Role, ...],
    tuple[int, ...],
    list[float],
    tuple[float, ...],
    tuple[float, ...],
    tuple[int, ...],
]
"""A column for each field of a set line: words, roles, sources, left ends, heights, sizes, how much
closer the letters stand."""


def baselines(
    inks: Sequence[Bounds], hands: tuple[int, ...], gauge: Gauge, valign: str, sizes: Sizes
) -> tuple[float, ...]:
    """The height (pt) of each baseline above the envelope's lower edge.

    The leading is the set's, or the size's own where a smaller block must be closer to fit. The
    block is moved off the rule only as far as it takes to keep all ink in the room. Of two columns
    at the room's edge the first or last baselines are at one height, whatever their hands. Heights
    that no line measured so far would move are worked out once.
    """
    key = hands, sizes[0]
    levels = gauge.levels.get(key)
    if levels is None:
        low, high = gauge.reach
        farthest = [(0.0, low, 0.0, high)] * len(hands)
        rest, moved = _baselines(farthest, hands, gauge, valign, sizes)
        levels = gauge.levels[key] = () if moved else rest
    return levels or _baselines(inks, hands, gauge, valign, sizes)[0]


def _baselines(
    inks: Sequence[Bounds], hands: tuple[int, ...], gauge: Gauge, valign: str, sizes: Sizes
) -> tuple[tuple[float, ...], bool]:
    """The heights, and whether the ink has any part in them."""
    room, (size, leading) = gauge.room, sizes
    sinks = leading.sinks(hands)
    top, bottom = extent(inks, size, sinks)
    closer = top - bottom > room.height + SLACK
    if closer:
        sinks = gauge.leading.at(size).sinks(hands)
        top, bottom = extent(inks, size, sinks)
    depth, first, last = sinks[-1], gauge.hands[hands[0]], gauge.hands[hands[-1]]
    beside = gauge.hands if gauge.arrangement.gutter is not None else ()
    if valign == "top":
        baseline = room.top - max([each.above for each in beside] or [first.above]) * size
    elif valign == "bottom":
        baseline = room.bottom + depth - min([each.below for each in beside] or [last.below]) * size
    else:
        baseline = room.bottom + (room.height + depth - first.capital * size) / 2
    kept = max(min(baseline, room.top - top), room.bottom - bottom)
    return _levels(kept, sinks), closer or kept != baseline


@lru_cache(LEVELS_KEPT)
def _levels(first: float, sinks: tuple[float, ...]) -> tuple[float, ...]:
    """The heights of baselines to a thousandth; of most pieces the first stands equally high."""
    return tuple([round(first - sunk, 3) for sunk in sinks])


def _heights(
    taken: Taken,
    hands: tuple[int, ...],
    inks: Sequence[Bounds],
    gauge: Gauge,
    valign: str,
    sizes: Sizes,
) -> tuple[float, ...]:
    """The height (pt) of each baseline: of a block, of two columns side by side, or of arcs."""
    if gauge.arrangement.bow:
        return _bent_baselines(taken, hands, gauge, valign, sizes[0])
    if gauge.arrangement.gutter is None or len(set(hands)) == 1:
        return baselines(inks, hands, gauge, valign, sizes)
    heights = [0.0] * len(hands)
    for column in sorted(set(hands)):
        own = [number for number, hand in enumerate(hands) if hand == column]
        inked = [inks[number] for number in own]
        levels = baselines(inked, (column,) * len(own), gauge, valign, sizes)
        for number, level in zip(own, levels, strict=True):
            heights[number] = level
    return tuple(heights)


def _bent_baselines(
    taken: Taken, hands: tuple[int, ...], gauge: Gauge, valign: str, size: float
) -> tuple[float, ...]:
    """Arcs are placed by the bounds of all their ink, with the leading of their own size."""
    room = gauge.room
    sinks = gauge.leading.at(size).sinks(hands)
    _, bottom, _, top = gauge.bent_extent(taken.parts, size, taken.tighter) or (0.0,) * 4
    share = {"top": 1.0, "bottom": 0.0}.get(valign, 0.5)
    first = room.bottom - bottom + share * (room.height - top + bottom)
    return _levels(first, sinks)


def is_level(hands: tuple[int, ...], size: float, gauge: Gauge) -> bool:
    """Whether level lines in these hands were placed at heights that none measured would move."""
    plain = not gauge.arrangement.bow and gauge.arrangement.gutter is None
    return plain and bool(gauge.levels.get((hands, size)))


def left_ends(
    texts: Sequence[str], inks: Sequence[Bounds], hands: Sequence[int], gauge: Gauge, size: float
) -> list[float]:
    """The x (pt) of each line's origin, to a thousandth as it is printed."""
    arranged = gauge.arrangement
    mirrored = arranged.mirrored(texts[0])
    starts = arranged.starts(inks, hands, gauge.room, size, mirrored=mirrored)
    return list(map(round, starts, _THOUSANDTHS))


def place(
    piece: Piece, taken: Taken, inks: Sequence[Bounds], gauge: Gauge, valign: str, sizes: Sizes
) -> Placed:
    """Where the lines of a piece stand; `inks` are their bounds.

    Places are rounded to thousandths of a point, as they are printed.
    """
    size = sizes[0]
    texts, sources, hands = zip(*taken.parts, strict=True)
    lines = piece.wordings[taken.wording].lines
    own = [hand.at(size) for hand in gauge.hands]
    return (
        texts,
        tuple([lines[source].role for source in sources]),
        sources,
        left_ends(texts, inks, hands, gauge, size),
        _heights(taken, hands, inks, gauge, valign, sizes),
        tuple([own[hand] for hand in hands]),
        taken.tighter or (0,) * len(hands),
    )
