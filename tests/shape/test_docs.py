"""What the documentation shows is what the program has: made again and compared."""

import importlib.util
import sys
from pathlib import Path
from types import ModuleType

import pytest

from addressing.cli.commands import COMMANDS
from addressing.materials.shelf import open_shelf
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


@pytest.mark.parametrize("name", ["findings.md", "commands.md", "shelf.md"])
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
