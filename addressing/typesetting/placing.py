"""Where each line stands: centred by its ink, the block by its capitals and its last baseline.

Blocks are centred one by one, each by the optical middle that the eye takes: from the capitals'
height of the first line to the baseline of the last, by the face's own measure and not by the
ink of these words. So two envelopes with the same number of lines have the same baselines, and a
line more moves the block by half a leading: the row looks like one hand. Lines are centred by
ink, since a script's swash would push them up to 3 pt off by their advances (measured).
"""

from collections.abc import Sequence

from addressing.records.pages import SetLine
from addressing.records.pieces import Piece
from addressing.typesetting.measuring import Gauge, extent
from addressing.typesetting.outlines import Bounds
from addressing.typesetting.taking import SLACK, Taken


def baseline_and_leading(
    inks: Sequence[Bounds], gauge: Gauge, valign: str, size: float, leading: float
) -> tuple[float, float]:
    """The height (pt) of the first baseline above the envelope's lower edge, and the leading.

    The leading is the set's, or the size's own where a smaller block must be closer to fit. The
    baseline is moved off the rule only as far as it takes to keep all ink in the room.
    """
    room = gauge.room
    top, bottom = extent(inks, size, leading)
    if top - bottom > room.height + SLACK:
        leading = size * gauge.leading
        top, bottom = extent(inks, size, leading)
    depth = (len(inks) - 1) * leading
    if valign == "top":
        baseline = room.top - gauge.above * size
    elif valign == "bottom":
        baseline = room.bottom + depth - gauge.below * size
    else:
        baseline = room.bottom + (room.height + depth - gauge.capital * size) / 2
    return max(min(baseline, room.top - top), room.bottom - bottom), leading


def place(
    piece: Piece, taken: Taken, gauge: Gauge, valign: str, sizes: tuple[float, float]
) -> tuple[SetLine, ...]:
    """Put the lines of a piece where they stand; `sizes` are (size, leading).

    Places are rounded to thousandths of a point, as they are printed.
    """
    size, leading = sizes
    inks = [gauge.ink(text) for text, _ in taken.parts]
    baseline, leading = baseline_and_leading(inks, gauge, valign, size, leading)
    lines = piece.wordings[taken.wording].lines
    starts = gauge.arrangement.starts(inks, gauge.room, size)
    placed = [
        SetLine(
            text,
            lines[source].role,
            source,
            round(start, 3),
            round(baseline - number * leading, 3),
            size,
        )
        for number, ((text, source), start) in enumerate(zip(taken.parts, starts, strict=True))
    ]
    return tuple(placed)
