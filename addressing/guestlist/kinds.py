"""Which reader takes which kind of file."""

from addressing.guestlist.grid import Grid
from addressing.guestlist.opendocument import read_opendocument
from addressing.guestlist.opening import OpenedList
from addressing.guestlist.textfile import read_textfile
from addressing.guestlist.workbook import read_workbook
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
        return read_textfile(opened)
    if opened.kind == "opendocument":
        return read_opendocument(opened)
    return read_workbook(opened)
