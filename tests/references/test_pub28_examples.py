"""Postal style prints what the worked examples of USPS Publication 28, October 2023, print."""

import csv
from collections import Counter
from pathlib import Path

import pytest

from addressing.guestlist.domestic.dwellings import split_unit
from addressing.guestlist.homes.addresses import read_address
from addressing.guestlist.written import Written
from addressing.records.guests import Cited
from addressing.wording.address_lines import address_lines
from addressing.wording.american import above_in_short, postal_town
from addressing.wording.streets import street_in_full, street_in_short, unit_in_short

OTHERS = ("military last line", "block lines", "city", "area")
"""Kinds that are no line of a street."""
NOT_WHOLE = (*OTHERS, "directional", "street name", "puerto rico", "route and street")
"""Lines without a house number in front, or with words that might be a town."""


def examples() -> list[dict[str, str]]:
    path = Path(__file__).with_name("pub28_examples.tsv")
    lines = [line for line in path.read_text("utf-8").splitlines() if not line.startswith("#")]
    return list(csv.DictReader(lines, delimiter="\t", quoting=csv.QUOTE_NONE))


def of_kind(*kinds: str) -> list[dict[str, str]]:
    return [row for row in examples() if row["kind"] in kinds]


def but_kind(*kinds: str) -> list[dict[str, str]]:
    return [row for row in examples() if row["kind"] not in kinds]


def name(row: dict[str, str]) -> str:
    return f"{row['id']}: {row['given']}"


def in_postal_style(line: str) -> str:
    street, unit = split_unit(line)
    return f"{street_in_short(street)} {unit_in_short(unit)}" if unit else street_in_short(street)


def wordings(cell: str) -> list[list[str]]:
    """The lines of an address, and with its unit on a line of its own."""
    address, _, _ = read_address(Written(lines=(Cited(cell),)), frozenset())
    assert address is not None
    ways = address_lines(address, "US", postal=True)
    return [[line.text for line in lines] for lines in ways if lines is not None]


def printed(cell: str) -> list[str]:
    return wordings(cell)[0]


@pytest.mark.parametrize("row", but_kind(*OTHERS), ids=name)
def test_a_street_line_is_printed_as_in_the_publication(row: dict[str, str]) -> None:
    assert in_postal_style(row["given"]) == row["standard"]


@pytest.mark.parametrize("row", but_kind(*OTHERS), ids=name)
def test_what_is_printed_stays_as_it_is_when_it_is_read_again(row: dict[str, str]) -> None:
    assert in_postal_style(row["standard"]) == row["standard"]


@pytest.mark.parametrize("row", but_kind(*OTHERS), ids=name)
def test_formal_style_says_the_same_line(row: dict[str, str]) -> None:
    street, _ = split_unit(row["given"])
    assert street_in_short(street_in_full(street)) == street_in_short(street)


@pytest.mark.parametrize("row", but_kind(*NOT_WHOLE, "highway"), ids=name)
def test_a_whole_address_in_one_cell_is_read_and_printed_so(row: dict[str, str]) -> None:
    cell = Cited(f"{row['given']}, Litchfield, CT 06759")
    address, troubles, _ = read_address(Written(lines=(cell,)), frozenset())
    assert address is not None
    assert troubles == ()
    assert printed(cell.text) == [row["standard"], "LITCHFIELD CT 06759"]


@pytest.mark.parametrize("row", of_kind("highway"), ids=name)
def test_a_house_at_a_numbered_road_is_read_and_printed_so(row: dict[str, str]) -> None:
    given = row["given"] if row["given"][0].isdigit() else f"14 {row['given']}"
    standard = row["standard"] if row["standard"][0].isdigit() else f"14 {row['standard']}"
    assert printed(f"{given}, Litchfield, CT 06759") == [standard, "LITCHFIELD CT 06759"]


@pytest.mark.parametrize("row", of_kind("military last line"), ids=lambda row: row["given"])
def test_a_military_last_line_is_printed_as_in_the_publication(row: dict[str, str]) -> None:
    assert printed(f"PSC 1650 Box 10, {row['given']}") == ["PSC 1650 BOX 10", row["standard"]]


@pytest.mark.parametrize("row", of_kind("block lines"), ids=name)
def test_a_block_of_lines_in_one_cell_is_printed_so(row: dict[str, str]) -> None:
    assert row["standard"].split(" / ") in wordings(row["given"].replace(" / ", "\n"))


@pytest.mark.parametrize("row", of_kind("city"), ids=name)
def test_a_town_is_spelled_out(row: dict[str, str]) -> None:
    assert postal_town(row["given"]) == row["standard"]
    assert postal_town(row["standard"]) == row["standard"]


@pytest.mark.parametrize("row", of_kind("area"), ids=name)
def test_an_urbanization_is_printed_so(row: dict[str, str]) -> None:
    assert above_in_short(row["given"]) == row["standard"]


def test_most_of_the_publication_is_covered() -> None:
    kinds = Counter(row["kind"] for row in examples())
    assert sum(kinds.values()) > 160
    assert {"suffix", "unit", "directional", "po box", "rural", "highway contract"} <= set(kinds)
    assert {"highway", "puerto rico", "block lines", "private mailbox"} <= set(kinds)
