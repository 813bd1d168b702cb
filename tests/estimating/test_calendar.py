"""The days of a job, worked back from the wedding by the spans of data/spans.tsv."""

import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from addressing.estimating.calendar import calendar, drying_days, late
from addressing.materials.shelf import open_shelf
from addressing.records.calendar import Work
from addressing.records.shelf import SURFACES
from addressing.tables import table

WEDDING = dt.date(2026, 9, 19)


def test_the_days_of_an_ordinary_job_are_those_that_the_trade_names() -> None:
    # Six to eight weeks before for posting, three to four for replies (common practice, no source).
    days = calendar(WEDDING, None, abroad=False, work=Work(1, 1, 300))
    told = {day.what: (WEDDING - day.date).days for day in days}
    assert 42 <= told["Invitations are posted at home"] <= 56
    assert 21 <= told["Replies are due"] <= 28
    assert told["The wedding"] == 0


def test_guests_abroad_move_everything_before_the_posting() -> None:
    home = calendar(WEDDING, None, abroad=False, work=Work(1, 1, 300))
    abroad = calendar(WEDDING, None, abroad=True, work=Work(1, 1, 300))
    assert [day.what for day in abroad[5:7]] == [
        "Invitations are posted abroad",
        "Invitations are posted at home",
    ]
    earlier = [b.date < a.date for a, b in zip(home[:5], abroad[:5], strict=True)]
    assert earlier == [True] * 5
    assert abroad[6:] == home[5:]


def test_a_chosen_day_of_posting_moves_the_work_before_it() -> None:
    chosen = WEDDING - dt.timedelta(days=60)
    days = calendar(WEDDING, None, abroad=True, work=Work(1, 1, 300), posting=chosen)
    abroad, home = days[5:7]
    assert (home.date, home.why) == (chosen, "as the docket says")
    assert (WEDDING - abroad.date).days == 70  # ten weeks before: common practice, no source
    early = WEDDING - dt.timedelta(days=90)
    days = calendar(WEDDING, None, abroad=True, work=Work(1, 1, 300), posting=early)
    assert [day.date for day in days[5:7]] == [early, early]
    assert days[4].date < early


def test_what_is_past_is_said() -> None:
    days = calendar(WEDDING, dt.date(2026, 8, 1), abroad=False, work=Work(7, 1, 900))
    assert [day.what for day in late(days)] == [day.what for day in days[:5]]


@given(st.integers(0, 60), st.integers(0, 20_000), st.sampled_from(["home", "abroad"]))
def test_no_step_comes_before_the_one_that_it_waits_for(
    print_days: int, minutes: int, to: str
) -> None:
    days = calendar(WEDDING, None, abroad=to == "abroad", work=Work(print_days, 1, minutes))
    dates = [day.date for day in days[:6]]
    assert dates == sorted(dates)
    assert not late(days)


@pytest.mark.parametrize(("minutes", "more"), [(0, 0), (1, 1), (360, 1), (361, 2)])
def test_filling_takes_whole_days(minutes: int, more: int) -> None:
    none, some = (
        calendar(WEDDING, None, abroad=False, work=Work(0, 1, each)) for each in (0, minutes)
    )
    assert (none[3].date - some[3].date).days == more


def test_what_dries_slower_is_printed_earlier() -> None:
    soon, later = (calendar(WEDDING, None, abroad=False, work=Work(1, dry, 300)) for dry in (0, 3))
    assert (soon[3].date - later[3].date).days == 3
    assert (soon[3].why, later[3].why) == ("1 day to fill", "3 days to dry, 1 day to fill")


@pytest.mark.parametrize(
    ("method", "ink", "surface", "days"),
    [
        ("toner", "White", "metallic", 0),
        ("inkjet", "Black", None, 1),
        ("inkjet", "Black", "coated", 2),
        ("letterpress", "Black", "cotton", 2),
        ("letterpress", "Gold", "cotton", 3),
        (None, "Black", "coated", 1),
        ("quill", "Black", "coated", 1),
    ],
)
def test_the_row_that_says_most_tells_how_long_it_dries(
    method: str | None, ink: str, surface: str | None, days: int
) -> None:
    assert drying_days(method, ink, surface) == days


def test_the_rows_of_drying_name_ways_inks_and_papers_that_there_are() -> None:
    shelf = open_shelf(None)
    methods, inks = {each.key for each in shelf.methods()}, set(shelf.inks())
    for row in table("drying"):
        assert row["method"] in {*methods, "*"}
        assert row["ink"] in {*inks, "*"}
        assert row["surface"] in {*SURFACES, "*"}
        assert row["source"]


REST = {dt.date(2026, 7, 29): "Fair", dt.date(2026, 7, 27): "Fair", dt.date(2026, 8, 1): "Feast"}


def test_work_passes_over_days_of_rest_and_says_which() -> None:
    """Posted on 1 August, or the day before; three days earlier all is filled."""
    work = Work(2, 0, 300)
    plain = calendar(WEDDING, None, abroad=False, work=work)
    assert [day.date.day for day in plain[2:6]] == [26, 28, 29, 1]
    rested = calendar(WEDDING, None, abroad=False, work=work, rest=REST)
    assert rested[5].why == "counted from the wedding; 2026-08-01 is Feast"
    # filled on the 28th, for which the 27th doesn't serve; printed on the 25th and the 24th
    assert [day.date.day for day in rested[2:6]] == [24, 26, 28, 31]
    assert rested[3].why.endswith("1 day to fill, not on 2026-07-27 (Fair)")


def test_a_chosen_day_of_posting_stays_and_the_post_s_rest_is_told() -> None:
    sunday = dt.date(2026, 8, 2)
    days = calendar(WEDDING, None, abroad=False, work=Work(1, 0, 300), posting=sunday)
    assert days[5].date == sunday
    assert days[5].why == "as the docket says; the post rests then: a Sunday"


@given(st.sets(st.integers(-90, 0), max_size=60), st.integers(0, 12), st.integers(0, 2000))
def test_between_two_steps_lie_as_many_days_of_work_as_the_work_takes(
    off: set[int], print_days: int, minutes: int
) -> None:
    """A recount, day by day, of what was passed over."""
    rest = {WEDDING - dt.timedelta(days=49 - day): "Rest" for day in off}
    days = calendar(WEDDING, None, abroad=False, work=Work(print_days, 0, minutes), rest=rest)
    begin, printed, filled, posted = (day.date for day in days[2:6])
    for first, last, number in (
        (begin, printed, print_days), (printed, filled, -(-minutes // 360)),
    ):  # fmt: skip
        between = [first + dt.timedelta(days=n) for n in range((last - first).days)]
        assert sum(day not in rest for day in between) == number
        assert not between or between[0] not in rest
    assert posted not in rest
    assert posted.weekday() != 6


def test_what_is_posted_on_the_last_day_for_abroad_is_posted_then_as_chosen() -> None:
    last = WEDDING - dt.timedelta(days=70)
    days = calendar(WEDDING, None, abroad=True, work=Work(1, 0, 300), posting=last)
    assert [(day.date, day.why) for day in days[5:7]] == [(last, "as the docket says")] * 2


def test_nothing_is_reckoned_to_be_posted_on_a_sunday() -> None:
    sunday = WEDDING + dt.timedelta(days=1)
    days = calendar(sunday, None, abroad=True, work=Work(1, 0, 300))
    assert [(day.date, day.why) for day in days[5:7]] == [
        (dt.date(2026, 7, 11), "counted from the wedding; 2026-07-12 is a Sunday"),
        (dt.date(2026, 8, 1), "counted from the wedding; 2026-08-02 is a Sunday"),
    ]


def test_ink_dries_on_days_of_rest_too() -> None:
    """Filled on 29 July by a day's work, on the 28th; the ink dries from the 25th on."""
    rest = {dt.date(2026, 7, day): "Rest" for day in (26, 27)}
    days = calendar(WEDDING, None, abroad=False, work=Work(1, 3, 300), rest=rest)
    assert [day.date for day in days[3:5]] == [dt.date(2026, 7, 25), dt.date(2026, 7, 29)]
