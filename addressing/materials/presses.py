"""Where a job is printed: home devices and shops, what ink they have and what they can feed."""

from collections.abc import Iterable, Mapping
from dataclasses import replace
from pathlib import Path
from typing import Annotated, Literal

from pydantic import Field

from addressing.faults import Exit, Fault
from addressing.materials.inks import PROCESS
from addressing.materials.nearest import any_of
from addressing.materials.reading import (
    Entry,
    Loc,
    Problem,
    Source,
    checked,
    checked_tables,
    read_toml,
    wrong,
)
from addressing.records.shelf import Device, Ink, Layout, Press, Shop
from addressing.units import mm_to_pt, pt_to_mm

Side = Annotated[float, Field(gt=0, le=2000)]
Words = Annotated[str, Field(min_length=1)]
Channel = Literal["cyan", "magenta", "yellow", "black"]


class DeviceFile(Entry):
    """A home device; the sizes are its short and its long side, whichever way it feeds."""

    title: Words
    method: Literal["toner", "inkjet"]
    margin_mm: float = Field(ge=0, le=50)
    load: int = Field(ge=1, le=1000)
    smallest_mm: list[Side] = Field(min_length=2, max_length=2)
    largest_mm: list[Side] = Field(min_length=2, max_length=2)
    inks: list[Words] = Field(min_length=1)
    slots: dict[str, Channel] = Field(default_factory=dict)
    steps: list[Words] = Field(default_factory=list)
    after: list[Words] = Field(default_factory=list)
    cautions: list[Words] = Field(default_factory=list)


def read_device(path: Path) -> Device:
    """The device in a TOML file of its own; its key is the file's name without the suffix.

    Raises:
        Fault: exit 3, `device-…`: the file can't be read or says what can't be.
    """
    source = read_toml("device", path)
    return _devices({path.stem: checked(DeviceFile, source)}, source, own_file=True)[0]


def read_devices(path: Path) -> tuple[Device, ...]:
    """The devices in a TOML file with one table each, in its order.

    Raises:
        Fault: exit 3, `device-…`: the file can't be read or says what can't be.
    """
    source = read_toml("device", path)
    return _devices(checked_tables(DeviceFile, source), source, own_file=False)


def _devices(
    entries: Mapping[str, DeviceFile], source: Source, *, own_file: bool
) -> tuple[Device, ...]:
    problems = [
        problem
        for key, entry in entries.items()
        for problem in _device_problems(entry, () if own_file else (key,))
    ]
    if problems:
        raise wrong(source, problems)
    return tuple(_device(key, entry) for key, entry in entries.items())


def _device_problems(entry: DeviceFile, loc: Loc) -> list[Problem]:
    problems = [
        Problem((*loc, "slots", ink), "it isn't among the device's inks.", "add it to inks.")
        for ink in entry.slots
        if ink not in entry.inks
    ]
    pairs = zip(_sides(entry.smallest_mm), _sides(entry.largest_mm), strict=True)
    if any(least > most for least, most in pairs):
        mend = "measure again: the least size is larger than the largest."
        problems.append(Problem((*loc, "smallest_mm"), "no envelope fits between.", mend))
    return problems


def _device(key: str, entry: DeviceFile) -> Device:
    return Device(
        key=key,
        title=entry.title,
        method=entry.method,
        margin=mm_to_pt(entry.margin_mm),
        load=entry.load,
        smallest=_sides(entry.smallest_mm),
        largest=_sides(entry.largest_mm),
        inks=tuple(entry.inks),
        slots=tuple(entry.slots.items()),
        steps=tuple(entry.steps),
        after=tuple(entry.after),
        cautions=tuple(entry.cautions),
    )


def _sides(sizes: list[float]) -> tuple[float, float]:
    """The short and the long side in points."""
    short, long = sorted(mm_to_pt(side) for side in sizes)
    return short, long


def ink_for(press: Press | None, ink: Ink) -> Ink:
    """The ink as this device or shop lays it down.

    A device with a slot for it gives it that slot's channel; a shop gives it its own spot name
    (a process colour's name gives that channel instead). Without a press it stays as it is.

    Raises:
        Fault: exit 3, `ink-not-there`: the device or shop doesn't have it.
    """
    if press is None:
        return ink
    if isinstance(press, Shop):
        names = dict(press.inks)
        if ink.key not in names:
            raise _not_there(press, ink, names)
        spot = names[ink.key]
        channel = spot.casefold() if spot.casefold() in PROCESS else None
        return replace(ink, spot=spot, channel=channel)
    if ink.key not in press.inks:
        raise _not_there(press, ink, press.inks)
    return replace(ink, channel=dict(press.slots).get(ink.key, ink.channel))


def _not_there(press: Press, ink: Ink, there: Iterable[str]) -> Fault:
    names = ", ".join(there)
    return Fault(
        Exit.INPUT,
        "ink-not-there",
        f"{press.title} can't lay down {ink.key}. It has: {names}.",
        "Choose one of these inks, or another device or shop.",
    )


def feeds(device: Device, layout: Layout) -> bool:
    """True when the envelope's short and long side lie within what the device takes."""
    short, long = sorted((layout.width, layout.height))
    slack = 0.05
    return (
        device.smallest[0] - slack <= short <= device.largest[0] + slack
        and device.smallest[1] - slack <= long <= device.largest[1] + slack
    )


def check_feed(press: Press | None, layout: Layout, others: Iterable[Layout] = ()) -> None:
    """Say nothing when the layout can be fed; a shop and no press at all take any.

    `others` are the layouts from which the mend names the nearest that can be fed and that have
    the same zones.

    Raises:
        Fault: exit 3, `layout-not-fed`: the device doesn't take this size.
    """
    if press is None or isinstance(press, Shop) or feeds(press, layout):
        return
    kinds = {zone.kind for zone in layout.zones}
    fit = [
        each
        for each in others
        if feeds(press, each) and kinds <= {zone.kind for zone in each.zones}
    ]
    fit.sort(key=lambda each: (_apart(each, layout), each.key))
    near = [each.key for each in fit[:3]]
    least, most = (_size(size) for size in (press.smallest, press.largest))
    mend = f"The nearest that it takes: {any_of(near)}." if near else "Choose another size."
    raise Fault(
        Exit.INPUT,
        "layout-not-fed",
        f"{press.title} takes {least} to {most}; "
        f"{layout.title} is {_size((layout.width, layout.height))}.",
        f"{mend} Or choose another device or a shop.",
    )


def _apart(one: Layout, other: Layout) -> float:
    return abs(one.width - other.width) + abs(one.height - other.height)


def _size(size: tuple[float, float]) -> str:
    return " × ".join(f"{pt_to_mm(side):.5g}" for side in size) + " mm"
