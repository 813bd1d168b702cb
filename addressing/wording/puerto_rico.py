"""Lines of addresses in Puerto Rico in postal form (Publication 28, 29 and appendix I)."""

import re
from functools import cache

from addressing.tables import table


def street_line(street: str) -> str | None:
    """A numbered street with its house in front, or None where nothing is to be turned.

    >>> street_line("Calle 117 A-19"), street_line("Calle 117 Bloque 23 Núm.18")
    ('A19 CALLE 117', '23-18 CALLE 117')
    """
    block = _block().match(street)
    if block:
        return f"{block['block']}-{block['number']} {block['street']}".upper()
    lot = _lot().match(street)
    return f"{lot['letter']}{lot['number']} {lot['street']}".upper() if lot else None


def area_line(text: str) -> str:
    """An urbanization with URB before its name, or without where the name says what it is.

    >>> area_line("URBANIZATION GOLDEN GATE"), area_line("URB EXT VISTA BELLA")
    ('URB GOLDEN GATE', 'EXT VISTA BELLA')
    """
    found = re.match(rf"^{_any('urb')}\.?\s+(?P<name>\S.*)$", text, re.IGNORECASE)
    if found is None:
        return text
    named = re.match(rf"^{_any('named')}\b", found["name"], re.IGNORECASE)
    return found["name"] if named else f"URB {found['name']}"


def left_off(text: str) -> bool:
    """True for a sector or barrio, which a rural route stands without (I51.6)."""
    return re.match(rf"^{_any('area')}\s+\S", text, re.IGNORECASE) is not None


@cache
def _any(kind: str) -> str:
    words = [row["written"] for row in table("spanish_words") if row["kind"] == kind]
    return "(?:" + "|".join(sorted(words, key=len, reverse=True)) + ")"


@cache
def _block() -> re.Pattern[str]:
    return re.compile(
        rf"^(?P<street>{_any('street')}\s+\S+)[\s,]+{_any('block')}\.?\s*(?P<block>\w+)[\s,]+"
        rf"(?:{_any('number')}\.?\s*|#\s*)?(?P<number>\d+\w*)$",
        re.IGNORECASE,
    )


@cache
def _lot() -> re.Pattern[str]:
    street = rf"{_any('street')}\s+\d+"
    return re.compile(
        rf"^(?P<street>{street})[\s,]+(?P<letter>[A-Z])-?(?P<number>\d+)$", re.IGNORECASE
    )
