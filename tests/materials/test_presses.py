"""Inks, papers, devices and shops."""

from pathlib import Path

import pytest

from addressing.faults import Exit, Fault
from addressing.materials.devices import read_device
from addressing.materials.inks import read_inks, read_stocks
from addressing.materials.presses import ink_for
from addressing.materials.shelf import open_shelf
from addressing.materials.shops import read_shop
from addressing.records.shelf import Device, Shop

SHELF = open_shelf(None)

DEVICE = """\
title = "The one on the left"
method = "toner"
margin_mm = 4.5
load = 6
smallest_mm = [140.0, 90.0]
largest_mm = [215.9, 355.6]
inks = ["White", "Black"]
slots = { White = "cyan" }
"""

SHOP = """\
title = "Penhew Print"
margin_mm = 6.0
inks = { White = "Penhew White", Black = "Black" }
"""


def written(folder: Path, text: str, name: str = "left.toml") -> Path:
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return path


def test_every_ink_can_be_seen_where_it_is_not_there() -> None:
    # A white whose alternate is 0 0 0 0 renders as an empty page (measured).
    for key in SHELF.inks():
        assert any(SHELF.ink(key).alternate)


def test_white_is_white_on_proofs_and_a_spot_of_that_name() -> None:
    white = SHELF.ink("White")
    assert (white.spot, white.channel, white.screen) == ("White", None, (1.0, 1.0, 1.0))


def test_black_alone_is_a_process_ink() -> None:
    # A Separation of a process colorant's name is that colorant (ISO 32000-1, 8.6.6.4).
    process = {key: SHELF.ink(key).channel for key in SHELF.inks() if SHELF.ink(key).channel}
    assert process == {"Black": "black"}


def test_the_default_stock_is_dark_and_ivory_is_light() -> None:
    assert max(SHELF.stock("deep-green").screen) < 0.3
    assert min(SHELF.stock("ivory").screen) > 0.8


@pytest.mark.parametrize("spot", ["Wei/ss", "Blanc cassé", "a(b", "a#b", "白", " White", "", "All"])
def test_a_spot_name_that_programs_write_differently_is_refused(spot: str, tmp_path: Path) -> None:
    text = f'[Mine]\nspot = "{spot}"\nalternate = [0.1, 0.0, 0.0, 0.0]\nscreen = "#FFFFFF"\n'
    with pytest.raises(Fault) as caught:
        read_inks(written(tmp_path, text))
    assert caught.value.exit is Exit.INPUT
    assert caught.value.code == "ink-wrong"


INKS = {
    "nothing to see": ("alternate = [0, 0, 0, 0]", "it can't be seen"),
    "three parts": ("alternate = [0.1, 0.1, 0.1]", "alternate"),
    "more than all": ("alternate = [1.1, 0, 0, 0]", "alternate[1]"),
    "a colour's name": ('alternate = [0.1, 0, 0, 0]\nscreen = "red"', "screen"),
}


@pytest.mark.parametrize("hurt", INKS)
def test_an_ink_that_can_not_be_is_told(hurt: str, tmp_path: Path) -> None:
    line, told = INKS[hurt]
    rest = "" if "screen" in line else '\nscreen = "#FFFFFF"'
    with pytest.raises(Fault) as caught:
        read_inks(written(tmp_path, f"[Mine]\n{line}{rest}\n"))
    assert told in caught.value.text
    assert "Mine" in caught.value.text


def test_a_process_name_without_its_channel_and_a_key_that_is_no_spot_name_are_told(
    tmp_path: Path,
) -> None:
    body = 'alternate = [1.0, 0, 0, 0]\nscreen = "#00AEEF"\n'
    with pytest.raises(Fault) as caught:
        read_inks(written(tmp_path, f'[Cyan]\n{body}["Farbe ß"]\n{body}'))
    assert '"Cyan" is a process ink' in caught.value.text
    assert "can't name a spot ink" in caught.value.text
    assert 'add channel = "cyan"' in caught.value.mend


def test_a_table_of_papers_that_is_no_table_is_told(tmp_path: Path) -> None:
    with pytest.raises(Fault) as caught:
        read_stocks(written(tmp_path, 'sage = "green"\n'))
    assert caught.value.code == "stock-wrong"


def test_a_device_with_a_slot_for_the_ink_gives_it_that_channel() -> None:
    ink = ink_for(SHELF.device("home-toner-white"), SHELF.ink("White"))
    assert (ink.key, ink.channel) == ("White", "black")


def test_the_black_slot_behind_a_driver_of_rgb_is_asked_for_in_grey() -> None:
    assert ink_for(SHELF.device("home-inkjet"), SHELF.ink("Black")).channel == "grey"
    assert ink_for(SHELF.device("home-inkjet"), SHELF.ink("Navy")).channel is None
    assert ink_for(SHELF.device("home-toner"), SHELF.ink("Black")).channel == "black"


def test_without_a_press_and_without_a_slot_an_ink_stays_as_it_is() -> None:
    assert ink_for(None, SHELF.ink("White")) == SHELF.ink("White")
    charcoal = SHELF.ink("Charcoal")
    assert ink_for(SHELF.device("home-toner"), charcoal) == charcoal


def test_a_shop_gives_a_spot_ink_its_own_name_and_a_process_ink_its_channel() -> None:
    shop = SHELF.shop("farrenby-press")
    white = ink_for(shop, SHELF.ink("White"))
    assert (white.key, white.spot, white.channel) == ("White", dict(shop.inks)["White"], None)
    assert white.spot != "White"
    assert ink_for(shop, SHELF.ink("Black")).channel == "black"


@pytest.mark.parametrize(
    ("press", "ink"),
    [
        (SHELF.device("home-toner"), "White"),
        (SHELF.device("home-inkjet"), "White"),
        (SHELF.device("home-toner-white"), "Black"),
        (SHELF.shop("farrenby-press"), "Copper"),
    ],
    ids=["white on plain toner", "white on inkjet", "black beside white", "copper at the shop"],
)
def test_an_ink_that_a_press_has_not_is_refused_with_those_that_it_has(
    press: Device | Shop, ink: str
) -> None:
    with pytest.raises(Fault) as caught:
        ink_for(press, SHELF.ink(ink))
    assert (caught.value.exit, caught.value.code) == (Exit.INPUT, "ink-not-there")
    names = press.inks if isinstance(press, Device) else tuple(dict(press.inks))
    assert all(str(name) in caught.value.text for name in names)


@pytest.mark.parametrize("key", SHELF.devices())
def test_a_device_brings_the_steps_and_cautions_for_its_job_sheet(key: str) -> None:
    device = SHELF.device(key)
    assert device.steps
    assert device.after
    assert device.cautions
    assert device.load == 10
    if device.method == "toner":
        assert any("hot" in words for words in device.cautions)
        assert any("windows" in words for words in device.cautions)


def test_a_users_device_is_read_with_its_short_side_first(tmp_path: Path) -> None:
    device = read_device(written(tmp_path, DEVICE))
    assert device.key == "left"
    assert device.smallest == pytest.approx((90 * 72 / 25.4, 140 * 72 / 25.4))
    assert device.slots == (("White", "cyan"),)


DEVICES = {
    "a slot for an ink that it lacks": ("White = ", "Gold = ", "slots.Gold"),
    "a slot that no device has": ('"cyan"', '"orange"', "slots.White"),
    "sizes the wrong way about": ("[140.0, 90.0]", "[240.0, 390.0]", "smallest_mm"),
    "one side only": ("[140.0, 90.0]", "[140.0]", "smallest_mm"),
    "no envelope at all": ("load = 6", "load = 0", "load"),
    "half an envelope": ("load = 6", "load = 6.5", "load"),
    "a margin beyond reason": ("margin_mm = 4.5", "margin_mm = 400.5", "margin_mm"),
    "a flap that can't lie there": (
        "load = 6",
        'load = 6\nfeed = { edge = "long", flap = "left" }',
        "feed.flap",
    ),
    "a slot that a driver mixes": ("load = 6", 'load = 6\ntakes = "rgb"', "slots"),
    "a sheet that nobody knows": ("load = 6", 'load = 6\nsheets = ["leter"]', "sheets[1]"),
    "a carrier that it doesn't take": ("load = 6", 'load = 6\ncarrier = "a4"', "carrier"),
    "no sheet for its only way": ("load = 6", 'load = 6\nways = ["sheet"]', "sheets"),
    "a surface that no paper has": (
        "load = 6",
        'load = 6\nstock = { never = ["sticky"] }',
        "stock.never[1]",
    ),
    "a surface twice": (
        "load = 6",
        'load = 6\nstock = { never = ["felt"], test_first = ["felt"] }',
        "stock.never",
    ),
    "an unknown method": ('"toner"', '"steam"', "method"),
}


@pytest.mark.parametrize("hurt", DEVICES)
def test_a_device_hurt_in_one_way_is_told_which(hurt: str, tmp_path: Path) -> None:
    was, now, told = DEVICES[hurt]
    with pytest.raises(Fault) as caught:
        read_device(written(tmp_path, DEVICE.replace(was, now, 1)))
    assert (caught.value.exit, caught.value.code) == (Exit.INPUT, "device-wrong")
    assert told in caught.value.text


def test_a_shops_spot_names_are_checked_as_ours_are(tmp_path: Path) -> None:
    assert dict(read_shop(written(tmp_path, SHOP)).inks)["White"] == "Penhew White"
    with pytest.raises(Fault) as caught:
        read_shop(written(tmp_path, SHOP.replace("Penhew White", "Penhew/White")))
    assert caught.value.code == "shop-wrong"
    assert "inks.White" in caught.value.text


@pytest.mark.parametrize("key", SHELF.devices())
def test_each_device_says_which_paper_it_suits_and_whence_that_is_known(key: str) -> None:
    suits = SHELF.device(key).stock.suits
    for word in ("handmade", "thick", "vellum", "ommon practice, no source"):
        assert word in suits


def test_only_inkjet_takes_handmade_paper_and_none_translucent_vellum() -> None:
    never = {key: SHELF.device(key).stock.never for key in SHELF.devices()}
    toner = {key for key in never if SHELF.device(key).method == "toner"}
    assert {key for key, its in never.items() if "handmade" in its} == toner
    assert all("translucent" in its for its in never.values())
    assert not any("vellum-finish" in its for its in never.values())
