"""Each situation of etiquette gives the lines that its source prescribes, from list to line."""

import csv
from collections.abc import Callable
from pathlib import Path

import pytest

from addressing.records.docket import WordingChoices
from addressing.records.pieces import Line, Role

PATH = Path(__file__).parents[1] / "references" / "etiquette_rows.tsv"
PLACE = ("14 Larkmoor Lane", "Litchfield", "CT", "06759")
PLACES = ("Street", "City", "State", "ZIP")


def situations() -> list[dict[str, str]]:
    lines = [line for line in PATH.read_text("utf-8").splitlines() if not line.startswith("#")]
    return list(csv.DictReader(lines, delimiter="\t", quoting=csv.QUOTE_NONE))


def names(lines: tuple[Line, ...]) -> str:
    return " / ".join(line.text for line in lines if line.role is Role.NAME)


@pytest.mark.parametrize("row", situations(), ids=lambda row: row["key"])
def test_a_situation_is_worded_as_its_source_says(
    row: dict[str, str], worded: Callable[..., dict[str, tuple[Line, ...]]]
) -> None:
    cells = row["cells"].split("|")
    header = ("Name", "Partner")[: len(cells)]
    kinds = ("outer",) if row["inner"] == "none" else ("outer", "inner")
    found = worded(
        (*header, "Children", *PLACES),
        (*cells, row["children"], *PLACE),
        WordingChoices(row["style"], row["couple"]),
        kinds,
    )
    assert names(found["outer"]) == row["outer"]
    if "inner" in found:
        assert names(found["inner"]) == row["inner"]


def test_every_situation_names_its_source() -> None:
    assert all(row["source"] and row["outer"] and row["inner"] for row in situations())
    assert len({row["key"] for row in situations()}) == len(situations()) > 60
