"""The words of a US address, and what can be seen of each: what the reading model learns with.

A word is never seen by its letters unless a table has it (suffix, unit, direction, state, title,
`address_words.tsv`); a town is seen by the list of the ZIP or the state that stands in the text. So
the model knows no place by heart, and holds none.
"""

import re
from dataclasses import dataclass
from functools import cache, lru_cache
from itertools import pairwise

from addressing.guestlist.domestic.dwellings import direction_words, suffix_words
from addressing.guestlist.folding import fold
from addressing.guestlist.people.vocabulary import titles
from addressing.guestlist.places.places import fold_town, state_code, town_keys, zip_keys, zip_state
from addressing.tables import table

_WORD = re.compile(r"[^\s,;#]*#?[^\s,;#]+|#")
_GLUED_STATE = re.compile(r"^([A-Za-z]{2})[.]?(\d{5}(?:-\d{4})?)$")
_ZIP = re.compile(r"^(\d{5})(?:[-–—]?\d{4})?$")
_BREAKS = (",", "\n", "-")
_LONGEST_TOWN = 4
_LONGEST_STATE = 3
_FAR = 3
_LONG_ZIP = 9


@dataclass(frozen=True, slots=True)
class Token:
    """A word as written, where it starts in the text, and the marks between it and the one before.

    `gap` is "" where they touch, " ", "," (also for a semicolon), "-" or a line feed.
    """

    text: str
    start: int
    gap: str


def tokens_of(text: str) -> tuple[Token, ...]:
    """The words of an address in order; commas and line feeds are told by the gap.

    >>> [token.text for token in tokens_of("14 Larkmoor Lane #4B, Allston MA02134")]
    ['14', 'Larkmoor', 'Lane', '#4B', 'Allston', 'MA', '02134']
    """
    found: list[Token] = []
    end = 0
    dash = False
    for match in _WORD.finditer(text):
        if not any(mark.isalnum() for mark in match[0]) and match[0] not in ("#", "&"):
            dash = dash or match[0] in ("-", "–", "—")
            continue
        gap = "-" if dash else _gap(text[end : match.start()])
        dash = False
        for part, start in _cut(match[0], match.start()):
            found.append(Token(part, start, gap))
            gap = ""
        end = match.end()
    return tuple(found)


def _cut(word: str, start: int) -> list[tuple[str, int]]:
    """A state and ZIP, or a word and its number sign, that are written without a blank."""
    glued = _GLUED_STATE.match(word)
    if glued and state_code(glued[1]):
        return [(glued[1], start), (glued[2], start + glued.start(2))]
    sign = word.find("#")
    if sign > 0:
        return [(word[:sign], start), (word[sign:], start + sign)]
    return [(word, start)]


def _gap(marks: str) -> str:
    for mark in ("\n", ",", ";"):
        if mark in marks:
            return "," if mark == ";" else mark
    return " " if marks else ""


@cache
def _kinds() -> dict[str, tuple[str, ...]]:
    """A folded word of the tables to the kinds that it may be."""
    found: dict[str, list[str]] = {}
    for row in table("address_words"):
        found.setdefault(row["word"], []).append(row["kind"])
    for word in suffix_words():
        found.setdefault(word, []).append("suffix")
    for word in direction_words():
        found.setdefault(word, []).append("direction")
    for word in _unit_words():
        found.setdefault(word, []).append("unit")
    for word in titles():
        found.setdefault(word, []).append("title")
    return {word: tuple(dict.fromkeys(kinds)) for word, kinds in found.items()}


def kinds_of(folded: str) -> tuple[str, ...]:
    """What the tables take a folded word for: suffix, direction, unit, box, road."""
    return _kinds().get(folded, ())


def _unit_words() -> frozenset[str]:
    """Designators (Publication 28, C2) and the ways in which lists write them, one word each."""
    forms = [
        row[name] for row in table("units") for name in ("designator", "approved_abbreviation")
    ]
    forms += [row["written"] for row in table("unit_forms")]
    return frozenset(fold(form) for form in forms if form.isalpha())


@dataclass(frozen=True, slots=True)
class _Look:
    """What is seen of a word by itself.

    `beside` is what its neighbours see of it: the second and the first word behind it, the first
    and the second before it. `town` is the word as a whole town, as a town's first word, as a later
    one.
    """

    own: tuple[str, ...]
    near: tuple[str, ...]
    beside: tuple[tuple[str, ...], ...]
    town: tuple[str, str, str]
    digit: bool
    suffix: bool


_STEPS = (-2, -1, 1, 2)


@lru_cache(maxsize=4_096)
def _look(word: str) -> _Look:
    folded = fold(word)
    kinds = list(_kinds().get(folded, ()))
    if state_code(word):
        kinds.append("state")
    near = (*(f"k={kind}" for kind in kinds or ("-",)), f"s={_shape(word, folded)}")
    own = [*near, f"n={min(len(folded), 8)}"]
    if kinds:
        own.append(f"w={folded}")
    if word.isupper():
        own.append("upper")
    elif word.islower():
        own.append("lower")
    if word.endswith("."):
        own.append("point")
    return _Look(
        own=tuple(own),
        near=near,
        beside=tuple(tuple(f"{step}{feature}" for feature in near) for step in _STEPS),
        town=(fold_town(word), fold_town(word + " x")[:-1], fold_town("x " + word)[1:]),
        digit=near[-1].startswith("s=d"),
        suffix="k=suffix" in near,
    )


_SHAPES = (
    ("zip+4", re.compile(r"\d{5}[-–—]?\d{4}")),
    ("#", re.compile(r"#")),
    ("#x", re.compile(r"#.+")),
    ("ordinal", re.compile(r"\d+(?:st|nd|rd|th)", re.IGNORECASE)),
    ("fraction", re.compile(r"\d+/\d+")),
    ("dA", re.compile(r"\d+[A-Za-z]")),
    ("Ad", re.compile(r"[A-Za-z]{1,2}-?\d+")),
    ("d-d", re.compile(r"\d+-\d+")),
    ("mixed", re.compile(r".*\d.*")),
)


def _shape(word: str, folded: str) -> str:
    """What a word is made of: digits and how many, letters and digits, one or two letters."""
    bare = word.strip(".:()'\"")
    if bare.isdigit() and len(bare) != _LONG_ZIP:
        return f"d{min(len(bare), 6)}"
    for name, pattern in _SHAPES:
        if pattern.fullmatch(bare):
            return name
    return f"a{len(folded)}" if len(folded) <= 2 else "a"  # noqa: PLR2004 - initials, codes


@dataclass(frozen=True, slots=True)
class Spans:
    """What each word is to the towns of a list: "B" first, "I" inner, "E" last, "" none of them.

    `last` is the rightmost town (first word, behind the last).
    """

    marks: tuple[str, ...]
    last: tuple[int, int] | None


def _spans(looks: list[_Look], lines: list[int], known: frozenset[str]) -> Spans:
    """The longest runs, from the right, of words of one line that are a town of the list."""
    marks = [""] * len(looks)
    last = None
    stop = len(looks) if known else 0
    while stop > 0:
        for start in range(max(lines[stop - 1], stop - _LONGEST_TOWN), stop):
            town = looks[start].town
            name = town[0]
            if start + 1 < stop:
                name = town[1] + "".join([look.town[2] for look in looks[start + 1 : stop]])
            if name in known:
                marks[start:stop] = ["B", *["I"] * (stop - start - 1)]
                marks[stop - 1] += "E"
                last = last or (start, stop)
                stop = start + 1
                break
        stop -= 1
    return Spans(tuple(marks), last)


def _broken(tokens: tuple[Token, ...]) -> bool:
    return any(token.gap in _BREAKS for token in tokens)


def _place(tokens: tuple[Token, ...]) -> tuple[int | None, str | None, tuple[int, int] | None]:
    """(the ZIP's place, the state's code, the state's place), looked for from the right."""
    zips = [i for i, token in enumerate(tokens) if i and _ZIP.match(token.text.strip(".)("))]
    zip_at = next((i for i in reversed(zips) if zip_state(tokens[i].text)), None)
    for stop in range(len(tokens), 1, -1):
        for length in range(min(_LONGEST_STATE, stop - 1), 0, -1):
            words = tokens[stop - length : stop]
            code = state_code(" ".join(token.text for token in words))
            if code is not None and not _broken(words[1:]):
                return zip_at, code, (stop - length, stop)
    return zip_at, None, None


def features_of(tokens: tuple[Token, ...]) -> list[list[str]]:
    """What the model sees of each word: itself, its neighbours, its line, the ZIP's towns."""
    if not tokens:
        return []
    looks = [_look(token.text) for token in tokens]
    zip_at, state, state_at = _place(tokens)
    code = tokens[zip_at].text if zip_at is not None else ""
    by_state = state or (zip_state(code) if code else None)
    starts = [i for i, token in enumerate(tokens) if not i or token.gap in _BREAKS]
    lines = [start for start, stop in pairwise([*starts, len(tokens)]) for _ in range(start, stop)]
    of_zip = _spans(looks, lines, zip_keys(code) if code else frozenset())
    of_state = _spans(looks, lines, town_keys(by_state) if by_state else frozenset())
    parts = _lines(looks, starts)
    before = _counts(looks)
    gaps = [*(token.gap for token in tokens), "END"]
    found: list[list[str]] = []
    for i, look in enumerate(looks):
        found.append(
            [
                *look.own,
                f"gap={gaps[i]}",
                f"end={gaps[i + 1]}",
                f"from={min(i, _FAR)}",
                f"to={min(len(tokens) - i, 5)}",
                *parts[i],
                *before[i],
                *_by_towns("z", of_zip, i, gaps[i]),
                *_by_towns("t", of_state, i, gaps[i]),
                *_by_place(i, zip_at, state_at),
            ]
        )
        for step, beside in zip(_STEPS, range(4), strict=True):
            if 0 <= i + step < len(looks):
                found[-1].extend(looks[i + step].beside[beside])
    return found


def _by_towns(name: str, spans: Spans, place: int, gap: str) -> list[str]:
    """Whether a word is in a town of the list, and where it stands from the rightmost one."""
    found = [f"{name}={spans.marks[place]}"]
    if spans.last is None:
        return [*found, f"{name}:none"]
    start, stop = spans.last
    if place < start:
        where = "left" if place < start - 1 else "before"
    else:
        where = "in" if place < stop else "right"
    return [*found, f"{name}:{where}", f"{name}:{where}{spans.marks[place]}{gap}"]


def _by_place(place: int, zip_at: int | None, state_at: tuple[int, int] | None) -> list[str]:
    found = []
    if zip_at is None:
        found.append("zip:none")
    else:
        found.append(
            "zip:" + ("here" if place == zip_at else "left" if place < zip_at else "right")
        )
    if state_at is None:
        found.append("state:none")
    elif place < state_at[0]:
        found.append("state:before" if place == state_at[0] - 1 else "state:left")
    else:
        found.append("state:here" if place < state_at[1] else "state:right")
    return found


def _counts(looks: list[_Look]) -> list[list[str]]:
    """Whether numbers and suffixes stand before and behind each word."""
    found: list[list[str]] = []
    numbers, suffix = 0, False
    last = max((i for i, look in enumerate(looks) if look.suffix), default=-1)
    for i, look in enumerate(looks):
        found.append([f"numbers={numbers}", f"suffix<{suffix}{numbers > 0}", f"suffix>{last > i}"])
        numbers = min(numbers + look.digit, 2)
        suffix = suffix or look.suffix
    return found


def _lines(looks: list[_Look], starts: list[int]) -> list[list[str]]:
    """For each word: the place of its part between marks, how long that is, what it begins with."""
    found: list[list[str]] = []
    for part, (start, stop) in enumerate(pairwise([*starts, len(looks)])):
        near = looks[start].near
        said = [
            f"part={min(part, 2)}",
            f"parts>{min(len(starts) - 1 - part, 2)}",
            f"long={min(stop - start, 4)}",
            f"first:{near[-1]}",
            *(f"first:{kind}" for kind in near[:-1]),
            f"has-suffix={any(look.suffix for look in looks[start:stop])}",
            f"has-digit={any(look.digit for look in looks[start:stop])}",
        ]
        found.extend([*said, f"in-part={min(place, 2)}"] for place in range(stop - start))
    return found
