"""The job's days: the wedding's date, the plan's printing time, the suites to fill."""

import datetime as dt

from addressing.estimating import calendar, drying_days, holidays
from addressing.faults import Exit, Fault
from addressing.job.costing import dry_days
from addressing.job.estimating import estimate_job
from addressing.job.reading import Reading
from addressing.materials.shelf import Shelf
from addressing.records.calendar import Day, Work
from addressing.records.docket import Docket
from addressing.where import Where


def days_of(reading: Reading, shelf: Shelf) -> tuple[Day, ...]:
    """By when each step must be done; late ones are told where the job has a date.

    Printing takes as long as it does where the docket prints, else by the cheapest plan.

    Raises:
        Fault: the docket has no wedding's date (exit 3); the rates can't be read.
    """
    docket, wedding = reading.docket, reading.docket.wedding.date
    if wedding is None:
        raise Fault(
            Exit.INPUT,
            "wedding-missing",
            "The docket doesn't say when the wedding is.",
            'Write [wedding] date = "2026-09-19", with its own day.',
            Where(docket.path or "docket", None, "docket:wedding.date"),
        )
    households = reading.guest_list.households
    home = docket.hosts.country if docket.hosts else "US"
    countries = {
        household.address.country.text
        for household in households
        if household.address and household.address.country
    }
    return calendar(
        dt.date.fromisoformat(wedding),
        dt.date.fromisoformat(docket.date) if docket.date else None,
        abroad=bool(countries - {home}),
        work=Work(*_print_days(reading, shelf), docket.wedding.minutes_per_suite * len(households)),
        posting=dt.date.fromisoformat(docket.posting) if docket.posting else None,
        rest=_rest(docket, dt.date.fromisoformat(wedding).year, home),
    )


def _rest(docket: Docket, year: int, country: str) -> dict[dt.date, str]:
    """The docket's own days of rest, and the country's holidays up to the wedding."""
    own = {dt.date.fromisoformat(day): "the docket's day of rest" for day in docket.wedding.rest}
    return {**holidays(country, (year - 1, year)), **own}


def _print_days(reading: Reading, shelf: Shelf) -> tuple[int, int]:
    """Days for printing: the slowest shop's, or whole days at home with the rest between batches.

    Between two hits at home print dries, too. And days to dry: of what is printed at home what
    takes longest, since a shop's comes dry. It is printed where the docket says, else by the
    cheapest plan.
    """
    found = estimate_job(reading, shelf)
    plan = found.plan_of(reading.docket)
    if plan is None:
        return 1, drying_days(None, "", None)
    kinds = {kind.kind: kind for kind in reading.kinds}
    at_home = ((kinds[o.kind], shelf.device(o.place)) for o in plan.offers if o.home)
    return plan.days, max((dry_days(kind, device) for kind, device in at_home), default=0)
