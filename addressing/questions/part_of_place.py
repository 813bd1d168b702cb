"""A part of an address where the whole was asked: “Apt 3”, “Maine, 04101”, “RI, so 02840”.

It goes with what the list has, where the two read as one address without a doubt and nothing of
the list's is said otherwise.
"""

import re
from collections.abc import Iterator
from dataclasses import fields

from addressing.questions.folding import folded
from addressing.records.guests import Address, Cited
from addressing.records.questions import Readers
from addressing.where import Where

_FILLERS = re.compile(
    r"(?:^|(?<=[\s,;:]))(?:(?:so|and|the|zip(?:\s+code)?|postcode|is|it['\u2019]?s)[\s:]+)+(?=\S)",
    re.IGNORECASE,
)
_OPEN = re.compile(r"\?|\b(?:or|maybe|perhaps)\b", re.IGNORECASE)
"""What says that the client doesn't know herself."""
_STAYS = ("street", "recipient_extra", "city", "region", "country")
"""What an answer about a part leaves as the list has it."""


def completed(old: Address | None, words: str, where: Where, readers: Readers) -> Address | None:
    """The list's address with the part of it that an answer gives; None where that isn't plain."""
    if old is None or old.street is None or _OPEN.search(words):
        return None
    for lines in _tried(old, _FILLERS.sub("", words).strip(" ,.;!")):
        read, wrong = readers.address({"lines": Cited(lines)})
        if read is not None and not wrong and _is_one(old, read, words):
            return _with(old, read, where)
    return None


def _tried(old: Address, words: str) -> Iterator[str]:
    """The answer with what the list has before it, behind it, and around it."""
    street, city, region, code = (_text(old, n) for n in ("street", "city", "region", "postcode"))
    unit = _text(old, "unit")
    front = ", ".join(filter(None, (street, unit if _is_numbered(unit) else "")))
    if re.search(r"\d{5}", words):
        yield f"{front}, {words}"
        yield f"{front}, {city}, {words}"
    elif _is_numbered(words):
        yield f"{street}, {words}, {city}, {region} {code}"
        yield f"{words}, {city}, {region} {code}"


def _is_one(old: Address, read: Address, words: str) -> bool:
    """True where the two say the same of all that the list has, the ZIP or the unit aside."""
    same = all(folded(_text(old, n)) in ("", folded(_text(read, n))) for n in _STAYS)
    unit, code = _text(read, "unit"), _text(read, "postcode")
    if re.search(r"\d{5}", words):
        return same and code in words and (not _is_numbered(_text(old, "unit")) or bool(unit))
    return same and _is_numbered(unit) and code == _text(old, "postcode")


def _is_numbered(unit: str) -> bool:
    """True for "Apt 3" and "Apt B", not for "Apt" alone."""
    return re.search(r"\d|(?<=[\s#])[A-Za-z]$", unit) is not None


def _text(address: Address, name: str) -> str:
    value = getattr(address, name)
    return value.text if isinstance(value, Cited) else ""


def _with(old: Address, read: Address, where: Where) -> Address:
    """The list's address, with what the answer gives citing it."""
    made = {}
    for field in fields(Address):
        was, now = getattr(old, field.name), getattr(read, field.name)
        if not isinstance(now, Cited) or (isinstance(was, Cited) and was.text == now.text):
            made[field.name] = was
        else:
            cells = was.cells if isinstance(was, Cited) else ()
            made[field.name] = Cited(now.text, (*cells, where))
    return Address(**made)
