"""The parts of the street text sorted out: streets and boxes, units, lines above, what is left."""

import re
from dataclasses import dataclass, field

from addressing.guestlist.domestic.boxes import is_code
from addressing.guestlist.domestic.buildings import ends_road
from addressing.guestlist.domestic.designators import unit_in_front
from addressing.guestlist.domestic.dwellings import (
    Segment,
    kind_of,
    split_unit,
    suffix_words,
)
from addressing.guestlist.domestic.numbered_roads import is_numbered_road
from addressing.guestlist.domestic.segments import segments
from addressing.guestlist.folding import fold
from addressing.guestlist.places.countries import country_code
from addressing.guestlist.places.places import state_code
from addressing.guestlist.written import Written
from addressing.records.guests import Cited

_DOUBT_BARE_UNIT = 0.06
_DOUBT_EXTRA = 0.03
_CODE = re.compile(r"^[A-Za-z]{1,5}\.?\s*#?\s*[A-Za-z]?-?\d[\w\-]*(?:\s\d+)?$")
_CODE_AND_UNIT = re.compile(r"^[A-Za-z]{1,5}\.?\s*#\s*\d[\w\-]*\s+(?P<unit>[A-Za-z].*)$")
"""A short word and a number ("af 1025"): no designator that is known, and nothing else either."""


@dataclass(slots=True)
class Sorted:
    """The parts of the street text, as they are sorted out; `doubt` is the share of wrong ones."""

    streets: list[Cited] = field(default_factory=list)
    units: list[Cited] = field(default_factory=list)
    extras: list[Cited] = field(default_factory=list)
    leftovers: list[Cited] = field(default_factory=list)
    doubt: float = 0.0


def sort_parts(written: Written, names: frozenset[str]) -> Sorted:
    """Sort the parts of the street text; one that only repeats the row's `names` is left out."""
    found = Sorted()
    for line in written.lines:
        for text in segments(line.text):
            _place(found, Cited(text, line.cells), names)
    if not found.streets:
        _box_of_units(found)
    if not found.streets:
        _street_of_rest(found)
    if len(found.streets) > 1:
        _codes_are_units(found)
        _worded_are_buildings(found)
        _roads_are_above(found)
    if not found.streets:
        bare = [unit for unit in found.units if kind_of(unit.text) is Segment.BARE_UNIT]
        found.leftovers.extend(bare)
        found.units = [unit for unit in found.units if unit not in bare]
    if (
        written.unit is None
        and len(found.units) == 1
        and kind_of(found.units[0].text) is not Segment.UNIT
    ):
        found.doubt = max(found.doubt, _DOUBT_BARE_UNIT)
    return found


def _box_of_units(found: Sorted) -> None:
    """Department 12 Box 4110: without a street the box is what the post delivers to."""
    for place, part in enumerate(found.units):
        parted = re.match(r"^(.*\S)[\s,]+(box\s+\S+)$", part.text, re.IGNORECASE)
        if parted is not None and kind_of(parted[1]) is Segment.UNIT:
            found.units[place] = Cited(parted[1], part.cells)
            found.streets.append(Cited(parted[2], part.cells))
            return


def _street_of_rest(found: Sorted) -> None:
    """Without a part that looks like a street, what holds a number, else what is left, is it."""
    words = [part for part in found.extras if kind_of(part.text) is not Segment.EXTRA]
    numbered = [part for part in words if re.search(r"\d", part.text)]
    if not numbered and found.leftovers:
        found.streets, found.leftovers = found.leftovers, []
    elif words:  # "Larkmoor House" or "Larkmoor Lane" alone: a street without a number
        found.streets = (numbered or words)[-1:]
        found.extras.remove(found.streets[0])


def _worded_are_buildings(found: Sorted) -> None:
    """One Larkmoor Plaza beside 14 Quince Street: a number in words before one in figures."""
    figures = [part for part in found.streets if part.text[0].isdigit()]
    worded = [part for part in found.streets if not re.search(r"[\d#]", part.text)]
    if figures and len(figures) + len(worded) == len(found.streets):
        found.extras = [*worded, *found.extras]
        found.streets = figures


def _roads_are_above(found: Sorted) -> None:
    """14 Quince Street on Route 31: a numbered road without a house is where the street lies."""
    housed = [part for part in found.streets if part.text[0].isdigit()]
    roads = [part for part in found.streets if is_numbered_road(fold(part.text).split())]
    if len(housed) != 1 or not roads or len(roads) + 1 != len(found.streets):
        return
    if ends_road(fold(housed[0].text).split()):
        found.extras = [*roads, *found.extras]
        found.streets = housed


def _codes_are_units(found: Sorted) -> None:
    """A drawer, bin or lockbox beside a post office box is a code of the same address."""
    boxes = [part for part in found.streets if kind_of(part.text) is Segment.BOX]
    codes = [part for part in boxes if is_code(part.text)]
    if codes and len(codes) < len(boxes):
        found.streets = [part for part in found.streets if part not in codes]
        found.units.extend(codes)


def _place(found: Sorted, part: Cited, names: frozenset[str]) -> None:
    kind = kind_of(part.text)
    if kind is Segment.STREET:
        street, unit = split_unit(part.text)
        found.streets.append(Cited(street, part.cells))
        if unit:
            found.units.append(Cited(unit, part.cells))
    elif kind is Segment.BOX:
        found.streets.append(part)
    elif kind in (Segment.UNIT, Segment.BARE_UNIT):
        found.units.append(part)
    elif kind is Segment.EXTRA:
        found.extras.append(part)
    elif country_code(part.text) != "US" and not _repeats_name(part.text, names):
        _place_words(found, part)


def _place_words(found: Sorted, part: Cited) -> None:
    """Words without a number: before the street a building or company, behind it unplaced."""
    street, unit = split_unit(part.text)
    if unit is not None and kind_of(street) in (Segment.STREET, Segment.BOX):
        found.streets.append(Cited(street, part.cells))
        found.units.append(Cited(unit, part.cells))
    elif _is_code(part.text) or _is_roomy(part.text):
        found.units.append(part)
    elif found.streets:
        found.leftovers.append(part)
    else:
        found.extras.append(part)
        found.doubt = max(found.doubt, _DOUBT_EXTRA)


def _is_roomy(text: str) -> bool:
    """True for a numbered unit and what it is: "12th Floor East Conference Room"."""
    found = unit_in_front().match(text)
    if found is None or not re.search(r"\d", found["unit"]) or re.search(r"\d", found["rest"]):
        return False
    return fold(found["rest"].split()[-1]) not in suffix_words()


def _is_code(text: str) -> bool:
    """True for a short word and a number ("af 1025"), perhaps with a unit behind it."""
    found = _CODE.match(text) or _CODE_AND_UNIT.match(text)
    if found is None or state_code(text.split(maxsplit=1)[0]) is not None:
        return False
    unit = found.groupdict().get("unit")
    return unit is None or kind_of(unit) is Segment.UNIT


def _repeats_name(text: str, names: frozenset[str]) -> bool:
    """True when a part of the address only says again who lives there."""
    words = [
        word
        for word in fold(text).split()
        if word not in ("mr", "mrs", "ms", "dr", "and", "the", "family")
    ]
    return bool(words) and len(names) > 0 and all(word in names for word in words)
