"""Basis weights against published tables of their grammages."""

import csv
from pathlib import Path

import pytest

from addressing.estimating import grams_per_m2

LINES = Path(__file__).with_name("paper_weights.tsv").read_text("utf-8").splitlines()
ROWS = tuple(csv.DictReader((line for line in LINES if not line.startswith("#")), delimiter="\t"))


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['lb']} lb {row['kind']}")
def test_a_basis_weight_is_the_grammage_that_is_published(row: dict[str, str]) -> None:
    found = grams_per_m2(f"{row['lb']} lb {row['kind']}")
    assert found == pytest.approx(float(row["gsm"]), abs=float(row["slack"]))


def test_every_kind_of_paper_is_held_against_a_table() -> None:
    assert {row["kind"] for row in ROWS} == {"text", "cover", "bond", "bristol", "index", "tag"}
