"""Files of this program, or marks of a spreadsheet program, that are given as a guest list."""

import json
from collections.abc import Iterable
from functools import cache
from pathlib import Path

from addressing.faults import Exit, Fault
from addressing.guestlist.grid import Grid, Row
from addressing.guestlist.tables.meanings import fold
from addressing.tables import table
from addressing.where import Where

_FIRST = 3
"""Rows among which our headings stand."""
_LETTERS = (
    b"Please leave this line in your reply: letter ",
    b"thank you for the guest list. We have no questions.",
)
_SAVE = "Save the list there and close it, then give {}."
_MADE_OF = "Give the client's list, which the job was made of."


def refuse_mark(path: Path) -> None:
    """Refuse the hidden file by which a spreadsheet program marks a list that it has open.

    Raises:
        Fault: `list-open` (exit 3).
    """
    name = path.name
    if name.startswith("~$"):
        marked = name.removeprefix("~$")
    elif name.startswith(".~lock.") and name.endswith("#"):
        marked = name.removeprefix(".~lock.").removesuffix("#")
    else:
        return
    text = f"{name} is no list: it marks that {marked} is still open in a spreadsheet program."
    raise Fault(Exit.INPUT, "list-open", text, _SAVE.format(marked), Where(str(path)))


def refuse_own_text(path: Path, data: bytes) -> None:
    """Refuse our letter of questions, and what a job keeps for programs.

    Raises:
        Fault: `list-own-file` (exit 3).
    """
    if data.lstrip()[:1] in (b"{", b"[") and _is_json(data):
        raise _own(path.name, "data for programs (JSON)", _MADE_OF, Where(str(path)))
    if any(words in data for words in _LETTERS):
        mend = "Give the client's list; answers are read by: addressing answer LIST FILE."
        raise _own(path.name, "the letter of questions for the client", mend, Where(str(path)))


def _is_json(data: bytes) -> bool:
    try:
        json.loads(data)
    except (ValueError, RecursionError):
        return False
    return True


def refuse_own_sheets(grids: Iterable[Grid]) -> None:
    """Refuse a workbook or table of which every sheet in sight is one of ours.

    Raises:
        Fault: `list-own-file` (exit 3).
    """
    shown = [grid for grid in grids if grid.rows and not grid.hidden]
    ours = [_what(grid) for grid in shown]
    first = next(iter(ours), None)
    if first is not None and all(each is not None for each in ours):
        where = Where(shown[0].file, shown[0].sheet)
        raise _own(shown[0].file, *first, where)


def _what(grid: Grid) -> tuple[str, str] | None:
    """(what a sheet of ours is, what to give instead); None for another's."""
    for row in grid.rows[:_FIRST]:
        found = _headed(row)
        if found is not None:
            return found
    return None


def _headed(row: Row) -> tuple[str, str] | None:
    words = {fold(cell.text) for cell in row.filled}
    return next(((what, mend) for own, what, mend in _own_heads() if own <= words), None)


@cache
def _own_heads() -> tuple[tuple[frozenset[str], str, str], ...]:
    return tuple(
        (frozenset(row["headings"].split(" | ")), row["what"], row["mend"])
        for row in table("own_files")
    )


def _own(file: str, what: str, mend: str, where: Where) -> Fault:
    return Fault(Exit.INPUT, "list-own-file", f"{file} is {what}, no guest list.", mend, where)
