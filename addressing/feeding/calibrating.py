"""From a few distances measured with a ruler to where a device truly prints, by least squares.

Along each direction by itself: where a mark landed is a sum of a shift and two parts of where it
was asked for, and the sums that miss the measured marks by the least squares are taken (the normal
equations about the marks' middle). Four marks or more give shift, scale and skew; two or three give
the shift alone.
"""

import hashlib
import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from addressing.faults import Exit, Fault
from addressing.feeding.mixing_up import Measured, mixed_up
from addressing.records.lays import Calibration
from addressing.units import mm_to_pt, pt_to_mm

INSET = 20.0
"""Millimetres from a mark in a corner to both edges: clear of what devices leave unprinted."""
FEWEST, FOR_ALL = 2, 4
"""Marks for a shift, and for scale and skew too."""
FARTHEST = 15.0
"""Millimetres: a larger shift is a wrong lay, not a device's drift (common practice, no source)."""
MOST_SCALE = 0.02
"""A larger part is a driver that scales pages to fit (common practice, no source)."""
MOST_SKEW = 1.5
"""Degrees: more is stock that went in crooked (common practice, no source)."""
MOST_APART = 0.75
"""Millimetres: the estimated error of one reading; rulers are read to 0.25 or so."""

Point = tuple[float, float]
Sums = tuple[float, float, float]
"""The parts of x and of y, and a shift."""


@dataclass(frozen=True, slots=True)
class Solved:
    """A calibration in the words of people.

    `shift` is in mm to the right and up, at the middle of the piece; `scale` across and up (1 is
    true); `turned` and `skew` in degrees: the anticlockwise turn of what runs across, and by how
    much the corner differs from a right angle. `left_over` is how far (mm) each measured mark is
    from the solution, `unsure` the estimated error of one reading, None where nothing tells it.
    """

    calibration: Calibration
    shift: Point
    scale: Point
    turned: float
    skew: float
    left_over: tuple[tuple[str, float], ...]
    unsure: float | None


def marks_on(trim: tuple[float, float]) -> dict[str, Point]:
    """The marks of a piece of this size (points): mm from its left edge and from its top.

    A to D stand in the corners, from the upper left with the clock, and E in the middle.
    """
    width, height = (round(pt_to_mm(side), 3) for side in trim)
    right, bottom = round(width - INSET, 3), round(height - INSET, 3)
    middle = round(width / 2, 3), round(height / 2, 3)
    return {
        "A": (INSET, INSET),
        "B": (right, INSET),
        "C": (right, bottom),
        "D": (INSET, bottom),
        "E": middle,
    }


def solve(name: str, trim: tuple[float, float], measured: Sequence[Measured]) -> Solved:
    """Where the device prints, from where the marks came out; a mark may be measured again.

    Raises:
        Fault: exit 3; `mark-unknown`, `mark-off-paper`, `marks-too-few`, or what they tell can't
            be a device's drift: `calibration-far`, `calibration-scaled`, `calibration-turned`,
            `calibration-unsure`; `marks-mixed-up` where it is seen which were taken for others.
    """
    asked = marks_on(trim)
    _check_marks(asked, measured, trim)
    solved = _solved(name, trim, measured)
    whole = len({one.mark for one in measured}) >= FOR_ALL
    fault = _senseless(solved, whole=whole)
    if fault is None:
        return solved
    told = mixed_up(measured, trim, lambda other: _unsure(name, trim, other))
    if told is None:
        raise fault
    mend = "Look which it was, and give the distances again."
    raise _nonsense("marks-mixed-up", told, mend) from fault


def _unsure(name: str, trim: tuple[float, float], measured: Sequence[Measured]) -> float | None:
    """The error of a reading (mm), if these would be a device's drift; else None."""
    solved = _solved(name, trim, measured)
    whole = len({one.mark for one in measured}) >= FOR_ALL
    return None if _senseless(solved, whole=whole) else solved.unsure


def _solved(name: str, trim: tuple[float, float], measured: Sequence[Measured]) -> Solved:
    """The sums that miss what was measured by the least squares, sensible or not."""
    asked = marks_on(trim)
    height = pt_to_mm(trim[1])
    wanted = [(asked[one.mark][0], height - asked[one.mark][1]) for one in measured]
    landed = [(one.left, height - one.top) for one in measured]
    whole = len({one.mark for one in measured}) >= FOR_ALL
    sums = [
        _fitted(wanted, [place[axis] for place in landed], axis, whole=whole) for axis in (0, 1)
    ]
    misses = [
        [place[axis] - _value(sums[axis], at) for at, place in zip(wanted, landed, strict=True)]
        for axis in (0, 1)
    ]
    left_over = tuple(
        (one.mark, math.hypot(across, up))
        for one, across, up in zip(measured, *misses, strict=True)
    )
    free = len(measured) - (3 if whole else 1)
    unsure = max(math.sqrt(sum(m * m for m in miss) / free) for miss in misses) if free else None
    return _told(name, sums, left_over, unsure, (pt_to_mm(trim[0]) / 2, height / 2))


def _fitted(wanted: Sequence[Point], landed: Sequence[float], axis: int, *, whole: bool) -> Sums:
    """The sum (parts of x and y, shift) that misses what was measured by the least squares."""
    many = len(wanted)
    x0, y0 = (sum(at[place] for at in wanted) / many for place in (0, 1))
    z0 = sum(landed) / many
    if not whole:
        part = (1.0, 0.0) if axis == 0 else (0.0, 1.0)
        return *part, z0 - (x0, y0)[axis]
    xx = sum((x - x0) ** 2 for x, _ in wanted)
    yy = sum((y - y0) ** 2 for _, y in wanted)
    xy = sum((x - x0) * (y - y0) for x, y in wanted)
    xz = sum((x - x0) * (z - z0) for (x, _), z in zip(wanted, landed, strict=True))
    yz = sum((y - y0) * (z - z0) for (_, y), z in zip(wanted, landed, strict=True))
    area = xx * yy - xy * xy
    of_x, of_y = (xz * yy - yz * xy) / area, (yz * xx - xz * xy) / area
    return of_x, of_y, z0 - of_x * x0 - of_y * y0


def _value(sums: Sums, at: Point) -> float:
    return sums[0] * at[0] + sums[1] * at[1] + sums[2]


def _told(
    name: str,
    sums: Sequence[Sums],
    left_over: tuple[tuple[str, float], ...],
    unsure: float | None,
    middle: Point,
) -> Solved:
    (a, c, _), (b, d, _) = sums
    turned = math.degrees(math.atan2(b, a))
    upright = math.degrees(math.atan2(-c, d))
    return Solved(
        calibration=named(name, sums, max(miss for _, miss in left_over), len(left_over)),
        shift=(_value(sums[0], middle) - middle[0], _value(sums[1], middle) - middle[1]),
        scale=(math.hypot(a, b), math.hypot(c, d)),
        turned=turned,
        skew=upright - turned,
        left_over=left_over,
        unsure=unsure,
    )


def named(name: str, sums: Sequence[Sums], left_over: float, marks: int) -> Calibration:
    """The record, in points; its name gets a fingerprint of the numbers."""
    x, y = ((round(u, 7), round(v, 7), round(mm_to_pt(shift), 4)) for u, v, shift in sums)
    digest = hashlib.sha256(repr((x, y)).encode()).hexdigest()[:8]
    return Calibration(f"{name}, {digest}", x, y, round(mm_to_pt(left_over), 3), marks)


def _check_marks(
    asked: Mapping[str, Point], measured: Sequence[Measured], trim: tuple[float, float]
) -> None:
    width, height = (pt_to_mm(side) for side in trim)
    for one in measured:
        if one.mark not in asked:
            raise _nonsense(
                "mark-unknown",
                f'There is no mark "{one.mark}" on the test sheet.',
                f"The marks are {', '.join(asked)}.",
            )
        if not (0 <= one.left <= width and 0 <= one.top <= height):
            raise _nonsense(
                "mark-off-paper",
                f"Mark {one.mark} can't be {one.left:g} mm from the left and {one.top:g} mm from"
                f" the top: the paper is {width:.5g} × {height:.5g} mm.",
                "Measure in millimetres from the left edge, then from the top, the words upright.",
            )
    if len({one.mark for one in measured}) < FEWEST:
        raise _nonsense(
            "marks-too-few",
            f"{len(measured)} mark is too few: nothing says how far it can be trusted."
            if len(measured) == 1
            else "One mark, however often, is too few: nothing says whether the others agree.",
            "Measure two for the shift, or four and more for scale and skew too.",
        )


def _senseless(solved: Solved, *, whole: bool) -> Fault | None:
    """What shows that no device prints so, the plainest cause first; None for nothing."""
    scale = max(solved.scale, key=lambda part: abs(part - 1))
    if abs(scale - 1) > MOST_SCALE:
        return _nonsense(
            "calibration-scaled",
            f"The marks came out at {scale:.1%} of their distances: the page was scaled.",
            "Print the test sheet at 100 % (actual size, no fitting to the page), measure again.",
        )
    skew = max(solved.turned, solved.skew, key=abs)
    if abs(skew) > MOST_SKEW:
        return _nonsense(
            "calibration-turned",
            f"The marks stand {abs(skew):.1f} degrees askew: the paper went in crooked.",
            "Set the guides close to the stock, print the test sheet again, measure that.",
        )
    if math.hypot(*solved.shift) > FARTHEST:
        across, up = solved.shift
        return _nonsense(
            "calibration-far",
            f"The marks came out {abs(across):.1f} mm aside and {abs(up):.1f} mm up or down: that"
            " is another lay, not a drift.",
            "Check the page's size in the driver, the device's feed side, and which way is up.",
        )
    if solved.unsure is not None and solved.unsure > MOST_APART:
        worst, miss = max(solved.left_over, key=lambda each: each[1])
        more = "" if whole else " Or measure four: then scale and skew are found too."
        return _nonsense(
            "calibration-unsure",
            f"The distances contradict each other: one of them is about {solved.unsure * 2:.1f} mm"
            f" off (mark {worst} is {miss:.1f} mm from where the others want it).",
            f"Measure again; print a second sheet if they stay apart.{more}",
        )
    return None


def _nonsense(code: str, text: str, mend: str) -> Fault:
    return Fault(Exit.INPUT, code, text, mend)
