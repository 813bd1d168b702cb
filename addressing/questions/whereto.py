"""Where a remark says that somebody went: no street of a new town stands in the old one.

“The Voles moved to Albany”, answered “88 Birch Lane”: whoever has Kingston on the list lives at no
such street there. What stands behind “to” or “in” in the remark is taken for a place.
"""

import re
from functools import cache

from addressing.questions.folding import folded
from addressing.questions.showing import address_shown, names_shown
from addressing.records.guests import Household
from addressing.tables import table

_PLACED = re.compile(r"\b(?:to|in|into|near|outside|is now|are now)\s+", re.IGNORECASE)
_GONE = re.compile(
    r"\b(?:mov(?:ed?|es|ing)|relocat(?:ed?|es|ing)|liv(?:es?|ing)|now)\s+(?:to|in|into|near)\s+$",
    re.IGNORECASE,
)
"""What makes a place even of a word in small letters."""
_NAME = re.compile(r"[^\W\d_][\w.'’-]*(?:\s+[^\W\d_a-zß-ÿ][\w.'’-]*)*")


def place_elsewhere(remark: str, answer: str, home: Household) -> str:
    """The place that a remark names and neither an answer nor the list's address has; else "".

    A street of the remark's own, or somebody of the household, is no place.
    """
    known = " ".join((answer, address_shown(home.address), names_shown(home)))
    there = set(re.findall(r"\w+", folded(known)))
    for found in _PLACED.finditer(remark):
        name = _NAME.match(remark, found.end())
        if name is None:
            continue
        place = name[0].rstrip(".'’")
        sure = place[:1].isupper() or _GONE.search(remark[: found.end()]) is not None
        words = re.findall(r"\w+", folded(place))
        if sure and words[0] not in _no_towns() and there.isdisjoint(words):
            return place
    return ""


@cache
def _no_towns() -> frozenset[str]:
    return frozenset(word for row in table("no_towns") for word in row["words"].split(" | "))
