"""What stands above the street, and the town, in a United States address (Publication 28)."""

import re
from functools import cache

from addressing.tables import table
from addressing.wording.puerto_rico import area_line
from addressing.wording.streets import postal_text
from addressing.wording.words import direction_in_full, plain

_DEPARTMENT = re.compile(r"\bDept\.? of\b")
_CARE = re.compile(r"^(?:c/o|c\.o\.|care\s+of|in\s+care\s+of|℅|%)\s*(?=\S)", re.IGNORECASE)


def lines_above(text: str) -> list[str]:
    """The lines of what stands above the street; "Penhew Bakery, Inc." is one.

    >>> lines_above("Penhew Bakery, Inc., c/o Odile Farrenby")
    ['Penhew Bakery, Inc.', 'c/o Odile Farrenby']
    """
    lines: list[str] = []
    for part in re.split(r"\n|, (?=\S)", text):
        if lines and plain(part) in _company_words():
            lines[-1] = f"{lines[-1]}, {part}"
        else:
            lines.append(part)
    return lines


def above_in_full(text: str) -> str:
    """In care of, for "c/o", and Department of; all else as given.

    >>> above_in_full("Dept. of Physics"), above_in_full("Dept 12 Larkmoor Hall")
    ('Department of Physics', 'Dept 12 Larkmoor Hall')
    """
    return _DEPARTMENT.sub("Department of", _CARE.sub("in care of ", text))


def above_in_short(text: str) -> str:
    """Postal form of a line above the street: C/O, URB, capitals without points."""
    return postal_text(area_line(_CARE.sub("C/O ", text)))


def town_in_full(city: str) -> str:
    """A town spelled out (223): directions and Fort at the front, Springs and the like behind.

    >>> town_in_full("N. Stockbridge"), town_in_full("Newberry Spgs"), town_in_full("St. Paul")
    ('North Stockbridge', 'Newberry Springs', 'St. Paul')
    """
    first, *others = city.split() or [""]
    if not others:
        return city
    directions = direction_in_full()
    start = _words("first").get(plain(first)) or directions.get(plain(first), first)
    return " ".join((start, *(_words("behind").get(plain(word), word) for word in others)))


def postal_town(city: str) -> str:
    """The town in capitals; its apostrophe stays (222: PLUMMER'S LANDING)."""
    marks = re.findall("['’]", city)
    kept = postal_text(re.sub("['’]", "\1", town_in_full(city)))
    for mark in marks:
        kept = kept.replace("\1", mark, 1)
    return kept


@cache
def _words(place: str) -> dict[str, str]:
    rows = table("town_words")
    return {row["written"].upper(): row["full"] for row in rows if row["place"] == place}


@cache
def _company_words() -> frozenset[str]:
    return frozenset(row["word"].upper() for row in table("name_words") if row["kind"] == "company")
