"""Shops: rules read from a user's file, and what is wrong in it told."""

from pathlib import Path

import pytest

from addressing.faults import Exit, Fault
from addressing.materials.shelf import open_shelf
from addressing.materials.shops import check_prints, read_shop
from addressing.records.shops import Dies, FileRules, Order, Prints, SentIn

SHOP = """\
title = "Penhew Print"
margin_mm = 6.0
inks = { White = "Penhew White", Gold = "Penhew Gold", Black = "Black" }

[[prints]]
inks = ["White", "Gold"]
stocks = ["deep-green", "navy"]
pieces = ["outer", "inner"]

[[prints]]
inks = ["Black"]

[files]
name = "PP_{piece}_{ink}_{part}"
most_pages = 200
type = "live"

[order]
minimum = 50
pack = 25
days = 4

[[dies]]
method = "hot-foil"
least_cm2 = 65.0
kept_months = 24

[sent_in]
spare_percent = 10.0
spoilage_percent = 3.0
"""


def written(folder: Path, text: str) -> Path:
    path = folder / "penhew.toml"
    path.write_text(text, encoding="utf-8")
    return path


def profile(*, size: int = 132, kind: bytes = b"prtr", space: bytes = b"CMYK") -> bytes:
    """The header of an ICC profile (ICC.1:2010, 7.2: size, version, class, space, signature)."""
    header = bytearray(size)
    header[0:4] = (132).to_bytes(4, "big")
    header[8:12] = b"\x02\x10\x00\x00"
    header[12:16], header[16:20], header[36:40] = kind, space, b"acsp"
    return bytes(header)


def test_a_shop_is_read_with_all_of_its_rules(tmp_path: Path) -> None:
    shop = read_shop(written(tmp_path, SHOP))
    assert shop.prints[0] == Prints(("White", "Gold"), ("deep-green", "navy"), ("outer", "inner"))
    assert shop.files == FileRules(name="PP_{piece}_{ink}_{part}", most_pages=200, type="live")
    assert shop.order == Order(50, 25, 4)
    assert shop.dies == (Dies("hot-foil", 65.0, ganged=True, kept=24),)
    assert shop.sent_in == SentIn(10.0, 3.0, "back")


def test_a_shop_without_rules_is_as_it_was(tmp_path: Path) -> None:
    shop = read_shop(written(tmp_path, SHOP.split("[[prints]]", maxsplit=1)[0]))
    assert (shop.prints, shop.files, shop.order) == ((), FileRules(), Order())
    check_prints(shop, "Gold", "ivory", "reply")


def test_an_ink_on_a_paper_that_the_shop_does_not_print_is_refused(tmp_path: Path) -> None:
    shop = read_shop(written(tmp_path, SHOP))
    check_prints(shop, "White", "navy", "outer")
    check_prints(shop, "Black", "ivory", "reply")
    with pytest.raises(Fault) as caught:
        check_prints(shop, "White", "navy", "place-card")
    assert (caught.value.exit, caught.value.code) == (Exit.INPUT, "shop-not-on-this")
    assert caught.value.mend.startswith("On that it prints Black.")


def test_a_paper_that_nobody_knows_is_told_with_near_ones(tmp_path: Path) -> None:
    (tmp_path / "shops").mkdir()
    written(tmp_path / "shops", SHOP.replace("navy", "navyy"))
    with pytest.raises(Fault) as caught:
        open_shelf(tmp_path).shop("penhew")
    assert caught.value.code == "stock-unknown"
    assert "navy" in caught.value.mend


HURT = {
    "an ink that it lacks": ('["White", "Gold"]', '["White", "Golf"]', "Did you mean Gold?"),
    "a piece that is none": ('"inner"]', '"innner"]', "Did you mean inner?"),
    "an unknown key": ("most_pages", "max_pages", "files.max_pages"),
    "no page at all": ("most_pages = 200", "most_pages = 0", "files.most_pages"),
    "a name with a slash": ("PP_{piece}", "PP/{piece}", "files.name"),
    "a name with a guest in it": ("{part}", "{name}", "files.name"),
    "one name for all plates": ("PP_{piece}", "PP", "{piece} or {number}"),
    "an unknown standard": ("most_pages = 200", 'standard = "pdf/x-9"', "files.standard"),
    "an unknown method": ("hot-foil", "cold-foil", "dies[1].method"),
    "X-4 without a condition": (
        "most_pages = 200", 'standard = "pdf/x-4"\nprofile = "press.icc"', "files.condition",
    ),
    "X-4 without a profile": (
        "most_pages = 200", 'standard = "pdf/x-4"\ncondition = "FOGRA51"', "files.profile",
    ),
    "a profile without X-4": ("most_pages = 200", 'condition = "FOGRA51"', "belongs to PDF/X-4"),
}  # fmt: skip


@pytest.mark.parametrize("hurt", HURT)
def test_a_shop_hurt_in_one_way_is_told_which(hurt: str, tmp_path: Path) -> None:
    (tmp_path / "press.icc").write_bytes(profile())
    was, now, told = HURT[hurt]
    assert was in SHOP
    with pytest.raises(Fault) as caught:
        read_shop(written(tmp_path, SHOP.replace(was, now, 1)))
    assert (caught.value.exit, caught.value.code) == (Exit.INPUT, "shop-wrong")
    assert told in f"{caught.value.text} {caught.value.mend}"


PROFILES = {
    "none": (b"", "no ICC profile"),
    "a screen's": (profile(kind=b"mntr"), "isn't the profile of a press"),
    "of three inks": (profile(space=b"RGB "), "isn't the profile of a press"),
    "cut short": (profile(size=130), "isn't whole"),
}


@pytest.mark.parametrize("hurt", PROFILES)
def test_a_profile_that_can_not_be_a_press_s_is_refused(hurt: str, tmp_path: Path) -> None:
    data, told = PROFILES[hurt]
    (tmp_path / "press.icc").write_bytes(data)
    rules = 'standard = "pdf/x-4"\ncondition = "FOGRA51"\nprofile = "press.icc"'
    with pytest.raises(Fault) as caught:
        read_shop(written(tmp_path, SHOP.replace("most_pages = 200", rules)))
    assert told in caught.value.text


def test_a_profile_beside_the_shop_s_file_is_taken(tmp_path: Path) -> None:
    (tmp_path / "press.icc").write_bytes(profile())
    rules = 'standard = "pdf/x-4"\ncondition = "FOGRA51"\nprofile = "press.icc"'
    intent = read_shop(written(tmp_path, SHOP.replace("most_pages = 200", rules))).files.intent
    assert intent is not None
    assert (intent.identifier, intent.registry) == ("FOGRA51", "http://www.color.org")
