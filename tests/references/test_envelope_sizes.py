"""The sizes of layouts against standards that are not ours."""

import pytest

from addressing.materials.shelf import open_shelf
from addressing.units import MM_PER_INCH, pt_to_mm

SHELF = open_shelf(None)

ISO_269 = {
    # ISO 269, Correspondence envelopes; the table as read in public copies, mm.
    "c4": (229, 324),
    "c5": (162, 229),
    "c6": (114, 162),
    "c7": (81, 114),
    "c6c5": (114, 229),
    "c7c6": (81, 162),
    "dl": (110, 220),
    "b4": (250, 353),
    "b5": (176, 250),
    "b6": (125, 176),
}

PWG_5101_1 = {
    # PWG 5101.1, Media Standardized Names: the size is part of the name, in.
    "n10": "na_number-10_4.125x9.5in",
    "n9": "na_number-9_3.875x8.875in",
    "n7.75": "na_monarch_3.875x7.5in",
    "n6.75": "na_personal_3.625x6.5in",
    "a2": "na_a2_4.375x5.75in",
    "6x9": "na_6x9_6x9in",
    "c5": "iso_c5_162x229mm",
    "dl": "iso_dl_110x220mm",
}

TRADE = {
    # Sizes of the US stationery trade, which no standard fixes; in. Read on public pages.
    "a1": (3.625, 5.125),
    "4bar": (3.625, 5.125),
    "5.5bar": (4.375, 5.75),
    "6bar": (4.75, 6.5),
    "lee": (5.25, 7.25),
    "a6": (4.75, 6.5),
    "a7": (5.25, 7.25),
    "a8": (5.5, 8.125),
    "a9": (5.75, 8.75),
    "a10": (6, 9.5),
    "sq6": (6, 6),
}


def sides(key: str) -> tuple[float, float]:
    """The short and the long side of a layout, mm."""
    layout = SHELF.layout(key)
    short, long = sorted((pt_to_mm(layout.width), pt_to_mm(layout.height)))
    return short, long


@pytest.mark.parametrize("key", ISO_269)
def test_an_iso_envelope_has_the_size_of_iso_269(key: str) -> None:
    assert sides(key) == pytest.approx(ISO_269[key], abs=0.001)
    assert "ISO 269" in SHELF.layout(key).source


@pytest.mark.parametrize("key", PWG_5101_1)
def test_a_named_envelope_has_the_size_in_its_pwg_5101_1_name(key: str) -> None:
    name = PWG_5101_1[key]
    size = name.rsplit("_", 1)[1]
    unit = MM_PER_INCH if size.endswith("in") else 1.0
    short, long = (float(side) * unit for side in size[:-2].split("x"))
    assert sides(key) == pytest.approx((short, long), abs=0.001)
    assert name in SHELF.layout(key).source


@pytest.mark.parametrize("key", TRADE)
def test_a_trade_envelope_has_the_size_that_the_trade_gives_it(key: str) -> None:
    expected = tuple(side * MM_PER_INCH for side in TRADE[key])
    assert sides(key) == pytest.approx(expected, abs=0.001)


@pytest.mark.parametrize("key", SHELF.layouts())
def test_every_layout_lies_with_its_long_side_along_the_bottom_and_says_its_source(
    key: str,
) -> None:
    layout = SHELF.layout(key)
    assert layout.width >= layout.height or layout.flap == "none"  # an open tent card stands
    assert len(layout.source) > 10
