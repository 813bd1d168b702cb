"""Addresses abroad as lists write them, from the cell to the envelope: abroad.tsv, row by row.

The addresses are invented; forms of lines by the sources of place_forms.tsv, ways of writing from
memory.
"""

import csv
import random
from collections.abc import Iterator
from pathlib import Path

import pytest

from addressing.job.reading import Reading, read_job
from addressing.records.pieces import Role

CELLS = ("Address 1", "Address 2", "City", "State", "Zip", "Country")
LEAST = 8
DEEP = ("CA", "GB", "IE", "DE", "FR", "IT", "ES", "NL", "CH", "MX", "BR", "IN", "JP", "AU", "NZ")


def rows() -> list[dict[str, str]]:
    path = Path(__file__).with_name("abroad.tsv")
    lines = [line for line in path.read_text("utf-8").splitlines() if not line.startswith("#")]
    return list(csv.DictReader(lines, delimiter="\t", quoting=csv.QUOTE_NONE, restval=""))


def names(seed: str) -> Iterator[str]:
    """Invented family names, no two of them alike."""
    chance = random.Random(seed)  # noqa: S311 - names for a test
    while True:
        parts = (chance.choice("BDFGKLMNPRSTVW") + chance.choice("aeiou") for _ in range(4))
        yield "".join(parts).capitalize()


def read(folder: Path, written: list[str], docket: str = "") -> Reading:
    """A list of one guest for each address: whole in a cell, or in cells parted by a bar."""
    split = " | " in written[0]
    path = folder / "guests.csv"
    with path.open("w", encoding="utf-8", newline="") as file:
        out = csv.writer(file)
        out.writerow(("Title", "First Name", "Last Name", *(CELLS if split else ("Address",))))
        for name, address in zip(names("abroad"), written, strict=False):
            cells = [cell.strip() for cell in address.replace("\\n", "\n").split(" | ")]
            out.writerow(("Ms.", "Odile", name, *cells))
    if docket:
        (folder / "docket.toml").write_text(docket, encoding="utf-8")
    return read_job(path, folder / "docket.toml" if docket else None, None)


def outers(reading: Reading) -> dict[int, tuple[str, str]]:
    """For each row of the list: the address's lines, and the codes that hold it."""
    found: dict[int, tuple[str, str]] = {}
    for household in reading.guest_list.households:
        row = int("".join(mark for mark in household.rows[0].cell or "" if mark.isdigit()))
        piece = next(
            p for p in reading.pieces if p.household == household.key and p.kind == "outer"
        )
        lines = [line.text for line in piece.wordings[0].lines if line.role is not Role.NAME]
        codes = {
            each.code for each in reading.findings if each.household == household.key and each.holds
        }
        found[row] = " / ".join(lines), " ".join(sorted(codes))
    return found


@pytest.fixture(scope="module")
def answers(tmp_path_factory: pytest.TempPathFactory) -> dict[str, tuple[str, str]]:
    found: dict[str, tuple[str, str]] = {}
    for split in (True, False):
        written = [row["address"] for row in rows() if (" | " in row["address"]) is split]
        given = outers(read(tmp_path_factory.mktemp("abroad"), written))
        found.update({address: given[row] for row, address in enumerate(written, 2)})
    return found


@pytest.mark.parametrize("row", rows(), ids=lambda row: f"{row['country']}: {row['address']!a}")
def test_an_address_abroad_stands_so_or_is_asked_about(
    row: dict[str, str], answers: dict[str, tuple[str, str]]
) -> None:
    lines, asked = answers[row["address"]]
    assert asked == row["asked"], lines
    assert row["asked"] or lines == row["lines"]


def test_each_country_that_is_read_in_depth_has_eight_forms() -> None:
    counted = {country: sum(row["country"] == country for row in rows()) for country in DEEP}
    assert {country: n for country, n in counted.items() if n < LEAST} == {}
