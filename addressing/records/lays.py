"""How a piece lies on the page that a device takes. Lengths in points.

A page's origin is its lower left corner. The edge of a piece that goes into the device first is its
lead; seen from the printed side, with the lead up, a piece is turned by `feed`.
"""

from dataclasses import dataclass

WAYS = ("envelope", "turned", "sheet", "carrier")
"""The page is the envelope; the envelope turned as it goes in; a standard sheet, for a driver that
knows no such envelope; a sheet that carries the envelope through the device."""

SIDES = ("left", "centre", "right")
"""Where stock narrower than the feed lies in it, seen from the printed side with the lead up."""

TURNS = (0, 90, 180, 270)
"""Degrees anticlockwise by which a piece may be turned."""


@dataclass(frozen=True, slots=True)
class Edges:
    """What a device leaves unprinted along each edge, as the stock goes in."""

    lead: float
    trail: float
    left: float
    right: float


@dataclass(frozen=True, slots=True)
class Calibration:
    """Where a device truly prints: what is asked for at (x, y) of a piece lands at these sums.

    x' = `x[0]`·x + `x[1]`·y + `x[2]`, y' = `y[0]`·x + `y[1]`·y + `y[2]`, in the piece's own points:
    from its lower left corner as it is read. `name` says which device, tray, layout and way were
    measured, with a fingerprint of these numbers. `left_over` is the largest distance (pt) between
    a mark as measured and the sums; `marks` is how many were measured.
    """

    name: str
    x: tuple[float, float, float]
    y: tuple[float, float, float]
    left_over: float
    marks: int


@dataclass(frozen=True, slots=True)
class Lay:
    """Where a piece lies on its page.

    `page` is the page's width and height. The piece stands on it turned by `turn`; as it goes in it
    is turned by `feed` (a driver turns a page that is the envelope by itself). On a larger page it
    lies at `side`, `lead` from the page's top edge. `edges` is what the device leaves free. With a
    `calibration` the ink stands where the device must be asked for it to land where it should.
    """

    way: str
    page: tuple[float, float]
    turn: int
    feed: int
    side: str
    lead: float
    edges: Edges
    calibration: Calibration | None = None
