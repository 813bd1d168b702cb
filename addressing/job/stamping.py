"""Room for stamps on a piece, and the refusal where they leave too little for the words."""

from collections.abc import Callable
from dataclasses import replace

from addressing.faults import Fault
from addressing.job.posting import POSTED
from addressing.records.docket import USUAL_STAMP, Post, Size
from addressing.records.findings import Finding, Severity
from addressing.records.pages import Setting
from addressing.records.shelf import Box, Layout
from addressing.units import mm_to_pt

BESIDE = 3.4
"""Millimetres between two stamps: with a usual one of 22 mm an inch for each further one (common
practice, no source)."""

_IN_A_ROW = 3
"""Stamps side by side; more go into a second row, unless it would come down into the address."""

_WIDEST = 0.75
"""No row of stamps takes more of the envelope's width (by eye; no source)."""

Fitted = tuple[Setting, tuple[Finding, ...]]
Fit = Callable[[int, Size], Fitted]
"""Fits a set beside so many stamps of a size."""


def with_stamps(layout: Layout, stamps: int, size: Size = USUAL_STAMP) -> Layout:
    """The layout with a stamp area for so many stamps of a size (mm), grown to the left and down.

    A layout has room for one usual stamp. One without an area named "stamp" stays as it is;
    without stamps the area is free.
    """
    if not stamps:
        clear = tuple((name, area) for name, area in layout.clear if name != "stamp")
        return replace(layout, clear=clear)
    rows = _rows(layout, stamps, size)
    clear = tuple(
        (name, _grown(area, rows, size) if name == "stamp" else area) for name, area in layout.clear
    )
    return replace(layout, clear=clear)


def _grown(area: Box, rows: tuple[int, int], size: Size) -> Box:
    """The area of one usual stamp, for so many side by side and in rows."""
    across, down = rows
    (wide, high), (usual_wide, usual_high) = size, USUAL_STAMP
    width = area.width + mm_to_pt(wide - usual_wide + (across - 1) * (wide + BESIDE))
    height = (area.height + mm_to_pt(high - usual_high)) * down
    left = max(area.right - width, 0.0)
    return Box(left, area.top - height, area.right - left, height)


def _rows(layout: Layout, stamps: int, size: Size) -> tuple[int, int]:
    """How many stamps stand side by side, and in how many rows: four are two by two.

    Where rows come down into the words of a posted piece, fewer and longer rows that leave these
    more of their zone go before them.
    """
    usual = -(-stamps // _IN_A_ROW)
    ways = [(-(-stamps // rows), rows) for rows in range(usual, 0, -1)]
    area = dict(layout.clear).get("stamp")
    if area is None:
        return ways[0]
    zones = [zone.box for zone in layout.zones if zone.kind in POSTED]

    def lost(way: tuple[int, int]) -> float:
        taken = _grown(area, way, size)
        return sum(_shared(taken, zone) for zone in zones)

    wide = _WIDEST * layout.width
    able = [way for way in ways[1:] if _grown(area, way, size).width <= wide]
    return min([ways[0], *able], key=lost)


def _shared(one: Box, other: Box) -> float:
    """The area that two boxes share."""
    across = min(one.right, other.right) - max(one.left, other.left)
    up = min(one.top, other.top) - max(one.bottom, other.bottom)
    return max(across, 0.0) * max(up, 0.0)


def fitted_beside(fit: Fit, post: Post, kind: str, layout: Layout) -> Fitted:
    """A set fitted beside its stamps; what would have room beside a usual one is put down to them.

    Raises:
        Fault: as `fit`, with the stamps named where they are why (exit 3).
    """
    stamps, size = post.stamps_on(kind), post.stamp
    if stamps <= 1 and (not stamps or size == USUAL_STAMP):
        return fit(stamps, size)
    try:
        setting, found = fit(stamps, size)
    except Fault as fault:
        if fault.code != "layout-unfit" or _fails(fit):
            raise
        text = f"{fault.text} {_taken(layout, stamps, size)}"
        raise Fault(fault.exit, fault.code, text, _fewer(kind), fault.where) from fault
    if not any(each.severity is Severity.STOP for each in found):
        return setting, found
    stopped = {(each.code, each.where) for each in fit(1, USUAL_STAMP)[1]}
    taken = _taken(layout, stamps, size)
    return setting, tuple(
        each
        if each.severity is not Severity.STOP or (each.code, each.where) in stopped
        else replace(each, text=f"{each.text} {taken}", mend=f"{_fewer(kind)} {each.mend}")
        for each in found
    )


def _fails(fit: Fit) -> bool:
    """True when not even one usual stamp leaves room."""
    try:
        fit(1, USUAL_STAMP)
    except Fault:
        return True
    return False


def _taken(layout: Layout, stamps: int, size: Size) -> str:
    across, down = _rows(layout, stamps, size)
    rows = "a row" if down == 1 else f"{down} rows"
    many = f"{stamps} stamps ({rows} of {across})" if stamps > 1 else "a stamp"
    if size == USUAL_STAMP:
        return f"The room for {many} is why: beside one it fits."
    return (
        f"The room for {many} of {size[0]:g} × {size[1]:g} mm is why: beside a usual one it fits."
    )


def _fewer(kind: str) -> str:
    key = "reply_stamps" if kind == "reply" else "stamps"
    return (
        f"Put fewer or smaller ones on it ({key}, under [post] in the docket, and stamp_mm), or"
        " take a larger layout."
    )
