"""The job's days, worked back from the wedding."""

import datetime as dt
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Day:
    """Something that must be done by a day; `why` says what it is counted from."""

    date: dt.date
    what: str
    why: str
    late: bool
