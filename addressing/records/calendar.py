"""The job's days, worked back from the wedding."""

import datetime as dt
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Work:
    """What the work takes: days to print, at home or at the shop, days to dry, minutes to fill.

    The minutes are for all suites together.
    """

    print_days: int
    dry_days: int
    assembly_minutes: int


@dataclass(frozen=True, slots=True)
class Day:
    """Something that must be done by a day; `why` says what it is counted from."""

    date: dt.date
    what: str
    why: str
    late: bool
