"""Colours and links: what they say can't be followed, so that they are told, once."""

import zipfile
from collections.abc import Callable, Sequence
from pathlib import Path

import pytest
from openpyxl.formatting.rule import Rule
from openpyxl.styles import PatternFill
from openpyxl.styles.differential import DifferentialStyle
from openpyxl.workbook import Workbook

from addressing.guestlist import read_list
from addressing.records.findings import Finding
from addressing.records.guests import GuestList

Row = Sequence[object]
Read = Callable[..., tuple[GuestList, tuple[Finding, ...]]]
HEADER = ("Name", "Street", "City", "State", "ZIP")
FAMILIES = ("Penhew", "Grayling", "Halvorsby", "Ruddock", "Ashgrove", "Farrenby")
GUESTS = [
    (f"Mr. Tobias {family}", f"{number} Larkmoor Lane", "Litchfield", "CT", "06759")
    for number, family in enumerate(FAMILIES, start=14)
]


Change = Callable[[Workbook], None]


def filled(rows: Sequence[int], colour: str = "FFFFFF00", columns: str = "ABCDE") -> Change:
    def change(book: Workbook) -> None:
        for number in rows:
            for letter in columns:
                cell = book.worksheets[0][f"{letter}{number}"]
                cell.fill = PatternFill("solid", fgColor=colour)

    return change


def notes(read: Read, rows: Sequence[Row], change: Change | None = None) -> list[Finding]:
    return [found for found in read(rows, change)[1] if found.code.endswith("not-followed")]


def test_coloured_rows_are_told_once_with_a_few_of_them(read_rows: Read) -> None:
    (note,) = notes(read_rows, [HEADER, *GUESTS], filled([3, 6]))
    assert "yellow in row 3 (“Mr. Tobias Grayling”), row 6 (“Mr. Tobias Ashgrove”)" in note.text
    assert [str(where) for where in (note.where, *note.also)] == ["Guests!A3", "Guests!A6"]


def test_a_legend_is_quoted(read_rows: Read) -> None:
    def change(book: Workbook) -> None:
        filled([3])(book)
        filled([2], columns="G")(book)

    beside: list[Row] = [HEADER, (*GUESTS[0], None, "not coming"), *GUESTS[1:]]
    (note,) = notes(read_rows, beside, change)
    assert "yellow is “not coming” (Guests!G2)" in note.text
    above: list[Row] = [["Yellow = declined"], HEADER, *GUESTS]
    (note,) = notes(read_rows, above, filled([4], "FF92D050"))
    assert "“Yellow = declined” (Guests!A1)" in note.text


@pytest.mark.parametrize(
    "change",
    [
        None,
        filled([1]),
        filled([2, 4, 6]),
        filled([2, 3, 4, 5, 6, 7]),
        filled([2, 3, 4, 5, 6, 7], columns="B"),
        filled([3], "FFFFFFFF"),
    ],
    ids=["none", "header", "bands", "all", "one column", "white"],
)
def test_a_colour_that_sets_no_row_apart_is_not_told(
    read_rows: Read, change: Change | None
) -> None:
    assert notes(read_rows, [HEADER, *GUESTS], change) == []


def ruled(reference: str, rule: Rule) -> Change:
    def change(book: Workbook) -> None:
        book.worksheets[0].conditional_formatting.add(reference, rule)

    return change


YELLOW = DifferentialStyle(fill=PatternFill("solid", bgColor="FFFFFF00"))


def test_a_rule_that_colours_guests_is_told_in_its_own_words(read_rows: Read) -> None:
    rule = Rule("expression", formula=['$F2="no"'], dxf=YELLOW)
    (note,) = notes(read_rows, [HEADER, *GUESTS], ruled("A2:E7 A9", rule))
    assert 'A2:E7 ($F2="no")' in note.text
    assert note.code == "colour-not-followed"
    assert str(note.where) == "Guests!A2"


@pytest.mark.parametrize(
    ("reference", "rule"),
    [
        ("A2:E7", Rule("expression", formula=["MOD(ROW(),2)=0"], dxf=YELLOW)),
        ("J2:J7", Rule("expression", formula=['$F2="no"'], dxf=YELLOW)),
        ("A20:E30", Rule("expression", formula=['$F2="no"'], dxf=YELLOW)),
        ("E2:E7", Rule("expression", formula=['$F2="no"'])),
    ],
    ids=["bands", "beside", "below", "without a look"],
)  # fmt: skip
def test_a_rule_that_sets_no_guest_apart_is_not_told(
    read_rows: Read, reference: str, rule: Rule
) -> None:
    assert notes(read_rows, [HEADER, *GUESTS], ruled(reference, rule)) == []


EXTENDED = (
    '<extLst><ext xmlns:x14="http://schemas.microsoft.com/office/spreadsheetml/2009/9/main" '
    'uri="{78C0D931-6437-407d-A8EE-F0AAD7539E65}"><x14:conditionalFormattings>'
    '<x14:conditionalFormatting xmlns:xm="http://schemas.microsoft.com/office/excel/2006/main">'
    '<x14:cfRule type="expression" priority="1" id="{1}"><xm:f>Replies!$B2="no"</xm:f>%s'
    "</x14:cfRule><xm:sqref>A2:E4 A7</xm:sqref></x14:conditionalFormatting>"
    "</x14:conditionalFormattings></ext></extLst></worksheet>"
)
STRUCK = "<x14:dxf><font><strike/></font></x14:dxf>"


@pytest.mark.parametrize(("look", "told"), [(STRUCK, ["A2:E4", "A7"]), ("", [])])
def test_a_rule_that_asks_another_sheet_is_told_where_it_has_a_look(
    tmp_path: Path, look: str, told: list[str]
) -> None:
    book = Workbook()
    for row in (HEADER, *GUESTS):
        book.worksheets[0].append(row)
    book.save(tmp_path / "plain.xlsx")
    ruled_list = tmp_path / "ruled.xlsx"
    with zipfile.ZipFile(tmp_path / "plain.xlsx") as old, zipfile.ZipFile(ruled_list, "w") as new:
        for name in old.namelist():
            part = old.read(name).decode()
            if name == "xl/worksheets/sheet1.xml":
                part = part.replace("</worksheet>", EXTENDED % look)
            new.writestr(name, part)
    found = [each for each in read_list(ruled_list, {})[1] if each.code == "colour-not-followed"]
    said = [f'{cells} (Replies!$B2="no")' for cells in told]
    assert [part for each in found for part in said if part in each.text] == said
    assert len(found) == bool(told)


def test_a_link_alone_is_told_and_one_beside_words_is_not(read_rows: Read) -> None:
    rows = [[*HEADER, "Website"], *([*guest, "https://wexcombe.example"] for guest in GUESTS)]
    assert notes(read_rows, rows) == []
    rows[2][1] = "www.maps.example/larkmoor"
    (note,) = notes(read_rows, rows)
    assert (note.code, str(note.where)) == ("link-not-followed", "Guests!B3")
