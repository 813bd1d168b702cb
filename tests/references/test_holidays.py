"""Public holidays against lists that were published for single years."""

import datetime as dt

import pytest

from addressing.estimating import holidays

KEPT = {
    # "Federal Holidays" of 2023, with the days on which they are kept (a blog of December 2023 that
    # quotes the Office of Personnel Management).
    2023: "01-02 01-16 02-20 05-29 06-19 07-04 09-04 10-09 11-10 11-23 12-25",
    # "Office holidays" of 2024, US Probation Office, Eastern District of Oklahoma
    # (okep.uscourts.gov).
    2024: "01-01 01-15 05-27 06-19 07-04 09-02 11-28 12-25",
}


@pytest.mark.parametrize(("year", "days"), KEPT.items())
def test_holidays_are_kept_on_the_days_that_were_published(year: int, days: str) -> None:
    ours = holidays("US", [year])
    assert {dt.date.fromisoformat(f"{year}-{day}") for day in days.split()} <= ours.keys()


def test_a_year_has_eleven_holidays_and_those_on_weekends_a_second_day() -> None:
    ours = holidays("US", [2023])
    assert len(set(ours.values())) == 11
    # The first of January 2023 was a Sunday, the eleventh of November a Saturday.
    twice = {name for name in ours.values() if list(ours.values()).count(name) == 2}
    assert twice == {"New Year's Day", "Veterans Day"}
    assert holidays("FR", [2023]) == {}
