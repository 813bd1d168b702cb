"""The patterns by which a remark speaks of a list's numbers, made of list_numbers.tsv."""

import re
from functools import cache

from addressing.tables import table

_ONE = r"\(?#?\s?(?:(?:no?r?s?|number|row)\b\.?\s?#?)?\d{1,4}[a-z]?\)?(?![\w%$]|[.,:]\d|/\d)"
_BETWEEN = (  # "12+13", but "12 +1" has a companion; "12 13 and 14"
    r"(?:\s*(?:,\s*(?:(?:and|or)\b|&)?|\b(?:and|or|und|et|y|e|with|plus|through|thru|to)\b"
    r"|(?<=\d)\+|\+(?!\d)|[&/–-])\s*|\s+(?=\d+\s*(?:,|&|\band\b)\s*\d))"
)
_SEVERAL = rf"(?P<list>{_ONE}(?:{_BETWEEN}{_ONE})*)"
_LIST = rf"(?<![\w$£€.,:/–-]){_SEVERAL}"


@cache
def number_words(kind: str) -> frozenset[str]:
    """The words of a kind."""
    return frozenset(row["word"] for row in table("list_numbers") if row["kind"] == kind)


@cache
def number_ways(*kinds: str) -> str:
    """A pattern for the words of some kinds, longer ones first."""
    longest = sorted((word for kind in kinds for word in number_words(kind)), key=len, reverse=True)
    return "|".join(_loose(word) for word in longest)


def _loose(word: str) -> str:
    return re.escape(word).replace(r"\ ", r"\s+").replace("'", "['’]")


@cache
def behind_number(kind: str) -> re.Pattern[str]:
    """What stands behind a number, by kind."""
    return re.compile(rf"\s*(?:{number_ways(kind)})(?!\w)", re.IGNORECASE)


@cache
def marked_ways() -> re.Pattern[str]:
    """Numbers behind a mark."""
    return re.compile(
        rf"(?P<mark>(?<!\w)(?:{number_ways('mark')})\.?\s*#?|#)\s*{_SEVERAL}", re.IGNORECASE
    )


@cache
def other_ways() -> re.Pattern[str]:
    """A number of a table or of a house, with what says so."""
    mark = rf"(?:(?:{number_ways('mark')})\.?\s*#?|#)"
    return re.compile(
        rf"(?<!\w)(?:{number_ways('other')})\.?\s*{mark}?\s*{_SEVERAL}", re.IGNORECASE
    )


@cache
def acting_ways() -> re.Pattern[str]:
    """Numbers behind what is to be done with them."""
    fronts = {
        word.partition(" …")[0] for kind in ("act", "act-many") for word in number_words(kind)
    }
    longest = "|".join(_loose(word) for word in sorted(fronts, key=len, reverse=True))
    part = rf"(?P<part>(?:{number_ways('part')})s?\s+(?:{number_ways('part-of')}))"
    several = _LIST.replace(_BETWEEN, rf"(?:{_BETWEEN}|\s+(?=\d))")  # "remove 12 13 and 14"
    return re.compile(
        rf"(?<!\w)(?P<act>(?:{longest})|{part})\s+(?:the\s+)?{several}", re.IGNORECASE
    )


@cache
def acting_behind() -> dict[str, re.Pattern[str]]:
    """What stands behind the number in words with it between them: "take … off"."""
    found: dict[str, list[str]] = {}
    for word in number_words("act"):
        front, _, behind = word.partition(" … ")
        if behind:
            found.setdefault(front, []).append(_loose(behind))
    return {
        front: re.compile(rf"\s+(?:{'|'.join(behind)})(?!\w)", re.IGNORECASE)
        for front, behind in found.items()
    }


@cache
def leading_ways() -> re.Pattern[str]:
    """Numbers behind a word that opens a clause."""
    behind = number_ways("lead-behind")
    return re.compile(
        rf"{_opening()}(?:{number_ways('lead')})\s+{_LIST}\s*(?:{behind})(?!\w)", re.IGNORECASE
    )


@cache
def saying_ways() -> re.Pattern[str]:
    """Numbers with which a clause opens that says something of them."""
    return re.compile(
        rf"{_opening()}(?:the\s+)?{_LIST}"
        rf"(?:\s*(?:{number_ways('says')})(?!\w)|(?P<many>\s+(?:{number_ways('says-many')})(?!\w)))",
        re.IGNORECASE,
    )


@cache
def linking_ways() -> re.Pattern[str]:
    """Words by which a note is about each whom it names."""
    return re.compile(rf"(?<!\w)(?:{number_ways('links')})(?!\w)", re.IGNORECASE)


@cache
def beginning_ways() -> re.Pattern[str]:
    """Numbers with which a whole remark begins, and a mark behind them."""
    return re.compile(rf"^\W*{_SEVERAL}\s*(?:{number_ways('says-first')})(?=\s)", re.IGNORECASE)


@cache
def opening_ways() -> re.Pattern[str]:
    """Numbers with which a remark in a cell by itself opens."""
    opening = rf"(?:^\W*|[;\n]\W*|[.!?]\s+)(?:(?:{number_ways('opens')})\s+)?(?:the\s+)?"
    return re.compile(rf"{opening}{_SEVERAL}\s?[.:]?(?=[\s,=–—-])", re.IGNORECASE)


@cache
def referring_ways() -> re.Pattern[str]:
    """A whole cell that only refers to a number."""
    ways = number_ways("reference")
    mark = rf"(?:(?:{number_ways('mark')})\.?\s*#?|#)"
    return re.compile(
        rf"(?:(?:{ways})\s+(?:the\s+)?(?:{mark}\s*)?|{mark}\s*)(?P<number>\d{{1,4}}[a-z]?)",
        re.IGNORECASE,
    )


def _opening() -> str:
    """Where a clause opens."""
    return rf"(?:^\W*|[.;:,!?()–—\n\"“]\s*|(?<!\w)(?:{number_ways('opens')})\s+)"
