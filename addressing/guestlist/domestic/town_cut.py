"""The town at the end of a street text, with or without a comma before it.

The ZIP's own list of towns tells first, then the state's towns, then the words behind the street's
suffix.
"""

import re

from rapidfuzz import fuzz

from addressing.guestlist.domestic.boxes import box_beside
from addressing.guestlist.domestic.dwellings import (
    Segment,
    direction_words,
    ends_street,
    kind_of,
    split_unit,
    suffix_words,
    unit_then_town,
)
from addressing.guestlist.domestic.segments import CARE_BEHIND, street_start
from addressing.guestlist.folding import fold
from addressing.guestlist.places.places import fold_town, is_town, state_code, zip_towns

_LONGEST_TOWN = 4
_MARKS = " /|•·-–—"
"""Marks that stand between a street and its town in some lists ("Road | Millhaven")."""


def cut_town(text: str, region: str | None, zip_code: str | None) -> tuple[str, str | None, str]:
    """(rest, town, how it was found) of a text whose state and ZIP are cut off already.

    `how` is "comma", "zip", "state", "suffix", or "" when there is none.
    """
    cut = max(text.rfind(","), text.rfind("\n"))
    last = text[cut + 1 :].strip()
    before = text[: cut + 1].rstrip(" ,\n") if cut >= 0 else ""
    direction, last = _direction_of(before, last)
    before = f"{before} {direction}" if direction else before
    split = unit_then_town(last)
    if split is not None:
        named, town = _department(split[1], region, zip_code)
        return f"{before}, {split[0]} {named}".strip(" ,"), town, "comma"
    moved = _direction_first(last, region, zip_code) if before else None
    if moved is not None:
        return f"{before} {moved[0]}", moved[1], "comma"
    found = None
    if not known_town(last, region, zip_code):
        whole = any(_can_end_street(one.strip(), "state") for one in re.split(r"[,\n]", before))
        found = _town_by_list(last, region, zip_code, behind_street=whole)
    if found is None and _is_plain(last, region, zip_code):
        return before, last, "comma"
    found = found or _town_by_likeness(last, zip_code) or _town_by_suffix(last)
    if found is None:
        return text, None, ""
    street, town, how = found[0].rstrip(_MARKS), found[1].lstrip(_MARKS), found[2]
    return f"{before}\n{street}".strip("\n") if before else street, town, how


def _department(words: str, region: str | None, zip_code: str | None) -> tuple[str, str]:
    """("Farrenby Division", "Millhaven") of what follows a unit; the first is "" for most."""
    found = None
    if not known_town(words, region, zip_code):
        found = _town_by_list(words, region, zip_code, behind_street=True)
    return (found[0], found[1]) if found else ("", words)


def _direction_of(before: str, segment: str) -> tuple[str, str]:
    """("NE", "Suite 2 Millhaven") where the street's direction stands behind its comma."""
    words = segment.split()
    street = re.split(r"[,\n]", before)[-1].strip()
    for length in (2, 1):
        said = "".join(fold(word) for word in words[:length])
        if said in direction_words() and len(words) > length + 1 and ends_street(street):
            rest = " ".join(words[length:])
            if unit_then_town(rest) is not None:
                return " ".join(words[:length]), rest
    return "", segment


def _direction_first(
    segment: str, region: str | None, zip_code: str | None
) -> tuple[str, str] | None:
    """("NW", "Millhaven") where the comma stands before the street's direction, or None.

    N. Charleston is a town as well, when the ZIP or the state knows North Charleston.
    """
    first, _, town = segment.partition(" ")
    if fold(first) not in direction_words() or not known_town(town, region, zip_code):
        return None
    return None if known_town(segment, region, zip_code) else (first, town)


def _is_plain(segment: str, region: str | None, zip_code: str | None) -> bool:
    """True when a whole segment can be a town: no digits, no unit, not a street by its form."""
    if known_town(segment, region, zip_code):
        return True
    if any(ch.isdigit() for ch in segment) or kind_of(segment) is not Segment.WORDS:
        return False
    return not re.match(r"(?:c/o|attn)\b", segment, re.IGNORECASE)


def known_town(town: str, region: str | None, zip_code: str | None) -> str:
    """Who knows the town: "zip", else "state", else ""."""
    if zip_code and fold_town(town) in {fold_town(name) for name in zip_towns(zip_code)}:
        return "zip"
    code = state_code(region) if region else None
    return "state" if code and is_town(town, code) else ""


def _town_by_list(
    segment: str, region: str | None, zip_code: str | None, *, behind_street: bool
) -> tuple[str, str, str] | None:
    """The longest run of words at the end that the ZIP, else the state, knows as a town.

    Behind a whole street and its comma, any words may stand before the ZIP's town.
    """
    words = segment.split()
    for wanted in ("zip", "state"):
        for length in range(min(_LONGEST_TOWN, len(words) - 1), 0, -1):
            town = " ".join(words[-length:])
            street = " ".join(words[:-length])
            if known_town(town, region, zip_code) != wanted:
                continue
            if _can_end_street(street, wanted):
                return *_with_direction(street, town, region, zip_code), wanted
            if behind_street and wanted == "zip" and _is_apart(street):
                return street, town, wanted
    return None


_APART = 3
"""Words from which on what stands between a street and its town can't be a part of the town."""


def _is_apart(words: str) -> bool:
    """True for words behind a whole street that are none of the town: a code, a department.

    So is a lone letter (Unit K, L) that is no direction.
    """
    if len(words) == 1:
        return words.isalpha() and fold(words) not in direction_words()
    return any(mark.isdigit() for mark in words) or len(words.split()) >= _APART


def _with_direction(
    street: str, town: str, region: str | None, zip_code: str | None
) -> tuple[str, str]:
    """S E Grand Rapids: behind a lone N or S, an E or W is the street's, not the town's."""
    first, _, rest = town.partition(" ")
    lone = street.rsplit(maxsplit=1)[-1].strip(".").upper() in ("N", "S") and fold(first) in (
        "e",
        "w",
    )
    if lone and rest and known_town(rest, region, zip_code) == "zip":
        return f"{street} {first}", rest
    return street, town


def _can_end_street(street: str, how: str) -> bool:
    """A street must have a number and a name left; by the state's list also a suffix or a unit."""
    street = CARE_BEHIND.split(street, maxsplit=1)[0]
    street = street[street_start(street) :]
    street = (box_beside(street) or ("", street))[1]
    if kind_of(street) not in (Segment.STREET, Segment.BOX):
        return kind_of(split_unit(street)[0]) in (Segment.STREET, Segment.BOX)
    if len(street.split()) < 2:  # noqa: PLR2004 - a number and a name
        return False
    return how == "zip" or _ends_well(street)


def _ends_well(street: str) -> bool:
    last = fold(split_unit(street)[0].split()[-1])
    unit = split_unit(street)[1] is not None
    return unit or last in suffix_words() | direction_words() or kind_of(street) is Segment.BOX


def _town_by_likeness(segment: str, zip_code: str | None) -> tuple[str, str, str] | None:
    """The words at the end that are nearly one of the ZIP's towns: "St. Peterburg", "Harbor Isle".

    Of several cuts the one that is most alike: St is the town's, where the ZIP has St. Petersburg.
    """
    words = segment.split()
    towns = [fold_town(name) for name in zip_towns(zip_code)] if zip_code else []
    best, found = float(_NEAR), None
    for length in range(1, min(_LONGEST_TOWN, len(words) - 2) + 1):
        street, town = " ".join(words[:-length]), " ".join(words[-length:])
        alike = max((fuzz.ratio(fold_town(town), name) for name in towns), default=0.0)
        if any(mark.isdigit() for mark in town):
            break
        if alike > best and _can_end_street(street, "zip"):
            best, found = alike, (street, town, "suffix")
    return found


_NEAR = 88
"""So alike, in percent, are a town and its misspelling."""


def _town_by_suffix(segment: str) -> tuple[str, str, str] | None:
    """The words behind the street's last suffix, its unit or its box."""
    words = segment.split()
    for place in range(len(words) - 1, 0, -1):
        street, town = " ".join(words[:place]), " ".join(words[place:])
        if any(ch.isdigit() for ch in town):
            return None
        plain = split_unit(street)
        ends = fold(plain[0].split()[-1]) in suffix_words() or plain[1] is not None
        if kind_of(plain[0]) is Segment.BOX or (
            ends and kind_of(plain[0]) is Segment.STREET and len(plain[0].split()) > 2  # noqa: PLR2004
        ):
            return street, town, "suffix"
    return None
