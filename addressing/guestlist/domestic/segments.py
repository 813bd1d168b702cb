"""The street text of an address cut into its parts, and parts that belong together joined again."""

import re

from addressing.guestlist.domestic.boxes import is_box, wants_box
from addressing.guestlist.domestic.buildings import building_start
from addressing.guestlist.domestic.dwellings import (
    Segment,
    direction_words,
    ends_street,
    kind_of,
    split_unit,
    suffix_words,
)
from addressing.guestlist.folding import fold

_BREAK = re.compile(r"\s*[\n,;]\s*")
_UNIT_BEFORE_SLASH = re.compile(r"^(?P<unit>\d*[A-Za-z]\d*)/(?P<street>\d.*)$")

_EITHER = re.compile(r"^(.+?)(?:\s+or\s+|\s+[/|]\s+)(.+)$", re.IGNORECASE)
CARE_BEHIND = re.compile(
    r"\s+(?=(?:c/o|(?:in\s+)?care\s+of|attn[.:]?|attention:)\s)", re.IGNORECASE
)
"""Before a care-of line that stands behind a street without a comma."""
_STARTS = re.compile(
    r"(?<=\s)(?=\d|P\.?\s?O\.?\s?B|R\.?\s?R\.?\s?#?\s?\d|RFD\s|H\.?C\.?\s?\d)", re.IGNORECASE
)
"""Where a street, a box or a route may begin."""
_REFERENCE = re.compile(r"^[^\d#]*#\s*[\d\-]+(?:\s[\d\-]+)*\s+$")
"""Words and a number behind a sign ("client # 4000"): a line above, where a box follows."""
_ROAD = r"(?:(?:state|county|us)\s+)?(?:route|rte|highway|hwy)\s+\d+"
_LOCKBOX = r"(?:lock\s?box|lbx)\s*(?:no\.?|\#)?\s*\d+"
_OF_STATE = rf"\S+\s+[A-Z]{{2}}\s+St\.?\s+{_ROAD}$"
"""One road, by Publication 28's own example: "KY ST HWY 1", where St is State."""
_SECOND = re.compile(
    rf"^(?!{_OF_STATE})"
    rf"(?:(?={_ROAD}\s+\d)({_ROAD})\s+(\d.*)|(\d.*)\s+((?:{_ROAD}|{_LOCKBOX})))$",
    re.IGNORECASE,
)
"""A street with a numbered road before or behind it, or with a lockbox behind it."""
_DELIVERED = frozenset((Segment.STREET, Segment.BOX))


def segments(text: str) -> list[str]:
    """The parts between commas and line breaks, in order.

    >>> segments("1800 M Street, NW, RR 2, Box 12")
    ['1800 M Street NW', 'RR 2 Box 12']
    >>> segments("c/o Odile Farrenby 14 Larkmoor Lane")
    ['c/o Odile Farrenby', '14 Larkmoor Lane']
    """
    parts: list[str] = []
    for part in (_trim(part) for part in _BREAK.split(text)):
        if not part:
            continue
        if parts and _continues(parts[-1], part):
            parts[-1] = f"{parts[-1]} {part}"
            continue
        direction, rest = _direction(parts[-1], part) if parts else ("", part)
        if direction:
            parts[-1] = f"{parts[-1]} {direction}"
        parts.extend(_apart(rest))
    return [part for part in parts if part]


def _trim(part: str) -> str:
    return part.strip(" .") if part.endswith("..") else part.strip()


def _continues(before: str, part: str) -> bool:
    """True for the box of a route, and for the street of a number that stands alone."""
    if wants_box(before) and re.match(r"^(?:box|bx|bzn|p\.?\s*o\.?\s*box)\b", part, re.IGNORECASE):
        return True
    number = re.fullmatch(r"\d+[A-Za-z]?(?:\s\d/\d)?", before) is not None
    return (
        number
        and kind_of(part) is Segment.WORDS
        and fold(part).split()[-1:] != []
        and (fold(part).split()[-1] in suffix_words())
    )


def _direction(before: str, part: str) -> tuple[str, str]:
    """("NW", "Ste 7") of a part that begins with the direction of the street before it."""
    words = part.split()
    folded = [fold(word) for word in words]
    if not ends_street(before) or fold(before).split()[-1] in direction_words():
        return "", part
    for length in (2, 1):
        said = "".join(folded[:length])
        if said not in direction_words() or (length == 2 and len(said) > 2):  # noqa: PLR2004 - S W
            continue
        rest = " ".join(words[length:])
        if not rest or kind_of(rest) is Segment.UNIT:
            return " ".join(words[:length]), rest
    return "", part


def _apart(part: str) -> list[str]:
    """A unit before a slash, and a street that follows words without a comma, are parts too."""
    either = _EITHER.match(part)
    if either and all(kind_of(side) in _DELIVERED for side in either.groups()):
        return [either[1], either[2]]
    slash = _UNIT_BEFORE_SLASH.match(part)
    if slash:
        return [slash["unit"], slash["street"]]
    care = CARE_BEHIND.search(part)
    if care and kind_of(part[: care.start()]) in _DELIVERED:
        return [part[: care.start()], part[care.end() :]]
    if kind_of(part) is Segment.STREET:
        second = _SECOND.match(part)
        two = [text for text in second.groups() if text] if second else []
        return two if two and _are_two(*two) else _with_building(part)
    place = street_start(part)
    return [part[:place].rstrip(), part[place:]] if place else [part]


def _are_two(first: str, second: str) -> bool:
    """True for a street and a numbered road or a lockbox in one part, in either order."""
    return (
        kind_of(first) in _DELIVERED
        and kind_of(second) in _DELIVERED
        and (ends_street(first) or ends_street(second))
    )


def _with_building(part: str) -> list[str]:
    """A street and the building behind it, which stood without a comma."""
    street, unit = split_unit(part)
    place = building_start(street)
    if not place or (unit is not None and not part.endswith(unit)):
        return [part]
    return [text for text in (street[:place].rstrip(), street[place:], unit) if text]


def street_start(part: str) -> int:
    """Where in "c/o Odile Farrenby 14 Larkmoor Lane" the street begins; 0 where none does."""
    if kind_of(part) not in (Segment.EXTRA, Segment.WORDS) or split_unit(part)[1] is not None:
        return 0
    for found in _STARTS.finditer(part):
        head, rest = part[: found.start()], part[found.start() :]
        if _REFERENCE.search(head) and is_box(rest):
            return found.start()
        if _REFERENCE.search(head) or head.endswith("# "):
            continue  # the number belongs to the sign before it
        if re.search(r"\d", head) or is_box(f"{head.strip()} 1"):
            return 0
        if is_box(rest) or (ends_street(rest) and fold(head).split()[-1:] != ["no"]):
            return found.start()
    return 0
