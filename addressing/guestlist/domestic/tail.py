"""The end of a US address: country, ZIP, state and town, cut off from the right.

The town is the hard part where no comma stands before it: `town_cut.py`.
"""

import re
from dataclasses import dataclass
from itertools import pairwise

from addressing.guestlist.domestic.dwellings import (
    ends_street,
    suffix_words,
)
from addressing.guestlist.domestic.town_cut import cut_town, known_town
from addressing.guestlist.folding import fold
from addressing.guestlist.places.countries import country_code, is_postcode
from addressing.guestlist.places.places import (
    may_end_state,
    near_state,
    state_code,
    zip_state,
)
from addressing.records.swiftly import swiftly

_ZIP = re.compile(
    r"[\s,.\-]*(?:(?<![\w\-])|(?<=\b[A-Za-z]{2}))(\d{5})(?:\s*[-–]\s*(\d{4})|(\d{4}))?[\s.,]*$"
)
_WORN_ZIP = re.compile(
    r"[\s,.]+((?=[OoIl]*\d)[\dOoIl]{5}|\d{3}\s\d{2}|\d{2}\s\d{3}|\d{4}\s?-\s?\d{4})[\s,.]*$"
)
"""A ZIP with a letter O or l for a figure, with a blank in it, or a +4 whose ZIP lost its zero."""
_SHORT_ZIP = re.compile(r"[\s,.]+(\d{3,4})[\s.,]*$")
_LONGEST_COUNTRY = 4
_LONGEST_STATE = 4


@swiftly
@dataclass(frozen=True, slots=True)
class Tail:
    """What was cut off, and the text that is left. `town_by` says how the town was found.

    `town_by` is "comma", "zip", "state", "suffix" or "" when there is none.
    """

    rest: str
    city: str | None = None
    region: str | None = None
    postcode: str | None = None
    town_by: str = ""


def cut_country(text: str) -> tuple[str, str | None]:
    """(text, country as written) of an address whose last line or part names a country.

    A name that is also a state's (Georgia) is left where it stands.
    """
    stripped = text.rstrip(" ,.\n")
    found = re.search(r"(?:^|[\n,])\s*([^\n,]+)$", stripped)
    last = found[1].strip() if found else ""
    if last and len(last) > 1 and state_code(last) is None and country_code(last) is not None:
        if len(last) == 2 and last.upper() not in ("US", "UK"):  # noqa: PLR2004 - a code, not a name
            return text, None
        return stripped[: found.start() if found else 0].rstrip(" ,\n"), last
    return _cut_glued(stripped) or (text, None)


def _cut_glued(text: str) -> tuple[str, str] | None:
    """A country with no comma before it: behind the ZIP, or where a postcode of its own stands."""
    words = text.split(" ")
    for length in range(min(_LONGEST_COUNTRY, len(words) - 1), 0, -1):
        named, before = " ".join(words[-length:]), words[:-length]
        code = country_code(named)
        if code is None or state_code(named) is not None or "\n" in named:
            continue
        if len(named) == 2 and named.upper() not in ("US", "UK"):  # noqa: PLR2004 - a code
            continue
        if any(_has_code(part, code) for part in re.split(r"[\n,]", " ".join(before))):
            return " ".join(before).rstrip(" ,"), named
    return None


def _has_code(part: str, country: str) -> bool:
    """True when a part of an address holds a postcode of the country, as one or two words."""
    words = part.split()
    pairs = (f"{one} {two}" for one, two in pairwise(words))
    if country == "US" and any(re.fullmatch(r"\d{9}", word) for word in words):
        return True  # a ZIP with its +4, the hyphen lost
    return any(is_postcode(text, country) for text in (*words, *pairs))


def cut_tail(text: str) -> Tail:
    """Cut ZIP, state and town off the end of a US address.

    >>> cut_tail("14 Larkmoor Lane, Allston MA 02134")
    Tail(rest='14 Larkmoor Lane', city='Allston', region='MA', postcode='02134', town_by='comma')
    """
    text = text.strip(' ,.\n"”“')
    before, postcode = _cut_zip(text)
    before, region = _cut_state(before, sure=postcode is not None)
    if region is not None:
        before = _without_second_state(before, region, postcode)
    if region is None and postcode is not None:
        before, region = _cut_near_state(before, postcode)
    if region is None and postcode is None:
        before, region, postcode = _zip_then_state(text)
    if region is None and postcode is None:
        return Tail(text)
    if postcode is None:
        moved, postcode = _cut_zip(before)
        before = moved if postcode else before
    if region is None and postcode is not None and len(postcode) < 5:  # noqa: PLR2004 - no ZIP then
        return Tail(text)
    code = postcode and "".join(postcode.split())
    rest, city, how = cut_town(before.rstrip(" ,.\n"), region, code)
    if region is None and postcode is not None:
        rest, region, how = _state_before_town(rest, postcode, how)
    return Tail(rest, city, region, postcode, how)


def state_at_end(text: str) -> str | None:
    """The state at the end of a text that stands before a ZIP, as written, or None."""
    return _cut_state(text, sure=True)[1]


def _cut_zip(text: str) -> tuple[str, str | None]:
    found = _ZIP.search(text)
    if found and found.start() > 0:
        more = found[2] or found[3]
        return text[: found.start()], f"{found[1]}-{more}" if more else found[1]
    for pattern in (_WORN_ZIP, _SHORT_ZIP):
        worn = pattern.search(text)
        if worn and _cut_state(text[: worn.start()], sure=True)[1] is not None:
            return text[: worn.start()], worn[1]
    return text, None


def _zip_then_state(text: str) -> tuple[str, str | None, str | None]:
    """(before, state, ZIP) of "Litchfield 06759 CT"."""
    found = re.search(r"[\s,]+(\d{5}(?:-\d{4})?)[\s,]+([A-Za-z][A-Za-z. ]*)$", text)
    if found is None or state_code(found[2]) is None:
        return text, None, None
    return text[: found.start()], found[2], found[1]


def _without_second_state(text: str, region: str, zip_code: str | None) -> str:
    """A state that stands twice ("Roswell, Georgia, GA") is left out once, but no town is."""
    text = text.rstrip(" ,.\n")
    before, second = _cut_state(text, sure=True)
    if second is None or state_code(second) != state_code(region) or fold(second) in suffix_words():
        return text
    apart = text[: len(text) - len(second)].rstrip(" ").endswith(",") or len(second) == 2  # noqa: PLR2004
    town = re.split(r"[,\n]", text)[-1].strip()
    return before if apart and known_town(town, region, zip_code) != "zip" else text


def _cut_near_state(text: str, zip_code: str) -> tuple[str, str | None]:
    """Cut a misspelt state off the end, where it is nearly the name of the ZIP's state."""
    words = list(re.finditer(r"[^\s,]+", text))
    for length in (2, 1):
        if len(words) > length and near_state(text[words[-length].start() :], zip_code):
            start = words[-length].start()
            return text[:start].rstrip(), text[start:].strip(" ,.")
    return text, None


def _state_before_town(rest: str, zip_code: str, how: str) -> tuple[str, str | None, str]:
    """(rest, state, how sure) where the ZIP's state stands before the town: "CT, Litchfield 06759".

    CT may be a court: behind a street's suffix it can't be told, and nothing is cut.
    """
    before, region = _cut_state(rest, sure=True)
    if region is None or state_code(region) != zip_state(zip_code):
        return rest, None, how
    if fold(region) not in suffix_words() or rest[: -len(region)].rstrip(" ").endswith((",", "\n")):
        return before.rstrip(" ,\n"), region, how
    return rest, None, "" if ends_street(before) else how


def _cut_state(text: str, *, sure: bool) -> tuple[str, str | None]:
    """Cut a state off the end; without a ZIP behind it it must stand apart or be in capitals."""
    words = list(re.finditer(r"[^\s,]+", text))
    if words and not may_end_state(words[-1][0]):
        return text, None
    for length in range(min(_LONGEST_STATE, len(words)), 0, -1):
        start = words[-length].start()
        written = text[start:].strip(" ,.")
        if "\n" in written or state_code(written) is None or start == 0:
            continue
        apart = text[:start].rstrip(" ").endswith((",", "\n"))
        capitals = len(written) == 2 and written.isupper()  # noqa: PLR2004 - a code
        is_suffix = fold(written) in suffix_words()
        if sure or apart or (capitals and not is_suffix):
            return text[:start].rstrip(), written
    return text, None
