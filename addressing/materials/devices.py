"""Home devices: what a person wrote of one in TOML, checked."""

from collections.abc import Iterator, Mapping
from functools import cache
from importlib.resources import files
from pathlib import Path
from typing import Annotated, Literal

from pydantic import Field

from addressing.materials.inks import Surface
from addressing.materials.key_places import Loc
from addressing.materials.nearest import any_of, did_you_mean
from addressing.materials.presses import HitsEntry, hits_of
from addressing.materials.reading import (
    Entry,
    Problem,
    Source,
    checked,
    checked_tables,
    read_toml,
    wrong,
)
from addressing.records.lays import Edges
from addressing.records.shelf import Device, Feed, Sheet, StockLimits
from addressing.units import mm_to_pt

Side = Annotated[float, Field(gt=0, le=2000)]
Words = Annotated[str, Field(min_length=1)]
Channel = Literal["cyan", "magenta", "yellow", "black"]


class EdgesFile(Entry):
    """The unprinted edge, edge by edge, as the stock goes in."""

    lead: float | None = Field(default=None, ge=0, le=100)
    trail: float | None = Field(default=None, ge=0, le=100)
    left: float | None = Field(default=None, ge=0, le=100)
    right: float | None = Field(default=None, ge=0, le=100)


class FeedFile(Entry):
    """How envelopes go in and come out."""

    edge: Literal["short", "long"] = "short"
    side: Literal["left", "centre", "right"] = "centre"
    face: Literal["up", "down"] = "down"
    flap: Literal["left", "right", "lead", "trail"] = "left"
    rotation: Literal[0, 180] = 0
    exit: Literal["face-up", "face-down"] = "face-up"
    pause_minutes: int = Field(default=0, ge=0, le=120)


class StockFile(Entry):
    """What the manual says of paper."""

    lightest_gsm: float | None = Field(default=None, gt=0, le=1000)
    heaviest_gsm: float | None = Field(default=None, gt=0, le=1000)
    thickest_mm: float | None = Field(default=None, gt=0, le=20)
    never: list[Surface] = Field(default_factory=list)
    test_first: list[Surface] = Field(default_factory=list)
    suits: str = Field(default="", max_length=400)


class SetFile(Entry):
    """A lever, an exit, a setting: what to do before the run, and how it is set back."""

    before: Words
    back: Words


class DeviceFile(Entry):
    """A home device; the sizes are across and along its feed, the smaller number across."""

    title: Words
    method: Literal["toner", "inkjet"]
    margin_mm: float = Field(ge=0, le=50)
    edges_mm: EdgesFile | None = None
    load: int = Field(ge=1, le=1000)
    smallest_mm: list[Side] = Field(min_length=2, max_length=2)
    largest_mm: list[Side] = Field(min_length=2, max_length=2)
    feed: FeedFile = Field(default_factory=FeedFile)
    ways: list[Literal["envelope", "turned", "sheet", "carrier"]] = Field(
        default=["envelope", "sheet", "carrier"], min_length=1
    )
    sizes: list[Words] = Field(default_factory=list)
    sheets: list[Words] = Field(default_factory=list)
    carrier: Words | None = None
    takes: Literal["pdf", "rgb"] = "pdf"
    black_only: Words | None = None
    type: Literal["outlines", "live"] = "outlines"
    inks: list[Words] = Field(min_length=1)
    slots: dict[str, Channel] = Field(default_factory=dict)
    stock: StockFile = Field(default_factory=StockFile)
    set: list[SetFile] = Field(default_factory=list)
    hits: list[HitsEntry] = Field(default_factory=list)
    steps: list[Words] = Field(default_factory=list)
    after: list[Words] = Field(default_factory=list)
    cautions: list[Words] = Field(default_factory=list)


class SheetFile(Entry):
    """A standard sheet, upright."""

    title: Words
    size_mm: list[Side] = Field(min_length=2, max_length=2)


@cache
def known_sheets() -> dict[str, Sheet]:
    """The standard sheets by their keys (data/sheets.toml)."""
    path = Path(str(files("addressing"))) / "data" / "sheets.toml"
    tables = checked_tables(SheetFile, read_toml("sheet", path))
    return {
        key: Sheet(key, entry.title, (mm_to_pt(entry.size_mm[0]), mm_to_pt(entry.size_mm[1])))
        for key, entry in tables.items()
    }


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
    problems += [
        Problem((*loc, *key), text, mend)
        for key, text, mend in (*_feed_problems(entry), *_sheet_problems(entry))
    ]
    return problems


def _feed_problems(entry: DeviceFile) -> Iterator[tuple[Loc, str, str]]:
    """What can't be of the way in which envelopes go in, and of what a page takes."""
    flap, edge = entry.feed.flap, entry.feed.edge
    sides = {"short": ("left", "right"), "long": ("lead", "trail")}
    if flap not in sides[edge]:
        text = f'with the {edge} edge first the flap can\'t be "{flap}".'
        yield ("feed", "flap"), text, f"write {any_of(sides[edge])}, or turn the edge round."
    if entry.takes == "rgb" and any(each != "black" for each in entry.slots.values()):
        text = "a driver that makes RGB of all mixes every slot but the black."
        yield ("slots",), text, 'leave the black slot alone, or write takes = "pdf".'
    both = sorted(set(entry.stock.never) & set(entry.stock.test_first))
    if both:
        yield ("stock", "never"), f'"{both[0]}" is in test_first too.', "choose one of them."


def _sheet_problems(entry: DeviceFile) -> Iterator[tuple[Loc, str, str]]:
    """Sheets and ways that don't go together."""
    known = known_sheets()
    for place, name in enumerate(entry.sheets):
        if name not in known:
            yield ("sheets", place), f'there is no sheet "{name}".', did_you_mean(name, known)
    if entry.carrier is not None and entry.carrier not in entry.sheets:
        yield ("carrier",), "it isn't among the device's sheets.", "add it to sheets."
    if entry.ways == ["sheet"] and not entry.sheets:
        yield ("sheets",), "the only way is on a sheet, and there is none.", "name one."


def _device(key: str, entry: DeviceFile) -> Device:
    feed, stock = entry.feed, entry.stock
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
        edges=_edges(entry),
        feed=Feed(
            feed.edge,
            feed.side,
            feed.face,
            feed.flap,
            feed.rotation,
            feed.exit,
            feed.pause_minutes,
        ),
        ways=tuple(entry.ways),
        sizes=tuple(entry.sizes),
        sheets=tuple(known_sheets()[name] for name in entry.sheets),
        carrier=known_sheets()[entry.carrier] if entry.carrier is not None else None,
        set_before=tuple((each.before, each.back) for each in entry.set),
        takes=entry.takes,
        black_only=entry.black_only,
        type=entry.type,
        stock=StockLimits(
            stock.lightest_gsm,
            stock.heaviest_gsm,
            stock.thickest_mm,
            tuple(stock.never),
            tuple(stock.test_first),
            stock.suits,
        ),
        hits=hits_of(entry.hits),
    )


def _edges(entry: DeviceFile) -> Edges | None:
    """The edges in points; one that isn't said is as wide as the margin."""
    said = entry.edges_mm
    if said is None:
        return None
    lead, trail, left, right = (
        mm_to_pt(entry.margin_mm if edge is None else edge)
        for edge in (said.lead, said.trail, said.left, said.right)
    )
    return Edges(lead, trail, left, right)


def _sides(sizes: list[float]) -> tuple[float, float]:
    """Across and along the feed, in points: a path is longer than it is wide."""
    short, long = sorted(mm_to_pt(side) for side in sizes)
    return short, long
