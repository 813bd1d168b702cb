"""What the parts of a US address say against each other, whichever reading they came from."""

import re
from functools import cache

from addressing.guestlist.domestic.boxes import is_box
from addressing.guestlist.domestic.designators import needs_number, unit_inside
from addressing.guestlist.domestic.dwellings import direction_words, suffix_words
from addressing.guestlist.folding import fold
from addressing.guestlist.written import Trouble
from addressing.records.guests import Address, Cited


def check_street(address: Address) -> tuple[Trouble, ...]:
    """What in a street can't all be meant, and a designator whose number is missing."""
    lines = _lines(address.street)
    checks = (_inside, _lettered, _two_numbers, _route_or_road, _second_street)
    troubles = [check(line, address.street) for check in checks for line in lines]
    troubles += [_marked(each) for each in (address.street, address.unit, address.recipient_extra)]
    troubles.append(_twice(address.unit))
    parts = (*_parts(address.unit), *_parts(address.recipient_extra))
    cited = address.unit or address.recipient_extra
    troubles += [_numberless(part, cited) for part in parts if fold(part) in needs_number()]
    return tuple(trouble for trouble in troubles if trouble is not None)


def _lines(cited: Cited | None) -> list[str]:
    return cited.text.split("\n") if cited else []


def _parts(cited: Cited | None) -> list[str]:
    return [part.strip(" .") for part in re.split(r"[,\n]", cited.text)] if cited else []


_FIGURE_BEHIND = re.compile(r"\s\D*\d")
"""A figure in a word behind the first: hardly any street has one without a unit."""


def _inside(street: str, cited: Cited | None) -> Trouble | None:
    """What stands behind a unit is no street: "14 Larkmoor Lane Apt 4 Millhaven"."""
    figured = _FIGURE_BEHIND.search(street) is not None  # before the costly search
    found = _pattern().match(street) if figured and not is_box(street) else None
    if found is None or all(_is_street_word(word) for word in found["behind"].split()):
        return None
    text = f"“{found['behind'].strip()}” stands behind “{found['unit'].strip()}” in the street."
    return Trouble("address-doubtful", text, "How does the address read, line by line?", cited)


_LETTERED = re.compile(r"^(?=\d*[Ool]*\d)(?=\d*[Ool])[\dOol]{2,6}(?=\s)")
"""A house number with a letter O or a small l among its figures."""


def _lettered(street: str, cited: Cited | None) -> Trouble | None:
    """1O Larkmoor Lane: an O or l where a figure is meant; which it is can't be told for sure."""
    found = _LETTERED.match(street)
    if found is None:
        return None
    figures = found[0].replace("O", "0").replace("o", "0").replace("l", "1")
    text = f"The house number “{found[0]}” holds a letter; is it {figures}?"
    mended = f"{figures}{street[found.end() :]}"
    mend = "How does the house number read?"
    likely = (("street", mended),)
    return Trouble("address-doubtful", text, mend, cited, likely=likely, quoted=street)


_MARKS = re.compile(r"[?{}=<>^~_|\\]")
"""Marks that no address has: a doubt of the list's own, or a slip of the hand."""


def _marked(cited: Cited | None) -> Trouble | None:
    """14 ??? Street: the list itself doesn't know it."""
    if cited is None or _MARKS.search(cited.text) is None:
        return None
    text = f"“{cited.text}” holds a mark that no address has."
    return Trouble("address-doubtful", text, "How does the address read, line by line?", cited)


_EITHER = re.compile(r"^(?P<one>\d+[A-Za-z]?) or (?P<other>\d+[A-Za-z]?)(?P<street> [A-Za-z].*)")
"""In small letters: behind a house number OR 42 is a road of Oregon."""


def _two_numbers(street: str, cited: Cited | None) -> Trouble | None:
    """24 or 42 Larkmoor Lane: the list itself doesn't know the house."""
    found = _EITHER.match(street)
    if found is None:
        return None
    text = f"“{found['one']} or {found['other']}”: the list gives two house numbers."
    likely = tuple(("street", f"{found[each]}{found['street']}") for each in ("one", "other"))
    return Trouble("address-doubtful", text, "Which is right?", cited, likely=likely, quoted=street)


_RD = re.compile(r"^rd\b\.?\s*(?:#|no\b\.?)?\s*0*(?P<number>[1-9]\d*)$", re.IGNORECASE)


def _route_or_road(street: str, cited: Cited | None) -> Trouble | None:
    """RD 2 alone: a road (Publication 28, appendix F) has a house number, a route (244) none."""
    found = _RD.match(street)
    if found is None:
        return None
    text = f"“{street}”: a rural delivery route, or a road whose house number is missing?"
    likely = (("street", f"RR {found['number']}"),)
    mend = "Which is meant?"
    return Trouble("address-doubtful", text, mend, cited, likely=likely, quoted=street)


def _second_street(street: str, cited: Cited | None) -> Trouble | None:
    """Two streets in one line: "9 Larkmoor Lane now 4 Quince Road"."""
    for found in re.finditer(r"\s(?=\d)", street):
        head, rest = street[: found.start()], street[found.end() :]
        before = head.rsplit(maxsplit=1)[0] if " " in head else head
        if _whole_street(rest) and (_whole_street(head) or _whole_street(before)):
            text = f"Two streets stand in one line: “{street}”."
            mend = "To which of them should the envelope go?"
            return Trouble("address-doubtful", text, mend, cited)
    return None


def _whole_street(text: str) -> bool:
    """True for a number in figures, a name of letters and a suffix."""
    words = [fold(word) for word in text.split()]
    return (
        len(words) > 2  # noqa: PLR2004 - a number, a name, a suffix
        and re.fullmatch(r"\d+[a-z]?", words[0]) is not None
        and words[1].isalpha()
        and words[1] not in direction_words()
        and words[-1] in suffix_words()
    )


def _twice(cited: Cited | None) -> Trouble | None:
    """Apt 3, Apt 3 in one cell: once too often, or one of the two is another number."""
    parts = _parts(cited)
    once = list({fold(part): part for part in reversed(parts)}.values())[::-1]
    if cited is None or len(once) == len(parts):
        return None
    text = f"“{cited.text}”: the same stands there twice."
    likely = (("unit", ", ".join(once)),)
    mend = "How does the unit read?"
    return Trouble("address-doubtful", text, mend, cited, likely=likely, quoted=cited.text)


def _is_street_word(word: str) -> bool:
    return fold(word) in suffix_words() or fold(word) in direction_words()


@cache
def _pattern() -> re.Pattern[str]:
    return re.compile(
        rf"^(?P<before>\S+\s+\S.*?)[\s,]+(?P<unit>{unit_inside()})[\s,]+(?P<behind>[A-Za-z].*)$",
        re.IGNORECASE,
    )


def _numberless(part: str, cited: Cited | None) -> Trouble:
    text = f"“{part}” has no number."
    return Trouble("address-incomplete", text, "What is the number of the unit?", cited)
