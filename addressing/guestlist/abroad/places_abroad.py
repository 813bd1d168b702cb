"""Postcode, town and region cut out of an address abroad, wherever its writer put them."""

import re
from dataclasses import dataclass, replace

from addressing.guestlist.abroad.parts_abroad import Kind, Part, has_road_word, kind_abroad
from addressing.guestlist.domestic.dwellings import direction_words, suffix_words
from addressing.guestlist.folding import fold
from addressing.guestlist.places.postcodes import find_postcode
from addressing.guestlist.places.sub_areas import sub_area
from addressing.tables import lookup

DOUBT_FOUND = 0.03
DOUBT_GLUED = 0.08
DOUBT_NO_POSTCODE = 0.1
DOUBT_NO_TOWN = 0.5
_TOWN_NUMBER = re.compile(
    r"^[^\d,]+ (?:\d{1,2}|[IVX]{1,5})(?:e|er|º)?(?: cedex(?: \d+)?)?$", re.IGNORECASE
)
"""Dublin 4, Praha 10, Lyon Cedex 03: towns with the number of a district."""
_COUNTY = re.compile(r"^(?:co\.?|county|prov\.?|provincia di)\s+\S+", re.IGNORECASE)
_WARD = {
    "JP": re.compile(r"^\D*[-\s](?:ku|shi|gun|ward|city)$", re.IGNORECASE),
    "KR": re.compile(r"-(?:gu|si|gun)$", re.IGNORECASE),
    "CN": re.compile(r"\b(?:district|qu|xian|shi)$", re.IGNORECASE),
}
"""Wards and cities that stand below the prefecture."""
_LONGEST_REGION = 5
_LONGEST_CODE = 3
_CODES_FOLLOW = ("AU", "CA")
"""Countries where a code in small letters behind the town can be nothing else ("toronto on")."""
_JOINING = frozenset(
    [
        "de",
        "di",
        "of",
        "sur",
        "la",
        "del",
        "upon",
        "in",
        "am",
        "an",
        "new",
        "nueva",
        "nuevo",
        "nova",
        "novo",
        "north",
        "south",
        "east",
        "west",
        "upper",
        "lower",
        "greater",
        "metro",
        "le",
        "les",
        "near",
    ]
)
"""Words before a region's name that make it a part of the town's: New Delhi, Stoke on Trent."""


@dataclass(frozen=True, slots=True)
class Place:
    """What was cut out, and the parts that are left, in their order."""

    rest: tuple[Part, ...]
    city: str | None = None
    region: str | None = None
    postcode: str | None = None
    postcode_written: str | None = None
    doubt: float = DOUBT_FOUND


def code_first(country: str) -> bool:
    """True where the postcode stands before the town (50667 Köln)."""
    return (
        lookup("place_forms", "country", "form").get(country, "{postcode}").startswith("{postcode}")
    )


def cut_place(parts: list[Part], country: str) -> Place:
    """The place of a one-cell address; what isn't found is None."""
    for number in range(len(parts) - 1, -1, -1):
        found = find_postcode(parts[number].text, country)
        if found is None or _is_house(parts, number, country):
            continue
        place = Place((), postcode=found.code, postcode_written=found.written)
        before = [replace(parts[number], text=found.before)] if found.before else []
        behind = [replace(parts[number], text=found.behind)] if found.behind else []
        return _with_town(place, (parts[:number], before, behind, parts[number + 1 :]), country)
    return _without_code(parts, country)


def _is_house(parts: list[Part], number: int, country: str) -> bool:
    """True where the figures are a house's or a box's, not a code."""
    text = parts[number].text
    if kind_abroad(text) in (Kind.BOX, Kind.UNIT):
        return True
    found = find_postcode(text, country)
    if found is None or not found.code.isdigit():
        return False
    if found.behind and not found.before:  # "1200 Larkmoor Road", and 8001 Zürich
        return has_road_word(f"1 {found.behind}") and not code_first(country)
    return (
        bool(found.before)
        and not found.behind
        and number == 0
        and len(parts) > 1
        and (has_road_word(found.before))
    )


Around = tuple[list[Part], list[Part], list[Part], list[Part]]
"""Parts before the code's own, text before the code, text behind it, parts behind its own."""


def _with_town(place: Place, around: Around, country: str) -> Place:
    """Find town and region around a code."""
    ahead, before, behind, after = around
    if behind and (code_first(country) or not before):
        streets, town = [*ahead, *before], behind[0]
    elif before:
        streets, town = [*ahead], before[0]
        after = [*behind, *after]
    else:
        return _town_of_parts(place, ahead, after, country)
    region, text = cut_region(town.text, country)
    if not text and _is_chief_town(town.text, streets if town in behind else None, country):
        region, text = None, town.text
    if not text:
        return _town_of_parts(replace(place, region=region), streets, after, country)
    if kind_abroad(text) is Kind.STREET and not _TOWN_NUMBER.match(text):
        street, text, doubt = _unglue(text, country)
        streets = [*streets, *([replace(town, text=street)] if street else [])]
        place = replace(place, doubt=doubt)
    place = replace(place, city=text or None, region=region)
    return _settle(place, streets, after, country)


def _is_chief_town(text: str, streets: list[Part] | None, country: str) -> bool:
    """True where a region's name is a town's: 20121 Milano, but 44100 Jalisco.

    `streets` is what stands above a name behind the code; None for a name before it.
    """
    form = lookup("place_forms", "country", "form").get(country, "")
    if streets is None:
        return "{region}" not in form
    area = sub_area(text, country)
    if area is not None and text == area.code:
        return False
    towns = lookup("place_forms", "country", "regions").get(country) == "towns"
    above = len(streets) > 1 and kind_abroad(streets[-1].text) is Kind.WORDS
    return towns or "{region}" not in form or not above


def _town_of_parts(place: Place, ahead: list[Part], after: list[Part], country: str) -> Place:
    """The town is a part of its own: before the code, else behind it."""
    region = place.region
    ahead, after = list(ahead), list(after)
    if region is not None and _is_rather_town(region, ahead, country):
        place = replace(place, city=region, region=None)
        return _settle(place, ahead, after, country)
    last = ahead[-1].text if region is None and len(ahead) > 1 else ""
    if is_region(last, country) and not _is_rather_town(last, ahead[:-1], country):
        region = ahead.pop().text
    if ahead and _can_be_town(ahead[-1].text) and (len(ahead) > 1 or not after):
        own, text = cut_region(ahead.pop().text, country)
        place = replace(place, city=text or own, region=region or (own if text else None))
    elif after and _can_be_town(after[0].text):
        place = replace(place, city=after.pop(0).text, region=region)
    elif region is not None:
        place = replace(place, city=region, region=None)
    elif ahead:
        street, town, doubt = _unglue(ahead[-1].text, country)
        rest = [replace(ahead[-1], text=street)] if street else []
        ahead = [*ahead[:-1], *rest]
        place = replace(place, city=town or None, doubt=doubt)
    return _settle(place, ahead, after, country)


def _is_rather_town(text: str, ahead: list[Part], country: str) -> bool:
    """São Paulo behind a quarter is the town; behind São Paulo, or as SP, it is the state."""
    area = sub_area(text, country)
    again = bool(ahead) and fold(ahead[-1].text) == fold(text)
    if country in _WARD:
        return not _has_ward(ahead, country) and not (ahead and _can_be_town(ahead[-1].text))
    return area is not None and area.town and fold(text) != fold(area.code) and not again


def _settle(place: Place, streets: list[Part], after: list[Part], country: str) -> Place:
    """Region behind the town, wards before it; all else is street, in its order."""
    city, region = place.city, place.region
    left: list[Part] = []
    for part in after:
        if city and fold(part.text) == fold(city):
            continue
        if region is None and city and is_region(part.text, country):
            region = part.text
        else:
            left.append(part)
    streets = list(streets)
    if region is None and city and _has_ward(streets, country) and sub_area(city, country):
        region, city = city, streets.pop().text
    while city and _has_ward(streets, country):
        city = f"{streets.pop().text}, {city}"
    if city is None and region is not None:
        city, region = region, None
    doubt = place.doubt if city else DOUBT_NO_TOWN
    return replace(place, city=city, region=region, rest=(*streets, *left), doubt=doubt)


def _has_ward(streets: list[Part], country: str) -> bool:
    """True where the last of the streets is a ward or city below the prefecture (Minato-ku)."""
    ward = _WARD.get(country)
    return ward is not None and bool(streets) and ward.search(streets[-1].text) is not None


def _without_code(parts: list[Part], country: str) -> Place:
    """The last part is the town, or a region behind the town."""
    ahead = list(parts)
    region = ahead.pop().text if len(ahead) > 2 and is_region(ahead[-1].text, country) else None  # noqa: PLR2004 - street, town and region
    if len(ahead) < 2:  # noqa: PLR2004 - a street and a town
        return Place(tuple(parts), doubt=DOUBT_NO_TOWN)
    town = ahead[-1].text
    if not _can_be_town(town) and region is not None:
        return replace(_settle(Place((), city=region), ahead, [], country), doubt=DOUBT_FOUND)
    if not _can_be_town(town):
        return Place(tuple(parts), doubt=DOUBT_NO_TOWN)
    own, text = cut_region(town, country)
    place = Place((), city=text or own, region=region or (own if text else None))
    return replace(_settle(place, ahead[:-1], [], country), doubt=DOUBT_FOUND)


def _can_be_town(text: str) -> bool:
    kind = kind_abroad(text)
    return kind is Kind.WORDS or (_TOWN_NUMBER.match(text) is not None and kind is Kind.STREET
                                  and not has_road_word(text))  # fmt: skip


def is_region(text: str, country: str) -> bool:
    """True for the name or code of a region of the country, or a county by its form."""
    return sub_area(text.strip(" ()."), country) is not None or (
        country in ("GB", "IE") and _COUNTY.match(text) is not None
    )


def cut_region(text: str, country: str) -> tuple[str | None, str]:
    """(region, town) of a town with its region in brackets, behind a stroke, or as last words.

    >>> cut_region("Milano (MI)", "IT"), cut_region("São Paulo - SP", "BR")
    (('MI', 'Milano'), ('SP', 'São Paulo'))
    """
    words = text.split()
    marked = re.match(
        r"^(?P<town>.*?\S)\s*(?:[(/]|\s-\s|(?<=\w)-(?=[A-Z]{2}$))\s*(?P<region>[^()/]+?)\)?$", text
    )
    if marked and is_region(marked["region"], country):
        return marked["region"].strip(), marked["town"].strip()
    if is_region(text, country):
        return text, ""
    for length in range(min(_LONGEST_REGION, len(words) - 1), 0, -1):
        written = " ".join(words[-length:])
        if is_region(written, country) and _may_follow(words[-length - 1], written, country):
            return written, " ".join(words[:-length]).rstrip(" ,-")
    return None, text


def _may_follow(before: str, region: str, country: str) -> bool:
    """Whether last words are the region, not the end of a town's own name (Neuilly sur Marne)."""
    form = lookup("place_forms", "country", "form").get(country, "")
    if region.isupper() and len(region) <= _LONGEST_CODE:
        return "{region}" in form  # Buchs SG is the name of a Swiss town
    area = sub_area(region, country)
    if area is not None and fold(region) == fold(area.code):
        return country in _CODES_FOLLOW
    apart = code_first(country) and not re.search(r"\{city\}[^|]*\{region\}", form)
    towns = lookup("place_forms", "country", "regions").get(country) == "towns"
    return not apart and not towns and fold(before) not in _JOINING


def _unglue(text: str, country: str) -> tuple[str, str, float]:
    """(street, town, doubt) of a street and a town with no comma between."""
    del country
    words = text.split()
    if not words[0][:1].isdigit():
        last = max((i for i, word in enumerate(words) if re.search(r"\d", word)), default=-1)
        while last + 1 < len(words) - 1 and re.fullmatch(
            r"(?:[A-Z]|bis|ter|izq\.?|dcha\.?)", words[last + 1]
        ):
            last += 1
        if 0 <= last < len(words) - 1:
            return " ".join(words[: last + 1]), " ".join(words[last + 1 :]), DOUBT_GLUED
    for place in range(len(words) - 1, 1, -1):
        street = " ".join(words[:place])
        if fold(words[place]) in direction_words() and place + 1 < len(words):
            continue  # Larkmoor St W Victoria: the direction is the street's
        if _ends_road(words[:place]) and re.search(r"\d", street):
            return street, " ".join(words[place:]), DOUBT_GLUED
    return text, "", DOUBT_NO_TOWN


def _ends_road(words: list[str]) -> bool:
    """True where the last word, or the one before a direction, ends a road's name."""
    last = words[-2] if fold(words[-1]) in direction_words() and len(words) > 1 else words[-1]
    return fold(last) in suffix_words()
