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
    room = setting.room
    low, high = room.bottom - ROOM_SLACK, room.top + ROOM_SLACK
    first, last = room.left - ROOM_SLACK, room.right + ROOM_SLACK
    for number, (line, drawn) in enumerate(placed, start=1):
        scale = line.size / units_per_em
        left, right = line.x + drawn.left * scale, line.x + drawn.right * scale
        bottom, top = line.y + drawn.bottom * scale, line.y + drawn.top * scale
        if left < first or right > last or bottom < low or top > high:
            yield f"has ink of line {number} outside the room that it may use"
    yield from _align_faults(placed, setting, units_per_em)
    yield from _leading_faults([line for line, _ in placed], setting)


def _align_faults(placed: Placed, setting: Setting, units_per_em: int) -> Iterator[str]:
    """Each line's ink stands where the zone wants it: by the room's edges, or by the first line."""
    boxes = [ink_box(line, drawn, units_per_em) for line, drawn in placed]
    sizes = [line.size for line, _ in placed]
    for number, aside in enumerate(_asides(boxes, sizes, setting), start=1):
        if abs(aside) > ALIGN_SLACK:
            yield f"has line {number} {abs(aside):.3f} pt out of line"


def _asides(boxes: list[Box], sizes: list[float], setting: Setting) -> list[float]:
    """How far (pt) each line's ink is from where it should be."""
    room, zone = setting.room, setting.zone
    if zone.align == "centre":
        return [(box.left + box.right - room.left - room.right) / 2 for box in boxes]
    if zone.align == "left":
        return [box.left - room.left for box in boxes]
    if zone.align == "right":
        return [box.right - room.right for box in boxes]
    far = max(box.right for box in boxes)
    first = boxes[0].left
    middle = (first + far - room.left - room.right) / 2
    block = far - room.right if zone.align == "block-right" else middle
    step = zone.step if zone.align == "stepped" else 0.0
    steps = [number * step * size for number, size in enumerate(sizes)]
    return [
        block,
        *(box.left - first - step for box, step in zip(boxes[1:], steps[1:], strict=True)),
    ]


def _leading_faults(lines: list[SetLine], setting: Setting) -> Iterator[str]:
    """Baselines go down by equal steps: the set's leading, in proportion when set smaller."""
    for number, (upper, lower) in enumerate(pairwise(lines), start=1):
        step = upper.y - lower.y
        wanted = setting.leading * lower.size / setting.size
        if abs(step - wanted) > LEADING_SLACK and abs(step - setting.leading) > LEADING_SLACK:
            yield f"has lines {number} and {number + 1} {step:.3f} pt apart, not {wanted:.3f}"
