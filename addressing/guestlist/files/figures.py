"""Numbers that a remark spells out: "number twelve", "rows twenty to twenty-two"."""

import re
from functools import cache

_ONES = (
    "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven",
    "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen",
)  # fmt: skip
_TENS = ("twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")
_JOINT = r"(?:\s*(?:,|&|\+)\s*(?:and\s+)?|\s+(?:and|to|through|thru)\s+)"
_LEAST = 11
"""Smaller numbers without a mark count things: "the two of them", "one is a vegetarian"."""


def in_figures(text: str, marks: str) -> str:
    """A text with the numbers in figures that stand behind one of the marks, or are large.

    >>> in_figures("Number twelve and thirteen, and the two boys", "number|no")
    'Number 12 and 13, and the two boys'
    >>> in_figures("twenty-two is out, one is not", "number|no")
    '22 is out, one is not'
    """
    if _plain().search(text) is None:
        return text
    text = _marked(marks).sub(lambda found: _plain().sub(_figure, found[0]), text)
    return _plain().sub(lambda found: _figure(found, _LEAST), text)


def _figure(found: re.Match[str], least: int = 0) -> str:
    number = _numbers()[re.sub(r"[\s-]+", "-", found[0].casefold())]
    return str(number) if number >= least else found[0]


@cache
def _numbers() -> dict[str, int]:
    """The value of each spelled number up to ninety-nine."""
    ones = {word: at for at, word in enumerate(_ONES, start=1)}
    tens = {word: at * 10 for at, word in enumerate(_TENS, start=2)}
    both = {
        f"{ten}-{one}": tens[ten] + ones[one] for ten in tens for one in _ONES[: _ONES.index("ten")]
    }
    return ones | tens | both


@cache
def _plain() -> re.Pattern[str]:
    longest = sorted(_numbers(), key=len, reverse=True)
    words = "|".join(word.replace("-", r"[\s-]") for word in longest)
    return re.compile(rf"(?<![\w-])(?:{words})(?![\w-])", re.IGNORECASE)


@cache
def _marked(marks: str) -> re.Pattern[str]:
    one = _plain().pattern
    return re.compile(rf"(?<!\w)(?:{marks})\.?\s*#?\s*{one}(?:{_JOINT}{one})*", re.IGNORECASE)
