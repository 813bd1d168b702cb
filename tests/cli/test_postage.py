"""From the docket's suite to the stamps."""

import json
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest

Ran = subprocess.CompletedProcess[str]
Run = Callable[..., Ran]
Write = Callable[..., Path]
ROW = ("Mr. Tobias Wexcombe", "14 Larkmoor Lane", "Litchfield", "CT", "06759")
SUITE = """
[post]
envelope_paper = "80 lb text"
[[suite]]
name = "invitation"
width_mm = 127.0
height_mm = 177.8
paper = "120 lb cover"
"""


def test_the_weight_names_every_part_and_adds_up(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    path = write_list([ROW])
    docket = tmp_path / "docket.toml"
    docket.write_text(SUITE)
    said = json.loads(addressing("postage", path, "--docket", docket, "--json").stdout)
    assert said["grams"] == pytest.approx(sum(part["grams"] for part in said["parts"]), abs=0.05)
    assert [part["name"] for part in said["parts"]][-1] == "invitation"
    (envelope,) = said["envelopes"]
    assert (envelope["destination"], envelope["count"], envelope["class"]) == ("home", 1, "letter")
    assert said["total"] == pytest.approx(envelope["price"])
    told = addressing("postage", path, "--docket", docket).stdout
    assert "This postage is invented." in told


def test_a_docket_without_a_suite_is_told_what_to_write(addressing: Run, write_list: Write) -> None:
    ran = addressing("postage", write_list([ROW]), "--json")
    assert ran.returncode == 3
    assert '"suite-missing"' in ran.stderr


def test_a_paper_that_nobody_can_weigh_is_refused(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    docket = tmp_path / "docket.toml"
    docket.write_text(SUITE.replace("120 lb cover", "thick"))
    ran = addressing("postage", write_list([ROW]), "--docket", docket, "--json")
    assert ran.returncode == 3
    assert '"paper-unknown"' in ran.stderr


def test_steps_out_of_order_are_refused(addressing: Run, write_list: Write, tmp_path: Path) -> None:
    (tmp_path / "docket.toml").write_text(SUITE)
    (tmp_path / "postage.toml").write_text(
        'currency = "USD"\nas_of = "2026-01-15"\n[home.letter]\n'
        'steps = [{ oz = 2.0, price = "1" }, { oz = 1.0, price = "2" }]\n'
    )
    docket = tmp_path / "docket.toml"
    ran = addressing("postage", write_list([ROW]), "--docket", docket, "--json")
    assert ran.returncode == 3
    assert '"postage-wrong"' in ran.stderr
