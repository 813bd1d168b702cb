"""Which way an envelope is laid on the page that a device takes, and what of it can be inked."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace

from addressing.faults import Exit, Fault
from addressing.records.affine import (
    moved,
    moved_box,
    on_page,
    size_turned,
    true_place,
    turned,
    undone,
)
from addressing.records.docket import FeedChoice
from addressing.records.lays import WAYS, Edges, Lay
from addressing.records.shelf import Box, Device, Feed, Layout, Sheet, Stock
from addressing.units import mm_to_pt, pt_to_mm
from addressing.where import Where

SLACK = mm_to_pt(0.05)
"""Sizes are measured with rulers."""
NAMED = 3
"""So many of the nearest sizes are named."""
SAFE_OFF = 0.01
"""Points that an edge moves inwards beside what a calibration asks for: room is rounded."""

_TURNED_BY_FLAP = {"lead": 0, "left": 90, "trail": 180, "right": 270}
_MIRRORED = {"left": "right", "right": "left"}


def lay_for(
    device: Device,
    layout: Layout,
    choice: FeedChoice,
    others: Callable[[], Iterable[Layout]] = tuple,
) -> Lay:
    """How the layout's envelope lies on its page: the docket's way, else the first that works.

    `others` gives the layouts from which the mend names the nearest ones that work and have the
    same zones.

    Raises:
        Fault: exit 3; `layout-not-fed`: no way works for this size; `sheet-unknown`, `way-unknown`:
            the docket names a sheet that the device doesn't take, a way for which it has none.
    """
    ways = ways_of(device)
    if choice.way not in (None, *ways):
        raise _no_way(device, str(choice.way), ways)
    if choice.sheet not in (None, *(sheet.key for sheet in device.sheets)):
        raise _no_sheet(device, str(choice.sheet))
    lay = _lay(device, layout, choice)
    if lay is None:
        raise _not_fed(device, layout, choice, others())
    return lay


def ways_of(device: Device) -> tuple[str, ...]:
    """The ways in which a docket may lay an envelope on a device."""
    there = {"sheet": bool(device.sheets), "carrier": device.carrier is not None}
    return tuple(way for way in WAYS if there.get(way, True))


def _lay(device: Device, layout: Layout, choice: FeedChoice) -> Lay | None:
    ways = (choice.way,) if choice.way is not None else device.ways
    return next(_laid(device, layout, ways, choice.sheet), None)


def _laid(device: Device, layout: Layout, ways: Iterable[str], sheet: str | None) -> Iterator[Lay]:
    """Every lay that works, in the order of the ways."""
    fed = feeds(device, layout)
    listed = not device.sizes or layout.key in device.sizes
    for way in ways:
        if way in {"envelope", "turned"} and fed and listed:
            yield _alone(device, layout, way)
        elif way == "sheet" and fed:
            for each in device.sheets:
                if sheet in (None, each.key):
                    yield from _on_sheet(device, layout, way, each)
        elif way == "carrier" and device.carrier is not None:
            yield from _on_sheet(device, layout, way, device.carrier)


def turn_of(feed: Feed, layout: Layout) -> int:
    """By how much the envelope, read upright, is turned as it goes in, seen from the printed side.

    The flap is at the top edge. An envelope that is higher than wide has it at a short edge.
    """
    flap = _MIRRORED.get(feed.flap, feed.flap) if feed.face == "down" else feed.flap
    turn = _TURNED_BY_FLAP[flap]
    return turn if layout.width >= layout.height else (turn + 270) % 360


def feeds(device: Device, layout: Layout) -> bool:
    """True when the envelope, as it goes in, lies within what the device takes."""
    trim = (layout.width, layout.height)
    across, along = size_turned(turn_of(device.feed, layout), trim)
    return (
        device.smallest[0] - SLACK <= across <= device.largest[0] + SLACK
        and device.smallest[1] - SLACK <= along <= device.largest[1] + SLACK
    )


def edges_of(device: Device) -> Edges:
    """What the device leaves unprinted, edge by edge."""
    return device.edges or Edges(*(device.margin,) * 4)


def _alone(device: Device, layout: Layout, way: str) -> Lay:
    feed = turn_of(device.feed, layout)
    turn = (feed - device.feed.rotation) % 360 if way == "turned" else 0
    page = size_turned(turn, (layout.width, layout.height))
    return Lay(way, page, turn, feed, "left", 0.0, edges_of(device))


def _on_sheet(device: Device, layout: Layout, way: str, sheet: Sheet) -> Iterator[Lay]:
    """The envelope at the lead of a sheet, at the side where the device feeds; none if too large.

    On a carrier it lies within the carrier's printable part, in the middle.
    """
    page = sheet.page
    feed, edges = turn_of(device.feed, layout), edges_of(device)
    wide, high = size_turned(feed, (layout.width, layout.height))
    if wide > page[0] + SLACK or high > page[1] + SLACK:
        return
    lead, side = 0.0, device.feed.side
    if way == "carrier":
        lead, side = max((page[1] - high) / 2, 0.0), "centre"
    if device.feed.rotation:
        lead, side = page[1] - high - lead, _MIRRORED.get(side, side)
    turn = (feed - device.feed.rotation) % 360
    yield Lay(way, page, turn, feed, side, round(lead, 3), edges)


def within_reach(layout: Layout, lay: Lay) -> Layout:
    """The layout with its safe area cut down to what can be inked when it lies like this.

    That is the envelope within the device's edges, on a larger page within the page's too, and
    less on each side by as much as a calibration moves ink outwards there.
    """
    trim = (layout.width, layout.height)
    safe = _shared(layout.safe, _reach(lay, trim))
    if lay.calibration is not None:
        asked = undone(true_place(lay.calibration))
        safe = _less(safe, trim, lambda x, y: moved(asked, x, y))
    return replace(layout, safe=safe)


def _reach(lay: Lay, trim: tuple[float, float]) -> Box:
    """What the device can ink, in the piece's own points."""
    wide, high = size_turned(lay.feed, trim)
    edges = lay.edges
    inked = _inset(Box(0.0, 0.0, wide, high), edges)
    if lay.way in {"sheet", "carrier"}:
        plain = replace(lay, calibration=None, turn=lay.feed)
        if lay.turn != lay.feed:  # the driver turns the sheet by half
            side = _MIRRORED.get(lay.side, lay.side)
            plain = replace(plain, side=side, lead=lay.page[1] - high - lay.lead)
        to_page = on_page(plain, trim)
        sheet = _inset(Box(0.0, 0.0, *lay.page), edges)
        return _shared(
            moved_box(undone(turned(lay.feed, trim)), inked), moved_box(undone(to_page), sheet)
        )
    return moved_box(undone(turned(lay.feed, trim)), inked)


def _inset(box: Box, edges: Edges) -> Box:
    width, height = box.width - edges.left - edges.right, box.height - edges.lead - edges.trail
    return Box(box.left + edges.left, box.bottom + edges.trail, width, height)


def _shared(one: Box, other: Box) -> Box:
    left, bottom = max(one.left, other.left), max(one.bottom, other.bottom)
    right, top = min(one.right, other.right), min(one.top, other.top)
    return Box(left, bottom, right - left, top - bottom)


def _less(
    box: Box, trim: tuple[float, float], asked: Callable[[float, float], tuple[float, float]]
) -> Box:
    """The box less what any corner of the piece is moved outwards."""
    corners = [(x, y) for x in (0.0, trim[0]) for y in (0.0, trim[1])]
    steps = [(asked(x, y)[0] - x, asked(x, y)[1] - y) for x, y in corners]
    right, up = (max(0.0, *(step[axis] for step in steps)) + SAFE_OFF for axis in (0, 1))
    left, down = (max(0.0, *(-step[axis] for step in steps)) + SAFE_OFF for axis in (0, 1))
    return Box(box.left + left, box.bottom + down, box.width - left - right, box.height - up - down)


def _no_sheet(device: Device, name: str) -> Fault:
    takes = ", ".join(sheet.key for sheet in device.sheets) or "none"
    return Fault(
        Exit.INPUT,
        "sheet-unknown",
        f'{device.title} takes no sheet named "{name}". It takes: {takes}.',
        "Choose one of these in [device] of the docket, or add it to the device's sheets.",
        Where("docket:device.sheet"),
    )


def _no_way(device: Device, way: str, ways: tuple[str, ...]) -> Fault:
    """The record names no sheet that would go in that way."""
    what = "no carrier" if way == "carrier" else "no sheets"
    return Fault(
        Exit.INPUT,
        "way-unknown",
        f'{device.title} can\'t be fed by way of "{way}": its record names {what}.',
        f"Choose {' or '.join(ways)} in [device] of the docket, or add it to the device's record.",
        Where("docket:device.way"),
    )


def _not_fed(device: Device, layout: Layout, choice: FeedChoice, others: Iterable[Layout]) -> Fault:
    """What doesn't fit, and the nearest sizes that do."""
    kinds = {zone.kind for zone in layout.zones}
    fit = [
        each
        for each in others
        if kinds <= {zone.kind for zone in each.zones} and _lay(device, each, choice) is not None
    ]
    fit.sort(key=lambda each: (_apart(each, layout), each.key))
    near = [each.key for each in fit[:NAMED]]
    *first, last = near or [""]
    named = f"{', '.join(first)} or {last}" if first else last
    mend = f"The nearest that it takes: {named}." if near else "Choose another size."
    else_so = next(_laid(device, layout, device.ways, choice.sheet), None)
    if else_so is not None:
        mend = f'It goes in with way = "{else_so.way}" in [device] of the docket. {mend}'
    return Fault(
        Exit.INPUT,
        "layout-not-fed",
        _why_not(device, layout, choice),
        f"{mend} Or choose another device or a shop.",
    )


def _why_not(device: Device, layout: Layout, choice: FeedChoice) -> str:
    """What the device takes, beside what it is given."""
    if feeds(device, layout) and device.sizes and layout.key not in device.sizes:
        known = ", ".join(device.sizes)
        return f"{device.title} has no size for {layout.title} in its driver; it has: {known}."
    least, most = (_size(size) for size in (device.smallest, device.largest))
    way = f", laid as {choice.way}" if choice.way is not None else ""
    return (
        f"{device.title} takes {least} to {most}{way}; "
        f"{layout.title} is {_size((layout.width, layout.height))}"
        f"{_as_it_goes_in(device, layout)}."
    )


def _as_it_goes_in(device: Device, layout: Layout) -> str:
    """Which edge leads, where that is not the usual short one."""
    return (
        ", long edge first" if device.feed.edge == "long" and layout.width > layout.height else ""
    )


def _apart(one: Layout, other: Layout) -> float:
    return abs(one.width - other.width) + abs(one.height - other.height)


def _size(size: tuple[float, float]) -> str:
    return " × ".join(f"{pt_to_mm(side):.5g}" for side in size) + " mm"


def check_stock(
    device: Device, stock: Stock, others: Callable[[], Iterable[Device]] = tuple
) -> str | None:
    """A caution for a paper on a device; None when there is nothing to say.

    Of `others` the mend names those that may take the paper.

    Raises:
        Fault: exit 3, `stock-not-fed`: the device can't print on this surface.
    """
    limits = device.stock
    if stock.surface in limits.never:
        raise Fault(
            Exit.INPUT,
            "stock-not-fed",
            f"{device.title} can't print on {stock.title}: its surface is {stock.surface}.",
            f"Choose another paper, {_elsewhere(stock, others())}, or a shop that prints on it.",
        )
    if stock.surface in limits.test_first:
        return f"{stock.title} is {stock.surface}: test one envelope first, rub it and tape it."
    return None


def _elsewhere(stock: Stock, others: Iterable[Device]) -> str:
    """The devices whose records don't rule a paper out."""
    able = [each for each in others if stock.surface not in each.stock.never]
    if not able:
        return "another device"
    named = (
        each.title + (" (after a trial)" if stock.surface in each.stock.test_first else "")
        for each in able
    )
    return " or ".join(named)
