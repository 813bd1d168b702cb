"""The parts of an address abroad, each known by its form: street, box, flat, quarter, number.

The words are those of data/street_words_abroad.tsv and data/unit_forms_abroad.tsv.
"""

import re
from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum
from functools import cache

from addressing.guestlist.domestic.dwellings import split_unit
from addressing.guestlist.folding import fold
from addressing.guestlist.written import Written
from addressing.records.guests import Cited
from addressing.tables import lookup, table
from addressing.where import Where

_BREAK = re.compile("[,;|\u3001\uff0c]")
_BREAK_OR_DASH = re.compile("[,;|\u3001\uff0c]|\\s[-–]\\s")
_CARE = re.compile(r"^(?:c/o|c\.o\.|care of|attn\.?:?|z\. ?hd\.|p/a|bei)\s", re.IGNORECASE)
_NUMBER = re.compile(
    r"^(?:n[°ºo]\.?\s*|nr\.?\s*|#\s*)?\d+(?:\s?[-/–]\s?\d+)*\s?(?:[A-Z]|bis|ter|quater)?$|^s/n\.?$",
    re.IGNORECASE,
)
_NATIVE = re.compile(r"[぀-ヿ㐀-鿿가-힯]")
"""Kana, Chinese characters, Hangul: addresses that go from the large to the small."""


class Kind(StrEnum):
    """What a part of an address abroad is."""

    CARE = "care"
    BOX = "box"
    UNIT = "unit"
    NUMBER = "number"
    STREET = "street"
    LOCALITY = "locality"
    WORDS = "words"


@dataclass(frozen=True, slots=True)
class Part:
    """What stands between two commas; `line` counts the lines or cells that it came from."""

    text: str
    line: int
    cells: tuple[Where, ...]


def parts_of(written: Written, country: str = "") -> list[Part]:
    """The street cells cut at commas and line breaks, in some countries at dashes too."""
    dash = lookup("place_forms", "country", "dash").get(country) == "parts"
    apart = _BREAK_OR_DASH if dash else _BREAK
    parts: list[Part] = []
    line = 0
    for cited in written.lines:
        for row in cited.text.split("\n"):
            texts = (text.strip() for text in apart.split(row))
            parts.extend(Part(text, line, cited.cells) for text in texts if text.strip(" .-–"))
            line += 1
    return parts


def is_native(text: str) -> bool:
    """True for a text in Chinese characters, kana or Hangul."""
    return _NATIVE.search(text) is not None


@cache
def _words(kind: str) -> tuple[str, ...]:
    return tuple(row["word"] for row in table("street_words_abroad") if row["kind"] == kind)


def _any(words: tuple[str, ...]) -> str:
    return "|".join(re.escape(word) for word in sorted(words, key=len, reverse=True))


@cache
def _before(kind: str) -> re.Pattern[str]:
    """One of a kind's words at the front, a word of its own."""
    return re.compile(rf"^(?:{_any(_words(kind))})(?:(?<=[./])\s*|\s+|(?=\d))\S", re.IGNORECASE)


@cache
def _box() -> re.Pattern[str]:
    return re.compile(
        rf"^(?:{_any(_words('box'))})\s*(?:n[°ºro]\.?\s*)?#?\s*[A-Z]{{0,2}}\s?\d[\d\s\-]*\b",
        re.IGNORECASE,
    )


@cache
def _ending() -> re.Pattern[str]:
    """A word that ends as roads do, and a house number on one side of it."""
    return re.compile(rf"\w*(?:{_any(_words('ending'))})(?!\w)", re.IGNORECASE)


@cache
def _inner() -> re.Pattern[str]:
    """A house number and a road's word behind it: 12 rue des Alouettes."""
    words = _any(_words("street"))
    return re.compile(rf"\d\w*,?\s+(?:{words})(?:(?<=[./])\s*|\s+)\S", re.IGNORECASE)


@cache
def _units() -> tuple[re.Pattern[str], re.Pattern[str]]:
    """(nothing but units, units at the end of a street)."""
    one = "(?:" + "|".join(f"(?:{row['pattern']})" for row in table("unit_forms_abroad")) + ")"
    several = rf"{one}(?:[\s,\-–/]+{one})*"
    return (
        re.compile(several, re.IGNORECASE),
        re.compile(
            rf"^(?P<street>.*\d\w*(?:\s?/\s?\w+)?)[\s,]+(?P<unit>{several})$", re.IGNORECASE
        ),
    )


def is_unit(text: str) -> bool:
    """True for a flat, floor, door or stair and nothing else.

    >>> is_unit("3º 2ª"), is_unit("Top Floor Flat"), is_unit("14 Larkmoor Road")
    (True, True, False)
    """
    return _units()[0].fullmatch(text.strip(" .")) is not None


def unit_behind(text: str) -> tuple[str, str | None]:
    """(street, unit) of a street with a unit behind its number.

    >>> unit_behind("Via del Mulino 3/B int. 4"), unit_behind("Via del Mulino 3")
    (('Via del Mulino 3/B', 'int. 4'), ('Via del Mulino 3', None))
    """
    found = _units()[1].match(text)
    if found and has_road_word(found["street"]):
        return found["street"].rstrip(" ,"), found["unit"]
    return split_unit(text) if re.match(r"\d", text) else (text, None)


def unit_in_front(text: str) -> tuple[str | None, str]:
    """(unit, street) of a street with a unit before its number.

    >>> unit_in_front("Flat 2 14 Larkmoor Road")
    ('Flat 2', '14 Larkmoor Road')
    """
    words = text.split()
    for cut in range(min(4, len(words) - 1), 0, -1):
        unit, street = " ".join(words[:cut]), " ".join(words[cut:])
        if is_unit(unit) and re.match(r"\d+\w?\s+\D", street) and has_road_word(street):
            return unit, street
    return None, text


def has_road_word(text: str) -> bool:
    """True where a word says that it is a road: Rue, Calle, -straße, Lane."""
    if _before("street").match(text) or _ending().search(text):
        return True
    inner = _inner().search(text)
    words = [fold(word) for word in re.findall(r"[^\W\d_]+\.?", text)]
    named = words if re.match(r"\d", text) else words[-1:]
    return inner is not None or any(word in _words("behind") for word in named[-len(words) + 1 :])


def kind_abroad(text: str) -> Kind:
    """What a part of an address abroad is, by its form.

    >>> kind_abroad("C/ Mayor 5"), kind_abroad("BP 90321"), kind_abroad("Col. Roma")
    (<Kind.STREET: 'street'>, <Kind.BOX: 'box'>, <Kind.LOCALITY: 'locality'>)
    """
    for kind, is_it in _TESTS:
        if is_it(text):
            return kind
    return Kind.WORDS


def _is_locality(text: str) -> bool:
    return _before("locality").match(text) is not None


def _is_street(text: str) -> bool:
    return re.search(r"\d", text) is not None or has_road_word(text)


_TESTS: tuple[tuple[Kind, Callable[[str], object]], ...] = (
    (Kind.CARE, _CARE.match),
    (Kind.BOX, lambda text: _box().match(text)),
    (Kind.NUMBER, _NUMBER.match),
    (Kind.UNIT, is_unit),
    (Kind.LOCALITY, _is_locality),
    (Kind.STREET, _is_street),
)
"""In this order: what a part is first taken for."""


def cited_lines(parts: list[Part]) -> list[list[Part]]:
    """The parts gathered by the line or cell that they came from."""
    lines: list[list[Part]] = []
    for part in parts:
        if lines and lines[-1][-1].line == part.line:
            lines[-1].append(part)
        else:
            lines.append([part])
    return lines


def as_cited(parts: list[Part]) -> Cited:
    """Parts as one line, commas between them."""
    cells = tuple(dict.fromkeys(cell for part in parts for cell in part.cells))
    return Cited(", ".join(part.text for part in parts), cells)
