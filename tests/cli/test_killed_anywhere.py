"""Every command that writes, killed before each step that it takes on the disk, then run again."""

import contextlib
import os
import shutil
import signal
import sqlite3
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import cast

import pytest

from addressing.cli import main

Run = Callable[..., subprocess.CompletedProcess[str]]
Write = Callable[..., Path]

DOCKET = """\
[job]
date = "2026-03-10"
[pieces]
make = ["outer"]
[shop]
name = "farrenby-press"
"""
JOB = ("guests.csv", "--docket", "job.toml", "--to", "job")
AT_DOOR = ("Litchfield", "CT", "06759")
GUESTS = [
    ("Mr. and Mrs. Tobias Penhew", "14 Larkmoor Lane", *AT_DOOR),
    ("Ms. Ottoline Grayling", "431 Weathervane Drive", "Litchfield", "CT", "55802"),
]
"""The second one's ZIP is of another state, so that there is something to ask."""
CHANGES = ("os.rename", "os.remove", "os.mkdir", "os.rmdir")
COMMANDS = {
    "plates": JOB,
    "package": JOB,
    "proof": JOB,
    "questions": JOB,
    "tidy": ("guests.csv", "--docket", "job.toml", "--job", "job"),
    "answer": (*JOB, "--set", "Ottoline Grayling", "postcode", "06759"),
    "printed": ("guests.csv", "--to", "job"),
}
BEFORE = {"package": ("plates",), "printed": ("plates",), "answer": ("questions",)}
"""What was done before; all others begin in a folder that isn't there."""


def changes(event: str, arguments: tuple[object, ...]) -> bool:
    """True for what changes a file of the job, by Python's audit events."""
    if not arguments or "job" not in str(arguments[0]):
        return False
    writes = event == "open" and int(str(arguments[2] or 0)) & (os.O_WRONLY | os.O_RDWR)
    return bool(writes) or event in CHANGES


def kill_at(step: int) -> None:
    """Let this process kill itself just before its `step`-th change, in a file or by SQL."""
    left = [step]

    def count(*_: object) -> None:
        left[0] -= 1
        if not left[0]:
            os.kill(os.getpid(), signal.SIGKILL)

    def hook(event: str, arguments: tuple[object, ...]) -> None:
        if changes(event, arguments):
            count()

    def connect(*arguments: object, **named: object) -> sqlite3.Connection:
        connection = real(*arguments, **named)  # type: ignore[call-overload]
        connection.set_trace_callback(count)
        return cast("sqlite3.Connection", connection)

    real = sqlite3.connect
    sqlite3.connect = connect  # type: ignore[assignment]
    sys.addaudithook(hook)


def killed(step: int, arguments: tuple[str, ...]) -> bool:
    """Run a command in a fork of this process; False when it ended before that step."""
    child = os.fork()
    if not child:
        with contextlib.suppress(BaseException):
            silent = os.open(os.devnull, os.O_WRONLY)
            os.dup2(silent, 1)
            os.dup2(silent, 2)
            kill_at(step)
            main(list(arguments))
        os._exit(0)
    _, status = os.waitpid(child, 0)
    return os.waitstatus_to_exitcode(status) == -signal.SIGKILL


def shown(folder: Path) -> dict[str, object]:
    """What lies in a folder: the bytes of files, the rows of a ledger, folders with nothing."""
    return {
        path.relative_to(folder).as_posix(): rows(path)
        if path.suffix == ".sqlite"
        else path.read_bytes()
        if path.is_file()
        else b""
        for path in folder.rglob("*")
    }


def rows(ledger: Path) -> tuple[object, ...]:
    with contextlib.closing(sqlite3.connect(ledger)) as connection:
        return tuple(connection.iterdump())


def moments(command: str, before: Path) -> Iterator[int]:
    """Every step at which the command was killed, its folder then as that left it."""
    step = 1
    while killed(step, (command, *COMMANDS[command])):
        yield step
        shutil.rmtree("job", ignore_errors=True)
        if before.is_dir():
            shutil.copytree(before, "job")
        step += 1


@pytest.mark.parametrize("command", COMMANDS)
def test_wherever_it_is_killed_all_files_are_whole_and_a_rerun_completes_and_clears(
    command: str, addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    write_list(GUESTS)
    (tmp_path / "job.toml").write_text(DOCKET, encoding="utf-8")
    for first in BEFORE.get(command, ()):
        assert addressing(first, *COMMANDS[first]).returncode in {0, 1}
    job, before = Path("job"), Path("before")
    if job.is_dir():
        shutil.copytree(job, before)
    old = shown(before)
    assert addressing(command, *COMMANDS[command]).returncode in {0, 1}
    new = shown(job)
    shutil.rmtree(job)
    if before.is_dir():
        shutil.copytree(before, job)
    steps = 0
    for steps in moments(command, before):
        assert not torn(job, (old, new)), steps
        assert addressing(command, *COMMANDS[command]).returncode in {0, 1, 2}, steps
        assert shown(job) == new, steps
    assert steps >= 6


def torn(job: Path, whole: tuple[dict[str, object], ...]) -> list[str]:
    """Files under final names that are neither as they were nor as they are to be.

    The manifest may name what is about to be made; a ledger's own file is for SQLite to mend.
    """
    return [
        name
        for path in job.rglob("*")
        if path.is_file()
        if not path.name.startswith((".", "ledger.sqlite", "manifest.json"))
        if path.read_bytes() not in [w.get(name := path.relative_to(job).as_posix()) for w in whole]
    ]
