"""Every situation that is promised: outer and inner, in three styles, from list to line."""

import csv
from collections import Counter
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from addressing.guestlist import read_list
from addressing.job.styling import styles_for
from addressing.materials.shelf import open_shelf
from addressing.records.docket import Docket, WordingChoices
from addressing.records.findings import Finding
from addressing.records.guests import GuestList
from addressing.records.pieces import Role
from addressing.wording import word_list

PATH = Path(__file__).parents[1] / "references" / "situations.tsv"
STYLES = ("formal", "relaxed", "postal")
COLUMNS = ("Children", "Street", "City", "State", "ZIP")
PLACE = ("14 Larkmoor Lane", "Litchfield", "CT", "06759")
NAMED = frozenset(
    (
        "married, one surname", "married, two surnames", "unmarried together", "same-sex couple",
        "two doctors", "one doctor", "officers", "service", "clergy", "judges", "elected office",
        "professors", "widowed", "divorced", "children", "grown children at home", "and Guest",
        "three generations", "room-mates", "junior, senior, numeral", "esquire", "suffixes", "Mx.",
        "no title", "one name", "companies", "long names", "German", "French", "Spanish", "Italian",
    )
)  # fmt: skip
"""The situations that the house has promised to word."""


@cache
def situations() -> tuple[dict[str, str], ...]:
    lines = [line for line in PATH.read_text("utf-8").splitlines() if not line.startswith("#")]
    return tuple(csv.DictReader(lines, delimiter="\t", quoting=csv.QUOTE_NONE))


def listed(row: dict[str, str], path: Path) -> tuple[GuestList, tuple[Finding, ...]]:
    """The list that a situation stands for, as it is read."""
    rows = [cells.split("|") for cells in row["cells"].split("~")]
    header = ("Name", "Partner")[: len(rows[0])]
    with path.open("w", encoding="utf-8", newline="") as stream:
        written = csv.writer(stream, lineterminator="\n")
        written.writerow((*header, *COLUMNS))
        for number, cells in enumerate(rows):
            written.writerow((*cells, row["children"] if number == 0 else "", *PLACE))
    return read_list(path, {})


def worded(guests: GuestList, style: str, choices: dict[str, Any]) -> dict[str, str]:
    """What each kind of envelope says, as the table writes it."""
    wording = replace(WordingChoices(), style=style, **choices)
    docket = Docket(wording=wording, make=("outer", "inner"))
    pieces = word_list(guests, docket, styles_for(docket, open_shelf(None)))
    said = {
        kind: [
            " / ".join(line.text for line in piece.wordings[0].lines if line.role is Role.NAME)
            for piece in pieces
            if piece.kind == kind
        ]
        for kind in docket.make
    }
    return {kind: " | ".join(each) for kind, each in said.items()}


@pytest.mark.parametrize("row", situations(), ids=lambda row: f"{row['situation']}-{row['key']}")
def test_a_situation_is_worded_in_every_style_outside_and_inside(
    row: dict[str, str], tmp_path: Path
) -> None:
    guests, found = listed(row, tmp_path / "list.csv")
    choices = dict(each.split("=") for each in row["choices"].split(",") if each)
    for style in STYLES:
        wanted = {kind: row[f"{style} {kind}"] for kind in ("outer", "inner")}
        assert worded(guests, style, choices) == wanted
    codes = {each.code for each in found}
    assert row["finds"] in codes if row["finds"] else not codes


def test_every_situation_that_is_promised_has_its_rows_and_each_row_a_source() -> None:
    counted = Counter(row["situation"] for row in situations())
    assert counted.keys() >= NAMED
    assert min(counted.values()) >= 2
    keys = [(row["situation"], row["key"]) for row in situations()]
    assert len(set(keys)) == len(keys)
    assert all(row["source"] for row in situations())
    said = [row[f"{style} {kind}"] for row in situations() for style in STYLES
            for kind in ("outer", "inner")]  # fmt: skip
    assert all(said)


def test_postal_words_are_capitals_without_points_or_commas() -> None:
    for row in situations():
        for kind in ("outer", "inner"):
            said = row[f"postal {kind}"]
            assert said == said.upper()
            assert not set(said) & set(".,'’")


def test_no_formal_line_has_an_initial_title_that_is_to_be_spelled_out() -> None:
    """Mr., Mrs., Ms., Mx., Jr. and Messrs. are the abbreviations that formal style allows."""
    short = ("Capt.", "Col.", "Lt.", "Maj.", "Rev.", "Hon.", "Prof.", "Sgt.", "Gen.", "Rt.")
    foreign = ("Prof. Dr.", "Prof. Tobias Wexcombe e Signora", "Prof. Wexcombe e Signora")
    for row in situations():
        for kind in ("outer", "inner"):
            said = row[f"formal {kind}"]
            for kept in foreign:
                said = said.replace(kept, "")
            assert not [word for word in short if word in said.split()]
