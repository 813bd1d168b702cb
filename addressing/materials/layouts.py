"""Envelope layouts: one TOML file each, in millimetres; the record is in points."""

from pathlib import Path
from typing import Literal

from pydantic import Field

from addressing.materials.reading import Entry, Problem, checked, read_toml, wrong
from addressing.records.shelf import Box, Layout, Zone
from addressing.units import mm_to_pt, pt_to_mm

LARGEST_SIDE = 1000.0
"""mm; a longer one is a slip of the pen."""

POSTED = ("outer", "reply")
"""The kinds that go through the post: the clear areas count for these."""

GUM = 10.0
"""mm that a return address keeps off the flap's edge, where the gum is (common practice)."""

Align = Literal[
    "centre", "left", "right", "block", "block-right", "stepped", "columns", "arch", "bowl"
]

Length = Field(gt=0, le=LARGEST_SIDE)
Offset = Field(ge=0, le=LARGEST_SIDE)


class BoxEntry(Entry):
    """A rectangle in mm from the lower left corner."""

    left_mm: float = Offset
    bottom_mm: float = Offset
    width_mm: float = Length
    height_mm: float = Length

    def box(self) -> Box:
        """The rectangle in points."""
        return Box(
            mm_to_pt(self.left_mm),
            mm_to_pt(self.bottom_mm),
            mm_to_pt(self.width_mm),
            mm_to_pt(self.height_mm),
        )


class ZoneEntry(BoxEntry):
    """Where one kind of piece is set."""

    align: Align = "centre"
    valign: Literal["middle", "top", "bottom"] = "middle"
    step_em: float = Field(default=1.5, ge=0, le=10)
    gutter_mm: float = Field(default=6.0, ge=0, le=100)
    radius_mm: float | None = Field(default=None, ge=20, le=2000)
    turn: Literal[0, 90, 180, 270] = 0
    names_apart: bool = False
    hanging: str | None = Field(default=None, max_length=20)
    side: Literal["flap", "front"] = "flap"

    def zone(self, kind: str) -> Zone:
        """The zone in points."""
        radius = mm_to_pt(self.radius_mm) if self.radius_mm is not None else None
        return Zone(
            kind,
            self.box(),
            self.align,
            self.valign,
            self.step_em,
            mm_to_pt(self.gutter_mm),
            radius,
            self.turn,
            self.names_apart,
            self.hanging,
            self.side,
        )


class ZonesEntry(Entry):
    """The zones that a layout may have."""

    outer: ZoneEntry | None = None
    inner: ZoneEntry | None = None
    return_: ZoneEntry | None = Field(default=None, alias="return")
    reply: ZoneEntry | None = None
    place_card: ZoneEntry | None = Field(default=None, alias="place-card")
    escort_card: ZoneEntry | None = Field(default=None, alias="escort-card")
    reply_number: ZoneEntry | None = Field(default=None, alias="reply-number")

    def by_kind(self) -> dict[str, ZoneEntry]:
        """The zones that are there, by kind of piece."""
        every = {
            "outer": self.outer,
            "inner": self.inner,
            "return": self.return_,
            "reply": self.reply,
            "place-card": self.place_card,
            "escort-card": self.escort_card,
            "reply-number": self.reply_number,
        }
        return {kind: zone for kind, zone in every.items() if zone is not None}


class FlapEntry(Entry):
    """The flap as seen on the closed envelope's back, at the top."""

    shape: Literal["square", "pointed", "euro", "commercial", "wallet", "none"]
    depth_mm: float = Offset


class LayoutFile(Entry):
    """A whole layout file."""

    title: str = Field(min_length=1)
    width_mm: float = Length
    height_mm: float = Length
    safe_mm: float = Field(ge=0, le=50)
    source: str = Field(min_length=1)
    flap: FlapEntry
    zones: ZonesEntry
    clear: dict[str, BoxEntry] = Field(default_factory=dict)


def read_layout(path: Path) -> Layout:
    """The layout in a TOML file; its key is the file's name without the suffix.

    Raises:
        Fault: exit 3; `layout-missing`, `-unreadable`, `-syntax` or `-wrong`: a zone may not leave
            the safe area, a zone of a posted piece may not touch a clear area, and a return
            address may not leave the flap or cross its gum.
    """
    source = read_toml("layout", path)
    entry = checked(LayoutFile, source)
    layout = _layout(path.stem, entry)
    problems = _problems(layout, entry)
    if problems:
        raise wrong(source, problems)
    return layout


def _layout(key: str, entry: LayoutFile) -> Layout:
    width, height, safe = (mm_to_pt(x) for x in (entry.width_mm, entry.height_mm, entry.safe_mm))
    return Layout(
        key=key,
        title=entry.title,
        width=width,
        height=height,
        flap=entry.flap.shape,
        flap_depth=mm_to_pt(entry.flap.depth_mm),
        zones=tuple(zone.zone(kind) for kind, zone in entry.zones.by_kind().items()),
        safe=Box(safe, safe, width - 2 * safe, height - 2 * safe),
        clear=tuple((name, area.box()) for name, area in entry.clear.items()),
        source=entry.source,
    )


def _problems(layout: Layout, entry: LayoutFile) -> list[Problem]:
    """What can't be right although each number by itself may be."""
    problems = []
    if min(layout.safe.width, layout.safe.height) <= 0:
        problems.append(Problem(("safe_mm",), "nothing is left of the envelope.", "make it less."))
    if entry.flap.depth_mm > entry.height_mm:
        problems.append(
            Problem(("flap", "depth_mm"), "the flap is deeper than the envelope.", "measure it.")
        )
    if not layout.zones:
        problems.append(Problem(("zones",), "there is no zone.", "add one, such as [zones.outer]."))
    sheet = Box(0, 0, layout.width, layout.height)
    for name, area in layout.clear:
        if not sheet.holds(area):
            problems.append(
                Problem(("clear", name), "it leaves the envelope.", "keep it within the edges.")
            )
    for zone in layout.zones:
        problems.extend(_zone_problems(layout, zone))
    return problems


def _zone_problems(layout: Layout, zone: Zone) -> list[Problem]:
    loc = ("zones", zone.kind)
    problems = []
    if not layout.safe.holds(zone.box):
        margin = pt_to_mm(layout.safe.left)
        mend = f"keep it {margin:g} mm from every edge, or make safe_mm less."
        problems.append(Problem(loc, "it leaves the safe area.", mend))
    if zone.kind in POSTED or is_front_return(zone):
        problems.extend(
            Problem(loc, f"it runs into the clear area {name}.", "move or shorten the zone.")
            for name, area in layout.clear
            if overlap(zone.box, area)
        )
    if zone.kind == "return" and zone.side == "flap" and not on_flap(layout, zone.box):
        mend = "keep it near the fold, narrow on a pointed flap; or correct the flap's depth."
        problems.append(Problem(loc, "it leaves the flap or crosses its gum.", mend))
    return problems


def is_front_return(zone: Zone) -> bool:
    """True for a return address on the address's own side, where the post's areas stay clear."""
    return zone.kind == "return" and zone.side == "front"


def overlap(one: Box, other: Box, slack: float = 0.01) -> bool:
    """True when two rectangles share more than an edge (within `slack` points)."""
    return (
        one.left < other.right - slack
        and other.left < one.right - slack
        and one.bottom < other.top - slack
        and other.bottom < one.top - slack
    )


TIP = {"square": 0.88, "wallet": 0.84, "commercial": 0.7, "pointed": 0.0, "euro": 0.0}
"""How wide a flap still is at its tip, as a share of the envelope's width (common practice, no
source: makers differ)."""


def on_flap(layout: Layout, box: Box) -> bool:
    """True when a rectangle on the envelope's back lies on the flap and off its gum.

    The flap is taken as straight-sided from the fold at the top edge to its tip.
    """
    if layout.flap not in TIP or layout.flap_depth <= 0:
        return False
    gum = mm_to_pt(GUM)
    down = layout.height - box.bottom
    tip = layout.width / 2 * TIP[layout.flap]
    slope = (layout.width / 2 - tip) / layout.flap_depth
    half = layout.width / 2 - slope * down - gum * (1 + slope * slope) ** 0.5
    reach = max(layout.width / 2 - box.left, box.right - layout.width / 2)
    return down <= layout.flap_depth - gum + 0.01 and reach <= half + 0.01
