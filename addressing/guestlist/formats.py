"""How a number or a date looks in its cell."""

import datetime as dt
import re

_ZEROS = re.compile(r'[0\-\s./()\\"]+')
_CONDITION = re.compile(r"\[(<=?|>=?)(\d+)\]")
_BRACKETS = re.compile(r"\[[^\]]*\]")
_DATE_PART = re.compile(r"yyyy|yy|mmmm|mmm|mm|m|dddd|ddd|dd|d", re.IGNORECASE)
_WHOLE = 1e15

Moment = dt.datetime | dt.date | dt.time | dt.timedelta


def number_text(value: float) -> str:
    """A number as a person would write it: no exponent, no ".0".

    >>> number_text(2116.0), number_text(12.5)
    ('2116', '12.5')
    """
    if isinstance(value, int) or (abs(value) < _WHOLE and value == int(value)):
        return str(int(value))
    return repr(value)


def padded(value: float, number_format: str) -> str | None:
    """What a format made of zeros shows, or None when the format says nothing of digits.

    Two sections with a condition are how spreadsheets format a ZIP with and without its +4.

    >>> padded(2116, "00000"), padded(21160123, "[<=99999]00000;00000-0000"), padded(7, "General")
    ('02116', '02116-0123', None)
    """
    if value < 0 or value != int(value):
        return None
    section = _section(int(value), number_format)
    pattern = _BRACKETS.sub("", section).replace("\\", "").replace('"', "")
    places = pattern.count("0")
    if not places or not _ZEROS.fullmatch(pattern) or "." in pattern:
        return None
    digits = str(int(value)).rjust(places, "0")
    head, rest = digits[: len(digits) - places], iter(digits[len(digits) - places :])
    return head + "".join(next(rest) if char == "0" else char for char in pattern)


def _section(value: int, number_format: str) -> str:
    sections = number_format.split(";")
    condition = _CONDITION.match(sections[0])
    if condition is None or len(sections) == 1:
        return sections[0]
    limit = int(condition[2])
    holds = {"<": value < limit, "<=": value <= limit, ">": value > limit, ">=": value >= limit}
    return sections[0] if holds[condition[1]] else sections[1]


def moment_text(value: Moment) -> str:
    """A date or time as ISO 8601; midnight is left off.

    >>> moment_text(dt.datetime(2026, 3, 12))
    '2026-03-12'
    """
    if isinstance(value, dt.datetime):
        midnight = value.time() == dt.time()
        return value.date().isoformat() if midnight else value.isoformat(" ")
    if isinstance(value, dt.timedelta):
        return str(value)
    return value.isoformat()


def moment_shown(value: Moment, number_format: str) -> str | None:
    """What a plain date format shows ("3-Dec"), None for formats of times and others.

    >>> moment_shown(dt.date(2026, 12, 3), "d-mmm")
    '3-Dec'
    """
    if not isinstance(value, dt.date):
        return None
    pattern = _BRACKETS.sub("", number_format.partition(";")[0]).replace("\\", "").replace('"', "")
    if re.search("[hs@]", pattern, re.IGNORECASE) or not _DATE_PART.search(pattern):
        return None
    return _DATE_PART.sub(lambda match: _date_part(value, match.group().lower()), pattern)


def _date_part(value: dt.date, part: str) -> str:
    names = {
        "yyyy": "%Y",
        "yy": "%y",
        "mm": "%m",
        "dd": "%d",
        "mmmm": "%B",
        "mmm": "%b",
        "dddd": "%A",
        "ddd": "%a",
    }
    if part in names:
        return value.strftime(names[part])
    return str(value.month if part == "m" else value.day)
