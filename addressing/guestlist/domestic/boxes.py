"""Delivery lines without a street: boxes, routes, military boxes, ships, general delivery.

The words are those of style_words.tsv (Publication 28, 24, 25, 26, 28); military lines by 238, 239.
"""

import re
from functools import cache, lru_cache

from addressing.tables import table

_MARK = r"\.?(?:\s*#\s*|\s*\bno\.?\s*|\s+|(?=\d))"
_NUMBER = r"-?(?:[A-Za-z]{1,2}[\s\-]?)?\d[\w\-]*(?:\s[A-Za-z](?!\w))?"
_MAILBOX = r"(?:[\s,]+(?:#|pmb\s*#?)\s*\w+)?"
"""A private mailbox behind a box: # stands for PMB there (285)."""
_ROAD = r"(?:us|state|county)?\s*(?:highway|hwy|route|rte|road)\s+\d"
_ROUTES = ("route", "route-pointed")
"""Kinds of words that make a route of the number behind them, with a box or without."""
_MILITARY = r"(?:psc|cmr|cpr|opc|upr|unit|ship)"


def _any(*kinds: str) -> str:
    """One of the words of these kinds; points and blanks may stand between and be lost."""
    rows = [row for row in table("style_words") if row["kind"] in kinds]
    ranked = sorted(rows, key=lambda row: len(row["written"]), reverse=True)
    parted = {"route-pointed": r"(?:\.\s*|\s+)"}
    written = (parted.get(row["kind"], r"\.?\s*").join(row["written"].split()) for row in ranked)
    return f"(?:{'|'.join(dict.fromkeys(written))})"


@cache
def box_pattern() -> str:
    """A box of a post office, a drawer, a caller service, without anchors."""
    return rf"{_any('box')}{_MARK}(?:{_NUMBER}|[A-Za-z](?!\w))"


@cache
def route_pattern() -> str:
    """The beginning of a rural route up to its number ("R.R. 2"), without anchors."""
    return rf"{_any(*_ROUTES)}{_MARK}\d"


@cache
def _whole() -> re.Pattern[str]:
    buzon = rf"(?:{_any('box')}|bzn|buz[oó]n){_MARK}{_NUMBER}"
    boxed = rf"(?:(?:[\s,]+|(?<=\d)){buzon}|\s+#\s*{_NUMBER})"
    route = rf"{_any(*_ROUTES)}{_MARK}\d+[A-Za-z]?"
    return re.compile(
        rf"^(?:{box_pattern()}{_MAILBOX}"
        rf"|{route}(?:{boxed}{_MAILBOX})?"
        rf"|{_any(*_ROUTES, 'route-box')}{_MARK}\d+[A-Za-z]?{boxed}{_MAILBOX}"
        rf"|{_MILITARY}\s+[\w\s\-]*?,?\s*(?:box\s+[\w\-]+)|(?:psc|cmr|cpr|opc|upr)\s+\d+"
        rf"|(?:uss|usns|uscgc|usnv)\s+[A-Za-z][\w\s.\-]*"
        rf"|(?:general|gen\.?)\s+(?:delivery|del\.?)|lista\s+de\s+correos)$",
        re.IGNORECASE,
    )


@cache
def _before_box() -> re.Pattern[str]:
    route = rf"{_any(*_ROUTES, 'route-box')}{_MARK}\d+[A-Za-z]?"
    return re.compile(rf"^(?:{route}|{_MILITARY}\s+[\w\-]+)$", re.IGNORECASE)


def is_box(text: str) -> bool:
    """True for a whole delivery line that names no street: it never begins with a figure.

    >>> [is_box(text) for text in ("P.O. Box 12", "RFD 2 Box 18", "Drawer L", "Bin Lane")]
    [True, True, True, False]
    """
    return not text[:1].isdecimal() and _is_box(text)


@lru_cache(maxsize=4_096)
def _is_box(text: str) -> bool:
    return _whole().match(text) is not None


def wants_box(text: str) -> bool:
    """True for a route or a military unit whose box may stand behind a comma."""
    return _before_box().match(text) is not None


def is_code(text: str) -> bool:
    """True for a drawer, bin or lockbox: beside a post office box a code and no address."""
    return re.match(r"(?:drawer|bin|lock\s?box|lbx?|box|caller)\b", text, re.IGNORECASE) is not None


def is_lockbox(text: str) -> bool:
    """True for a bank's box for payments: beside a street a part of its address."""
    return re.match(r"(?:lock\s?box|lbx?)\b", text, re.IGNORECASE) is not None


def split_boxes(text: str) -> tuple[str, str] | None:
    """("po box 12", "lockbox 3") of a box with a company's code before or behind it, or None."""
    found = _pair().match(text)
    if found is None or is_code(found["first"]) == is_code(found["second"]):
        return None
    first_is_code = is_code(found["first"])
    return (found["second"], found["first"]) if first_is_code else (found["first"], found["second"])


def box_beside(text: str) -> tuple[str, str] | None:
    """("lockbox 77", "14 Larkmoor Lane") of a box before what may be a street, or None."""
    found = _before_street().match(text)
    return (found["box"], found["street"]) if found else None


@cache
def _before_street() -> re.Pattern[str]:
    box = rf"{_any('box')}{_MARK}\d[\w\-]*"
    return re.compile(rf"^(?P<box>{box})[\s,]+(?P<street>(?:\d|{_ROAD}).*)$", re.IGNORECASE)


@cache
def _pair() -> re.Pattern[str]:
    box = box_pattern()
    return re.compile(rf"^(?P<first>{box})[\s,]+(?P<second>{box})$", re.IGNORECASE)
