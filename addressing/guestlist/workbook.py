"""Reads a workbook (.xlsx, .xlsm) into grids: what is seen, and what a plain reading would lose.

Strikes of cells and of words, hidden rows, columns and sheets, notes, merged ranges, number
formats, formulas without a stored value: each is kept beside its cell.
"""

import contextlib
import io
import math
import re
import warnings
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from itertools import groupby

import openpyxl
from openpyxl.cell.cell import Cell as SheetCell
from openpyxl.cell.cell import MergedCell
from openpyxl.cell.rich_text import CellRichText, TextBlock
from openpyxl.workbook import Workbook
from openpyxl.worksheet.worksheet import Worksheet

from addressing.faults import Exit, Fault
from addressing.guestlist.formats import Moment, moment_shown, moment_text, number_text, padded
from addressing.guestlist.grid import Cell, Grid, Merge, Row
from addressing.guestlist.opening import OpenedList, damaged
from addressing.guestlist.repair import repair_text
from addressing.guestlist.styles import without_odd_styles
from addressing.records.findings import Finding, Severity
from addressing.records.guests import Repair
from addressing.where import Where

_ESCAPED = re.compile(r"_x(000[0-9A-F]|001[0-9A-F])_")
_THREAD = re.compile(r"\[Threaded comment\].*?\nComment:\s*", re.DOTALL)
_FORMULA = "f"
_MAX_COLUMNS = 16_384


@dataclass(slots=True)
class _Reading:
    """What is gathered while the sheets are walked."""

    file: str
    formulas: Workbook
    values: Workbook
    repairs: list[Repair] = field(default_factory=list)


def read_workbook(
    opened: OpenedList,
) -> tuple[tuple[Grid, ...], tuple[Finding, ...], tuple[Repair, ...]]:
    """Every sheet as a grid, what could not be seen in the file, and what was repaired.

    Raises:
        Fault: exit 3; `list-damaged` when the workbook can't be read, `list-empty` when no sheet
            holds anything.
    """
    reading, findings = _load(opened)
    try:
        grids = tuple(_grid(reading, sheet) for sheet in reading.formulas.worksheets)
    except Exception as error:  # the library raises whatever it meets in a broken part
        raise damaged(opened.path) from error
    if not any(grid.rows for grid in grids):
        mend = "Ask for the file again, or choose the one that holds the list."
        where = Where(opened.name)
        raise Fault(Exit.INPUT, "list-empty", f"{opened.name} holds no rows.", mend, where)
    return grids, findings, tuple(reading.repairs)


def _load(opened: OpenedList) -> tuple[_Reading, tuple[Finding, ...]]:
    """Open the workbook; when its look trips the library, open it with a plainer look."""
    with contextlib.suppress(Exception):  # the library raises whatever it meets in a broken part
        return _open(opened.name, opened.data), ()
    try:
        data, kept = without_odd_styles(opened.data)
        reading = _open(opened.name, data)
    except Exception as error:
        raise damaged(opened.path) from error
    return reading, () if kept else (_styles_lost(opened),)


def _styles_lost(opened: OpenedList) -> Finding:
    return Finding(
        Severity.ASK,
        "styles-not-read",
        Where(opened.name),
        "The workbook's formatting can't be read: words struck through can't be seen.",
        "Open it in your spreadsheet program and save it again, or say that nothing is struck.",
    )


def _open(file: str, data: bytes) -> _Reading:
    """Load twice where there are formulas: once for them, once for their stored values."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # parts that a list doesn't need
        formulas = openpyxl.load_workbook(io.BytesIO(data), rich_text=True)
        values = formulas
        if any(cell.data_type == _FORMULA for sheet in formulas.worksheets for cell in _all(sheet)):
            values = openpyxl.load_workbook(io.BytesIO(data), rich_text=True, data_only=True)
    return _Reading(file, formulas, values)


def _all(sheet: Worksheet) -> Iterator[SheetCell | MergedCell]:
    for row in sheet.iter_rows():
        yield from row


def _grid(reading: _Reading, sheet: Worksheet) -> Grid:
    merges = _merges(sheet)
    values = reading.values[sheet.title]
    drafts: dict[int, dict[int, Cell]] = {}
    for row in sheet.iter_rows():
        for cell in row:
            if isinstance(cell, MergedCell):
                continue
            read = _cell(reading, sheet, cell, values)
            if read is not None:
                drafts.setdefault(cell.row, {})[cell.column - 1] = read
    _spread(drafts, merges)
    rows = (_row(sheet, number, drafts[number]) for number in sorted(drafts))
    return Grid(
        reading.file,
        sheet.title,
        tuple(row for row in rows if row.filled),
        sheet.sheet_state != "visible",
        _hidden_columns(sheet),
        merges,
    )


def _merges(sheet: Worksheet) -> tuple[Merge, ...]:
    found = (
        Merge(r.min_row, r.min_col - 1, r.max_row, r.max_col - 1) for r in sheet.merged_cells.ranges
    )
    return tuple(sorted(found, key=lambda merge: (merge.top, merge.left)))


def _spread(drafts: dict[int, dict[int, Cell]], merges: tuple[Merge, ...]) -> None:
    """Give the value of a cell that is merged downwards to each row that it covers."""
    for merge in merges:
        cell = drafts.get(merge.top, {}).get(merge.left)
        if cell is None or not cell.text:
            continue
        for number in range(merge.top + 1, merge.bottom + 1):
            if number in drafts:
                drafts[number].setdefault(merge.left, replace(cell, spread=True))


def _hidden_columns(sheet: Worksheet) -> frozenset[int]:
    hidden: set[int] = set()
    for dimension in sheet.column_dimensions.values():
        if dimension.hidden and dimension.min and dimension.max:
            hidden.update(range(dimension.min - 1, min(dimension.max, _MAX_COLUMNS)))
    return frozenset(hidden)


def _row(sheet: Worksheet, number: int, cells: dict[int, Cell]) -> Row:
    width = max(cells) + 1
    hidden = number in sheet.row_dimensions and _is_hidden(sheet, number)
    seen = [cell for cell in cells.values() if cell.filled]
    struck = bool(seen) and all(cell.wholly_struck for cell in seen)
    return Row(
        sheet.title, number, tuple(cells.get(index) for index in range(width)), hidden, struck
    )


def _is_hidden(sheet: Worksheet, number: int) -> bool:
    dimension = sheet.row_dimensions[number]
    return bool(dimension.hidden) or dimension.height == 0


def _cell(reading: _Reading, sheet: Worksheet, cell: SheetCell, values: Worksheet) -> Cell | None:
    where = Where(reading.file, sheet.title, cell.coordinate)
    note = _note(cell, where, reading.repairs)
    read = _content(reading, cell, values, where)
    if read is None:
        return Cell("", where, note=note) if note else None
    return replace(read, note=note) if note else read


def _note(cell: SheetCell, where: Where, repairs: list[Repair]) -> str | None:
    if cell.comment is None:
        return None
    raw = _THREAD.sub("", cell.comment.text or "")
    del repairs  # notes aren't printed, so their repairs are not worth a line
    return repair_text(raw, where)[0] or None


def _content(reading: _Reading, cell: SheetCell, values: Worksheet, where: Where) -> Cell | None:
    if cell.data_type != _FORMULA:
        return _value(cell, cell, where, reading.repairs)
    stored = values.cell(cell.row, cell.column)
    if stored.value is not None:
        return _value(stored, cell, where, reading.repairs)
    if stored.data_type == "str":  # calculated, and the result is an empty text
        return None
    formula = getattr(cell.value, "text", None) or str(cell.value)
    return Cell("", where, "formula", shown=formula)


def _value(cell: SheetCell, look: SheetCell, where: Where, repairs: list[Repair]) -> Cell | None:
    """A cell's own value; `look` is where its font is taken from."""
    value = cell.value
    if value is None:
        return None
    if isinstance(value, CellRichText):
        return _rich(value, look, where, repairs)
    if cell.data_type == "e":
        return Cell("", where, "error", shown=str(value))
    if isinstance(value, float) and not math.isfinite(value):
        return Cell("", where, "error", shown=str(value))
    text, kind, shown = (value, "text", None) if isinstance(value, str) else _plain(value, cell)
    text, mended = repair_text(_ESCAPED.sub(_unescape, text), where)
    if not text:
        return None
    repairs.extend(mended)
    return Cell(text, where, kind, (text,) if _is_struck(look) else (), None, shown)


def _plain(value: object, cell: SheetCell) -> tuple[str, str, str | None]:
    """Text, kind, and what the format shows where that differs."""
    number_format = str(cell.number_format)
    if isinstance(value, bool):
        return ("TRUE" if value else "FALSE"), "boolean", None
    if isinstance(value, int | float):
        text, shown = number_text(value), padded(value, number_format)
        return text, "number", shown if shown != text else None
    if isinstance(value, Moment):
        return moment_text(value), "date", moment_shown(value, number_format)
    return str(value), "text", None


def _rich(value: CellRichText, look: SheetCell, where: Where, repairs: list[Repair]) -> Cell | None:
    """Words in several fonts: the struck ones are taken out and listed."""
    base = _is_struck(look)
    runs = [_run(part, base=base) for part in value]
    whole, mended = repair_text("".join(text for text, _ in runs), where)
    if not whole:
        return None
    repairs.extend(mended)
    if all(struck for text, struck in runs if text.strip()):
        return Cell(whole, where, "text", (whole,))
    struck = tuple(
        text
        for is_struck, group in groupby(runs, key=lambda run: run[1])
        if is_struck and (text := repair_text("".join(run[0] for run in group), where)[0])
    )
    left = "".join(text for text, is_struck in runs if not is_struck)
    return Cell(repair_text(left, where)[0], where, "text", struck)


def _run(part: str | TextBlock, *, base: bool) -> tuple[str, bool]:
    """A run's words and whether they are struck; a run with a font of its own has its own say."""
    if isinstance(part, TextBlock):
        return _ESCAPED.sub(_unescape, part.text), bool(part.font.strike)
    return _ESCAPED.sub(_unescape, part), base


def _is_struck(cell: SheetCell) -> bool:
    return cell.has_style and bool(cell.font.strike)


def _unescape(match: re.Match[str]) -> str:
    """Control characters are stored as `_x000D_` (ECMA-376 Part 1, 22.9.2.19)."""
    return chr(int(match[1], 16))
