"""The shelf: names found, a user's own first, unknown names answered with near ones."""

from collections.abc import Callable
from pathlib import Path

import pytest

from addressing.faults import Exit, Fault
from addressing.materials.nearest import any_of, did_you_mean
from addressing.materials.shelf import Shelf, open_shelf, package_folder
from addressing.records.docket import Docket
from addressing.where import Where

LISTS: dict[str, tuple[Callable[[Shelf], tuple[str, ...]], Callable[[Shelf, str], object]]] = {
    "layout": (Shelf.layouts, Shelf.layout),
    "face": (Shelf.faces, Shelf.face),
    "ink": (Shelf.inks, Shelf.ink),
    "stock": (Shelf.stocks, Shelf.stock),
    "device": (Shelf.devices, Shelf.device),
    "shop": (Shelf.shops, Shelf.shop),
}


@pytest.mark.parametrize("kind", LISTS)
def test_everything_listed_can_be_taken_in_any_capitals(kind: str) -> None:
    listed, take = LISTS[kind]
    shelf = open_shelf(None)
    keys = listed(shelf)
    assert keys
    assert len(set(keys)) == len(keys)
    for key in keys:
        assert take(shelf, key.upper()) == take(shelf, key)


@pytest.mark.parametrize("kind", LISTS)
def test_an_unknown_name_is_answered_with_near_ones(kind: str) -> None:
    listed, take = LISTS[kind]
    shelf = open_shelf(None)
    key = listed(shelf)[0]
    with pytest.raises(Fault) as caught:
        take(shelf, f"{key}x")
    assert (caught.value.exit, caught.value.code) == (Exit.INPUT, f"{kind}-unknown")
    assert key in caught.value.mend


def test_an_unknown_name_is_told_where_it_was_asked_for() -> None:
    where = Where("docket.toml", None, "docket:piece[1].layout")
    with pytest.raises(Fault) as caught:
        open_shelf(None).layout("a77", where)
    assert caught.value.where == where


@pytest.mark.parametrize("name", ["../layouts/a7", "/etc/passwd", "", "a7.toml", "a\0b"])
def test_a_name_never_leads_out_of_the_shelf(name: str) -> None:
    with pytest.raises(Fault) as caught:
        open_shelf(None).layout(name)
    assert caught.value.code == "layout-unknown"


def test_what_the_default_docket_names_is_on_the_shelf() -> None:
    shelf = open_shelf(None)
    for choice in Docket().pieces:
        layout = shelf.layout(choice.layout)
        assert layout.zone(choice.kind) is not None
        assert shelf.face(choice.face).key == choice.face
        assert shelf.ink(choice.ink).key == choice.ink
        assert shelf.stock(choice.stock).key == choice.stock


def test_a_users_own_layout_comes_first_and_new_ones_are_listed(tmp_path: Path) -> None:
    own = tmp_path / "layouts"
    own.mkdir()
    text = (package_folder("layouts") / "a7.toml").read_text(encoding="utf-8")
    (own / "a7.toml").write_text(text.replace('title = "A7"', 'title = "Ours"'), encoding="utf-8")
    (own / "larkmoor.toml").write_text(text, encoding="utf-8")
    shelf = open_shelf(tmp_path)
    assert shelf.layout("a7").title == "Ours"
    assert "larkmoor" in shelf.layouts()
    assert open_shelf(None).layout("a7").title == "A7"


def test_a_users_own_devices_and_shops_come_first(tmp_path: Path) -> None:
    (tmp_path / "devices").mkdir()
    (tmp_path / "shops").mkdir()
    (tmp_path / "devices" / "home-toner.toml").write_text(
        'title = "Mine"\nmethod = "toner"\nmargin_mm = 4\nload = 5\ninks = ["Black"]\n'
        "smallest_mm = [90, 140]\nlargest_mm = [216, 356]\n",
        encoding="utf-8",
    )
    (tmp_path / "shops" / "penhew.toml").write_text(
        'title = "Penhew"\nmargin_mm = 6\ninks = { White = "PW" }\n', encoding="utf-8"
    )
    shelf = open_shelf(tmp_path)
    assert shelf.device("home-toner").title == "Mine"
    assert shelf.devices().count("home-toner") == 1
    assert shelf.device("home-inkjet").method == "inkjet"
    assert shelf.press(None, "penhew") == shelf.shop("penhew")
    assert shelf.press("home-toner", None) == shelf.device("home-toner")
    assert shelf.press(None, None) is None


def test_a_users_own_inks_and_papers_join_and_replace(tmp_path: Path) -> None:
    (tmp_path / "inks.toml").write_text(
        '[White]\nspot = "My White"\nalternate = [0.2, 0, 0, 0]\nscreen = "#FFFFFF"\n',
        encoding="utf-8",
    )
    (tmp_path / "stocks.toml").write_text(
        '[moss]\ntitle = "Moss"\nscreen = "#55663B"\n', encoding="utf-8"
    )
    shelf = open_shelf(tmp_path)
    assert shelf.ink("White").spot == "My White"
    assert shelf.ink("Gold").spot == "Gold"
    assert shelf.stock("moss").screen == pytest.approx((0x55 / 255, 0x66 / 255, 0x3B / 255))
    assert shelf.stock("deep-green").title == "Deep green"


def test_a_broken_file_of_the_users_stops_only_whoever_asks_for_it(tmp_path: Path) -> None:
    (tmp_path / "layouts").mkdir()
    (tmp_path / "layouts" / "bad.toml").write_text("title = ", encoding="utf-8")
    (tmp_path / "layouts" / "folder.toml").mkdir()
    shelf = open_shelf(tmp_path)
    assert shelf.layout("a7").title == "A7"
    assert "folder" not in shelf.layouts()
    with pytest.raises(Fault) as caught:
        shelf.layout("bad")
    assert caught.value.code == "layout-syntax"


def test_a_face_is_looked_over_once_for_a_shelf() -> None:
    shelf = open_shelf(None)
    assert shelf.face("great-vibes") is shelf.face("Great-Vibes")


def test_names_are_joined_as_people_say_them() -> None:
    assert any_of(("a7",)) == "a7"
    assert did_you_mean("zzzz", ("a6", "a7")) == "Known here: a6, a7."
    assert did_you_mean("a7", ()) == "There is none here yet."
