"""The addresses in running text, by their own marks: a number before a street, a box, a code."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from addressing.guestlist.domestic.boxes import route_pattern
from addressing.guestlist.domestic.buildings import ends_building
from addressing.guestlist.domestic.dwellings import suffix_words
from addressing.guestlist.files.mail_lines import has_verb
from addressing.guestlist.files.prose_words import number_word, prose_words
from addressing.guestlist.folding import fold
from addressing.guestlist.places.countries import country_of_cell
from addressing.tables import table

_START = re.compile(
    r"(?<![\w#./-])(?:#?\d+[A-Za-z]?(?:[-–/]\d*[A-Za-z]?)?(?: \d/\d)?,?\s+(?=[^\W_])"
    rf"|(?i:{route_pattern()}|(?:p\.? ?o\.? ?(?:box|drawer)|post office box|box|psc|cmr)\.? ?\d)"
    rf"|One (?=[A-Z])|(?P<word>{number_word()} )(?=[A-Z]))"
)
_CODE = re.compile(
    r"\b\d{5}(?:-\d{4})?\b|\b[A-Z]{1,2}\d[A-Z\d]? ?\d[A-Z]{2}\b|\b[A-Z]\d[A-Z] ?\d[A-Z]\d\b"
    r"|\b[A-Z]\d[\dW] [A-Z\d]{4}\b"
)
_ABROAD = re.compile(
    r"(?P<road>[^\W\d_][\w.'’/-]*(?:\s[^\W\d_][\w.'’/-]*){0,5})\s\d{1,4}\s?[a-zA-Z]?,?\s+"
    r"(?:[A-Z]{1,2}-)?\d{4,5}(?:\s[A-Z]{2}\b)?\s[^\W\d_a-z][\w'’-]*"
    r"(?:[ -][^\W\d_a-z][\w'’-]+)*"
)
_FARTHEST = 130
"""Letters from the number to the end of the code at most."""
_STREET_WORDS = 6
"""Words within which a street's suffix stands, where no code follows."""
_STOP = re.compile(r"\s[-–—]+\s|[;!?]|\s{3,}|,?\s+(?P<small>[a-z]['’\w]*)|\.\s+(?=[A-Z])")
_TOWN_BEHIND = re.compile(r"\s+[^\W\d_a-z][\w'’-]*(?:[ -][^\W\d_a-z][\w'’-]*)*")
_COUNTRY = re.compile(r"[,\s]+(?P<name>[^\W\d_a-z][\w.]*(?:\s[^\W\d_a-z][\w.]*){0,2})")
_HOUSE = re.compile(r"(?:[Tt]he\s+)?[^\W\d_a-z][\w'’.]*(?:\s+[^\W_a-z][\w'’.]*)+\s*$")
_ROOM = re.compile(r"(?:^|(?<=[\s,]))(?:Room|Rm\.?|Suite|Apt\.?|Apartment|Unit)\s+\w+\s*$")


@dataclass(frozen=True, slots=True)
class Span:
    """An address from one place of a text to another; `whole` if it has a code."""

    start: int
    end: int
    text: str
    whole: bool


def spans(text: str) -> Iterator[Span]:
    """The addresses of a text whose brackets are out of sight.

    >>> [span.text for span in spans("She is at Elm House, 9 Elm St., Bath, Maine 04530 now")]
    ['Elm House, 9 Elm St., Bath, Maine 04530']
    """
    made = list(_number_last(text))
    for span in made:
        text = text[: span.start] + " " * (span.end - span.start) + text[span.end :]
    yield from sorted((*made, *_number_first(text)), key=lambda span: span.start)


def _number_last(text: str) -> Iterator[Span]:
    """The addresses whose number stands behind the street, the code before the town."""
    for found in _ABROAD.finditer(text):
        road = found["road"]
        begin = _road(road)
        if begin is not None:
            start, end = found.start() + begin, _with_country(text, found.end())
            yield Span(start, end, _tidy(text[start:end]), whole=True)


def _road(road: str) -> int | None:
    """Where among words a street begins that is known by its first or by its last one."""
    words = [(found.start(), found[0].casefold()) for found in re.finditer(r"\S+", road)]
    led = [at for at, word in words if word in _street_words("street")]
    if led:
        return led[-1]
    last = words[-1][1]
    if not any(last.endswith(ending) for ending in _street_words("ending")):
        return None
    begin = len(words) - 1
    while begin and road[words[begin - 1][0]].isupper():
        begin -= 1
    return words[begin][0]


@cache
def _street_words(kind: str) -> frozenset[str]:
    rows = table("street_words_abroad")
    return frozenset(row["word"].lstrip("-") for row in rows if row["kind"] == kind)


def _number_first(text: str) -> Iterator[Span]:
    last = 0
    for found in _START.finditer(text):
        if found.start() < last or _ROOM.search(text[: found.end()].rstrip(" ,")):
            continue
        whole = _with_code(text, found)
        end = whole or _without_code(text, found)
        if found["word"] and not _is_street(text[found.end() : end]):
            continue  # "Two Penhews, Bath ME 04530"
        if end:
            start = _with_house(text, last, found.start())
            yield Span(start, end, _tidy(text[start:end]), bool(whole))
            last = end


def _is_street(address: str) -> bool:
    """True where the first part of an address has a word for streets in it."""
    return not suffix_words().isdisjoint(map(fold, address.partition(",")[0].split()[1:]))


def _with_code(text: str, start: re.Match[str]) -> int:
    """Where the address ends that has a code; 0 for none."""
    code = _CODE.search(text, start.end())
    if code is None or code.end() > start.start() + _FARTHEST:
        return 0
    between = text[start.start() : code.start()]
    told = re.search(r"[;!?]|\s[-–—]+\s+[a-z]", between) or has_verb(between.rstrip(" .,"))
    if told or not re.search(r"[^\W\d_a-z]", between):
        return 0
    end = code.end()
    if between.rstrip()[-1:] == "," or between.count(",") == 0:
        town = _TOWN_BEHIND.match(text, end)  # "11 rue des Ormes, 69002 Lyon"
        end = town.end() if town is not None and text[code.start()].isdigit() else end
    return _with_country(text, end)


def _with_country(text: str, end: int) -> int:
    behind = _COUNTRY.match(text, end)
    words = behind["name"].rstrip(".").split() if behind is not None else []
    for size in range(len(words), 0, -1):
        name = " ".join(words[:size]).rstrip(".")
        if behind is not None and country_of_cell(name) is not None:
            return behind.start("name") + len(name)
    return end


def _without_code(text: str, start: re.Match[str]) -> int:
    """Where the address of a numbered street ends that has no code; 0 for none."""
    words = [fold(word) for word in text[start.end() :].split()[:_STREET_WORDS]]
    first = text[start.end() : start.end() + 1]
    if (
        not (start[0][:1].isdigit() or start["word"])
        or not first.isupper()
        or suffix_words().isdisjoint(words[1:])
    ):
        return 0
    end = next(
        (
            stop.start()
            for stop in _STOP.finditer(text, start.end())
            if (stop["small"] or "") not in prose_words("goes-on") and not _abbreviated(text, stop)
        ),
        len(text),
    )
    small = re.search(r"(?:,?\s+[a-z]+)+$", text[:end])
    end = small.start() if small is not None else end  # "Bath, the same zip"
    own = text[start.end() : end].split()
    return end if not suffix_words().isdisjoint(map(fold, own[1:])) else 0


def _abbreviated(text: str, stop: re.Match[str]) -> bool:
    """True for the stop of "9 Elm St. Bath"."""
    words = text[: stop.start()].split()
    return stop[0][:1] == "." and bool(words) and fold(words[-1]) in suffix_words()


def _with_house(text: str, last: int, start: int) -> int:
    """Where the address begins: with a room, or a house that has a name, before its number."""
    while True:
        before, comma, _ = text[last:start].rpartition(",")
        segment = before.rpartition(",")[2]
        found = _ROOM.search(segment) or _HOUSE.search(segment)
        if not comma or found is None or text[last + len(before) + 1 : start].strip():
            return start
        name = found[0].strip()
        if _ROOM.search(segment) is None and not _is_house(name):
            return start
        start = last + len(before) - len(found[0].lstrip())


def _is_house(name: str) -> bool:
    return fold(name.rsplit(maxsplit=1)[-1]) in prose_words("house") or ends_building(name)


def _tidy(text: str) -> str:
    said = re.sub(r",?\s+(?:also(?:\s+in)?|in)\s+(?=[A-Z])", ", ", " ".join(text.split()))
    return said.strip(" ,;:")
