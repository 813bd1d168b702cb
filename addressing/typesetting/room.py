"""Where ink may fall on an envelope: the zone, less what can't or mustn't be printed on."""

import math

from addressing.faults import Exit, Fault
from addressing.records.shelf import Box, Layout, Zone
from addressing.where import Where

POSTED = frozenset({"outer", "reply"})
"""Pieces that the post reads by machine: they keep off the areas for bar code and stamp."""


def room_for(layout: Layout, kind: str, margin: float) -> tuple[Zone, Box]:
    """The zone for a kind of piece and the room in it, in points.

    The room is the part of the zone that lies in the safe area and at least `margin` (the edge
    that the press can't print, points) from every edge; on a posted piece, and for a return on its
    front, also off the areas to keep clear. Its edges are whole thousandths of a point, rounded
    inwards.

    Raises:
        Fault: the layout has no zone for the kind, or no room is left in it (exit 3).
    """
    zone = layout.zone(kind)
    if zone is None:
        raise _unfit(layout, f"has no zone for the {kind} piece", "Choose a layout that has one.")
    envelope = Box(margin, margin, layout.width - 2 * margin, layout.height - 2 * margin)
    room = overlap(overlap(zone.box, layout.safe), envelope)
    if kind in POSTED or (kind == "return" and zone.side == "front"):
        for _, clear in layout.clear:
            room = off(room, clear)
    room = _inwards(room)
    if room.width <= 0 or room.height <= 0:
        raise _unfit(
            layout,
            f"leaves no room for ink in the zone of the {kind} piece",
            "Move the zone away from the edge and the clear areas, or choose another press.",
        )
    return zone, room


def overlap(one: Box, other: Box) -> Box:
    """What two boxes share; its width or height is negative when they are apart."""
    left, bottom = max(one.left, other.left), max(one.bottom, other.bottom)
    right, top = min(one.right, other.right), min(one.top, other.top)
    return Box(left, bottom, right - left, top - bottom)


def off(box: Box, clear: Box) -> Box:
    """The largest part of a box that is wholly above, below or beside an area to keep clear."""
    shared = overlap(box, clear)
    if shared.width <= 0 or shared.height <= 0:
        return box
    parts = (
        Box(box.left, clear.top, box.width, box.top - clear.top),
        Box(box.left, box.bottom, box.width, clear.bottom - box.bottom),
        Box(box.left, box.bottom, clear.left - box.left, box.height),
        Box(clear.right, box.bottom, box.right - clear.right, box.height),
    )
    return max(parts, key=lambda part: max(part.width, 0) * max(part.height, 0))


def _inwards(box: Box) -> Box:
    left, bottom = (
        math.ceil(box.left * 1000 - 1e-6) / 1000,
        math.ceil(box.bottom * 1000 - 1e-6) / 1000,
    )
    right, top = (
        math.floor(box.right * 1000 + 1e-6) / 1000,
        math.floor(box.top * 1000 + 1e-6) / 1000,
    )
    return Box(left, bottom, right - left, top - bottom)


def _unfit(layout: Layout, what: str, mend: str) -> Fault:
    return Fault(
        Exit.INPUT, "layout-unfit", f"The layout {layout.title} {what}.", mend, Where(layout.key)
    )
