"""The parts of a street address: is it a street, a box, a unit, a care-of line, a building?

Designators of units are in `designators.py`, boxes and routes in `boxes.py`.
"""

import re
from collections.abc import Callable
from enum import StrEnum
from functools import cache, lru_cache

from addressing.guestlist.domestic.boxes import is_box, split_boxes
from addressing.guestlist.domestic.designators import (
    unit_at_end,
    unit_in_front,
    unit_pattern,
    whole_unit,
)
from addressing.guestlist.folding import fold
from addressing.guestlist.places.places import state_code
from addressing.tables import lookup, table

LONGEST = 400
"""Letters from which on a part of an address is none: it is left as it stands."""


class Segment(StrEnum):
    """What a part of an address is."""

    STREET = "street"
    BOX = "box"
    UNIT = "unit"
    BARE_UNIT = "bare-unit"
    EXTRA = "extra"
    WORDS = "words"


_CARE = re.compile(
    r"^(?:c/o|c\.o\.|care\s+of|in\s+care\s+of|℅|%(?=\s*[A-Za-z])|attn\.?:?|attention:?)\s*\S",
    re.IGNORECASE,
)
_TENS = "twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety"
_ONES = "one|two|three|four|five|six|seven|eight|nine"
_TEENS = "ten|eleven|twelve|thirteen|fourteen|fifteen|sixteen|seventeen|eighteen|nineteen"
_NUMBER_WORDS = rf"(?:(?:{_TENS})(?:[\s\-](?:{_ONES}))?|{_TEENS}|{_ONES}(?:\s+hundred)?)"
_FRACTION = r"(?:[\s\-]?\d/\d|\s?[¼½¾])"
_HOUSE_NUMBER = re.compile(
    rf"^(?:no\.?\s*|#\s*)?(?:[NSEW]\.?\s?\d+(?:\s?[NSEW]\.?\s?\d+)?(?=\s+[A-Za-z])"
    rf"|\d[\d\-]*{_FRACTION}?(?:-?[A-Za-z])?(?:\.\d+)?|{_NUMBER_WORDS})\s+\S",
    re.IGNORECASE,
)
_BARE = re.compile(
    r"^(?:\d{1,4}(?:[\s\-]?[A-Za-z])?|[A-Za-z]{1,2}\d?-?\d{1,4}[A-Za-z]?|\d{1,3}-\d{1,4}|[A-Za-z]"
    r"|PH\s?-?\w{0,3})$",
    re.IGNORECASE,
)
_BARE_BEHIND = re.compile(
    r"^(?P<street>.*\S)[\s,]+(?P<unit>\d{1,4}[A-Za-z]?|[A-Za-z]-?\d{1,4})$", re.DOTALL
)
_LETTER_BEHIND = re.compile(
    r"^(?P<street>.*\s(?:[NS]\.?[EW]|[NS]orth(?:east|west))\b\.?)[\s,]+(?P<unit>[A-DF-MO-RT-VX-Z])$",
    re.IGNORECASE | re.DOTALL,
)
"""A letter behind a street's direction of two letters: 14 Larkmoor Ave SW A."""
_NUMBERED_ROAD = re.compile(
    r"^(?:(?:us|state|st|county|[A-Z]{2})\.?\s+)?(?:highway|hwy|route|rte|rt|road|rd|interstate"
    r"|county\s+road|cr|sr|fm)\.?\s+\d",
    re.IGNORECASE,
)


@lru_cache(maxsize=4_096)
def kind_of(segment: str) -> Segment:
    """What one part of an address is, by its form.

    >>> kind_of("14 Larkmoor Lane"), kind_of("Apt. 4B"), kind_of("P.O. Box 12"), kind_of("4B")
    (<Segment.STREET: 'street'>, <Segment.UNIT: 'unit'>, <Segment.BOX: 'box'>, \
<Segment.BARE_UNIT: 'bare-unit'>)
    """
    text = segment.strip()
    if len(text) <= LONGEST:
        for looks_so, kind in _FORMS:
            if looks_so(text):
                return kind
    return Segment.WORDS


_FORMS: tuple[tuple[Callable[[str], object], Segment], ...] = (
    (_CARE.match, Segment.EXTRA),
    (is_box, Segment.BOX),
    (lambda text: whole_unit().fullmatch(text), Segment.UNIT),
    (_BARE.match, Segment.BARE_UNIT),
    (_HOUSE_NUMBER.match, Segment.STREET),
    (_NUMBERED_ROAD.match, Segment.STREET),
)
"""What a part looks like, in the order in which it is tried."""


def has_number(street: str) -> bool:
    """True when a delivery line has the number that it needs, in figures or in words."""
    return bool(re.search(r"\d", street) or _HOUSE_NUMBER.match(street) or is_box(street))


@lru_cache(maxsize=4_096)
def split_unit(street: str) -> tuple[str, str | None]:
    """(street, unit) of a street or box with a unit behind or before it.

    >>> split_unit("14 Larkmoor Lane Apt 3"), split_unit("#4B, 14 Larkmoor Lane")
    (('14 Larkmoor Lane', 'Apt 3'), ('14 Larkmoor Lane', '#4B'))
    """
    if is_box(street) or len(street) > LONGEST:
        return street, None
    boxed = split_boxes(street) or _box_and_unit(street)
    if boxed is not None:
        return boxed
    tail = unit_at_end().match(street)
    if tail and _can_stand(tail["street"], tail["unit"]):
        return tail["street"], tail["unit"].strip()
    bare = _bare_unit(street)
    if bare is not None:
        return bare
    head = unit_in_front().match(street)
    if head and kind_of(head["rest"]) in (Segment.STREET, Segment.BOX):
        return head["rest"], head["unit"].strip(" ,")
    return street, None


def _box_and_unit(text: str) -> tuple[str, str] | None:
    """("RR 1 Box 12", "PMB 596"): the longest box or route with a unit behind it."""
    for found in reversed(list(re.finditer(r"[\s,]+", text))):
        box, unit = text[: found.start()], text[found.end() :]
        if is_box(box) and whole_unit().fullmatch(unit):
            return box, unit
    return None


def _can_stand(street: str, unit: str) -> bool:
    """True when what is left before a unit is a whole street or box.

    A unit without a number ("Upper", "Front") needs the street's suffix before it.
    """
    if kind_of(street) is Segment.BOX:
        return True
    if kind_of(street) is not Segment.STREET or len(street.split()) < 2:  # noqa: PLR2004
        return False
    if _SIGN.match(unit):  # Highway #5 and Route No. 9 are roads
        return not is_road(" ".join(fold(word) for word in street.split()[1:]))
    if re.search(r"\d|#", unit) or " " in unit.strip():
        return True
    return _last_word(street) in _ends() or fold(unit) in _unit_codes()


def _bare_unit(street: str) -> tuple[str, str] | None:
    """("14 Larkmoor Ct", "4B"), ("14 Larkmoor Ct NE", "Unit"): a number or a designator alone."""
    found = _BARE_BEHIND.match(street) or _LETTER_BEHIND.match(street)
    if found and (
        _ends_in_suffix(found["street"]) or _ends_in_name(found["street"], found["unit"])
    ):
        return found["street"].rstrip(" ,"), found["unit"]
    before, _, last = street.rpartition(" ")
    if fold(last) not in _EMPTY or not _ends_in_suffix(before):
        return None
    return before.rstrip(" ,"), last


_EMPTY = frozenset(("unit", "apt", "apartment", "suite", "ste"))


_SIGN = re.compile(r"^(?:#|no\b\.?|nr\b\.?)", re.IGNORECASE)


@cache
def _unit_codes() -> frozenset[str]:
    """Abbreviations of units without a number that are no other words: BSMT, LBBY (C2)."""
    return frozenset(
        fold(row["approved_abbreviation"])
        for row in table("units")
        if row["range_required"] == "no" and row["approved_abbreviation"] != row["designator"]
    )


def _ends_in_suffix(street: str) -> bool:
    """True for a number, a name and a suffix: what follows is no number of a road.

    A direction may stand behind the suffix; some streets need none (`data/lone_streets.tsv`).
    """
    words = [fold(word) for word in re.split(r"[\s,]+", street)]
    if kind_of(street) is not Segment.STREET:
        return False
    if len(words) == 2 and words[1] in lookup("lone_streets", "name", "source"):  # noqa: PLR2004
        return True
    if len(words) > 3 and words[-1] in direction_words():  # noqa: PLR2004 - a name, a suffix
        words.pop()
    if len(words) == 3 and words[1] in direction_words():  # noqa: PLR2004 - 212 W Larkmoor 1506
        return words[2].isalpha() and len(words[2]) > 3 and not is_road(words[2])  # noqa: PLR2004
    if words[-1] not in suffix_words() or words[-1] in _NUMBERED or words[-2:] == _SLIP:
        return False
    return len(words) > 2 and not is_road(" ".join(words[1:]))  # noqa: PLR2004


def _ends_in_name(street: str, unit: str) -> bool:
    """True for a number and a name of two words or more before a figure with a letter (3R)."""
    words = [fold(word) for word in street.split()]
    named = len(words) > 2 and all(word.isalpha() and len(word) > 2 for word in words[1:])  # noqa: PLR2004
    lettered = re.fullmatch(r"\d{1,3}[A-Za-z]", unit) is not None
    road = any(is_road(" ".join(words[place:])) for place in range(1, len(words)))
    return named and lettered and not road and words[-1] not in _NUMBERED


_NUMBERED = frozenset(("highway", "hwy", "route", "rte"))
"""Behind these a number is the road's, whatever stands before: 14 City Highway 16."""
_SLIP = ["country", "road"]
"""Written for County Road: a number behind it is the road's."""


def is_road(name: str) -> bool:
    """True when a folded name consists of the words before a road's number ("state route")."""
    roads = {row["written"] for row in table("roads")}
    words = name.split()
    if words and (words[0] == "old" or words[0] in direction_words()):
        return is_road(" ".join(words[1:]))
    return name in roads or any(
        " ".join(words[length:]) in roads and state_code(" ".join(words[:length])) is not None
        for length in range(1, len(words))
    )


def ends_street(text: str) -> bool:
    """True for a number, a name and a suffix or direction, with or without a unit behind."""
    street, unit = split_unit(text)
    if kind_of(street) is not Segment.STREET or len(street.split()) < 3:  # noqa: PLR2004
        return kind_of(street) is Segment.STREET and unit is not None and len(street.split()) > 1
    return _last_word(street) in _ends() or unit is not None


def _last_word(street: str) -> str:
    return fold(street.rsplit(maxsplit=1)[-1])


@cache
def _ends() -> frozenset[str]:
    return suffix_words() | direction_words()


def unit_then_town(segment: str) -> tuple[str, str] | None:
    """("Apt 3", "Millhaven") of a unit and a town with no comma between, or None."""
    found = unit_in_front().match(segment) if len(segment) <= LONGEST else None
    if found is None or not re.fullmatch(r"[A-Za-z][A-Za-z .'’\-]+", found["rest"]):
        return None
    return found["unit"].strip(" ,"), found["rest"]


def unit_name(word: str) -> str | None:
    """The designator in full for a word of a header: Apartment for "apt"; None for other words."""
    others = {row["written"]: row["of"] for row in table("unit_forms")}
    for row in table("units"):
        name = row["designator"]
        if name.isalpha() and (
            word in (name.lower(), row["approved_abbreviation"].lower()) or others.get(word) == name
        ):
            return row["spelled_out"]
    return None


def unit_before(text: str) -> str:
    """A unit that stands behind the ZIP goes to the front, where a unit may stand.

    >>> unit_before("14 Larkmoor Lane, Boston, MA 02116 Apt 4")
    'Apt 4, 14 Larkmoor Lane, Boston, MA 02116'
    """
    if len(text) > LONGEST:
        return text
    found = re.match(
        rf"^(?P<rest>.*\b\d{{5}}(?:-\d{{4}})?)[\s,;]+(?P<unit>{unit_pattern()})$",
        text.strip(),
        re.IGNORECASE | re.DOTALL,
    )
    return f"{found['unit']}, {found['rest']}" if found else text


@cache
def suffix_words() -> frozenset[str]:
    """Every written form of a street suffix, folded (Publication 28, appendix C1)."""
    found: set[str] = set()
    for row in table("suffixes"):
        found.add(fold(row["primary_name"]))
        found.add(fold(row["standard_abbreviation"]))
        found.update(fold(form) for form in row["printed_variants"].split())
    return frozenset(found)


@cache
def direction_words() -> frozenset[str]:
    """Every written form of a direction, folded."""
    found: set[str] = set()
    for row in table("directionals"):
        found.update((fold(row["direction"]), fold(row["abbreviation"])))
    return frozenset(found)
