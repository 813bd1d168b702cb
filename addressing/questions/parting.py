"""One household of several rows becomes one for each row."""

import itertools
import re
from collections.abc import Sequence
from dataclasses import replace

from addressing.records.findings import Finding
from addressing.records.guests import Household, Person
from addressing.where import Where


def parted(
    homes: Sequence[Household], findings: Sequence[Finding], apart: set[str], keys: set[str]
) -> tuple[list[Household], list[Finding]]:
    """Households and findings after those in `apart` are parted; the first row keeps the key.

    A finding about a row goes with it. `keys` are all that are taken.
    """
    made: list[Household] = []
    found = list(findings)
    used = set(keys)
    for home in homes:
        parts = _parts(home, used) if home.key in apart else (home,)
        made.extend(parts)
        for part in parts[1:]:
            found = [_given(finding, home, part) for finding in found]
    return made, found


def row_of(where: Where) -> int:
    """The number of the row that a cell stands in; 0 for none."""
    return int(re.sub(r"\D", "", where.cell or "") or 0)


def _given(finding: Finding, home: Household, part: Household) -> Finding:
    theirs = finding.household == home.key and _is_of(finding.where, part)
    return replace(finding, household=part.key) if theirs else finding


def _is_of(where: Where, home: Household) -> bool:
    return (where.sheet, row_of(where)) in {(row.sheet, row_of(row)) for row in home.rows}


def _parts(home: Household, keys: set[str]) -> tuple[Household, ...]:
    """A household a row; who has no row of their own stays with the first."""
    rows = [replace(home, rows=(row,)) for row in home.rows]
    theirs = [tuple(p for p in home.people if p.cells and _is_of(p.cells[0], r)) for r in rows]
    others = [(row, people) for row, people in zip(rows, theirs, strict=True) if people][1:]
    away = {id(person) for _, people in others for person in people}
    stay = tuple(person for person in home.people if id(person) not in away)
    if not others or not stay:
        return (home,)
    taken = frozenset(row for part, _ in others for row in part.rows)
    first = replace(home, people=stay, rows=tuple(r for r in home.rows if r not in taken))
    return (first, *(_own(part, people, keys) for part, people in others))


def _own(part: Household, people: tuple[Person, ...], keys: set[str]) -> Household:
    """A household of its own, with a key that no other has."""
    numbers = itertools.count(2)
    key = next(key for n in numbers if (key := f"{part.key}-{n}") not in keys)
    keys.add(key)
    alone = (replace(people[0], joined=False), *people[1:])
    return replace(part, key=key, people=alone, label=None, family=None)
