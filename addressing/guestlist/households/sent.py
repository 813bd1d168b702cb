"""When rows were sent in by a form: of two answers of one household the later is likely right."""

import datetime as dt
import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from addressing.guestlist.asking import finding
from addressing.guestlist.grid import Table
from addressing.guestlist.tables.meanings import fold, signs
from addressing.records.findings import Finding
from addressing.records.guests import Household, Kind, Person
from addressing.where import Where

_DAY = re.compile(
    r"(?<!\d)(?:(?P<iso>\d{4})[-/.](?P<month>\d{1,2})[-/.](?P<day>\d{1,2})"
    r"|(?P<one>\d{1,2})[-/.](?P<two>\d{1,2})[-/.](?P<year>\d{4}|\d{2}))(?!\d)"
)
_TIME = re.compile(
    r"(?<!\d)(?P<hour>\d{1,2}):(?P<minute>\d{2})(?::(?P<second>\d{2}))?"
    r"(?:\.\d+)?\s*(?P<half>[ap]\.?m\b)?",
    re.IGNORECASE,
)
_CENTURY, _NOON = 2000, 12
_PAIRS = frozenset(("duplicate-probable", "household-doubtful"))
"""Findings that ask which of two rows, or of two doors, is meant."""
_PLACES = ("first", "second")
Sent = Mapping[tuple[str | None, int], "Stamp"]
"""By sheet and row when it was sent."""


@dataclass(frozen=True, slots=True)
class Stamp:
    """A time as a form writes it; `read` are the times that it may be (day or month first)."""

    text: str
    read: tuple[dt.datetime | None, dt.datetime | None]


def sent_in(tables: Iterable[Table]) -> Sent:
    """The times of all rows of tables that have a column for it."""
    found: dict[tuple[str | None, int], Stamp] = {}
    for table in tables:
        places = [c.index for c in table.columns if fold(c.header) in signs("sent-sign")]
        for row in table.rows if places else ():
            cell = row.cell(places[0])
            if cell is not None and _DAY.search(cell.text):
                found[table.sheet, row.number] = stamp_of(cell.text)
    return found


def later_proposed(
    findings: Iterable[Finding], households: Sequence[Household], sent: Sent
) -> Iterator[Finding]:
    """The findings; where two households may be one, the one that was sent later is likely."""
    at = {home.key: place for place, home in enumerate(households)} if sent else {}
    rows = {where: place for place, home in enumerate(households) if sent for where in home.rows}
    for found in findings:
        pair = _pair(found, at, rows) if sent and found.code in _PAIRS else ()
        stamps = [_latest(households[place].rows, sent) for place in pair]
        yield _with_later(found, stamps)


def sent_anew(
    findings: Sequence[Finding], households: Sequence[Household], sent: Sent
) -> Iterator[Finding]:
    """The questions of households that a form named again, later, without somebody of before."""
    again: dict[str, list[tuple[Where, Where]]] = {}
    for found in findings if sent else ():
        if found.code == "duplicate-merged" and found.also and found.household:
            again.setdefault(found.household, []).append((found.where, found.also[0]))
    for home in households if again else ():
        yield from _left_out_later(home, again.get(home.key, ()), sent)


def _left_out_later(
    home: Household, again: Sequence[tuple[Where, Where]], sent: Sent
) -> Iterator[Finding]:
    last = _latest(home.rows, sent)
    late = {row for row in home.rows if last is not None and _sent_at(row, sent) == last}
    named = late | {one for other, one in again if other in late}
    if last is None or named == late:
        return
    places = {(where.sheet, where.row) for where in named}
    there = [p for p in home.people if any((c.sheet, c.row) in places for c in p.cells)]
    if len(there) == len(home.people) or not there:
        return
    gone = [p for p in home.people if p not in there]
    where = min(late, key=home.rows.index)
    text = f"Sent in again, {last.text}: {_named(there)}; before also {_named(gone)}."
    asked = finding("duplicate-probable", where, text, "Who is invited?")
    likely = [("resent", last.text), ("before", _named(gone)), ("now", _named(there))]
    if all(person.kind is Kind.NAMED for person in there):
        likely.append(("names", _named(there)))
    yield replace(asked, household=home.key, also=home.rows, likely=tuple(likely))


def _named(people: Iterable[Person]) -> str:
    words = ((p.title, p.given, p.family, p.suffix) for p in people)
    return " and ".join(" ".join(word for word in each if word) or "Guest" for each in words)


def _sent_at(row: Where, sent: Sent) -> Stamp | None:
    return sent.get((row.sheet, row.row or 0))


def _pair(found: Finding, at: Mapping[str, int], rows: Mapping[Where, int]) -> list[int]:
    """The places of the two households that a finding is about, in the list's order; else none."""
    own = at.get(found.household or "")
    homes = {
        *([own] if own is not None else []),
        *(rows[where] for where in found.also if where in rows),
    }
    return sorted(homes) if len(homes) == len(_PLACES) else []


def _with_later(found: Finding, stamps: Sequence[Stamp | None]) -> Finding:
    one, other = stamps or (None, None)
    if one is None or other is None:
        return found
    later = 1 if is_later(other, one) else 0 if is_later(one, other) else None
    if later is None:
        return found
    likely = (f"later_{_PLACES[later]}", (one, other)[later].text)
    return replace(found, likely=(*found.likely, likely))


def _latest(rows: Sequence[Where], sent: Sent) -> Stamp | None:
    stamps = [_sent_at(row, sent) for row in rows]
    last = stamps[0] if stamps else None
    for stamp in stamps[1:]:
        if stamp is None or last is None:
            return None
        last = stamp if is_later(stamp, last) else last
    return last


def is_later(one: Stamp, other: Stamp) -> bool:
    """True where it is, in each order of day and month in which both can be read."""
    both = [pair for pair in zip(one.read, other.read, strict=True) if None not in pair]
    return bool(both) and all(a > b for a, b in both if a is not None and b is not None)


def stamp_of(text: str) -> Stamp:
    """The time that a cell gives, as often as it can be read.

    >>> [each and each.day for each in stamp_of("2/13/2027 9:01").read]
    [13, None]
    """
    day, time = _DAY.search(text), _TIME.search(text)
    if day is None:
        return Stamp(text, (None, None))
    if day["iso"]:
        orders = [(day["iso"], day["month"], day["day"])] * 2
    else:
        orders = [(day["year"], day["one"], day["two"]), (day["year"], day["two"], day["one"])]
    one, other = (_moment(each, time) for each in orders)
    return Stamp(text, (one, other))


def _moment(day: tuple[str, str, str], time: re.Match[str] | None) -> dt.datetime | None:
    year, month, date = map(int, day)
    year += _CENTURY if len(day[0]) <= 2 else 0  # noqa: PLR2004 - '27
    hour, minute, second = (
        (int(time["hour"]), int(time["minute"]), int(time["second"] or 0)) if time else (0, 0, 0)
    )
    half = (time["half"] or "").lower()[:1] if time else ""
    if half:
        hour = hour % _NOON + (_NOON if half == "p" else 0)
    try:
        return dt.datetime(year, month, date, hour, minute, second)  # noqa: DTZ001 - as written
    except ValueError:
        return None
