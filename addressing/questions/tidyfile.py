"""Tidy tables as bytes: a workbook with a sheet for each, or the first one as CSV.

No cell can become a formula. In the workbook each is typed as text, ZIP codes too. In CSV a field
gets an apostrophe before it that begins with a character which spreadsheet programs take for a
formula's: = + - @ and tab (OWASP, Application Security Verification Standard 5.0, 1.2.10), carriage
return, line feed and the full-width forms of the first four (OWASP, "CSV Injection", from memory).
"""

import csv
import io
from collections.abc import Sequence

from openpyxl.styles import Alignment
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.worksheet import Worksheet

from addressing.questions.spreadsheet import (
    INK,
    bytes_of,
    empty_workbook,
    font,
    plain,
    write_head,
    write_text,
)
from addressing.questions.tidy import Tidy

DANGEROUS = tuple("=+-@\t\r\n\uff1d\uff0b\uff0d\uff20")
"""First characters that a spreadsheet may take for a formula's."""
_WIDEST, _NARROWEST = 44, 9


def workbook_of(tables: Sequence[Tidy]) -> bytes:
    """All tables, a sheet each; equal tables give equal bytes."""
    book = empty_workbook()
    for table in tables:
        _fill(book.create_sheet(table.name), table)
    return bytes_of(book)


def csv_of(table: Tidy) -> bytes:
    """One table as CSV (RFC 4180): UTF-8 with its mark, every field in quotes, CRLF."""
    stream = io.StringIO()
    writer = csv.writer(stream, quoting=csv.QUOTE_ALL, lineterminator="\r\n")
    writer.writerow(table.headings)
    writer.writerows([harmless(field) for field in row] for row in table.rows)
    return stream.getvalue().encode("utf-8-sig", "replace")


def harmless(text: str) -> str:
    """A field that no spreadsheet takes for a formula.

    >>> harmless("=1+1"), harmless("Wexcombe")
    ("'=1+1", 'Wexcombe')
    """
    words = plain(text)
    return f"'{words}" if words.startswith(DANGEROUS) else words


def _fill(page: Worksheet, table: Tidy) -> None:
    for place, heading in enumerate(table.headings, start=1):
        write_head(page.cell(1, place), heading)
        lengths = (len(line) for row in table.rows for line in row[place - 1].split("\n"))
        width = min(_WIDEST, max(_NARROWEST, len(heading), *lengths, 0) + 2)
        page.column_dimensions[get_column_letter(place)].width = width
    for number, row in enumerate(table.rows, start=2):
        for place, text in enumerate(row, start=1):
            cell = page.cell(number, place)
            write_text(cell, text)
            cell.font = font(INK)
            cell.alignment = Alignment(wrap_text=True, vertical="top")
    page.freeze_panes = "B2"
    if table.rows:
        page.auto_filter.ref = page.dimensions
