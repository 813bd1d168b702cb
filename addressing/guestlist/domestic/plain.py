"""The plain US address: so ordinary that the rules' reading needs no second one.

A house number, one to three words that no table has, a suffix; perhaps directions and a unit with
its designator; a town in a column of its own, or behind a comma and one that the ZIP serves in the
state that is written; and nothing else in the text. Most rows of a list are such (that they are
read right is measured: `data/address_doubt.tsv`).
"""

import re

from addressing.guestlist.domestic.address_tokens import kinds_of
from addressing.guestlist.domestic.designators import whole_unit
from addressing.guestlist.domestic.dwellings import direction_words, suffix_words
from addressing.guestlist.folding import fold
from addressing.guestlist.places.places import town_in_zip, zip_in_state
from addressing.guestlist.written import Written
from addressing.records.guests import Address, Cited

_STREET = re.compile(
    r"\d{1,6}[A-Za-z]?(?P<words>(?:\s+(?:[A-Za-z][A-Za-z'’\-]*\.?|\d{1,3}(?:st|nd|rd|th)))+)",
    re.IGNORECASE,
)
_TENTHS = re.compile(r"\d{1,3}\.\d\s+([A-Za-z]+\.?)")
"""A road that is named by its distance: 39.4 RD (USPS Publication 28, October 2023, D2)."""
_GRID = re.compile(r"\d{1,5}\s+([A-Za-z]+\.?)\s+\d{1,5}\s+([A-Za-z]+\.?)")
"""A grid of numbers and directions: 842 E 1700 S (the same, D2)."""
_ZIP = re.compile(r"\d{5}(?:-\d{4})?")
_MOST = 3
_ORDINARY = frozenset(("little", "remark", "title", "number-word"))
"""Kinds of words that a street's name may hold without a second meaning."""


def is_plain(rules: Address, written: Written) -> bool:
    """True when the rules' reading of an address is one of the plain kind."""
    return (
        rules.street is not None
        and rules.recipient_extra is None
        and is_plain_unit(rules.unit)
        and (_in_columns(written) or _served(rules))
        and _is_plain_street(rules.street.text, alone=_in_columns(written))
        and _is_all(rules, written)
    )


def is_plain_unit(unit: Cited | None) -> bool:
    """True without a unit, and for one whose designator has no other meaning (Trl is a trail)."""
    if unit is None:
        return True
    word = re.split(r"[\s\d]", unit.text, maxsplit=1)[0]
    if not word.startswith("#") and kinds_of(fold(word)) != ("unit",) and fold(word) != "pmb":
        return False
    return whole_unit().fullmatch(unit.text) is not None


def _in_columns(written: Written) -> bool:
    """True when town and ZIP have columns of their own: where the street ends is no question."""
    return written.city is not None and written.postcode is not None


def _served(rules: Address) -> bool:
    if rules.city is None or rules.region is None or rules.postcode is None:
        return False
    code = rules.postcode.text
    return (
        _ZIP.fullmatch(code) is not None
        and zip_in_state(code, rules.region.text)
        and town_in_zip(rules.city.text, code)
    )


def _is_plain_street(street: str, *, alone: bool) -> bool:
    """`alone` where nothing but the street and its unit can stand there: 12 Mill Drive."""
    tenths, grid = _TENTHS.fullmatch(street), _GRID.fullmatch(street)
    if tenths is not None:
        return fold(tenths[1]) in suffix_words()
    if grid is not None:
        return direction_words().issuperset((fold(grid[1]), fold(grid[2])))
    found = _STREET.fullmatch(street)
    if found is None:
        return False
    words = [fold(word) for word in found["words"].split()]
    if len(words) > _MOST and words[-1] in direction_words():
        words.pop()
    if len(words) < 2 or words.pop() not in suffix_words():  # noqa: PLR2004 - a name, a suffix
        return False
    if len(words) > 1 and words[0] in direction_words():
        words.pop(0)
    if alone and len(words) == 1 and words[0] in suffix_words():
        return True
    return len(words) <= _MOST and all(_ORDINARY.issuperset(kinds_of(word)) for word in words)


def _is_all(rules: Address, written: Written) -> bool:
    """True when the text holds nothing but the reading, the town parted from the street."""
    given = (written.unit, written.city, written.region, written.postcode)
    if written.extra is not None:
        return False
    if _in_columns(written):
        said = " ".join(cited.text for cited in (*written.lines, written.unit) if cited is not None)
        return _letters(said) == sum(map(_letters_of, (rules.street, rules.unit)))
    said = "\n".join(cited.text for cited in (*written.lines, *given) if cited is not None)
    read = (rules.street, rules.unit, rules.city)
    if sum(map(_letters_of, read)) + _tail_letters(said, rules) != _letters(said):
        return False
    town = rules.city.text if rules.city else ""
    return re.search(rf"[,\n]\s*{re.escape(town)}(?=\W|$)", said) is not None


def _letters(text: str) -> int:
    """How many letters and digits a text has."""
    return sum(map(str.isalnum, text))


def _letters_of(cited: Cited | None) -> int:
    return _letters(cited.text) if cited else 0


def _tail_letters(said: str, rules: Address) -> int:
    """How many letters and digits stand behind the town: the state as written, and the ZIP."""
    town = rules.city.text if rules.city else ""
    code = rules.postcode.text if rules.postcode else ""
    tail = said[said.rfind(town) + len(town) :]
    return _letters(tail) if tail.rstrip(" ,.").endswith(code) else -len(said)
