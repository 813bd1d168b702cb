"""The street text of an address cut into its parts, and parts that belong together joined again."""

import re

from addressing.guestlist.domestic.boxes import box_beside, is_box, wants_box
from addressing.guestlist.domestic.buildings import (
    behind_unit,
    building_start,
    ends_building,
    without_unit,
)
from addressing.guestlist.domestic.dwellings import (
    Segment,
    direction_words,
    ends_street,
    kind_of,
    split_unit,
    suffix_words,
)
from addressing.guestlist.domestic.numbered_roads import is_numbered_road
from addressing.guestlist.folding import fold

_BREAK = re.compile(r"\s*[\n,;]\s*")
_UNIT_BEFORE_SLASH = re.compile(r"^(?P<unit>\d*[A-Za-z]\d*)/(?P<street>\d.*)$")
_FLOOR_BEFORE = re.compile(
    r"^(?P<unit>\d{1,2}(?:st|nd|rd|th)?\s+(?:floor|flr?)\b\.?)\s+(?P<street>\d.*)$", re.IGNORECASE
)
"""3rd Fl 45-18 Court Square: a floor, then a house number."""

_EITHER = re.compile(r"^(.+?)(?:\s+or\s+|\s+[/|]\s+)(.+)$", re.IGNORECASE)
CARE_BEHIND = re.compile(
    r"\s+(?=(?:c/o|(?:in\s+)?care\s+of|attn[.:]?|attention:)\s)", re.IGNORECASE
)
"""Before a care-of line that stands behind a street without a comma."""
_STARTS = re.compile(
    r"(?<=\s)(?=\d|P\.?\s?O\.?\s?B|R\.?\s?R\.?\s?#?\s?\d|RFD\s|H\.?C\.?\s?\d|lock\s?box|lbx)",
    re.IGNORECASE,
)
"""Where a street, a box or a route may begin."""
_REFERENCE = re.compile(r"^[^\d#]*#\s*[\d\-]+(?:\s[\d\-]+)*\s+$")
"""Words and a number behind a sign ("client # 4000"): a line above, where a box follows."""
_ROAD = r"(?:(?:state|county|us)\s+)?(?:route|rte|highway|hwy)\s+\d+"
_LOCKBOX = r"(?:lock\s?box|lbx?)\s*(?:no\.?|\#)?\s*\d+"
_OF_STATE = rf"\S+\s+[A-Z]{{2}}\s+St\.?\s+{_ROAD}$"
"""One road, by Publication 28's own example: "KY ST HWY 1", where St is State."""
_SECOND = re.compile(
    rf"^(?!{_OF_STATE})"
    rf"(?:(?={_ROAD}\s+\d)({_ROAD})\s+(\d.*)|(\d.*)\s+((?:{_ROAD}|{_LOCKBOX})))$",
    re.IGNORECASE,
)
"""A street with a numbered road before or behind it, or with a lockbox behind it."""
_BOXED = re.compile(
    r"^(\d\S*\s.*?)[\s,]+((?:p\.?\s?o\.?\s?(?:box|bx)|pob|r\.?\s?r\.?)\s*\#?\s*\d.*)$",
    re.IGNORECASE,
)
"""A street with a post office box or a rural route behind it."""
_CARE_ALONE = re.compile(r"^(?:c/o|attn[.:]?|attention:?|care of)\s+$", re.IGNORECASE)
_DIRECTED = re.compile(
    r"^\d{1,5}\s+(?:[NSEW]\.?|north|south|east|west)\s+[A-Za-z]{4,}$", re.IGNORECASE
)
"""A street by number, direction and name, without a suffix."""
_WORDED = re.compile(r"^(\D+?)\s+(\d.*)$")
"""A building called by a number in words, before a street in figures."""
_NUMBERED = re.compile(r"\s\S*\d")
"""A number in a word behind the first: each of the three has one, hardly any street."""
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
    if not _wants_direction(before) or fold(before).split()[-1] in direction_words():
        return "", part
    for length in (2, 1):
        said = "".join(folded[:length])
        if said not in direction_words() or (length == 2 and len(said) > 2):  # noqa: PLR2004 - S W
            continue
        rest = " ".join(words[length:])
        if not rest or kind_of(rest) is Segment.UNIT or ends_building(rest):
            return " ".join(words[:length]), rest
    return "", part


def _wants_direction(street: str) -> bool:
    """True for a street by its suffix, a numbered road (14 Hwy 31), a grid's number (14 S 500)."""
    words = fold(street).split()[1:]
    grid = len(words) == 2 and words[0] in direction_words() and words[1].isdigit()  # noqa: PLR2004
    return ends_street(street) or grid or is_numbered_road(words)


def _apart(part: str) -> list[str]:
    """A unit before a slash, and a street that follows words without a comma, are parts too."""
    either = _EITHER.match(part)
    if either and all(kind_of(side) in _DELIVERED for side in either.groups()):
        return [either[1], either[2]]
    before = _UNIT_BEFORE_SLASH.match(part) or _FLOOR_BEFORE.match(part)
    if before:
        return [before["unit"], before["street"]]
    care = CARE_BEHIND.search(part)
    if care and _is_delivered(part[: care.start()]):
        return [*_apart(part[: care.start()]), *_apart(part[care.end() :])]
    if kind_of(part) is Segment.STREET:
        return _streets_apart(part)
    place = street_start(part)
    if place:
        return [*_unit_apart(part[:place].rstrip()), *_apart(part[place:])]
    return _unit_apart(part)


def _is_delivered(text: str) -> bool:
    """True for a street or a box, whatever stands before it or in which unit it is."""
    return street_start(text) > 0 or kind_of(split_unit(text)[0]) in _DELIVERED


def _streets_apart(part: str) -> list[str]:
    """A street and a second one, or a box, or a building behind it."""
    for pattern in (_SECOND, _BOXED, _WORDED) if _NUMBERED.search(part) else ():
        found = pattern.match(part)
        two = [text for text in found.groups() if text] if found else []
        if two and _are_two(*two):
            return two
    return _with_building(part)


def _unit_apart(part: str) -> list[str]:
    """A unit, and the building or department whose name follows it; a box and a street."""
    two = box_beside(part)
    if two is not None and (ends_street(two[1]) or is_numbered_road(fold(two[1]).split())):
        return list(two)
    found = behind_unit(part)
    return [text for text in found if text] if found and not found[0] else [part]


def _are_two(first: str, second: str) -> bool:
    """True for a street and a numbered road or a box in one part, in either order."""
    if kind_of(first) not in _DELIVERED or kind_of(second) not in _DELIVERED:
        return False
    if re.search(r"\d", first) is None:
        return ends_in_word(first) and ends_street(second)
    named = _BOXED.match(f"{first} {second}") is not None and len(first.split()) > 2  # noqa: PLR2004 - a number, two words
    return named or ends_street(first) or ends_street(second)


def ends_in_word(street: str) -> bool:
    """True when a suffix or a direction stands at the end, a unit behind it or not."""
    words = split_unit(street)[0].split()
    return len(words) > 2 and fold(words[-1]) in suffix_words() | direction_words()  # noqa: PLR2004 - a number, a name


def _with_building(part: str) -> list[str]:
    """A street and the building behind it, which stood without a comma."""
    found = behind_unit(part)
    if found is not None and found[0] and kind_of(found[0]) is Segment.STREET:
        return list(found)
    street, unit = split_unit(part)
    place = building_start(street)
    if not place or (unit is not None and not part.endswith(unit)):
        return [part]
    return [text for text in (street[:place].rstrip(), street[place:], unit) if text]


def street_start(part: str) -> int:
    """Where in "c/o Odile Farrenby 14 Larkmoor Lane" the street begins; 0 where none does."""
    if kind_of(part) not in (Segment.EXTRA, Segment.WORDS) or split_unit(part)[1] is not None:
        return 0
    if box_beside(part) is not None:
        return 0
    for found in _STARTS.finditer(part):
        place = _start_between(part[: found.start()], part[found.start() :])
        if place is not None:
            return place
    return 0


def _start_between(head: str, rest: str) -> int | None:
    """Where the street starts, 0 for nowhere; None where the next place is to be tried."""
    referred = _REFERENCE.search(head) is not None
    if _CARE_ALONE.match(head) or (referred and not is_box(rest) and not ends_in_word(rest)):
        return None
    if referred:
        return len(head)
    word = head.rsplit(maxsplit=1)[-1]
    if len(head.split()) > 1 and is_box(f"{word} 1") and box_beside(f"{word} {rest}"):
        return head.rindex(word)
    if head.endswith("# "):
        return None  # the number belongs to the sign before it
    if re.search(r"\d", without_unit(head)) or is_box(f"{head.strip()} 1"):
        return 0
    whole = ends_street(rest) or _DIRECTED.match(rest) or is_numbered_road(fold(rest).split()[1:])
    boxed = is_box(rest) or box_beside(rest) is not None
    return len(head) if boxed or (whole and fold(word) != "no") else None
