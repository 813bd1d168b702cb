"""A building's name behind a street, without a comma between (`data/building_words.tsv`)."""

import re
from functools import cache

from addressing.guestlist.domestic.address_tokens import kinds_of
from addressing.guestlist.domestic.designators import unit_in_front, unit_inside
from addressing.guestlist.domestic.dwellings import direction_words, suffix_words
from addressing.guestlist.domestic.numbered_roads import is_numbered_road
from addressing.guestlist.folding import fold
from addressing.tables import lookup

_PART = re.compile(r"[^\s,]+")
_FEWEST = 5
"""A number, a name, a suffix; a building's name and its word."""


def building_start(street: str) -> int:
    """Where a building's name begins behind a street's suffix or a road's number; else 0.

    Two words or more behind a road's own suffix are none of the street, whatever they are, save a
    second suffix (34th Street Drive) and a second road.

    >>> building_start("14 Larkmoor St SE Farrenby Lofts"), building_start("14 Larkmoor Gardens")
    (18, 0)
    >>> building_start("14 Larkmoor Rd Quince Cove"), building_start("14 34th Street Dr SE")
    (15, 0)
    >>> building_start("14 Rt 60 East Farrenby Industrial Park"), building_start("14 Rt 60 East")
    (14, 0)
    """
    roads = lookup("building_words", "word", "road")
    parts = list(_PART.finditer(street))
    if len(parts) < _FEWEST or roads.get(fold(parts[-1][0])) == "yes":
        return 0
    words = [(found.start(), fold(found[0])) for found in parts]
    for place in range(len(words) - 3, 1, -1):
        if ends_road([word for _, word in words[1 : place + 1]]):
            behind = place + 1 + (words[place + 1][1] in direction_words())
            named = [word for _, word in words[behind:]]
            return words[behind][0] if len(named) > 1 and _is_apart(named) else 0
    return 0


def ends_road(words: list[str]) -> bool:
    """True for the words of a street up to its road's own suffix, or to a road's number."""
    own = lookup("building_words", "word", "road").get(words[-1]) == "yes"
    return own or (words[-1].isdigit() and is_numbered_road(words))


def _is_apart(words: list[str]) -> bool:
    """True for a building's name, and for words of which none is of a street, a unit or a box."""
    if lookup("building_words", "word", "road").get(words[-1]) == "":
        return True
    if words[0] in suffix_words() | direction_words() or words[-1] in direction_words():
        return False
    return all(word.isalpha() and _OTHER.isdisjoint(kinds_of(word)) for word in words)


_OTHER = frozenset(("unit", "box", "route", "road", "care", "number-word", "little", "level"))
"""Kinds of words that belong to a street, a unit, a box or a person."""


def ends_building(text: str) -> bool:
    """True for the name of a building: words, the last of them a building's.

    >>> ends_building("North Tower"), ends_building("Tower"), ends_building("Larkmoor Lane")
    (True, False, False)
    """
    words = text.split()
    last = fold(words[-1]) if words else ""
    return len(words) > 1 and lookup("building_words", "word", "road").get(last) == ""


def is_named_place(words: str) -> bool:
    """True for the name of a building or of a department of a company."""
    return ends_building(words) or "company" in kinds_of(fold(words.rsplit(maxsplit=1)[-1]))


def behind_unit(part: str) -> tuple[str, str, str] | None:
    """(street, unit, building or department) where the last follows a unit; the street may be "".

    >>> behind_unit("14 Larkmoor St Ste 900 Farrenby Bldg"), behind_unit("Rm 5 Farrenby Division")
    (('14 Larkmoor St', 'Ste 900', 'Farrenby Bldg'), ('', 'Rm 5', 'Farrenby Division'))
    """
    if not part or not is_named_place(part):
        return None  # before the costly search: most parts end in no such word
    found = _inside().match(part) or unit_in_front().match(part)
    if found is None:
        return None
    groups = found.groupdict()
    words = groups["rest"]
    if not is_named_place(words) or re.search(r"\d", words):
        return None
    return groups.get("street") or "", groups["unit"].strip(" ,"), words


def without_unit(text: str) -> str:
    """The text without the unit in front of it."""
    found = unit_in_front().match(text)
    return found["rest"] if found else text


@cache
def _inside() -> re.Pattern[str]:
    return re.compile(
        rf"^(?P<street>\d\S*\s+\S.*?)[\s,]+(?P<unit>{unit_inside()})[\s,]+(?P<rest>[A-Za-z].*)$",
        re.IGNORECASE,
    )
