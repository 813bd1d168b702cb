"""A key to a list's marks is followed: its words are remarks of the names so marked."""

from collections.abc import Callable, Sequence

import pytest
from openpyxl.workbook import Workbook

from addressing.guestlist.tables.mark_keys import is_mark_key
from addressing.records.findings import Finding
from addressing.records.guests import GuestList, Kind

Read = Callable[..., tuple[GuestList, tuple[Finding, ...]]]
HEADER = ("Name", "Address")
NAMES = ("Tobias Penhew*", "*Ada Grayling", "Elio Halvorsby (**)", "Maren Ruddock")
GUESTS = [
    (name, f"{number} Larkmoor Lane, Litchfield, CT 06759") for number, name in enumerate(NAMES, 14)
]


def names(read: Read, rows: Sequence[Sequence[object]], change: object = None) -> list[str]:
    """Each household's people, a companion as +, a held one in brackets."""
    guest_list, findings = read(rows, change)
    held = {each.household for each in findings if each.holds}
    found = []
    for household in guest_list.households:
        people = [
            "+" if p.kind is Kind.GUEST else f"{p.given} {p.family}" for p in household.people
        ]
        said = " ".join(people)
        found.append(f"({said})" if household.key in held else said)
    return found


READ = [
    "Tobias Penhew +",
    "Ada Grayling +",
    "(Elio Halvorsby)",
    "Maren Ruddock",
]


@pytest.mark.parametrize(
    "keys",
    [
        [["* = plus one"], ["** = not invited"]],
        [["* plus one"], ["** not invited"]],
        [["(*) - plus one"], ["(**): not invited"]],
    ],
)
def test_a_key_below_the_list_gives_its_words_to_the_names_so_marked(
    read_rows: Read, keys: list[list[str]]
) -> None:
    assert names(read_rows, [HEADER, *GUESTS, *keys]) == READ


@pytest.mark.parametrize(
    ("sheet", "keys"),
    [
        ("Key", [["* = plus one"], ["** = not invited"]]),
        ("Notes", [["* = plus one"], ["** = not invited"]]),
        ("Legend", [["Mark", "Meaning"], ["*", "plus one"], ["**", "not invited"]]),
    ],
)
def test_a_key_on_a_sheet_of_its_own_does_too(
    read_rows: Read, sheet: str, keys: list[list[str]]
) -> None:
    def change(book: Workbook) -> None:
        page = book.create_sheet(sheet)
        for row in keys:
            page.append(row)

    assert names(read_rows, [HEADER, *GUESTS], change) == READ


def test_a_mark_that_nothing_explains_is_asked_about_as_before(read_rows: Read) -> None:
    assert names(read_rows, [HEADER, *GUESTS])[0] == "(Tobias Penhew*)"


def test_two_words_for_one_mark_explain_nothing(read_rows: Read) -> None:
    rows = [HEADER, *GUESTS, ["* = plus one"], ["* = cousins"]]
    assert names(read_rows, rows)[0].startswith("(")


def test_the_note_says_which_mark_was_read_as_which_words(read_rows: Read) -> None:
    _, findings = read_rows([HEADER, *GUESTS, ["* = plus one"]], None)
    (note,) = [each for each in findings if each.code == "legend"]
    assert "* as “plus one” (Guests!A6), 2 rows" in note.text


@pytest.mark.parametrize(
    "text", ["* Ada Orr", "*ada orr", "# 12 elm row", "Ada * Orr", "* 4 guests"]
)
def test_a_marked_guest_is_no_key(text: str) -> None:
    assert not is_mark_key(text)


def test_codes_that_another_sheet_explains_are_read_in_words(read_rows: Read) -> None:
    def change(book: Workbook) -> None:
        page = book.create_sheet("Key")
        page.append(["A", "invited"])
        page.append(["X", "not invited"])

    doors = [(name.strip("*() "), door) for name, door in GUESTS]
    rows = [(*HEADER, "Status"), *((*door, "A") for door in doors[:3]), (*doors[3], "X")]
    assert names(read_rows, rows, change)[3] == "(Maren Ruddock)"
