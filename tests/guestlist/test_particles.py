"""Particles in a column of their own or behind a comma stand before the family name.

The columns are those of Dutch and German lists; common practice, no source. Invented names.
"""

from collections.abc import Callable
from typing import Any

import pytest

from addressing.guestlist.people.cell import read_people

HERE = ("14 Larkmoor Lane", "Litchfield", "CT", "06759")
PLACES = ("Street", "City", "State", "ZIP")
Names = list[tuple[str | None, str | None]]


def names_of(read_rows: Callable[..., Any], header: tuple[str, ...], *row: str) -> Names:
    """(given, family) of everybody in one row of columns of names."""
    guest_list, _ = read_rows(((*header, *PLACES), (*row, *HERE)))
    return [(p.given, p.family) for home in guest_list.households for p in home.people]


@pytest.mark.parametrize(
    "column",
    ["tussenvoegsel", "Tussenv.", "Tussenvoegsel(s)", "prefix achternaam", "Voorvoegsel",
     "Namenszusatz", "Vorsatzwort", "Surname prefix"],
)  # fmt: skip
def test_a_column_of_particles_is_known_by_its_header(
    read_rows: Callable[..., Any], column: str
) -> None:
    header = ("Voornaam", column, "Achternaam")
    found = names_of(read_rows, header, "Jan", "van der", "Linnet")
    assert found == [("Jan", "van der Linnet")]


def test_every_partner_has_a_column_of_particles(read_rows: Callable[..., Any]) -> None:
    header = ("Voornaam", "Tussenv.", "Achternaam", "Voornaam partner", "Tussenv. partner",
              "Achternaam partner")  # fmt: skip
    found = names_of(read_rows, header, "Jan", "van der", "Linnet", "Els", "de", "Wexcombe")
    assert found == [("Jan", "van der Linnet"), ("Els", "de Wexcombe")]


@pytest.mark.parametrize(
    ("row", "read"),
    [
        (("Jan & Els", "'t", "Wexcombe"), [("Jan", "'t Wexcombe"), ("Els", "'t Wexcombe")]),
        (("Jan & Els", "van der & de", "Linnet & Wexcombe"),
         [("Jan", "van der Linnet"), ("Els", "de Wexcombe")]),
        (("Otto", "von und zu", "Larkmoor"), [("Otto", "von und zu Larkmoor")]),
        (("Jan", "van der", "van der Linnet"), [("Jan", "van der Linnet")]),
        (("Jan", "-", "Linnet"), [("Jan", "Linnet")]),
        (("", "van der", "Linnet"), [(None, "van der Linnet")]),
    ],
)  # fmt: skip
def test_particles_go_before_the_family_name_that_they_stand_beside(
    read_rows: Callable[..., Any], row: tuple[str, ...], read: Names
) -> None:
    assert names_of(read_rows, ("First name", "Tussenvoegsel", "Last name"), *row) == read


def test_the_cell_of_the_particles_is_cited(read_rows: Callable[..., Any]) -> None:
    header = ("Voornaam", "Tussenvoegsel", "Achternaam", *PLACES)
    guest_list, _ = read_rows((header, ("Jan", "van der", "Linnet", *HERE)))
    (person,) = guest_list.households[0].people
    assert [where.cell for where in person.cells] == ["A2", "B2", "C2"]


@pytest.mark.parametrize(
    "row", [("Jan & Els", "van der", "Linnet & Wexcombe"), ("Jan", "van der", ""),
            ("Otto", "jun.", "Larkmoor")]
)  # fmt: skip
def test_particles_that_belong_to_no_one_name_are_asked_about(
    read_rows: Callable[..., Any], row: tuple[str, ...]
) -> None:
    _, findings = read_rows((("First name", "Namenszusatz", "Last name", *PLACES), (*row, *HERE)))
    assert "name-doubtful" in [found.code for found in findings]


def test_whole_names_take_the_particles_of_the_column_beside_them(
    read_rows: Callable[..., Any],
) -> None:
    found = names_of(read_rows, ("Guest name", "Tussenvoegsel"), "Jan Linnet", "van der")
    assert found == [("Jan", "van der Linnet")]


def test_a_title_in_the_column_of_particles_is_a_title(read_rows: Callable[..., Any]) -> None:
    header = ("Vorname", "Namenszusatz", "Nachname", *PLACES)
    guest_list, _ = read_rows((header, ("Otto", "Dr.", "Larkmoor", *HERE)))
    (person,) = guest_list.households[0].people
    assert (person.title, person.family) == ("Dr.", "Larkmoor")


def test_particles_behind_a_comma_are_nobody(read_rows: Callable[..., Any]) -> None:
    found = names_of(read_rows, ("First name", "Last name"), "Jan", "Linnet, van der")
    assert found == [("Jan", "van der Linnet")]
    (person,) = read_people("Linnet, van der, Jan", family_first=True).people
    assert (person.given, person.family) == ("Jan", "van der Linnet")


def test_a_given_name_behind_a_comma_is_no_particle() -> None:
    (person,) = read_people("Penhew, Al", family_first=True).people
    assert (person.given, person.family) == ("Al", "Penhew")
