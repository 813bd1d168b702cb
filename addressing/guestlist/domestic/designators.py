"""The words of a unit: Publication 28's designators (C2) and the ways in which lists write them."""

import re
from functools import cache

from addressing.tables import table

_NUMBERS = "one|two|three|four|five|six|seven|eight|nine|ten"
_VALUE = rf"(?:\d[\w\-/]*|[A-Za-z]{{1,2}}-?\d[\w\-]*|[A-Za-z]{{1,2}}(?![\w'’.])|(?:{_NUMBERS})\b)"
_SHORT = (
    rf"(?:\d[\w\-/]*|[A-Za-z](?:-?\d+[A-Za-z]?)?(?![\w'’.])|PH\s?-?\d*\w?(?!\w)|(?:{_NUMBERS})\b)"
)
_DIGIT = r"[A-Za-z]{0,2}-?\d[\w\-/]*"
_ORDINAL = (
    r"(?:\d+(?:st|nd|rd|th)|first|second|third|fourth|fifth|sixth|top|ground|main|upper|lower)"
)
_MARK = r"(?:\.?\s*(?:(?:#|no\.|nr\.)\s*)?)"
"""What may stand between designator and value; each blank is matched in one way only."""
_SIDE = r"(?:\s+(?:north|south|east|west)\b)"
"""Behind a unit's number, where no town can follow any more: Unit 2 South."""
_LOOSE = frozenset(
    ("LOT", "KEY", "PIER", "SIDE", "SPACE", "STOP", "SLIP", "FRONT", "OFFICE", "HANGER")
)
"""Designators of C2 that are also ordinary words: taken only with a number behind them."""


@cache
def forms() -> dict[str, list[str]]:
    """Patterns of the written words by what may follow: "any", "digit", "none", "may"."""
    found: dict[str, list[str]] = {"any": [], "digit": [], "none": [], "may": []}
    for row in table("units"):
        name = row["designator"]
        if not name.isalpha():
            continue
        words = {name.lower(), row["approved_abbreviation"].lower()}
        value = "digit" if name in _LOOSE else "any" if row["range_required"] == "yes" else "may"
        found[value].extend(words)
        if name in _LOOSE and row["range_required"] == "no":
            found["none"].extend(words)
    for row in table("unit_forms"):
        found[row["value"]].append(row["written"])
    return found


def _any(words: list[str]) -> str:
    """One of the words, the longest first; a blank may be several."""
    ranked = sorted(set(words), key=len, reverse=True)
    return "(?:" + "|".join(re.escape(word).replace(r"\ ", r"\.?\s+") for word in ranked) + ")"


@cache
def unit_pattern() -> str:
    """One unit or several, as a part of an address of its own."""
    one = _one(_VALUE, r"(?:[\s#.\-]*(?:\d[\w\-]*|[A-Za-z]))?(?![\w'’])\.?")
    return rf"{one}(?:(?:\s*[,/&\-–]\s*|\s+){one})*"


@cache
def unit_behind() -> str:
    """One unit or several at the end of a street, where words are read more narrowly."""
    one = _one(_SHORT, rf"(?:[\s#.\-]*(?:{_DIGIT}|[A-Za-z]))?(?!\w)\.?")
    return rf"{one}(?:(?:\s*[,/&\-–]\s*|\s+){one})*"


def _one(value: str, behind: str) -> str:
    known = forms()
    first = r"(?<![\w#])"
    return (
        rf"(?:{first}{_any(known['any'])}(?:\b{_MARK}{value}|(?=\d){value})"
        rf"|{first}{_any(known['digit'])}(?:\b{_MARK}|(?=\d)){_DIGIT}(?!\w)"
        rf"|#\s*[\w\-/]+"
        rf"|{first}{_ORDINAL}\s+(?:floor|fl|flr|level)\b\.?"
        rf"|{first}\d{{1,2}}\s+(?:floor|flr?)\b\.?"
        rf"|{first}{_any(known['none'])}(?!\w)\.?"
        rf"|{first}{_any(known['may'])}{behind})"
    )


@cache
def whole_unit() -> re.Pattern[str]:
    """A part that is a unit and nothing else."""
    return re.compile(rf"{unit_pattern()}(?:\s+\d+|{_SIDE})?", re.IGNORECASE)


@cache
def unit_at_end() -> re.Pattern[str]:
    """(street, unit) of a street with a unit behind it."""
    unit = rf"(?P<unit>{unit_behind()}(?:{_SIDE}|\s+\d+)?)"
    pattern = rf"^(?P<street>.*?[^\s,\-–])(?:\s*[,\-–]\s*|\s+|(?=#)){unit}$"
    return re.compile(pattern, re.IGNORECASE | re.DOTALL)


@cache
def unit_in_front() -> re.Pattern[str]:
    """(unit, rest) of a unit with something behind it."""
    pattern = rf"^(?P<unit>{unit_pattern()})(?:\s*[,/\-–]\s*|\s+)(?P<rest>\S.*)$"
    return re.compile(pattern, re.IGNORECASE | re.DOTALL)


@cache
def unit_inside() -> str:
    """A designator with a number in figures, as it may stand in the middle of a street."""
    known = forms()
    words = _any([*known["any"], *known["digit"]])
    return rf"(?<![\w#]){words}\b{_MARK}\d[\w\-]*(?!\w)"


@cache
def needs_number() -> frozenset[str]:
    """The designators that say nothing without a number (C2: a range is required), folded."""
    return frozenset(word for word in forms()["any"] if word not in ("no", "num", "nbr"))
