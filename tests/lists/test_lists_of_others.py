"""Lists by people who didn't know the code, with what they'd have lettered: none is read worse."""

import csv
import importlib
from pathlib import Path

import pytest

HERE = Path(__file__).parent
LINES = (HERE / "scores.tsv").read_text("utf-8").splitlines()
ROWS = list(csv.DictReader((line for line in LINES if line[0] != "#"), delimiter="\t"))


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["list"])
def test_a_list_of_somebody_elses_is_read_no_worse(
    row: dict[str, str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.syspath_prepend(str(HERE))
    scoring = importlib.import_module("scoring")
    found, faults = scoring.score(HERE / row["list"])
    assert found.households == int(row["households"])
    for kind in ("wrong", "missed", "needless"):
        assert getattr(found, kind) <= int(row[kind]), [
            each for each in faults if kind in each.sort
        ]


def test_every_list_with_a_truth_is_scored() -> None:
    truths = {path.relative_to(HERE).as_posix() for path in HERE.rglob("*.truth.json")}
    stems = {str(Path(row["list"]).with_suffix(".truth.json").as_posix()) for row in ROWS}
    assert truths == stems
