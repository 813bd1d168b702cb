"""How a number or a date looks in its cell."""

import datetime as dt
import re

_ZEROS = re.compile(r'[0\-\s./()\\"]+')
_CONDITION = re.compile(r"\[(<=?|>=?)(\d+)\]")
_BRACKETS = re.compile(r"\[[^\]]*\]")
_DATE_PART = re.compile(r"yyyy|yy|mmmm|mmm|mm|m|dddd|ddd|dd|d", re.IGNORECASE)
_WHOLE = 1e15

_QUOTED = re.compile(r'"[^"]*"|\\\\.|_.|\*.|\[(?!h+\]|m+\]|s+\])[^\]]*\]', re.IGNORECASE)
_OF_TIME = re.compile(r"[dmyhs]", re.IGNORECASE)
_DAY_OF_1900, _DAY_OF_1904 = dt.datetime(1899, 12, 30), dt.datetime(1904, 1, 1)  # noqa: DTZ001
_FEBRUARY_29 = 60
"""The day in 1900 that never was, and that spreadsheets count (ECMA-376 Part 1, 18.17.4.1)."""

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


def is_moment(number_format: str) -> bool:
    """Whether a number format shows a date or a time.

    >>> [is_moment(code) for code in ("d-mmm", "[h]:mm", '0.00 "days"', "[Red]0", "General")]
    [True, True, False, False, False]
    """
    plain = number_format.partition(";")[0]
    return plain != "General" and _OF_TIME.search(_QUOTED.sub("", plain)) is not None


def moment_of(serial: float, *, since_1904: bool, number_format: str) -> Moment | None:
    """The date or time that a serial number stands for; None where there is none so far off.

    >>> moment_of(44197, since_1904=False, number_format="d-mmm")
    datetime.datetime(2021, 1, 1, 0, 0)
    """
    try:
        whole, part = divmod(serial, 1)
        within = dt.timedelta(milliseconds=round(part * 86_400_000))
        if "[h" in number_format.lower():
            return dt.timedelta(days=whole) + within
        if whole == 0:
            return (_DAY_OF_1904 + within).time()
        if not since_1904 and 0 < serial < _FEBRUARY_29:
            whole += 1
        first = _DAY_OF_1904 if since_1904 else _DAY_OF_1900
        return first + dt.timedelta(days=whole) + within
    except (OverflowError, ValueError):
        return None


def iso_moment(text: str) -> Moment | None:
    """A date or time in ISO 8601, None for anything else.

    >>> iso_moment("2026-12-03T00:00:00"), iso_moment("soon")
    (datetime.datetime(2026, 12, 3, 0, 0), None)
    """
    for read in (dt.datetime.fromisoformat, dt.time.fromisoformat):
        try:
            return read(text).replace(tzinfo=None)
        except ValueError:
            continue
    return None


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
