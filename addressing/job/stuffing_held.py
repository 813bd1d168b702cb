"""A stuffing list held against the plates: do number and name of each envelope stand there?"""

import csv
import io
import re
import unicodedata
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path
from typing import NamedTuple

from addressing.faults import Fault
from addressing.guestlist.files.kinds import read_grids
from addressing.guestlist.files.opening import open_list
from addressing.job.hinting import listed
from addressing.preflight import words_of
from addressing.records.kept import KeptJob
from addressing.records.pieces import household_of
from addressing.records.plates import PlateOrder

OUTER = "outer"
"""The kind of piece that is stuffed."""
_LATIN = "\u0250"
"""Where the letters end that a reader of the sheet gives back as they were written."""


def in_piles(orders: Iterable[PlateOrder]) -> Iterator[tuple[int, str]]:
    """The outers of plates of one ink as their piles lie: (number in the order of print, key)."""
    outers = list(orders)
    for order in (each for each in outers if each.ink == outers[0].ink):
        keys = [key for key in order.households if key is not None]
        yield from enumerate(keys[::-1] if order.reverse else keys, order.first)


def stuffing_faults(path: Path, kept: KeptJob) -> Iterator[str]:
    """What a stuffing list (sheet, text, workbook) says otherwise than the plates, in sentences.

    Held are numbers and names in the order of print, each once, in a table keys too; where each
    goes and what is in it aren't.
    """
    outers = [each for each in kept.orders if each.order.kind == OUTER]
    names = {piece.household: piece.name for each in outers for piece in each.pieces}
    piled = in_piles(each.order for each in outers)
    wanted = [_Row(str(number), names[key], household_of(key)) for number, key in piled]
    try:
        missing, more = _sheet_held(path, wanted) if _is_sheet(path) else _table_held(path, wanted)
    except (Fault, UnicodeDecodeError, csv.Error):
        yield f"It can't be read as a {_WORD.get(path.suffix.lower(), 'table')}."
        return
    if missing:
        yield f"It doesn't have in their places: {listed(list(map(str, missing)))}."
    away = {row.folded for row in missing}
    if more := [row for row in more if row.folded not in away]:
        yield f"It has more than once, or besides: {listed(list(map(str, more)))}."


_WORD = {".pdf": "sheet", ".xlsx": "workbook"}
_HEAD = "printhouseholdtoproofinside"
"""What stands above the rows of a sheet."""


class _Row(NamedTuple):
    """An envelope's number, name and household; a sheet doesn't say whose key it is."""

    number: str
    name: str
    key: str

    def __str__(self) -> str:
        """It as it is told."""
        return f"print {self.number}, {self.name}" if self.number else f"{self.name} (no number)"

    @property
    def folded(self) -> tuple[str, str, str]:
        return self.number, plain(self.name), self.key


_Held = tuple[list[_Row], list[_Row]]
"""Rows that aren't there in their order, and rows that are there besides."""


def _is_sheet(path: Path) -> bool:
    return path.suffix.lower() == ".pdf"


def _sheet_held(path: Path, wanted: Sequence[_Row]) -> _Held:
    """The rows of a PDF's sheets, whose words a reader gives back one behind the other."""
    told = plain(words_of(path.read_bytes()))
    rows = [row for row in wanted if is_read_back(row.name)]
    at = start = max(told.find(_HEAD), 0)
    missing = []
    for row in rows:
        found = told.find(_run_together(row), at)
        if found < 0:
            missing.append(row)
        else:
            at = found + len(_run_together(row))
    all_wanted, above, behind = "|".join(map(_run_together, rows)), told[start:at], told[at:]
    more = [
        row
        for row in rows
        if len(_numbered(row, above)) > len(_numbered(row, all_wanted))
        or _run_together(row) in behind
    ]
    return missing, more


def _run_together(row: _Row) -> str:
    return f"{row.number}{plain(row.name)}"


def _numbered(row: _Row, told: str) -> list[str]:
    """Where a name stands behind a number, whichever."""
    return re.findall(f"[0-9]{re.escape(plain(row.name))}", told)


def _table_held(path: Path, wanted: Sequence[_Row]) -> _Held:
    """The rows of a text or a workbook, cell by cell; only who is on no plate has no number."""
    rows = [_Row(*(*cells, "", "", "")[:3]) for cells in _table(path)]
    folded = [row.folded for row in rows]
    keys = {row.key for row in wanted}
    at, missing, used = 0, [], set[int]()
    for row in wanted:
        if row.folded in folded[at:]:
            at = folded.index(row.folded, at) + 1
            used.add(at - 1)
        else:
            missing.append(row)
    more = [
        row
        for place, row in enumerate(rows)
        if place not in used and (row.number or row.key in keys)
    ]
    return missing, more


def _table(path: Path) -> list[tuple[str, ...]]:
    """The rows below the headings.

    Raises:
        Fault: it should be a workbook and is none (exit 3).
    """
    if path.suffix.lower() == ".xlsx":
        grids, *_ = read_grids(open_list(path))
        cells = ([cell.text if cell else "" for cell in row.cells] for row in grids[0].rows)
    else:
        told = path.read_bytes().decode("utf-8")
        cells = (list(row) for row in csv.reader(io.StringIO(told), delimiter="\t"))
    return [tuple(row) for row in cells][1:]


def is_read_back(words: str) -> bool:
    """Whether a reader of sheets gives words back as they were written."""
    return max(words, default="") < _LATIN


def plain(words: str) -> str:
    """Letters and figures alone, folded: lines break anywhere, a hyphen at their end is lost."""
    folded = unicodedata.normalize("NFKC", words).casefold()
    return "".join(letter for letter in folded if letter.isalnum())
