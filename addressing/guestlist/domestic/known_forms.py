"""Is every part of a reading in a form that the tables know, and is each parted from the next?

Such a reading can hardly be cut elsewhere: a house number, a name and a suffix; a numbered road; a
grid; a unit with its designator; a line above that a mark parts. How seldom it is wrong where rules
and model agree is measured, not asserted (`data/address_doubt.tsv`, "known").
"""

import re
from functools import cache

from addressing.guestlist.domestic.address_tokens import kinds_of
from addressing.guestlist.domestic.boxes import is_box, is_lockbox
from addressing.guestlist.domestic.buildings import building_start, is_named_place
from addressing.guestlist.domestic.designators import needs_number, whole_unit
from addressing.guestlist.domestic.dual import delivered_to
from addressing.guestlist.domestic.dwellings import (
    Segment,
    direction_words,
    kind_of,
    suffix_words,
)
from addressing.guestlist.domestic.numbered_roads import is_numbered_road, without_directions
from addressing.guestlist.folding import fold
from addressing.guestlist.places.places import town_in_zip
from addressing.guestlist.written import Written
from addressing.records.guests import Address, Cited
from addressing.tables import lookup

_NUMBER = re.compile(
    r"^(?:[NSEW]\s?\d+\s?[NSEW]\s?\d+|[NSEW]\d{3,5}|\d+(?:-\d+)?[A-Za-z]?(?:[\s\-]\d/\d)?"
    r"|one|two|three|four|five|six|seven|eight|nine|ten)\s+(?=\S)",
    re.IGNORECASE,
)
_MOST = 4
"""Words of a street's name between its direction and its suffix, at most."""
_MARK = re.compile(r"\s*(?:$|[,\n;(\-–—])")
_BETWEEN = re.compile(r"[\s,.;\-–]+")
_WORD = re.compile(r"\w")


def is_known_form(address: Address, written: Written) -> bool:
    """True when street, unit and lines above each have a known form and stand apart."""
    text = "\n".join(line.text for line in written.lines)
    street, text = _without_lockbox(address.street.text if address.street else "", text)
    streets = street.split("\n")
    if len(streets) > 1 and delivered_to(address) is None:
        return False
    units = _parts(address.unit) if written.unit is None else []
    lines = _parts(address.recipient_extra) if written.extra is None else []
    return (
        all(
            is_box(each)
            or _is_known_street(each, parted=_is_parted(address, each, [*units, *streets], text))
            for each in streets
        )
        and all(_is_known_unit(unit) or _is_bare(unit, streets[0], text) for unit in units)
        and all(_is_known_line(address, line, text, streets[0], units) for line in lines)
    )


def is_unmixed(address: Address, written: Written) -> bool:
    """True when no word of a street in no known form hints at a second part within it.

    Such a hint is a number in it, words behind a road's own suffix (save a road's at the very
    end), a word of units, or a unit that is none for sure.
    """
    text = "\n".join(line.text for line in written.lines)
    street = address.street.text if address.street else ""
    words = [fold(word) for word in street.split()]
    while len(words) > 2 and words[-1] in direction_words():  # noqa: PLR2004 - a number, a name
        words.pop()
    units = _parts(address.unit) if written.unit is None else []
    return (
        len(words) > 1
        and "\n" not in street
        and not any(mark.isdigit() for mark in words[-1])
        and (words[-1] in _roads() or _roads().isdisjoint(words[2:-1]))
        and not any(word.isdigit() for word in words[1:])
        and "unit" not in kinds_of(words[-1])
        and all(_is_known_unit(unit) or _is_bare(unit, street, text) for unit in units)
    )


def _parts(cited: Cited | None) -> list[str]:
    return re.split(r",\s*|\n", cited.text) if cited else []


def _without_lockbox(street: str, text: str) -> tuple[str, str]:
    """The street without the lockbox in its house; what is left of the text is parted there."""
    for line in street.split("\n") if "\n" in street else ():
        found = _place(line, text) if is_lockbox(line) else None
        if found is not None:
            text = f"{text[: found[0]].rstrip(' ,;')}, {text[found[1] :]}"
            street = "\n".join(other for other in street.split("\n") if other != line)
    return street, text


def _is_parted(address: Address, street: str, units: list[str], text: str) -> bool:
    """True when a mark, a designator or the ZIP's one town stands behind the street."""
    found = _place(street, text)
    if found is None:
        return False
    behind = text[found[1] :]
    if _is_closed(address, behind):
        return True
    return any(_place(unit, behind.strip()[: len(unit) + 2]) is not None for unit in units)


def _is_closed(address: Address, behind: str) -> bool:
    return _MARK.match(behind) is not None or _is_one_town(address, behind)


def _is_one_town(address: Address, behind: str) -> bool:
    """True when the ZIP has the town that follows, and none of a part of its words."""
    if address.city is None or address.postcode is None:
        return False
    words, code = address.city.text.split(), address.postcode.text
    others = [" ".join(words[place:]) for place in range(1, len(words))]
    follows = _place(address.city.text, behind.lstrip()[: len(address.city.text)]) is not None
    return (
        follows
        and town_in_zip(address.city.text, code)
        and not any(town_in_zip(other, code) for other in others)
    )


def _place(part: str, text: str) -> tuple[int, int] | None:
    """Where the words of a part stand in the text, whatever marks are between them.

    Each address is another part: a pattern made of it would have to be compiled every time.
    """
    words = part.split()
    start = text.find(words[0]) if words else -1
    while start >= 0:
        end = _end_of(words, text, start) if not _WORD.match(text[start - 1 : start]) else None
        if end is not None:
            return start, end
        start = text.find(words[0], start + 1)
    return None


def _end_of(words: list[str], text: str, start: int) -> int | None:
    """Where words end that stand at this place in the text, a point included; None without them."""
    if not text.startswith(words[0], start):
        return None
    behind = start + len(words[0])
    if len(words) > 1:
        gap = _BETWEEN.match(text, behind)
        places = range(gap.end(), behind, -1) if gap else ()
        ends = (_end_of(words[1:], text, place) for place in places)
        return next((end for end in ends if end is not None), None)
    if text.startswith(".", behind):
        return behind + (_WORD.match(text, behind + 1) is None)
    return None if _WORD.match(text, behind) else behind


def _is_known_street(street: str, *, parted: bool) -> bool:
    number = _NUMBER.match(street)
    words = fold(street[number.end() :] if number else street).split()
    if is_numbered_road(words):
        return True
    if number is None or not words:
        return False
    return _is_grid(words) or _is_lettered(words) or _is_named(words, parted=parted)


def _is_grid(words: list[str]) -> bool:
    """True for 455 S 700 E (Publication 28, D2)."""
    known = direction_words()
    if len(words) != 3:  # noqa: PLR2004 - S 700 E
        return False
    return words[0] in known and words[1].isdigit() and words[2] in known


def _is_lettered(words: list[str]) -> bool:
    """True for Avenue D and Avenue of the Poplars: a road's word first, named by what follows."""
    words = without_directions(words)
    if words[0] not in _roads() or len(words) < 2:  # noqa: PLR2004 - Ave D
        return False
    if len(words) == 2 and len(words[1]) == 1:  # noqa: PLR2004 - Ave D
        return True
    return words[1:3] == ["of", "the"] and all(word.isalpha() for word in words)


def _is_named(words: list[str], *, parted: bool) -> bool:
    """True for a name and a suffix; without a suffix only where the street's end is marked."""
    known = direction_words()
    words = _without_last_direction(words)
    if len(words) == 2 and words[0] in known and words[1] in suffix_words():  # noqa: PLR2004 - South Street
        return True
    if len(words) > 1 and words[0] in known:
        words = words[1:]
        if len(words) == 1 and re.fullmatch(r"\d{1,3}(?:st|nd|rd|th)", words[0]):
            return parted
    if words[0] in lookup("lone_streets", "name", "source"):
        return len(words) == 1
    if words[0] in lookup("leading_roads", "word", "source") and len(words) > 1:
        named = all(word.isalpha() for word in words) and "unit" not in kinds_of(words[-1])
        return parted and named and len(words) <= _MOST
    if len(words) > 1 and words[-1] in suffix_words():
        return len(words) <= _MOST + 1 and _is_name(words[:-1])
    return parted and len(words) <= _MOST and _is_lone_name(words)


def _without_last_direction(words: list[str]) -> list[str]:
    """Without N, NE or N E behind the name; behind a road's word No and So are directions too."""
    known = direction_words()
    if len(words) > 2 and words[-1] in _SHORT and words[-2] in _roads():  # noqa: PLR2004 - a name, a road
        return words[:-1]
    if len(words) > 3 and len(words[-2]) == len(words[-1]) == 1 and "".join(words[-2:]) in known:  # noqa: PLR2004 - N E
        return words[:-2]
    return words[:-1] if len(words) > 1 and words[-1] in known else words


def _is_lone_name(words: list[str]) -> bool:
    """True for words that no table takes for something else; a suffix may stand among them."""
    if not all(word.isalpha() and len(word) > 2 for word in words):  # noqa: PLR2004 - a code
        return False
    others = all(_NAMING.issuperset(kinds_of(word)) for word in words[:-1])
    return others and not kinds_of(words[-1]) and _roads().isdisjoint(words)


_SHORT = frozenset(("no", "so"))
"""North and South as some towns shorten them: common practice, no source."""
_NAMING = frozenset(("suffix", "house", "title", "little"))


def _is_name(words: list[str]) -> bool:
    """True for words that a street may be called by: no second road, no unit, one number."""
    if len(words) == 2 and words[1] in _roads():  # noqa: PLR2004 - 34th Street Drive
        words = words[:1] if re.match(r"\d+(?:st|nd|rd|th)$|[a-z]$", words[0]) else words
    if len(words) == 1 and re.fullmatch(r"\d{1,3}(?:st|nd|rd|th)?|[a-z]", words[0]):
        return True
    named = words[1:] if words[0] in ("st", "saint", "dr") else words
    return all(
        word not in _roads()
        and re.fullmatch(r"[^\W\d]+|\d{1,3}(?:st|nd|rd|th)", word) is not None
        and _NEVER.isdisjoint(kinds_of(word))
        for word in named
    )


_NEVER = frozenset(("box", "care", "company"))
"""Kinds of words that no street's name holds."""


@cache
def _roads() -> frozenset[str]:
    """Suffixes that no name of a street goes on behind: Street, Ave, Rd."""
    return frozenset(
        word for word, road in lookup("building_words", "word", "road").items() if road
    )


def _is_known_unit(unit: str) -> bool:
    """True for a unit with a designator that is no other word (Trl is a trail, No is north)."""
    if fold(unit) in needs_number():
        return True  # a designator alone is asked about by itself
    if whole_unit().fullmatch(unit) is None:
        return False
    if unit.startswith("#"):
        return True
    words = [fold(word) for word in re.split(r"[\s\d#.\-]+", _ORDINAL.sub("", unit)) if word]
    kinds = frozenset(kinds_of(words[0]) if words else ())
    sure = bool(kinds) and kinds <= _UNIT_KINDS and words[0] not in _AMBIGUOUS
    return sure or words[:1] == ["pmb"]


def _is_bare(unit: str, street: str, text: str) -> bool:
    """True for a number or code behind a mark, a street's one suffix, or its direction."""
    found = _place(unit, text)
    if found is None or kind_of(unit) not in (Segment.BARE_UNIT, Segment.WORDS):
        return False
    words = [fold(word) for word in street.split()]
    if text[found[1] :].lstrip(" .").startswith(("-", "–")):
        return False  # 32 - 233 Larkmoor Street may be one number
    if _at_mark(text[: found[0]]):
        return any(mark.isdigit() for mark in unit) or _LETTER.search(text[: found[0]]) is not None
    if len(words) > 2 and _is_lone_name(words[1:]):  # noqa: PLR2004 - a number, two words
        return re.fullmatch(r"\d{1,3}[A-Za-z]", unit) is not None
    return kind_of(unit) is Segment.BARE_UNIT and len(words) > 2 and _takes_bare(words, unit)  # noqa: PLR2004 - a number, a name, a suffix


def _takes_bare(words: list[str], unit: str) -> bool:
    """True when a number behind these words of a street can only be a unit."""
    numbered = any(mark.isdigit() for mark in unit)
    known = direction_words()
    if len(words) == 3 and words[1] in known:  # noqa: PLR2004 - 212 W Larkmoor 1506
        return numbered and unit[0].isdigit() and len(words[2]) > 3  # noqa: PLR2004 - a name
    if words[-1] in known and words[-2] in _roads():
        return words[-1] not in _SINGLE
    return numbered and words[-1] in _roads() and words[-2] not in suffix_words()


_LETTER = re.compile(r"\s[A-Za-z]\s*,\s*$")
"""Behind a unit's letter a second one: Unit K, L."""
_SINGLE = frozenset(("n", "s", "e", "w"))
"""Directions that may as well be a unit's: Larkmoor Dr, N 507."""
_ORDINAL = re.compile(r"^\d+(?:st|nd|rd|th)\b", re.IGNORECASE)
_UNIT_KINDS = frozenset(("unit", "level", "number-word", "company", "house", "road", "title"))
_AMBIGUOUS = frozenset(("no", "num", "trl", "st"))


def _is_known_line(address: Address, line: str, text: str, street: str, units: list[str]) -> bool:
    """True for a care-of line, a road, a building behind a street, and words that marks part."""
    if kind_of(line) is Segment.EXTRA or is_numbered_road(fold(line).split()):
        return True
    found = _place(line, text)
    if found is None or re.search(r"[\d#]", line):
        return False
    words = fold(line).split()
    if "number-word" in kinds_of(words[0]) and not (
        "house" in kinds_of(words[-1]) and street[:1].isdigit()
    ):
        return False  # One Farrenby Plaza may be the street, unless another has a number
    behind, ahead = text[: found[0]].rstrip(" ,"), text[found[1] :].strip(" .")
    named = is_named_place(line)
    begins = _at_mark(text[: found[0]]) or any(behind.endswith(unit) for unit in units)
    cut = named or building_start(f"{street} {line}") == len(street) + 1
    begins = begins or (cut and _ends_with(behind, street))
    return begins and (named or _is_closed(address, ahead) or ahead.startswith(street))


def _at_mark(before: str) -> bool:
    return not before.strip() or before.rstrip(" ")[-1] in ",\n;-–—"


def _ends_with(text: str, street: str) -> bool:
    found = _place(street, text)
    return found is not None and found[1] == len(text)
