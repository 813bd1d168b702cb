"""Law: every row of a list is in one household or listed as not used, whatever kinds it mixes."""

import csv
import random
from collections.abc import Sequence
from pathlib import Path

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from addressing.faults import Fault
from addressing.guestlist import read_list
from addressing.records.guests import GuestList

Row = tuple[str, ...]
HEADER = ("Party", "Name", "Street", "City", "State", "ZIP", "RSVP", "Wave", "By Hand", "Notes")
NAMES = (
    "Mr. Tobias Wexcombe", "Mrs. Odile Wexcombe", "Linnet Wexcombe (7)", "Guest", "+1", "2 kids",
    "The Wexcombe Family", "Mr. and Mrs. Tobias Wexcombe", "Mr. Tobias Wexcombe, Jr.",
    "Toby Wexcombe", "Ms. Ysolde Penhew", "Total", "Bride’s side", "",
)  # fmt: skip
PLACES = (
    ("14 Larkmoor Lane", "Litchfield", "CT", "06759"),
    ("14 Larkmoor Ln", "Litchfield", "CT", "6759"),
    ("14 Larkmoor Lane", "", "", ""),
    ("431 Weathervane Drive", "Bar Harbor", "ME", "04609"),
    ("ditto", "", "", ""),
    ('"', '"', '"', '"'),
    ("same as Ysolde", "", "", ""),
    ("", "Litchfield", "CT", "06759"),
    ("", "", "", ""),
)
LISTS = st.lists(
    st.builds(
        lambda party, name, place, rest: (party, name, *place, *rest),
        st.sampled_from(("", "", "1", "2", "Wexcombe")),
        st.sampled_from(NAMES),
        st.sampled_from(PLACES),
        st.tuples(
            st.sampled_from(("", "yes", "no", "declined")),
            st.sampled_from(("", "A", "B")),
            st.sampled_from(("", "yes")),
            st.sampled_from(("", "usher", "by hand", "moved?")),
        ),
    ),
    min_size=1,
    max_size=9,
)
RARELY = settings(
    max_examples=80, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)


def read(path: Path, rows: Sequence[Row], *, party: bool) -> GuestList | None:
    """The list of these rows, with or without their parties; None where it holds nobody."""
    cut = 0 if party else 1
    with path.open("w", encoding="utf-8", newline="") as stream:
        writer = csv.writer(stream, lineterminator="\n")
        writer.writerows([HEADER[cut:], *(row[cut:] for row in rows)])
    try:
        return read_list(path, {})[0]
    except Fault as fault:
        assert fault.code in {"list-empty", "name-column-missing"}  # noqa: PT017 - either is right
        return None


def number(cell: str | None) -> int:
    return int("".join(mark for mark in cell or "" if mark.isdigit()))


@RARELY
@given(LISTS, st.booleans())
def test_each_row_is_in_one_household_or_listed_as_not_used(
    tmp_path: Path,
    rows: list[Row],
    party: bool,  # noqa: FBT001 - drawn
) -> None:
    guest_list = read(tmp_path / "list.csv", rows, party=party)
    assume(guest_list is not None)
    assert guest_list is not None
    used = [number(where.cell) for home in guest_list.households for where in home.rows]
    unused = [row.row for row in guest_list.unused]
    assert len(used) == len(set(used))
    assert not set(used) & set(unused)
    assert guest_list.rows == len(used) + len(unused)
    assert all(row.why for row in guest_list.unused)
    cut = 0 if party else 1
    filled = {place for place, row in enumerate(rows, start=2) if any(row[cut:])}
    assert set(used) | set(unused) == filled


@RARELY
@given(LISTS, st.booleans(), st.randoms(use_true_random=False))
def test_households_have_a_key_each_and_each_finding_is_of_one(
    tmp_path: Path,
    rows: list[Row],
    party: bool,  # noqa: FBT001 - drawn
    dice: random.Random,
) -> None:
    dice.shuffle(rows)
    guest_list = read(tmp_path / "list.csv", rows, party=party)
    assume(guest_list is not None)
    assert guest_list is not None
    keys = [home.key for home in guest_list.households]
    assert len(keys) == len(set(keys))


@pytest.mark.parametrize("party", [True, False])
def test_nobody_is_lost_in_a_list_of_every_kind(tmp_path: Path, party: bool) -> None:  # noqa: FBT001
    rows = [("1", name, *PLACES[0], "", "", "", "") for name in NAMES if name]
    guest_list = read(tmp_path / "list.csv", rows, party=party)
    assert guest_list is not None
    given_names = {p.given for home in guest_list.households for p in home.people if p.given}
    assert {"Tobias", "Odile", "Linnet", "Toby", "Ysolde"} <= given_names
