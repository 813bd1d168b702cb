"""The numbers by which a list counts its rows, told from those that count guests.

A column of such numbers is known by what it holds; over a mail's households they stand before the
names. Remarks elsewhere speak of guests by them ("strike 12").
"""

import re
from collections.abc import Iterator, Mapping, Sequence
from itertools import islice

from addressing.guestlist.folding import fold
from addressing.guestlist.grid import Column, Row
from addressing.guestlist.people.vocabulary import words
from addressing.guestlist.tables.claims import NAMES, Draft
from addressing.guestlist.tables.contents import SAMPLE
from addressing.guestlist.tables.meanings import Hit, signs
from addressing.guestlist.tables.meanings import fold as fold_header

_NUMBER = re.compile(
    r"[#(]?(?:no\.? ?)?(?P<number>[a-z]{0,3}-?\d{1,4}[a-z]?)(?:\.0)?[.):]?", re.IGNORECASE
)
_OPENING = re.compile(
    r"[\s>*•–-]*(?:\(|#|(?:no|nr)\.? ?)?(?P<number>\d{1,3}[a-z]?)"
    r"(?:[.):]+(?=\s|$)|\s+[-–—]\s+(?=(?-i:[A-Z])))",
    re.IGNORECASE,
)
_JOINTS = re.compile(r"\s*(?:[/,&+]|(?<=\d)-(?=\d)|\band\b)\s*")
Numbers = Mapping[int, tuple[str, ...]]
"""The numbers with which a list counts its rows, by the row's own; mostly one each."""
_FEWEST = 3
"""Rows that are counted at least."""
_WIDE = 2
"""Between the first number and the last lie at most so many times as many as there are rows."""
_FITS = 0.75
"""The part of the rows whose names a count of guests fits at least."""
_MOST_GUESTS = 20
_PAIR = 2
_OTHERS = 0.1
"""Cells of other words for each with a number at most: "new", "?"."""
_OPEN_MEANINGS = (None, "ignore", "household")


def settle_counts(drafts: Sequence[Draft], rows: Sequence[Row]) -> None:
    """Tell "#" over 2, 2, 4, 1 (how many guests) from "Guest no." over 1, 2, 3 (which row).

    Headers say either; what stands below them decides.
    """
    for draft in drafts:
        if draft.hit is None or draft.how == "docket":
            continue
        bare = fold_header(draft.header) in signs("number-sign")
        meaning = draft.hit.meaning
        if meaning == "invited_count" and _runs(numbers_in(rows, draft.index), closely=True):
            draft.take(Hit("ignore"), "header")
        elif meaning == "ignore" and bare and _counts_guests(draft, drafts, rows):
            draft.take(Hit("invited_count"), "header")


def row_numbers(columns: Sequence[Column], rows: Sequence[Row]) -> Numbers:
    """The running numbers of each row, in small letters, by the row's own; empty without any.

    Below a list its numbers may stand again before remarks: rows of two cells count only where
    there are no others.
    """
    rows = [row for row in rows if len(row.filled) > _PAIR] or rows
    for column in columns:
        if column.meaning not in _OPEN_MEANINGS:
            continue
        found = numbers_in(rows, column.index)
        said = {text for several in found.values() for text in several}
        bare = fold_header(column.header) in signs("number-sign") and len(said) == len(found)
        own = bare or (column.meaning == "household" and len(found) >= _FEWEST)
        if own or _runs(found, closely=False):
            return found
    return {}


def opening_number(raw: str) -> str | None:
    """The number with which a line of a numbered list begins.

    >>> [opening_number(each) for each in ("12. Mr. Orr", "> (3) Ada Orr", "12 Elm St", "#4: Kit")]
    ['12', '3', None, '4']
    >>> opening_number("5 - Kit Orr"), opening_number("5 - 7 Elm St")
    ('5', None)
    """
    found = _OPENING.match(raw)
    return found["number"].casefold() if found is not None else None


def numbered_once(found: Mapping[int, str]) -> Numbers:
    """The numbers of a list's lines, where they tell lines apart; "1." before each tells none."""
    told = len(set(found.values())) * _WIDE > len(found) > 1
    return {number: (text,) for number, text in found.items()} if told else {}


def numbers_in(rows: Sequence[Row], index: int) -> Numbers:
    """The numbers in a column, of a cell "7 / 8" both; empty where mostly other things stand."""
    found: dict[int, tuple[str, ...]] = {}
    seen: set[str] = set()
    others = 0
    for row in rows:
        cell = row.cell(index)
        if cell is None or not cell.filled or cell.spread:
            continue
        parts = [_NUMBER.fullmatch(part) for part in _JOINTS.split(cell.text.strip())]
        if all(parts):
            numbers = tuple(part["number"].casefold() for part in parts if part)
            if len(row.texts) == _PAIR and seen.issuperset(numbers) and _is_said(row, index):
                continue  # "12 | out" below the list
            found[row.number] = numbers
            seen.update(numbers)
        elif len(row.texts) > 1:  # a remark below the list has nothing beside it
            others += 1
    return found if others < _OTHERS * len(found) else {}


def _is_said(row: Row, index: int) -> bool:
    """True where words in small letters stand beside a number, and no name."""
    return any(at != index and text[:1].islower() for at, text in row.texts)


def _runs(found: Numbers, *, closely: bool) -> bool:
    """True for numbers that count rows: each once, not far apart; `closely` for 1, 2, 3 only."""
    texts = [text for several in found.values() for text in several]
    plain = [int(text) for text in texts if text.isdecimal()]
    if len(plain) < _FEWEST or len(set(texts)) < len(texts):
        return False
    if closely:
        return plain == list(range(1, len(plain) + 1)) and len(plain) > _FEWEST
    return max(plain) - min(plain) < _WIDE * len(plain)


def _counts_guests(draft: Draft, drafts: Sequence[Draft], rows: Sequence[Row]) -> bool:
    """True where the numbers of most rows can be how many its names are."""
    named = {each.index for each in drafts if each.hit and each.hit.meaning in NAMES}
    numbers = numbers_in(rows, draft.index)
    found = {  # of rows with a name: below them stands the sum
        row.number: int(texts[0])
        for row in rows
        if len(texts := numbers.get(row.number, ())) == 1 and texts[0].isdecimal()
        if any((cell := row.cell(at)) is not None and cell.filled for at in named)
    }
    if len(found) < _FEWEST or len(set(found.values())) == len(found):
        return False
    if max(found.values()) > _MOST_GUESTS:
        return False
    fits = list(islice(_fitting(rows, named, found), SAMPLE))
    return sum(fits) >= _FITS * len(fits) > 0


def _fitting(rows: Sequence[Row], named: set[int], found: Mapping[int, int]) -> Iterator[bool]:
    """For each row with a count whether its names allow it."""
    for row in rows:
        text = " ".join(cell.text for at in sorted(named) if (cell := row.cell(at)) is not None)
        if row.number in found and text:
            said = {fold(word) for word in text.replace("+", " + ").replace("&", " & ").split()}
            several = not said.isdisjoint(words("and") | words("family") | {"&", "+"})
            count = found[row.number]
            yield count >= _PAIR if several else count <= _PAIR
