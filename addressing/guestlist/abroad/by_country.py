"""An address abroad: postcode, town and region found by the country's own rules, all else as given.

Streets are never cut up or corrected; their lines stay as the list has them. What is read by which
rule: `places_abroad` (the place), `lines_abroad` (street and flat), `checks_abroad` (doubts).
"""

from dataclasses import replace

from addressing.guestlist.abroad.checks_abroad import mended_code, troubles_abroad
from addressing.guestlist.abroad.lines_abroad import street_lines
from addressing.guestlist.abroad.parts_abroad import Part, is_native, parts_of
from addressing.guestlist.abroad.places_abroad import (
    DOUBT_FOUND,
    DOUBT_NO_POSTCODE,
    cut_place,
    cut_region,
    is_region,
)
from addressing.guestlist.folding import fold
from addressing.guestlist.people.vocabulary import titles
from addressing.guestlist.places.countries import country_code, region_codes
from addressing.guestlist.places.postcodes import find_postcode, tidy
from addressing.guestlist.places.sub_areas import rules_of, sub_areas
from addressing.guestlist.written import Trouble, Written, joined
from addressing.records.guests import Address, Cited
from addressing.tables import lookup

_FAMILY = frozenset(
    ("and", "und", "et", "e", "y", "en", "the", "family", "familie", "fam", "famille", "familia")
)
"""Words around a family's name."""
_AS_CODE = ("AU", "CA")
"""Countries whose regions an address bears as a code."""


def read_abroad(
    written: Written, country: str, names: frozenset[str] = frozenset()
) -> tuple[Address, tuple[Trouble, ...]]:
    """The address of a row outside the United States; `country` is ISO 3166-1 alpha-2.

    `names` are the folded names of the row's people: a first part that only repeats them is left
    out.
    """
    written = _columns_parted(written, country)
    parts, doubt = _without_letters(parts_of(written, country), country), DOUBT_FOUND
    if written.city is None and parts:
        written, parts, doubt = _from_cell(written, parts, country)
    else:
        parts = _without_repeats(parts, written, country)
    written, parts = _no_word_lost(written, parts, country)
    code, mended = (
        mended_code(written.postcode, written.region, country) if written.postcode else (None, None)
    )
    lines = street_lines(_without_names(parts, names), country, written.unit)
    extras = tuple(extra for extra in (written.extra, lines.extra) if extra is not None)
    if code is None and "Z" in rules_of(country).get("require", ""):
        doubt = max(doubt, DOUBT_NO_POSTCODE)
    address = Address(
        street=lines.street,
        unit=lines.unit,
        recipient_extra=joined(extras) if extras else None,
        city=written.city,
        region=_region(written.region, country),
        postcode=code,
        country=written.country,
        doubt=doubt,
        unit_word=written.unit_word,
    )
    troubles = troubles_abroad(address, country)
    return address, (*((mended,) if mended else ()), *troubles)


def _no_word_lost(written: Written, parts: list[Part], country: str) -> tuple[Written, list[Part]]:
    """What the country's lines have no place for goes to the street, unless it is a region.

    Regions are left out where the country writes none; a quarter in their column isn't one.
    """
    region = written.region
    form = lookup("place_forms", "country", "form").get(country, "{region}")
    if region is None or "{region}" in form or is_region(region.text, country):
        return written, parts
    kept = replace(written, region=None)
    if written.city is not None and fold(region.text) == fold(written.city.text):
        return kept, parts
    line = parts[-1].line + 1 if parts else 0
    return kept, [*parts, Part(region.text, line, region.cells)]


def _without_names(parts: list[Part], names: frozenset[str]) -> tuple[Part, ...]:
    """The street's parts without a first one that says again who lives there (Familie Wren)."""
    words = fold(parts[0].text).split() if len(parts) > 1 else []
    said = [word for word in words if word in names]
    plain = all(word in names or word in titles() or word in _FAMILY for word in words)
    return tuple(parts[1:] if said and plain else parts)


def _without_letters(parts: list[Part], country: str) -> list[Part]:
    """The country's letters at the end (NL; 4051 Basel CH) are no part of the place."""
    words = parts[-1].text.split() if parts else []
    if not words or not _is_country(words[-1], country) or len(parts) + len(words) < 3:  # noqa: PLR2004 - something must be left
        return parts
    if len(words) == 1:
        return parts[:-1]
    rest = " ".join(words[:-1])
    coded = find_postcode(rest, country) is not None and fold(words[-1]) not in sub_areas(country)
    return [*parts[:-1], replace(parts[-1], text=rest)] if coded else parts


def _is_country(word: str, country: str) -> bool:
    return word.isupper() and len(word) <= 3 and country_code(word) == country  # noqa: PLR2004 - ISO 3166-1 alpha-3


def _columns_parted(written: Written, country: str) -> Written:
    """Columns that hold more than their header says: "75007 Paris", "Toronto, ON", "VIC 3121"."""
    for name in ("city", "postcode", "region"):
        cell = getattr(written, name)
        if cell is None or (name == "postcode" and tidy(cell.text, country)):
            continue
        written = _one_parted(written, name, cell, country)
    return written


def _one_parted(written: Written, name: str, cell: Cited, country: str) -> Written:
    """One column's cell, its code and region put where they belong, if those are empty or equal."""
    code, text = _code_of(written, name, cell, country)
    if name == "postcode" and code is None:
        return written
    region, text = _region_of(written, name, text, country)
    new = replace(
        written,
        postcode=Cited(code, cell.cells) if code else written.postcode,
        region=Cited(region, cell.cells) if region else written.region,
    )
    own = Cited(text, cell.cells) if text else None
    if name == "city":
        return replace(new, city=own)
    if name == "region":
        return replace(new, region=own)
    return new if own is None or new.city is not None else replace(new, city=own)


def _code_of(written: Written, name: str, cell: Cited, country: str) -> tuple[str | None, str]:
    """(code or None, the other words); a code that another column has too is dropped there."""
    found = find_postcode(cell.text, country)
    if found is None:
        return None, cell.text
    text = " ".join(part for part in (found.before, found.behind) if part)
    if written.postcode is None or name == "postcode":
        return found.code, text
    same = tidy(written.postcode.text, country) == found.code
    return None, text if same else cell.text


def _region_of(written: Written, name: str, text: str, country: str) -> tuple[str | None, str]:
    """(region or None, the other words) of a column of towns: Toronto, ON."""
    if name == "region" or not text or fold(text) in sub_areas(country):
        return None, text
    region, rest = cut_region(text.replace(", ", " - ", 1), country)
    if not region or not rest:
        return None, text
    if written.region is not None and fold(written.region.text) != fold(region):
        return None, text
    return region, rest


def _from_cell(
    written: Written, parts: list[Part], country: str
) -> tuple[Written, list[Part], float]:
    """Postcode, town and region from the street cells; a column of their own comes first."""
    given = {
        name: getattr(written, name) for name in ("region", "postcode") if getattr(written, name)
    }
    if is_native("".join(part.text for part in parts)):
        return _native(written, parts, country)
    place = cut_place(parts, country)
    cells = tuple(dict.fromkeys(cell for part in parts for cell in part.cells))

    def cite(text: str | None) -> Cited | None:
        return Cited(text, cells) if text else None

    found = replace(
        written,
        city=cite(place.city),
        region=given.get("region") or cite(place.region),
        postcode=given.get("postcode") or cite(place.postcode_written),
    )
    return found, list(place.rest), place.doubt


def _native(written: Written, parts: list[Part], country: str) -> tuple[Written, list[Part], float]:
    """An address in Chinese characters, kana or Hangul stays as it is; only its code is cut off."""
    code = written.postcode
    kept: list[Part] = []
    for part in parts:
        found = find_postcode(part.text, country) if code is None else None
        if found is None:
            kept.append(part)
            continue
        code = Cited(found.code, part.cells)
        text = f"{found.before}{' ' if found.before and found.behind else ''}{found.behind}"
        kept.extend([replace(part, text=text)] if text else [])
    return replace(written, postcode=code), kept, DOUBT_FOUND


def _without_repeats(parts: list[Part], written: Written, country: str) -> list[Part]:
    """Town, region and code that the street cell says again are taken off its end."""
    said = {
        fold(cited.text)
        for cited in (written.city, written.region, written.postcode)
        if cited is not None
    }
    kept = list(parts)
    while len(kept) > 1 and written.city is not None:
        found = find_postcode(kept[-1].text, country)
        words = f"{found.before} {found.behind}".strip() if found else kept[-1].text
        same_code = found is None or (
            written.postcode is not None and tidy(written.postcode.text, country) == found.code
        )
        if not same_code or (words and fold(words) not in said):
            break
        kept.pop()
    return kept


def _region(region: Cited | None, country: str) -> Cited | None:
    """A region as its code; the country's own code in its place ("Montréal, CA") is none."""
    if region is None or country not in _AS_CODE:
        return region
    codes, said = region_codes(country), fold(region.text)
    if said == country.casefold() and said not in codes:
        return None
    return Cited(codes.get(said, region.text), region.cells)
