"""Working back from the wedding: by when each step must be done."""

import datetime as dt
from collections.abc import Iterable
from functools import cache

from addressing.records.calendar import Day, Work
from addressing.records.costs import WORKDAY
from addressing.tables import table


def calendar(
    wedding: dt.date,
    today: dt.date | None,
    *,
    abroad: bool,
    work: Work,
    posting: dt.date | None = None,
) -> tuple[Day, ...]:
    """Each step's last day, in the order of the work; `late` where it is past by `today`.

    Everything is filled before the first of it is posted: what goes `abroad` before what stays at
    home. `posting` is the day that was chosen for it; what goes abroad isn't posted later than
    its span before the wedding says.
    """
    posts = _posts(wedding, posting, abroad=abroad)
    filled = posts[0][0] - dt.timedelta(days=_span("assembled"))
    filling = -(-work.assembly_minutes // WORKDAY)
    printed = filled - dt.timedelta(days=filling + work.dry_days)
    begin = printed - dt.timedelta(days=work.print_days)
    approved = begin - dt.timedelta(days=_span("approve"))
    answered = approved - dt.timedelta(days=_span("answers"))
    steps = [
        (answered, "answers", f"{_span('answers')} days before the proof is approved"),
        (approved, "approve", f"{_span('approve')} days before printing begins"),
        (begin, "Printing begins", f"{_days(work.print_days)} for printing"),
        (printed, "Printing is done", _rest(work.dry_days, filling)),
        (filled, "assembled", f"{_span('assembled')} days before posting"),
        *posts,
        (wedding - dt.timedelta(days=_span("reply")), "reply", "counted from the wedding"),
        (wedding, "The wedding", "as the docket says"),
    ]
    return tuple(_day(date, what, why, today) for date, what, why in steps)


def _posts(
    wedding: dt.date, posting: dt.date | None, *, abroad: bool
) -> list[tuple[dt.date, str, str]]:
    """The days of posting, the first one first: (day, span's key, why)."""
    counted, chosen = "counted from the wedding", "as the docket says"
    home = posting or wedding - dt.timedelta(days=_span("post.home"))
    posts = [(home, "post.home", chosen if posting else counted)]
    if abroad:
        last = wedding - dt.timedelta(days=_span("post.abroad"))
        soon = posting is not None and posting <= last
        posts.insert(0, (home if soon else last, "post.abroad", chosen if soon else counted))
    return posts


def late(days: Iterable[Day]) -> tuple[Day, ...]:
    """What is past already."""
    return tuple(day for day in days if day.late)


def _day(date: dt.date, what: str, why: str, today: dt.date | None) -> Day:
    words = _spans().get(what, {}).get("what", what)
    return Day(date, words.partition(" (")[0].partition(":")[0], why, bool(today and date < today))


def _rest(dry: int, filling: int) -> str:
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
