"""An address abroad: postcode, town and region found by the country's own rules, all else as given.

Streets are never cut up or corrected; their lines stay as the list has them.
"""

import re
from dataclasses import replace

from addressing.guestlist.countries import has_postcodes, is_postcode, region_codes
from addressing.guestlist.dwellings import Segment, kind_of, split_unit
from addressing.guestlist.folding import fold
from addressing.guestlist.written import Trouble, Written, joined
from addressing.records.guests import Address, Cited
from addressing.tables import lookup

_CARE = re.compile(r"^(?:c/o|attn\.?:?)\s", re.IGNORECASE)
_FLAT = r"(?:flat|apartment|apt\.?|unit|suite)\s+[\w\-]+"
_FIRST_UNIT = re.compile(rf"^(?P<unit>{_FLAT})\s*,?\s+(?P<street>\d.*)$", re.IGNORECASE)
_ONLY_UNIT = re.compile(_FLAT, re.IGNORECASE)
_DOUBT_FOUND = 0.03
_DOUBT_NO_POSTCODE = 0.1
_DOUBT_NO_TOWN = 0.5
_WIDEST_POSTCODE = 3
"""Words in the longest postcode ("D02 X285" has two)."""


def read_abroad(written: Written, country: str) -> tuple[Address, tuple[Trouble, ...]]:
    """The address of a row outside the United States; `country` is ISO 3166-1 alpha-2."""
    doubt = _DOUBT_FOUND
    written = _city_without_code(written, country)
    if written.city is None and written.lines:
        written, doubt = _from_lines(written, country)
    postcode = _mend(written.postcode, country)
    extras, streets = _care_apart(written.lines)
    unit, streets = (written.unit, streets) if written.unit else _unit_apart(streets, country)
    address = Address(
        street=joined(streets) if streets else None,
        unit=unit,
        recipient_extra=joined(extras) if extras else written.extra,
        city=written.city,
        region=_region(written.region, country),
        postcode=postcode,
        country=written.country,
        doubt=doubt,
    )
    return address, _troubles(address, country)


def _city_without_code(written: Written, country: str) -> Written:
    """A column of towns may hold "75007 Paris": the code goes to where codes stand."""
    city = written.city
    found = _code_in(city.text, country) if city else None
    if city is None or found is None or not found[1]:
        return written
    code = written.postcode or Cited(found[0], city.cells)
    if fold(code.text) != fold(found[0]):
        return written
    return replace(written, city=Cited(found[1], city.cells), postcode=code)


def _unit_apart(streets: tuple[Cited, ...], country: str) -> tuple[Cited | None, tuple[Cited, ...]]:
    """(unit, streets) where the country's lines have a unit before or behind the street."""
    place = lookup("place_forms", "country", "unit").get(country)
    for number, line in enumerate(streets):
        alone = _ONLY_UNIT.fullmatch(line.text) or (number and kind_of(line.text) is Segment.UNIT)
        if place and len(streets) > 1 and alone:
            return line, (*streets[:number], *streets[number + 1 :])
        found = _FIRST_UNIT.match(line.text) if place == "first" else None
        street, unit = split_unit(line.text) if place == "behind" else (line.text, None)
        if found:
            street, unit = found["street"], found["unit"]
        if unit:
            kept = (*streets[:number], Cited(street, line.cells), *streets[number + 1 :])
            return Cited(unit, line.cells), kept
    return None, streets


def _region(region: Cited | None, country: str) -> Cited | None:
    if region is None:
        return None
    return Cited(region_codes(country).get(fold(region.text), region.text), region.cells)


def _mend(postcode: Cited | None, country: str) -> Cited | None:
    """A postcode in capitals, its blank in place, without the country's letters before it."""
    if postcode is None:
        return None
    text = postcode.text.upper().strip()
    prefix = lookup("place_forms", "country", "prefix").get(country)
    if prefix:
        text = re.sub(rf"^{prefix}\s*[-–]\s*(?=\d)", "", text)
    bare = re.sub(r"\s", "", text)
    cut = {"CA": 3, "GB": len(bare) - 3, "NL": 4, "SE": 3, "IE": 3}.get(country)
    if cut and is_postcode(text, country) and len(bare) > cut > 0:
        text = f"{bare[:cut]} {bare[cut:]}"
    return Cited(text, postcode.cells)


def _care_apart(lines: tuple[Cited, ...]) -> tuple[tuple[Cited, ...], tuple[Cited, ...]]:
    """(care-of lines, street lines); commas and line breaks part the lines of one cell."""
    extras: list[Cited] = []
    streets: list[Cited] = []
    for line in lines:
        for text in (part.strip(" ,") for part in re.split(r"\n", line.text)):
            if text:
                (extras if _CARE.match(text) else streets).append(Cited(text, line.cells))
    return tuple(extras), tuple(streets)


def _from_lines(written: Written, country: str) -> tuple[Written, float]:
    """Find postcode, town and region in a one-cell address, from the end."""
    whole = joined(written.lines)
    parts = [part.strip() for part in re.split(r"[\n,]", whole.text) if part.strip()]
    place = next((i for i in range(len(parts) - 1, -1, -1) if _code_in(parts[i], country)), None)
    if place is None:
        return _without_postcode(written, whole, parts, country)
    code, rest = _code_in(parts[place], country) or ("", "")
    behind = parts[place + 1 :]
    before = parts[:place]
    region, rest = _take_region(rest, country)
    if not rest and before:
        rest = before.pop()
        if region is None and fold(rest) in region_codes(country) and before:
            region, rest = rest, before.pop()
    if region is None and behind:
        region = behind.pop(0)
    city = rest or (behind.pop(0) if behind else "")
    lines = _street_lines(before + behind, whole)
    found = replace(
        written,
        lines=lines,
        city=Cited(city, whole.cells) if city else None,
        region=written.region or (Cited(region, whole.cells) if region else None),
        postcode=Cited(code, whole.cells),
    )
    return found, _DOUBT_FOUND if city and not behind else _DOUBT_NO_POSTCODE


def _without_postcode(
    written: Written, whole: Cited, parts: list[str], country: str
) -> tuple[Written, float]:
    """The last part is the town, or a region behind the town."""
    if len(parts) < 2:  # noqa: PLR2004 - a street and a town
        return written, _DOUBT_NO_TOWN
    region = None
    if len(parts) > 2 and (  # noqa: PLR2004 - street, town and region
        fold(parts[-1]) in region_codes(country)
        or re.match(r"(?:co\.?|county)\s", parts[-1], re.IGNORECASE)
    ):
        region = parts.pop()
    city = parts.pop()
    found = replace(
        written,
        lines=_street_lines(parts, whole),
        city=Cited(city, whole.cells),
        region=written.region or (Cited(region, whole.cells) if region else None),
    )
    needs = has_postcodes(country) and written.postcode is None
    return found, _DOUBT_NO_POSTCODE if needs else _DOUBT_FOUND


def _street_lines(parts: list[str], whole: Cited) -> tuple[Cited, ...]:
    """A unit with no words of its own stays on the line of its street."""
    lines: list[str] = []
    for part in parts:
        if (lines and kind_of(part) in (Segment.UNIT, Segment.BARE_UNIT)) or (
            lines and kind_of(lines[-1]) in (Segment.UNIT, Segment.BARE_UNIT) and len(lines) == 1
        ):
            lines[-1] = f"{lines[-1]}, {part}"
        else:
            lines.append(part)
    return tuple(Cited(line, whole.cells) for line in lines)


def _code_in(part: str, country: str) -> tuple[str, str] | None:
    """(postcode, the words left) of a part that begins or ends with a postcode."""
    prefix = lookup("place_forms", "country", "prefix").get(country)
    text = re.sub(rf"^{prefix}\s*[-–]\s*(?=\d)", "", part) if prefix else part
    words = text.split()
    for length in range(min(_WIDEST_POSTCODE, len(words)), 0, -1):
        if is_postcode(" ".join(words[-length:]), country):
            return " ".join(words[-length:]), " ".join(words[:-length])
        if is_postcode(" ".join(words[:length]), country):
            return " ".join(words[:length]), " ".join(words[length:])
    return None


def _take_region(text: str, country: str) -> tuple[str | None, str]:
    """(region, town) where a province or state stands behind the town."""
    words = text.split()
    for length in range(min(4, len(words)), 0, -1):
        written = " ".join(words[-length:])
        if fold(written) in region_codes(country):
            return written, " ".join(words[:-length])
    return None, text


def _troubles(address: Address, country: str) -> tuple[Trouble, ...]:
    troubles: list[Trouble] = []
    where = address.street or address.city or address.postcode
    if address.street is None or address.city is None:
        gap = "street" if address.street is None else "town"
        text = f"The address has no {gap}."
        troubles.append(Trouble("address-incomplete", text, "What is the whole address?", where))
    code = address.postcode
    if code is not None and has_postcodes(country) and not is_postcode(code.text, country):
        text = f"“{code.text}” doesn't have the form of a postcode of {country}."
        troubles.append(Trouble("postcode-doubtful", text, "Is it right so?", code))
    if code is None and country in (
        "CA",
        "GB",
        "DE",
        "FR",
        "IT",
        "ES",
        "NL",
        "CH",
        "AU",
        "AT",
        "BE",
    ):
        text = "The address has no postcode."
        troubles.append(Trouble("zip-missing", text, "What is the postcode?", where))
    return tuple(troubles)
