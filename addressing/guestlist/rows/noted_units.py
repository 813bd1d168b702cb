"""A note that tells a unit which its address lacks: "apt 12F, brother's friend", "c/o Mrs. Lind".

The envelope would go to the house without it. It is proposed, and nothing of it is set unasked.
"""

import re
from collections.abc import Iterator
from dataclasses import replace
from functools import cache

from addressing.guestlist.asking import finding
from addressing.guestlist.domestic.designators import forms
from addressing.guestlist.domestic.dwellings import Segment, kind_of, unit_name
from addressing.guestlist.folding import fold
from addressing.guestlist.people.note_words import ways
from addressing.guestlist.people.vocabulary import row_words
from addressing.records.findings import Finding
from addressing.records.guests import Address, Household

_TOLD = frozenset(("remark", "cell-note"))
_OTHERS = frozenset(
    ("name-noted", "guest-noted", "children-noted", "apart-noted", "marker-in-list")
)
"""Questions of a note on its people: what it tells of the door is asked beside."""
_NUMBER = (
    r"(?:(?!\d+(?:st|nd|rd|th)\b)\d{1,5}(?:-?[A-Za-z]{1,2}\d*|-\d{1,3}[A-Za-z]?)?"
    r"|[A-Za-z]{1,2}-?\d{1,4}[A-Za-z]?|[A-Z]{1,2}|[a-z](?=\W*$|[,;.)]))(?![\w'’/-])"
)
_MARK = r"\.?\s*(?:(?:#|no\b\.?|num\b\.?|number\b|is\b|=|:)\s*)*"
_ORDINAL = r"(?:\d{1,2}(?:st|nd|rd|th)|first|second|third|fourth|fifth|top|ground|main|upper|lower)"
_FLOOR = rf"(?P<floor>{_ORDINAL}\s+(?:floor|flr?|level)\b)\.?"
_OPENS = r"(?:^|[,;:!?.()\[\]\n|/]|\s[-–—]+\s)\s*"
_ENDS = r"(?=\s*(?:$|[,;:!.()\[\]\n|]|[-–—]\s|upstairs|downstairs|please|pls|now\b))"
_OF_WHOM = r"\s+(?P<who>[^,;:!?()\[\]\n]*)"
_CARE = re.compile(rf"(?:(?i:c/o|c\.o\.|(?:in )?care of)|^(?i:chez|bei)(?=\s+[A-ZÀ-Ý])){_OF_WHOM}")
_NAMED = re.compile(r"(?:[A-Z][\w'’-]*\.?\s+)+[A-Z][\w'’-]+|The [A-Z]\w+s")
_NEAR = 3
"""Words before a unit among which "was in" is of it."""


def with_units(found: tuple[Finding, ...], home: Household) -> tuple[Finding, ...]:
    """The findings of a household with a question for each note that tells a unit it lacks."""
    return tuple(each for one in found for each in _asked(one, home.address))


def unit_told(note: str, address: Address | None) -> str:
    """The unit that a note tells and the address lacks; "" for none.

    >>> from addressing.records.guests import Cited
    >>> home = Address(street=Cited("14 Larkmoor Lane"))
    >>> notes = ("apt 12F, brother's friend", "was in apt 3", "table #5", "#5", "apt to be late")
    >>> [unit_told(note, home) for note in notes]
    ['Apartment 12F', '', '', '#5', '']
    """
    if address is None or address.street is None or kind_of(address.street.text) is Segment.BOX:
        return ""
    told = next((each for each in _told(note) if not _has(address, each)), "")
    return told if address.unit is None or _may_replace(address.unit.text, told) else ""


def care_told(note: str, address: Address | None) -> str:
    """In whose care a note says that an envelope goes, where the address has no such line."""
    found = _CARE.search(note)
    extra = address.recipient_extra if address else None
    if address is None or found is None or (extra is not None and _CARE.search(extra.text)):
        return ""
    things = row_words("thing") | row_words("asked-thing")
    before = fold(note[: found.start()]).split()[-_NEAR:]
    return f"c/o {found['who'].strip()}" if things.isdisjoint(before) else ""


def _asked(found: Finding, address: Address | None) -> Iterator[Finding]:
    """What becomes of one finding: itself, a question in its place, or both."""
    note = found.quoted
    known = note if found.code in _TOLD | _OTHERS else ""
    unit, care = unit_told(known, address), care_told(known, address)
    if not unit and not care:
        yield found
        return
    if found.code in _OTHERS:
        yield found
    mend = "Does it belong in the address?"
    made = finding("unit-noted", found.where, f"The list says: “{note}”.", mend, note)
    likely = (("unit", unit),) if unit else _in_care(care, address)
    yield replace(made, also=found.also, likely=likely)


def _in_care(care: str, address: Address | None) -> tuple[tuple[str, str], ...]:
    """The whole address in the care of somebody who is named; "her mother" is nobody's name."""
    who = care.removeprefix("c/o ").rstrip(".")
    if address is None or not _NAMED.fullmatch(who):
        return ()
    place = " ".join(each.text for each in (address.region, address.postcode) if each)
    parts = (each.text for each in (address.street, address.unit, address.city) if each)
    return (("lines", ", ".join((f"c/o {who}", *parts, place)).replace("\n", ", ")),)


def _told(note: str) -> Iterator[str]:
    """The units of a note, as they may stand in an address; "PH2" is read as PH 2."""
    note = re.sub(r"(?<![^\W_])([A-Za-z]{2,})(?=\d)", r"\1 ", note)
    for pattern in (_anywhere(), _alone()):
        for found in pattern.finditer(note):
            if not _is_of_another(note[: found.start("unit")]):
                yield _written(found)


def _written(found: re.Match[str]) -> str:
    """A unit with its designator in full: "apt number is 7" is Apartment 7."""
    parts = found.groupdict()
    if parts.get("name") is None:
        return parts.get("floor") or parts.get("part") or f"#{parts['sign']}"
    word = re.sub(r"\W", "", parts["name"])
    return f"{unit_name(fold(word)) or word.capitalize()} {parts['number'].upper()}"


def _is_of_another(before: str) -> bool:
    """True behind "was in", "not", "across from": no unit of this address by now."""
    clause = re.split(r"[,;!?()\[\]\n|]|\.\s", before)[-1]
    return re.search(rf"{ways('unit-not')}(?:\s+\S+){{0,{_NEAR - 1}}}\s*$", clause) is not None


def _has(address: Address, unit: str) -> bool:
    """True where the address has the number of a unit, in its street or another line."""
    first, *rest = fold(unit).replace("#", "").split()
    wanted = set(rest) if unit_name(first) and rest else {first, *rest}
    parts = (address.unit, address.recipient_extra)
    words = {word for part in parts if part for word in fold(part.text).split()}
    street = fold(address.street.text).split()[1:] if address.street else []  # not the house's
    words = {word.lstrip("#") for word in (*words, *street)}
    return wanted <= words


def _may_replace(old: str, told: str) -> bool:
    """True for two apartments: a floor or a building goes beside one."""
    first, second = (unit_name(fold(each.split()[0]).strip("#.")) for each in (old, told or "-"))
    return bool(told) and (first == second or re.fullmatch(r"#?\s*\w+", old) is not None)


@cache
def _anywhere() -> re.Pattern[str]:
    """A designator that is no other word, with a number behind it, wherever it stands."""
    name = f"(?P<name>{ways('unit-told', '')})"
    return re.compile(rf"(?P<unit>{name}(?i:{_MARK})(?P<number>{_NUMBER}))")


@cache
def _alone() -> re.Pattern[str]:
    """A unit that is all of a clause: "unit 4", "#5", "in the 2nd floor"."""
    name = f"(?P<name>{ways('unit-told', 'clause')})"
    before = ways("unit-before")
    lead = rf"(?:[A-Z][\w'’-]+\s+(?={before}))?(?:{before}\s+)*"
    several = "|".join(word for word in forms()["none"] if " " in word)
    part = rf"(?P<part>{several}|{ways('unit-told', 'alone')})"
    sign = r"#\s?(?P<sign>\d{1,4}[A-Za-z]?)"
    one = rf"{name}(?i:{_MARK})(?P<number>{_NUMBER})|(?i:{_FLOOR}|{part})|{sign}"
    return re.compile(rf"{_OPENS}{lead}(?P<unit>{one}){_ENDS}")
