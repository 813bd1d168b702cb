"""Rows in a list that hold no guest: totals, counts, empty check boxes."""

import re
from collections.abc import Sequence

from addressing.guestlist.grid import Cell, Column, Merge, Row
from addressing.guestlist.tables.claims import ADDRESSES
from addressing.guestlist.tables.meanings import fold, signs

_SUMS = re.compile(r"=\s*(?:SUM|COUNT|COUNTA|COUNTIF|SUBTOTAL|SUMIF|AGGREGATE)\b", re.IGNORECASE)
_COUNTS = frozenset(
    ("invited_count", "adult_count", "ignore", "elsewhere", "notes", "reply", "declined", "wave")
) | {"by_hand", "side"}
_MAYBE_COUNTS = frozenset({"children", "guest", "household"})
_WIDE = 3


def why_no_guest(row: Row, columns: Sequence[Column], merges: Sequence[Merge]) -> str | None:
    """Why a row holds no guest, or None when it may hold one."""
    cells = row.filled
    addressed = any(column.meaning in ADDRESSES for column in columns)
    if len(cells) == 1 and addressed and _is_heading(row, cells[0], merges):
        return "a heading"
    if _is_sum_line(cells):
        return "a total"
    if all(cell.kind == "boolean" for cell in cells):
        return "check boxes only"
    if all(_is_count(cell) for cell in cells):
        return "counts only" if not any(map(_is_total, cells)) else "a total"
    meanings = {column.index: column.meaning for column in columns}
    telling = any(
        _tells(cell, meanings.get(index))
        for index, cell in enumerate(row.cells)
        if cell is not None and cell.filled
    )
    return None if telling else "nothing but counts and marks"


def _is_sum_line(cells: Sequence[Cell]) -> bool:
    """True for words that open with "Total" or "Subtotal" and nothing but numbers beside them."""
    first, rest = cells[0], cells[1:]
    opens = fold(first.text).split()[:1] in (["total"], ["totals"], ["subtotal"], ["subtotals"])
    numbers = all(cell.kind in {"number", "formula"} or cell.text.isdecimal() for cell in rest)
    return opens and bool(rest) and numbers


def _tells(cell: Cell, meaning: str | None) -> bool:
    """True when a cell may say who is invited, or where."""
    if cell.kind == "boolean" or meaning in _COUNTS:
        return False
    if meaning in _MAYBE_COUNTS:
        return not _is_count(cell) and fold(cell.text) not in signs("mark-sign")
    return True


def _is_heading(row: Row, cell: Cell, merges: Sequence[Merge]) -> bool:
    """True for a lone text across the columns, or one that only says whose guests follow."""
    across = any(
        merge.top == row.number and merge.right - merge.left + 1 >= _WIDE for merge in merges
    )
    words = fold(cell.text).split()
    if words == ["guest"]:  # a companion of the row above; "Guests" is a heading
        return across
    return across or all(word in signs("heading-sign") for word in words)


def _is_count(cell: Cell) -> bool:
    """A number, a sum, or words that say that a number stands here."""
    if cell.kind in {"number", "boolean"}:
        return True
    if cell.kind == "formula":
        return _SUMS.match(cell.shown or "") is not None
    return _is_total(cell) or _counts(fold(cell.text))


def _counts(text: str) -> bool:
    """True for "134 guests" and "52"; a house number is followed by other words."""
    words = text.split()
    if not any(word.isdecimal() for word in words):
        return False
    known = signs("count-sign").keys() | signs("total-sign").keys()
    return all(word.isdecimal() or word in known for word in words)


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
