"""Every command that writes: a full disk, a folder that goes, another run, odd and long names."""

import errno
import json
import os
import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from addressing import files
from addressing.files import alone_in

Ran = subprocess.CompletedProcess[str]
Run = Callable[..., Ran]
Write = Callable[..., Path]

DOCKET = """\
[job]
date = "2026-03-10"
[shop]
name = "farrenby-press"
"""
COMMANDS = ("plates", "proof", "questions", "package")


@pytest.fixture
def job(addressing: Run, write_list: Write, tmp_path: Path) -> tuple[str, ...]:
    """A job whose plates are made."""
    (tmp_path / "job.toml").write_text(DOCKET, encoding="utf-8")
    arguments = (str(write_list()), "--docket", "job.toml", "--to", "job")
    assert addressing("plates", *arguments).returncode == 0
    return arguments


def tree(folder: Path) -> dict[str, bytes]:
    return {str(path): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def fault_of(ran: Ran) -> dict[str, Any]:
    assert ran.stdout == ""
    fault: dict[str, Any] = json.loads(ran.stderr.splitlines()[-1])["fault"]
    return fault


def full(*_: object, **__: object) -> object:
    raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))


def read_only(*_: object, **__: object) -> object:
    raise OSError(errno.EROFS, os.strerror(errno.EROFS))


@pytest.mark.parametrize("command", ["proof", "questions", "package"])
@pytest.mark.parametrize(
    "refusal",
    [("tempfile.mkstemp", read_only), ("os.fsync", full), ("pathlib.Path.replace", full)],
)
def test_a_place_that_takes_nothing_is_told_and_all_stays_as_it_is(
    command: str,
    refusal: tuple[str, Callable[..., object]],
    addressing: Run,
    job: tuple[str, ...],
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    before = tree(tmp_path)
    with monkeypatch.context() as patched:
        patched.setattr(*refusal)
        fault = fault_of(addressing(command, *job, "--json"))
    assert (fault["exit"], fault["code"]) == (4, "cannot-write")
    assert ".part" not in fault["text"]
    assert tree(tmp_path) == before


@pytest.mark.parametrize("command", COMMANDS)
def test_a_folder_that_vanishes_on_the_way_is_told(
    command: str,
    addressing: Run,
    job: tuple[str, ...],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    real = files.flush

    def gone(working: Path, *, private: bool = False) -> None:
        shutil.rmtree("job", ignore_errors=True)
        real(working, private=private)

    monkeypatch.setattr(files, "flush", gone)
    ran = addressing(command, *job, "--json")
    fault = fault_of(ran)
    assert (ran.returncode, fault["code"]) == (4, "cannot-write")


@pytest.mark.parametrize("command", ["plates", "proof", "package"])
def test_a_folder_in_which_another_run_is_at_work_is_left_alone(
    command: str, addressing: Run, job: tuple[str, ...], tmp_path: Path
) -> None:
    before = tree(tmp_path)
    with alone_in(Path("job")):
        fault = fault_of(addressing(command, *job, "--json"))
    assert (fault["exit"], fault["code"]) == (4, "folder-in-use")
    assert tree(tmp_path) == before


@pytest.mark.parametrize("command", ["plates", "proof", "questions"])
def test_a_path_that_is_too_long_is_told(
    command: str, addressing: Run, job: tuple[str, ...], tmp_path: Path
) -> None:
    before = tree(tmp_path)
    for long in ("a" * 300, "/".join(["a" * 200] * 25)):
        fault = fault_of(addressing(command, *job[:3], "--to", long, "--json"))
        assert (fault["exit"], fault["code"]) == (4, "cannot-write")
    assert tree(tmp_path) == before


@pytest.mark.parametrize("name", ["💒 the list..v2.csv", "a b (final) [2].csv"])
def test_a_list_of_any_name_gives_a_job_that_is_packed(
    name: str, addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    (tmp_path / "job.toml").write_text(DOCKET, encoding="utf-8")
    path = write_list(name=name)
    for command in COMMANDS:
        ran = addressing(command, path, "--docket", "job.toml", "--json")
        assert ran.returncode == 0, ran.stderr
    folder = Path(f"{path.stem}-job")
    assert (folder / "for-farrenby-press.zip").is_file()
    assert not list(tmp_path.rglob("*.part"))
