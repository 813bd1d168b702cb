"""The end of a US address: country, ZIP, state and town, cut off from the right.

The town is the hard part where no comma stands before it. The ZIP's own list of towns tells first,
then the state's towns, then the words behind the street's suffix.
"""

import re
from dataclasses import dataclass
from itertools import pairwise

from addressing.guestlist.countries import country_code, is_postcode
from addressing.guestlist.dwellings import (
    Segment,
    direction_words,
    ends_street,
    kind_of,
    split_unit,
    suffix_words,
    unit_then_town,
)
from addressing.guestlist.folding import fold
from addressing.guestlist.places import (
    fold_town,
    is_town,
    near_state,
    state_code,
    zip_state,
    zip_towns,
)
from addressing.guestlist.segments import street_start

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
_LONGEST_TOWN = 4


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
    return any(is_postcode(text, country) for text in (*words, *pairs))


def cut_tail(text: str) -> Tail:
    """Cut ZIP, state and town off the end of a US address.

    >>> cut_tail("14 Larkmoor Lane, Allston MA 02134")
    Tail(rest='14 Larkmoor Lane', city='Allston', region='MA', postcode='02134', town_by='comma')
    """
    text = text.strip(" ,.\n")
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
    rest, city, how = _cut_town(before.rstrip(" ,.\n"), region, postcode)
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
    return before if apart and _known(town, region, zip_code) != "zip" else text


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


def _cut_town(text: str, region: str | None, zip_code: str | None) -> tuple[str, str | None, str]:
    cut = max(text.rfind(","), text.rfind("\n"))
    last = text[cut + 1 :].strip()
    before = text[: cut + 1].rstrip(" ,\n") if cut >= 0 else ""
    direction, last = _direction_of(before, last)
    before = f"{before} {direction}" if direction else before
    split = unit_then_town(last)
    if split is not None:
        return f"{before}, {split[0]}".strip(" ,"), split[1], "comma"
    moved = _direction_first(last, region, zip_code) if before else None
    if moved is not None:
        return f"{before} {moved[0]}", moved[1], "comma"
    found = None if _known(last, region, zip_code) else _town_by_list(last, region, zip_code)
    if found is None and _is_plain(last, region, zip_code):
        return before, last, "comma"
    found = found or _town_by_suffix(last)
    if found is None:
        return text, None, ""
    street, town, how = found
    return f"{before}\n{street}".strip("\n") if before else street, town, how


def _direction_of(before: str, segment: str) -> tuple[str, str]:
    """("NE", "Suite 2 Millhaven") where the street's direction stands behind its comma."""
    words = segment.split()
    street = re.split(r"[,\n]", before)[-1].strip()
    for length in (2, 1):
        said = "".join(fold(word) for word in words[:length])
        if said in direction_words() and len(words) > length + 1 and ends_street(street):
            rest = " ".join(words[length:])
            if unit_then_town(rest) is not None:
                return " ".join(words[:length]), rest
    return "", segment


def _direction_first(
    segment: str, region: str | None, zip_code: str | None
) -> tuple[str, str] | None:
    """("NW", "Millhaven") where the comma stands before the street's direction, or None.

    N. Charleston is a town as well, when the ZIP or the state knows North Charleston.
    """
    first, _, town = segment.partition(" ")
    if fold(first) not in direction_words() or not _known(town, region, zip_code):
        return None
    return None if _known(segment, region, zip_code) else (first, town)


def _is_plain(segment: str, region: str | None, zip_code: str | None) -> bool:
    """True when a whole segment can be a town: no digits, no unit, not a street by its form."""
    if _known(segment, region, zip_code):
        return True
    if any(ch.isdigit() for ch in segment) or kind_of(segment) is not Segment.WORDS:
        return False
    return not re.match(r"(?:c/o|attn)\b", segment, re.IGNORECASE)


def _known(town: str, region: str | None, zip_code: str | None) -> str:
    """Who knows the town: "zip", else "state", else ""."""
    if zip_code and fold_town(town) in {fold_town(name) for name in zip_towns(zip_code)}:
        return "zip"
    code = state_code(region) if region else None
    return "state" if code and is_town(town, code) else ""


def _town_by_list(
    segment: str, region: str | None, zip_code: str | None
) -> tuple[str, str, str] | None:
    """The longest run of words at the end that the ZIP, else the state, knows as a town."""
    words = segment.split()
    for wanted in ("zip", "state"):
        for length in range(min(_LONGEST_TOWN, len(words) - 1), 0, -1):
            town = " ".join(words[-length:])
            street = " ".join(words[:-length])
            if _known(town, region, zip_code) == wanted and _can_end_street(street, wanted):
                return *_with_direction(street, town, region, zip_code), wanted
    return None


def _with_direction(
    street: str, town: str, region: str | None, zip_code: str | None
) -> tuple[str, str]:
    """S E Grand Rapids: behind a lone N or S, an E or W is the street's, not the town's."""
    first, _, rest = town.partition(" ")
    lone = street.rsplit(maxsplit=1)[-1].strip(".").upper() in ("N", "S") and fold(first) in (
        "e",
        "w",
    )
    if lone and rest and _known(rest, region, zip_code) == "zip":
        return f"{street} {first}", rest
    return street, town


def _can_end_street(street: str, how: str) -> bool:
    """A street must have a number and a name left; by the state's list also a suffix or a unit."""
    street = street[street_start(street) :]
    if kind_of(street) not in (Segment.STREET, Segment.BOX):
        return kind_of(split_unit(street)[0]) in (Segment.STREET, Segment.BOX)
    if len(street.split()) < 2:  # noqa: PLR2004 - a number and a name
        return False
    return how == "zip" or _ends_well(street)


def _ends_well(street: str) -> bool:
    last = fold(split_unit(street)[0].split()[-1])
    unit = split_unit(street)[1] is not None
    return unit or last in suffix_words() | direction_words() or kind_of(street) is Segment.BOX


def _town_by_suffix(segment: str) -> tuple[str, str, str] | None:
    """The words behind the street's last suffix, its unit or its box."""
    words = segment.split()
    for place in range(len(words) - 1, 0, -1):
        street, town = " ".join(words[:place]), " ".join(words[place:])
        if any(ch.isdigit() for ch in town):
            return None
        plain = split_unit(street)
        ends = fold(plain[0].split()[-1]) in suffix_words() or plain[1] is not None
        if kind_of(plain[0]) is Segment.BOX or (
            ends and kind_of(plain[0]) is Segment.STREET and len(plain[0].split()) > 2  # noqa: PLR2004
        ):
            return street, town, "suffix"
    return None
