# ruff: noqa: INP001 - a script, run by its path
r"""Write demo_guests.xlsx: an invented couple's list, as messy as real ones are.

Run it from anywhere; the file is written at the top of the checkout, the same bytes each time. The
words stand in the .tsv files beside this script, one a sheet, each row with a mark ("how") for what
a text file can't say:

- `struck`: the whole row is struck through; `struck:WORDS`: only these words of the guest cell;
- `hidden`: the row is hidden; `merged`: its address cell is merged with the one below;
- `comment:WORDS`: a comment hangs on the guest cell.

In a cell, `number:2134` is a number (a ZIP code that lost its zero), `zip:2134` a number shown with
the format 00000, whole digits a number in a column of counts, and `\u00a0` a character by number.
People, streets, boxes and the ends of foreign postcodes are invented; towns, states and ZIP codes
agree (but for the rows that are meant to be wrong), so that a reader of addresses can be tried.
"""

import csv
import io
import re
import sys
import zipfile
from datetime import datetime
from pathlib import Path

from openpyxl import Workbook
from openpyxl.cell.rich_text import CellRichText, TextBlock
from openpyxl.cell.text import InlineFont
from openpyxl.comments import Comment
from openpyxl.styles import Font, PatternFill
from openpyxl.worksheet.worksheet import Worksheet

HERE = Path(__file__).resolve().parent
TARGET = HERE.parent / "demo_guests.xlsx"
WRITTEN = datetime(2025, 3, 9, 20, 15)  # noqa: DTZ001 - a workbook's dates have no zone
ZIP_TIME = (2025, 3, 9, 20, 15, 0)
GUESTS, ADDRESS = 2, 4  # the columns that marks speak of

Row = list[str]


def rows_of(name: str) -> list[Row]:
    """The rows of a .tsv beside this script, the header first, the mark in the first field."""
    with (HERE / name).open(encoding="utf-8", newline="") as stream:
        return list(csv.reader(stream, delimiter="\t", quoting=csv.QUOTE_NONE))


def unescaped(text: str) -> str:
    r"""The text with every `\uXXXX` replaced by its character."""
    return re.sub(r"\\u([0-9a-f]{4})", lambda found: chr(int(found[1], 16)), text)


def put(sheet: Worksheet, row: int, column: int, field: str) -> None:
    """Write one field as the cell that it describes; an empty one is left alone."""
    kind, colon, digits = field.partition(":")
    cell = sheet.cell(row, column)
    if colon and kind in {"number", "zip"}:
        cell.value = int(digits)
        cell.number_format = "00000" if kind == "zip" else "General"
    elif field.isdecimal() and sheet.cell(sheet_header(sheet), column).value == "how many":
        cell.value = int(field)
    elif field:
        cell.value = unescaped(field)
        cell.data_type = "s"


def sheet_header(sheet: Worksheet) -> int:
    """The number of the header row: four where two titles and a blank row stand above it."""
    return 4 if sheet.title == "Guests" else 1


def mark(sheet: Worksheet, row: int, how: str) -> None:
    """Give a row what its mark says."""
    kind, _, words = how.partition(":")
    guest = sheet.cell(row, GUESTS)
    if kind == "struck" and words:
        before, _, after = str(guest.value).partition(words)
        struck = TextBlock(InlineFont(strike=True), words)
        guest.value = CellRichText(*(part for part in (before, struck, after) if part))
    elif kind == "struck":
        for cell in sheet[row]:
            cell.font = Font(strike=True)
    elif kind == "hidden":
        sheet.row_dimensions[row].hidden = True
    elif kind == "merged":
        sheet.merge_cells(start_row=row, end_row=row + 1, start_column=ADDRESS, end_column=ADDRESS)
    elif kind == "comment":
        guest.comment = Comment(words, "Mum", height=80, width=240)


def fill(sheet: Worksheet, rows: list[Row]) -> int:
    """Write header and rows; returns the number of the last row."""
    header = sheet_header(sheet)
    for number, fields in enumerate(rows, start=header):
        for column, field in enumerate(fields[1:], start=1):
            put(sheet, number, column, field)
        if number == header:
            for cell in sheet[number]:
                cell.font = Font(bold=True)
                cell.fill = PatternFill("solid", fgColor="DDE5D8")
    for number, fields in enumerate(rows[1:], start=header + 1):
        mark(sheet, number, fields[0])
    return header + len(rows) - 1


def workbook() -> Workbook:
    """The couple's workbook: the long list, and a sheet of those who were thought of later."""
    book = Workbook()
    book.properties.creator = "Imogen"
    book.properties.created = WRITTEN
    guests = book.worksheets[0]
    guests.title = "Guests"
    guests["A1"] = "Imogen & Theo – GUEST LIST!!"
    guests["A1"].font = Font(bold=True, size=16)
    guests["A2"] = "ours + Mum's + the Farrenbys', last touched after the shower"
    last = fill(guests, rows_of("demo_guests.tsv"))
    total = sum(int(row[10]) for row in rows_of("demo_guests.tsv")[1:] if row[10])
    guests.cell(last + 2, 1, "TOTAL").font = Font(bold=True)
    guests.cell(last + 2, 10, total).font = Font(bold=True)
    widths = (9, 44, 22, 38, 11, 17, 9, 9, 12, 9, 36)
    for letter, width in zip("ABCDEFGHIJK", widths, strict=True):
        guests.column_dimensions[letter].width = width
    fill(book.create_sheet("late adds"), rows_of("demo_late_adds.tsv"))
    return book


def stable_bytes(book: Workbook) -> bytes:
    """The workbook as bytes that depend on nothing but its content.

    openpyxl stamps the hour of saving into the properties and into the archive; both are set back.
    Members are stored, not packed, so that another zlib gives the same bytes.
    """
    saved = io.BytesIO()
    book.save(saved)
    stamp = WRITTEN.strftime("%Y-%m-%dT%H:%M:%SZ")
    out = io.BytesIO()
    with zipfile.ZipFile(saved) as old, zipfile.ZipFile(out, "w", zipfile.ZIP_STORED) as new:
        for name in old.namelist():
            data = old.read(name)
            if name == "docProps/core.xml":
                modified = rb"(<dcterms:modified[^>]*>)[^<]*"
                data = re.sub(modified, rb"\g<1>" + stamp.encode(), data)
            info = zipfile.ZipInfo(name, ZIP_TIME)
            info.external_attr = 0o644 << 16
            new.writestr(info, data)
    return out.getvalue()


def main() -> int:
    """Write the demo list at the top of the checkout."""
    TARGET.write_bytes(stable_bytes(workbook()))
    return 0


if __name__ == "__main__":
    sys.exit(main())
