"""How the lines of a block stand to each other and to the room: centred, flush, stepped."""

from collections.abc import Sequence
from dataclasses import dataclass

from addressing.records.shelf import Box, Zone
from addressing.typesetting.bending import bow
from addressing.typesetting.direction import begins_leftwards
from addressing.typesetting.outlines import Bounds

_SIDES = {
    "centre": (0.5, None),
    "left": (0.0, 0.0),
    "right": (1.0, None),
    "block": (0.0, 0.5),
    "block-right": (0.0, 1.0),
    "stepped": (0.0, 0.5),
    "columns": (0.0, None),
    "arch": (0.5, None),
    "bowl": (0.5, None),
}
"""Of each way: which part of a line's ink stands under which (0 left edges, 1 right edges), and,
where the lines stand to each other and not to the room, where the block stands in the room."""


@dataclass(frozen=True, slots=True)
class Arrangement:
    """Where lines stand; `indent` (em) is how much further each line begins than the one above.

    With a `gutter` (pt) they stand in two columns, by their hands. With a `bow` of 1 or -1 they are
    bent, the centre below or above them, the first with this `radius` (pt).
    """

    side: float
    block: float | None
    indent: float
    gutter: float | None = None
    bow: int = 0
    radius: float = 0.0
    hanging: str = ""
    """Marks without which a line is centred."""

    def column(self, room: Box) -> float:
        """The width (pt) that a line has."""
        return room.width if self.gutter is None else (room.width - self.gutter) / 2

    def width(self, inks: Sequence[Bounds]) -> float:
        """The block's width in em, indents included."""
        if not self.indent:
            return max([ink[2] - ink[0] for ink in inks], default=0.0)
        widths = [ink[2] - ink[0] + number * self.indent for number, ink in enumerate(inks)]
        return max(widths, default=0.0)

    def mirrored(self, first: str) -> bool:
        """True where lines that are flush at the left are to be flush at the right.

        So a calligrapher writes an address that is read from the right; `first` is its first line.
        """
        return self.side == 0 and self.gutter is None and begins_leftwards(first)

    def starts(
        self,
        inks: Sequence[Bounds],
        hands: Sequence[int],
        room: Box,
        size: float,
        *,
        mirrored: bool = False,
    ) -> list[float]:
        """The x (pt) of each line's origin, so that its ink stands where it should.

        With `mirrored` lines end under each other, and step from the right to the left.
        """
        if self.gutter is not None and len(set(hands)) == 1:  # one column: a block in the middle
            begin = room.left + (room.width - self.width(inks) * size) / 2
            return [begin - ink[0] * size for ink in inks]
        if self.gutter is not None:
            middle, apart = room.left + room.width / 2, self.gutter / 2
            return [
                middle + apart - ink[0] * size if hand else middle - apart - ink[2] * size
                for ink, hand in zip(inks, hands, strict=True)
            ]
        if mirrored:
            width = self.width(inks) * size
            end = room.left + (self.block or 0.0) * (room.width - width) + width
            return [end - (number * self.indent + ink[2]) * size for number, ink in enumerate(inks)]
        if self.block is None:
            at, side = room.left + self.side * room.width, self.side
            return [at - (ink[0] + side * (ink[2] - ink[0])) * size for ink in inks]
        begin = room.left + self.block * (room.width - self.width(inks) * size)
        return [begin + (number * self.indent - ink[0]) * size for number, ink in enumerate(inks)]


def arrangement(zone: Zone, room: Box) -> Arrangement:
    """The arrangement that a zone asks for in its flat room."""
    side, block = _SIDES[zone.align]
    indent = zone.step if zone.align == "stepped" else 0.0
    gutter = min(zone.gutter, room.width / 2) if zone.align == "columns" else None
    radius = room.width if zone.radius is None else zone.radius
    centred = side == _SIDES["centre"][0] and block is None
    hanging = (zone.hanging or "") if centred else ""
    return Arrangement(side, block, indent, gutter, bow(zone), radius, hanging)
