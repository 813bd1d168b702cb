"""Working back from the wedding: by when each step must be done."""

import datetime as dt
from collections.abc import Iterable, Sequence
from functools import cache

from addressing.estimating.resting import Rest, back, open_by, why_shut
from addressing.records.calendar import Day, Work
from addressing.records.costs import WORKDAY
from addressing.tables import table

_NO_REST: Rest = {}


def calendar(
    wedding: dt.date,
    today: dt.date | None,
    *,
    abroad: bool,
    work: Work,
    posting: dt.date | None = None,
    rest: Rest = _NO_REST,
) -> tuple[Day, ...]:
    """Each step's last day, in the order of the work; `late` where it is past by `today`.

    Everything is filled before the first of it is posted: what goes `abroad` before what stays at
    home. `posting` is the day that was chosen for it; what goes abroad isn't posted later than
    its span before the wedding says. On days of `rest` nobody prints or fills, and neither then nor
    on Sundays is anything posted: a day that was reckoned goes before them, a chosen one stays.
    """
    posts = _posts(wedding, posting, rest, abroad=abroad)
    filled = min(date for date, _, _ in posts) - dt.timedelta(days=_span("assembled"))
    filling = -(-work.assembly_minutes // WORKDAY)
    dried, rested = back(filled, filling, rest)
    printed = dried - dt.timedelta(days=work.dry_days)
    begin, paused = back(printed, work.print_days, rest)
    approved = begin - dt.timedelta(days=_span("approve"))
    answered = approved - dt.timedelta(days=_span("answers"))
    printing = f"{_days(work.print_days)} for printing{_but_for(paused, rest)}"
    ready = _dry_and_fill(work.dry_days, filling) + _but_for(rested, rest)
    steps = [
        (answered, "answers", f"{_span('answers')} days before the proof is approved"),
        (approved, "approve", f"{_span('approve')} days before printing begins"),
        (begin, "Printing begins", printing),
        (printed, "Printing is done", ready),
        (filled, "assembled", f"{_span('assembled')} days before posting"),
        *posts,
        (wedding - dt.timedelta(days=_span("reply")), "reply", "counted from the wedding"),
        (wedding, "The wedding", "as the docket says"),
    ]
    return tuple(_day(date, what, why, today) for date, what, why in steps)


def _posts(
    wedding: dt.date, posting: dt.date | None, rest: Rest, *, abroad: bool
) -> list[tuple[dt.date, str, str]]:
    """The days of posting, the first one first: (day, span's key, why)."""
    home = posting or wedding - dt.timedelta(days=_span("post.home"))
    posts = [_post("post.home", home, rest, chosen=posting is not None)]
    if abroad:
        last = wedding - dt.timedelta(days=_span("post.abroad"))
        soon = posting is not None and posting <= last
        posts.insert(0, _post("post.abroad", home if soon else last, rest, chosen=soon))
    return posts


def _post(key: str, day: dt.date, rest: Rest, *, chosen: bool) -> tuple[dt.date, str, str]:
    """A day of posting and why it is that."""
    shut = why_shut(day, rest)
    if chosen:
        return day, key, "as the docket says" + (f"; the post rests then: {shut}" if shut else "")
    moved = f"; {day.isoformat()} is {shut}" if shut else ""
    return open_by(day, rest), key, f"counted from the wedding{moved}"


def _but_for(passed: Sequence[dt.date], rest: Rest) -> str:
    """The days of rest within a span of work."""
    told = ", ".join(f"{day.isoformat()} ({rest[day]})" for day in passed)
    return f", not on {told}" if told else ""


def late(days: Iterable[Day]) -> tuple[Day, ...]:
    """What is past already."""
    return tuple(day for day in days if day.late)


def _day(date: dt.date, what: str, why: str, today: dt.date | None) -> Day:
    words = _spans().get(what, {}).get("what", what)
    return Day(date, words.partition(" (")[0].partition(":")[0], why, bool(today and date < today))


def _dry_and_fill(dry: int, filling: int) -> str:
    """What follows the printing."""
    return f"{_days(dry)} to dry, {_days(filling)} to fill" if dry else f"{_days(filling)} to fill"


def drying_days(method: str | None, ink: str, surface: str | None) -> int:
    """How long print rests before it is filled (data/drying.tsv: the row that says most).

    A row for the way of printing says more than one for the ink, that more than one for the paper.

    >>> drying_days("toner", "White", "cotton"), drying_days("inkjet", "Black", "coated")
    (0, 2)
    """
    asked = {"method": method, "ink": ink, "surface": surface}

    def holds(row: dict[str, str]) -> bool:
        return all(row[key] in ("*", value) for key, value in asked.items())

    def said(row: dict[str, str]) -> tuple[bool, ...]:
        return tuple(row[key] != "*" for key in asked)

    return int(max(filter(holds, table("drying")), key=said)["days"])


def _days(number: int) -> str:
    return "1 day" if number == 1 else f"{number} days"


@cache
def _spans() -> dict[str, dict[str, str]]:
    return {row["key"]: row for row in table("spans")}


def _span(key: str) -> int:
    return int(_spans()[key]["days"])
