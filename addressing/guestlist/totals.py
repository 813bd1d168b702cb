"""Rows in a list that hold no guest: totals, counts, empty check boxes."""

import re
from collections.abc import Sequence

from addressing.guestlist.grid import Cell, Column, Row
from addressing.guestlist.meanings import fold, signs

_COUNTED = re.compile(r"(?:=|about |ca )?\d+ ?([^\d]*)")
_SUMS = re.compile(r"=\s*(?:SUM|COUNT|COUNTA|COUNTIF|SUBTOTAL|SUMIF|AGGREGATE)\b", re.IGNORECASE)
_COUNTS = frozenset({"invited_count", "children", "guest", "ignore", "notes", "household", None})


def why_no_guest(row: Row, columns: Sequence[Column]) -> str | None:
    """Why a row holds no guest, or None when it may hold one."""
    cells = row.filled
    if all(cell.kind == "boolean" for cell in cells):
        return "check boxes only"
    if all(_is_count(cell) for cell in cells):
        return "counts only" if not any(map(_is_total, cells)) else "a total"
    meanings = {column.index: column.meaning for column in columns}
    used = {
        meanings.get(index)
        for index, cell in enumerate(row.cells)
        if cell is not None and cell.filled and cell.kind != "boolean"
    }
    return None if used - _COUNTS or None in used else "nothing but counts and marks"


def _is_count(cell: Cell) -> bool:
    """A number, a sum, or words that say that a number stands here."""
    if cell.kind in {"number", "boolean"}:
        return True
    if cell.kind == "formula":
        return _SUMS.match(cell.shown or "") is not None
    return _is_total(cell) or _counts(fold(cell.text))


def _counts(text: str) -> bool:
    """True for "134 guests" and "52"; a house number is followed by other words."""
    match = _COUNTED.fullmatch(text)
    return match is not None and (not match[1] or match[1] in signs("count-sign"))


def _is_total(cell: Cell) -> bool:
    """True for "TOTAL", "Total: 134 guests", "Total guests invited 134"."""
    words = fold(cell.text)
    bare = " ".join(word for word in words.split() if not word.isdecimal())
    if bare in signs("total-sign"):
        return True
    head = bare.split()[:1]
    rest = bare.split()[1:]
    known = signs("count-sign")
    return bool(head) and head[0] in signs("total-sign") and all(word in known for word in rest)
