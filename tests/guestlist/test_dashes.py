"""A family name, a dash and first names are names in a column that writes them so."""

from collections.abc import Callable

import pytest

from addressing.guestlist.people.dashes import comma_for_dash
from addressing.records.findings import Finding
from addressing.records.guests import GuestList

Read = tuple[GuestList, tuple[Finding, ...]]
HEADER = ("Name", "Street", "City", "State", "ZIP")
HOME = ("14 Larkmoor Lane", "Litchfield", "CT", "06759")


def test_a_column_of_dashes_is_read_without_a_question(read_rows: Callable[..., Read]) -> None:
    cells = ("Wexcombe – Tobias & Zelph", "Penhew - Mr. & Mrs. Rufus", "Farrenby – Pip + guest")
    homes = ((f"{place} Larkmoor Lane", *HOME[1:]) for place in (3, 14, 25))
    rows = (HEADER, *((cell, *home) for cell, home in zip(cells, homes, strict=True)))
    guests, findings = read_rows(rows)
    named = [[(p.given, p.family) for p in home.people] for home in guests.households]
    assert named == [
        [("Tobias", "Wexcombe"), ("Zelph", "Wexcombe")],
        [("Rufus", "Penhew"), (None, "Penhew")],
        [("Pip", "Farrenby"), (None, None)],
    ]
    assert not [found for found in findings if found.holds]


def test_a_dash_alone_among_plain_names_is_asked_about(read_rows: Callable[..., Read]) -> None:
    rows = (HEADER, ("Odile Farrenby", *HOME), ("Wexcombe - Tobias", "3 Larkmoor Lane", *HOME[1:]))
    _, findings = read_rows(rows)
    assert [found.code for found in findings if found.holds] == ["name-order-doubtful"]


@pytest.mark.parametrize(
    "cell",
    ["Tobias Wexcombe - usher", "Wexcombe - cousins", "Wexcombe - declined", "Guest - Tobias"],
)
def test_a_remark_behind_a_dash_stays_one(cell: str) -> None:
    assert comma_for_dash(cell, trusted=True) == cell
