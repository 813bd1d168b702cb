"""The words with which somebody is added to a list: "also add The Penhews", "one more: Kit Orr".

They are rows of row_words.tsv (`fix-add`, and `fix-add-before` before them).
"""

import re
from functools import cache

from addressing.guestlist.people.vocabulary import row_words

_NAME = re.compile(r"[^\W\d_a-z]\w")
_ENDS = ".:,–— -"


def adding(text: str) -> re.Match[str] | None:
    """The words with which a remark opens that adds somebody."""
    return _adding().match(text)


def only_adds(text: str) -> bool:
    """True for such words and nothing else, over those who follow.

    >>> only_adds("Also add:"), only_adds("add Kit"), only_adds("+")
    (True, False, False)
    """
    opened = adding(text)
    whole = opened is not None and not text[opened.end() :].strip(_ENDS)
    return whole and re.search(r"\w", text) is not None


def without_adding(names: str) -> str:
    """The names of a cell without the words that add them; "New, Alice" is a name.

    >>> [without_adding(each) for each in ("Also add: The Orrs", "add Kit Orr", "one: Kit")]
    ['The Orrs', 'Kit Orr', 'one: Kit']
    >>> [without_adding(each) for each in ("Plus Odile", "New, Alice", "Addie Orr", "Also add:")]
    ['Plus Odile', 'New, Alice', 'Addie Orr', 'Also add:']
    """
    opened = adding(names)
    if opened is None or _NAME.match(names, opened.end()) is None:
        return names
    words = re.findall(r"\w+", opened[0].casefold())
    sure = len(words) > 1 or "add" in words or opened[0].rstrip().endswith(":")
    return names[opened.end() :] if sure else names


@cache
def _adding() -> re.Pattern[str]:
    longest = sorted(row_words("fix-add"), key=len, reverse=True)
    words = "|".join(re.escape(word).replace(r"\ ", r"\s+") for word in longest)
    before = "|".join(sorted(row_words("fix-add-before")))
    opening = rf"[\W_]*(?:(?:{before})\b[\W_]*)*"
    return re.compile(rf"{opening}(?:(?:{words})(?!\w)|\+)[\s:,–—-]*", re.IGNORECASE)
