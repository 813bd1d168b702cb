"""Who came with an answer by a given name alone is asked for the family name, then for a title."""

import json
from collections.abc import Callable
from pathlib import Path
from subprocess import CompletedProcess
from typing import Any

import pytest

Run = Callable[..., CompletedProcess[str]]
LIST = "Name,Street,City,State,ZIP\nJudge Otto Brandt and wife,8 Mill Row,Litchfield,CT,06759\n"
BOTH = "Judge Otto Brandt and Lenore"


@pytest.fixture
def path(addressing: Run, tmp_path: Path) -> Path:
    path = tmp_path / "guests.csv"
    path.write_text(LIST, "utf-8")
    assert addressing("answer", path, "--set", "A2", "names", BOTH).returncode == 0
    return path


def asked(run: Run, path: Path) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = json.loads(run("questions", path, "--json").stdout)["questions"]
    return found


def reply(run: Run, path: Path, words: str) -> str:
    """Answer the one question that is asked, and give the first line of the outer envelope."""
    (question,) = asked(run, path)
    back = path.parent / "back.toml"
    told = (question["question"], words)
    back.write_text(
        "[[answer]]\nquestion = {}\nanswer = {}\n".format(*map(json.dumps, told)), "utf-8"
    )
    run("answer", path, back)
    home = json.loads(run("lines", path, "--json").stdout)["households"][0]
    line: str = home["pieces"][0]["lines"][0]["text"]
    return line


@pytest.mark.parametrize(
    ("words", "line", "then"),
    [
        ("Brandt", "Judge Otto Brandt and Lenore Brandt", "title-missing"),
        ("Lenore Brandt", "Judge Otto Brandt and Lenore Brandt", "title-missing"),
        ("Otto and Lenore Brandt", "Judge Otto Brandt and Lenore Brandt", "title-missing"),
        ("Judge Otto Brandt and Lenore Voss", "Judge Otto Brandt and Lenore Voss", "title-missing"),
        ("Judge Otto Brandt and Mrs. Lenore Brandt", "Judge and Mrs. Otto Brandt", ""),
        ("Hugo Orr", BOTH, "surname-missing"),
        ("no idea", BOTH, "surname-missing"),
    ],
)
def test_the_family_name_is_asked_and_the_title_behind_it(
    addressing: Run, path: Path, *, words: str, line: str, then: str
) -> None:
    (question,) = asked(addressing, path)
    assert question["codes"] == ["surname-missing"]
    assert reply(addressing, path, words) == line
    left = [code for each in asked(addressing, path) for code in each["codes"]]
    assert [code for code in left if code != "client-answered"] == ([then] if then else [])
    done = addressing("answer", path, "--set", "A2", "city", "Litchfield")
    assert "2 decisions are kept" not in done.stdout or words in ("Hugo Orr", "no idea")


def test_the_title_stands_with_the_family_name(addressing: Run, path: Path) -> None:
    reply(addressing, path, "Brandt")
    assert reply(addressing, path, "Mrs.") == "Judge and Mrs. Otto Brandt"


def test_who_is_named_in_full_is_asked_no_family_name(addressing: Run, path: Path) -> None:
    addressing("answer", path, "--set", "A2", "names", "Judge Otto Brandt and Lenore Voss")
    assert [each["codes"] for each in asked(addressing, path)] == [["title-missing"]]
