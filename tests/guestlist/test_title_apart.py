"""A title before the family name in its column is the person's; a letter is no family name."""

from pathlib import Path

import pytest

from addressing.guestlist import read_list
from addressing.records.findings import Finding
from addressing.records.guests import GuestList

TOWN = "14 Larkmoor Lane,Litchfield,CT,06759"


def _read(path: Path, *rows: str) -> tuple[GuestList, tuple[Finding, ...]]:
    list_ = path / "list.csv"
    body = "".join(f"{row},{TOWN}\n" for row in rows)
    header = "First Name,Last Name,Street,City,State,Zip\n"
    list_.write_text(header + body, encoding="utf-8")
    return read_list(list_, {})


@pytest.mark.parametrize(
    ("given", "family", "title", "name"),
    [
        ("Anita", "Dr. Patel", "Dr.", "Patel"),
        ("Odile", "Mrs. Penhew", "Mrs.", "Penhew"),
        ("Simone", "Mme MOREAU", "Madame", "MOREAU"),
        ("Kit", "Dean Penhew", None, "Dean Penhew"),
        ("Kit", "Dean", None, "Dean"),
        ("Dr. Kit", "Penhew", "Dr.", "Penhew"),
        ("Kit", "St. Clair", None, "St. Clair"),
    ],
)
def test_a_title_before_a_family_name_goes_before_the_whole_name(
    tmp_path: Path, given: str, family: str, title: str | None, name: str
) -> None:
    (home,) = _read(tmp_path, f"{given},{family}")[0].households
    (person,) = home.people
    assert (person.title, person.family) == (title, name)


def test_a_letter_for_a_family_name_holds_its_household(tmp_path: Path) -> None:
    guests, found = _read(tmp_path, "Carla,V", "Kit,W.", "Ada,Oh")
    asked = [each.household for each in found if each.code == "name-doubtful" and each.holds]
    assert asked == [home.key for home in guests.households[:2]]


def test_a_double_family_name_with_a_dash_between_is_asked_and_loses_no_word(
    tmp_path: Path,
) -> None:
    guests, found = _read(tmp_path, "Claire,DUPONT - MARTIN")
    assert guests.households[0].people[0].family == "DUPONT - MARTIN"
    assert [each.code for each in found if each.holds] == ["name-doubtful"]
    guests, found = _read(tmp_path, "Kit,PENHEW - DECLINED")
    assert guests.households[0].people[0].family == "PENHEW"
    assert [each.code for each in found if each.holds] == ["marker-in-list"]
