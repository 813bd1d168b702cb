"""A second address that holds for some months: which of the two holds on the day of posting."""

import re
from dataclasses import dataclass, replace
from datetime import date
from functools import lru_cache

from addressing.guestlist.folding import fold
from addressing.guestlist.grid import Row, Table
from addressing.guestlist.homes.row_address import PLACES, cells_of, written_address
from addressing.guestlist.tables.meanings import SEASON_PARTS
from addressing.guestlist.written import Written

_PREFIX = "season_"
_MONTHS = {
    name: number
    for number, names in enumerate(
        (
            "jan januar janvier enero", "feb februar fevrier febrero", "mar mrz marz mars marzo",
            "apr avril abril", "may mai mayo", "jun juni juin junio", "jul juli juillet julio",
            "aug august aout agosto", "sep sept september septiembre", "oct okt octobre octubre",
            "nov noviembre", "dec dez dezember diciembre",
        ),
        start=1,
    )
    for name in names.split()
}  # fmt: skip
_ENGLISH = (
    "january", "february", "march", "april", "may", "june", "july", "august", "september",
    "october", "november", "december",
)  # fmt: skip
_MONTHS.update({name: number for number, name in enumerate(_ENGLISH, start=1)})
_ISO = re.compile(r"\b(\d{4})-(\d\d)-(\d\d)\b")
_NUMERIC = re.compile(r"\b(\d{1,2})/(\d{1,2})(?:/\d{2,4})?\b")
_NAMED = re.compile(
    rf"(?:\b(\d{{1,2}}) ?)?\b({'|'.join(sorted(_MONTHS, key=len, reverse=True))})\b"
    r"(?: (\d{1,2})(?:st|nd|rd|th)?\b)?"
)
_LAST = 31

Day = tuple[int, int]
"""Month and day."""


@dataclass(frozen=True, slots=True)
class Season:
    """The second address as written, what the list says of its time, and that time if it is clear.

    `start` and `end` are (month, day), both within; a season may go over the end of the year.
    """

    written: Written
    said: str
    start: Day | None = None
    end: Day | None = None

    def holds(self, posting: str | None) -> bool | None:
        """Whether the second address holds on a day (ISO 8601); None where that can't be told."""
        if posting is None or self.start is None or self.end is None:
            return None
        when = date.fromisoformat(posting)
        day = (when.month, when.day)
        if self.start <= self.end:
            return self.start <= day <= self.end
        return day >= self.start or day <= self.end


def season_of(table: Table, row: Row) -> Season | None:
    """The second address of a row; None without one."""
    columns = _season_table(table)
    if columns is None:
        return None
    written = written_address(columns, row)
    if written.empty:
        return None
    dates = [cell.text for cell in cells_of(table, row, "season_dates")]
    ends = [c.text for m in ("season_from", "season_until") for c in cells_of(table, row, m)]
    said = " to ".join(dates or ends)
    start, end = window(said)
    return Season(written, said, start, end)


@lru_cache(maxsize=8)
def _season_table(table: Table) -> Table | None:
    """The table as if its season columns were its address."""
    if not any(column.meaning in SEASON_PARTS for column in table.columns):
        return None
    turned = tuple(
        replace(column, meaning=column.meaning.removeprefix(_PREFIX))
        for column in table.columns
        if column.meaning in SEASON_PARTS
    )
    others = tuple(c for c in table.columns if c.meaning not in (*PLACES, *SEASON_PARTS))
    return replace(table, columns=(*others, *turned), rows=())


def window(said: str) -> tuple[Day | None, Day | None]:
    """From when to when: two dates or two months, as lists write them; (None, None) if unclear.

    >>> window("Nov - Apr"), window("11/15 to 4/1"), window("2026-12-01 to 2027-03-15")
    (((11, 1), (4, 31)), ((11, 15), (4, 1)), ((12, 1), (3, 15)))
    >>> window("winter")
    (None, None)
    """
    found = _dates(said)
    pair = 2
    if len(found) != pair:
        return None, None
    (month, day), (last, until) = found
    return (month, day or 1), (last, until or _LAST)


def _dates(said: str) -> list[tuple[int, int | None]]:
    iso = [(int(month), int(day)) for _, month, day in _ISO.findall(said)]
    numeric = [(int(month), int(day)) for month, day in _NUMERIC.findall(said)]
    for exact in (iso, numeric):
        if exact:
            return [*exact] if all(1 <= month <= len(_ENGLISH) for month, _ in exact) else []
    return [
        (_MONTHS[name], int(before or after) if before or after else None)
        for before, name, after in _NAMED.findall(fold(said))
    ]
