"""A street line in a style: written out in full, or shortened as the post prefers.

Only the words that Publication 28 lists are changed: the last suffix, directions before and behind
the name, the designator of a unit. Names, numbers, letters that are street names stay as written.
"""

import re
from functools import cache, lru_cache

from addressing.tables import table
from addressing.wording.boxes import box_line, route_line
from addressing.wording.casing import is_single_case, recase
from addressing.wording.puerto_rico import area_line, street_line
from addressing.wording.roads import begins_road, behind_road, numbered_road
from addressing.wording.words import (
    WORDS_KEPT,
    direction_in_full,
    direction_in_short,
    plain,
    suffix_in_full,
    suffix_in_short,
    unit_words,
)

_UNIT = re.compile(
    r"^(?P<word>[A-Za-z]+)\.?\s*#?\s*(?P<value>[\w\-/]*(?:\s+(?:north|south|east|west))?)$",
    re.IGNORECASE,
)
_MILITARY = re.compile(
    r"^(?:psc|cmr|cpr|opc|upr|unit|ship|uss)\b.*\bbox\b|^(?:psc|cmr|cpr|opc|upr)\s+\d",
    re.IGNORECASE,
)
_GRID = re.compile(r"[NSEW]\d+(?:[NSEW]\d+)?$", re.IGNORECASE)
"""A house number on a grid, N4120 or N6W23001, perhaps two words (Publication 28, D)."""
_FRACTION = re.compile(r"\d/\d")
_LONE_DIRECTIONS = frozenset(("N", "S", "W", "NE", "NW", "SE", "SW"))
"""E is left out: it may be a letter (233.3: BAY E DR)."""


def street_in_full(street: str) -> str:
    """One line of a street, written out for a formal envelope.

    >>> street_in_full("520 W. Marlpit St."), street_in_full("P.O. Box 12")
    ('520 West Marlpit Street', 'Post Office Box 12')
    >>> street_in_full("14 N St")
    '14 N Street'
    """
    if not street[:1].isdecimal():  # what begins with a house number is no box
        if _MILITARY.match(street):
            return _military(street) if is_single_case(street) else street
        boxed = route_line(street, formal=True) or box_line(street, formal=True)
        if boxed is not None:
            return boxed
    words = (recase(street) if is_single_case(street) else street).split()
    return _plainly(words) or _styled(words, formal=True)


def _plainly(words: list[str]) -> str | None:
    """Most streets in full: a house number, names that are nothing else, a suffix; else None.

    >>> _plainly(["14", "Larkmoor", "Ln."]), _plainly(["14", "N", "Ln."])
    ('14 Larkmoor Lane', None)
    """
    number, *names, last = words if len(words) > 2 else ("", "")  # noqa: PLR2004 - a name between
    if not (number.isdecimal() and all(map(_is_mere_name, names))):
        return None
    suffix = _mere_suffix(last)
    return " ".join((number, *names, suffix)) if suffix else None


@lru_cache(WORDS_KEPT)
def _mere_suffix(word: str) -> str | None:
    """A suffix in full; None for a word that is none, or a direction too."""
    word = plain(word)
    return None if word in direction_in_full() else suffix_in_full().get(word)


@lru_cache(WORDS_KEPT)
def _is_mere_name(word: str) -> bool:
    """True for letters that are no direction, no suffix, and begin no road with a number."""
    word = plain(word)
    named = word in direction_in_full() or word in suffix_in_full() or begins_road(word)
    return word.isalpha() and not named


def numbers_in_words(street: str) -> str:
    """House number 1 and streets from First to Tenth in words (data/number_words.tsv).

    >>> numbers_in_words("1 Elm Row"), numbers_in_words("14 West 7th Street, Apartment 1")
    ('One Elm Row', '14 West Seventh Street, Apartment 1')
    """
    number, _, rest = street.partition(" ")
    if rest[:1].isalpha() and number in _in_words("house"):
        number = _in_words("house")[number]
    ordinals = _in_words("street")
    return " ".join([number, *(ordinals.get(word.lower(), word) for word in rest.split(" "))])


@cache
def _in_words(kind: str) -> dict[str, str]:
    return {row["written"]: row["words"] for row in table("number_words") if row["kind"] == kind}


def _military(street: str) -> str:
    """A military line typed in one case: Unit and Box are words, PSC and USS letters.

    >>> _military("UNIT 29401 BOX 77"), _military("psc 473 box 22a")
    ('Unit 29401 Box 77', 'PSC 473 Box 22A')
    """
    words = street.upper().split()
    return " ".join(word.title() if word in ("UNIT", "SHIP", "BOX") else word for word in words)


def street_in_short(street: str) -> str:
    """One line of a street in postal style: capitals, standard abbreviations, no points.

    >>> street_in_short("102 Main Street"), street_in_short("Bay Drive West")
    ('102 MAIN ST', 'BAY DR W')
    """
    if not street[:1].isdecimal():
        boxed = route_line(street, formal=False) or box_line(street, formal=False)
        if boxed is not None:
            return boxed.upper()
    turned = street_line(street)
    if turned is not None:
        return turned
    words = [_one_word(word) for word in area_line(street).split()]
    return postal_text(_styled(words, formal=False))


def _one_word(word: str) -> str:
    """The S.W. of "S.W. St." is one word and no two initials."""
    pointed = "." in word.rstrip(".")
    return plain(word) if pointed and plain(word) in direction_in_short() else word


def _styled(words: list[str], *, formal: bool) -> str:
    """The words of a street, whether its road has a number or a name."""
    start = _numbered(words)
    numbered = _numbered_in(words, start, formal=formal)
    return numbered or " ".join(_named(words, start, formal=formal))


def _numbered_in(words: list[str], start: int, *, formal: bool) -> str | None:
    """The line of a numbered road (appendix F), or None where the street has a name.

    `start` is here, and below, the place of the first word behind the house number.
    """
    directions = direction_in_full() if formal else direction_in_short()
    before = [
        directions[plain(word)] for word in words[start : start + 1] if plain(word) in directions
    ]
    road = numbered_road(words, start) or (before and numbered_road(words, start + 1)) or None
    if road is None:
        return None
    before = before if road.start > start else []
    behind = behind_road(words[road.end :], formal=formal)
    return " ".join([*words[:start], *before, road.formal if formal else road.postal, *behind])


def _named(words: list[str], start: int, *, formal: bool) -> list[str]:
    """The words of a named street: directions, suffix, and what 233.3 and 234.2 spell out."""
    styled = list(words)
    first, last = _directions(words, start)
    suffix = _suffix(words, start, last)
    for place in (first, last):
        if place is not None:
            directions = direction_in_full() if formal else direction_in_short()
            styled[place] = directions[plain(words[place])]
    if suffix is None:
        return styled
    before = _before_suffix(words, start, suffix, formal=formal)
    if before is not None:
        styled[suffix - 1] = before
    styled[suffix] = (suffix_in_full() if formal else suffix_in_short())[plain(words[suffix])]
    return styled


def _before_suffix(words: list[str], start: int, suffix: int, *, formal: bool) -> str | None:
    """The word before the suffix where it is spelled out, else None.

    A direction that is the street's name or a part of it (233.3: BAY WEST DR), and the first of two
    suffixes (234.2: MAIN AVENUE DR). St. may be State or Saint there and stays.
    """
    word = plain(words[suffix - 1])
    if suffix - 1 <= start or word == "ST":
        return None
    if word in _LONE_DIRECTIONS and not formal:
        return direction_in_full()[word]
    return suffix_in_full().get(word)


def postal_text(text: str) -> str:
    """Capitals without punctuation; hyphens, slashes and # stay (Publication 28, 222)."""
    kept = re.sub(r"(?<=\d)\.(?=\d)", "\0", text.upper())
    kept = re.sub(r"['’]", "", re.sub(r"[.,;:]", " ", kept)).replace("\0", ".")
    return " ".join(kept.split())


def _numbered(words: list[str]) -> int:
    """The place of the first word behind the house number."""
    if not words or not (words[0][0].isdecimal() or words[0][0] == "#" or _GRID.match(words[0])):
        return 0
    more = len(words) > 1 and (_FRACTION.fullmatch(words[1]) or _GRID.match(words[1]))
    return 2 if more else 1


def _directions(words: list[str], start: int) -> tuple[int | None, int | None]:
    """Places of the directions before and behind the street's name; a name is left between."""
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


def _suffix(words: list[str], start: int, last: int | None) -> int | None:
    """The place of the last suffix, if a name stands before it."""
    place = (last if last is not None else len(words)) - 1
    return place if place > start and plain(words[place]) in suffix_in_full() else None


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
    value = found["value"]
    lettered = value.upper() if len(value) == 1 else value  # Apartment b looks like a slip
    return f"{pair[0 if formal else 1]} {lettered}".strip()


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
