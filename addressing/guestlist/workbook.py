"""Reads a workbook (.xlsx, .xlsm) into grids: what is seen, and what a plain reading would lose.

Strikes of cells and of words, hidden rows, columns and sheets, notes, merged ranges, number
formats, colours, formulas without a stored value: each is kept beside its cell. The parts are
followed as they unpack, so that nothing in a file can make the reading longer than the file is.
"""

import io
import zipfile
import zlib
from bisect import bisect_right
from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from addressing.faults import Exit, Fault
from addressing.guestlist.comments import comments
from addressing.guestlist.grid import Cell, Grid, Merge, PackedCells, Recent, Row
from addressing.guestlist.looks import Look, Looks, Theme
from addressing.guestlist.markup import BrokenPartError, follow
from addressing.guestlist.opening import OpenedList, damaged
from addressing.guestlist.package import Contents, Package, SheetName, contents
from addressing.guestlist.repair import repair_text
from addressing.guestlist.sheet_cells import CellMaker, TooLongError, is_plain
from addressing.guestlist.sheet_part import LAST_COLUMN, RawCell, SheetPart, TooFarError, place
from addressing.guestlist.sheet_strings import Strings, Text
from addressing.records.findings import Finding, Severity
from addressing.records.guests import Repair
from addressing.where import Where, cell_name, column_letters

MAX_BOX = 4_000_000
"""Cells of all rows up to their last one; a list of 100 000 rows has some 2 million."""

_BROKEN = (
    BrokenPartError, zipfile.BadZipFile, zlib.error, EOFError, OSError, KeyError, ValueError,
    NotImplementedError, RuntimeError, OverflowError,
)  # fmt: skip
Packed = tuple[str | Cell | None, ...]


@dataclass(slots=True)
class _Draft:
    """A row on the way."""

    packed: Packed
    hidden: bool
    colours: tuple[tuple[int, str], ...]


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
        raise _too_far(opened, str(error)) from error
    except TooLongError as error:
        raise _too_long(opened, str(error)) from error
    except _BROKEN as error:
        raise damaged(opened.path) from error
    if not any(grid.rows for grid in grids):
        mend = "Ask for the file again, or choose the one that holds the list."
        where = Where(opened.name)
        raise Fault(Exit.INPUT, "list-empty", f"{opened.name} holds no rows.", mend, where)
    return grids, tuple(book.findings), tuple(book.maker.repairs)


def _too_far(opened: OpenedList, cell: str) -> Fault:
    text = f"{opened.name} has a sheet that reaches too far for a guest list (to {cell})."
    mend = "Delete what stands far right of or below the list, and save it again."
    return Fault(Exit.INPUT, "list-too-large", text, mend, Where(opened.name))


def _too_long(opened: OpenedList, cell: str) -> Fault:
    text = f"{opened.name} has a cell that is longer than a book's chapter ({cell})."
    mend = "Empty that cell, or split its words over the rows that they belong to."
    return Fault(Exit.INPUT, "list-too-large", text, mend, Where(opened.name))


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
    drafts: dict[int, _Draft] = {}
    file, name = book.opened.name, sheet.name
    reached = 0

    def take(number: int, hidden: bool, cells: Mapping[int, RawCell]) -> None:  # noqa: FBT001
        nonlocal reached
        draft = _draft(book.maker, (file, name, number), cells, hidden=hidden)
        reached += len(draft.packed)
        if reached > MAX_BOX:
            raise TooFarError(f"{name}!{cell_name(len(draft.packed), number)}")
        before = drafts.get(number)
        drafts[number] = _over(before, draft) if before else draft

    part = SheetPart(book.strings, book.looks, take)
    follow(book.package.blocks(sheet.part), part)
    _add_notes(drafts, comments(book.package, sheet.part), file, name)
    _spread(drafts, part.found.merges, (file, name))
    recent = Recent()
    rows = (_row((file, name, number), drafts[number], recent) for number in sorted(drafts))
    return Grid(
        file,
        name,
        tuple(row for row in rows if row is not None),
        sheet.hidden,
        frozenset(part.found.hidden_columns),
        tuple(sorted(part.found.merges, key=lambda merge: (merge.top, merge.left))),
    )


def _draft(
    maker: CellMaker,
    place_of_row: tuple[str, str, int],
    cells: Mapping[int, RawCell],
    *,
    hidden: bool,
) -> _Draft:
    file, sheet, number = place_of_row
    width = max((index for index, raw in cells.items() if _holds(raw)), default=-1) + 1
    packed: list[str | Cell | None] = [None] * width
    for index, raw in cells.items():
        if isinstance(raw.value, str) and is_plain(raw):
            packed[index] = raw.value
        elif _holds(raw):
            where = Where(file, sheet, f"{column_letters(index + 1)}{number}")
            packed[index] = maker.packed(raw, where)
    colours = tuple((i, colour) for i, raw in cells.items() if (colour := raw.look.colour))
    return _Draft(tuple(packed), hidden, colours)


def _holds(raw: RawCell) -> bool:
    return raw.value is not None or raw.formula is not None


def _over(before: _Draft, draft: _Draft) -> _Draft:
    """A row that the file has in two pieces."""
    width = max(len(before.packed), len(draft.packed))
    old, new = (row.packed + (None,) * (width - len(row.packed)) for row in (before, draft))
    packed = tuple(b if b is not None else a for a, b in zip(old, new, strict=True))
    return _Draft(packed, before.hidden or draft.hidden, before.colours + draft.colours)


def _add_notes(drafts: dict[int, _Draft], found: Mapping[str, str], file: str, sheet: str) -> None:
    """Put comments beside their cells, empty ones too; they aren't printed: no repair is logged."""
    for name, text in found.items():
        column, number = place(name)
        note = repair_text(text, Where(file, sheet, name))[0]
        if note and column <= LAST_COLUMN:
            draft = drafts.setdefault(number, _Draft((), hidden=False, colours=()))
            held = draft.packed[column - 1] if column <= len(draft.packed) else None
            cell = held if isinstance(held, Cell) else Cell(held or "", Where(file, sheet, name))
            _put(draft, column - 1, replace(cell, note=note))


def _put(draft: _Draft, index: int, cell: Cell) -> None:
    packed = list(draft.packed) + [None] * (index + 1 - len(draft.packed))
    packed[index] = cell
    draft.packed = tuple(packed)


def _spread(drafts: dict[int, _Draft], merges: list[Merge], sheet: tuple[str, str]) -> None:
    """Give the value of a cell that is merged downwards to each row that it covers."""
    numbers = sorted(drafts)
    reached = 0
    for merge in merges:
        top = drafts.get(merge.top)
        held = top.packed[merge.left] if top and merge.left < len(top.packed) else None
        if not held:
            continue
        where = Where(*sheet, cell_name(merge.left + 1, merge.top))
        cell = held if isinstance(held, Cell) else Cell(held, where)
        first, last = bisect_right(numbers, merge.top), bisect_right(numbers, merge.bottom)
        reached += last - first
        if reached > MAX_BOX:
            raise TooFarError(str(where))
        for number in numbers[first:last] if cell.text else ():
            draft = drafts[number]
            if draft.packed and (merge.left >= len(draft.packed) or not draft.packed[merge.left]):
                _put(draft, merge.left, replace(cell, spread=True))


def _row(where: tuple[str, str, int], draft: _Draft, recent: Recent) -> Row | None:
    """The row, or None where nothing in it is filled."""
    texts = sum(isinstance(held, str) for held in draft.packed)
    cells = [held for held in draft.packed if isinstance(held, Cell) and held.filled]
    if not texts and not cells:
        return None
    struck = not texts and all(cell.wholly_struck for cell in cells)
    packed = PackedCells(where, draft.packed, recent)
    return Row(where[1], where[2], packed, draft.hidden, struck, draft.colours)
