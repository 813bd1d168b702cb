"""Styles of streets: no figure is lost or made, what is styled once stays as it is."""

import re

from hypothesis import example, given
from hypothesis import strategies as st

from addressing.wording.boxes import route_line
from addressing.wording.streets import (
    _plainly,
    _styled,
    street_in_full,
    street_in_short,
    unit_in_full,
    unit_in_short,
)

WORDS = (
    "14", "14A", "1/2", "112-10", "39.2", "N6W23001", "Larkmoor", "St.", "Lane", "Ln", "AVE", "N",
    "West", "S.W.", "Hwy", "KY", "Kentucky", "State", "Rd", "Route", "I-10", "US", "41", "County",
    "CR", "FM", "1200", "Calle", "A-19", "Blq", "Num", "RR", "RFD", "HC", "Box", "PO", "P.O.",
    "Drawer", "L", "PMB", "#4", "#", "Byp", "Frontage", "PSC", "007", "Urb", "Ext", "or", "42nd",
)  # fmt: skip
UNITS = ("Apt", "apt.", "#", "#4B", "4B", "Bldg", "2", "Unit", "Floor", "2nd", "Fl", "PH", "Rear")
streets = st.lists(st.sampled_from(WORDS), min_size=1, max_size=7).map(" ".join)
units = st.lists(st.sampled_from(UNITS), min_size=1, max_size=4).map(" ".join)


def figures(text: str) -> list[str]:
    return sorted(mark for mark in text if mark.isdigit())


def without_idle_zeros(street: str) -> str:
    """A route's number has no zeros in front (242, 252)."""
    return re.sub(r"^([^\d]*)0+(?=\d)", r"\1", street)


def without_dropped_street(street: str, *, formal: bool) -> str:
    """Behind a route's box postal style leaves off a street (245, 254)."""
    line = route_line(street, formal=formal)
    return line if line is not None else street


@given(streets)
def test_no_figure_of_a_street_is_lost_or_made(street: str) -> None:
    full, short = street_in_full(street), street_in_short(street)
    routed = route_line(street, formal=True) is not None
    wanted = without_idle_zeros(street) if routed else street
    assert figures(full) == figures(wanted)
    kept = without_dropped_street(street, formal=False) if routed else street
    assert figures(short) == figures(kept)
    assert set(figures(short)) <= set(figures(street))


@given(streets)
@example("FM 42nd S.W. RFD")
@example("S.W. St.")
@example("or 14A")
@example("PO West")
@example("Calle 14 I-10")
def test_a_styled_street_stays_as_it_is(street: str) -> None:
    full, short = street_in_full(street), street_in_short(street)
    assert street_in_full(full) == full
    oregon = re.search(r"\bor \d", street)  # once in capitals, a small "or" reads as the state
    assert oregon or street_in_short(short) == short


@given(units)
def test_no_figure_of_a_unit_is_lost_or_made(unit: str) -> None:
    assert figures(unit_in_full(unit)) == figures(unit)
    assert figures(unit_in_short(unit)) == figures(unit)


@given(streets)
def test_postal_style_has_capitals_and_no_points_but_between_figures(street: str) -> None:
    short = street_in_short(street)
    assert short == short.upper()
    assert re.search(r"(?<!\d)\.|\.(?!\d)|,", short) is None


@given(st.integers(1, 99), st.lists(st.sampled_from(WORDS), min_size=1, max_size=3))
def test_a_plain_street_is_written_as_by_the_rules_for_all(number: int, words: list[str]) -> None:
    street = [str(number), *words]
    assert _plainly(street) in (None, _styled(street, formal=True))
