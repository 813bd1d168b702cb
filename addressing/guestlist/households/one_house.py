"""Two of one family below each other whose doors are nearly one: a slip, or two houses?

Only one row tells the whole door, the street is in two spellings, the figures are in two orders.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from rapidfuzz import fuzz

from addressing.guestlist.asking import finding
from addressing.guestlist.domestic.dwellings import suffix_words
from addressing.guestlist.folding import fold
from addressing.guestlist.homes.doors import door
from addressing.records.findings import Finding
from addressing.records.guests import Household, Person

CODE = "household-doubtful"
_PARTS = 3
"""Street, unit and place of a door."""
_FIGURES = 3
"""Figures of a number that may have been typed in another order, at least."""
_STREET = 85
"""Streets at least so alike (of 100) are one street respelled, as among duplicates."""


def in_one_house(households: Sequence[Household], asked_of: Iterable[Finding]) -> Iterator[Finding]:
    """The question, to both, whether two are one household.

    None of those of whom that is asked already (`asked_of`).
    """
    known = {found.household for found in asked_of if found.code == CODE}
    for one, other in pairwise(households):
        if known.issuperset((one.key, other.key)):
            continue
        why = _why_one(one, other) if _are_kin(one, other) else ""
        if not why:
            continue
        rows = (*one.rows, *other.rows)
        text = f"{one.name} and {other.name}: {why}."
        for home in (one, other):
            asked = finding(CODE, home.rows[0], text, "One envelope or two?")
            yield replace(asked, household=home.key, also=rows)


def _are_kin(one: Household, other: Household) -> bool:
    """True for somebody alone below, or above, others of one family name, not as father and son."""
    alone = _alone(one) or _alone(other)
    if alone is None or one.rows[0].sheet != other.rows[0].sheet or one.label or other.label:
        return False
    named = [p for home in (one, other) for p in home.people if p.given and p is not alone]
    same = [p for p in named if fold(p.family or "") == fold(alone.family or "") != ""]
    apart = any(p.suffix or fold(p.given or "") == fold(alone.given or "") for p in same)
    return bool(same) and len(same) == len(named) and not apart and not alone.suffix


def _alone(home: Household) -> Person | None:
    people = home.people
    return people[0] if len(people) == 1 and people[0].given else None


def _why_one(one: Household, other: Household) -> str:
    if _is_left_out(one, other):
        return "of one house, only one row has the whole address"
    if _is_respelled(one, other):
        return "of one family, and their addresses are nearly the same"
    return ""


def _is_respelled(one: Household, other: Household) -> bool:
    """True for one place whose street is in two spellings, or its number in two orders.

    So for one street and number in two places, one of which may be a slip: a ZIP.
    """
    mine, theirs = (door(home.address).split("|") for home in (one, other))
    if len(mine) != _PARTS or len(theirs) != _PARTS or mine[1] != theirs[1] or mine == theirs:
        return False
    if mine[2] != theirs[2]:
        return mine[0] == theirs[0] and sorted(mine[2]) == sorted(theirs[2])
    words = [street.split() for street in (mine[0], theirs[0])]
    figures = [[w for w in each if w[:1].isdigit()] for each in words]
    letters = [" ".join(w for w in each if not w[:1].isdigit()) for each in words]
    if figures[0] == figures[1]:
        kinds = [each[-1:] for each in words if each[-1:] and each[-1] in suffix_words()]
        alike = fuzz.ratio(*letters) >= _STREET
        return bool(figures[0]) and alike and all(kind == kinds[0] for kind in kinds)
    return letters[0] == letters[1] and _are_swapped(*figures)


def _are_swapped(one: list[str], other: list[str]) -> bool:
    """True for 350 and 305: one number in another order; 14 and 41 are as likely two houses."""
    pairs = [(a, b) for a, b in zip(one, other, strict=False) if a != b]
    if len(one) != len(other) or len(pairs) != 1:
        return False
    number, another = pairs[0]
    return len(number) >= _FIGURES and sorted(number) == sorted(another)


def _is_left_out(one: Household, other: Household) -> bool:
    """True for one street and place, where one has a unit more, or the street's last word."""
    mine, theirs = (door(home.address).split("|") for home in (one, other))
    if len(mine) != len(theirs) or len(mine) < 2 or mine[2:] != theirs[2:]:  # noqa: PLR2004
        return False
    if mine[0] == theirs[0]:
        return bool(mine[1]) != bool(theirs[1])
    short, long = sorted((mine[0].split(), theirs[0].split()), key=len)
    return mine[1] == theirs[1] and long[:-1] == short and long[-1] in suffix_words()
