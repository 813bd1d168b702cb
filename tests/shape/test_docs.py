"""What the documentation shows is what the program has: made again and compared."""

import importlib.util
import re
import sys
from dataclasses import replace
from pathlib import Path
from types import ModuleType

import pytest

from addressing.cli.commands import COMMANDS
from addressing.materials.devices import DeviceFile
from addressing.materials.inks import StockEntry
from addressing.materials.postage import PostageFile
from addressing.materials.rates import RatesFile
from addressing.materials.reading import Entry, known_keys
from addressing.materials.shelf import open_shelf
from addressing.materials.shops import ShopFile
from addressing.tables import table

TOP = Path(__file__).resolve().parents[2]


@pytest.fixture(scope="module")
def script() -> ModuleType:
    path = TOP / "scripts" / "make_docs.py"
    spec = importlib.util.spec_from_file_location("make_docs", path)
    assert spec is not None
    assert spec.loader is not None
    module = sys.modules["make_docs"] = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.mark.parametrize("name", ["findings.md", "commands.md", "shelf.md", "own_files.md"])
def test_a_page_is_as_the_program_is_now(script: ModuleType, name: str) -> None:
    # when this fails: python scripts/make_docs.py, and read what changed
    made = script.PAGES[name]()
    assert (TOP / "docs" / name).read_text("utf-8") == made


def test_every_command_and_every_finding_is_told() -> None:
    commands = (TOP / "docs" / "commands.md").read_text("utf-8")
    findings = (TOP / "docs" / "findings.md").read_text("utf-8")
    assert [
        name for name in map(str, (c.name for c in COMMANDS)) if f"## {name}\n" not in commands
    ] == []
    assert [
        row["code"] for row in table("findings") if f"### `{row['code']}`" not in findings
    ] == []


def test_everything_on_the_shelf_is_told() -> None:
    page = (TOP / "docs" / "shelf.md").read_text("utf-8")
    shelf = open_shelf(None)
    keys = (
        *shelf.layouts(), *shelf.faces(), *shelf.inks(), *shelf.stocks(),
        *shelf.devices(), *shelf.shops(),
    )  # fmt: skip
    assert len(keys) > 50
    assert [key for key in keys if f"| `{key}` |" not in page] == []


def examples() -> dict[str, str]:
    """The files that docs/own_files.md shows, by their names."""
    page = (TOP / "docs" / "own_files.md").read_text("utf-8")
    return dict(re.findall(r"## `([^`]+)`\n.*?```toml\n(.*?)```", page, re.DOTALL))


def test_each_example_of_a_file_can_be_copied_and_says_what_the_packaged_one_says(
    tmp_path: Path,
) -> None:
    for name, text in examples().items():
        path = tmp_path / name
        path.parent.mkdir(exist_ok=True)
        path.write_text(text, encoding="utf-8")
    ours, packaged = open_shelf(tmp_path), open_shelf(None)
    assert ours.rates() == replace(packaged.rates(), invented=False)
    assert ours.postage() == replace(packaged.postage(), invented=False)
    assert [*map(ours.stock, ours.stocks())] == [*map(packaged.stock, packaged.stocks())]
    assert ours.shop("farrenby-press") == packaged.shop("farrenby-press")
    assert ours.device("home-toner") == packaged.device("home-toner")


@pytest.mark.parametrize(
    ("name", "model"),
    [
        ("rates.toml", RatesFile),
        ("postage.toml", PostageFile),
        ("stocks.toml", StockEntry),
        ("shops/farrenby-press.toml", ShopFile),
        ("devices/home-toner.toml", DeviceFile),
    ],
)
def test_every_key_of_a_file_stands_in_its_example(name: str, model: type[Entry]) -> None:
    words = set(re.findall(r"\w+", examples()[name]))
    assert [key for key in all_keys(model) if key not in words] == []


def all_keys(model: type[Entry]) -> list[str]:
    """The keys of a file and of all tables within it."""
    keys = list(known_keys(model, ()))
    for key in known_keys(model, ()):
        inner = known_keys(model, (key,))
        keys += inner if inner != known_keys(model, ()) else ()
    return keys
