"""The command killed at every moment that counts, run as a process of its own."""

import json
import os
import resource
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pikepdf
import pytest

Ran = subprocess.CompletedProcess[str]
Run = Callable[..., Ran]
Write = Callable[..., Path]

KILL_AT_RENAME = """
import os, pathlib, signal, sys
from addressing.cli import main
real, left = pathlib.Path.replace, [int(sys.argv[1])]
def replace(self, target):
    if not left[0]:
        os.kill(os.getpid(), signal.SIGKILL)
    left[0] -= 1
    return real(self, target)
pathlib.Path.replace = replace
main(sys.argv[2:])
"""
STREET = ("14 Larkmoor Lane", "Litchfield", "CT", "06759")


def final_files(folder: Path) -> dict[str, bytes]:
    """What the folder shows; not what it remembers of those who left."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file() and path.suffix != ".part" and path.name != "households.json"
    }


def whole(path: Path) -> bool:
    with pikepdf.open(path) as pdf:
        return not pdf.check_pdf_syntax() and len(pdf.pages) > 0


@pytest.mark.parametrize("renamed", range(6))
def test_killed_between_two_names_every_file_is_whole_and_a_rerun_heals(
    addressing: Run, write_list: Write, tmp_path: Path, renamed: int
) -> None:
    folder = tmp_path / "guests-job"
    addressing("plates", write_list())
    old = final_files(folder)
    shutil.copytree(folder, tmp_path / "fresh")  # a household's number is its job's
    addressing("plates", write_list([("Mr. Silas Umber", *STREET)]), "--to", "fresh")
    new = final_files(tmp_path / "fresh")
    command = [sys.executable, "-c", KILL_AT_RENAME, str(renamed), "plates", "guests.csv"]
    killed = subprocess.run(command, cwd=tmp_path, check=False, capture_output=True)  # noqa: S603
    assert killed.returncode == -signal.SIGKILL
    left = final_files(folder)
    assert set(left) == set(old) == set(new)
    assert all(left[name] in {old[name], new[name]} for name in left)
    assert sum(left[name] == new[name] != old[name] for name in left) <= renamed
    assert left["manifest.json"] == old["manifest.json"]
    assert addressing("plates", "guests.csv").returncode == 0
    assert final_files(folder) == new


def family_of(number: int) -> str:
    """A family name for each number, no two of them near each other."""
    parts = ("Um", "Pen", "Vale", "Sal", "Thorn", "Quin", "Lark", "Tew", "Ash", "Grey")
    ends = ("ber", "hew", "ridge", "low", "wick", "cote", "moor", "kes", "grove", "stone")
    return parts[number // 100 % 10] + ends[number // 10 % 10] + parts[number % 10].lower()


def long_list(write_list: Write) -> Path:
    """A list that takes some seconds, and two processes."""
    given = ("Silas", "Odile", "Tobias", "Honoria", "Cyrus", "Lettice", "Rupert", "Agnes")
    rows = [
        (f"{given[number % 8]} {family_of(number)}", f"{number} Larkmoor Lane", *STREET[1:])
        for number in range(1, 1201)
    ]
    return write_list(rows)


def start(tmp_path: Path) -> subprocess.Popen[bytes]:
    """The command under way, its first working file already there."""
    process = subprocess.Popen(
        [sys.executable, "-m", "addressing", "plates", "guests.csv"],
        cwd=tmp_path,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        start_new_session=True,
    )
    while process.poll() is None and not list((tmp_path / "guests-job").rglob("*.part")):
        time.sleep(0.01)
    return process


def nobody_left(group: int) -> bool:
    """True when within five seconds no process of the group is left."""
    for _ in range(100):
        try:
            os.killpg(group, 0)
        except ProcessLookupError:
            return True
        time.sleep(0.05)
    return False


def test_killed_while_writing_no_plate_has_its_final_name(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    long_list(write_list)
    process = start(tmp_path)
    process.kill()
    assert process.wait() == -signal.SIGKILL
    assert nobody_left(process.pid)
    assert final_files(tmp_path / "guests-job") == {}
    assert addressing("plates", "guests.csv", "--json").returncode in {0, 1}
    plates = sorted((tmp_path / "guests-job" / "plates").glob("*.pdf"))
    assert [path.name for path in plates] == ["01-outer-white.pdf", "02-inner-white.pdf"]
    assert all(whole(path) for path in plates)


def test_interrupted_while_writing_it_leaves_with_130_and_no_file(
    write_list: Write, tmp_path: Path
) -> None:
    long_list(write_list)
    process = start(tmp_path)
    process.send_signal(signal.SIGINT)
    assert process.wait() == 130
    assert nobody_left(process.pid)
    assert [path for path in (tmp_path / "guests-job").rglob("*") if path.is_file()] == []


def test_a_disk_that_takes_no_more_is_told(write_list: Write, tmp_path: Path) -> None:
    """The system itself refuses to write beyond 20 000 bytes a file."""
    write_list()

    def small() -> None:
        resource.setrlimit(resource.RLIMIT_FSIZE, (20_000, 20_000))

    ran = subprocess.run(
        [sys.executable, "-m", "addressing", "plates", "guests.csv", "--json"],
        cwd=tmp_path,
        preexec_fn=small,
        env={key: value for key, value in os.environ.items() if "COV" not in key},  # noqa: TID251
        capture_output=True,
        encoding="utf-8",
        check=False,
    )
    assert (ran.returncode, ran.stdout) == (4, "")
    fault = json.loads(ran.stderr.splitlines()[-1])["fault"]
    assert (fault["code"], fault["exit"]) == ("cannot-write", 4)
    assert ".part" not in fault["text"]
    assert [path for path in (tmp_path / "guests-job").rglob("*") if path.is_file()] == []
