"""Rows in a list that hold no guest: totals, counts, empty check boxes."""

import re
from collections.abc import Mapping, Sequence
from functools import cache

from addressing.guestlist.grid import Cell, Column, Merge, Row
from addressing.guestlist.people.adding import only_adds
from addressing.guestlist.tables.claims import ADDRESSES, NAMES
from addressing.guestlist.tables.headings import says_by_hand, says_whose
from addressing.guestlist.tables.meanings import fold, signs
from addressing.tables import table

_SUMS = re.compile(r"=\s*(?:SUM|COUNT|COUNTA|COUNTIF|SUBTOTAL|SUMIF|AGGREGATE)\b", re.IGNORECASE)
_COUNTS = frozenset(
    ("invited_count", "adult_count", "ignore", "elsewhere", "notes", "reply", "declined", "wave")
) | {"by_hand", "side"}
_MAYBE_COUNTS = frozenset({"children", "guest", "household"})
_WIDE = 3
HEADING = "a heading"
"""Why a row isn't used that only says whose guests follow."""
_MARKS = re.compile(r"^[\s*•·\-–—=>#~.!?]+")
_AROUND_CHILDREN = re.compile(r"[()\[\]]|^\s*(?:\+|&|and\b|plus\b)", re.IGNORECASE)
_OF_CHILDREN = frozenset({"name", "given", "household"})
_SUM_WORDS = ("total", "subtotal")
_PROSE = 3
"""Words of a remark at least."""
_OPENING = 1
"""The ordinal of words for a sum that are nobody's name, so that more may stand behind them."""
NO_WORDS = "nothing but counts and marks"
"""Why a row isn't used that can hold no guest; a remark may stand there all the same."""
REMARK = "a remark, no guest"
"""Why a row of words that name nobody isn't used; such rows are asked about once."""


def why_no_guest(row: Row, columns: Sequence[Column], merges: Sequence[Merge]) -> str | None:
    """Why a row holds no guest, or None when it may hold one."""
    if _is_plain(row, columns) or _counts_children(row, columns):
        return None
    return _why(row, columns, merges)


def _is_plain(row: Row, columns: Sequence[Column]) -> bool:
    """True for the row of a guest as most are, with words or a number of an address behind it."""
    texts = row.texts
    if not texts or fold(texts[0][1]).startswith(_SUM_WORDS):
        return False
    places = {column.index for column in columns if column.meaning in ADDRESSES}
    held = row.held
    return any(
        index in places
        and isinstance(held[index], str)
        and not text[:1].islower()
        and not _is_total(folded := fold(text))
        and not _counts(folded)
        and folded not in _lines("no-entry")
        for index, text in texts[1:]
    )


def _why(row: Row, columns: Sequence[Column], merges: Sequence[Merge]) -> str | None:
    cells = row.filled
    addressed = any(column.meaning in ADDRESSES for column in columns)
    # "Groom's family", and how many they are, or a remark on all of them
    counted = all(_is_count(cell) or is_said_beside(cell) for cell in cells[1:])
    headed = _is_heading(row, cells[0], merges) if counted else False
    handed = len(cells) == 1 and says_by_hand(cells[0].text)
    if addressed and (headed or handed or (len(cells) == 1 and _heads_rows(row, columns))):
        return HEADING
    beside = addressed and _says_nothing_used(row, columns)
    if (len(cells) == 1 and addressed and is_remark(cells[0].text)) or beside:
        return "a total" if sums_up(cells[0].text) else REMARK
    meanings = {column.index: column.meaning for column in columns}
    used = [cell for index, cell in enumerate(row.cells)
            if cell is not None and cell.filled and meanings.get(index) != "ignore"]  # fmt: skip
    sums = _is_sum_line(cells) or _is_sum_line(used)  # a time may stand before the word
    if sums or (not _is_placed(row, meanings) and _opens_a_sum(cells[0])):
        return "a total"
    if all(cell.kind == "boolean" for cell in cells):
        return "check boxes only"
    if all(_is_count(cell) for cell in cells):
        return "counts only" if not any(_is_total(fold(cell.text)) for cell in cells) else "a total"
    telling = any(
        _tells(cell, meanings.get(index))
        for index, cell in enumerate(row.cells)
        if cell is not None and cell.filled
    )
    return None if telling else NO_WORDS


def _counts_children(row: Row, columns: Sequence[Column]) -> bool:
    """True for "Kids (2)" where a name belongs, in a household's row: children without a name.

    So in brackets or behind a plus anywhere; "12 kids" alone may be the list's own sum.
    """
    said = {c.meaning: row.text(c.index) for c in columns if c.meaning in _OF_CHILDREN}
    text = said.get("name") or said.get("given") or ""
    bare = _AROUND_CHILDREN.sub(" ", text)
    words = [word for word in fold(bare).split() if not word.isdecimal()]
    counted = len(words) == 1 and words[0] in _lines("children-counted")
    return counted and (bool(said.get("household")) or bare != text)


def _says_nothing_used(row: Row, columns: Sequence[Column]) -> bool:
    """True for words alone in a column that means nothing, where others name the guests."""
    unknown = {column.index for column in columns if column.meaning is None}
    places = {at for at, cell in enumerate(row.cells) if cell is not None and cell.filled}
    return len(places) == 1 and places <= unknown and row.filled[0].kind == "text"


def _heads_rows(row: Row, columns: Sequence[Column]) -> bool:
    """True for "late:" alone in its row; with a capital it may be a name in a column of names."""
    names = {column.index for column in columns if column.meaning in NAMES - {"household"}}
    places = [at for at, cell in enumerate(row.cells) if cell is not None and cell.filled]
    text = row.filled[0].text.strip()
    plain = names.isdisjoint(places) or text.islower() or only_adds(text)
    return text.endswith(":") and plain


def is_said_beside(cell: Cell) -> bool:
    """True for words beside a heading that are neither a name nor an address: "see mom"."""
    words = cell.text.strip()
    return words[:1].islower() and not any(mark.isdecimal() for mark in words)


def is_remark(text: str) -> bool:
    """True for a line that speaks of the list and names nobody.

    >>> [is_remark(t) for t in ("Mom says no more than 120", "Hugh Carrow is moving", "TBD")]
    [True, False, True]
    """
    words = _MARKS.sub("", text).split()
    folded = [fold(word) for word in words]
    if not any(folded) or " ".join(folded).strip() in _lines("nobody"):
        return True
    if len(words) < _PROSE:
        return False
    if folded[0] in _lines("remark") | _lines("remark-opens"):
        return True
    named = words[0][:1].isupper() and words[1][:1].isupper()
    small = (word for raw, word in zip(words, folded, strict=True) if raw.islower())
    return not named and any(word in _lines("remark") for word in small)


def sums_up(text: str) -> bool:
    """True for words that only count what the list has: nobody can stand in them.

    >>> [sums_up(each) for each in ("Total: 25 households", "That makes 48 guests!", "Total Orme")]
    [True, True, False]
    """
    words = fold(text).split()
    counted = {word for known in ("count-sign", "total-sign") for word in _single(known)}
    if not any(word.isdecimal() for word in words) or counted.isdisjoint(words):
        return False
    return all(word.isdecimal() or word in counted | _lines("in-sum") for word in words)


def sums_the_list(text: str) -> bool:
    """True for such words of the whole list; "2 adults" may be said of one household.

    >>> [sums_the_list(each) for each in ("Guest list: 25 households", "2 adults", "25 Mill Row")]
    [True, False, False]
    """
    return sums_up(text) and not _lines("sum-of-list").isdisjoint(fold(text).split())


@cache
def _single(kind: str) -> frozenset[str]:
    """The words of which the words of a header are made; the letters of "T O T A L" are none."""
    said = (word for words in signs(kind) for word in words.split())
    return frozenset(word for word in said if len(word) > 1)


@cache
def _lines(kind: str) -> frozenset[str]:
    return frozenset(row["word"] for row in table("row_words") if row["kind"] == kind)


def _is_sum_line(cells: Sequence[Cell]) -> bool:
    """True for words that open with "Total" or "Subtotal" and nothing but numbers beside them."""
    if not cells:
        return False
    first, rest = cells[0], cells[1:]
    opens = fold(first.text).split()[:1] in (["total"], ["totals"], ["subtotal"], ["subtotals"])
    numbers = all(cell.kind in {"number", "formula"} or cell.text.isdecimal() for cell in rest)
    return opens and bool(rest) and numbers


def _opens_a_sum(cell: Cell) -> bool:
    """True for "TOTAL" and "Total so far (with kids)": nobody without an address is called so."""
    words = fold(cell.text).split()
    opening = (" ".join(words[:size]) for size in (1, 2))
    whole = " ".join(words) in signs("total-sign")
    return (
        whole
        or sums_up(cell.text)
        or any(signs("total-sign").get(said) == _OPENING for said in opening)
    )


def _is_placed(row: Row, meanings: Mapping[int, str | None]) -> bool:
    """True for a row with words of an address; a state's column that holds a count says none."""
    placed = (cell for index, cell in enumerate(row.cells) if meanings.get(index) in ADDRESSES)
    return any(cell is not None and cell.filled and not _is_count(cell) for cell in placed)


def _tells(cell: Cell, meaning: str | None) -> bool:
    """True when a cell may say who is invited, or where."""
    if cell.kind == "boolean" or meaning in _COUNTS or fold(cell.text) in _lines("no-entry"):
        return False
    if meaning in _MAYBE_COUNTS:
        return not _is_count(cell) and fold(cell.text) not in signs("mark-sign")
    return True


def _is_heading(row: Row, cell: Cell, merges: Sequence[Merge]) -> bool:
    """True for a lone text across the columns, or one that only says whose guests follow."""
    across = any(
        merge.top == row.number and merge.right - merge.left + 1 >= _WIDE for merge in merges
    )
    if fold(cell.text) == "guest":  # a companion of the row above; "Guests" is a heading
        return across
    return across or says_whose(cell.text)


def _is_count(cell: Cell) -> bool:
    """A number, a sum, or words that say that a number stands here."""
    if cell.kind in {"number", "boolean"}:
        return True
    if cell.kind == "formula":
        return _SUMS.match(cell.shown or "") is not None
    return _is_total(folded := fold(cell.text)) or _counts(folded)


def _counts(text: str) -> bool:
    """True for "134 guests" and "52"; a house number is followed by other words."""
    words = text.split()
    if not any(word.isdecimal() for word in words):
        return False
    counts, totals = signs("count-sign"), signs("total-sign")
    return all(word.isdecimal() or word in counts or word in totals for word in words)


def _is_total(folded: str) -> bool:
    """True for "TOTAL", "Total: 134 guests", "Total guests invited 134"."""
    words = [word for word in folded.split() if not word.isdecimal()]
    if " ".join(words) in signs("total-sign"):
        return True
    known = signs("count-sign")
    opens = bool(words) and words[0] in signs("total-sign")
    return opens and all(word in known for word in words[1:])
