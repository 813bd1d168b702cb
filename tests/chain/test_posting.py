"""Room for stamps, and what the post's machines can read, by the post's own published figures."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from addressing.faults import Exit, Fault
from addressing.job.posting import darker
from addressing.job.reading import read_job
from addressing.job.stamping import with_stamps
from addressing.materials.shelf import open_shelf
from addressing.units import mm_to_pt, pt_to_mm

SHELF = open_shelf(None)
ROW = ("Mr. Tobias Wexcombe", "14 Larkmoor Lane", "Litchfield", "CT", "06759")
Write = Callable[..., Path]


def note(write_list: Write, docket: str) -> str:
    """What the job says of machines, "" when nothing."""
    path = write_list([ROW])
    docket_path = path.with_name("docket.toml")
    docket_path.write_text(docket, encoding="utf-8")
    found = read_job(path, docket_path, None).findings
    codes = {"light-on-dark", "not-machine-readable"}
    return " ".join(f"{one.code}: {one.text}" for one in found if one.code in codes)


def outer(**choices: object) -> str:
    """A docket for outers alone."""
    lines = [f"{key} = {value!r}".replace("'", '"') for key, value in choices.items()]
    return "\n".join(('[pieces]\nmake = ["outer"]\n[[piece]]\nkind = "outer"', *lines))


def test_white_on_green_is_told_as_light_on_dark(write_list: Write) -> None:
    # USPS Publication 25 (web edition), 11-2: inverse printing is not permitted for automation.
    said = note(write_list, outer(layout="a7", ink="White", stock="deep-green"))
    assert said.startswith("light-on-dark")
    assert "dark ink on a light envelope" in said


def test_black_in_a_small_size_on_white_is_no_matter(write_list: Write) -> None:
    assert note(write_list, outer(layout="a7", ink="Black", stock="white", size=12.0)) == ""


@pytest.mark.parametrize(
    ("choices", "said"),
    [
        # USPS DMM 101 (archived 4 January 2010), 1.2: under 1.3 or over 2.5 is nonmachinable.
        ({"layout": "sq6", "size": 12.0}, "and a square letter costs more; here it is 1."),
        # One mailing guide quoting USPS: 18 pt at most.
        ({"layout": "a7", "size": 20.0}, "want type of 18 pt or smaller; here it is 20 pt"),
        # USPS DMM 101, 1.1b: 6 1/8 in high at most.
        ({"layout": "c4", "size": 12.0}, "at most 6 1/8 in high"),
    ],
)
def test_what_departs_from_the_posts_figures_is_said_with_the_figure(
    write_list: Write, choices: dict[str, Any], said: str
) -> None:
    assert said in note(write_list, outer(ink="Black", stock="white", **choices))


@pytest.mark.parametrize(("align", "leans"), [("centre", False), ("arch", True), ("bowl", True)])
def test_an_address_on_an_arc_leans_too_much_for_machines(
    write_list: Write, *, align: str, leans: bool
) -> None:
    said = note(write_list, outer(layout="a7", ink="Black", stock="white", size=18.0, align=align))
    assert ("lean 5 degrees at most" in said) is leans


def test_gold_on_kraft_has_too_little_contrast(write_list: Write) -> None:
    said = note(write_list, outer(layout="a7", ink="Copper", stock="kraft", size=12.0))
    assert "print contrast of 40 per cent or more" in said


def test_a_docket_that_wants_machine_readable_envelopes_is_refused_others(
    write_list: Write,
) -> None:
    wanted = "\n[post]\nmachine_readable = true\n"
    assert (
        note(write_list, outer(layout="a7", ink="Black", stock="white", size=12.0) + wanted) == ""
    )
    with pytest.raises(Fault) as raised:
        note(write_list, outer(layout="a7", ink="White", stock="navy", size=12.0) + wanted)
    assert (raised.value.exit, raised.value.code) == (Exit.INPUT, "post-unfit")


def test_darker_is_judged_by_the_eye_and_not_by_the_sum_of_channels() -> None:
    """A pure blue is darker than a pure green of the same value (IEC 61966-2-1, Y)."""
    ink, stock = SHELF.ink("Black"), SHELF.stock("white")
    blue, green = replace(ink, screen=(0.0, 0.0, 1.0)), replace(stock, screen=(0.0, 1.0, 0.0))
    assert darker(blue, green)
    assert not darker(replace(ink, screen=(0.0, 1.0, 0.0)), replace(stock, screen=(0.0, 0.0, 1.0)))


@pytest.mark.parametrize(
    ("stamps", "across", "down"), [(1, 1, 1), (2, 2, 1), (3, 3, 1), (4, 2, 2), (5, 3, 2)]
)
def test_more_stamps_take_more_room_to_the_left_and_then_below(
    stamps: int, across: int, down: int
) -> None:
    layout = SHELF.layout("a7")
    before = dict(layout.clear)["stamp"]
    after = dict(with_stamps(layout, stamps).clear)["stamp"]
    assert (after.right, after.top) == pytest.approx((before.right, before.top))
    assert after.width == pytest.approx(before.width + (across - 1) * mm_to_pt(25.4))
    assert after.height == pytest.approx(before.height * down)


@pytest.mark.parametrize(
    ("size", "stamps"), [((40.0, 30.0), 1), ((40.0, 25.0), 2), ((26.0, 25.0), 4)]
)
def test_larger_stamps_take_more_room(size: tuple[float, float], stamps: int) -> None:
    layout = SHELF.layout("a7")
    before = dict(with_stamps(layout, stamps).clear)["stamp"]
    after = dict(with_stamps(layout, stamps, size).clear)["stamp"]
    across, down = {1: (1, 1), 2: (2, 1), 4: (2, 2)}[stamps]
    assert (after.right, after.top) == pytest.approx((before.right, before.top))
    assert pt_to_mm(after.width - before.width) == pytest.approx((size[0] - 22) * across)
    assert pt_to_mm(after.height - before.height) == pytest.approx((size[1] - 25) * down)


def test_a_block_is_fitted_again_below_a_large_stamp(write_list: Write) -> None:
    path = write_list([ROW])
    docket = path.with_name("docket.toml")
    rooms = {}
    for size in ("[22.0, 25.0]", "[40.0, 60.0]"):
        docket.write_text(outer(layout="a7") + f"\n[post]\nstamp_mm = {size}\n")
        setting = read_job(path, docket, None).kinds[0].setting
        stamp = dict(setting.layout.clear)["stamp"]
        rooms[size] = room = setting.room
        assert room.top <= stamp.bottom + 0.001 or room.right <= stamp.left + 0.001
    assert rooms["[40.0, 60.0]"] != rooms["[22.0, 25.0]"]


def test_words_that_only_a_large_stamp_keeps_from_fitting_are_told_so(write_list: Write) -> None:
    path = write_list([ROW])
    docket = path.with_name("docket.toml")
    own = '[[piece]]\nkind = "reply"\nsize = 16.0\nsmallest = 16.0\n'
    docket.write_text(f"{POST}stamp_mm = [90.0, 80.0]\n{own}")
    found = read_job(path, docket, None).findings
    (stop,) = [each for each in found if each.code == "line-too-wide"]
    assert "The room for a stamp of 90 × 80 mm is why: beside a usual one it fits." in stop.text
    assert "stamp_mm" in stop.mend


def test_a_block_is_fitted_again_below_many_stamps(write_list: Write) -> None:
    """Two rows of stamps on an A7 reach below the top of the address."""
    path = write_list([ROW])
    tops = []
    for stamps in (1, 6):
        docket = path.with_name("docket.toml")
        docket.write_text(outer(layout="a7") + f"\n[post]\nstamps = {stamps}\n")
        setting = read_job(path, docket, None).kinds[0].setting
        stamp = dict(setting.layout.clear)["stamp"]
        room = setting.room
        assert room.top <= stamp.bottom + 0.001 or room.right <= stamp.left + 0.001
        tops.append(pt_to_mm(room.top))
    assert tops[1] <= tops[0]


def test_hand_delivered_envelopes_keep_no_room_for_stamps() -> None:
    assert "stamp" not in dict(with_stamps(SHELF.layout("a7"), 0).clear)


POST = """\
[hosts]
name = "Mr. and Mrs. Tobias Wexcombe"
street = "48 Larkmoor Lane"
city = "Litchfield"
region = "CT"
postcode = "06759"
[pieces]
make = ["outer", "reply"]
[post]
"""


def stamp_areas(path: Path, post: str) -> dict[str, float]:
    """Millimetres across of the room for stamps on each kind of piece."""
    docket = path.with_name("docket.toml")
    docket.write_text(POST + post)
    kinds = read_job(path, docket, None).kinds
    areas = {kind.kind: dict(kind.setting.layout.clear).get("stamp") for kind in kinds}
    return {kind: round(pt_to_mm(area.width), 2) if area else 0 for kind, area in areas.items()}


def test_outers_and_replies_have_stamps_of_their_own(write_list: Write) -> None:
    path = write_list([ROW])
    one = stamp_areas(path, "stamps = 1\n")["reply"]
    assert stamp_areas(path, "stamps = 3\n") == {"outer": one + 2 * 25.4, "reply": one}
    both = stamp_areas(path, "stamps = 1\nreply_stamps = 2\n")
    assert both == {"outer": one, "reply": one + 25.4}
    assert stamp_areas(path, "stamps = 0\n") == {"outer": 0, "reply": 0}
    assert stamp_areas(path, "stamps = 2\nreply_stamps = 0\n")["reply"] == 0


def test_words_that_only_many_stamps_keep_from_fitting_are_told_so(write_list: Write) -> None:
    path = write_list([ROW])
    docket = path.with_name("docket.toml")
    own = '[[piece]]\nkind = "reply"\nsize = 16.0\nsmallest = 16.0\n'
    stops = {}
    for stamps in (1, 12):
        docket.write_text(f"{POST}reply_stamps = {stamps}\n{own}")
        found = read_job(path, docket, None).findings
        stops[stamps] = [each for each in found if each.code == "line-too-wide"]
    assert not stops[1]
    (stop,) = stops[12]
    assert "The room for 12 stamps (4 rows of 3) is why" in stop.text
    assert "reply_stamps, under [post]" in stop.mend
    # a line that has no room beside one stamp either isn't put down to them
    docket.write_text(f"{POST}reply_stamps = 12\n{own.replace('16.0', '60.0')}largest = 60.0\n")
    wide = [each for each in read_job(path, docket, None).findings if each.code == "line-too-wide"]
    assert wide
    assert "stamps" not in wide[0].text


def test_a_layout_that_only_many_stamps_fill_is_refused_for_them(write_list: Write) -> None:
    path = write_list([ROW])
    layouts = path.with_name("layouts")
    layouts.mkdir()
    (layouts / "low.toml").write_text(
        'title = "Low"\nwidth_mm = 140.0\nheight_mm = 90.0\nsafe_mm = 5.0\nsource = "invented"\n'
        '[flap]\nshape = "none"\ndepth_mm = 0.0\n'
        "[zones.outer]\nleft_mm = 60.0\nbottom_mm = 20.0\nwidth_mm = 60.0\nheight_mm = 30.0\n"
        'align = "centre"\nvalign = "middle"\n'
        "[clear.stamp]\nleft_mm = 108.0\nbottom_mm = 58.0\nwidth_mm = 32.0\nheight_mm = 32.0\n"
    )
    docket = path.with_name("docket.toml")
    docket.write_text("[post]\nstamps = 9\n" + outer(layout="low"))
    with pytest.raises(Fault) as caught:
        read_job(path, docket, None)
    assert caught.value.code == "layout-unfit"
    assert "The room for 9 stamps (3 rows of 3) is why" in caught.value.text
    assert "(stamps, under [post]" in caught.value.mend


@pytest.mark.parametrize(
    ("layout", "stamps", "across"),
    [("a2", 3, 3), ("a2", 4, 4), ("a2", 5, 3), ("a7", 4, 2), ("a7", 5, 3), ("n10", 4, 4)],
)
def test_stamps_stand_in_one_row_rather_than_come_down_into_the_address(
    layout: str, stamps: int, across: int
) -> None:
    """Two rows of usual stamps take 63.5 mm: an A2 is 111 mm high, its address begins at 69.5 mm.

    Five in a row would take more than three quarters of its width.
    """
    shelved = SHELF.layout(layout)
    width = dict(with_stamps(shelved, stamps).clear)["stamp"].width
    assert width == pytest.approx(mm_to_pt(31.75 + (across - 1) * 25.4))


def test_four_stamps_on_an_a2_leave_the_words_their_size(write_list: Write) -> None:
    path, sizes = write_list(), []
    for stamps in (1, 4):
        (path.parent / "docket.toml").write_text(
            outer(layout="a2") + f"\n[post]\nstamps = {stamps}\n"
        )
        reading = read_job(path, path.parent / "docket.toml", None)
        sizes.append(next(one.setting.size for one in reading.kinds if one.kind == "outer"))
    assert sizes[0] == sizes[1]
