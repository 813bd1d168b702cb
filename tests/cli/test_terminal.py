"""How answers look: colour and a bar on a terminal only, the same words in any encoding."""

import json
import os
import pty
import re
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from addressing.cli.commands import COMMANDS

Ran = subprocess.CompletedProcess[str]
Run = Callable[..., Ran]
Write = Callable[..., Path]

ESCAPE = "\x1b["
HELD = ("Ms. Odette Farrenby", "17 Larkmoor Row", "Burlington", "VT", "")
ODD = ("Ms. Łucja Brightwater", "17 Larkmoor Row", "Burlington", "VT", "")


def on_terminal(folder: Path, *arguments: str) -> str:
    """What the command says where a terminal is its output and its errors."""
    ours, theirs = pty.openpty()
    process = subprocess.Popen(  # noqa: S603 - our own command
        [sys.executable, "-m", "addressing", *arguments],
        cwd=folder,
        stdin=theirs,
        stdout=theirs,
        stderr=theirs,
        env={**os.environ, "TERM": "xterm"},  # noqa: TID251 - a child inherits it
    )
    os.close(theirs)
    said = b""
    while True:
        try:
            block = os.read(ours, 4096)
        except OSError:  # how Linux tells that the other end is closed
            break
        if not block:
            break
        said += block
    process.wait()
    os.close(ours)
    return said.decode("utf-8")


def test_a_terminal_gets_colours_and_a_bar(write_list: Write, tmp_path: Path) -> None:
    write_list([HELD, ("Mr. Silas Umber", "3 Osier Row", "Litchfield", "CT", "06759")])
    said = on_terminal(tmp_path, "plates", "guests.csv")
    assert f"{ESCAPE}33m" in said  # yellow: ECMA-48, SGR
    assert "100%" in said


def test_a_pipe_gets_plain_words_and_no_bar(spawn: Run, write_list: Write) -> None:
    ran = spawn("plates", write_list([HELD]))
    assert ran.returncode == 1
    assert ESCAPE not in ran.stdout + ran.stderr
    assert "%" not in ran.stdout + ran.stderr
    assert "\r" not in ran.stdout + ran.stderr
    assert ran.stderr == ""


def test_a_fault_is_red_on_a_terminal_and_plain_in_a_pipe(spawn: Run, tmp_path: Path) -> None:
    assert f"{ESCAPE}31m" in on_terminal(tmp_path, "check", "gone.xlsx")
    assert ESCAPE not in spawn("check", "gone.xlsx").stderr


def test_the_object_has_no_colour_on_a_terminal(write_list: Write, tmp_path: Path) -> None:
    write_list([HELD])
    said = on_terminal(tmp_path, "check", "guests.csv", "--json")
    assert json.loads(said)["households"] == 1


@pytest.mark.parametrize("encoding", ["utf-8", "latin-1", "ascii", "cp1252"])
def test_the_object_is_utf_8_whatever_the_terminal_speaks(
    write_list: Write, tmp_path: Path, encoding: str
) -> None:
    write_list([ODD])
    ran = subprocess.run(
        [sys.executable, "-m", "addressing", "lines", "guests.csv", "--json"],
        cwd=tmp_path,
        env={**os.environ, "PYTHONIOENCODING": encoding},  # noqa: TID251 - a child inherits it
        capture_output=True,
        check=False,
    )
    assert ran.returncode == 1
    answer = json.loads(ran.stdout.decode("utf-8"))
    assert answer["households"][0]["people"][0]["given"] == "Łucja"


@pytest.mark.parametrize("command", ["check", "plates", "lines"])
def test_words_that_the_terminal_can_t_show_don_t_end_the_work(
    write_list: Write, tmp_path: Path, command: str
) -> None:
    write_list([ODD])
    ran = subprocess.run(  # noqa: S603 - our own command
        [sys.executable, "-m", "addressing", command, "guests.csv"],
        cwd=tmp_path,
        env={**os.environ, "PYTHONIOENCODING": "ascii"},  # noqa: TID251 - a child inherits it
        capture_output=True,
        check=False,
    )
    assert ran.returncode == 1, ran.stderr
    assert b"ucja" in ran.stdout


def test_a_reader_that_goes_away_is_no_fault(write_list: Write, tmp_path: Path) -> None:
    write_list([("Silas Umber", f"{number} Osier Row", *HELD[2:]) for number in range(1, 200)])
    process = subprocess.Popen(
        [sys.executable, "-m", "addressing", "lines", "guests.csv", "--json"],
        cwd=tmp_path,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    )
    assert process.stdout is not None
    assert process.stderr is not None
    process.stdout.read(10)
    process.stdout.close()
    said = process.stderr.read()
    process.stderr.close()
    assert process.wait() in {0, 1}
    assert said == b""


@pytest.mark.parametrize("command", ["faces", "layouts", "styles", "devices", "shops"])
def test_the_shelf_is_listed_for_people_and_for_programs(addressing: Run, command: str) -> None:
    ran = addressing(command, "--json")
    rows = json.loads(ran.stdout)[command]
    assert (ran.returncode, ran.stderr) == (0, "")
    assert len(rows) >= 1
    listed = addressing(command).stdout
    assert [line.split()[0] for line in listed.splitlines()] == [row["key"] for row in rows]
    assert "" not in [value for row in rows for value in row.values()]


def test_the_list_without_its_object_is_told_in_plain_words(
    addressing: Run, write_list: Write
) -> None:
    write_list([HELD])
    said = addressing("check", "guests.csv").stdout
    assert "1 row, 1 household, 1 guest" in said
    assert "Held back until answered: 1 household" in said
    assert "E2" in said or "B2" in said
    assert re.search(r"A +Name +name", said)
    assert "Ms. Odette Farrenby" in addressing("lines", "guests.csv").stdout
    assert "outer" in addressing("tally", "guests.csv").stdout


@pytest.mark.parametrize("command", COMMANDS, ids=lambda command: str(command.name))
def test_every_command_has_help_and_so_has_every_option(addressing: Run, command: object) -> None:
    name = command.name  # type: ignore[attr-defined]
    ran = addressing(name, "--help")
    assert ran.returncode == 0
    assert ran.stdout.startswith(f"Usage: addressing {name}")
    listed = ran.stdout.partition("\nOptions:\n")[2]
    options = re.findall(r"^  (-[^\n]*(?:\n {10,}[^\n]*)*)", listed, re.MULTILINE)
    assert options
    for option in options:
        assert re.search(r"\S(  +|\n +)\S", option), option


def test_help_and_version_are_told_without_the_heavy_libraries(spawn: Run) -> None:
    assert spawn("--version").stdout.startswith("addressing, version ")
    modules = spawn("--help", environment={"PYTHONPROFILEIMPORTTIME": "1"}).stderr
    for heavy in ("uharfbuzz", "pikepdf", "reportlab", "openpyxl", "pypdfium2", "fontTools"):
        assert f"| {heavy}\n" not in modules
        assert f" {heavy}\n" not in modules
