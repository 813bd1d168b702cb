"""Two of one family below each other in one house, of whom only one row tells the whole door."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from addressing.guestlist.asking import finding
from addressing.guestlist.domestic.dwellings import suffix_words
from addressing.guestlist.folding import fold
from addressing.guestlist.homes.doors import door
from addressing.records.findings import Finding
from addressing.records.guests import Household, Kind, Person

CODE = "household-doubtful"


def in_one_house(households: Sequence[Household], asked_of: Iterable[Finding]) -> Iterator[Finding]:
    """The question, to both, whether two are one household: a flat or a suffix is left out.

    None of those of whom that is asked already (`asked_of`).
    """
    known = {found.household for found in asked_of if found.code == CODE}
    for one, other in pairwise(households):
        if known.issuperset((one.key, other.key)):
            continue
        if not _are_kin(one, other) or not _is_left_out(one, other):
            continue
        rows = (*one.rows, *other.rows)
        text = f"{one.name} and {other.name}: of one house, only one row has the whole address."
        for home in (one, other):
            asked = finding(CODE, home.rows[0], text, "One envelope or two?")
            yield replace(asked, household=home.key, also=rows)


def _are_kin(one: Household, other: Household) -> bool:
    """True for one grown person each, of one family name, and not told apart as father and son."""
    mine, theirs = _alone(one), _alone(other)
    if mine is None or theirs is None or one.rows[0].sheet != other.rows[0].sheet:
        return False
    families = [fold(person.family or "") for person in (mine, theirs)]
    apart = mine.suffix or theirs.suffix or fold(mine.given or "") == fold(theirs.given or "")
    return families[0] == families[1] != "" and not apart


def _alone(home: Household) -> Person | None:
    people = home.people
    grown = len(people) == 1 and people[0].kind is Kind.NAMED and people[0].given is not None
    return people[0] if grown and home.label is None else None


def _is_left_out(one: Household, other: Household) -> bool:
    """True for one street and place, where one has a unit more, or the street's last word."""
    mine, theirs = (door(home.address).split("|") for home in (one, other))
    if len(mine) != len(theirs) or len(mine) < 2 or mine[2:] != theirs[2:]:  # noqa: PLR2004
        return False
    if mine[0] == theirs[0]:
        return bool(mine[1]) != bool(theirs[1])
    short, long = sorted((mine[0].split(), theirs[0].split()), key=len)
    return mine[1] == theirs[1] and long[:-1] == short and long[-1] in suffix_words()
