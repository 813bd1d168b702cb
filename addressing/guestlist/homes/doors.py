"""Addresses made comparable: the same door, however it is written. Never printed."""

import re
from functools import cache, lru_cache

from addressing.guestlist.domestic.dwellings import Segment, kind_of
from addressing.guestlist.folding import fold
from addressing.records.guests import Address
from addressing.tables import table


@cache
def short_words() -> dict[str, str]:
    """Street words and directions to one short form each (Publication 28, C1 and appendix B)."""
    short: dict[str, str] = {}
    for row in table("suffixes"):
        for form in (row["primary_name"], *row["printed_variants"].split()):
            short[fold(form)] = fold(row["standard_abbreviation"])
    for row in table("directionals"):
        short[fold(row["direction"])] = fold(row["abbreviation"])
    return short


def door(address: Address | None) -> str:
    """A comparable form of street, unit and postcode (else town); "" without a street.

    >>> from addressing.records.guests import Cited
    >>> one = Address(Cited("14 Larkmoor Lane"), Cited("Apt. 3"), postcode=Cited("02134"))
    >>> two = Address(Cited("14 Larkmoor Ln."), Cited("#3"), postcode=Cited("02134-1000"))
    >>> door(one) == door(two)
    True
    """
    if address is None or address.street is None:
        return ""
    unit, area = address.unit, address.postcode or address.city
    return _door(address.street.text, unit.text if unit else "", area.text if area else "")


@lru_cache(maxsize=16_384)  # asked a dozen times of each household
def _door(street: str, unit: str, area: str) -> str:
    short = " ".join(short_words().get(word, word) for word in fold(street).split())
    if kind_of(street) is Segment.BOX:
        short = "box " + "".join(re.findall(r"\d+", short))
    bare = "".join(re.findall(r"[a-z]?\d+[a-z]?|\b[a-z]\b", fold(unit)))
    return f"{short}|{bare}|{fold(area)[:5]}"


def lives_at(address: Address | None) -> str:
    """A door, and in whose care: who is c/o somebody is not of the household that lives there."""
    here = door(address)
    extra = address.recipient_extra if here and address else None
    lines = extra.text.split("\n") if extra else ()
    care = next((fold(line) for line in lines if _CARE.match(line)), "")
    return f"{here}|{care}" if care else here


_CARE = re.compile(r"(?:c/o|c\.o\.|(?:in )?care of)\s", re.IGNORECASE)
