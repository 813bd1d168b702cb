"""Which numbers of a list a remark speaks of: the rows of list_numbers.tsv, and sentences."""

from collections.abc import Callable
from pathlib import Path

import pytest

from addressing.guestlist.files.by_number import links, numbers_in, sole_number
from addressing.guestlist.read import read_list
from addressing.records.findings import Finding
from addressing.records.guests import GuestList
from addressing.tables import table

Read = Callable[..., tuple[GuestList, tuple[Finding, ...]]]

KNOWN = {str(number) for number in range(1, 41)}
ROWS = list(table("list_numbers"))


@pytest.mark.parametrize(
    "row", [row for row in ROWS if row["example"]], ids=lambda row: f"{row['kind']} {row['word']}"
)
def test_an_example_speaks_of_a_number_of_the_list(row: dict[str, str]) -> None:
    if row["kind"] == "reference":
        assert sole_number(row["example"]) == "7"
    elif row["kind"] == "links":
        assert links(row["example"])
        assert not links(row["counter_example"])
    else:
        assert numbers_in(row["example"], KNOWN)[0] == "7"


@pytest.mark.parametrize(
    "row",
    [row for row in ROWS if row["counter_example"] and row["kind"] != "links"],
    ids=lambda row: f"{row['kind']} {row['word']}",
)
def test_a_counter_example_speaks_of_none(row: dict[str, str]) -> None:
    alone = row["kind"] == "counted"
    assert numbers_in(row["counter_example"], KNOWN, aside=alone) == ()


@pytest.mark.parametrize(
    ("said", "numbers"),
    [
        ("6 no plus one after all", {"6"}),
        ("16 kids not invited", {"16"}),
        ("24 they had a second baby, Mia", {"24"}),
        ("22 guest = Alex Tran", {"22"}),
        ("rows 20-22 cancel", {"20", "21", "22"}),
        ("rows 20 to 22 cancel", {"20", "21", "22"}),
        ("remove 12 13 and 14", {"12", "13", "14"}),
        ("12 x", {"12"}),
        ("number twelve is out", {"12"}),
        ("rows twenty to twenty-two are out", {"20", "21", "22"}),
        ("8, 9, 10 out of town", {"8", "9", "10"}),
        ("23 +1 is Kit", {"23"}),
        ("12+13 one envelope", {"12", "13"}),
        ("change 5 to 7", {"5", "7"}),
        ("12 Maple", set()),
        ("3 kids", set()),
        ("2 more to come", set()),
        ("guest 7 of 9", set()),
        ("the two of them moved", set()),
    ],
)
def test_a_remark_in_a_cell_by_itself_speaks_of_the_number_it_opens_with(
    said: str, numbers: set[str]
) -> None:
    assert set(numbers_in(said, KNOWN, aside=True)) == numbers


MAIL = """Hi Linnea,

here is the list, numbered so we can talk about it.

1. Mr. and Mrs. Douglas Grant, 8 Sawgrass Lane, Vero Beach, FL 32963
2. Dr. Simon Ellery, 40 Gristmill Road, Hanover, NH 03755
3. Mrs. Lorraine Boyd, 2 Tupelo Court, Oxford, MS 38655
4. Jamie Cobb, 71 Foghorn Street, San Francisco, CA 94115
5. Mr. Peter Sloane, 19 Quarry Hill, Duluth, MN 55802
6. Renata Ortiz, 8 Spruce Court, Keene, NH 03431
7. Mr. Basil Kerr, as 5

{said}

Love,
Petra
"""


def of_mail(folder: Path, said: str) -> tuple[set[str], set[str]]:
    """(the households that wait for what the mail says, what is asked of the whole list)."""
    path = folder / "list.txt"
    path.write_text(MAIL.format(said=said))
    guests, findings = read_list(path, {})
    names = {home.key: home.name for home in guests.households}
    waiting = {names[f.household or ""] for f in findings if f.code == "said-elsewhere"}
    return waiting, {f.code for f in findings if f.household is None}


@pytest.mark.parametrize(
    ("said", "names"),
    [
        ("Please strike 2. 3 is dead, sadly.", {"Simon Ellery", "Lorraine Boyd"}),
        ("4 and 6 are the same couple, one card.", {"Jamie Cobb", "Renata Ortiz"}),
        ("#1's wife is called Ines.", {"Douglas Grant"}),
        ("No. 3 moved to 14 Elm Street, Bath, ME 04530.", {"Lorraine Boyd"}),
        ("- (2) passed away in spring\n- take 3 off", {"Simon Ellery", "Lorraine Boyd"}),
        ("We have 2 people on the band and dinner is at 5. The kids are 3 and 6 now.", set()),
        ("Send me 3 extra cards to 5 Mill Row by the 6th of May.", set()),
    ],
)
def test_a_mail_speaks_of_its_guests_by_number(tmp_path: Path, said: str, names: set[str]) -> None:
    assert of_mail(tmp_path, said)[0] == names


def test_a_number_that_nobody_has_is_asked_about(tmp_path: Path) -> None:
    assert of_mail(tmp_path, "Strike no. 19 please.") == (set(), {"corrections-open"})


def test_an_address_by_number_is_followed(tmp_path: Path) -> None:
    path = tmp_path / "list.txt"
    path.write_text(MAIL.format(said="Thanks!"))
    guests, _ = read_list(path, {})
    streets = {home.name: home.address.street.text for home in guests.households
               if home.address and home.address.street}  # fmt: skip
    at_five = next(home for home in guests.households if home.name == "Peter Sloane")
    assert streets["Peter Sloane"] == "19 Quarry Hill"
    assert "Basil" in [person.given for person in at_five.people]


ROWS_OF_BOOK = (
    ("#", "Guest", "Address"),
    (1, "Mr. Ansel Pryor", "40 Gristmill Road, Hanover, NH 03755"),
    (2, "Ms. Dora Lyle", "7 Willow Way, Hanover, NH 03755"),
    (3, "Rev. Thomas Abel", "9 Chapel Street, Keene, NH 03431"),
    (4, "Miss Greta Holm", "15 Spring Street, Keene, NH 03431"),
)


def test_a_row_of_words_on_a_number_is_no_guest(read_rows: Read) -> None:
    guests, findings = read_rows([*ROWS_OF_BOOK, (None, "2 declined"), (None, "3 is out")])
    names = {home.key: home.name for home in guests.households}
    assert len(names) == 4
    waiting = {names[f.household or ""] for f in findings if f.code == "said-elsewhere"}
    assert waiting == {"Dora Lyle", "Thomas Abel"}


@pytest.mark.parametrize(
    ("numbers", "meaning"), [((2, 1, 1, 1), "invited_count"), ((1, 2, 3, 4), "ignore")]
)
def test_numbers_that_count_guests_are_told_from_those_of_rows(
    read_rows: Read, numbers: tuple[int, ...], meaning: str
) -> None:
    header, *rows = ROWS_OF_BOOK
    rows[0] = (1, "Mr. and Mrs. Ansel Pryor", rows[0][2])
    counted = [(number, *row[1:]) for number, row in zip(numbers, rows, strict=True)]
    guests, _ = read_rows([header, *counted])
    assert guests.columns[0].meaning == meaning
