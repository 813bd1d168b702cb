"""A street line in a style: written out in full, or shortened as the post prefers.

Only the words that Publication 28 lists are changed: the last suffix, directions before and behind
the name, the designator of a unit. Names, numbers, letters that are street names stay as written.
"""

import re

from addressing.wording.casing import is_single_case, recase
from addressing.wording.words import (
    direction_in_full,
    direction_in_short,
    plain,
    style_words,
    suffix_in_full,
    suffix_in_short,
    unit_words,
)

_BOX = re.compile(r"^(?P<box>.*?\bbox|p\.?o\.?b\.?)\s*#?\s*(?P<number>[\w\-]+)$", re.IGNORECASE)
_ROUTE = re.compile(
    r"^(?P<route>[A-Za-z. ]+?)\s*#?\s*0*(?P<number>\d+\w*)"
    r"(?:[\s,]+(?:box|bzn)\s+#?\s*(?P<box>[\w\-]+))?$",
    re.IGNORECASE,
)
_UNIT = re.compile(r"^(?P<word>[A-Za-z]+)\.?\s*#?\s*(?P<value>[\w\-/]*)$")
_MILITARY = re.compile(
    r"^(?:psc|cmr|cpr|opc|upr|unit|ship|uss)\b.*\bbox\b|^(?:psc|cmr|cpr|opc|upr)\s+\d",
    re.IGNORECASE,
)


def street_in_full(street: str) -> str:
    """One line of a street, written out for a formal envelope.

    >>> street_in_full("520 W. Marlpit St."), street_in_full("P.O. Box 12")
    ('520 West Marlpit Street', 'Post Office Box 12')
    >>> street_in_full("14 N St")
    '14 N Street'
    """
    if _MILITARY.match(street):
        return street
    boxed = _box(street, formal=True) or _route(street, formal=True)
    if boxed is not None:
        return boxed
    words = (recase(street) if is_single_case(street) else street).split()
    first, last = _directions(words)
    suffix = _suffix(words, last)
    for place in (first, last):
        if place is not None:
            words[place] = direction_in_full()[plain(words[place])]
    if suffix is not None:
        words[suffix] = suffix_in_full()[plain(words[suffix])]
    return " ".join(_road(words, formal=True))


def street_in_short(street: str) -> str:
    """One line of a street in postal style: capitals, standard abbreviations, no points.

    >>> street_in_short("102 Main Street"), street_in_short("Bay Drive West")
    ('102 MAIN ST', 'BAY DR W')
    """
    boxed = _box(street, formal=False) or _route(street, formal=False)
    if boxed is not None:
        return boxed.upper()
    words = street.split()
    first, last = _directions(words)
    suffix = _suffix(words, last)
    for place in (first, last):
        if place is not None:
            words[place] = direction_in_short()[plain(words[place])]
    middle = _lone_direction(words, suffix)
    if middle is not None:
        words[middle] = direction_in_full()[plain(words[middle])]
    if suffix is not None:
        words[suffix] = suffix_in_short()[plain(words[suffix])]
    return postal_text(" ".join(_road(words, formal=False)))


def postal_text(text: str) -> str:
    """Capitals without punctuation; hyphens, slashes and # stay (Publication 28, 222)."""
    kept = re.sub(r"(?<=\d)\.(?=\d)", "\0", text.upper())
    kept = re.sub(r"['’]", "", re.sub(r"[.,;:]", " ", kept)).replace("\0", ".")
    return " ".join(kept.split())


def _numbered(words: list[str]) -> int:
    """The place of the first word behind the house number."""
    place = 0
    while place < len(words) and re.match(r"^[\d#]", words[place]) and place < 2:  # noqa: PLR2004
        if place == 1 and not re.fullmatch(r"\d/\d", words[1]):
            break
        place += 1
    return place


def _directions(words: list[str]) -> tuple[int | None, int | None]:
    """Places of the directions before and behind the street's name; a name is left between."""
    start = _numbered(words)
    known = direction_in_full()
    end = len(words) - 1
    if end - start < 1:
        return None, None
    last = end if plain(words[end]) in known and _has_name(words[start:end]) else None
    body = words[start + 1 : last if last is not None else end + 1]
    first = start if plain(words[start]) in known and _has_name(body) else None
    if first is not None and last is not None and not _has_name(words[start + 1 : last]):
        last = None
    return first, last


def _has_name(words: list[str]) -> bool:
    """True when the words hold a name and not a suffix alone ("Avenue N", "N Street")."""
    return any(plain(word) not in suffix_in_full() for word in words) or len(words) > 1


def _suffix(words: list[str], last: int | None) -> int | None:
    """The place of the last suffix, if a name stands before it."""
    place = (last if last is not None else len(words)) - 1
    start = _numbered(words)
    return place if place > start and plain(words[place]) in suffix_in_full() else None


def _lone_direction(words: list[str], suffix: int | None) -> int | None:
    """A direction that is the street's name or a part of it is spelled out (233.3: BAY WEST DR)."""
    if suffix is None or suffix - 1 <= _numbered(words):
        return None
    place = suffix - 1
    return place if plain(words[place]) in ("N", "S", "W", "NE", "NW", "SE", "SW") else None


def _road(words: list[str], *, formal: bool) -> list[str]:
    """Highway and route in full where a number follows."""
    roads = style_words("road")
    return [
        roads[plain(word)][0 if formal else 1]
        if plain(word) in roads and place + 1 < len(words) and words[place + 1][:1].isdigit()
        else word
        for place, word in enumerate(words)
    ]


def _box(street: str, *, formal: bool) -> str | None:
    found = _BOX.match(street)
    key = " ".join(re.sub(r"\.", " ", found["box"]).split()).upper() if found else ""
    pair = style_words("box").get(key) or style_words("box").get(key.replace(" ", ""))
    return f"{pair[0 if formal else 1]} {found['number']}" if pair and found else None


def _route(street: str, *, formal: bool) -> str | None:
    found = _ROUTE.match(street)
    if not found:
        return None
    key = " ".join(re.sub(r"\.", " ", found["route"]).split()).upper()
    pair = style_words("route").get(key) or style_words("route").get(key.replace(" ", ""))
    if pair is None:
        return None
    mark = ", Box " if formal else " BOX "
    box = f"{mark}{found['box']}" if found["box"] else ""
    return f"{pair[0 if formal else 1]} {found['number']}{box}"


def unit_in_full(unit: str) -> str:
    """Apartment 3 for "Apt. 3"; what has no designator stays as given.

    >>> unit_in_full("Apt. 2R"), unit_in_full("#4B"), unit_in_full("Bldg 2, Apt 5")
    ('Apartment 2R', '#4B', 'Building 2, Apartment 5')
    """
    return ", ".join(_unit(part, formal=True) for part in _units(unit))


def unit_in_short(unit: str) -> str:
    """A unit with its approved abbreviation; a space stands between # and the number (213.2)."""
    short = " ".join(_unit(part, formal=False) for part in _units(unit))
    return postal_text(re.sub(r"#\s*", "# ", short))


def _units(unit: str) -> list[str]:
    parts = [part.strip() for part in unit.split(",") if part.strip()]
    return [piece for part in parts for piece in _two(part)]


def _two(part: str) -> list[str]:
    """Two units of "Bldg 2 Apt 5"."""
    words = part.split()
    for place in range(1, len(words)):
        if plain(words[place]) in unit_words() and plain(words[0]) in unit_words():
            return [" ".join(words[:place]), *_two(" ".join(words[place:]))]
    return [part]


def _unit(part: str, *, formal: bool) -> str:
    found = _UNIT.match(part)
    pair = unit_words().get(found["word"].upper()) if found else None
    if found is None or pair is None:
        return _floor(part, formal=formal)
    return f"{pair[0 if formal else 1]} {found['value']}".strip()


def _floor(part: str, *, formal: bool) -> str:
    """2nd Floor for "2nd Fl"."""
    words = part.split()
    pair = unit_words().get(plain(words[-1])) if words else None
    if pair is None or len(words) < 2:  # noqa: PLR2004 - a number and a designator
        return (
            part
            if formal or part.startswith("#")
            else (f"# {part}" if re.fullmatch(r"[\w\-]+", part) else part)
        )
    return " ".join([*words[:-1], pair[0 if formal else 1]])
