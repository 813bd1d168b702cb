"""The base under an ink: drawn in by Clipper, judged by distances of its own, and by tampering."""

from collections.abc import Sequence
from itertools import pairwise
from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from addressing.faults import Fault
from addressing.materials.shelf import open_shelf
from addressing.plates.choking import choked
from addressing.preflight.choking import Region, choke_faults
from addressing.preflight.letters import Letters, face_data, measured
from addressing.records.pages import Segment

CIRCLE = 0.5522847498307936
"""How far a cubic's handles reach for a quarter of a circle (well known)."""


def circle(r: float) -> list[Segment]:
    h = r * CIRCLE
    return [
        ("m", (r, 0)),
        ("c", (r, h, h, r, 0, r)),
        ("c", (-h, r, -r, h, -r, 0)),
        ("c", (-r, -h, -h, -r, 0, -r)),
        ("c", (h, -r, r, -h, r, 0)),
        ("h", ()),
    ]


def box(left: float, bottom: float, width: float, height: float) -> list[Segment]:
    right, top = left + width, bottom + height
    corners = [(left, bottom), (right, bottom), (right, top), (left, top)]
    return [("m", corners[0]), *(("l", corner) for corner in corners[1:]), ("h", ())]


@given(st.floats(1, 40))
def test_a_disc_drawn_in_is_a_smaller_disc(by: float) -> None:
    drawn_in = measured(choked(circle(300), by))
    assert drawn_in.area == pytest.approx(pi * (300 - by) ** 2, rel=0.005)
    assert not list(choke_faults(choked(circle(300), by), circle(300), by, 1000))


def test_contours_that_overlap_are_drawn_in_as_one() -> None:
    cross = [*box(0, 0, 400, 100), *box(150, -150, 100, 400)]
    drawn_in = choked(cross, 10)
    assert sum(step == "m" for step, _ in drawn_in) == 1
    assert Region(cross).depth(200, 50, 100) == pytest.approx((50**2 * 2) ** 0.5)
    assert not list(choke_faults(drawn_in, cross, 10, 1000))


def test_a_letter_finer_than_twice_the_choke_is_refused() -> None:
    with pytest.raises(Fault) as fault:
        choked(box(0, 0, 400, 19), 10)
    assert fault.value.code == "choke-too-large"


@pytest.mark.parametrize("key", ["eb-garamond", "great-vibes", "noto-serif"])
def test_letters_of_a_face_drawn_in_are_proved(key: str) -> None:
    face = open_shelf(None).face(key)
    letters = Letters(face, face_data(face))
    seen = 0
    for glyph in range(20, 120, 7):
        outline = letters.letter(glyph).outline
        if outline:
            by = 4 * letters.units_per_em / 1000
            base = choked(outline, by)
            assert not list(choke_faults(base, outline, by, letters.units_per_em))
            seen += 1
    assert seen > 5


def test_curves_that_cross_at_a_small_angle_cross_at_one_place_for_writer_and_judge() -> None:
    face = open_shelf(None).face("playfair-display")
    letters = Letters(face, face_data(face))
    outline = letters.letter(385).outline  # c_t, whose hook crosses itself almost lengthwise
    for by in (2.8, 5.7, 14.2):
        assert not list(choke_faults(choked(outline, by), outline, by, letters.units_per_em))


def test_a_long_stem_that_is_bent_a_little_stays_within_a_tenth_of_a_unit() -> None:
    stem: list[Segment] = [
        ("m", (0, 0)), ("c", (15, 200, 15, 400, 0, 600)),
        ("l", (60, 600)), ("c", (75, 400, 75, 200, 60, 0)), ("h", ()),
    ]  # fmt: skip
    region = Region(stem)
    corners = [numbers for step, numbers in choked(stem, 10) if step != "h"]
    sides = [(one, other) for one, other in pairwise(corners) if abs(one[1] - other[1]) > 1]
    assert len(sides) > 6
    for (x, y), (to_x, to_y) in sides:
        assert region.depth((x + to_x) / 2, (y + to_y) / 2, 30) == pytest.approx(10, abs=0.3)


def moved(base: Sequence[Segment], by: float) -> list[Segment]:
    return [(step, tuple(n + by for n in numbers)) for step, numbers in base]


LETTER = box(0, 0, 300, 200)
BASE = choked(LETTER, 10)
HOLE: list[Segment] = [
    ("m", (100, 60)), ("l", (100, 140)), ("l", (200, 140)), ("l", (200, 60)), ("h", ()),
]  # fmt: skip
TAMPERS: dict[str, Sequence[Segment]] = {
    "not drawn in": LETTER,
    "drawn in too little": choked(LETTER, 8),
    "drawn in too much": choked(LETTER, 12),
    "moved": moved(BASE, 1.0),
    "half of it": box(10, 10, 140, 180),
    "a hole in it": [*BASE, *HOLE],
    "a curve in it": circle(90),
}


@pytest.mark.parametrize("tamper", TAMPERS)
def test_a_base_that_was_tampered_with_is_caught(tamper: str) -> None:
    assert not list(choke_faults(BASE, LETTER, 10, 1000))
    assert list(choke_faults(TAMPERS[tamper], LETTER, 10, 1000))


def many_cornered() -> tuple[list[Segment], list[Segment]]:
    """A disc with a small one beside it, and its base, of many hundred corners."""
    dot = [(step, tuple(n / 20 + 400 for n in numbers)) for step, numbers in circle(300)]
    letter = [*circle(300), *dot]
    return letter, list(choked(letter, 5))


def test_a_single_corner_of_hundreds_that_was_moved_is_caught() -> None:
    letter, base = many_cornered()
    assert not list(choke_faults(base, letter, 5, 1000))
    corners = [at for at, (step, _) in enumerate(base) if step != "h"]
    assert len(corners) > 60
    for at in corners[::5]:
        step, (x, y) = base[at]
        middle = 400 if x > 300 and y > 300 else 0
        across, up = x - middle, y - middle
        far = (across**2 + up**2) ** 0.5
        moved_one = [*base]
        moved_one[at] = (step, (x + 3 * across / far, y + 3 * up / far))
        assert list(choke_faults(moved_one, letter, 5, 1000))


def test_a_base_without_a_small_part_or_with_a_corner_cut_is_caught() -> None:
    letter, base = many_cornered()
    ends = [at for at, (step, _) in enumerate(base) if step == "h"]
    for part in (base[: ends[0] + 1], base[ends[0] + 1 :]):
        assert list(choke_faults(part, letter, 5, 1000)) == ["lacks a part"]
    big = base[: ends[0] + 1] if ends[0] > len(base) / 2 else base[ends[0] + 1 :]
    small = base[ends[0] + 1 :] if ends[0] > len(base) / 2 else base[: ends[0] + 1]
    cut = [*big[: len(big) // 4], *big[len(big) // 3 :], *small]
    assert list(choke_faults(cut, letter, 5, 1000))


def test_a_counter_filled_in_is_caught_however_small() -> None:
    hole = [(step, tuple(n / 30 + 100 for n in numbers)) for step, numbers in circle(300)]
    turned: list[Segment] = [("m", hole[0][1])]
    points = [hole[0][1], *(numbers[-2:] for step, numbers in hole if step == "c")]
    for (step, numbers), start in zip(hole[4:0:-1], points[3::-1], strict=True):
        turned.append((step, (*numbers[2:4], *numbers[:2], *start)))
    letter = [*circle(300), *turned, ("h", ())]
    base = list(choked(letter, 2))
    assert not list(choke_faults(base, letter, 2, 1000))
    assert sum(step == "m" for step, _ in base) == 2
    ends = [at for at, (step, _) in enumerate(base) if step == "h"]
    parts = (base[: ends[0] + 1], base[ends[0] + 1 :])
    outer = max(parts, key=len)
    assert list(choke_faults(outer, letter, 2, 1000)) == ["covers more than it should"]
