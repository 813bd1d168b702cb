"""What a workbook shows to a person reaches the grid, and what a plain reading loses does too."""

import datetime as dt
import io
import re
import zipfile
from collections.abc import Callable
from pathlib import Path

import openpyxl
import pytest
from openpyxl.cell.rich_text import CellRichText, TextBlock
from openpyxl.cell.text import InlineFont
from openpyxl.comments import Comment
from openpyxl.styles import Font, PatternFill
from openpyxl.workbook import Workbook

from addressing.faults import Fault
from addressing.guestlist.files.opening import open_list
from addressing.guestlist.files.workbook import read_workbook
from addressing.guestlist.grid import Cell, Grid, Merge
from addressing.where import Where

ReadRows = Callable[..., tuple[Grid, ...]]


def cell_at(grid: Grid, row: int, column: int) -> Cell:
    found = next(r for r in grid.rows if r.number == row).cell(column)
    assert found is not None
    return found


def test_a_text_keeps_its_cell(grids_of: ReadRows) -> None:
    (grid,) = grids_of([["Name"], [], ["Tobias  Penhew"]])
    assert [row.number for row in grid.rows] == [1, 3]
    assert cell_at(grid, 3, 0) == Cell("Tobias Penhew", Where("list.xlsx", "Guests", "A3"))


@pytest.mark.parametrize(
    ("value", "number_format", "text", "shown"),
    [
        (2116, "General", "2116", None),
        (2116, "00000", "2116", "02116"),
        (2116.0, "General", "2116", None),
        (21160123, "[<=99999]00000;00000-0000", "21160123", "02116-0123"),
        (21160123, "00000\\-0000", "21160123", "02116-0123"),
        (12.5, "0.00", "12.5", None),
        (60201, "00000", "60201", None),
        (123456789012, "General", "123456789012", None),
    ],
)
def test_a_number_is_read_as_a_person_sees_it(
    grids_of: ReadRows, value: float, number_format: str, text: str, shown: str | None
) -> None:
    def style(book: Workbook) -> None:
        book.worksheets[0]["A1"].number_format = number_format

    (grid,) = grids_of([[value]], style)
    cell = cell_at(grid, 1, 0)
    assert (cell.text, cell.kind, cell.shown) == (text, "number", shown)


def test_a_date_keeps_its_iso_text_and_what_its_format_shows(grids_of: ReadRows) -> None:
    def style(book: Workbook) -> None:
        book.worksheets[0]["A1"].number_format = "d-mmm"

    (grid,) = grids_of([[dt.datetime(2026, 12, 3)]], style)  # noqa: DTZ001 - a cell has no zone
    cell = cell_at(grid, 1, 0)
    assert (cell.text, cell.kind, cell.shown) == ("2026-12-03", "date", "3-Dec")


def test_a_formula_without_a_value_is_never_a_text(grids_of: ReadRows) -> None:
    (grid,) = grids_of([["=A2&B2", True, "Tobias"]])
    assert [(c.text, c.kind, c.shown) for c in grid.rows[0].cells if c] == [
        ("", "formula", "=A2&B2"),
        ("TRUE", "boolean", None),
        ("Tobias", "text", None),
    ]


def stored(path: Path, pattern: bytes, new: bytes) -> Path:
    """Put bytes into the first sheet, as a spreadsheet program would have stored them."""
    changed = path.with_name("stored.xlsx")
    with zipfile.ZipFile(path) as source, zipfile.ZipFile(changed, "w") as target:
        for name in source.namelist():
            data = source.read(name)
            if name.endswith("sheet1.xml"):
                data, times = re.subn(pattern, new, data)
                assert times == 1
            target.writestr(name, data)
    return changed


def test_a_formula_gives_its_stored_value(make_book: Callable[..., Path]) -> None:
    changed = stored(
        make_book([["x"]]),
        rb"<row .*</row>",
        b'<row r="1"><c r="A1" t="str"><f>B1</f><v>Tobias</v></c>'
        b'<c r="B1" t="str"><f>C1</f><v></v></c><c r="C1" t="e"><f>D1</f><v>#REF!</v></c></row>',
    )
    (grid,), _, _ = read_workbook(open_list(changed))
    first, second, third = grid.rows[0].cells
    assert first is not None
    assert first.text == "Tobias"
    assert second is None
    assert third is not None
    assert (third.text, third.kind, third.shown) == ("", "error", "#REF!")


def test_a_struck_cell_keeps_its_words_and_says_so(grids_of: ReadRows) -> None:
    def strike(book: Workbook) -> None:
        page = book.worksheets[0]
        for name in ("A1", "B1", "A2"):
            page[name].font = Font(strike=True)

    (grid,) = grids_of([["Tobias Penhew", "ME"], ["Annika", "NY"]], strike)
    assert [row.struck for row in grid.rows] == [True, False]
    assert cell_at(grid, 1, 0).struck == ("Tobias Penhew",)
    assert cell_at(grid, 1, 0).wholly_struck
    assert not cell_at(grid, 2, 1).struck


def test_words_struck_in_part_of_a_cell_are_taken_out_and_listed(grids_of: ReadRows) -> None:
    struck = InlineFont(strike=True)
    mixed = CellRichText("Tobias ", TextBlock(struck, "and Bea"), " Penhew")
    whole = CellRichText(TextBlock(struck, "Annika "), TextBlock(struck, "Vale"))
    (grid,) = grids_of([[mixed, whole]])
    assert (cell_at(grid, 1, 0).text, cell_at(grid, 1, 0).struck) == ("Tobias Penhew", ("and Bea",))
    assert cell_at(grid, 1, 1).struck == ("Annika Vale",)
    assert not grid.rows[0].struck


def test_hidden_rows_columns_and_sheets_are_flagged(grids_of: ReadRows) -> None:
    def hide(book: Workbook) -> None:
        page = book.worksheets[0]
        page.row_dimensions[2].hidden = True
        page.column_dimensions.group("B", "C", hidden=True)
        book.create_sheet("Old").append(["Name"])
        book["Old"].sheet_state = "veryHidden"

    guests, old = grids_of([["Name", "x", "y", "z"], ["Tobias"], ["Annika"]], hide)
    assert [row.hidden for row in guests.rows] == [False, True, False]
    assert guests.hidden_columns == {1, 2}
    assert (guests.hidden, old.hidden) == (False, True)


def test_a_note_stays_beside_its_cell_even_an_empty_one(grids_of: ReadRows) -> None:
    def write(book: Workbook) -> None:
        page = book.worksheets[0]
        page["A1"].comment = Comment("moved in  May", "Bea")
        page["B1"].comment = Comment(
            "[Threaded comment]\n\nYour version …\n\nComment:\n    new", ""
        )

    (grid,) = grids_of([["Tobias"]], write)
    assert cell_at(grid, 1, 0).note == "moved in May"
    assert (cell_at(grid, 1, 1).text, cell_at(grid, 1, 1).note) == ("", "new")
    assert len(grid.rows[0].filled) == 1


def test_a_cell_merged_downwards_gives_its_value_to_each_row(grids_of: ReadRows) -> None:
    def merge(book: Workbook) -> None:
        book.worksheets[0].merge_cells("B1:C3")
        book.worksheets[0].merge_cells("A5:B5")

    rows = [["Tobias", "12 Larkmoor Lane"], ["Annika"], ["Bea"], [], ["Title across"]]
    (grid,) = grids_of(rows, merge)
    cells = [cell_at(grid, number, 1) for number in (1, 2, 3)]
    assert {cell.text for cell in cells} == {"12 Larkmoor Lane"}
    assert {cell.where.cell for cell in cells} == {"B1"}
    assert [cell.spread for cell in cells] == [False, True, True]
    assert Merge(1, 1, 3, 2) in grid.merges
    assert grid.rows[-1].cells == (cell_at(grid, 5, 0),)


def test_escaped_control_characters_are_no_words(grids_of: ReadRows) -> None:
    (grid,) = grids_of([["Tobias_x000D_\nPenhew", "under_x0041_score"]])
    assert cell_at(grid, 1, 0).text == "Tobias\nPenhew"
    assert cell_at(grid, 1, 1).text == "under_x0041_score"


def test_odd_styles_do_not_hide_the_strikes(make_book: Callable[..., Path]) -> None:
    def style(book: Workbook) -> None:
        book.worksheets[0]["A1"].font = Font(strike=True)
        book.worksheets[0]["B1"].number_format = "00000"

    path = make_book([["Tobias", 2116]], style)
    odd = path.with_name("odd.xlsx")
    with zipfile.ZipFile(path) as source, zipfile.ZipFile(odd, "w") as target:
        for name in source.namelist():
            data = source.read(name)
            if name == "xl/styles.xml":
                data = data.replace(b"<fills", b"<fills><fill><oddFill/></fill></fills><fills")
                data = data.replace(b'patternType="gray125"', b'patternType="none-such"')
            target.writestr(name, data)
    with pytest.raises((TypeError, ValueError)):
        openpyxl.load_workbook(io.BytesIO(odd.read_bytes()))
    (grid,), findings, _ = read_workbook(open_list(odd))
    assert not findings
    assert cell_at(grid, 1, 0).wholly_struck
    assert cell_at(grid, 1, 1).shown == "02116"


@pytest.mark.parametrize(
    ("part", "old", "new"),
    [
        (
            "xl/worksheets/sheet1.xml",
            b"</sheetData>",
            (
                b'</sheetData><dataValidations count="1"><dataValidation type="odd" sqref="A1"/>'
                b"</dataValidations>"
            ),
        ),
        (
            "xl/worksheets/sheet1.xml",
            b"<pageMargins",
            b'<pageSetup orientation="odd"/><pageMargins',
        ),
        (
            "xl/workbook.xml",
            b"</sheets>",
            b'</sheets><definedNames><definedName odd="1">x</definedName></definedNames>',
        ),
    ],
    ids=["input rule", "page", "named range"],
)
def test_an_odd_part_that_a_list_need_not_have_hides_nothing(
    make_book: Callable[..., Path], part: str, old: bytes, new: bytes
) -> None:
    def style(book: Workbook) -> None:
        book.worksheets[0]["A1"].font = Font(strike=True)
        book.worksheets[0].merge_cells("B1:B2")
        book.worksheets[0].row_dimensions[2].hidden = True
        book.worksheets[0]["A2"].comment = Comment("new", "")

    path = make_book([["Tobias", "12 Larkmoor Lane"], ["Bea"]], style)
    odd = path.with_name("odd.xlsx")
    with zipfile.ZipFile(path) as source, zipfile.ZipFile(odd, "w") as target:
        for name in source.namelist():
            data = source.read(name)
            assert name != part or old in data
            target.writestr(name, data.replace(old, new) if name == part else data)
    with pytest.raises((TypeError, ValueError)):
        openpyxl.load_workbook(io.BytesIO(odd.read_bytes()))
    (grid,), findings, _ = read_workbook(open_list(odd))
    assert findings == ()
    assert cell_at(grid, 1, 0).wholly_struck
    assert cell_at(grid, 2, 1).spread
    assert cell_at(grid, 2, 0).note == "new"
    assert grid.rows[1].hidden


def test_styles_that_cannot_be_read_are_asked_about(make_book: Callable[..., Path]) -> None:
    path = make_book([["Tobias"]])
    odd = path.with_name("odd.xlsx")
    with zipfile.ZipFile(path) as source, zipfile.ZipFile(odd, "w") as target:
        for name in source.namelist():
            target.writestr(name, b"<x" if name == "xl/styles.xml" else source.read(name))
    (grid,), findings, _ = read_workbook(open_list(odd))
    assert cell_at(grid, 1, 0).text == "Tobias"
    assert [(finding.code, finding.holds) for finding in findings] == [("styles-not-read", False)]


def test_a_workbook_without_rows_is_list_empty(make_book: Callable[..., Path]) -> None:
    with pytest.raises(Fault) as caught:
        read_workbook(open_list(make_book([])))
    assert caught.value.code == "list-empty"


def test_a_workbook_whose_sheet_is_broken_is_damaged(make_book: Callable[..., Path]) -> None:
    path = stored(make_book([["Tobias"]]), b"</sheetData>", b"</sheetDate>")
    with pytest.raises(Fault) as caught:
        read_workbook(open_list(path))
    assert caught.value.code == "list-damaged"
    assert "save it again" in caught.value.mend


def test_macros_are_told_and_never_run(make_book: Callable[..., Path]) -> None:
    path = make_book([["Name"], ["Tobias Penhew"]], name="list.xlsm")
    with zipfile.ZipFile(path, "a") as archive:
        archive.writestr("xl/vbaProject.bin", b"Sub Auto_Open")
    (grid,), findings, _ = read_workbook(open_list(path))
    assert [row.filled[0].text for row in grid.rows] == ["Name", "Tobias Penhew"]
    assert [(finding.code, finding.severity.value) for finding in findings] == [
        ("macros-not-run", "note")
    ]


def test_a_strict_workbook_is_read_as_the_same_list(make_book: Callable[..., Path]) -> None:
    # ISO/IEC 29500-1 (strict) differs in the names of its spaces, and stores dates as ISO 8601.
    spaces = (
        (b"http://schemas.openxmlformats.org/spreadsheetml/2006/main", b"spreadsheetml/main"),
        (
            b"http://schemas.openxmlformats.org/officeDocument/2006/relationships",
            b"officeDocument/relationships",
        ),
        (b"http://schemas.openxmlformats.org/drawingml/2006/main", b"drawingml/main"),
    )

    def style(book: Workbook) -> None:
        book.worksheets[0]["A2"].font = Font(strike=True)
        book.worksheets[0].row_dimensions[2].hidden = True
        book.worksheets[0]["B2"].comment = Comment("moved", "")

    path = make_book([["Name", "Street"], ["Tobias Penhew", dt.date(2026, 1, 2)]], style)
    strict = path.with_name("strict.xlsx")
    with zipfile.ZipFile(path) as source, zipfile.ZipFile(strict, "w") as target:
        for name in source.namelist():
            data = source.read(name)
            for old, new in spaces:
                data = data.replace(old, b"http://purl.oclc.org/ooxml/" + new)
            data = re.sub(
                rb'(<c r="B2"[^>]*) t="[nd]"([^>]*><v>)[^<]*', rb'\1 t="d"\g<2>2026-01-02', data
            )
            target.writestr(name, data)
    ((one,), *_), ((other,), *_) = (read_workbook(open_list(p)) for p in (path, strict))
    said = [
        [(c.text, c.kind, c.struck, c.note, r.hidden) for r in grid.rows for c in r.filled]
        for grid in (one, other)
    ]
    assert said[0] == said[1]
    assert said[1][2:] == [
        ("Tobias Penhew", "text", ("Tobias Penhew",), None, True),
        ("2026-01-02", "date", (), "moved", True),
    ]


def test_a_conversation_is_read_with_its_replies(make_book: Callable[..., Path]) -> None:
    def write(book: Workbook) -> None:
        book.worksheets[0]["A1"].comment = Comment("[Threaded comment]\n\nComment:\n old", "")

    path = make_book([["Tobias"]], write)
    listed = "xl/worksheets/_rels/sheet1.xml.rels"
    kind = "http://schemas.microsoft.com/office/2017/10/relationships/threadedComment"
    link = f'<Relationship Id="t" Type="{kind}" Target="/xl/threadedComments/t1.xml"/>'
    space = "http://schemas.microsoft.com/office/spreadsheetml/2018/threadedcomments"
    said = "".join(
        f'<threadedComment ref="A1" id="{n}"><text>{words}</text></threadedComment>'
        for n, words in enumerate(("is he coming?", "no"))
    )
    with_thread = path.with_name("thread.xlsx")
    with zipfile.ZipFile(path) as source, zipfile.ZipFile(with_thread, "w") as target:
        for name in source.namelist():
            data = source.read(name)
            if name == listed:
                data = data.replace(b"</Relationships>", f"{link}</Relationships>".encode())
            target.writestr(name, data)
        thread = f'<ThreadedComments xmlns="{space}">{said}</ThreadedComments>'
        target.writestr("xl/threadedComments/t1.xml", thread)
    (grid,), _, _ = read_workbook(open_list(with_thread))
    assert cell_at(grid, 1, 0).note == "is he coming?\nno"


def test_rows_without_height_and_columns_without_width_are_hidden(grids_of: ReadRows) -> None:
    def flatten(book: Workbook) -> None:
        book.worksheets[0].row_dimensions[2].height = 0.75
        book.worksheets[0].column_dimensions["B"].width = 0.1

    (grid,) = grids_of([["Name", "x"], ["Tobias", "y"]], flatten)
    assert [row.hidden for row in grid.rows] == [False, True]
    assert grid.hidden_columns == {1}


@pytest.mark.parametrize(
    ("font", "fill", "number_format", "unseen"),
    [
        ("FFFFFFFF", None, "General", True),
        ("FFFFFF00", "FFFFFF00", "General", True),
        ("FFFFFFFF", "FF000000", "General", False),
        ("FF000000", None, "General", False),
        (None, None, ";;;", True),
    ],
    ids=["white on white", "yellow on yellow", "white on black", "black", "a format for nothing"],
)
def test_text_that_nobody_sees_is_flagged(
    grids_of: ReadRows,
    font: str | None,
    fill: str | None,
    number_format: str,
    unseen: bool,  # noqa: FBT001
) -> None:
    def style(book: Workbook) -> None:
        cell = book.worksheets[0]["A1"]
        cell.font = Font(color=font)
        if fill:
            cell.fill = PatternFill("solid", fgColor=fill)
        cell.number_format = number_format

    (grid,) = grids_of([["Tobias"]], style)
    assert cell_at(grid, 1, 0).unseen is unseen
