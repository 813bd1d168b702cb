"""Where the ink of a page falls: inside its room, in line with its zone, evenly led."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from addressing.preflight.lines import DrawnLine
from addressing.records.pages import SetLine, Setting
from addressing.records.shelf import Box

ROOM_SLACK = 0.005
"""Points: places are written to a thousandth; the scale's eighth decimal adds less than that."""
ALIGN_SLACK = 0.005
"""Points, for the same reason: bounds are exact on both sides (seen: never more than 0.0006)."""
LEADING_SLACK = 0.003
"""Points: two baselines, each written to a thousandth."""

Placed = Sequence[tuple[SetLine, DrawnLine]]


def ink_box(line: SetLine, drawn: DrawnLine, units_per_em: int) -> Box:
    """The bounds of a line's ink on the page, in points."""
    scale = line.size / units_per_em
    return Box(
        line.x + drawn.left * scale,
        line.y + drawn.bottom * scale,
        (drawn.right - drawn.left) * scale,
        (drawn.top - drawn.bottom) * scale,
    )


def place_faults(placed: Placed, setting: Setting, units_per_em: int) -> Iterator[str]:
    """What lies where it may not, or out of line with the rest of the page."""
    room, align = setting.room, setting.zone.align
    low, high = room.bottom - ROOM_SLACK, room.top + ROOM_SLACK
    first, last = room.left - ROOM_SLACK, room.right + ROOM_SLACK
    for number, (line, drawn) in enumerate(placed, start=1):
        scale = line.size / units_per_em
        left, right = line.x + drawn.left * scale, line.x + drawn.right * scale
        bottom, top = line.y + drawn.bottom * scale, line.y + drawn.top * scale
        if left < first or right > last or bottom < low or top > high:
            yield f"has ink of line {number} outside the room that it may use"
        centred = (left + right - first - last) / 2
        aside = centred if align == "centre" else left - room.left
        if abs(aside) > ALIGN_SLACK:
            yield f"has line {number} {abs(aside):.3f} pt out of line"
    yield from _leading_faults([line for line, _ in placed], setting)


def _leading_faults(lines: list[SetLine], setting: Setting) -> Iterator[str]:
    """Baselines go down by equal steps: the set's leading, in proportion when set smaller."""
    for number, (upper, lower) in enumerate(pairwise(lines), start=1):
        step = upper.y - lower.y
        wanted = setting.leading * lower.size / setting.size
        if abs(step - wanted) > LEADING_SLACK and abs(step - setting.leading) > LEADING_SLACK:
            yield f"has lines {number} and {number + 1} {step:.3f} pt apart, not {wanted:.3f}"
