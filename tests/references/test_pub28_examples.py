"""Postal style prints what the worked examples of USPS Publication 28, October 2023, print."""

import csv
from collections import Counter
from pathlib import Path

import pytest

from addressing.guestlist.addresses import read_address
from addressing.guestlist.dwellings import split_unit
from addressing.guestlist.written import Written
from addressing.records.guests import Cited
from addressing.wording.address_lines import address_lines
from addressing.wording.streets import street_in_short, unit_in_short


def examples() -> list[dict[str, str]]:
    path = Path(__file__).with_name("pub28_examples.tsv")
    lines = [line for line in path.read_text("utf-8").splitlines() if not line.startswith("#")]
    return list(csv.DictReader(lines, delimiter="\t", quoting=csv.QUOTE_NONE))


def lines_of_kind(*kinds: str) -> list[object]:
    return [
        pytest.param(row, id=f"{row['id']}: {row['given']}")
        for row in examples()
        if row["kind"] not in kinds
    ]


def in_postal_style(line: str) -> str:
    street, unit = split_unit(line)
    return f"{street_in_short(street)} {unit_in_short(unit)}" if unit else street_in_short(street)


@pytest.mark.parametrize("row", lines_of_kind("military last line"))
def test_a_street_line_is_printed_as_in_the_publication(row: dict[str, str]) -> None:
    assert in_postal_style(row["given"]) == row["standard"]


WHOLE = [
    row
    for row in examples()
    if row["kind"] not in ("military last line", "highway", "street name", "directional")
    and " / " not in row["given"]
]


@pytest.mark.parametrize("row", WHOLE, ids=lambda row: f"{row['id']}: {row['given']}")
def test_a_whole_address_in_one_cell_is_read_and_printed_so(row: dict[str, str]) -> None:
    cell = Cited(f"{row['given']}, Litchfield, CT 06759")
    address, troubles, _ = read_address(Written(lines=(cell,)), frozenset())
    assert address is not None
    assert troubles == ()
    lines, _ = address_lines(address, "US", postal=True)
    assert [line.text for line in lines] == [row["standard"], "LITCHFIELD CT 06759"]


@pytest.mark.parametrize(
    "row",
    [row for row in examples() if row["kind"] == "military last line"],
    ids=lambda row: row["given"],
)
def test_a_military_last_line_is_printed_as_in_the_publication(row: dict[str, str]) -> None:
    cell = Cited(f"PSC 1650 Box 10, {row['given']}")
    address, _, _ = read_address(Written(lines=(cell,)), frozenset())
    assert address is not None
    lines, _ = address_lines(address, "US", postal=True)
    assert [line.text for line in lines] == ["PSC 1650 BOX 10", row["standard"]]


def test_most_of_the_publication_is_covered() -> None:
    kinds = Counter(row["kind"] for row in examples())
    assert sum(kinds.values()) > 120
    assert {"suffix", "unit", "directional", "po box", "rural", "highway contract"} <= set(kinds)
