"""Where the ink of a page falls: inside its room, in line with its zone, evenly led."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from addressing.preflight.direction import reads_leftwards
from addressing.preflight.hanging import EndsOf
from addressing.preflight.lines import DrawnLine
from addressing.preflight.turning import Wanted, level_room
from addressing.records.pages import Second, Setting, hand_of
from addressing.records.pieces import Role
from addressing.records.set_lines import SetLine
from addressing.records.shelf import Box

ROOM_SLACK = 0.005
"""Points: places are written to a thousandth; the scale's eighth decimal adds less than that."""
ALIGN_SLACK = 0.005
"""Points, for the same reason: bounds are exact on both sides (seen: never more than 0.0006)."""
LEADING_SLACK = 0.003
"""Points: two baselines, each written to a thousandth."""
SIZE_SLACK = 1e-5
"""Points: a second hand's size is given to a millionth."""

Placed = Sequence[tuple[SetLine, DrawnLine]]


def ink_box(line: SetLine, drawn: DrawnLine) -> Box:
    """The bounds of a line's ink on the page, in points."""
    size = line.size
    return Box(
        line.x + drawn.left * size,
        line.y + drawn.bottom * size,
        (drawn.right - drawn.left) * size,
        (drawn.top - drawn.bottom) * size,
    )


def place_faults(
    placed: Placed, setting: Setting, drawn: Sequence[Wanted] = (), ends: EndsOf | None = None
) -> Iterator[str]:
    """What lies where it may not, or out of line with the rest of the page.

    `drawn` is what bent or turned lines draw; `ends` tells between which ends a line is centred,
    where that isn't all of its ink.
    """
    yield from _turned_out(drawn, setting.room) if drawn else _room_faults(placed, setting.room)
    lines = [line for line, _ in placed]
    if lines:
        size = _size(lines, setting)
        yield from _tight_faults(lines, setting)
        yield from _size_faults(lines, setting, size)
        yield from _align_faults(placed, setting, size, ends)
        yield from _leading_faults(lines, setting, size)


def _turned_out(drawn: Sequence[Wanted], room: Box) -> Iterator[str]:
    """Bent or turned lines with ink outside the room."""
    out = (each.number for each in drawn if not room.holds(each.box, ROOM_SLACK))
    for number in dict.fromkeys(out):
        yield f"has ink of line {number} outside the room that it may use"


def _room_faults(placed: Placed, room: Box) -> Iterator[str]:
    """Level lines with ink outside the room."""
    low, high = room.bottom - ROOM_SLACK, room.top + ROOM_SLACK
    first, last = room.left - ROOM_SLACK, room.right + ROOM_SLACK
    for number, (line, drawn) in enumerate(placed, start=1):
        size = line.size
        left, right = line.x + drawn.left * size, line.x + drawn.right * size
        bottom, top = line.y + drawn.bottom * size, line.y + drawn.top * size
        if left < first or right > last or bottom < low or top > high:
            yield f"has ink of line {number} outside the room that it may use"


def _ratio(line: SetLine, setting: Setting) -> float:
    """A line's size as a part of its piece's."""
    second = setting.second
    return second.ratio if second is not None and hand_of(line.role) else 1.0


def _size(lines: list[SetLine], setting: Setting) -> float:
    """The piece's size: the names', or what the first line's stands for."""
    if setting.second is None:
        return lines[0].size
    ratios = [_ratio(line, setting) for line in lines]
    first = ratios.index(1.0) if 1.0 in ratios else 0
    return lines[first].size / ratios[first]


def _size_faults(lines: list[SetLine], setting: Setting, size: float) -> Iterator[str]:
    """Each line stands in the size of its hand, and none above the set's."""
    if size > setting.size + SIZE_SLACK:
        yield f"is set in {size:g} pt, larger than the set"
    if setting.second is None and all(line.size == size for line in lines):
        return
    for number, line in enumerate(lines, start=1):
        wanted = size * _ratio(line, setting)
        if abs(line.size - wanted) > SIZE_SLACK:
            yield f"has line {number} in {line.size:g} pt where its hand has {wanted:g}"


def _tight_faults(lines: list[SetLine], setting: Setting) -> Iterator[str]:
    """Letters may stand closer only as far as the docket permits."""
    for number, line in enumerate(lines, start=1):
        if not 0 <= line.tighter <= setting.tighten:
            by = f"closer by {line.tighter / 10:g} %, permitted is {setting.tighten / 10:g}"
            yield f"has letters of line {number} {by}"


def _align_faults(
    placed: Placed, setting: Setting, size: float, ends: EndsOf | None
) -> Iterator[str]:
    """Each line's ink stands where the zone wants it: by the room's edges, or by the first line."""
    boxes = [ink_box(line, drawn) for line, drawn in placed]
    if ends is not None:
        told = [ends(line, drawn) for line, drawn in placed]
        boxes = [
            Box(line.x + left * line.size, box.bottom, (right - left) * line.size, box.height)
            for (line, _), box, (left, right) in zip(placed, boxes, told, strict=True)
        ]
    if setting.zone.align == "columns":
        asides = _columns([line for line, _ in placed], boxes, setting)
    else:
        leftwards = bool(placed) and reads_leftwards(placed[0][0].text)
        asides = (_mirrored if leftwards else _asides)(boxes, size, setting)
    for number, aside in enumerate(asides, start=1):
        if abs(aside) > ALIGN_SLACK:
            yield f"has line {number} {abs(aside):.3f} pt out of line"


def _asides(boxes: list[Box], size: float, setting: Setting) -> list[float]:
    """How far (pt) each line's ink is from where it should be."""
    room, zone = level_room(setting), setting.zone
    if zone.align in {"centre", "arch", "bowl"}:
        return [(box.left + box.right - room.left - room.right) / 2 for box in boxes]
    if zone.align == "left":
        return [box.left - room.left for box in boxes]
    if zone.align == "right":
        return [box.right - room.right for box in boxes]
    far = max(box.right for box in boxes)
    first = boxes[0].left
    middle = (first + far - room.left - room.right) / 2
    block = far - room.right if zone.align == "block-right" else middle
    step = zone.step * size if zone.align == "stepped" else 0.0
    return [
        block,
        *(box.left - first - number * step for number, box in enumerate(boxes[1:], start=1)),
    ]


def _mirrored(boxes: list[Box], size: float, setting: Setting) -> list[float]:
    """The same where the first line is read from the right.

    Lines that else begin under each other end so, in a block at the same place, and step leftwards.
    """
    room, align = level_room(setting), setting.zone.align
    if align not in {"left", "block", "block-right", "stepped"}:
        return _asides(boxes, size, setting)
    last, far = boxes[0].right, min(box.left for box in boxes)
    block = {
        "left": far - room.left,
        "block-right": last - room.right,
    }.get(align, (last + far - room.left - room.right) / 2)
    step = setting.zone.step * size if align == "stepped" else 0.0
    return [
        block,
        *(box.right - last + number * step for number, box in enumerate(boxes[1:], start=1)),
    ]


def _columns(lines: list[SetLine], boxes: list[Box], setting: Setting) -> list[float]:
    """The same of two columns: names end left of the gutter, all else begins right of it."""
    room = level_room(setting)
    middle, half = room.left + room.width / 2, min(setting.zone.gutter, room.width / 2) / 2
    return [
        box.left - middle - half if hand_of(line.role) else box.right - middle + half
        for line, box in zip(lines, boxes, strict=True)
    ]


def _leading_faults(lines: list[SetLine], setting: Setting, size: float) -> Iterator[str]:
    """Baselines go down by the set's leading, or all in proportion where a piece is smaller."""
    pairs = list(pairwise(lines))
    if setting.zone.align == "columns":
        columns = [[line for line in lines if hand_of(line.role) == hand] for hand in (0, 1)]
        pairs = [pair for column in columns for pair in pairwise(column)]
    steps = [upper.y - lower.y for upper, lower in pairs]
    wanted = [setting.leading] * len(steps)
    if setting.second is not None:
        wanted = [
            step_between(upper.role, lower.role, setting.second, setting.leading)
            for upper, lower in pairs
        ]
    if all(abs(step - want) <= LEADING_SLACK for step, want in zip(steps, wanted, strict=True)):
        return
    share = size / setting.size
    for number, (step, want) in enumerate(zip(steps, wanted, strict=True), start=1):
        if abs(step - want * share) > LEADING_SLACK:
            apart = f"{step:.3f} pt apart, not {want * share:.3f}"
            yield f"has lines {number} and {number + 1} {apart}"


def step_between(upper: Role, lower: Role, second: Second, leading: float) -> float:
    """Between two baselines, at the set's size: the mean of their leadings, and a gap (points)."""
    leadings = (leading, second.leading)
    one, other = hand_of(upper), hand_of(lower)
    return (leadings[one] + leadings[other]) / 2 + (second.gap if one != other else 0.0)
