"""Room for stamps, and what the post's machines can read, by the post's own published figures."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from addressing.faults import Exit, Fault
from addressing.job.posting import darker, with_stamps
from addressing.job.reading import read_job
from addressing.materials.shelf import open_shelf
from addressing.records.docket import Post
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
    after = dict(with_stamps(layout, Post(stamps)).clear)["stamp"]
    assert (after.right, after.top) == pytest.approx((before.right, before.top))
    assert after.width == pytest.approx(before.width + (across - 1) * mm_to_pt(25.4))
    assert after.height == pytest.approx(before.height * down)


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
    assert "stamp" not in dict(with_stamps(SHELF.layout("a7"), Post(0)).clear)
