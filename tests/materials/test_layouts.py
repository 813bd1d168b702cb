"""Layouts: what every file of the shelf keeps to, and what a wrong file is told."""

from pathlib import Path

import pytest

from addressing.faults import Exit, Fault
from addressing.materials.layouts import overlap, read_layout
from addressing.materials.shelf import open_shelf
from addressing.records.shelf import Box, Layout
from addressing.units import mm_to_pt

SHELF = open_shelf(None)
KEYS = SHELF.layouts()
ARRANGED = {
    ("a7-columns", "return"): "columns",
    ("a7-bowl", "return"): "bowl",
    ("a7-arch", "return"): "arch",
    ("a7-front", "return"): "left",
    ("sq6.5-centred", "outer"): "centre",
    ("sq6.5-centred", "reply"): "centre",
    ("a7-lower-right", "outer"): "block-right",
}
"""Layouts that are there for another arrangement than the centred one, or for another place."""
INCH = 72.0
LETTER_HIGH = 6.125 * INCH
"""USPS: a higher piece is no letter but a flat (Quick Service Guide 201)."""

GOOD = """\
title = "Penhew card"
width_mm = 180.0
height_mm = 130
safe_mm = 6.0
source = "measured"

[flap]
shape = "pointed"
depth_mm = 70.0

[zones.outer]
left_mm = 15.0
bottom_mm = 20.0
width_mm = 150.0
height_mm = 40.0
valign = "top"

[zones.return]
left_mm = 60.0
bottom_mm = 108.0
width_mm = 60.0
height_mm = 14.0

[clear.barcode]
left_mm = 60.0
bottom_mm = 0.0
width_mm = 120.0
height_mm = 15.0
"""


def written(folder: Path, text: str) -> Path:
    path = folder / "penhew.toml"
    path.write_text(text, encoding="utf-8")
    return path


def fault_of(folder: Path, was: str, now: str) -> Fault:
    """The Fault of a good layout that is hurt in one way."""
    assert was in GOOD
    with pytest.raises(Fault) as caught:
        read_layout(written(folder, GOOD.replace(was, now, 1)))
    assert caught.value.exit is Exit.INPUT
    assert caught.value.where is not None
    assert caught.value.where.file == str(folder / "penhew.toml")
    return caught.value


def test_the_shelf_has_the_usual_envelopes() -> None:
    usual = (
        "a1 4bar 5bar 5.5bar 6bar lee a2 a6 a7 a7-inner a7.5 a8 a9 a10 slim n9 n10 n6.75 n7.75 "
        "sq5 sq5.5 sq6 sq6.5 c4 c5 c6 c7 c6c5 dl b4 b5 b6 sq155 sq160"
    )
    assert set(usual.split()) <= set(KEYS)


@pytest.mark.parametrize("key", KEYS)
def test_every_zone_lies_within_the_safe_area(key: str) -> None:
    layout = SHELF.layout(key)
    assert layout.zones
    assert all(layout.safe.holds(zone.box) for zone in layout.zones)


@pytest.mark.parametrize("key", KEYS)
def test_a_posted_piece_keeps_off_bar_code_and_stamp(key: str) -> None:
    layout = SHELF.layout(key)
    front = [zone for zone in layout.zones if zone.side == "front"]
    posted = [*front, *(zone for zone in layout.zones if zone.kind in {"outer", "reply"})]
    assert not posted or {"barcode", "stamp"} == {name for name, _ in layout.clear}
    for zone in posted:
        assert not any(overlap(zone.box, area) for _, area in layout.clear)


@pytest.mark.parametrize("key", KEYS)
def test_the_bar_codes_area_is_that_of_publication_28(key: str) -> None:
    # USPS Publication 28, October 2023, A1: 4 3/4 in from the right, 5/8 in from the bottom edge.
    layout = SHELF.layout(key)
    for area in (box for name, box in layout.clear if name == "barcode"):
        assert area.right == pytest.approx(layout.width, abs=0.01)
        assert area.width == pytest.approx(min(4.75 * INCH, layout.width), abs=0.01)
        assert (area.bottom, area.height) == pytest.approx((0, 0.625 * INCH), abs=0.01)


@pytest.mark.parametrize("key", KEYS)
def test_an_address_on_a_letter_stays_in_the_read_area(key: str) -> None:
    # USPS Publication 28, October 2023, A1: 5/8 to 2 3/4 in above the bottom, 1/2 in from sides.
    layout = SHELF.layout(key)
    if layout.height > LETTER_HIGH:
        return
    area = Box(0.5 * INCH, 0.625 * INCH, layout.width - INCH, (2.75 - 0.625) * INCH)
    for zone in layout.zones:
        if zone.kind in {"outer", "reply"}:
            assert area.holds(zone.box)


@pytest.mark.parametrize("key", KEYS)
def test_names_and_addresses_are_centred_and_addresses_stand_below_the_middle(key: str) -> None:
    # Common practice, no source.
    layout = SHELF.layout(key)
    for zone in layout.zones:
        if zone.kind == "reply-number":  # small, in a corner
            continue
        if (key, zone.kind) in ARRANGED:
            assert zone.align == ARRANGED[key, zone.kind]
            continue
        assert zone.align == "centre"
        middle = zone.box.left + zone.box.width / 2
        assert middle == pytest.approx(layout.width / 2, abs=0.05)
        height = zone.box.bottom + zone.box.height / 2
        if zone.kind in {"outer", "reply"}:
            assert 0.25 * layout.height < height < 0.5 * layout.height
        if zone.kind == "inner":
            assert height == pytest.approx(layout.height / 2, abs=0.05)


def flap_half_width(layout: Layout, height: float) -> float:
    """Half the width of a straight-sided pointed flap, `height` above the lower edge."""
    return layout.width / 2 * (1 - (layout.height - height) / layout.flap_depth)


@pytest.mark.parametrize("key", KEYS)
def test_a_return_address_lies_on_the_flap_or_at_the_fronts_upper_left(key: str) -> None:
    layout = SHELF.layout(key)
    zone = layout.zone("return")
    if zone is not None and zone.side == "front":  # USPS Publication 28, October 2023, A1
        assert zone.box.bottom > 2.75 * INCH
        assert zone.box.right < layout.width / 2
        return
    if zone is None:
        assert key == "a7-inner" or layout.flap == "none"
        return
    gum = mm_to_pt(10)
    assert zone.box.bottom >= layout.height - layout.flap_depth + gum - 0.01
    if layout.flap == "pointed":
        assert zone.box.width / 2 < flap_half_width(layout, zone.box.bottom) - gum


@pytest.mark.parametrize("key", KEYS)
def test_a_layouts_file_tells_to_measure_the_flap(key: str) -> None:
    text = (Path(__file__).parents[2] / "layouts" / f"{key}.toml").read_text(encoding="utf-8")
    assert "measure yours" in text or SHELF.layout(key).flap == "none"


def test_lengths_in_millimetres_become_points(tmp_path: Path) -> None:
    layout = read_layout(written(tmp_path, GOOD))
    assert layout.key == "penhew"
    assert layout.height == pytest.approx(130 * 72 / 25.4)
    zone = layout.zone("return")
    assert zone is not None
    assert zone.box.left == pytest.approx(60 * 72 / 25.4)
    assert (zone.align, zone.valign) == ("centre", "middle")


def test_a_return_address_too_wide_for_a_pointed_flap_is_told(tmp_path: Path) -> None:
    fault = fault_of(
        tmp_path,
        "left_mm = 60.0\nbottom_mm = 108.0\nwidth_mm = 60.0",
        "left_mm = 20.0\nbottom_mm = 108.0\nwidth_mm = 140.0",
    )
    assert fault.code == "layout-wrong"
    assert "zones.return" in fault.text
    assert "gum" in fault.text


HURTS = {
    "a zone beyond the safe area": ("left_mm = 15.0", "left_mm = 2.0", "safe area"),
    "a posted zone over the bar code": ("bottom_mm = 20.0", "bottom_mm = 10.0", "barcode"),
    "a clear area beyond the edge": ("width_mm = 120.0", "width_mm = 121.0", "clear.barcode"),
    "a flap deeper than the envelope": ("depth_mm = 70.0", "depth_mm = 170.0", "flap.depth_mm"),
    "a shape that nobody knows": ('"pointed"', '"round"', "flap.shape"),
    "a return on no flap": ('"pointed"', '"none"', "zones.return"),
    "a margin that leaves nothing": ("safe_mm = 6.0", "safe_mm = 66.0", "safe_mm"),
    "no width": ("width_mm = 180.0\n", "", "width_mm: it is missing"),
    "a negative width": ("width_mm = 180.0", "width_mm = -180.0", "width_mm"),
    "an endless width": ("width_mm = 180.0", "width_mm = inf", "width_mm"),
    "words for a number": ("width_mm = 180.0", 'width_mm = "wide"', "width_mm"),
    "true for a number": ("width_mm = 180.0", "width_mm = true", "width_mm"),
    "a number for a table": ("[zones.outer]", "[zones.outr]", "zones.outr"),
}


@pytest.mark.parametrize("hurt", HURTS)
def test_a_layout_hurt_in_one_way_is_told_which(hurt: str, tmp_path: Path) -> None:
    was, now, told = HURTS[hurt]
    fault = fault_of(tmp_path, was, now)
    assert fault.code == "layout-wrong"
    assert told in fault.text
    assert fault.mend


def test_all_that_is_wrong_is_told_at_once_each_under_its_line(tmp_path: Path) -> None:
    text = GOOD.replace("width_mm = 180.0", "widht_mm = 180.0").replace('"measured"', "3")
    with pytest.raises(Fault) as caught:
        read_layout(written(tmp_path, text))
    told = caught.value.text
    assert "3 things" in told
    assert (
        "widht_mm (line 2): this key is unknown.\n      widht_mm = 180.0\n      ^^^^^^^^\n" in told
    )
    assert "source (line 5)" in told
    assert "Did you mean width_mm" in caught.value.mend


def test_a_layout_without_any_zone_is_told(tmp_path: Path) -> None:
    head = GOOD[: GOOD.index("[zones.outer]")]
    with pytest.raises(Fault) as caught:
        read_layout(written(tmp_path, head + "[zones]\n"))
    assert "there is no zone" in caught.value.text


def test_an_error_of_toml_is_told_with_its_line_and_place(tmp_path: Path) -> None:
    fault = fault_of(tmp_path, "height_mm = 130", "height_mm 130")
    assert fault.code == "layout-syntax"
    assert "line 3" in fault.text
    assert "\n    height_mm 130\n" in fault.text


def test_brackets_nested_a_thousandfold_are_refused_calmly(tmp_path: Path) -> None:
    fault = fault_of(tmp_path, "height_mm = 130", "height_mm = " + "[" * 5000)
    assert fault.code == "layout-syntax"


def test_what_is_no_text_or_too_large_or_a_folder_or_gone_is_told_apart(tmp_path: Path) -> None:
    path = tmp_path / "penhew.toml"
    codes = []
    for content in (b"title = '\xff'", b"#" * (1 << 20) + b"#"):
        path.write_bytes(content)
        with pytest.raises(Fault) as caught:
            read_layout(path)
        codes.append(caught.value.code)
    path.unlink()
    with pytest.raises(Fault) as caught:
        read_layout(path)
    codes.append(caught.value.code)
    path.mkdir()
    with pytest.raises(Fault) as caught:
        read_layout(path)
    codes.append(caught.value.code)
    assert codes == [
        "layout-unreadable",
        "layout-unreadable",
        "layout-missing",
        "layout-unreadable",
    ]


def test_the_centred_square_has_its_address_in_the_middle_both_ways() -> None:
    layout = SHELF.layout("sq6.5-centred")
    for zone in layout.zones:
        if zone.kind != "return":
            across = zone.box.left + zone.box.width / 2
            up = zone.box.bottom + zone.box.height / 2
            assert (across, up) == pytest.approx((layout.width / 2, layout.height / 2), abs=0.05)


def test_a_return_on_the_front_that_runs_into_the_stamp_is_told(tmp_path: Path) -> None:
    text = (Path(__file__).parents[2] / "layouts" / "a7-front.toml").read_text(encoding="utf-8")
    (tmp_path / "wide.toml").write_text(text.replace("width_mm = 70.0", "width_mm = 150.0"))
    with pytest.raises(Fault) as caught:
        read_layout(tmp_path / "wide.toml")
    assert "clear area stamp" in str(caught.value)
