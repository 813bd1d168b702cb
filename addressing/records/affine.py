"""Six numbers that move, turn, stretch and slant: (x, y) → (a·x + c·y + e, b·x + d·y + f).

They stand in the order in which PDF has them (ISO 32000-1, 8.3.4). The judge has its own.
"""

from addressing.records.lays import Calibration, Lay
from addressing.records.shelf import Box

Matrix = tuple[float, float, float, float, float, float]

SAME: Matrix = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)
"""Everything stays where it is."""


def moved(matrix: Matrix, x: float, y: float) -> tuple[float, float]:
    """Where a point goes.

    >>> moved((0.0, 1.0, -1.0, 0.0, 10.0, 0.0), 2.0, 3.0)
    (7.0, 2.0)
    """
    a, b, c, d, e, f = matrix
    return a * x + c * y + e, b * x + d * y + f


def after(first: Matrix, then: Matrix) -> Matrix:
    """Both, one after the other."""
    a, b, c, d, e, f = first
    a2, b2, c2, d2, e2, f2 = then
    return (
        a * a2 + b * c2,
        a * b2 + b * d2,
        c * a2 + d * c2,
        c * b2 + d * d2,
        e * a2 + f * c2 + e2,
        e * b2 + f * d2 + f2,
    )


def undone(matrix: Matrix) -> Matrix:
    """The way back.

    Raises:
        ZeroDivisionError: there is none: everything goes to one line.
    """
    a, b, c, d, e, f = matrix
    area = a * d - b * c
    return (
        d / area,
        -b / area,
        -c / area,
        a / area,
        (c * f - d * e) / area,
        (b * e - a * f) / area,
    )


def moved_box(matrix: Matrix, box: Box) -> Box:
    """The least upright rectangle around a box as it is then."""
    corners = [moved(matrix, x, y) for x in (box.left, box.right) for y in (box.bottom, box.top)]
    left, bottom = (min(place[axis] for place in corners) for axis in (0, 1))
    right, top = (max(place[axis] for place in corners) for axis in (0, 1))
    return Box(left, bottom, right - left, top - bottom)


def turned(turn: int, trim: tuple[float, float]) -> Matrix:
    """A piece of this size turned anticlockwise by whole quarters, its corner at the origin again.

    >>> moved(turned(90, (5.0, 3.0)), 5.0, 0.0)
    (3.0, 5.0)
    """
    width, height = trim
    match turn:
        case 90:
            return 0.0, 1.0, -1.0, 0.0, height, 0.0
        case 180:
            return -1.0, 0.0, 0.0, -1.0, width, height
        case 270:
            return 0.0, -1.0, 1.0, 0.0, 0.0, width
        case _:
            return SAME


def size_turned(turn: int, trim: tuple[float, float]) -> tuple[float, float]:
    """Width and height of a piece that is turned by whole quarters."""
    return (trim[1], trim[0]) if turn in (90, 270) else trim


def piece_box(lay: Lay | None, trim: tuple[float, float]) -> Box:
    """The rectangle of its page that a piece covers."""
    if lay is None:
        return Box(0.0, 0.0, *trim)
    wide, high = size_turned(lay.turn, trim)
    spare = lay.page[0] - wide
    left = {"left": 0.0, "right": spare}.get(lay.side, spare / 2)
    return Box(left, lay.page[1] - lay.lead - high, wide, high)


def true_place(calibration: Calibration) -> Matrix:
    """Where a device prints what is asked for."""
    (a, c, e), (b, d, f) = calibration.x, calibration.y
    return a, b, c, d, e, f


def on_page(lay: Lay | None, trim: tuple[float, float]) -> Matrix:
    """From a piece's own points to those that the page must ask for."""
    if lay is None:
        return SAME
    box = piece_box(lay, trim)
    laid = after(turned(lay.turn, trim), (1.0, 0.0, 0.0, 1.0, box.left, box.bottom))
    if lay.calibration is None:
        return laid
    return after(undone(true_place(lay.calibration)), laid)
