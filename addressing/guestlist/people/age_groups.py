"""What a column of adults and children says of one guest: "A", "Child", "C 11", "Kid (6)"."""

import re

from addressing.guestlist.folding import fold
from addressing.guestlist.people.vocabulary import words

_GROUPS = ("adult", "child", "guest")
_WITH_AGE = re.compile(
    r"(?P<group>[^\W\d_][^\d(\[]*?)[\s,.:–-]*(?P<mark>[(\[]|\baged?\b)?\s*(?P<age>\d{1,2})"
    r"\s*(?:(?:yrs?|years?|y\.?/?o)\b\.?)?(?:\s*old)?\s*[)\]]?",
    re.IGNORECASE,
)
_ORDINAL = 3
"""Up to here a bare number behind "Child" may count the children of a household."""


def age_group(text: str) -> tuple[str, int | None]:
    """("adult", "child", "guest" or "", age in years or None) of one cell.

    >>> [age_group(text) for text in ("A", "C 11", "Kid (2)", "Child 2", "Suite 11")]
    [('adult', None), ('child', 11), ('child', 2), ('child', None), ('', None)]
    """
    found = _WITH_AGE.fullmatch(text.strip())
    said = fold(found["group"] if found else text)
    group = next((kind for kind in _GROUPS if said in words(f"{kind}-group")), "")
    if not group or found is None:
        return group, None
    age = int(found["age"])
    return group, age if found["mark"] or age > _ORDINAL else None
