"""A ledger that isn't as this program last wrote it: older, of another job, or changed by hand."""

import shutil
import sqlite3
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest

Run = Callable[..., subprocess.CompletedProcess[str]]
Write = Callable[..., Path]

PLACE = ("Litchfield", "CT", "06759")
ROWS = [
    ("Mr. Tobias Wexcombe", "14 Larkmoor Lane", *PLACE),
    ("Ms. Odile Farrenby", "2 Larkmoor Lane", *PLACE),
]
HOSTS = (
    '[hosts]\nname = "Mr. Gideon Penhew"\nstreet = "1 Larkmoor Lane"\n'
    'city = "Litchfield"\nregion = "CT"\npostcode = "06759"\n'
)


@pytest.fixture
def job(addressing: Run, write_list: Write, tmp_path: Path) -> Path:
    """A job whose plates are on paper; its list lies beside it."""
    path = write_list(ROWS)
    assert addressing("plates", path).returncode == 0
    assert addressing("printed", path).returncode == 0
    return tmp_path / "guests-job"


def by_hand(kept: Path, *queries: str) -> None:
    connection = sqlite3.connect(kept)
    with connection:
        for query in queries:
            connection.execute(query)
    connection.close()


@pytest.mark.parametrize(
    "marked", [("spoiled", "2"), ("destroyed", "1"), ("handed-over", "1"), ("spoiled", "copies")]
)
def test_a_ledger_from_before_a_mark_that_is_put_back_is_told(
    addressing: Run, write_list: Write, tmp_path: Path, marked: tuple[str, str]
) -> None:
    path, folder = write_list(ROWS), tmp_path / "guests-job"
    (tmp_path / "job.toml").write_text(
        f'{HOSTS}[pieces]\nmake = ["outer", "return"]\n',
        encoding="utf-8",
    )
    docket = ("--docket", str(tmp_path / "job.toml"))
    made = addressing("plates", path, *docket)
    assert made.returncode == 0, made.stderr
    assert addressing("printed", path).returncode == 0
    kept = folder / "ledger.sqlite"
    before = kept.read_bytes()
    name, which = marked
    said = ("--kind", "return", "--copies", "2") if which == "copies" else (which,)
    assert addressing(name, path, *said).returncode == 0
    assert addressing("ledger", path, *docket).returncode == 0
    kept.write_bytes(before)
    for command in (("ledger", *docket), ("reprint", *docket), ("spoiled", "1")):
        ran = addressing(command[0], path, *command[1:])
        assert ran.returncode == 3, ran.stdout
        assert "is an older copy" in ran.stderr
        assert "Put its copy back" in ran.stderr
    assert "is an older copy" in addressing("preflight", folder).stdout
    anew = addressing("printed", path)  # as the message says, where there is no other copy
    assert anew.returncode == 0, anew.stderr
    assert "is an older copy" in anew.stdout
    assert addressing(name, path, *said).returncode == 0
    assert addressing("ledger", path, *docket).returncode == 0


def test_a_ledger_that_went_on_while_the_manifest_is_older_is_believed(
    addressing: Run, job: Path
) -> None:
    """A synced folder may have the manifest later than the ledger."""
    before = (job / "manifest.json").read_bytes()
    path = job.parent / "guests.csv"
    assert addressing("spoiled", path, "2").returncode == 0
    (job / "manifest.json").write_bytes(before)
    ran = addressing("ledger", path)
    assert ran.returncode == 0
    assert "spoiled" in ran.stdout


def test_an_older_ledger_with_the_manifest_of_its_time_is_told(addressing: Run, job: Path) -> None:
    both = [job / "ledger.sqlite", job / "manifest.json"]
    before = [each.read_bytes() for each in both]
    path = job.parent / "guests.csv"
    assert addressing("spoiled", path, "2").returncode == 0
    for each, data in zip(both, before, strict=True):
        each.write_bytes(data)
    for command in ("ledger", "reprint"):
        ran = addressing(command, path)
        assert ran.returncode == 3, ran.stdout
        assert "is an older copy" in ran.stderr
    assert addressing("questions", path).returncode == 0  # writes the households anew
    assert "is an older copy" in addressing("preflight", job).stdout
    assert addressing("printed", path).returncode == 0
    assert addressing("ledger", path).returncode == 0


def test_a_ledger_that_is_gone_with_its_manifest_is_missed(addressing: Run, job: Path) -> None:
    (job / "ledger.sqlite").unlink()
    (job / "manifest.json").unlink()
    path = job.parent / "guests.csv"
    for each in ("plates", "proof.pdf", "job-sheet.pdf", "counts.tsv", "orders.json.z"):
        (shutil.rmtree if (job / each).is_dir() else Path.unlink)(job / each)
    assert addressing("plates", path).returncode == 0
    ran = addressing("ledger", path)
    assert ran.returncode == 3
    assert "4 prints were noted in it" in ran.stderr


@pytest.mark.parametrize(
    "queries",
    [
        ("update print set household = (select min(household) from print)",),
        ("update print set print = '0.0.0.0' where page = 2",),
        ("update print set state = 'destroyed' where page = 1",),
        ("update run set sha256 = '00'",),
    ],
    ids=["household", "fingerprint", "state", "plate"],
)
def test_a_ledger_whose_rows_another_program_changed_says_nothing_of_what_to_destroy(
    addressing: Run, job: Path, queries: tuple[str, ...]
) -> None:
    by_hand(job / "ledger.sqlite", *queries)
    path = job.parent / "guests.csv"
    for command in (("ledger",), ("reprint",), ("destroyed", "--wrong"), ("printed", "--again")):
        ran = addressing(command[0], path, *command[1:])
        assert ran.returncode == 3, command
        assert "isn't as this program wrote it" in ran.stderr
        assert "destroy nothing by it" in ran.stderr
        assert "take out" not in ran.stdout
    assert "isn't as this program wrote it" in addressing("preflight", job).stdout


def test_the_ledger_of_another_job_with_some_of_the_same_guests_is_told_as_such(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    theirs = tmp_path / "theirs.csv"
    shutil.copy(write_list([ROWS[0], (ROWS[1][0], "77 Larkmoor Lane", *PLACE)]), theirs)
    ours = write_list(ROWS)
    for path in (theirs, ours):
        assert addressing("plates", path).returncode == 0
        assert addressing("printed", path).returncode == 0
    shutil.copy(tmp_path / "theirs-job" / "ledger.sqlite", tmp_path / "guests-job")
    for command in (("ledger",), ("reprint",), ("spoiled", "1"), ("printed", "--again")):
        ran = addressing(command[0], ours, *command[1:])
        assert ran.returncode == 3, command
        assert "isn't the ledger that was kept here" in ran.stderr
        assert "destroy nothing by it" in ran.stderr


def test_when_such_a_ledger_is_moved_away_all_can_be_noted_again(
    addressing: Run, job: Path
) -> None:
    kept, path = job / "ledger.sqlite", job.parent / "guests.csv"
    by_hand(kept, "update print set state = 'destroyed' where page = 1")
    kept.rename(job / "ledger-before.sqlite")
    assert addressing("printed", path).returncode == 0
    ran = addressing("ledger", path)
    assert ran.returncode == 0
    assert "To print" not in ran.stdout
