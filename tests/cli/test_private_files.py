"""What bears guests' names and addresses is for its owner's eyes alone."""

import os
import stat
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest

Run = Callable[..., subprocess.CompletedProcess[str]]
Write = Callable[..., Path]

PLACE = ("Litchfield", "CT", "06759")
ROWS = [("Una Pike", "14 Larkmoor Lane", *PLACE), ("Ms. Odile Farrenby", "2 Mill Row", *PLACE)]
OPEN = {"counts.tsv"}
"""What bears nobody's name."""


@pytest.mark.skipif(os.name != "posix", reason="the system has no such modes")
def test_every_file_of_a_job_that_bears_names_is_private(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    path = write_list(ROWS)
    for command in (
        ("questions", path),
        ("answer", path, "--set", "A2", "title", "Ms."),
        ("plates", path),
        ("printed", path),
        ("spoiled", path, "Odile Farrenby"),
        ("reprint", path),
        ("stuffing", path),
        ("tidy", path, "--to", tmp_path / "guests-job" / "tidy.csv"),
    ):
        ran = addressing(*command)
        assert ran.returncode == 0, ran.stderr
    files = [each for each in (tmp_path / "guests-job").rglob("*") if each.is_file()]
    names = {each.name for each in files}
    assert {"decisions.toml", "questions.txt", "questions.xlsx", "proof.pdf"} <= names
    assert {"manifest.json", "job-sheet.pdf", "01-outer-white.pdf", "stuffing-list.pdf"} <= names
    seen = {each.name for each in files if stat.S_IMODE(each.stat().st_mode) & 0o077}
    assert seen == OPEN
