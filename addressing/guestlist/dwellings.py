"""The parts of a street address: is it a street, a box, a unit, a care-of line, a building?

Designators of units are Publication 28's (appendix C2) with the ways in which lists write them.
"""

import re
from enum import StrEnum
from functools import cache

from addressing.guestlist.folding import fold
from addressing.tables import table

_VALUE = (
    r"(?:#\s*)?(?:\d[\w\-/]*|[A-Za-z]{1,2}-?\d[\w\-]*|[A-Za-z]{1,2}\b|one|two|three|four|five|six)"
)
_SHORT = r"(?:#\s*)?(?:\d[\w\-/]*|[A-Za-z](?:-?\d+[A-Za-z]?)?|PH\s?-?\d*\w?)"
_ORDINAL = r"(?:\d+(?:st|nd|rd|th)|first|second|third|fourth|fifth|top|ground)"
_EXTRA_FORMS = {
    "APARTMENT": ("apt", "apmt", "appt", "aprt"),
    "FLOOR": ("flr",),
    "SUITE": ("ste", "suit"),
    "NUMBER": ("no", "num"),
}
_LOOSE = frozenset(
    ("LOT", "KEY", "PIER", "SIDE", "SPACE", "STOP", "SLIP", "FRONT", "OFFICE", "HANGER")
)
"""Designators that are also ordinary words: taken only with a number behind them."""


class Segment(StrEnum):
    """What a part of an address is."""

    STREET = "street"
    BOX = "box"
    UNIT = "unit"
    BARE_UNIT = "bare-unit"
    EXTRA = "extra"
    WORDS = "words"


@cache
def _designators() -> tuple[str, str, str]:
    """Regular expressions: sure designators, loose ones, ones that stand alone."""
    sure: list[str] = []
    loose: list[str] = []
    alone: list[str] = []
    for row in table("units"):
        name = row["designator"].upper()
        if not name.isalpha():
            continue
        forms = {name.lower(), row["approved_abbreviation"].lower(), *_EXTRA_FORMS.get(name, ())}
        if row["range_required"] == "no":
            alone.extend(forms)
        (loose if name in _LOOSE else sure).extend(forms)
    sure.extend(_EXTRA_FORMS["NUMBER"])
    return _any(sure), _any(loose), _any(alone)


def _any(forms: list[str]) -> str:
    return "(?:" + "|".join(sorted(set(forms), key=len, reverse=True)) + ")"


@cache
def _unit_patterns() -> tuple[re.Pattern[str], re.Pattern[str]]:
    """(a whole unit, a unit at the end of a street)."""
    sure, loose, alone = _designators()
    one = (
        rf"(?:{sure}\b\.?\s*{_VALUE}|{loose}\b\.?\s*(?:#\s*)?\d[\w\-]*|#\s*[\w\-/]+"
        rf"|{_ORDINAL}\s+(?:floor|fl|flr)\b\.?|{alone})"
    )
    several = rf"{one}(?:[\s,]+{one})*"
    tail_one = (
        rf"(?:{sure}\b\.?\s*{_SHORT}|#\s*[\w\-/]+|{_ORDINAL}\s+(?:floor|fl|flr)\b\.?"
        rf"|{loose}\b\.?\s*(?:#\s*)?\d[\w\-]*|PH(?:\s?-?\d+\w?)?)"
    )
    tail = rf"^(?P<street>.*?\S)[\s,]+(?P<unit>{tail_one}(?:[\s,]+{tail_one})*)$"
    return re.compile(several, re.IGNORECASE), re.compile(tail, re.IGNORECASE)


_BOX = re.compile(
    r"^(?:p\.?\s*o\.?|post\s+office|u\.?s\.?\s*p\.?o\.?)?\s*\bbox\s+#?\s*[\w\-]+$"
    r"|^p\.?\s*o\.?\s*b\.?\s+#?\d[\w\-]*$"
    r"|^(?:r\.?\s*r\.?|rural\s+route|rfd|r\.?f\.?d\.?|h\.?c\.?|highway\s+contract(?:\s+route)?|star\s+route)"
    r"\s*#?\s*\d+[\w]*(?:[\s,]+box\s+#?\s*[\w\-]+)?$"
    r"|^(?:psc|cmr|cpr|opc|upr|unit|ship|uss)\s+[\w\s\-]*?,?\s*(?:box\s+[\w\-]+)$"
    r"|^(?:psc|cmr|cpr|opc|upr)\s+\d+$",
    re.IGNORECASE,
)
_CARE = re.compile(r"^(?:c/o|c\.o\.|care\s+of|attn\.?:?|attention:?)\s*\S", re.IGNORECASE)
_NUMBER_WORDS = (
    r"(?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|thirteen|fourteen|fifteen"
    r"|sixteen|seventeen|eighteen|nineteen|twenty)"
)
_HOUSE_NUMBER = re.compile(
    rf"^(?:[NSEW]\.?\d+[NSEW]?\d*|\d[\d\-]*[A-Za-z]?(?:\s+\d/\d)?(?:\.\d+)?|{_NUMBER_WORDS})\s+\S",
    re.IGNORECASE,
)
_BARE = re.compile(
    r"^(?:\d{1,4}[A-Za-z]?|[A-Za-z]-?\d{1,4}|\d{1,3}-\d{1,4}|PH\s?-?\w{0,3})$", re.IGNORECASE
)
_NUMBERED_ROAD = re.compile(
    r"^(?:(?:us|state|county|[A-Z]{2})\s+)?(?:highway|hwy|route|rte|road|interstate|county\s+road)\s+\d",
    re.IGNORECASE,
)


def kind_of(segment: str) -> Segment:
    """What one part of an address is, by its form.

    >>> kind_of("14 Larkmoor Lane"), kind_of("Apt. 4B"), kind_of("P.O. Box 12"), kind_of("4B")
    (<Segment.STREET: 'street'>, <Segment.UNIT: 'unit'>, <Segment.BOX: 'box'>, \
<Segment.BARE_UNIT: 'bare-unit'>)
    """
    text = segment.strip()
    if _CARE.match(text):
        return Segment.EXTRA
    if _BOX.match(text):
        return Segment.BOX
    if _unit_patterns()[0].fullmatch(text):
        return Segment.UNIT
    if _BARE.match(text):
        return Segment.BARE_UNIT
    if _HOUSE_NUMBER.match(text) or _NUMBERED_ROAD.match(text):
        return Segment.STREET
    return Segment.WORDS


def split_unit(street: str) -> tuple[str, str | None]:
    """(street, unit) of a street with a unit behind or before it.

    >>> split_unit("14 Larkmoor Lane Apt 3"), split_unit("#4B, 14 Larkmoor Lane")
    (('14 Larkmoor Lane', 'Apt 3'), ('14 Larkmoor Lane', '#4B'))
    """
    tail = _unit_patterns()[1].match(street)
    if tail and kind_of(tail["street"]) is Segment.STREET and len(tail["street"].split()) > 1:
        return tail["street"].rstrip(" ,"), tail["unit"].strip()
    head = re.match(
        rf"^(?P<unit>{_unit_patterns()[0].pattern})[\s,]+(?P<street>\d.*)$", street, re.IGNORECASE
    )
    if head and kind_of(head["street"]) is Segment.STREET:
        return head["street"], head["unit"].strip(" ,")
    return street, None


def unit_then_town(segment: str) -> tuple[str, str] | None:
    """("Apt 3", "Millhaven") of a unit and a town with no comma between, or None."""
    found = re.match(
        rf"^(?P<unit>{_unit_patterns()[0].pattern})[\s,]+(?P<rest>[A-Za-z][A-Za-z .'’\-]+)$",
        segment,
        re.IGNORECASE,
    )
    return (found["unit"].strip(" ,"), found["rest"]) if found else None


def unit_name(word: str) -> str | None:
    """The designator in full for a word of a header: Apartment for "apt"; None for other words."""
    for row in table("units"):
        name = row["designator"]
        forms = {name.lower(), row["approved_abbreviation"].lower(), *_EXTRA_FORMS.get(name, ())}
        if word in forms and name.isalpha():
            return row["spelled_out"]
    return None


def unit_before(text: str) -> str:
    """A unit that stands behind the ZIP goes to the front, where a unit may stand.

    >>> unit_before("14 Larkmoor Lane, Boston, MA 02116 Apt 4")
    'Apt 4, 14 Larkmoor Lane, Boston, MA 02116'
    """
    found = re.match(
        rf"^(?P<rest>.*\b\d{{5}}(?:-\d{{4}})?)[\s,]+(?P<unit>{_unit_patterns()[0].pattern})$",
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
