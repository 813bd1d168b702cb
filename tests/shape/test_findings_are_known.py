"""Every code of a finding that the source uses is in the table, and every code there is used."""

import ast
from collections.abc import Collection, Iterator
from pathlib import Path

import pytest

from addressing.tables import table

PACKAGE = Path(__file__).resolve().parents[2] / "addressing"
PLACES = {"finding": 0, "Trouble": 0, "Doubt": 0, "Finding": 1}
"""Where the code stands among the arguments of each that makes a finding."""
Call = tuple[Path, ast.Module, ast.Call]


def modules() -> list[Path]:
    return sorted(PACKAGE.rglob("*.py"))


def assigned(tree: ast.AST, name: str) -> Iterator[ast.expr]:
    """What a name is ever given in a module, also as the target of a loop over words."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Assign) and any(
            isinstance(target, ast.Name) and target.id == name for target in node.targets
        ):
            yield node.value


def words_of(value: ast.expr, tree: ast.AST, seen: frozenset[str] = frozenset()) -> set[str]:
    """The words that an expression may be; empty where that can't be seen."""
    if isinstance(value, ast.Constant):
        return {str(value.value)}
    if isinstance(value, ast.IfExp):
        return words_of(value.body, tree, seen) | words_of(value.orelse, tree, seen)
    if isinstance(value, ast.Name) and value.id not in seen:
        return {
            word
            for given in assigned(tree, value.id)
            for word in words_of(given, tree, seen | {value.id})
        }
    return set()


def calls(names: Collection[str]) -> Iterator[Call]:
    """Every call of one of these names, with its module."""
    for path in modules():
        tree = ast.parse(path.read_text("utf-8"))
        for node in ast.walk(tree):
            match node:
                case ast.Call(func=ast.Name(id=name)) if name in names:
                    yield path, tree, node


def used_codes() -> dict[str, str]:
    """Code → the module that uses it."""
    return {
        word: path.name
        for name, place in PLACES.items()
        for path, tree, call in calls([name])
        if len(call.args) > place
        for word in words_of(call.args[place], tree)
    }


def literals() -> set[str]:
    """Every word in quotes anywhere in the package."""
    return {
        node.value
        for path in modules()
        for node in ast.walk(ast.parse(path.read_text("utf-8")))
        if isinstance(node, ast.Constant) and isinstance(node.value, str)
    }


def test_every_code_that_is_used_is_in_the_table() -> None:
    known = {row["code"] for row in table("findings")}
    used = used_codes()
    assert len(used) > 30
    assert {code: where for code, where in used.items() if code not in known} == {}


def test_every_code_of_the_table_is_used() -> None:
    known = {row["code"] for row in table("findings")}
    assert known - literals() == set()


def test_a_finding_has_the_severity_of_the_table_or_asks_what_else_is_a_note() -> None:
    kinds = {row["code"]: row["severity"] for row in table("findings")}
    for path, _tree, call in calls(["Finding"]):
        severity, code = (*call.args[:2], None, None)[:2]
        if isinstance(severity, ast.Attribute) and isinstance(code, ast.Constant):
            known = kinds[str(code.value)]
            assert severity.attr.lower() in ({"note", "ask"} if known == "note" else {known}), path


@pytest.mark.parametrize("row", table("findings"), ids=lambda row: str(row["code"]))
def test_a_code_has_a_title_a_reason_and_a_severity_that_fits(row: dict[str, str]) -> None:
    assert row["severity"] in {"stop", "ask", "note"}
    assert row["title"]
    assert row["why"].endswith((".", "?", ")."))
    assert row["holds"] in {"yes", "no"}
    if row["severity"] != "ask":
        assert (row["holds"] == "yes") is (row["severity"] == "stop")


def test_codes_of_findings_and_of_faults_are_different_words() -> None:
    faults = {
        word
        for _path, tree, call in calls(["Fault"])
        if len(call.args) > 1
        for word in words_of(call.args[1], tree)
    }
    assert faults
    assert faults.isdisjoint(row["code"] for row in table("findings"))
