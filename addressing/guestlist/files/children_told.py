"""Lines that only name the children of a household: "kids Ivy, Kit", "with Ivy (6) and Kit (4)"."""

import re
from functools import cache

from addressing.guestlist.domestic.designators import whole_unit
from addressing.guestlist.files.mail_lines import has_verb
from addressing.guestlist.files.prose_words import prose_words
from addressing.guestlist.people.vocabulary import may_be_given

_NAME = re.compile(
    r"[^\W\d_a-z][\w'’-]*(?:\s[^\W\d_a-z][\w'’-]*)?(?P<age>\s*\(\s*\d{1,2}[^()]{0,12}\))?"
)
_AGED = re.compile(
    r"(?P<name>[^\W\d_][\w'’-]+)\s*(?P<bracket>\()?\s*1?\d\s*(?:y/?o|yrs?|years?(?:\s+old)?|mos?|months)?\s*\)?"
)
"""A name and the age of a child, younger than twenty."""
_JOINT = re.compile(r"\s*,\s*(?:(?:and|&)\s+)?|\s+(?:and|&|\+|und|et|y)\s+")
_LED = re.compile(r"(?:with|plus|and|[+&])\s+(?P<names>.+)", re.IGNORECASE)


def children_of(text: str) -> str:
    """The names of the children whom a line only names; "" for another line.

    >>> children_of("and their kids Ivy, Kit & Bo"), children_of("with Ivy (6) and Kit (4)")
    ('Ivy, Kit & Bo', 'Ivy (6) and Kit (4)')
    >>> children_of("zara (8), obi (5)"), children_of("Ivy 6 & Kit 4"), children_of("Unit 6, Box 4")
    ('zara (8), obi (5)', 'Ivy 6 & Kit 4', '')
    >>> children_of("kids are grown"), children_of("with Kit Orr"), children_of("kids not invited")
    ('', '', '')
    """
    bare = text.strip(" .;")
    told = _told().fullmatch(bare)
    if told is not None:
        return told["names"] if _names(told["names"], aged=False) else ""
    led = _LED.fullmatch(bare)
    if led is not None:
        return led["names"] if _names(led["names"], aged=True) else ""
    return bare if _are_aged(bare) else ""


def _names(text: str, *, aged: bool) -> bool:
    found = [_NAME.fullmatch(part) for part in _JOINT.split(text)]
    return not has_verb(text) and all(each and (each["age"] or not aged) for each in found)


def _are_aged(text: str) -> bool:
    """True for names that have a child's age each; without brackets it may be an address."""
    parts = _JOINT.split(text)
    found = [aged for part in parts if (aged := _AGED.fullmatch(part)) is not None]
    bare = (re.sub(r"[()]", "", part) for part in parts)
    if len(found) < len(parts) or any(whole_unit().fullmatch(part) for part in bare):
        return False
    if all(aged["bracket"] for aged in found):
        return True
    return len(parts) > 1 and any(may_be_given(aged["name"]) for aged in found)


@cache
def _told() -> re.Pattern[str]:
    lead, kind = ("|".join(sorted(map(re.escape, prose_words(k)))) for k in ("before-kids", "kids"))
    return re.compile(
        rf"(?:(?:{lead})\s+|[+&]\s*)*(?:{kind})\s*[:,–-]?\s+(?P<names>.+)", re.IGNORECASE
    )
