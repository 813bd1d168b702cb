"""One household becomes several: one for each row, in one row one for each of the grown."""

import itertools
import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from addressing.records.findings import Finding
from addressing.records.guests import Household, Kind, Person
from addressing.where import Where

_PAIR = 2


def parted(
    homes: Sequence[Household], findings: Sequence[Finding], apart: set[str], keys: set[str]
) -> tuple[list[Household], list[Finding]]:
    """Households and findings after those in `apart` are parted; the first one keeps the key.

    A finding about a row or of a person goes along. `keys` are all that are taken.
    """
    made: list[Household] = []
    found = list(findings)
    used = set(keys)
    for home in homes:
        parts = _parts(home, used) if home.key in apart else (home,)
        made.extend(parts)
        if len(parts) > 1:
            found = [each for finding in found for each in _given(finding, home, parts)]
    return made, found


def row_of(where: Where) -> int:
    """The number of the row that a cell stands in; 0 for none."""
    return int(re.sub(r"\D", "", where.cell or "") or 0)


def _given(finding: Finding, home: Household, parts: Sequence[Household]) -> list[Finding]:
    """A finding of the whole for its part, one that speaks of people for each who has any.

    What holds the whole holds all its parts, unless it stands in one's own row.
    """
    if finding.household != home.key:
        return [finding]
    if finding.people:
        return list(_of_people(finding, home, parts))
    rows = {row for part in parts for row in part.rows}
    own = [part for part in parts if len(rows) > 1 and _is_of(finding.where, part)]
    theirs = own[:1] or (parts if finding.holds else parts[:1])
    return [replace(finding, household=part.key) for part in theirs]


def _of_people(finding: Finding, home: Household, parts: Sequence[Household]) -> Iterator[Finding]:
    """The finding once for each part that has somebody of it, by their places there."""
    meant = [_bare(home.people[place]) for place in finding.people if place < len(home.people)]
    for part in parts:
        places = tuple(n for n, person in enumerate(part.people) if _bare(person) in meant)
        if places:
            yield replace(finding, household=part.key, people=places)


def _bare(person: Person) -> Person:
    return replace(person, joined=False)


def _is_of(where: Where, home: Household) -> bool:
    return (where.sheet, row_of(where)) in {(row.sheet, row_of(row)) for row in home.rows}


def _parts(home: Household, keys: set[str]) -> tuple[Household, ...]:
    """A household a row; who has no row of their own stays with the first."""
    if len(home.rows) == 1:
        return _of_one_row(home, keys)
    rows = [replace(home, rows=(row,)) for row in home.rows]
    theirs = [tuple(p for p in home.people if p.cells and _is_of(p.cells[0], r)) for r in rows]
    others = [(row, people) for row, people in zip(rows, theirs, strict=True) if people][1:]
    away = {id(person) for _, people in others for person in people}
    stay = tuple(person for person in home.people if id(person) not in away)
    if not others or not stay:
        return _in_order(home, keys)
    taken = frozenset(row for part, _ in others for row in part.rows)
    mine = tuple(row for row in home.rows if row not in taken)
    first = replace(home, people=stay, rows=mine, inner=None)
    return (first, *(_own(part, people, keys) for part, people in others))


def _in_order(home: Household, keys: set[str]) -> tuple[Household, ...]:
    """Names that an answer gave for all rows, a row each in their order."""
    parts = _of_one_row(home, set(keys))
    if len(parts) != len(home.rows):
        return (home,)
    keys.update(part.key for part in parts)
    return tuple(replace(p, rows=(row,)) for p, row in zip(parts, home.rows, strict=True))


def _of_one_row(home: Household, keys: set[str]) -> tuple[Household, ...]:
    """A household for each of the grown; companions and children stay with the one before."""
    groups: list[list[Person]] = []
    for person in home.people:
        if not groups or person.kind is Kind.NAMED:
            groups.append([])
        groups[-1].append(person)
    if len(groups) < _PAIR:
        return (home,)
    others = (_own(home, tuple(group), keys) for group in groups[1:])
    return (replace(home, people=tuple(groups[0]), inner=None), *others)


def _own(part: Household, people: tuple[Person, ...], keys: set[str]) -> Household:
    """A household of its own, with a key that no other has."""
    numbers = itertools.count(2)
    key = next(key for n in numbers if (key := f"{part.key}-{n}") not in keys)
    keys.add(key)
    alone = (replace(people[0], joined=False), *people[1:])
    return replace(part, key=key, people=alone, label=None, family=None, inner=None)
