"""The demo list, carried through the whole chain once, with every answer that programs read."""

import json
import shutil
import subprocess
import sys
from pathlib import Path
from types import MappingProxyType
from typing import Any

import pytest

TOP = Path(__file__).resolve().parents[2]
DOCKET = ("--docket", "demo_docket.toml")


@pytest.fixture(scope="session")
def demo(tmp_path_factory: pytest.TempPathFactory) -> MappingProxyType[str, Any]:
    """What the demo gave: "folder" (of the job), and the answers of plates, check, lines, tally."""
    desk = tmp_path_factory.mktemp("demo")
    for name in ("demo_guests.xlsx", "demo_docket.toml"):
        shutil.copyfile(TOP / name, desk / name)
    answers: dict[str, Any] = {"desk": desk, "folder": desk / "demo_guests-job"}
    for command in ("plates", "check", "lines", "tally"):
        ran = subprocess.run(  # noqa: S603 - our own command
            [sys.executable, "-m", "addressing", command, "demo_guests.xlsx", *DOCKET, "--json"],
            cwd=desk,
            capture_output=True,
            encoding="utf-8",
            check=False,
        )
        answers[command] = json.loads(ran.stdout)
        answers[f"{command} exit"] = ran.returncode
        answers[f"{command} error"] = ran.stderr
    answers["manifest"] = json.loads((answers["folder"] / "manifest.json").read_text("utf-8"))
    return MappingProxyType(answers)
