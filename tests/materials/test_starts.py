"""Files of the user's own to start from: each says what the shelf says, and is read as it is."""

import json
import re
import subprocess
import tomllib
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from addressing.faults import Exit, Fault
from addressing.job.starting import start_own
from addressing.materials.devices import DeviceFile
from addressing.materials.inks import InkEntry
from addressing.materials.layouts import LayoutFile
from addressing.materials.reading import Entry, known_keys
from addressing.materials.shelf import Shelf, open_shelf
from addressing.materials.shops import ShopFile
from addressing.materials.starts import start_text, starts

Run = Callable[..., subprocess.CompletedProcess[str]]
PACKAGED = open_shelf(None)
READ: dict[str, tuple[Callable[[Shelf], tuple[str, ...]], Callable[[Shelf, str], Any]]] = {
    "layout": (Shelf.layouts, Shelf.layout),
    "style": (Shelf.styles, Shelf.style),
    "device": (Shelf.devices, Shelf.device),
    "shop": (Shelf.shops, Shelf.shop),
    "paper": (Shelf.stocks, Shelf.stock),
    "ink": (Shelf.inks, Shelf.ink),
}
EVERY = [(kind, like) for kind, (keys, _) in READ.items() for like in keys(PACKAGED)]
PLAIN = {"title", "source", "notes", "inks", "width_mm", "height_mm"}
"""Keys whose names and values say all."""
KINDS = ("layout", "style", "device", "shop", "paper", "ink")


def test_all_of_the_shelf_but_its_faces_can_be_started() -> None:
    assert tuple(starts()) == KINDS
    assert len(EVERY) > 60


@pytest.mark.parametrize(("kind", "like"), EVERY)
def test_what_is_started_says_what_it_is_a_copy_of(kind: str, like: str, tmp_path: Path) -> None:
    path, docket = start_own(kind, "our own", like, tmp_path)
    found, theirs = READ[kind][1](open_shelf(tmp_path), "our own"), READ[kind][1](PACKAGED, like)
    own: dict[str, Any] = {"key": "our own"}
    if kind == "ink":
        own["spot"] = "our own" if theirs.spot == theirs.key else theirs.spot
    else:
        own["title"] = "our own"
    if kind == "style":
        own["own"] = 0  # it stands on its base and has no form itself
    assert found == replace(theirs, **own)
    assert "our own" in docket
    assert path.read_text("utf-8").startswith("# ")


@pytest.mark.parametrize("kind", KINDS)
def test_a_copy_of_a_copy_says_the_same(kind: str, tmp_path: Path) -> None:
    start_own(kind, "first", None, tmp_path)
    start_own(kind, "second", "first", tmp_path)
    shelf, read = open_shelf(tmp_path), READ[kind][1]
    first, second = read(shelf, "first"), read(shelf, "second")
    own = {"key": "first"} | ({"spot": "first"} if kind == "ink" else {"title": "first"})
    assert replace(second, **own) == first


def test_every_choice_of_a_started_style_can_be_taken(tmp_path: Path) -> None:
    path, _ = start_own("style", "house", "formal", tmp_path)
    taken = re.sub(r"^#(?! )", "", path.read_text("utf-8"), flags=re.MULTILINE)
    path.write_text(taken, "utf-8")
    style = open_shelf(tmp_path).style("house")
    formal = PACKAGED.style("formal")
    assert style.own == 1
    assert replace(style, key="formal", title=formal.title, forms=style.forms[1:], own=0) == (
        replace(formal, words=style.words, own=0)
    )
    assert dict(formal.words).items() <= dict(style.words).items()


def test_one_more_paper_leaves_those_that_are_there(tmp_path: Path) -> None:
    own = tmp_path / "stocks.toml"
    own.write_text('# ours\n[moss]\ntitle = "Moss" # by eye\nscreen = "#405030"', "utf-8")
    before = own.read_text("utf-8")
    start_own("paper", "clay", "kraft", tmp_path)
    after = own.read_text("utf-8")
    assert after.startswith(before)
    assert list(tomllib.loads(after)) == ["moss", "clay"]


@pytest.mark.parametrize("kind", KINDS)
def test_nothing_that_is_there_is_overwritten(kind: str, tmp_path: Path) -> None:
    path, _ = start_own(kind, "ours", None, tmp_path)
    before = path.read_bytes()
    with pytest.raises(Fault) as caught:
        start_own(kind, "ours", None, tmp_path)
    assert (caught.value.exit, caught.value.code) == (Exit.WRITE, "already-there")
    assert path.read_bytes() == before


@pytest.mark.parametrize("name", ["../ours", "", "a/b", ".ours", "ours ", "Müller"])
def test_a_name_that_no_file_should_have_is_refused(name: str, tmp_path: Path) -> None:
    with pytest.raises(Fault) as caught:
        start_own("shop", name, None, tmp_path)
    assert caught.value.code == "name-unfit"
    assert list(tmp_path.iterdir()) == []


def test_what_is_not_on_the_shelf_is_no_start(tmp_path: Path) -> None:
    with pytest.raises(Fault) as caught:
        start_own("layout", "ours", "a77", tmp_path)
    assert caught.value.code == "layout-unknown"
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("kind", "entry"),
    [("layout", LayoutFile), ("device", DeviceFile), ("shop", ShopFile), ("ink", InkEntry)],
)
def test_every_key_that_may_be_written_has_its_remark(
    kind: str, entry: type[Entry], tmp_path: Path
) -> None:
    text = start_text(kind, "ours", None, tmp_path)
    rows = [row for row in text.splitlines() if row.startswith("#")]
    for key in set(known_keys(entry, ())) - PLAIN:
        assert any(re.match(rf"# ([a-z_]+, )*{key}\b", row) for row in rows), key


def test_a_command_that_lists_starts_and_lists_what_it_started(addressing: Run) -> None:
    listed = {kind: f"{kind}s" for kind in KINDS}
    likes = {command: starts()[kind]["like"] for kind, command in listed.items()}
    for command, like in likes.items():
        assert f"Default: {like}." in " ".join(addressing(command, "--help").stdout.split())
        ran = addressing(command, "--start", "ours", "--beside", "there", "--json")
        assert ran.returncode == 0, ran.stderr
        assert Path(json.loads(ran.stdout)["written"]).is_file()
        told = addressing(command, "--beside", "there", "--json").stdout
        assert "ours" in [row["key"] for row in json.loads(told)[command]]
