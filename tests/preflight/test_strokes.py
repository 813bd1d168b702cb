"""The finest stroke and narrowest gap of a letter, against shapes whose measures are known."""

from cmath import rect
from math import inf, radians

import pytest
from hypothesis import given
from hypothesis import strategies as st

from addressing.preflight.strokes import finest
from addressing.records.pages import Segment

CIRCLE = 0.5522847498307936
"""How far a cubic's handles reach for a quarter of a circle (well known)."""


def box(left: float, bottom: float, width: float, height: float) -> list[Segment]:
    right, top = left + width, bottom + height
    corners = [(left, bottom), (right, bottom), (right, top), (left, top)]
    return [("m", corners[0]), *(("l", corner) for corner in corners[1:]), ("h", ())]


def turned(outline: list[Segment], degrees: float) -> list[Segment]:
    turn = rect(1, radians(degrees))

    def point(x: float, y: float) -> tuple[float, float]:
        there = complex(x, y) * turn
        return there.real, there.imag

    return [
        (step, tuple(v for at in range(0, len(n), 2) for v in point(n[at], n[at + 1])))
        for step, n in outline
    ]


def circle(radius: float, *, hole: bool = False) -> list[Segment]:
    r, h = radius, radius * CIRCLE
    steps: list[Segment] = [
        ("m", (r, 0)),
        ("c", (r, h, h, r, 0, r)),
        ("c", (-h, r, -r, h, -r, 0)),
        ("c", (-r, -h, -h, -r, 0, -r)),
        ("c", (h, -r, r, -h, r, 0)),
        ("h", ()),
    ]
    if not hole:
        return steps
    return [(step, tuple(v if at % 2 else -v for at, v in enumerate(n))) for step, n in steps]


@given(st.floats(10, 120), st.floats(0, 180))
def test_a_bar_is_as_fine_as_it_is_whichever_way_it_leans(breadth: float, degrees: float) -> None:
    stroke, gap = finest(turned(box(0, 0, 700, breadth), degrees))
    assert stroke == pytest.approx(breadth, rel=0.02)
    assert gap == inf


@given(st.floats(5, 60))
def test_a_ring_is_as_fine_as_its_radii_say(breadth: float) -> None:
    stroke, gap = finest([*circle(300), *circle(300 - breadth, hole=True)])
    assert stroke == pytest.approx(breadth, rel=0.1)
    assert gap == pytest.approx(2 * (300 - breadth), rel=0.1)


@given(st.floats(8, 100), st.floats(0, 90))
def test_a_gap_between_two_bars_is_found(gap: float, degrees: float) -> None:
    bars = [*box(0, 0, 700, 150), *box(0, 150 + gap, 700, 150)]
    assert finest(turned(bars, degrees))[1] == pytest.approx(gap, rel=0.02)


def test_overlapping_parts_are_one_stroke() -> None:
    # Nonzero winding (ISO 32000-2, 8.5.3.3.2): what lies on itself has no edge within.
    stroke, gap = finest([*box(0, 0, 700, 60), *box(300, 20, 700, 60)])
    assert stroke >= 60 - 1
    assert gap == inf


def test_a_tip_is_no_stroke() -> None:
    tip: list[Segment] = [("m", (0, 0)), ("l", (400, 0)), ("l", (200, 700)), ("h", ())]
    assert finest(tip)[0] > 20


def test_nothing_has_no_stroke() -> None:
    assert finest([]) == (inf, inf)
