"""Numbered roads in their standard form (Publication 28, appendix F), by table: data/roads.tsv."""

import re
from dataclasses import dataclass
from functools import cache

from addressing.tables import table
from addressing.wording.words import (
    direction_in_full,
    direction_in_short,
    plain,
    suffix_in_full,
    suffix_in_short,
)

_GLUED = re.compile(r"^([A-Z]{1,3})-?(\d+[A-Z]?)$")
_NUMBERS = {
    "digits": re.compile(r"^\d+[A-Z]{0,2}(?:-\d+)?$"),
    "letters": re.compile(r"^[A-Z]{1,2}$"),
    "any": re.compile(r"^(?:\d+[A-Z]{0,2}(?:-\d+)?|[A-Z]{1,2})$"),
}
_ORDINAL = re.compile(r"\d+(?:ST|ND|RD|TH)")
_LONGEST_STATE = 3


@dataclass(frozen=True, slots=True)
class _Row:
    """One row of the table, its written words in capitals."""

    written: tuple[str, ...]
    number: str
    state: str
    formal: str
    postal: str


@dataclass(frozen=True, slots=True)
class Road:
    """A numbered road among the words of a street: the words from `start` up to `end` are it."""

    start: int
    end: int
    formal: str
    postal: str


def numbered_road(words: list[str], start: int) -> Road | None:
    """The numbered road that begins at the word `start`, behind the house number, or None.

    >>> numbered_road(["14", "KY", "ST", "HWY", "1"], 1)
    Road(start=1, end=5, formal='Kentucky State Highway 1', postal='KY STATE HIGHWAY 1')
    """
    first = plain(words[start]) if start < len(words) else ""
    if first.isalpha() and not begins_road(first):
        return None
    parts, ends = _parted(words[start:])
    for row in _rows_at(parts):
        for state, length in _states_at(parts, row):
            end = length + len(row.written)
            if tuple(parts[length:end]) != row.written or end >= len(parts):
                continue
            number = parts[end]
            if not _is_number(number, row) or not _fits(parts[end + 1 :], number, row):
                continue
            return _road(row, state, number, (start, start + ends[end]))
    return None


def begins_road(word: str) -> bool:
    """True for a word, in capitals, with which a numbered road may begin."""
    return word in _beginnings()


def behind_road(words: list[str], *, formal: bool) -> list[str]:
    """What stands behind a road's number: only the last suffix word is shortened (234.2).

    >>> behind_road(["BYP", "ROAD"], formal=False), behind_road(["SW"], formal=True)
    (['BYPASS', 'RD'], ['Southwest'])
    """
    styled = list(words)
    last = len(styled) - 1
    if last >= 0 and plain(styled[last]) in direction_in_full():
        directions = direction_in_full() if formal else direction_in_short()
        styled[last] = directions[plain(styled[last])]
        last -= 1
    for place, word in enumerate(styled[: last + 1]):
        if plain(word) in suffix_in_full():
            short = not formal and place == last
            styled[place] = (suffix_in_short() if short else suffix_in_full())[plain(word)]
    return [word if formal else word.upper() for word in styled]


def _parted(words: list[str]) -> tuple[list[str], list[int]]:
    """The words in capitals, I10 in two; and for each how many of the written words it ends."""
    parts: list[str] = []
    ends: list[int] = []
    for place, word in enumerate(words, start=1):
        bare = plain(word).lstrip("#")
        glued = _GLUED.match(bare)
        if glued and place == 1 and ((glued[1],) in _single_words() or glued[1] in _states()):
            parts.extend((glued[1], glued[2]))
            ends.extend((place, place))
        elif bare:
            parts.append(bare)
            ends.append(place)
    return parts, ends


def _rows_at(parts: list[str]) -> list[_Row]:
    """The rows whose first word stands first or behind a state, the longest first.

    Most streets bear a name, and there are none.
    """
    starts = [parts[:1]] if parts else []
    for length in range(1, min(_LONGEST_STATE, len(parts)) + 1):
        if " ".join(parts[:length]) in _states():
            starts += [parts[length : length + 1], []]
    by_first = _places_by_first()
    found = {place for start in starts for place in by_first.get(start[0] if start else "", ())}
    return [_rows()[place] for place in sorted(found)] if found else []


def _states_at(parts: list[str], row: _Row) -> list[tuple[str, int]]:
    """(code, words) of the state that may stand before the road's words; ("", 0) for none."""
    found = [("", 0)] if row.state != "must" else []
    if row.state:
        for length in range(1, min(_LONGEST_STATE, len(parts)) + 1):
            code = _states().get(" ".join(parts[:length]))
            if code and (row.state == "may" or parts[0] == code):
                found.append((code, length))
    return found


def _is_number(word: str, row: _Row) -> bool:
    """True for what numbers a road: a suffix of two letters (DR) doesn't, nor does 42ND."""
    numbered = _NUMBERS[row.number].match(word) is not None
    return numbered and word not in suffix_in_full() and _ORDINAL.fullmatch(word) is None


def _fits(rest: list[str], number: str, row: _Row) -> bool:
    """Behind a letter, or a state alone, only suffixes and directions may stand.

    Before a calle I-10 is a house: block I, number 10 (Publication 28, 295.3).
    """
    if rest and rest[0] in _calles():
        return False
    if number[:1].isdigit() and row.state != "must":
        return True
    return all(word in suffix_in_full() or word in direction_in_full() for word in rest)


@cache
def _calles() -> frozenset[str]:
    rows = (row for row in table("spanish_words") if row["kind"] == "street")
    return frozenset(row["written"].upper() for row in rows)


def _road(row: _Row, state: str, number: str, span: tuple[int, int]) -> Road:
    name = _state_names()[state] if state else ""
    formal = " ".join(word for word in (name, row.formal, number) if word)
    postal = " ".join(word for word in (state, row.postal, number) if word)
    return Road(*span, formal, postal)


@cache
def _rows() -> tuple[_Row, ...]:
    """The table, its longest words first."""
    rows = [
        _Row(
            tuple(row["written"].upper().split()),
            row["number"],
            row["state"],
            row["formal"],
            row["postal"],
        )
        for row in table("roads")
    ]
    return tuple(sorted(rows, key=lambda row: -len(row.written)))


@cache
def _places_by_first() -> dict[str, tuple[int, ...]]:
    """The places of the rows in the table by their first word; "" for those without words."""
    found: dict[str, tuple[int, ...]] = {}
    for place, row in enumerate(_rows()):
        first = row.written[0] if row.written else ""
        found[first] = (*found.get(first, ()), place)
    return found


@cache
def _beginnings() -> frozenset[str]:
    """The first words of all rows and states: no other word of letters begins a numbered road."""
    return frozenset((*_places_by_first(), *(state.split()[0] for state in _states())))


@cache
def _single_words() -> frozenset[tuple[str, ...]]:
    return frozenset(row.written for row in _rows() if len(row.written) == 1)


@cache
def _states() -> dict[str, str]:
    """Every written form of a state, in capitals without points, to its code."""
    forms: dict[str, str] = {}
    for row in table("states"):
        others = row["other_forms_seen"].replace(";", ",").split(",")
        for form in (row["code"], row["name"], row["traditional_abbreviation"], *others):
            if form.strip():
                forms.setdefault(plain(form.strip()), row["code"])
    return forms


@cache
def _state_names() -> dict[str, str]:
    return {row["code"]: row["name"] for row in table("states")}
