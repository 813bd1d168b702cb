"""The questions as a workbook: what stands where, what can be chosen, what can be written."""

from collections.abc import Sequence

from openpyxl.cell.cell import Cell, MergedCell
from openpyxl.styles import Alignment, Border, PatternFill, Protection, Side
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.datavalidation import DataValidation
from openpyxl.worksheet.hyperlink import Hyperlink
from openpyxl.worksheet.properties import PageSetupProperties
from openpyxl.worksheet.worksheet import Worksheet

from addressing.questions.sheets import ANSWER, CHANGES, OWN, REF, Sheet
from addressing.questions.spreadsheet import (
    INK,
    LINE,
    SOFT,
    bytes_of,
    empty_workbook,
    font,
    write_head,
    write_text,
)

_CHOICES = "Choices"
_OPEN = PatternFill("solid", fgColor="FFF1F8EC")
_RULE = Border(bottom=Side("thin", color=LINE))
_HEADER_ROW = 2
_LINE_HEIGHT = 15.0
"""Points that one line of a cell takes."""


def workbook_bytes(sheets: Sequence[Sheet]) -> bytes:
    """The workbook as a file's bytes; equal sheets give equal bytes."""
    book = empty_workbook()
    choices = _Choices()
    for sheet in sheets:
        _fill(book.create_sheet(sheet.name), sheet, choices)
    choices.write(book.create_sheet(_CHOICES))
    return bytes_of(book)


class _Choices:
    """The proposed answers on a hidden sheet: a comma in an answer would part a plain list."""

    def __init__(self) -> None:
        self._rows: dict[tuple[str, ...], int] = {}

    def area(self, texts: tuple[str, ...]) -> str:
        row = self._rows.setdefault(texts, len(self._rows) + 1)
        return f"{_CHOICES}!$A${row}:${get_column_letter(len(texts))}${row}"

    def write(self, page: Worksheet) -> None:
        page.sheet_state = "hidden"
        for texts, row in self._rows.items():
            for column, text in enumerate(texts, start=1):
                write_text(page.cell(row, column), text)


def _fill(page: Worksheet, sheet: Sheet, choices: _Choices) -> None:
    width = len(sheet.columns)
    write_text(page.cell(1, 1), sheet.opening)
    page.cell(1, 1).font = font(SOFT, italic=True)
    page.cell(1, 1).alignment = Alignment(wrap_text=True, vertical="center")
    page.merge_cells(start_row=1, start_column=1, end_row=1, end_column=width - 1)
    page.row_dimensions[1].height = (1.4 + sheet.opening.count("\n")) * _LINE_HEIGHT
    for place, (header, wide) in enumerate(sheet.columns, start=1):
        write_head(page.cell(_HEADER_ROW, place), header)
        page.column_dimensions[get_column_letter(place)].width = wide
    page.column_dimensions[get_column_letter(width)].hidden = True
    for number, row in enumerate(sheet.rows, start=_HEADER_ROW + 1):
        if row.heading:
            _group(page, number, row.cells[0], width)
            continue
        asks = bool(row.cells[-1])
        for place, text in enumerate(row.cells, start=1):
            _body(page.cell(number, place), text, sheet.columns[place - 1][0], asks=asks)
            if row.link and text.endswith(f"“{row.link}”"):
                _link(page.cell(number, place), row.link)
        page.row_dimensions[number].height = _height(row.cells, sheet.columns)
    _offer(page, sheet, choices)
    _protect(page)
    page.freeze_panes = f"A{_HEADER_ROW + 1}"
    _to_print(page, width)


def _offer(page: Worksheet, sheet: Sheet, choices: _Choices) -> None:
    """A list to choose from in each answer; other words may be typed where they make sense."""
    headers = [header for header, _ in sheet.columns]
    if ANSWER not in headers:
        return
    letters = get_column_letter(headers.index(ANSWER) + 1)
    offered: dict[tuple[str, ...], list[str]] = {}
    for number, row in enumerate(sheet.rows, start=_HEADER_ROW + 1):
        if row.choices and row.cells[-1]:
            offered.setdefault(row.choices, []).append(f"{letters}{number}")
    for texts, cells in offered.items():
        rule = DataValidation("list", formula1=choices.area(texts), allow_blank=True)
        rule.showErrorMessage = False  # what doesn't fit is asked about, not refused in her face
        rule.sqref.ranges.clear()
        for cell in cells:
            rule.add(cell)
        page.add_data_validation(rule)


def _to_print(page: Worksheet, width: int) -> None:
    page.print_title_rows = f"{_HEADER_ROW}:{_HEADER_ROW}"
    page.page_setup.orientation = "landscape"
    page.page_setup.fitToWidth, page.page_setup.fitToHeight = 1, 0
    page.sheet_properties.pageSetUpPr = PageSetupProperties(fitToPage=True)
    page.sheet_view.showGridLines = False
    page.print_area = f"A1:{get_column_letter(width - 1)}{page.max_row}"


def _group(page: Worksheet, number: int, text: str, width: int) -> None:
    """A heading across the sheet."""
    write_text(page.cell(number, 1), text)
    page.cell(number, 1).font = font(INK, bold=True, size=13)
    page.cell(number, 1).alignment = Alignment(vertical="bottom")
    page.merge_cells(start_row=number, start_column=1, end_row=number, end_column=width - 1)
    page.row_dimensions[number].height = 2 * _LINE_HEIGHT


def _body(cell: Cell | MergedCell, text: str, header: str, *, asks: bool) -> None:
    write_text(cell, text)
    quiet = header in (REF, "In your list", "No.")
    cell.font = font(SOFT if quiet else INK)
    cell.alignment = Alignment(wrap_text=True, vertical="top")
    cell.border = _RULE
    if asks and (header in (ANSWER, OWN) or header in CHANGES):
        cell.fill = _OPEN
        cell.protection = Protection(locked=False)


def _link(cell: Cell | MergedCell, sheet: str) -> None:
    """A click leads to the sheet."""
    cell.hyperlink = Hyperlink(cell.coordinate, location=f"'{sheet}'!A1", display=None)
    cell.font = font(INK, link=True)


def _protect(page: Worksheet) -> None:
    """Only what is to be filled in can be written; nothing is secret, so there is no password.

    Widths, heights and looks stay free.
    """
    page.protection.sheet = True
    page.protection.formatCells = False
    page.protection.formatColumns = False
    page.protection.formatRows = False


def _height(cells: tuple[str, ...], columns: tuple[tuple[str, float], ...]) -> float:
    """Points for the cell with the most lines, by the characters that fit in a line."""
    lines = [
        sum(max(1, -(-len(part) // max(1, int(wide)))) for part in text.split("\n"))
        for text, (header, wide) in zip(cells, columns, strict=True)
        if header != REF
    ]
    return _LINE_HEIGHT * min(max(lines), 20) + 4
