"""Where the order wants a piece on its page, worked out again: boxes, the step, what can be inked.

Places are complex numbers here: a quarter turn is a product, and a calibration is undone by solving
its two sums, so nothing is shared with the way in which plates are written.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace

from addressing.preflight.values import Objection
from addressing.records.lays import SIDES, TURNS, WAYS, Calibration, Edges, Lay
from addressing.records.plates import PlateOrder
from addressing.records.shelf import Box

EXACT = 1e-9
"""What computing may add to half of a number's last digit: the rest of a rounding."""
LARGER = frozenset({"sheet", "carrier"})
"""The ways in which the page is larger than the piece."""
FARTHEST = 72.0
"""Points: nobody's calibration moves ink by more; a wrong one is refused before it is used."""

_NUMBER = rb"(?:0|-?(?:[1-9][0-9]{0,4}(?:\.[0-9]{0,%d}[1-9])?|0\.[0-9]{0,%d}[1-9]))"
_STEP = re.compile(
    rb"(%s) (%s) (%s) (%s) (%s) (%s) cm\n" % (*[_NUMBER % (7, 7)] * 4, *[_NUMBER % (2, 2)] * 2)
)
_QUARTER = {0: 1 + 0j, 90: 1j, 180: -1 + 0j, 270: -1j}


@dataclass(frozen=True, slots=True)
class Laid:
    """A piece on its page: the page's and the piece's rectangle, and where points go.

    `across` and `up` are where one point to the right and one up are led, from `origin`.
    """

    page: Box
    piece: Box
    origin: complex
    across: complex
    up: complex
    plain: bool = False
    """True when a page takes no step at all: its lines stand as they are."""
    over: float = 0.0
    """How far the bleed reaches beyond the piece."""

    def place(self, x: float, y: float) -> complex:
        """Where a point of the piece is asked for on the page."""
        return self.origin + self.across * x + self.up * y

    def around(self, box: Box) -> Box:
        """The least upright rectangle of the page around a box of the piece."""
        corners = [self.place(x, y) for x in (box.left, box.right) for y in (box.bottom, box.top)]
        left, right = min(c.real for c in corners), max(c.real for c in corners)
        bottom, top = min(c.imag for c in corners), max(c.imag for c in corners)
        return Box(left, bottom, right - left, top - bottom)

    @property
    def stretch(self) -> float:
        """How much larger any area is on the page than on the piece."""
        return abs((self.across.conjugate() * self.up).imag)

    @property
    def numbers(self) -> tuple[float, ...]:
        """The six numbers of the step that a page takes first."""
        led = (self.across, self.up, self.origin)
        return tuple(part for at in led for part in (at.real, at.imag))


def laid(order: PlateOrder) -> Laid:
    """Work out where the order wants the piece.

    Raises:
        Objection: the order asks for what can't be.
    """
    width, height = order.trim
    lay = order.lay
    if order.sheets is not None:
        sheet = Box(0.0, 0.0, *order.sheets.sheet)
        return Laid(sheet, sheet, 0j, 1 + 0j, 1j, plain=True)
    if lay is None:
        edge = order.bleed
        whole = Box(0.0, 0.0, width + 2 * edge, height + 2 * edge)
        piece = Box(edge, edge, width, height)
        return Laid(whole, piece, complex(edge, edge), 1 + 0j, 1j, plain=not edge, over=edge)
    if lay.way not in WAYS or lay.side not in SIDES or not {lay.turn, lay.feed} <= set(TURNS):
        raise Objection("The order asks for a way to lay the piece that doesn't exist.")
    quarter = _QUARTER[lay.turn]
    corners = [complex(x, y) * quarter for x in (0.0, width) for y in (0.0, height)]
    low = complex(min(c.real for c in corners), min(c.imag for c in corners))
    wide, high = (height, width) if lay.turn % 180 else (width, height)
    spare = lay.page[0] - wide
    left = spare * SIDES.index(lay.side) / 2
    bottom = lay.page[1] - lay.lead - high
    piece = Box(left, bottom, wide, high)
    page = Box(0.0, 0.0, *lay.page)
    if not page.holds(piece):
        raise Objection("The order lays the piece beyond its page.")
    origin = complex(left, bottom) - low
    asked = [origin + quarter * _asked(lay.calibration, at) for at in (0j, 1 + 0j, 1j)]
    placed = Laid(page, piece, asked[0], asked[1] - asked[0], asked[2] - asked[0])
    led = [round(n, 8) for n in placed.numbers[:4]]
    plain = led == [1, 0, 0, 1] and not any(round(n, 3) for n in placed.numbers[4:])
    return replace(placed, plain=plain)


def _asked(calibration: Calibration | None, wanted: complex) -> complex:
    """What a device must be asked for, so that ink lands where it is wanted on the piece."""
    if calibration is None:
        return wanted
    (a, c, e), (b, d, f) = calibration.x, calibration.y
    right, upper = wanted.real - e, wanted.imag - f
    area = a * d - b * c
    if abs(area) < EXACT:
        raise Objection("The order's calibration can't be undone.")
    asked = complex((right * d - upper * c) / area, (a * upper - b * right) / area)
    if abs(asked - wanted) > FARTHEST:
        raise Objection("The order's calibration moves ink farther than any device does.")
    return asked


def unlaid(stream: bytes, opening: bytes, at: Laid) -> bytes:
    """A page's stream without the step to the piece's place, which is judged and left out.

    Raises:
        Objection: there is a step where none belongs, or another one.
    """
    if at.plain or not stream.startswith(opening):
        return stream
    step = _STEP.match(stream, len(opening))
    if step is None:
        raise Objection("it doesn't say first where the piece lies on its page.")
    units = (1e-8,) * 4 + (1e-3,) * 2
    for found, wanted, unit in zip(step.groups(), at.numbers, units, strict=True):
        if abs(float(found) - wanted) > unit / 2 + EXACT:
            raise Objection("it lays the piece at another place than the order.")
    return opening + stream[step.end() :]


def reach_faults(order: PlateOrder, at: Laid, room: Box) -> Iterator[str]:
    """Whether all that the room may hold can be printed, as the piece goes through the device."""
    if order.lay is None:
        return
    asked, free = at.around(room), _inked(order.lay, at)
    if not free.holds(asked, slack=0.02):
        yield "The room for ink reaches where the device can't print."


def _inked(lay: Lay, at: Laid) -> Box:
    """What of the page the device can ink: the piece, and a larger page, each within its edges."""
    less = (lay.feed - lay.turn) // 90 % 4
    piece = _within(at.piece, _sides(lay.edges, less))
    if lay.way not in LARGER:
        return piece
    sheet = _within(at.page, _sides(lay.edges, less))
    left, bottom = max(piece.left, sheet.left), max(piece.bottom, sheet.bottom)
    right, top = min(piece.right, sheet.right), min(piece.top, sheet.top)
    return Box(left, bottom, right - left, top - bottom)


def _sides(edges: Edges, quarters: int) -> tuple[float, float, float, float]:
    """The edges as they stand on the page: left, bottom, right, top.

    A driver turns the page anticlockwise by so many quarters; its top then leads.
    """
    around = [edges.left, edges.trail, edges.right, edges.lead]
    return tuple(around[(place + quarters) % 4] for place in range(4))  # type: ignore[return-value]


def _within(box: Box, sides: tuple[float, float, float, float]) -> Box:
    left, bottom, right, top = sides
    return Box(
        box.left + left, box.bottom + bottom, box.width - left - right, box.height - bottom - top
    )
