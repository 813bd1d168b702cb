"""Room for stamps on a piece, and the refusal where they leave too little for the words."""

from collections.abc import Callable
from dataclasses import replace

from addressing.faults import Fault
from addressing.records.findings import Finding, Severity
from addressing.records.pages import Setting
from addressing.records.shelf import Box, Layout
from addressing.units import mm_to_pt

STAMP_WIDTH = mm_to_pt(25.4)
"""Room for each further stamp beside the first (common practice: stamps are 22 by 25 mm)."""

_IN_A_ROW = 3
"""Stamps side by side; more go into a second row."""

Fitted = tuple[Setting, tuple[Finding, ...]]


def with_stamps(layout: Layout, stamps: int) -> Layout:
    """The layout with a stamp area for so many stamps, grown to the left and down.

    A layout without an area named "stamp" stays as it is; without stamps the area is free.
    """
    if not stamps:
        clear = tuple((name, area) for name, area in layout.clear if name != "stamp")
        return replace(layout, clear=clear)
    across, down = _rows(stamps)

    def grown(area: Box) -> Box:
        left = max(area.left - (across - 1) * STAMP_WIDTH, 0.0)
        height = area.height * down
        return Box(left, area.top - height, area.right - left, height)

    clear = tuple((name, grown(area) if name == "stamp" else area) for name, area in layout.clear)
    return replace(layout, clear=clear)


def _rows(stamps: int) -> tuple[int, int]:
    """How many stamps stand side by side, and in how many rows: four are two by two."""
    rows = -(-stamps // _IN_A_ROW)
    return -(-stamps // rows), rows


def fitted_beside(fit: Callable[[int], Fitted], stamps: int, kind: str) -> Fitted:
    """A set fitted beside so many stamps; what would have room beside one is put down to them.

    Raises:
        Fault: as `fit`, with the stamps named where they are why (exit 3).
    """
    if stamps <= 1:
        return fit(stamps)
    try:
        setting, found = fit(stamps)
    except Fault as fault:
        if fault.code != "layout-unfit" or _fails(fit):
            raise
        text = f"{fault.text} {_taken(stamps)}"
        raise Fault(fault.exit, fault.code, text, _fewer(kind), fault.where) from fault
    if not any(each.severity is Severity.STOP for each in found):
        return setting, found
    stopped = {(each.code, each.where) for each in fit(1)[1]}
    return setting, tuple(
        each
        if each.severity is not Severity.STOP or (each.code, each.where) in stopped
        else replace(each, text=f"{each.text} {_taken(stamps)}", mend=f"{_fewer(kind)} {each.mend}")
        for each in found
    )


def _fails(fit: Callable[[int], Fitted]) -> bool:
    """True when not even one stamp leaves room."""
    try:
        fit(1)
    except Fault:
        return True
    return False


def _taken(stamps: int) -> str:
    across, down = _rows(stamps)
    rows = "a row" if down == 1 else f"{down} rows"
    return f"The room for {stamps} stamps ({rows} of {across}) is why: beside one it fits."


def _fewer(kind: str) -> str:
    key = "reply_stamps" if kind == "reply" else "stamps"
    return f"Put fewer on it ({key}, under [post] in the docket), or take a larger layout."
