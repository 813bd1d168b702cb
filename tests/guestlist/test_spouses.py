"""What stands under “First” and “Spouse” beside a family name and a title of two."""

from collections.abc import Callable

import pytest

from addressing.records.findings import Finding
from addressing.records.guests import GuestList

Read = Callable[..., tuple[GuestList, tuple[Finding, ...]]]
HEADER = ("Last", "First", "Spouse", "Title", "Street", "City", "State", "ZIP")
HOME = ("14 Larkmoor Lane", "Litchfield", "CT", "06759")


def read(read_rows: Read, first: str, spouse: str, title: str) -> tuple[list[str], set[str]]:
    """(title, given, family, suffix of each, parted by slashes), the codes that make it wait."""
    guest_list, findings = read_rows([HEADER, ("Penhew", first, spouse, title, *HOME)])
    people = guest_list.households[0].people
    shown = [f"{p.title or '-'}/{p.given or '-'}/{p.family}/{p.suffix or '-'}" for p in people]
    return shown, {each.code for each in findings if each.holds}


@pytest.mark.parametrize("spouse", ["Mary Beth", "Sarah Jane", "Billie Jo", "Odile B.", "Ruth Ann"])
def test_two_given_names_beside_a_title_of_two_are_hers(read_rows: Read, spouse: str) -> None:
    told = ["Mr./Tobias/Penhew/-", f"Mrs./{spouse}/Penhew/-"]
    assert read(read_rows, "Tobias", spouse, "Mr. and Mrs.") == (told, set())


@pytest.mark.parametrize("spouse", ["Linh Larkmoor", "Odile Ann Farrenby"])
def test_a_second_word_that_is_no_given_name_is_asked_there(read_rows: Read, spouse: str) -> None:
    assert read(read_rows, "Tobias", spouse, "Mr. & Mrs.")[1] == {"family-name-doubtful"}
    told, held = read(read_rows, "Tobias", spouse, "")
    given, family = spouse.rsplit(" ", 1)
    assert (told[1], held) == (f"-/{given}/{family}/-", set())


@pytest.mark.parametrize("first", ["Tobias Jr.", "Tobias, Jr.", "Tobias (Jr)", "Tobias [Jr.]"])
@pytest.mark.parametrize("spouse", ["", "Odile"])
def test_a_suffix_under_first_stands_behind_the_family_name(
    read_rows: Read, first: str, spouse: str
) -> None:
    told = ["Mr./Tobias/Penhew/Jr.", f"Mrs./{spouse or '-'}/Penhew/-"]
    assert read(read_rows, first, spouse, "Mr. and Mrs.") == (told, set())
