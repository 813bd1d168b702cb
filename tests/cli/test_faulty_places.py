"""Every command that writes: a full disk, a folder that goes, another run, odd and long names."""

import errno
import json
import os
import resource
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from addressing import files
from addressing.files import alone_in, sha256_of
from addressing.job import judging

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


NAMES = (
    "💒 the list..v2",
    "a b (final) [2]",
    "x" * 246,
    "é" * 120,
    ".csv",
    "gu'ests\"",
    "up/../two",
)


@pytest.mark.parametrize("name", NAMES)
def test_list_docket_and_folder_of_any_name_give_a_job_that_is_packed(
    name: str, addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    (tmp_path / "up").mkdir()
    docket = Path(f"{name}.toml")
    docket.write_text(DOCKET, encoding="utf-8")
    path = write_list(name=f"{name}.csv")
    job = Path(f"{name}-job")
    for command in COMMANDS:
        ran = addressing(command, path, "--docket", docket, "--to", job, "--json")
        assert ran.returncode == 0, ran.stderr
    assert addressing("printed", path, "--to", job).returncode == 0
    assert addressing("tidy", path, "--docket", docket, "--job", job).returncode == 0
    assert (job / "for-farrenby-press.zip").is_file()
    assert not list(tmp_path.rglob("*.part"))


def test_a_file_that_may_have_the_longest_name_there_is_gets_it(
    addressing: Run, job: tuple[str, ...], tmp_path: Path
) -> None:
    tidy = ("tidy", *job[:3], "--job", "job", "--to")
    assert addressing(*tidy, "t" * 251 + ".csv").returncode == 0
    assert (tmp_path / ("t" * 251 + ".csv")).is_file()
    before = tree(tmp_path)
    fault = fault_of(addressing(*tidy, "t" * 252 + ".csv", "--json"))
    assert (fault["exit"], fault["code"]) == (4, "cannot-write")
    assert fault["text"].startswith("tttt")
    assert "shorter name" in fault["mend"]
    assert tree(tmp_path) == before


def test_a_folder_that_goes_while_it_is_judged_is_no_fault_of_the_program(
    addressing: Run, job: tuple[str, ...], monkeypatch: pytest.MonkeyPatch
) -> None:
    def gone(path: Path) -> str:
        shutil.rmtree("job", ignore_errors=True)
        return sha256_of(path)

    monkeypatch.setattr(judging, "sha256_of", gone)
    ran = addressing("package", *job, "--json")
    fault = fault_of(ran)
    assert (ran.returncode, fault["code"]) == (4, "place-refused")
    assert fault["file"] in fault["text"]
    assert "moved or deleted" in fault["mend"]


@pytest.mark.parametrize("command", [*COMMANDS[1:], "tidy", "answer", "printed"])
def test_a_disk_that_takes_no_more_is_told_by_every_command(
    command: str, addressing: Run, job: tuple[str, ...], tmp_path: Path
) -> None:
    """The system itself refuses to write beyond 600 bytes a file."""
    assert addressing("questions", *job).returncode == 0
    before = tree(tmp_path)
    arguments = {
        "tidy": (*job[:3], "--job", "job"),
        "answer": (*job, "--set", "Ottoline Grayling", "street", "12 Greywhistle Street"),
        "printed": (job[0], "--to", "job"),
    }.get(command, job)
    ran = subprocess.run(  # noqa: S603 - our own command
        [sys.executable, "-m", "addressing", command, *arguments, "--json"],
        cwd=tmp_path,
        preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (600, 600)),
        env={key: value for key, value in os.environ.items() if "COV" not in key},  # noqa: TID251
        capture_output=True,
        encoding="utf-8",
        check=False,
    )
    fault = fault_of(ran)
    assert (ran.returncode, fault["code"]) == (4, "cannot-write")
    assert "ree some space" in fault["mend"]
    after = tree(tmp_path)
    assert after.pop(str(tmp_path / "job" / "ledger.sqlite"), b"") == b""
    assert after == before
