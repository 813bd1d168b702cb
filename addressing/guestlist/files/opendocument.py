"""Reads an OpenDocument spreadsheet (.ods) into grids, what a plain reading loses included.

Its content is followed as it unpacks; rows and cells that are said to repeat are repeated only
where they hold something, and within the limits of a list.
"""

import io
import re
import zipfile
import zlib
from collections.abc import Iterator
from dataclasses import replace

from addressing.faults import Exit, Fault
from addressing.guestlist.files.document_cells import DocumentCell, held_by
from addressing.guestlist.files.document_looks import DocumentLooks
from addressing.guestlist.files.drafts import Draft, SheetDraft
from addressing.guestlist.files.looks import Look
from addressing.guestlist.files.markup import Attributes, BrokenPartError, follow, given
from addressing.guestlist.files.opening import OpenedList, damaged, protected, too_far, too_long
from addressing.guestlist.files.package import Package
from addressing.guestlist.files.ranges import LAST_COLUMN, LAST_ROW, column_number
from addressing.guestlist.files.sheet_cells import CellMaker, TooLongError
from addressing.guestlist.files.sheet_part import MAX_MERGES, TooFarError
from addressing.guestlist.files.sheet_rules import MAX_RULES
from addressing.guestlist.files.sheet_strings import Run
from addressing.guestlist.grid import Cell, Grid, Merge, Rule
from addressing.records.findings import Finding
from addressing.records.guests import Repair
from addressing.where import Where, cell_name

_BROKEN = (
    BrokenPartError, zipfile.BadZipFile, zlib.error, EOFError, OSError, KeyError, ValueError,
    NotImplementedError, RuntimeError, OverflowError,
)  # fmt: skip
_MOST_COLOURED = 100
"""Empty coloured cells in one go; more are a background."""
_MOST_REPEATED = 1_000
"""Equal rows that hold something; no list says the same so often."""
_BESIDE = frozenset(("", "table:table", "table:shapes", "office:forms"))
_CORNERS = re.compile(r"\.\$?([A-Z]{1,3})\$?(\d{1,7})")
_MOST_LETTERS = 4_000
"""Of the ranges of one rule."""
_CELLS = frozenset(("table:table-cell", "table:covered-table-cell"))


def read_opendocument(
    opened: OpenedList,
) -> tuple[tuple[Grid, ...], tuple[Finding, ...], tuple[Repair, ...]]:
    """Every sheet as a grid, what could not be seen in the file, and what was repaired.

    Raises:
        Fault: exit 3; `list-damaged`, `list-password`, `list-too-large`, or `list-empty` when no
            sheet holds anything.
    """
    try:
        with zipfile.ZipFile(io.BytesIO(opened.data)) as archive:
            package = Package(archive)
            if _is_encrypted(package):
                raise protected(opened.path)
            heard = _Content(opened.name)
            if "styles.xml" in package:
                follow(package.blocks("styles.xml"), heard.looks)
            follow(package.blocks("content.xml"), heard)
    except TooFarError as error:
        raise too_far(opened, str(error)) from error
    except TooLongError as error:
        raise too_long(opened, str(error)) from error
    except _BROKEN as error:
        raise damaged(opened.path) from error
    if not any(grid.rows for grid in heard.grids):
        mend = "Ask for the file again, or choose the one that holds the list."
        where = Where(opened.name)
        raise Fault(Exit.INPUT, "list-empty", f"{opened.name} holds no rows.", mend, where)
    return tuple(heard.grids), (), tuple(heard.maker.repairs)


def _is_encrypted(package: Package) -> bool:
    """Whether the list of parts says that they can't be read without a password."""
    listed = "META-INF/manifest.xml"
    if listed not in package:
        return False
    return any(b"encryption-data" in block for block in package.blocks(listed))


class _Content:
    """Listens to a document's content and makes a grid of each of its tables."""

    def __init__(self, file: str) -> None:
        self.looks = DocumentLooks()
        self.maker = CellMaker()
        self.grids: list[Grid] = []
        self._file = file
        self._path: list[str] = []
        self._skipped = 0
        """How deep we are in what is no part of a list: drawings, tracked changes, inner tables."""
        self._sheet: SheetDraft | None = None
        self._hidden_columns: set[int] = set()
        self._defaults: list[str] = []
        self._merges: list[Merge] = []
        self._notes: dict[str, str] = {}
        self._ruled = ""
        self._row = self._column = self._times = 0
        self._row_hidden = False
        self._cells: dict[int, str | Cell] = {}
        self._colours: dict[int, str] = {}
        self._cell: DocumentCell | None = None
        self._struck: list[bool | None] = []

    def start(self, name: str, attributes: Attributes) -> None:
        """A tag opens."""
        if self._skipped or self._is_foreign(name):
            self._skipped += 1
            return
        self._path.append(name)
        if self._sheet is None and name != "table:table":
            self.looks.start(name, attributes)
        elif name == "table:table":
            self._start_sheet(attributes)
        elif name == "table:table-column":
            self._add_columns(attributes)
        elif name == "table:table-row":
            self._start_row(attributes)
        elif name in _CELLS:
            self._start_cell(name, attributes)
        else:
            self._start_inside(self._sheet, name, attributes)

    def _start_inside(self, sheet: SheetDraft | None, name: str, attributes: Attributes) -> None:
        """The words of a cell; behind a table's rows, the rules that give cells another look."""
        if sheet is None:
            return
        if self._cell is not None:
            self._start_words(name, attributes)
        elif name == "calcext:conditional-format":
            self._ruled = given(attributes, "calcext:target-range-address")[:_MOST_LETTERS]
        elif name == "calcext:condition" and len(sheet.rules) < MAX_RULES:
            sheet.rules += _rules(self._ruled, given(attributes, "calcext:value"))

    def _is_foreign(self, name: str) -> bool:
        """True for what a sheet holds beside its cells, and cells must not be taken from."""
        if self._sheet is None:
            return name == "table:tracked-changes"
        return name in _BESIDE

    def end(self, name: str) -> None:
        """A tag closes."""
        if self._skipped:
            self._skipped -= 1
            return
        self._path.pop()
        if self._sheet is None:
            self.looks.end(name)
        elif name == "table:table":
            self._end_sheet(self._sheet)
        elif name == "table:table-row":
            self._end_row(self._sheet)
        elif name in _CELLS and self._cell is not None:
            self._end_cell(self._sheet, self._cell)
            self._cell = None
        elif name == "text:p" and self._cell is not None:
            self._struck = []
        elif name == "text:span" and self._struck:
            self._struck.pop()

    def text(self, data: str) -> None:
        """Some of the text."""
        if self._cell is None or self._skipped or "text:p" not in self._path:
            return
        if "office:annotation" in self._path:
            self._cell.note.append(data)
        else:
            struck = next((word for word in reversed(self._struck) if word is not None), None)
            self._cell.words.append(Run(data, struck))

    def _start_words(self, name: str, attributes: Attributes) -> None:
        if name == "text:p" and self._cell is not None:
            noted = "office:annotation" in self._path
            if noted and self._cell.note:
                self._cell.note.append("\n")
            if not noted and self._cell.words:
                self._cell.words.append(Run("\n"))
            self._struck = [self.looks.struck(given(attributes, "text:style-name"))]
        elif name == "text:span":
            self._struck.append(self.looks.struck(given(attributes, "text:style-name")))
        elif name in ("text:s", "text:tab"):
            self.text(" ")
        elif name == "text:line-break":
            self.text("\n")

    def _start_sheet(self, attributes: Attributes) -> None:
        hidden = self.looks.hides(given(attributes, "table:style-name"))
        self._sheet = SheetDraft(self._file, given(attributes, "table:name"), hidden)
        self._hidden_columns, self._defaults = set(), []
        self._merges, self._notes = [], {}
        self._row = 0

    def _end_sheet(self, sheet: SheetDraft) -> None:
        sheet.add_notes(self._notes)
        self.grids.append(sheet.grid(self._merges, self._hidden_columns))
        self._sheet = None

    def _add_columns(self, attributes: Attributes) -> None:
        first = len(self._defaults)
        times = min(_times(attributes, "table:number-columns-repeated"), LAST_COLUMN - first)
        default = given(attributes, "table:default-cell-style-name")
        self._defaults += [default] * times
        if _is_hidden(attributes):
            self._hidden_columns.update(range(first, first + times))

    def _start_row(self, attributes: Attributes) -> None:
        self._times = _times(attributes, "table:number-rows-repeated")
        self._row_hidden = _is_hidden(attributes)
        self._column, self._cells, self._colours = 0, {}, {}
        self._row += 1

    def _end_row(self, sheet: SheetDraft) -> None:
        """Add the row, again and again where it holds something and is said to repeat."""
        last = self._row + self._times - 1
        if self._cells:
            if last > LAST_ROW or self._times > _MOST_REPEATED:
                raise TooFarError(f"{sheet.name}!A{last}")
            width = max(self._cells) + 1
            colours = tuple(self._colours.items())
            for number in range(self._row, last + 1):
                packed = [self._cells.get(index) for index in range(width)]
                moved = [_moved(held, number) for held in packed]
                sheet.add(number, Draft(tuple(moved), self._row_hidden, colours))
        self._row = last

    def _start_cell(self, name: str, attributes: Attributes) -> None:
        style = given(attributes, "table:style-name")
        if not style and self._column < len(self._defaults):
            style = self._defaults[self._column]
        self._cell = DocumentCell(
            attributes, self.looks.look(style), covered=name == "table:covered-table-cell"
        )

    def _end_cell(self, sheet: SheetDraft, cell: DocumentCell) -> None:
        times = _times(cell.attributes, "table:number-columns-repeated")
        first, self._column = self._column, self._column + times
        if cell.covered or first >= LAST_COLUMN:
            return
        self._merge(cell.attributes, first)
        where = Where(self._file, sheet.name, cell_name(first + 1, self._row))
        if cell.note:
            self._notes[where.cell or ""] = "".join(cell.note)
        if cell.look.rule and len(sheet.rules) < MAX_RULES:
            last = min(self._column, LAST_COLUMN) - 1
            cells = Merge(self._row, first, self._row + self._times - 1, last)
            sheet.rules.append(Rule(cells, cell.look.rule))
        held = held_by(self.maker, cell, where)
        for index in self._again(first, times, held, cell.look):
            if held is not None:
                self._cells[index] = _placed(held, index, where)
            if cell.look.colour:
                self._colours[index] = cell.look.colour

    def _again(self, first: int, times: int, held: str | Cell | None, look: Look) -> Iterator[int]:
        """The columns that a cell fills or colours; one that does neither fills none."""
        if held is None and (look.colour is None or times > _MOST_COLOURED):
            return iter(())
        return iter(range(first, min(first + times, LAST_COLUMN)))

    def _merge(self, attributes: Attributes, column: int) -> None:
        wide = _times(attributes, "table:number-columns-spanned")
        high = _times(attributes, "table:number-rows-spanned")
        if wide > 1 or high > 1:
            merge = Merge(self._row, column, self._row + high - 1, column + wide - 1)
            self._merges.append(merge)
        if len(self._merges) > MAX_MERGES:
            raise TooFarError(cell_name(column + 1, self._row))


def _rules(ranges: str, said: str) -> Iterator[Rule]:
    """A rule for each range of cells such as "Guests.A2:Guests.E7"."""
    corners = [(column_number(found[1]), int(found[2])) for found in _CORNERS.finditer(ranges)]
    if len(corners) == 1:
        corners *= 2
    for (left, top), (right, bottom) in zip(corners[::2], corners[1::2], strict=False):
        yield Rule(Merge(top, left - 1, bottom, right - 1), said)


def _times(attributes: Attributes, name: str) -> int:
    text = given(attributes, name)
    return max(1, int(text)) if text else 1


def _is_hidden(attributes: Attributes) -> bool:
    return given(attributes, "table:visibility") in ("collapse", "filter")


def _placed(held: str | Cell, index: int, where: Where) -> str | Cell:
    if isinstance(held, str):
        return held
    letters = cell_name(
        index + 1, int("".join(mark for mark in where.cell or "" if mark.isdigit()))
    )
    return replace(held, where=where.at(letters))


def _moved(held: str | Cell | None, number: int) -> str | Cell | None:
    """A cell of a row that repeats, in the row with that number."""
    if not isinstance(held, Cell):
        return held
    letters = (held.where.cell or "").rstrip("0123456789")
    return replace(held, where=held.where.at(f"{letters}{number}"))
