"""Under “+1?” a yes is a guest, a no is nobody, a name is a name, and all else is asked."""

from collections.abc import Callable

import pytest

from addressing.records.findings import Finding
from addressing.records.guests import GuestList, Kind

Read = Callable[..., tuple[GuestList, tuple[Finding, ...]]]
HOME = ("14 Larkmoor Lane", "Litchfield", "CT", "06759")
AWAY = ("8 Grayling Row", "Chester", "CT", "06412")
PLACES = ("Street", "City", "State", "ZIP")
HEADERS = ("+1?", "Plus one allowed?", "Bringing a date?", "Partner", "Gets a plus one")


def read(read_rows: Read, header: str, said: str) -> tuple[list[str], list[str], bool]:
    """Who comes beside Bram Penhew: (guests' names, codes asked of the column, waits)."""
    guest_list, findings = read_rows(
        [("Name", header, *PLACES), ("Mr. Bram Penhew", said, *HOME), ("Mr. Kit Orr", "", *AWAY)]
    )
    people = guest_list.households[0].people[1:]
    named = ["guest" if p.kind is Kind.GUEST else f"{p.given} {p.family}" for p in people]
    asked = [each for each in findings if each.where.cell == "B2"]
    return named, sorted(each.code for each in asked), any(each.holds for each in asked)


@pytest.mark.parametrize("header", HEADERS)
@pytest.mark.parametrize("said", ["yep", "Yeah!", "Of course", "sure", "x", "Yes please", "👍"])
def test_a_yes_in_any_words_is_a_guest(read_rows: Read, header: str, said: str) -> None:
    assert read(read_rows, header, said) == (["guest"], ["guest-unnamed"], False)


@pytest.mark.parametrize("header", HEADERS)
@pytest.mark.parametrize("said", ["nope", "Nah", "no thx", "solo", "no, he is coming by himself"])
def test_a_no_in_any_words_is_nobody(read_rows: Read, header: str, said: str) -> None:
    assert read(read_rows, header, said) == ([], [], False)


@pytest.mark.parametrize("header", HEADERS)
@pytest.mark.parametrize(
    "said",
    ["he might", "Maybe", "if that's ok?", "yes?", "n?", "will let you know", "yes if he is back"],
)
def test_what_is_neither_waits_and_is_asked(read_rows: Read, header: str, said: str) -> None:
    assert read(read_rows, header, said) == ([], ["guest-noted"], True)


@pytest.mark.parametrize("header", ["+1?", "Bringing a date?", "Partner"])
@pytest.mark.parametrize("said", ["Odile Farrenby", "Una van der Grayling", "Linnet de la Orr"])
def test_a_name_is_a_name(read_rows: Read, header: str, said: str) -> None:
    assert read(read_rows, header, said)[0] == [said]


def test_a_yes_under_partner_is_no_name(read_rows: Read) -> None:
    assert read(read_rows, "Spouse or guest", "yes")[0] == ["guest"]
