"""The house itself: names of modules, tables with their sources, commands with their help."""

import ast
import re
import tomllib
import warnings
from pathlib import Path

import pytest

from addressing.cli.commands import COMMANDS
from addressing.version import VERSION

TOP = Path(__file__).resolve().parents[2]
PACKAGE = TOP / "addressing"
MODULES = sorted(PACKAGE.rglob("*.py"))
TABLES = sorted((PACKAGE / "data").glob("*.tsv"))
DRAWERS = {"utils", "util", "helpers", "helper", "common", "misc", "tools", "shared"}
LONG = 330


def test_no_module_is_a_drawer_of_leftovers() -> None:
    everywhere = [*MODULES, *(TOP / "tests").rglob("*.py"), *(TOP / "scripts").rglob("*.py")]
    assert [path for path in everywhere if path.stem.strip("_").lower() in DRAWERS] == []


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(TOP)))
def test_a_module_says_its_one_idea_first(path: Path) -> None:
    said = ast.get_docstring(ast.parse(path.read_text("utf-8")))
    assert said
    assert said.split("\n\n")[0].rstrip().endswith((".", ":", "?"))


def test_long_files_are_listed() -> None:
    """A number is a warning, not a target: the list stands in the test's output."""
    lengths = {path: path.read_text("utf-8").count("\n") for path in MODULES}
    long = [f"{path.relative_to(TOP)}: {n}" for path, n in lengths.items() if n > LONG]
    if long:
        with warnings.catch_warnings():
            warnings.simplefilter("default")  # shown, not raised
            warnings.warn(f"longer than {LONG} lines: {', '.join(long)}", stacklevel=1)


@pytest.mark.parametrize("path", TABLES, ids=lambda path: str(path.stem))
def test_a_table_names_its_sources(path: Path) -> None:
    lines = path.read_text("utf-8").splitlines()
    remarks = " ".join(line for line in lines if line.startswith("#"))
    header = next(line for line in lines if not line.startswith("#")).split("\t")
    sources = [place for place, name in enumerate(header) if "source" in name]
    assert sources or re.search(r"source|basis", remarks, re.IGNORECASE)
    for line in lines:
        if sources and not line.startswith("#") and line:
            cells = line.split("\t")
            assert any(place < len(cells) and cells[place] for place in sources), line


@pytest.mark.parametrize("path", TABLES, ids=lambda path: str(path.stem))
def test_a_table_has_as_many_cells_in_every_row_as_its_header(path: Path) -> None:
    rows = [
        line.split("\t")
        for line in path.read_text("utf-8").splitlines()
        if line and not line.startswith("#")
    ]
    assert [row for row in rows if len(row) > len(rows[0])] == []


def test_every_command_has_help_and_stands_once() -> None:
    names = [command.name for command in COMMANDS]
    assert len(names) == len(set(names))
    for command in COMMANDS:
        assert command.help
        assert command.help.rstrip().endswith(".")


def test_the_version_stands_once() -> None:
    project = tomllib.loads((TOP / "pyproject.toml").read_text("utf-8"))["project"]
    assert project["version"] == VERSION
    assert f"## {VERSION}" in (TOP / "CHANGELOG.md").read_text("utf-8")


def test_nothing_of_a_registry_or_a_private_machine_stands_in_the_scripts() -> None:
    for path in (TOP / "scripts" / "verify", TOP / ".ci" / "run"):
        text = path.read_text("utf-8")
        assert "://" not in text
        assert not re.search(r"index[-_]url|--trusted|/root|/home/", text)
