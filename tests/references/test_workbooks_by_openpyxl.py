"""Our reading of workbooks beside openpyxl's, an independent library: the same cells, no other."""

import datetime as dt
from collections.abc import Callable
from pathlib import Path

import openpyxl
import pytest
from openpyxl.cell.rich_text import CellRichText
from openpyxl.styles import Font
from openpyxl.workbook import Workbook

from addressing.guestlist.files.formats import moment_text, number_text
from addressing.guestlist.files.kinds import read_grids
from addressing.guestlist.files.opening import open_list
from addressing.guestlist.repair import repair_text
from addressing.where import Where

NOON = dt.datetime(2026, 5, 4, 12)  # noqa: DTZ001 - a cell has no zone
DEMO = Path(__file__).parents[2] / "demo_guests.xlsx"
Seen = dict[tuple[str, str], tuple[str, bool, bool]]


def many_kinds(path: Path) -> Path:
    """A workbook with numbers, dates, boxes, hidden rows and strikes, all over two sheets."""
    book = Workbook()
    page = book.worksheets[0]
    for number in range(1, 60):
        page.append(
            [
                f"Guest  {number} ", number * 37, number / 8, dt.date(2026, 1, 1 + number % 28),
                NOON + dt.timedelta(minutes=number, seconds=7), dt.time(9, number), number % 2 == 0,
                None if number % 3 else "Larkmoor", "1e5", "007", -number, 10**number,
            ]
        )  # fmt: skip
        page.row_dimensions[number].hidden = number % 7 == 0
        page.cell(number, 1).font = Font(strike=number % 5 == 0)
        page.cell(number, 2).number_format = "00000"
    book.create_sheet("Second").append(["x", "ß", "דן", "José\nPeña"])
    book.save(path)
    return path


def by_openpyxl(path: Path) -> Seen:
    """Cell → text, struck, hidden."""
    seen: Seen = {}
    for sheet in openpyxl.load_workbook(path, rich_text=True).worksheets:
        for row in sheet.iter_rows():
            hidden = bool(sheet.row_dimensions[row[0].row or 0].hidden)
            for cell in row:
                text = text_of(cell.value)
                if text and cell.data_type != "f":
                    seen[sheet.title, cell.coordinate] = (text, bool(cell.font.strike), hidden)
    return seen


def text_of(value: object) -> str:
    if isinstance(value, bool):
        return "TRUE" if value else "FALSE"
    if isinstance(value, int | float):
        return number_text(value)
    if isinstance(value, dt.date | dt.time):
        return moment_text(value)
    if isinstance(value, CellRichText):
        return ""  # words in several fonts have tests of their own
    return repair_text(str(value or ""), Where("x"))[0]


def by_us(path: Path) -> Seen:
    """The same, by our reading."""
    grids = read_grids(open_list(path))[0]
    found = [(grid, cell, row.hidden) for grid in grids for row in grid.rows for cell in row.filled]
    return {
        (grid.sheet or "", cell.where.cell or ""): (cell.text, cell.wholly_struck, hidden)
        for grid, cell, hidden in found
        if cell.text
    }


@pytest.mark.parametrize("make", [lambda _: DEMO, many_kinds], ids=["demo", "many kinds"])
def test_both_see_the_same_cells(tmp_path: Path, make: Callable[[Path], Path]) -> None:
    path = make(tmp_path / "list.xlsx")
    ours, theirs = by_us(path), by_openpyxl(path)
    assert theirs
    assert {cell: ours.get(cell) for cell in theirs} == theirs


def test_we_see_no_cell_that_is_not_there(tmp_path: Path) -> None:
    path = many_kinds(tmp_path / "list.xlsx")
    assert by_us(path).keys() == by_openpyxl(path).keys()
