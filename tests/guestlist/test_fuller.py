"""What only one of two rows tells of a household's door isn't lost, and never set unasked."""

from collections.abc import Callable

import pytest

from addressing.records.findings import Finding
from addressing.records.guests import GuestList

Read = Callable[..., tuple[GuestList, tuple[Finding, ...]]]
HEADER = ("Party", "Title", "First", "Last", "Address", "Line 2", "City", "State", "ZIP")
AREA = ("Litchfield", "CT", "06759")
OTHERS = [(9, "Mr.", "Kit", "Orr", "9 Quince St", None, "Bath", "ME", "04530"),
          (9, "Mrs.", "Ada", "Orr", "9 Quince St", None, "Bath", "ME", "04530")]  # fmt: skip
Door = tuple[str, str | None, str | None, str | None, str | None]


def read(
    read_rows: Read, mine: Door, hers: Door, *, parties: bool = True
) -> tuple[list[str], list[str]]:
    """The addresses of Mr. and Mrs. Penhew, and the codes of what holds them."""
    rows = [(1, "Mr.", "Tobias", "Penhew", *mine), (1, "Mrs.", "Odile", "Penhew", *hers), *OTHERS]
    table = [HEADER, *rows] if parties else [row[1:] for row in (HEADER, *rows)]
    guests, findings = read_rows(table)
    homes = [home for home in guests.households if home.people[0].family == "Penhew"]
    addresses = [home.address for home in homes if home.address]
    shown = [
        ", ".join(part.text for part in (a.recipient_extra, a.street, a.unit, a.city, a.postcode)
                  if part)
        for a in addresses
    ]  # fmt: skip
    keys = {home.key for home in homes}
    held = [(f.code, f.household) for f in findings if f.holds and f.household in keys]
    assert len(held) == len(set(held))
    return shown, sorted({code for code, _ in held})


LANE = ("14 Larkmoor Lane", None)
WHOLE = "14 Larkmoor Lane, Litchfield, 06759"


@pytest.mark.parametrize("parties", [True, False])
@pytest.mark.parametrize("turned", [True, False])
@pytest.mark.parametrize(
    ("other", "shown"),
    [
        (("14 Larkmoor Ln", "The Elms", *AREA), "The Elms, "),
        (("Larkmoor House, 14 Larkmoor Lane", None, *AREA), "Larkmoor House, "),
        ((*LANE, "Litchfield", "CT", None), ""),
        ((*LANE, None, "CT", "06759"), ""),
        ((*LANE, None, None, None), ""),
    ],
)
def test_a_building_a_town_or_a_zip_of_one_row_is_the_households(
    read_rows: Read, other: Door, shown: str, *, turned: bool, parties: bool
) -> None:
    rows = ((*LANE, *AREA), other)
    found, held = read(read_rows, *(reversed(rows) if turned else rows), parties=parties)
    assert held == []
    assert len(found) == 1
    assert found[0].replace(" Ln,", " Lane,") == f"{shown}{WHOLE}"


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ((*LANE, *AREA), ("14 Larkmoor Lane", "c/o Thorne", *AREA)),
        (("14 Larkmoor Lane", "The Elms", *AREA), ("14 Larkmoor Lane", "The Oaks", *AREA)),
    ],
)
def test_in_whose_care_and_which_of_two_buildings_is_asked(
    read_rows: Read, one: Door, other: Door
) -> None:
    assert read(read_rows, one, other)[1] == ["address-doubtful"]


@pytest.mark.parametrize("parties", [True, False])
@pytest.mark.parametrize(
    "other",
    [
        ("14 Larkmoor Lane", "Apt 3", *AREA),
        ("14 Larkmoor", None, *AREA),
    ],
)
def test_a_flat_or_the_streets_last_word_of_one_row_is_asked_about(
    read_rows: Read, other: Door, *, parties: bool
) -> None:
    found, held = read(read_rows, (*LANE, *AREA), other, parties=parties)
    assert len(found) == 2
    assert held == ["household-doubtful"]


@pytest.mark.parametrize(
    "other",
    [
        ("41 Larkmoor Lane", None, *AREA),
        ("14 Larkmoor Lane", None, "Bath", "ME", "04530"),
        ("14 Larkmoor Road", None, *AREA),
    ],
)
def test_of_two_houses_nothing_is_taken_and_without_parties_nothing_asked(
    read_rows: Read, other: Door
) -> None:
    found, held = read(read_rows, (*LANE, *AREA), other, parties=False)
    assert len(found) == 2
    assert held == []


def test_another_towns_street_gives_no_zip(read_rows: Read) -> None:
    bath = ("14 Larkmoor Lane", None, "Bath", "ME", None)
    _, held = read(read_rows, (*LANE, *AREA), bath, parties=False)
    assert held == ["zip-missing"]
