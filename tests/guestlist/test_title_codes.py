"""Letters of the client's own where a title belongs are asked about; other titles are none."""

from collections.abc import Callable

import pytest

from addressing.guestlist.people.names import known_title
from addressing.guestlist.tables.title_codes import likely_titles
from addressing.records.findings import Finding
from addressing.records.guests import GuestList
from addressing.tables import table

Read = Callable[..., tuple[GuestList, tuple[Finding, ...]]]
FAMILIES = ("Penhew", "Orr", "Lorne", "Vale", "Farrenby", "Ruddock")


def read(read_rows: Read, *titles: str, header: str = "Title") -> tuple[list[str], list[str]]:
    """The letters that are asked about, and the titles that were read."""
    rows = [
        (title, "Odile", family, f"{number} Mill Row", "Bath", "ME", "04530")
        for number, (title, family) in enumerate(zip(titles, FAMILIES, strict=False), 1)
    ]
    guests, findings = read_rows(
        [(header, "First", "Last", "Street", "City", "State", "ZIP"), *rows]
    )
    asked = [each for each in findings if each.code == "title-letters"]
    assert all(each.holds for each in asked)
    missing = {each.household for each in findings if each.code == "title-missing"}
    assert missing.isdisjoint(each.household for each in asked)
    people = [person for home in guests.households for person in home.people]
    return [each.quoted for each in asked], [person.title or "" for person in people]


@pytest.mark.parametrize("header", ["Title", "T", "Ttl", ""])
@pytest.mark.parametrize(
    ("titles", "asked", "said"),
    [
        (("MM", "W", "Ms.", "Dr"), ["MM", "W"], ["", "", "Ms.", "Dr."]),
        (("M/M", "M", "MS", ""), ["M/M", "M"], ["", "", "Ms.", ""]),
        (("mm", "MM", "mm"), ["mm", "MM", "mm"], ["", "", ""]),
    ],
)
def test_letters_that_are_nobodys_title_are_asked_about(
    read_rows: Read, header: str, titles: tuple[str, ...], asked: list[str], said: list[str]
) -> None:
    assert read(read_rows, *titles, header=header) == (asked, said)


@pytest.mark.parametrize(
    ("titles", "said"),
    [
        (("M", "Mme", "MM"), ["M", "Madame", "MM."]),
        (("M", "Mlle", "M"), ["M", "Mademoiselle", "M"]),
        (("Mr.", "Dr.", "Cantor"), ["Mr.", "Dr.", "Cantor"]),
        (("Mr", "MRS", "Rev"), ["Mr.", "Mrs.", "The Reverend"]),
    ],
)
def test_titles_are_none(read_rows: Read, titles: tuple[str, ...], said: list[str]) -> None:
    assert read(read_rows, *titles) == ([], said)


@pytest.mark.parametrize("header", ["Mar.", "T", "Size", "Group"])
@pytest.mark.parametrize(
    "marks", [("S", "M", "W", "D"), ("A", "B", "B", "A"), ("XL", "M", "S", "L")]
)
def test_letters_of_another_column_are_none(
    read_rows: Read, header: str, marks: tuple[str, ...]
) -> None:
    """Married, widowed, divorced; a list A and B; a size: no title stands among them."""
    assert read(read_rows, *marks, header=header)[0] == []


def test_beside_a_title_letters_ask_nothing(read_rows: Read) -> None:
    rows = [("MM", "Mr. and Mrs. Kit Orr", "9 Mill Row", "Bath", "ME", "04530"),
            ("W", "Odile Penhew", "8 Mill Row", "Bath", "ME", "04530"),
            ("MM", "The Lorne Family", "7 Mill Row", "Bath", "ME", "04530")]  # fmt: skip
    _, findings = read_rows([("T", "Name", "Street", "City", "State", "ZIP"), *rows])
    assert [each.quoted for each in findings if each.code == "title-letters"] == ["W"]


@pytest.mark.parametrize("row", table("title_codes"), ids=lambda row: str(row["code"]))
def test_what_a_code_may_mean_are_titles(row: dict[str, str]) -> None:
    titles = [part for each in likely_titles(row["code"].upper()) for part in each.split(" and ")]
    assert titles
    assert all(map(known_title, titles))
