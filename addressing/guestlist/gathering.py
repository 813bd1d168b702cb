"""Rows gathered to households: by a column of their own, by a shared address, else row by row."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import combinations

from addressing.guestlist.asking import finding
from addressing.guestlist.doors import door
from addressing.guestlist.duplicates import nearly_same
from addressing.guestlist.folding import fold
from addressing.guestlist.rows import RowReading, is_single
from addressing.records.findings import Finding
from addressing.records.guests import Household, Kind, Person

_GUEST_ROWS = 0.85
"""From this share of rows with one person on, a list is taken to have a row for each guest."""
_A_HABIT = 3
"""So many rows without an address below their family are the list's habit, not a slip."""


@dataclass(frozen=True, slots=True)
class Group:
    """Rows that are one household, and what is in doubt about their being together."""

    rows: tuple[RowReading, ...]
    findings: tuple[Finding, ...] = ()


def gather(readings: Sequence[RowReading]) -> tuple[Group, ...]:
    """The rows in groups, each a household, in the order of their first rows."""
    readings = _as_above(readings)
    if any(reading.household for reading in readings):
        return _by_column(readings)
    if _row_a_guest(readings):
        return _by_door(readings)
    return _neighbours(readings)


def _as_above(readings: Sequence[RowReading]) -> list[RowReading]:
    """A row that says "same as above" takes the address of the row above."""
    filled: list[RowReading] = []
    for reading in readings:
        above = filled[-1].address if filled else None
        if reading.as_above and above is not None:
            text = f"The address of the row above ({filled[-1].where}) is taken, as the cell says."
            note = finding("address-as-above", reading.where, text, "Nothing to do.")
            reading = replace(reading, address=above, findings=(*reading.findings, note))  # noqa: PLW2901
        filled.append(reading)
    return filled


def _row_a_guest(readings: Sequence[RowReading]) -> bool:
    """True when nearly every row names one person and some rows share a door or lack one."""
    named = [reading for reading in readings if reading.people]
    single = sum(is_single(reading) for reading in named)
    if not named or single < _GUEST_ROWS * len(named):
        return False
    different = {(door(reading.address), reading.people[0].given) for reading in named}
    return len({here for here, _ in different}) < len(different)


def _neighbours(readings: Sequence[RowReading]) -> tuple[Group, ...]:
    """A row a household; only two rows of one person each, at one door, are taken together."""
    groups: list[Group] = []
    for reading in readings:
        above = groups[-1].rows if groups else ()
        if len(above) == 1 and _share_envelope(above[0], reading):
            text = f"{above[0].where} and {reading.where} have one address: one envelope for both."
            asked = finding("same-door", reading.where, text, "Or an envelope for each?")
            groups[-1] = Group((above[0], reading), (asked,))
        else:
            groups.append(Group((reading,)))
    return tuple(groups)


def _share_envelope(one: RowReading, other: RowReading) -> bool:
    """Two adults, one a row, at one door; not namesakes (father and son), nobody else with them."""
    if door(one.address) != door(other.address) or not door(one.address):
        return False
    people = (*one.people, *other.people)
    if len(one.people) != 1 or len(other.people) != 1 or one.label or other.label:
        return False
    if any(p.kind is not Kind.NAMED or p.suffix or not p.given for p in people):
        return False
    first, second = (fold(p.given or "").split()[0] for p in people)
    return first[0] != second[0]


def _by_column(readings: Sequence[RowReading]) -> tuple[Group, ...]:
    """Rows with one household name or number are one, if their addresses don't speak against it."""
    groups: dict[tuple[str, str], list[RowReading]] = {}
    for place, reading in enumerate(readings):
        name = fold(reading.household.text) if reading.household else f"row {place}"
        groups.setdefault((str(reading.table.sheet), name), []).append(reading)
    return tuple(part for rows in groups.values() for part in _same_address(rows))


def _same_address(rows: list[RowReading]) -> list[Group]:
    doors = {door(row.address) for row in rows if row.address is not None} - {""}
    if len(doors) <= 1:
        return [Group(tuple(rows))]
    name = rows[0].household.text if rows[0].household else ""
    others = tuple(row.where for row in rows)
    groups: list[Group] = []
    for one in dict.fromkeys(door(row.address) for row in rows):
        part = tuple(row for row in rows if door(row.address) == one)
        text = f"“{name}” stands at {len(doors)} addresses."
        asked = finding(
            "household-doubtful", part[0].where, text, "Is it one household or several?"
        )
        groups.append(Group(part, (replace(asked, also=others),)))
    return groups


def _by_door(readings: Sequence[RowReading]) -> tuple[Group, ...]:
    """A row for each guest: the same door is one household; a row without one may belong above."""
    groups: list[list[RowReading]] = []
    at: dict[str, int] = {}
    below: list[tuple[int, RowReading]] = []
    for reading in readings:
        here = door(reading.address)
        if here and here in at:
            groups[at[here]].append(reading)
        elif not here and groups and _same_family(groups[-1], reading):
            groups[-1].append(reading)
            below.append((len(groups) - 1, reading))
        else:
            groups.append([reading])
            if here:
                at[here] = len(groups) - 1
    asked = {} if len(below) >= _A_HABIT else dict(below)
    return tuple(
        Group(tuple(rows), (_assumed(asked[place]),) if place in asked else ())
        for place, rows in enumerate(groups)
    )


def _same_family(rows: list[RowReading], reading: RowReading) -> bool:
    """True when a row without an address bears a family name of the household above."""
    families = {fold(p.family) for row in rows for p in row.people if p.family}
    mine = {fold(p.family) for p in reading.people if p.family}
    unnamed = all(p.given is None and p.family is None for p in reading.people)
    return reading.address is None and (bool(mine & families) or (unnamed and bool(reading.people)))


def _assumed(reading: RowReading) -> Finding:
    text = "The row has no address; it is taken to belong to the household above."
    return finding("household-assumed", reading.where, text, "Does it belong there?")


def household_of(group: Group, key: str = "") -> tuple[Household, tuple[Finding, ...]]:
    """The household of a group, and its findings; the first address found is the household's."""
    rows = group.rows
    first = next((row for row in rows if row.address is not None), None)
    household = Household(
        key=key,
        people=_people(rows),
        label=next((row.label for row in rows if row.label), None),
        family=next((row.family for row in rows if row.family), None),
        address=first.address if first else None,
        by_hand=any(row.by_hand for row in rows),
        rows=tuple(row.where for row in rows),
    )
    findings = [found for row in rows for found in row.findings]
    return household, (*_once(findings), *group.findings, *_near_names(rows))


def _near_names(rows: Sequence[RowReading]) -> tuple[Finding, ...]:
    """Two rows of a household that perhaps name one person in two spellings."""
    found: list[Finding] = []
    for one, other in combinations(rows, 2):
        why = next(
            (why for a in one.people for b in other.people if (why := nearly_same(a, b))), ""
        )
        if why:
            text = f"{why} The other: {other.where}."
            asked = finding("duplicate-probable", one.where, text, "One person or two?")
            found.append(replace(asked, also=(other.where,)))
    return tuple(found)


def _people(rows: Sequence[RowReading]) -> tuple[Person, ...]:
    """Everybody of the rows in order, the same person on two rows once."""
    people: list[Person] = []
    seen: set[tuple[str, ...]] = set()
    for row in rows:
        for person in row.people:
            names = (person.given, person.family, person.suffix, person.kind.value)
            same = tuple(fold(name) if name else "" for name in names)
            if person.given is not None and same in seen:
                continue
            seen.add(same)
            people.append(person)
    return tuple(people)


def _once(findings: list[Finding]) -> tuple[Finding, ...]:
    """Rows of one household repeat what they share: the address is asked about once."""
    kept: dict[tuple[str, str], Finding] = {}
    for found in findings:
        kept.setdefault((found.code, found.text), found)
    return tuple(kept.values())
