"""Days in files that a person writes: year, month, day (ISO 8601)."""

import datetime as dt
from typing import Annotated

from pydantic import BeforeValidator


def _day(value: object) -> object:
    """A day, written with or without quotes, in the order of ISO 8601."""
    if type(value) is dt.date:
        return value.isoformat()
    try:
        day = dt.date.fromisoformat(value) if isinstance(value, str) else None
    except ValueError:
        day = None
    if day is None or day.isoformat() != value:
        raise ValueError('write it as year, month, day: "2026-05-30".')
    return value


Day = Annotated[str, BeforeValidator(_day)]
"""A day that there is, kept as it is written."""
