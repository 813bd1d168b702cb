"""Days of rest: public holidays of a country, and steps of work that pass over them."""

import calendar as months
import datetime as dt
from collections.abc import Iterable, Mapping

from addressing.tables import table

Rest = Mapping[dt.date, str]
"""Days on which nobody prints, fills or posts, each with its reason."""

_SUNDAY, _SATURDAY = 6, 5
_WEEKDAYS = [name.casefold() for name in months.day_name]


def holidays(country: str, years: Iterable[int]) -> dict[dt.date, str]:
    """The public holidays of a country (data/holidays.tsv), with the days on which they are kept.

    >>> holidays("US", [2026])[dt.date(2026, 7, 3)]
    'Independence Day'
    """
    found: dict[dt.date, str] = {}
    for year in years:
        for row in table("holidays"):
            if row["country"] == country:
                day = _day(row["day"], year)
                for kept in (day, _kept(day)):
                    found.setdefault(kept, row["what"])
    return found


def back(day: dt.date, number: int, rest: Rest) -> tuple[dt.date, tuple[dt.date, ...]]:
    """So many days of work before a day, and the days of rest that were passed over."""
    passed = []
    while number > 0:
        day -= dt.timedelta(days=1)
        if day in rest:
            passed.append(day)
        else:
            number -= 1
    return day, tuple(passed[::-1])


def open_by(day: dt.date, rest: Rest) -> dt.date:
    """The last day up to this one on which the post takes mail: no Sunday and no day of rest."""
    while day in rest or day.weekday() == _SUNDAY:
        day -= dt.timedelta(days=1)
    return day


def why_shut(day: dt.date, rest: Rest) -> str | None:
    """Why the post takes nothing on a day; None where it does."""
    return rest.get(day, "a Sunday" if day.weekday() == _SUNDAY else None)


def _day(rule: str, year: int) -> dt.date:
    """The day of a year by its rule: "07-04", "09 monday 1", "05 monday last"."""
    if "-" in rule:
        month, _, number = rule.partition("-")
        return dt.date(year, int(month), int(number))
    month, weekday, which = rule.split()
    weeks = months.monthcalendar(year, int(month))
    days = [day for week in weeks if (day := week[_WEEKDAYS.index(weekday)])]
    return dt.date(year, int(month), days[-1 if which == "last" else int(which) - 1])


def _kept(day: dt.date) -> dt.date:
    """The day of the working week on which a holiday is kept."""
    shift = {_SATURDAY: -1, _SUNDAY: 1}.get(day.weekday(), 0)
    return day + dt.timedelta(days=shift)
