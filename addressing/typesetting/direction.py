"""Which way the words of a line run: the bidirectional algorithm for one line (UAX #9).

A line with words both ways ("Dan דן", a Hebrew street with its number) is cut into runs of one
direction, each shaped by itself, and the runs are ordered from left to right.

Source: Unicode Standard Annex #9, Unicode Bidirectional Algorithm: rules P2 and P3, W1 to W7, N0 to
N2, I1, I2, L2. Marks that embed, override or isolate (X1 to X8) aren't followed: a line that holds
one is asked about. Of paired brackets round, square and curly ones are known. Lines are stripped,
so that no blank stands at their end (L1).
"""

import unicodedata
from collections.abc import Iterator, Sequence
from itertools import groupby

_TURNING = frozenset({"RLE", "RLO", "LRE", "LRO", "PDF", "RLI", "LRI", "FSI", "PDI"})
_LEFTWARDS = frozenset({"R", "AL", "AN"})
_NUMBERS = frozenset({"EN", "AN"})
_STRONG = frozenset({"L", "R"})
_BRACKETS = {"(": ")", "[": "]", "{": "}"}

Run = tuple[str, bool]
"""Words that run one way, and whether that is from right to left."""


def is_turned(text: str) -> bool:
    """True when a line holds an invisible mark that turns the direction of what follows.

    >>> is_turned("Dan דן"), is_turned("Dan \u202edn")
    (False, True)
    """
    if text.isascii():
        return False
    return not _TURNING.isdisjoint(map(unicodedata.bidirectional, text))


def runs_leftwards(text: str) -> bool:
    """True when any of a line runs from right to left.

    >>> runs_leftwards("Zoë"), runs_leftwards("Zoë דן")
    (False, True)
    """
    if text.isascii():
        return False
    return not _LEFTWARDS.isdisjoint(map(unicodedata.bidirectional, text))


def begins_leftwards(text: str) -> bool:
    """True when the first letter with a direction runs from right to left (UAX #9, P2).

    >>> begins_leftwards("דן Dan"), begins_leftwards("12 Dan דן"), begins_leftwards("12")
    (True, False, False)
    """
    if text.isascii():
        return False
    strong = (unicodedata.bidirectional(each) for each in text)
    return next((each for each in strong if each in {"L", "R", "AL"}), "L") != "L"


def runs(text: str) -> tuple[Run, ...]:
    """The runs of a line, from left to right as they stand on paper.

    >>> [leftwards for _, leftwards in runs("הרצל 12")]
    [False, True]
    """
    found: list[tuple[int, str]] = []
    start = 0
    for level, group in groupby(levels(text)):
        end = start + len(list(group))
        found.append((level, text[start:end]))
        start = end
    for least in range(max((level for level, _ in found), default=0), 0, -1):
        found = list(_turned(found, least))
    return tuple((words, level % 2 == 1) for level, words in found)


def _turned(found: list[tuple[int, str]], least: int) -> Iterator[tuple[int, str]]:
    """Rule L2: what stands at this level or above, in a row, is reversed."""
    for turns, group in groupby(found, lambda run: run[0] >= least):
        row = list(group)
        yield from reversed(row) if turns else row


def levels(text: str) -> list[int]:
    """The level of each character: even ones run rightwards, odd ones leftwards.

    >>> levels("Dan דן 12")
    [0, 0, 0, 0, 1, 1, 1, 2, 2]
    """
    types = [unicodedata.bidirectional(character) or "L" for character in text]
    first = next((kind for kind in types if kind in {"L", "R", "AL"}), "L")
    base = 0 if first == "L" else 1
    around = "R" if base else "L"
    _weak(types, around)
    _brackets(text, types, around)
    _neutral(types, around)
    above = {"L": base, "R": 1, "EN": 2, "AN": 2}
    if base:
        above["L"] = 2
    return [above[kind] for kind in types]


def _weak(types: list[str], around: str) -> None:
    """Rules W1 to W7: accents, numbers and what stands between them."""
    _accents(types, around)
    types[:] = ["R" if kind == "AL" else kind for kind in types]  # W3
    for at in range(1, len(types) - 1):  # W4
        left, right = types[at - 1], types[at + 1]
        if left == right and (types[at], left) in _JOINED:
            types[at] = left
    for kind, start, end in _rows(types):  # W5
        if kind == "ET" and "EN" in {*types[max(start - 1, 0) : start], *types[end : end + 1]}:
            types[start:end] = ["EN"] * (end - start)
    _numbers(types, around)


def _numbers(types: list[str], around: str) -> None:
    """Rules W6 and W7: what belongs to no number is neutral, numbers behind Latin are Latin."""
    strong = around
    for at, kind in enumerate(types):
        if kind in _STRONG:
            strong = kind
        elif kind == "EN" and strong == "L":
            types[at] = "L"
        elif kind not in _NUMBERS:
            types[at] = "ON"


_JOINED = frozenset({("ES", "EN"), ("CS", "EN"), ("CS", "AN")})
"""What between two numbers belongs to them."""


def _accents(types: list[str], around: str) -> None:
    """Rules W1 and W2: accents go with their letter, numbers behind Arabic letters are Arabic."""
    before = strong = around
    for at, kind in enumerate(types):
        if kind in {"NSM", "BN"}:
            types[at] = before
        elif kind in {"L", "R", "AL"}:
            strong = kind
        elif kind == "EN" and strong == "AL":
            types[at] = "AN"
        before = types[at]


def _rows(types: Sequence[str]) -> Iterator[tuple[str, int, int]]:
    """Equal types in a row: the type, where the row begins and ends."""
    start = 0
    for kind, group in groupby(list(types)):
        end = start + len(list(group))
        yield kind, start, end
        start = end


def _brackets(text: str, types: list[str], around: str) -> None:
    """Rule N0: both of a pair go with what is inside, if that goes with the line or with before."""
    other = "L" if around == "R" else "R"
    for start, end in _pairs(text, types):
        inside = {_sense(kind) for kind in types[start + 1 : end]}
        if around in inside:
            types[start] = types[end] = around
        elif other in inside:
            before = (_sense(kind) for kind in reversed(types[:start]))
            context = next((kind for kind in before if kind in _STRONG), around)
            types[start] = types[end] = context


def _pairs(text: str, types: Sequence[str]) -> list[tuple[int, int]]:
    """Where brackets open and close, in the order of opening (definition BD16)."""
    waiting: list[tuple[str, int]] = []
    found: list[tuple[int, int]] = []
    for at, character in enumerate(text):
        if types[at] != "ON":
            continue
        if character in _BRACKETS:
            waiting.append((_BRACKETS[character], at))
        for depth in range(len(waiting) - 1, -1, -1):
            if waiting[depth][0] == character:
                found.append((waiting[depth][1], at))
                del waiting[depth:]
                break
    return sorted(found)


def _sense(kind: str) -> str:
    """How a type counts beside neutrals: numbers go with what runs leftwards."""
    return "R" if kind in _NUMBERS else kind


def _neutral(types: list[str], around: str) -> None:
    """Rules N1 and N2: blanks and points go with both neighbours, or else with the line."""
    for kind, start, end in list(_rows(types)):
        if kind != "ON":
            continue
        left = _sense(types[start - 1]) if start else around
        right = _sense(types[end]) if end < len(types) else around
        types[start:end] = [left if left == right else around] * (end - start)
