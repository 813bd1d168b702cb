"""Room for stamps on a piece, and the refusal where they leave too little for the words."""

from collections.abc import Callable
from dataclasses import replace

from addressing.faults import Fault
from addressing.records.docket import USUAL_STAMP, Post, Size
from addressing.records.findings import Finding, Severity
from addressing.records.pages import Setting
from addressing.records.shelf import Box, Layout
from addressing.units import mm_to_pt

BESIDE = 3.4
"""Millimetres between two stamps: with a usual one of 22 mm an inch for each further one (common
practice, no source)."""

_IN_A_ROW = 3
"""Stamps side by side; more go into a second row."""

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
    across, down = _rows(stamps)
    (wide, high), (usual_wide, usual_high) = size, USUAL_STAMP

    def grown(area: Box) -> Box:
        width = area.width + mm_to_pt(wide - usual_wide + (across - 1) * (wide + BESIDE))
        height = (area.height + mm_to_pt(high - usual_high)) * down
        left = max(area.right - width, 0.0)
        return Box(left, area.top - height, area.right - left, height)

    clear = tuple((name, grown(area) if name == "stamp" else area) for name, area in layout.clear)
    return replace(layout, clear=clear)


def _rows(stamps: int) -> tuple[int, int]:
    """How many stamps stand side by side, and in how many rows: four are two by two."""
    rows = -(-stamps // _IN_A_ROW)
    return -(-stamps // rows), rows


def fitted_beside(fit: Fit, post: Post, kind: str) -> Fitted:
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
        text = f"{fault.text} {_taken(stamps, size)}"
        raise Fault(fault.exit, fault.code, text, _fewer(kind), fault.where) from fault
    if not any(each.severity is Severity.STOP for each in found):
        return setting, found
    stopped = {(each.code, each.where) for each in fit(1, USUAL_STAMP)[1]}
    taken = _taken(stamps, size)
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


def _taken(stamps: int, size: Size) -> str:
    across, down = _rows(stamps)
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
