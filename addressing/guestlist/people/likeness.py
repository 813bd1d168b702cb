"""Two names at one door: one person's in two spellings, or two people's. No score decides."""

import re
from functools import cache
from itertools import groupby

from rapidfuzz.distance import Levenshtein

from addressing.guestlist.folding import fold
from addressing.tables import table

_HIS = frozenset(("mr", "master"))
_HERS = frozenset(("mrs", "ms", "miss"))
_SHORT_FORM = 3
"""The shortest given name that counts as the beginning of another ("Tom")."""
_LONG = 7
"""From this length on two wrong letters are a slip of the pen; below it one is."""
_SHORTEST = 4
"""Shorter names are never near: Ada and Ida are sisters."""


@cache
def _forms() -> frozenset[frozenset[str]]:
    return frozenset(
        frozenset((row["one"], row["other"]))
        for row in table("name_forms")
        if row["kind"] != "tail"
    )


@cache
def _tails() -> frozenset[frozenset[str]]:
    return frozenset(
        frozenset((row["one"], row["other"]))
        for row in table("name_forms")
        if row["kind"] == "tail"
    )


def same_given(one: str, other: str) -> bool:
    """True for two forms of one given name: a nickname, an initial, a middle name more, a slip.

    Both are folded.

    >>> same_given("bob", "robert"), same_given("t", "tobias"), same_given("paul", "paula")
    (True, True, False)
    >>> same_given("stefan", "stephan"), same_given("ada", "ida"), same_given("ann", "ann marie")
    (True, False, True)
    >>> same_given("ana", "anna"), same_given("ann", "anna")
    (True, False)
    """
    if one == other:
        return True
    if not one or not other:
        return False
    first, second = one.split(), other.split()
    if first[0] == second[0]:
        return len(first) == 1 or len(second) == 1 or _same_middle(first[1:], second[1:])
    alike = len(first) == len(second) or min(len(first), len(second)) == 1
    return alike and _same_word(first[0], second[0])


def _same_middle(one: list[str], other: list[str]) -> bool:
    return all(a[0] == b[0] for a, b in zip(one, other, strict=False))


def _same_word(one: str, other: str) -> bool:
    if frozenset((one, other)) in _forms() or _one_full_form(one, other):
        return True
    if min(len(one), len(other)) == 1:
        return one[0] == other[0]
    if _tells_apart(one, other):
        return False
    if _undoubled(one) == _undoubled(other):
        return True
    shorter = min(one, other, key=len)
    if len(shorter) >= _SHORT_FORM and one.startswith(shorter) and other.startswith(shorter):
        return True
    return one[0] == other[0] and near_word(one, other)


@cache
def _full_forms() -> dict[str, frozenset[str]]:
    found: dict[str, set[str]] = {}
    for row in table("name_forms"):
        if row["kind"] != "tail":
            found.setdefault(row["one"], set()).add(row["other"])
    return {short: frozenset(full) for short, full in found.items()}


def full_forms(short: str) -> frozenset[str]:
    """The names that a short form may stand for; none for a name that is no short form."""
    return _full_forms().get(short, frozenset())


def one_in_short(one: str, other: str) -> bool:
    """True for a name and its short form, both without a middle name or with the same.

    >>> one_in_short("jon", "jonathan"), one_in_short("jon p", "jonathan"), one_in_short("al", "al")
    (True, True, False)
    """
    first, second = one.split(), other.split()
    if not first or not second or frozenset((first[0], second[0])) not in _forms():
        return False
    return _same_middle(first[1:], second[1:])


def _one_full_form(one: str, other: str) -> bool:
    """Two short forms of one name: Liz and Beth may be one Elizabeth."""
    return bool(full_forms(one) & full_forms(other))


def _tells_apart(one: str, other: str) -> bool:
    """True where only the ending differs, and so as two people's names differ: Paul, Paula."""
    same = 0
    for a, b in zip(one, other, strict=False):
        if a != b:
            break
        same += 1
    # The ending may begin before the first letter that differs: Christian, Christina.
    return any(
        frozenset((one[start:], other[start:])) in _tails()
        for start in range(max(same - 2, _SHORT_FORM), same + 1)
    )


def near_word(one: str, other: str) -> bool:
    """True for words that a slip of the pen tells apart: a letter, in long ones two.

    Doubled letters count once.

    >>> near_word("wexcombe", "wexcomb"), near_word("penhew", "pender"), near_word("hale", "hall")
    (True, False, True)
    >>> near_word("velloor", "velor")
    True
    """
    shortest = min(len(one), len(other))
    if shortest < _SHORTEST:
        return one == other
    if _undoubled(one) == _undoubled(other):
        return True
    return Levenshtein.distance(one, other) <= (2 if shortest >= _LONG else 1)


def _undoubled(word: str) -> str:
    return "".join(letter for letter, _ in groupby(word))


def same_family(one: str, other: str) -> bool:
    """True for one family name in two spellings; both folded. A part of a double name counts.

    >>> same_family("marsh", "marsh bell"), same_family("penhew", "penhewe")
    (True, True)
    """
    if one == other:
        return True
    if not one or not other:
        return False
    if near_word(one.replace(" ", ""), other.replace(" ", "")):
        return True
    few, many = sorted((one.split(), other.split()), key=len)
    return len(few) < len(many) and (many[: len(few)] == few or many[-len(few) :] == few)


def of_two_sexes(one: str | None, other: str | None) -> bool:
    """True when the titles can't be one person's: Mr. and Ms."""
    titles = {re.sub(r"\W", "", fold(title)) for title in (one, other) if title}
    return bool(titles & _HIS) and bool(titles & _HERS)
