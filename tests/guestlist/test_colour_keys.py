"""A key to a list's colours is followed: its words are remarks of the rows filled so."""

from collections.abc import Callable, Sequence

import pytest
from openpyxl.styles import Font, PatternFill
from openpyxl.workbook import Workbook

from addressing.guestlist.tables.colour_keys import is_colour_key
from addressing.records.findings import Finding
from addressing.records.guests import GuestList
from addressing.tables import table

Read = Callable[..., tuple[GuestList, tuple[Finding, ...]]]
HEADER = ("Name", "Street", "City", "State", "ZIP")
FAMILIES = ("Penhew", "Grayling", "Halvorsby", "Ruddock", "Ashgrove", "Farrenby")
GUESTS = [
    (f"Mr. Tobias {family}", f"{number} Larkmoor Lane", "Litchfield", "CT", "06759")
    for number, family in enumerate(FAMILIES, start=14)
]
YELLOW, GREEN, GOLD, PALE = "FFFFFF00", "FF92D050", "FFFFC000", "FFFFC7CE"


def coloured(rows: dict[int, str], *, ink: bool = False) -> Callable[[Workbook], None]:
    def change(book: Workbook) -> None:
        for number, colour in rows.items():
            for letter in "ABCDE":
                cell = book.worksheets[0][f"{letter}{number}"]
                if ink:
                    cell.font = Font(color=colour)
                else:
                    cell.fill = PatternFill("solid", fgColor=colour)

    return change


def told(read: Read, rows: Sequence[Sequence[object]], change: object) -> dict[str, set[str]]:
    """Code → the cells that it stands at, of what colours may say."""
    codes = ("marker-in-list", "remark", "legend", "colour-not-followed", "rows-not-guests")
    found: dict[str, set[str]] = {}
    for each in read(rows, change)[1]:
        if each.code in codes:
            found.setdefault(each.code, set()).add(str(each.where.cell))
    return found


@pytest.mark.parametrize("ink", [False, True])
def test_words_over_the_list_hold_the_rows_in_their_colour(read_rows: Read, ink: bool) -> None:  # noqa: FBT001
    rows = [["Crossed out = not inviting. Yellow = ask Dad first"], HEADER, *GUESTS]
    found = told(read_rows, rows, coloured({4: YELLOW, 6: YELLOW}, ink=ink))
    assert found == {"marker-in-list": {"A4", "A6"}, "legend": {"A1"}}


def test_words_aside_are_no_remark_of_the_row_beside_them(read_rows: Read) -> None:
    beside: list[tuple[object, ...]] = [(*guest, None, None) for guest in GUESTS]
    beside[0] = (*GUESTS[0], None, "yellow = B list, hold")
    beside[1] = (*GUESTS[1], None, "green: I called, address is right")
    found = told(read_rows, [HEADER, *beside], coloured({5: YELLOW, 6: GREEN}))
    assert (found["marker-in-list"], found["remark"]) == ({"A5"}, {"A6"})
    assert "colour-not-followed" not in found


def test_the_note_says_which_colour_was_read_as_which_words(read_rows: Read) -> None:
    rows = [["yellow = ask Dad first"], HEADER, *GUESTS]
    _, findings = read_rows(rows, coloured({4: YELLOW, 6: YELLOW}))
    (note,) = [each for each in findings if each.code == "legend"]
    assert "yellow as “ask Dad first” (Guests!A1), 2 rows" in note.text


def test_gold_beside_yellow_is_orange_and_alone_it_is_either(read_rows: Read) -> None:
    rows = [["yellow = declined, orange = cousins"], HEADER, *GUESTS]
    found = told(read_rows, rows, coloured({4: YELLOW, 6: GOLD}))
    assert (found["marker-in-list"], found["remark"]) == ({"A4"}, {"A6"})
    found = told(read_rows, rows, coloured({6: GOLD}))
    assert "marker-in-list" not in found
    assert "colour-not-followed" in found


def test_a_colour_without_a_key_or_with_two_is_told_as_before(read_rows: Read) -> None:
    rows = [["yellow = declined"], HEADER, *GUESTS]
    assert set(told(read_rows, rows, coloured({4: GREEN}))) == {"colour-not-followed"}
    rows = [["yellow = declined"], ["yellow = cousins"], HEADER, *GUESTS]
    found = told(read_rows, rows, coloured({5: YELLOW}))
    assert "colour-not-followed" in found
    assert "marker-in-list" not in found


def test_rows_of_keys_below_the_list_are_no_guests(read_rows: Read) -> None:
    rows = [HEADER, *GUESTS, ["pink means declined"]]
    guest_list, _ = read_rows(rows, coloured({3: PALE}))
    assert len(guest_list.households) == len(GUESTS)
    assert told(read_rows, rows, coloured({3: PALE})) == {
        "marker-in-list": {"A3"}, "legend": {"A8"},
    }  # fmt: skip


def with_sheet(
    name: str, rows: Sequence[Sequence[object]], shades: dict[str, str], own: dict[int, str]
) -> Callable[[Workbook], None]:
    """A second sheet with rows and filled cells beside guests whose rows have colours."""

    def change(book: Workbook) -> None:
        coloured(own)(book)
        sheet = book.create_sheet(name)
        for row in rows:
            sheet.append(list(row))
        for cell, colour in shades.items():
            sheet[cell].fill = PatternFill("solid", fgColor=colour)

    return change


@pytest.mark.parametrize(
    ("name", "rows", "shades"),
    [
        ("Key", [["yellow = not invited"], ["green = ask about the dog"]], {}),
        ("Sheet2", [["Yellow = not invited. Green = ask about the dog"]], {}),
        ("Legend", [["Colour", "Meaning"], ["Yellow", "not invited"], ["Green", "neighbours"]], {}),
        ("Colour code", [[None, "not invited"], [None, "neighbours"]], {"A1": YELLOW, "A2": GREEN}),
        ("Key", [["not invited"], ["neighbours"]], {"A1": YELLOW, "A2": GREEN}),
    ],
)
def test_a_key_on_a_sheet_of_its_own_is_followed(
    read_rows: Read, name: str, rows: Sequence[Sequence[object]], shades: dict[str, str]
) -> None:
    change = with_sheet(name, rows, shades, {3: YELLOW, 5: GREEN})
    found = told(read_rows, [HEADER, *GUESTS], change)
    assert (found["marker-in-list"], found["remark"]) == ({"A3"}, {"A5"})
    assert "colour-not-followed" not in found


def test_the_heading_of_a_sheet_of_keys_is_no_key(read_rows: Read) -> None:
    rows: list[Sequence[object]] = [["Colour", "Meaning"], [None, "not invited"]]
    shades = {"A1": GREEN, "B1": GREEN, "A2": YELLOW}
    change = with_sheet("Legend", rows, shades, {3: YELLOW, 5: GREEN})
    found = told(read_rows, [HEADER, *GUESTS], change)
    assert found["marker-in-list"] == {"A3"}
    assert "remark" not in found


def test_a_sheet_of_guests_is_no_key_to_another(read_rows: Read) -> None:
    rows: list[Sequence[object]] = [
        HEADER,
        ["Mr. Elio Larkmoor", "2 Elm Row", "Litchfield", "CT", "06759"],
    ]
    rows.append(["yellow = not invited"])
    change = with_sheet("Family", rows, {}, {3: YELLOW})
    assert "marker-in-list" not in told(read_rows, [HEADER, *GUESTS], change)


def test_a_swatch_beside_the_list_is_a_key(read_rows: Read) -> None:
    beside: list[tuple[object, ...]] = [(*guest, None, None, None) for guest in GUESTS]
    beside[0] = (*GUESTS[0], None, None, "not invited")

    def change(book: Workbook) -> None:
        coloured({5: YELLOW})(book)
        book.worksheets[0]["G2"].fill = PatternFill("solid", fgColor=YELLOW)

    found = told(read_rows, [HEADER, *beside], change)
    assert found["marker-in-list"] == {"A5"}


@pytest.mark.parametrize("row", table("colour_words"), ids=lambda row: row["word"])
def test_a_colour_s_word_opens_a_key_and_a_name_does_not(row: dict[str, str]) -> None:
    assert is_colour_key(row["example"])
    assert not is_colour_key(row["counter_example"])
