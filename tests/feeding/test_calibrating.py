"""Measured marks to a calibration: against numpy's least squares, and what is refused."""

import math
from collections.abc import Callable, Sequence
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from addressing.faults import Exit, Fault
from addressing.feeding import Measured, marks_on, solve
from addressing.materials.calibrations import (
    CALIBRATION,
    Place,
    keep_calibration,
    read_calibrations,
)
from addressing.records.lays import Calibration
from addressing.units import mm_to_pt, pt_to_mm

TRIM = (522.0, 378.0)
WIDTH, HEIGHT = 184.15, 133.35
MARKS = marks_on(TRIM)


def printed(
    x: tuple[float, float, float],
    y: tuple[float, float, float],
    errors: Sequence[tuple[float, float]] = ((0, 0),) * 5,
    marks: str = "ABCDE",
) -> list[Measured]:
    """The marks as such a device prints them (sums in mm), read with these errors."""
    out = []
    for mark, (wrong_x, wrong_y) in zip(marks, errors, strict=False):
        left, up = MARKS[mark][0], HEIGHT - MARKS[mark][1]
        landed = x[0] * left + x[1] * up + x[2], y[0] * left + y[1] * up + y[2]
        out.append(Measured(mark, landed[0] + wrong_x, HEIGHT - landed[1] + wrong_y))
    return out


READING = st.floats(-0.4, 0.4)


@given(
    errors=st.lists(st.tuples(READING, READING), min_size=5, max_size=5),
    shift=st.tuples(st.floats(-6, 6), st.floats(-6, 6)),
    parts=st.tuples(*[st.floats(-0.008, 0.008)] * 4),
    marks=st.sampled_from(["ABCD", "ABCDE", "ABCE", "BCDE"]),
)
def test_the_sums_are_those_that_numpy_finds(
    errors: list[tuple[float, float]],
    shift: tuple[float, float],
    parts: tuple[float, float, float, float],
    marks: str,
) -> None:
    a, c, b, d = parts
    measured = printed((1 + a, c, shift[0]), (b, 1 + d, shift[1]), errors, marks)
    try:
        found = solve("trial", TRIM, measured)
    except Fault as fault:
        assert fault.code == "calibration-unsure"  # noqa: PT017 - readings may contradict
        return
    wanted = np.array([(MARKS[m.mark][0], HEIGHT - MARKS[m.mark][1], 1.0) for m in measured])
    landed = np.array([(m.left, HEIGHT - m.top) for m in measured])
    sums, rest, _, _ = np.linalg.lstsq(wanted, landed)
    for axis, own in enumerate((found.calibration.x, found.calibration.y)):
        in_mm = (own[0], own[1], pt_to_mm(own[2]))
        assert in_mm == pytest.approx(tuple(sums[:, axis]), abs=5e-5)
    missed = np.hypot(*(wanted @ sums - landed).T)
    assert [miss for _, miss in found.left_over] == pytest.approx(list(missed), abs=1e-6)
    assert found.calibration.left_over == pytest.approx(mm_to_pt(float(missed.max())), abs=1e-3)
    expected = math.sqrt(float(rest.max()) / (len(measured) - 3)) if rest.size else 0.0
    assert found.unsure == pytest.approx(expected, abs=1e-6)


def test_shift_scale_turn_and_skew_are_told_as_people_say_them() -> None:
    turn = math.radians(0.5)
    x = (1.004 * math.cos(turn), -math.sin(turn), 1.25)
    y = (1.004 * math.sin(turn), math.cos(turn), -0.75)
    found = solve("trial", TRIM, printed(x, y))
    assert found.scale == pytest.approx((1.004, 1.0))
    assert (found.turned, found.skew) == pytest.approx((0.5, 0.0), abs=1e-6)
    assert found.unsure == pytest.approx(0.0, abs=1e-6)
    middle = (x[0] * WIDTH / 2 + x[1] * HEIGHT / 2 + 1.25, y[0] * WIDTH / 2 + y[1] * HEIGHT / 2)
    assert found.shift == pytest.approx((middle[0] - WIDTH / 2, middle[1] - 0.75 - HEIGHT / 2))


@pytest.mark.parametrize("marks", ["AC", "ABD"])
def test_two_or_three_marks_give_the_shift_alone_and_say_how_sure_it_is(marks: str) -> None:
    errors = [(0.25, 0.0), (-0.25, 0.0), (0.0, 0.0)]
    found = solve("trial", TRIM, printed((1, 0, 2.0), (0, 1, -1.0), errors, marks))
    assert found.calibration.x[:2] == (1.0, 0.0)
    assert found.shift == pytest.approx((2.0, -1.0))
    assert found.unsure == pytest.approx(math.sqrt(0.125 / (len(marks) - 1)))


def test_a_mark_measured_on_several_prints_counts_each_time() -> None:
    twice = [*printed((1, 0, 1.0), (0, 1, 0.0)), *printed((1, 0, 1.4), (0, 1, 0.0))]
    found = solve("trial", TRIM, twice)
    assert found.shift == pytest.approx((1.2, 0.0))
    assert found.calibration.marks == 10
    assert found.unsure == pytest.approx(math.sqrt(10 * 0.04 / 7))


TRUE = printed((1, 0, 0.5), (0, 1, -0.5))
NONSENSE = {
    "one mark": (TRUE[:1], "marks-too-few"),
    "one mark often": (TRUE[:1] * 4, "marks-too-few"),
    "none": ([], "marks-too-few"),
    "a mark that isn't there": ([*TRUE, Measured("F", 20, 20)], "mark-unknown"),
    "inches": ([Measured(m.mark, -m.left, m.top) for m in TRUE], "mark-off-paper"),
    "beyond the paper": ([*TRUE, Measured("A", 200, 20)], "mark-off-paper"),
    "fitted to the page": (printed((0.94, 0, 5), (0, 0.94, 4)), "calibration-scaled"),
    "two marks mixed up": (
        [Measured({"A": "B", "B": "A"}.get(m.mark, m.mark), m.left, m.top) for m in TRUE],
        "marks-mixed-up",
    ),
    "from the right edge": (
        [Measured(m.mark, WIDTH - m.left, m.top) for m in TRUE],
        "marks-mixed-up",
    ),
    "crooked": (printed((1, -0.04, 3), (0.04, 1, -3)), "calibration-turned"),
    "another side of the feed": (printed((1, 0, 19), (0, 1, 0), marks="AD"), "calibration-far"),
    "one reading off": (
        printed((1, 0, 0), (0, 1, 0), [(0, 0), (0, 2.4)], "AC"),
        "calibration-unsure",
    ),
    "one of five off": (
        printed((1, 0, 0), (0, 1, 0), [(0, 0), (2.6, 0), (0, 0), (0, 0), (0, 0)]),
        "calibration-unsure",
    ),
}


@pytest.mark.parametrize("what", NONSENSE)
def test_nonsense_is_refused_with_its_cause(what: str) -> None:
    measured, code = NONSENSE[what]
    with pytest.raises(Fault) as caught:
        solve("trial", TRIM, measured)
    assert (caught.value.exit, caught.value.code) == (Exit.INPUT, code)
    assert caught.value.mend


MIXED: dict[str, Callable[[Measured], Measured]] = {
    "Marks A and B were taken": lambda m: replace(m, mark={"A": "B", "B": "A"}.get(m.mark, m.mark)),
    "Marks B and D were taken": lambda m: replace(m, mark={"B": "D", "D": "B"}.get(m.mark, m.mark)),
    "from the right edge": lambda m: replace(m, left=WIDTH - m.left),
    "from the lower edge": lambda m: replace(m, top=HEIGHT - m.top),
    "head to foot": lambda m: replace(m, left=WIDTH - m.left, top=HEIGHT - m.top),
    "Mark D has its two distances": lambda m: (
        replace(m, left=m.top, top=m.left) if m.mark == "D" else m
    ),
}


@pytest.mark.parametrize("said", MIXED)
@pytest.mark.parametrize("marks", ["ABCD", "ABCDE"])
def test_what_was_mixed_up_is_told_as_such(said: str, marks: str) -> None:
    errors = [(0.1, 0.0), (0.0, -0.1), (0.1, 0.1), (0.0, 0.0), (-0.1, 0.0)][: len(marks)]
    right = printed((1.001, 0, 0.6), (0, 1, -0.4), errors, marks)
    with pytest.raises(Fault) as caught:
        solve("trial", TRIM, [MIXED[said](each) for each in right])
    assert caught.value.code == "marks-mixed-up"
    assert said in caught.value.text
    assert caught.value.text.endswith("otherwise the distances make no sense.")


@pytest.mark.parametrize("off", [3.0, 8.0])
def test_one_reading_far_off_is_no_mix_up(off: float) -> None:
    errors = [(0.0, 0.0), (off, 0.0), (0.0, 0.0), (0.0, 0.0), (0.0, 0.0)]
    with pytest.raises(Fault) as caught:
        solve("trial", TRIM, printed((1, 0, 0.5), (0, 1, 0.5), errors, "ABCDE"))
    assert caught.value.code != "marks-mixed-up"


PLACE = Place("home-toner", "main", "a7", "envelope")


def test_what_was_kept_is_read_again_and_stands_beside_other_places(tmp_path: Path) -> None:
    assert read_calibrations(tmp_path) == {}
    found = solve(str(PLACE), TRIM, printed((1.003, 0.002, 1.0), (-0.001, 0.999, -0.5)))
    other = Place('The "left" one', "rear", "a1", "sheet")
    keep_calibration(tmp_path, other, found.calibration)
    path = keep_calibration(tmp_path, PLACE, found.calibration)
    assert path == tmp_path / CALIBRATION
    known = read_calibrations(tmp_path)
    assert set(known) == {PLACE, other}
    kept = known[PLACE]
    assert kept.name == found.calibration.name
    assert kept.x == pytest.approx(found.calibration.x, abs=1e-4)
    assert kept.y == pytest.approx(found.calibration.y, abs=1e-4)
    again = keep_calibration(tmp_path, PLACE, kept).read_bytes()
    assert again == keep_calibration(tmp_path, PLACE, kept).read_bytes()
    assert [each.name for each in tmp_path.iterdir()] == [CALIBRATION]


def test_a_file_that_says_what_no_device_does_is_refused(tmp_path: Path) -> None:
    path = keep_calibration(
        tmp_path, PLACE, Calibration("n", (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), 0.0, 4)
    )
    path.write_text(path.read_text("utf-8").replace("x = [1.0", "x = [1.4"), encoding="utf-8")
    with pytest.raises(Fault, match="no device does that") as caught:
        read_calibrations(tmp_path)
    assert caught.value.code == "calibration-wrong"


def test_a_calibration_of_another_device_under_this_one_s_name_is_refused(tmp_path: Path) -> None:
    den = Place("den-toner", "main", "a7", "envelope")
    found = solve(str(den), TRIM, printed((1.003, 0.002, 1.0), (-0.001, 0.999, -0.5)))
    path = keep_calibration(tmp_path, den, found.calibration)
    told = path.read_text("utf-8")
    path.write_text(told.replace('device = "den-toner"', 'device = "home-toner"'), "utf-8")
    with pytest.raises(Fault, match="it was measured for den-toner, main, a7, envelope") as caught:
        read_calibrations(tmp_path)
    assert "measure again" in caught.value.mend
    unsummed = [line for line in told.splitlines() if not line.startswith("sum = ")]
    changed = "\n".join(unsummed).replace('device = "den-toner"', 'device = "home-toner"')
    path.write_text(changed, "utf-8")
    with pytest.raises(Fault, match="it was measured for den-toner"):
        read_calibrations(tmp_path)


@pytest.mark.parametrize(
    ("was", "now"),
    [("den-toner", "home-toner"), ("x = [1.003", "x = [1.004"), ("= 0.0\n", "= 0.1\n")],
)
def test_a_calibration_that_was_changed_by_hand_says_so_in_its_name(
    was: str, now: str, tmp_path: Path
) -> None:
    den = Place("den-toner", "main", "a7", "envelope")
    found = solve(str(den), TRIM, printed((1.003, 0.002, 1.0), (-0.001, 0.999, -0.5)))
    path = keep_calibration(tmp_path, den, found.calibration)
    (kept,) = read_calibrations(tmp_path).values()
    assert kept.name == found.calibration.name
    told = path.read_text("utf-8")
    assert was in told
    path.write_text(told.replace(was, now), "utf-8")
    (changed,) = read_calibrations(tmp_path).values()
    assert ", edited by hand (" in changed.name
    keep_calibration(tmp_path, PLACE, found.calibration)
    names = [each.name for place, each in read_calibrations(tmp_path).items() if place != PLACE]
    assert all("edited by hand" in name for name in names)


def test_an_older_calibration_without_its_sum_is_believed(tmp_path: Path) -> None:
    found = solve(str(PLACE), TRIM, printed((1.003, 0.002, 1.0), (-0.001, 0.999, -0.5)))
    path = keep_calibration(tmp_path, PLACE, found.calibration)
    lines = path.read_text("utf-8").splitlines()
    path.write_text("\n".join(line for line in lines if not line.startswith("sum")), "utf-8")
    assert read_calibrations(tmp_path)[PLACE].name == found.calibration.name
