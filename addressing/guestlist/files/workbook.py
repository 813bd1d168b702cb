"""Reads a workbook (.xlsx, .xlsm) into grids: what is seen, and what a plain reading would lose.

Strikes of cells and of words, hidden rows, columns and sheets, notes, merged ranges, number
formats, colours, formulas without a stored value: each is kept beside its cell. The parts are
followed as they unpack, so that nothing in a file can make the reading longer than the file is.
"""

import io
import zipfile
import zlib
from collections.abc import Mapping
from dataclasses import dataclass, field
from sys import intern

from addressing.faults import Exit, Fault
from addressing.guestlist.files.comments import comments
from addressing.guestlist.files.drafts import Draft, SheetDraft
from addressing.guestlist.files.looks import Look, Looks, Theme
from addressing.guestlist.files.markup import BrokenPartError, follow
from addressing.guestlist.files.opening import OpenedList, damaged, too_far, too_long
from addressing.guestlist.files.package import Contents, Package, SheetName, contents
from addressing.guestlist.files.sheet_cells import CellMaker, TooLongError, is_plain
from addressing.guestlist.files.sheet_part import RawCell, SheetPart, TooFarError
from addressing.guestlist.files.sheet_strings import Strings, Text
from addressing.guestlist.grid import Cell, Grid
from addressing.records.findings import Finding, Severity
from addressing.records.guests import Repair
from addressing.where import RowOf, Where, column_letters

_BROKEN = (
    BrokenPartError, zipfile.BadZipFile, zlib.error, EOFError, OSError, KeyError, ValueError,
    NotImplementedError, RuntimeError, OverflowError,
)  # fmt: skip


@dataclass(slots=True)
class _Book:
    """What the sheets of a workbook share while they are walked."""

    opened: OpenedList
    package: Package
    maker: CellMaker
    strings: list[Text] = field(default_factory=list)
    looks: list[Look] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)


def read_workbook(
    opened: OpenedList,
) -> tuple[tuple[Grid, ...], tuple[Finding, ...], tuple[Repair, ...]]:
    """Every sheet as a grid, what could not be seen in the file, and what was repaired.

    Raises:
        Fault: exit 3; `list-damaged` when the workbook can't be read, `list-too-large` when a
            sheet reaches too far, `list-empty` when no sheet holds anything.
    """
    try:
        with zipfile.ZipFile(io.BytesIO(opened.data)) as archive:
            book, found = _open(opened, Package(archive))
            grids = tuple(_grid(book, sheet) for sheet in found.sheets)
    except TooFarError as error:
        raise too_far(opened, str(error)) from error
    except TooLongError as error:
        raise too_long(opened, str(error)) from error
    except _BROKEN as error:
        raise damaged(opened.path) from error
    if not any(grid.rows for grid in grids):
        mend = "Ask for the file again, or choose the one that holds the list."
        where = Where(opened.name)
        raise Fault(Exit.INPUT, "list-empty", f"{opened.name} holds no rows.", mend, where)
    return grids, tuple(book.findings), tuple(book.maker.repairs)


def _open(opened: OpenedList, package: Package) -> tuple[_Book, Contents]:
    found = contents(package)
    book = _Book(opened, package, CellMaker(found.since_1904))
    if found.strings:
        heard = Strings()
        follow(package.blocks(found.strings), heard)
        book.strings = heard.texts
    if found.styles:
        book.looks = _looks(book, found)
    if found.macros:
        book.findings.append(_macros(opened))
    return book, found


def _looks(book: _Book, found: Contents) -> list[Look]:
    """The looks of cells; where they can't be read, strikes can't be seen, and that is asked."""
    theme, looks = Theme(), Looks()
    try:
        if found.theme:
            follow(book.package.blocks(found.theme), theme)
        looks.theme = theme.colours
        follow(book.package.blocks(found.styles or ""), looks)
    except (BrokenPartError, ValueError):
        book.findings.append(_styles_lost(book.opened))
    return looks.cells


def _styles_lost(opened: OpenedList) -> Finding:
    return Finding(
        Severity.ASK,
        "styles-not-read",
        Where(opened.name),
        "The workbook's formatting can't be read: words struck through can't be seen.",
        "Open it in your spreadsheet program and save it again, or say that nothing is struck.",
    )


def _macros(opened: OpenedList) -> Finding:
    return Finding(
        Severity.NOTE,
        "macros-not-run",
        Where(opened.name),
        "The workbook holds macros; they are never run.",
        "If a macro fills cells, run it in your spreadsheet program and save the list.",
    )


def _grid(book: _Book, sheet: SheetName) -> Grid:
    on_the_way = SheetDraft(book.opened.name, sheet.name, sheet.hidden)

    def take(number: int, cells: Mapping[int, RawCell], *, hidden: bool) -> None:
        place_of_row = (book.opened.name, sheet.name, number)
        on_the_way.add(number, _draft(book.maker, place_of_row, cells, hidden=hidden))

    part = SheetPart(book.strings, book.looks, take)
    follow(book.package.blocks(sheet.part), part)
    on_the_way.rules = part.rules.found
    on_the_way.add_notes(comments(book.package, sheet.part))
    return on_the_way.grid(part.found.merges, part.found.hidden_columns)


def _draft(
    maker: CellMaker,
    place_of_row: RowOf,
    cells: Mapping[int, RawCell],
    *,
    hidden: bool,
) -> Draft:
    width = max((index for index, raw in cells.items() if _holds(raw)), default=-1) + 1
    packed: list[str | Cell | None] = [None] * width
    for index, raw in cells.items():
        if isinstance(raw.value, str) and is_plain(raw):
            packed[index] = intern(raw.value)  # towns and titles come again and again
        elif _holds(raw):
            where = Where.in_row(place_of_row, column_letters(index + 1))
            packed[index] = maker.packed(raw, where)
    colours = tuple((i, colour) for i, raw in cells.items() if (colour := raw.look.colour))
    return Draft(tuple(packed), hidden, colours)


def _holds(raw: RawCell) -> bool:
    return raw.value is not None or raw.formula is not None
