"""A family name before several who bear it, parted by commas: "Evans, Greg, Amy, Zach & Zoe"."""

import re

from addressing.guestlist.people.likeness import full_forms
from addressing.guestlist.people.vocabulary import may_be_given

_ONE = r"(?!(?i:guest|family|kids|children|plus)\b)[^\W\d_a-z][\w'’.-]*(?:\s*\(?\d{1,2}\)?)?"
_JOINT = r"\s*(?:,\s*(?:&|and)?|&|\+|(?<!\S)and(?!\S))\s*"
_CELL = re.compile(
    rf"\s*(?P<family>[^\W\d_a-z][\w'’-]+)\s*,\s*(?P<others>{_ONE}(?:{_JOINT}{_ONE})+)"
    rf"(?P<more>(?:{_JOINT}(?:(?i:guest|family|kids|children|plus\s+one)|\+?\s*1))?)\s*"
)
_PAIR = 2
_AGED = re.compile(r"\d")


def with_family_behind(text: str, *, family_first: bool) -> str:
    """The cell as it is read else, the family name behind the last who has no age.

    Of a column that isn't known to write so the first word must be no given name.

    >>> with_family_behind("Evans, Greg, Amy, Zach & Zoe", family_first=False)
    'Greg & Amy & Zach & Zoe Evans'
    >>> with_family_behind("Orr, Leah, David, Noah (4)", family_first=False)
    'Leah & David Orr, Noah (4)'
    >>> with_family_behind("Grace, Leah, David", family_first=False)
    'Grace, Leah, David'
    """
    found = _CELL.fullmatch(text)
    others = [part for part in re.split(_JOINT, found["others"]) if part] if found else []
    if found is None or ("," not in found["others"] and len(others) <= _PAIR):
        return text  # "Orr, Leah & David" is read already
    family = found["family"]
    if (may_be_given(family) and not family_first) or not all(map(_is_given, others)):
        return text
    grown = [part for part in others if not _AGED.search(part)]
    young = [part for part in others if _AGED.search(part)]
    if not grown:
        return text
    return ", ".join((f"{' & '.join(grown)} {family}", *young)) + found["more"]


def _is_given(part: str) -> bool:
    name = re.split(r"[\s(]", part)[0]
    return bool(_AGED.search(part)) or may_be_given(name) or bool(full_forms(name.casefold()))
