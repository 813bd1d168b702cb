"""Names and addresses typed in small letters get capitals for the reading, and lose them again.

What tells a name from a sentence is mostly its capitals. Where a line of nothing but small letters
ends in a ZIP code, or stands in a block that does, its words get them for the reading; the cells
hold what was typed, so that a name's capitals are asked or told of as in any other list.
"""

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from functools import cache

from addressing.guestlist.files.blocks import Slots
from addressing.guestlist.files.mail_lines import (
    Line,
    has_verb,
    is_name,
    is_place,
    is_pronoun,
    is_town,
    is_verb,
    opens_or_closes,
)
from addressing.guestlist.files.prose_words import prose_words
from addressing.guestlist.folding import fold
from addressing.guestlist.people.names import known_title
from addressing.guestlist.people.vocabulary import words as kind_of_words
from addressing.tables import table

_CODED = re.compile(r".*\s\d+[a-z]?\s.*?(?P<state>\b[a-z]{2}),?\s+\d{5}(?:-\d{4})?\b")
_STATE = re.compile(r"\b(?P<state>[a-z]{2})(?=,?\s+\d{5}(?:-\d{4})?\b)")
_WORD = re.compile(r"(?<![\w'’])[^\W\d_][\w'’]*")
_KEPT = ("and", "and-between", "children", "family", "guest", "child-group")
_NAME_LINES = 3
_SHORTEST_NAME = 3
"""Letters of a name that is found again in other lines."""
_LONGEST_NAME = 7
"""Words."""


def with_capitals(lines: Sequence[Line]) -> list[Line]:
    """The lines, those of names and addresses in small letters with capitals.

    >>> with_capitals([Line(1, "kit and odile penhew 9 elm st bath me 04530 no nuts")])[0].text
    'Kit and Odile Penhew 9 Elm St Bath ME 04530 no nuts'
    """
    read = [_entry(line) for line in lines]
    start = 0
    for place in range(len(lines) + 1):
        if place == len(lines) or not lines[place].text:
            read[start:place] = _block(read[start:place])
            start = place + 1
    return _with_those_named(lines, read)


def _with_those_named(typed: Sequence[Line], read: Sequence[Line]) -> list[Line]:
    """The lines, other small ones with the capitals of whom they name: "the Lowes cant come"."""
    own = [line for was, line in zip(typed, read, strict=True) if line.text != was.text]
    named = {word for line in own for word in _names_in(line.text)}
    if not named:
        return list(read)
    whole = re.compile(rf"\b({'|'.join(map(re.escape, sorted(named)))})(?=(?:e?s|['’]s?)?\b)")
    return [
        replace(line, text=whole.sub(lambda found: found[0].capitalize(), line.text))
        if line.text == was.text and _is_small(line.text)
        else line
        for was, line in zip(typed, read, strict=True)
    ]


def _names_in(raised: str) -> Iterator[str]:
    """The words of names before an address, as they were typed; none of a town or a box."""
    names, *rest = re.split(r"\d", raised, maxsplit=1)
    if rest and not any(mark.isalpha() for mark in rest[0]):
        return
    for word in _WORD.findall(names):
        known = _stays_small(word) or known_title(word) is not None or word.lower() in _no_names()
        if word[0].isupper() and len(word) >= _SHORTEST_NAME and not known:
            yield word.lower()


def as_typed(homes: Iterable[tuple[int, Slots]], typed: Sequence[Line]) -> None:
    """Write the lines of households again as they were typed, those that got capitals."""
    small = {line.number for line in typed if _is_small(line.text)}
    for _, slots in homes:
        for slot, held in slots.items():
            slots[slot] = [_lowered(line) if _all_of(line) <= small else line for line in held]


def _all_of(line: Line) -> set[int]:
    return {part.number for part in (line, *line.more)}


def _lowered(line: Line) -> Line:
    return replace(line, text=line.text.lower())


def _is_small(text: str) -> bool:
    return any(mark.isalpha() for mark in text) and text == text.lower()


def _entry(line: Line) -> Line:
    """A household on one line: names, a number behind them, a state and a ZIP code."""
    found = _CODED.match(line.text)
    state = found["state"].upper() if found is not None else ""
    if found is None or not _is_small(line.text) or state not in _states():
        return line
    return replace(line, text=_raised(line.text[: found.end()]) + line.text[found.end() :])


def _block(lines: Sequence[Line]) -> list[Line]:
    """The lines of a block, each household's up to its town with capitals."""
    read = list(lines)
    start = 0
    for place, line in enumerate(lines):
        if is_town(_raised(line.text)):
            for at, raised in _home(lines, start, place):
                read[at] = raised
            start = place + 1
    return read


def _home(lines: Sequence[Line], start: int, end: int) -> Iterator[tuple[int, Line]]:
    """The lines from the first of names to a town's; none where no name stands above."""
    raised = {at: replace(lines[at], text=_raised(lines[at].text)) for at in range(start, end + 1)}
    streets = [at for at in raised if is_place(raised[at].text)]
    names = [at for at in range(start, streets[0]) if _may_name(lines[at], raised[at])]
    if not names or len(names) > _NAME_LINES:
        return
    house = [at for at in range(names[0], streets[0]) if not has_verb(lines[at].text)]
    own = sorted({*names, *house, *range(streets[0], end + 1)})
    if all(_is_small(lines[at].text) for at in own):
        yield from ((at, raised[at]) for at in own)


def _may_name(typed: Line, raised: Line) -> bool:
    spoken = has_verb(typed.text) or opens_or_closes(typed.text)
    return not spoken and is_name(raised.text) and len(typed.text.split()) <= _LONGEST_NAME


def _raised(text: str) -> str:
    """Small letters with the capitals of names and addresses."""
    text = _STATE.sub(
        lambda found: (
            found["state"].upper() if found["state"].upper() in _states() else found["state"]
        ),
        text,
    )
    number = re.search(r"\d|$", text)
    names = number.start() if number is not None else 0
    first = next((found.start() for found in _WORD.finditer(text)), -1)

    def capital(found: re.Match[str]) -> str:
        word = found[0]
        small = _stays_small(word) and (found.start() < names or fold(word) not in _particles())
        return word if small and found.start() != first else word[0].upper() + word[1:]

    return _WORD.sub(capital, text)


def _stays_small(word: str) -> bool:
    return fold(word) in _kept() or is_verb(word) or is_pronoun(word)


@cache
def _kept() -> frozenset[str]:
    return frozenset[str]().union(*map(kind_of_words, (*_KEPT, "particle")))


def _no_names() -> frozenset[str]:
    kin = kind_of_words("relation") | kind_of_words("kin") | kind_of_words("nameless")
    return kin | prose_words("of") | {"the"}


def _particles() -> frozenset[str]:
    return kind_of_words("particle")


@cache
def _states() -> frozenset[str]:
    return frozenset(row["code"] for row in table("states"))
