"""How a layout's envelope goes through a device: its lay, and what was measured there."""

from dataclasses import replace
from pathlib import Path

from addressing.faults import Exit, Fault
from addressing.feeding import Measured, Solved, lay_for, solve
from addressing.materials.calibrations import Place, keep_calibration
from addressing.materials.docket import read_docket
from addressing.materials.shelf import Shelf, open_shelf
from addressing.records.docket import Docket, FeedChoice
from addressing.records.lays import Lay
from addressing.records.shelf import Device, Layout


def lay_of(device: Device, layout: Layout, choice: FeedChoice, shelf: Shelf) -> Lay:
    """The lay of a layout on a device, corrected by what was measured for it.

    Raises:
        Fault: no way works for this size, or the calibrations can't be read (exit 3).
    """
    lay = lay_for(device, layout, choice, lambda: map(shelf.layout, shelf.layouts()))
    place = Place(device.key, choice.tray, layout.key, lay.way)
    return replace(lay, calibration=shelf.calibration(place))


def docket_with(
    docket_path: Path | None, device: str | None, way: str | None, tray: str | None
) -> Docket:
    """The docket, with the device, way and tray that were asked for in the stead of its own.

    Raises:
        Fault: the docket can't be read, or neither it nor the command names a device (exit 3).
    """
    docket = read_docket(docket_path) if docket_path is not None else Docket()
    feed = docket.feed
    feed = replace(feed, way=way or feed.way, tray=tray or feed.tray)
    docket = replace(docket, device=device or docket.device, feed=feed)
    if docket.device is None:
        raise Fault(
            Exit.INPUT,
            "device-missing",
            "Neither the docket nor the command names a device.",
            "Add --device NAME; `addressing devices` lists them.",
        )
    return docket


def calibrate(
    docket: Docket, layout: str, measured: tuple[Measured, ...], folder: Path
) -> tuple[Solved, Path]:
    """Solve what was measured on a test sheet, and keep it in `folder`, the docket's.

    Raises:
        Fault: the device, layout or what was measured (exit 3); it can't be written (exit 4).
    """
    shelf = open_shelf(folder)
    device, envelope = shelf.device(docket.device or ""), shelf.layout(layout)
    way = lay_of(device, envelope, docket.feed, shelf).way
    place = Place(device.key, docket.feed.tray, envelope.key, way)
    solved = solve(str(place), (envelope.width, envelope.height), measured)
    return solved, keep_calibration(folder, place, solved.calibration)
