"""Which reader takes which kind of file."""

from collections.abc import Mapping, Sequence

from addressing.guestlist.files.fix_sheets import corrections, corrections_noted, tables_of
from addressing.guestlist.files.labels import read_labels
from addressing.guestlist.files.numbered import names_by_number
from addressing.guestlist.files.opendocument import read_opendocument
from addressing.guestlist.files.opening import OpenedList
from addressing.guestlist.files.pasted import read_column
from addressing.guestlist.files.speaking import Listed
from addressing.guestlist.files.textfile import read_textfile
from addressing.guestlist.files.workbook import read_workbook
from addressing.guestlist.grid import Grid
from addressing.guestlist.tables.meanings import exact_meaning
from addressing.records.findings import Finding
from addressing.records.guests import Repair

GridsRead = tuple[tuple[Grid, ...], tuple[Finding, ...], tuple[Repair, ...]]
"""The sheets, what is doubtful about the file as a whole, and what was repaired in its cells."""


def read_grids(opened: OpenedList) -> GridsRead:
    """Read an opened file into grids by the reader of its kind.

    Raises:
        Fault: exit 3; see the readers.
    """
    if opened.kind == "text":
        return _with_mails(read_textfile(opened))
    read = read_opendocument if opened.kind == "opendocument" else read_workbook
    return _with_mails(read(opened))


def _with_mails(found: GridsRead) -> GridsRead:
    """The same sheets, those of labels or of a pasted mail as a list of their households."""
    sheets: list[Grid] = []
    repairs = list(found[2])
    called, listed = names_by_number(found[0]), _listed(found[0])
    mailed = any(grid.meanings or grid.told for grid in found[0])
    for grid in found[0]:
        own = grid.sheet is not None and not _has_header(grid)
        mail = None if mailed else _mail(grid, called, listed, own=own)
        grids, mended = mail if mail is not None else ((grid,), ())
        sheets += grids
        repairs += mended
    return tuple(sheets), (*found[1], *corrections_noted(sheets)), tuple(repairs)


def _listed(grids: Sequence[Grid]) -> Listed:
    """Who is on the list that stands beside other sheets."""
    shown = [grid for grid in grids if grid.rows and not grid.hidden]
    if len(shown) == 1:
        return Listed()
    return Listed.of(table for grid in shown for table in tables_of(grid))


def _mail(
    grid: Grid, called: Mapping[str, str], listed: Listed, *, own: bool
) -> tuple[tuple[Grid, ...], tuple[Repair, ...]] | None:
    """A sheet of remarks on the others, one that is a mail, or labels; `own` without a header."""
    remarks = corrections(grid, called, listed) if own and listed.names else None
    mail = remarks or (read_column(grid) if own else None)
    return mail or corrections(grid, called, listed) or read_labels(grid)


def _has_header(grid: Grid) -> bool:
    """True when a sheet of one column begins with a header, as a list does."""
    first = next((text for row in grid.rows for _, text in row.texts), "")
    return exact_meaning(first) is not None
