"""The client's price; the margin is for the designer alone."""

import json
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest

Ran = subprocess.CompletedProcess[str]
Run = Callable[..., Ran]
Write = Callable[..., Path]
ROW = ("Mr. Tobias Wexcombe", "14 Larkmoor Lane", "Litchfield", "CT", "06759")


def test_a_quote_shows_no_margin_unless_it_is_asked_for(addressing: Run, write_list: Write) -> None:
    path = write_list([ROW])
    said = json.loads(addressing("quote", path, "--json").stdout)
    assert said["margin"] is None
    assert said["total"] == pytest.approx(said["net"] + said["tax"])
    assert "For you" not in addressing("quote", path).stdout
    shown = json.loads(addressing("quote", path, "--margin", "--json").stdout)
    cost = json.loads(addressing("estimate", path, "--json").stdout)["cheapest"]["total"]
    assert shown["margin"] == pytest.approx(said["net"] - cost)
    assert "For you" in addressing("quote", path, "--margin").stdout


def test_rates_without_fees_are_told_what_to_write(
    addressing: Run, write_list: Write, tmp_path: Path
) -> None:
    path = write_list([ROW])
    (tmp_path / "rates.toml").write_text(
        'currency = "USD"\nas_of = "2026-01-15"\n[labour]\nper_hour = "45"\n'
    )
    ran = addressing("quote", path, "--json")
    assert ran.returncode == 3
    assert '"fees-missing"' in ran.stderr
