"""Two doors with one telephone number or e-mail address, of names that agree, are asked about."""

from pathlib import Path

import pytest

from addressing.guestlist import read_list

HEADER = "First Name,Last Name,Suffix,Mobile Phone,E-mail,Street,City,State,Zip\n"
TOWN = "Dayton,OH,45419"


def _asked(path: Path, *rows: str) -> dict[str, tuple[tuple[str, str], ...]]:
    """The households that are asked about, by name, with what they have in common."""
    list_ = path / "list.csv"
    body = "".join(f"{row},{TOWN}\n" for row in rows)
    list_.write_text(HEADER + body, encoding="utf-8")
    guests, findings = read_list(list_, {})
    names = {home.key: home.name for home in guests.households}
    return {names[f.household or ""]: f.likely for f in findings if f.code == "duplicate-probable"}


@pytest.mark.parametrize(
    ("one", "other"),
    [
        (
            "Tom,Barrow,Jr.,(919) 555-0128,,18 Cedar Knoll",
            "Thomas,Barrow,,+1 919-555-0128,,4 Elm St",
        ),
        ("R.,Stone,,9195550128,,18 Cedar Knoll", "Robert,Stone,,919.555.0128,,4 Elm St"),
        ("Kate,Orr,,,Kate@example.com,18 Cedar Knoll", "Kate,Lind,,,kate@example.com,4 Elm St"),
    ],
)
def test_names_that_agree_at_two_doors_are_asked_with_what_they_share(
    tmp_path: Path, one: str, other: str
) -> None:
    asked = _asked(tmp_path, one, other, "Ada,Voss,,(919) 555-0177,ada@example.com,9 Oak Row")
    way = "an e-mail address" if "@" in one else "a telephone number"
    assert list(asked.values()) == [(("shared", way),)] * 2


@pytest.mark.parametrize(
    ("one", "other"),
    [
        # a family's number
        ("Mary,Orr,,(919) 555-0128,,18 Cedar Knoll", "Kate,Orr,,(919) 555-0128,,4 Elm St"),
        # father and son, told apart
        ("John,Orr,Sr.,(919) 555-0128,,18 Cedar Knoll", "John,Orr,Jr.,(919) 555-0128,,4 Elm St"),
        # father and son at one door
        ("John,Orr,,(919) 555-0128,,18 Cedar Knoll", "John,Orr,Jr.,(919) 555-0128,,18 Cedar Knoll"),
        # another number
        (
            "Tom,Barrow,Jr.,(919) 555-0128,,18 Cedar Knoll",
            "Thomas,Barrow,,(919) 555-0182,,4 Elm St",
        ),
    ],
)
def test_a_familys_number_father_and_son_and_two_numbers_are_not(
    tmp_path: Path, one: str, other: str
) -> None:
    assert not _asked(tmp_path, one, other, "Ada,Voss,,(919) 555-0177,,9 Oak Row")


def test_a_number_that_many_have_is_nobodys_own(tmp_path: Path) -> None:
    families = ("Lind", "Moss", "Poole", "Ruck")
    rows = (f"Ann,{f},,(919) 555-0128,,{n} Elm St" for n, f in enumerate(families, start=4))
    assert not _asked(tmp_path, *rows)
