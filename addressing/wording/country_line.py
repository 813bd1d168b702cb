"""The last line of mail that goes abroad: the country, in the sender's language, in capitals.

Names come from the Unicode CLDR by way of babel; where posts write another name, from
data/country_lines.tsv. The sender's language is the one most spoken in the sender's country; one in
another script than ours gives way to English, which every post reads (Universal Postal Union, from
memory: the sender's language, or one known everywhere).
"""

import re
from functools import cache

from babel import Locale, UnknownLocaleError

from addressing.tables import lookup, table

AT_HOME = frozenset(("US", "PR", "VI", "GU", "AS", "MP"))
"""The United States and what its post serves as home."""
_LATIN = re.compile(r"[A-Za-z]")


@cache
def language_of(country: str) -> str:
    """The language in which a sender in a country (alpha-2) names other countries.

    >>> language_of("US"), language_of("AT"), language_of("JP")
    ('en', 'de', 'en')
    """
    own = lookup("sender_languages", "country", "language").get(country)
    if own:
        return own
    try:
        locale = Locale.parse(f"und_{country}")
    except (UnknownLocaleError, ValueError):
        return "en"
    named = locale.territories.get("DE", "")
    return str(locale.language) if _LATIN.search(named) else "en"


@cache
def country_line(country: str, home: str) -> str | None:
    """The line for mail from `home` to `country` (both alpha-2); None at home.

    >>> country_line("DE", "US"), country_line("US", "GB"), country_line("US", "US")
    ('GERMANY', 'UNITED STATES OF AMERICA', None)
    """
    if country == home or (home in AT_HOME and country in AT_HOME):
        return None
    language = language_of(home)
    for row in table("country_lines"):
        if row["code"] == country and row["language"] == language:
            return row["printed"].upper()
    name = str(Locale(language).territories.get(country, country))
    name = re.sub(r"\s*\([^()]*\)", "", name)
    return (name.replace(" & ", " and ") if language == "en" else name).upper()
