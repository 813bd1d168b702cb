"""What every workbook of ours is made of: cells of text, and the same bytes each time.

Words of a list that begin with = + - or @ must not become formulas, and control characters would
stop the library: each cell is typed as text and cleaned.
"""

import io
import re
import zipfile

from openpyxl import Workbook
from openpyxl.cell.cell import Cell, MergedCell
from openpyxl.drawing.spreadsheet_drawing import SpreadsheetDrawing
from openpyxl.styles import Alignment, Font, PatternFill
from openpyxl.worksheet._writer import WorksheetWriter
from openpyxl.worksheet.worksheet import Worksheet
from openpyxl.writer.excel import ExcelWriter

LONGEST = 32_767
"""Characters that a cell may hold (Microsoft, Excel specifications and limits)."""
INK, SOFT, LINE = "FF2F3B34", "FF6B756F", "FFD5DDD8"
_FACE = "Calibri"
_HEAD = PatternFill("solid", fgColor="FFE9EEEB")
_NOT_WRITTEN = re.compile("[\x00-\x08\x0b-\x1f\x7f\ud800-\udfff\ufffe\uffff]")
_ESCAPE = re.compile(r"_(?=x[0-9A-Fa-f]{4}_)")
_DATE = (1980, 1, 1, 0, 0, 0)
_STAMP = re.compile(rb"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ")


def empty_workbook() -> Workbook:
    """A workbook without a sheet."""
    book = Workbook()
    for unasked in book.worksheets:
        book.remove(unasked)
    return book


def plain(text: str) -> str:
    r"""Text that a cell can hold: no control characters, and not too long.

    >>> plain("Wex\x07combe")
    'Wexcombe'
    """
    return _NOT_WRITTEN.sub("", text.replace("\r", "\n"))[:LONGEST]


def write_text(cell: Cell | MergedCell, text: str) -> None:
    """Text and nothing else, whatever it begins with."""
    words = _ESCAPE.sub("_x005F_", plain(text))[:LONGEST]
    if words and isinstance(cell, Cell):
        cell.value = words
        cell.data_type = "s"
        cell.quotePrefix = text[:1] in "=+-@"
    cell.number_format = "@"


def write_head(cell: Cell | MergedCell, text: str) -> None:
    """The heading of a column."""
    write_text(cell, text)
    cell.font = font(INK, bold=True)
    cell.fill = _HEAD
    cell.alignment = Alignment(vertical="center", wrap_text=True)


def font(
    color: str, *, size: int = 11, bold: bool = False, italic: bool = False, link: bool = False
) -> Font:
    """The one face of our workbooks."""
    return Font(
        name=_FACE, size=size, color=color, bold=bold, italic=italic,
        underline="single" if link else None,
    )  # fmt: skip


class _InMemory(ExcelWriter):
    """openpyxl lays each sheet down in the system's folder for passing files first.

    A full disk would stop it there, and a killed run would leave guests' homes behind.
    """

    def write_worksheet(self, ws: Worksheet) -> None:
        """As its own does, without that file."""
        ws._drawing = SpreadsheetDrawing()  # type: ignore[attr-defined] # noqa: SLF001
        sheet = io.BytesIO()
        writer = WorksheetWriter(ws, sheet)
        writer.write()
        ws._rels = writer._rels  # type: ignore[attr-defined] # noqa: SLF001
        self._archive.writestr(ws.path[1:], sheet.getvalue())  # type: ignore[attr-defined]
        self.manifest.append(ws)


def bytes_of(book: Workbook) -> bytes:
    """The workbook without the clock: one date for every part, and in its properties."""
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w") as archive:
        _InMemory(book, archive).save()
    made = io.BytesIO()
    with (
        zipfile.ZipFile(stream) as old,
        zipfile.ZipFile(made, "w", zipfile.ZIP_DEFLATED) as new,
    ):
        for name in old.namelist():
            content = old.read(name)
            if name == "docProps/core.xml":
                content = _STAMP.sub(b"1980-01-01T00:00:00Z", content)
            entry = zipfile.ZipInfo(name, _DATE)
            entry.compress_type = zipfile.ZIP_DEFLATED
            new.writestr(entry, content)
    return made.getvalue()
