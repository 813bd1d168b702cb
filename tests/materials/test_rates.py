"""The user's prices: what can't be right is told by its key."""

from decimal import Decimal
from pathlib import Path

import pytest

from addressing.faults import Exit, Fault
from addressing.materials.shelf import open_shelf

GOOD = """
currency = "EUR"
as_of = "2026-03-01"
[labour]
per_hour = "38.50"
[[device]]
name = "home-toner"
cartridge_price = "80"
cartridge_pages = 2000
[[shop]]
name = "farrenby-press"
breaks = [{ from = 1, each = "1.00" }, { from = 100, each = "0.70" }]
"""


CARTRIDGE = '[[device.cartridge]]\nink = "White"\nprice = "190"\npages = 900\n'


def rates_of(folder: Path, text: str) -> object:
    (folder / "rates.toml").write_text(text, encoding="utf-8")
    return open_shelf(folder).rates()


def test_own_rates_come_before_the_invented_ones(tmp_path: Path) -> None:
    assert open_shelf(tmp_path).rates().invented
    rates_of(tmp_path, GOOD)
    rates = open_shelf(tmp_path).rates()
    assert (rates.currency, rates.digits, rates.invented) == ("EUR", 2, False)
    assert rates.per_hour == Decimal("38.50")
    assert rates.shops[0].breaks == ((1, Decimal("1.00")), (100, Decimal("0.70")))


@pytest.mark.parametrize(
    ("was", "now", "key"),
    [
        ('"EUR"', '"EUX"', "currency"),
        ('"EUR"', '"euro"', "currency"),
        ('"38.50"', '"-38.50"', "labour.per_hour"),
        ('"38.50"', '"1,5"', "labour.per_hour"),
        ('"38.50"', "38.5", "labour.per_hour"),
        ("from = 100", "from = 1", "shop[1].breaks"),
        ("from = 1,", "from = 10,", "shop[1].breaks"),
        ('"home-toner"', '"home-tonner"', "device[1].name"),
        ('"farrenby-press"', '"farenby-press"', "shop[1].name"),
        ('each = "0.70"', 'each = "-0.70"', "shop[1].breaks"),
        ("breaks = [{", 'under_percent = "100"\nbreaks = [{', "shop[1].under_percent"),
        ("cartridge_pages = 2000", "cartridge_pages = 0", "device[1].cartridge_pages"),
        ("[[shop]]", f"{CARTRIDGE}[[shop]]".replace("White", "Whit"), "device[1].cartridge[1].ink"),
        ("[[shop]]", f"{CARTRIDGE * 2}[[shop]]", "device[1].cartridge[2].ink"),
        ('"2026-03-01"', '"2026-02-30"', "as_of"),
        (
            "[labour]",
            '[fees]\npieces = { outer = "1" }\ndeposit_percent = "101"\n[labour]',
            "fees.deposit_percent",
        ),
        ("[labour]", '[fees]\npieces = { outer = "-1" }\n[labour]', "fees.pieces"),
    ],
)
def test_a_price_that_can_t_be_is_told_by_its_key(
    tmp_path: Path, was: str, now: str, key: str
) -> None:
    with pytest.raises(Fault) as raised:
        rates_of(tmp_path, GOOD.replace(was, now))
    assert (raised.value.exit, raised.value.code) == (Exit.INPUT, "rates-wrong")
    assert key in raised.value.text


@pytest.mark.parametrize(
    ("was", "now", "told"),
    [
        ('"farrenby-press"', "“farrenby-press”", "Write straight ones"),
        ("breaks = [", "rush_days = -1\nbreaks = [", "give 0 or more"),
        ('breaks = [{ from = 1, each = "1.00" }, { from = 100, each = "0.70" }]', "breaks = []",
         "give at least 1"),
        ("breaks = [", 'under_percent = "10%"\nbreaks = [', "alone, in quotes, up to 99"),
        ('"home-toner"', '"dark-blue"', "Known here: "),
        ('name = "home-toner"', 'name = ""', "write something"),
        ("[[shop]]", "[shop]", "write [[shop]], once for each"),
    ],
)  # fmt: skip
def test_what_can_t_be_is_told_in_the_words_of_a_trade(
    tmp_path: Path, was: str, now: str, told: str
) -> None:
    with pytest.raises(Fault) as caught:
        rates_of(tmp_path, GOOD.replace(was, now, 1))
    said = f"{caught.value.text} {caught.value.mend}"
    assert told in said
    words = ("validation", "pattern", "input should", "dictionary", "string ")
    assert not [word for word in words if word in said.casefold()]


def test_more_places_than_can_be_held_against_each_other_are_refused(tmp_path: Path) -> None:
    (tmp_path / "shops").mkdir()
    entry = '[[shop]]\nname = "s{}"\nbreaks = [{{ from = 1, each = "1" }}]\n'
    for number in range(13):
        text = 'title = "S"\nmargin_mm = 5.0\n[inks]\nWhite = "W"\n'
        (tmp_path / "shops" / f"s{number}.toml").write_text(text)
    head = GOOD.partition("[[device]]")[0]
    rates_of(tmp_path, head + "".join(map(entry.format, range(12))))
    with pytest.raises(Fault) as caught:
        rates_of(tmp_path, head + "".join(map(entry.format, range(13))))
    assert "13 devices and shops; 12 can" in caught.value.text


def test_a_wrong_key_of_a_table_within_a_list_is_shown_in_its_line(tmp_path: Path) -> None:
    second = CARTRIDGE.replace("900", "0")
    with pytest.raises(Fault) as caught:
        rates_of(tmp_path, GOOD.replace("[[shop]]", f"{CARTRIDGE}{second}[[shop]]"))
    assert "device[1].cartridge[2].pages (line 17)" in caught.value.text
    assert "pages = 0" in caught.value.text


def test_a_price_within_a_list_on_one_line_is_shown_by_that_line(tmp_path: Path) -> None:
    with pytest.raises(Fault) as raised:
        rates_of(tmp_path, GOOD.replace('each = "0.70"', 'each = "-0.70"'))
    line = 1 + GOOD[: GOOD.index("breaks = ")].count("\n")
    assert f"shop[1].breaks[2].each (line {line})" in raised.value.text
    assert 'each = "-0.70" }]\n      ^^^^^^' in raised.value.text
