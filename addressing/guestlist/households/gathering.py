"""Rows gathered to households: by a column of their own, by a shared address, else row by row."""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from addressing.guestlist.asking import finding
from addressing.guestlist.folding import fold
from addressing.guestlist.homes.doors import door, lives_at
from addressing.guestlist.households.belonging import (
    Belongs,
    are_their_children,
    belongs,
    has_no_door,
    heads,
    several,
    share_envelope,
)
from addressing.guestlist.rows.row import RowReading, is_single
from addressing.records.findings import Finding
from addressing.records.swiftly import swiftly

_GUEST_ROWS = 0.85
"""From this share of rows with one person on, a list is taken to have a row for each guest."""
_MANY_DOORS = 3
_MOSTLY = 0.5
"""A column names no households where more than this share of rows stand under such words."""
MOST_ROWS = 60
"""More rows than this are hardly one household: their people aren't compared with each other."""
_NEAR = 6
"""Rows above among which children of a row of their own have their parents."""
_A_HABIT = 3
"""So many rows without an address below their family are the list's habit, not a slip."""


_Gathered = tuple[str, str, str]
"""Sheet, what gathers its rows ("word" of the column, "door", or one "row"), and which."""


@swiftly
@dataclass(frozen=True, slots=True)
class Group:
    """Rows that are one household, and what is in doubt about their being together."""

    rows: tuple[RowReading, ...]
    findings: tuple[Finding, ...] = ()


_NUMBERED = re.compile(r"(?<=^[a-z])\s+(?=\d)")
"""The blank of "W 13", which is W13."""


def gather(readings: Sequence[RowReading]) -> tuple[Group, ...]:
    """The rows in groups, each a household, in the order of their first rows."""
    if any(reading.household for reading in readings):
        return _by_column(readings)
    if _row_a_guest(readings):
        return _by_door(readings)
    return _neighbours(readings)


def names_of_groups(readings: Sequence[RowReading]) -> tuple[RowReading, int] | None:
    """The first row and the number of groups of a column that has no households in it.

    "Friends" and "work" stand at many doors each, and most rows that share a word share such a
    one. None where the column may well hold households.
    """
    shared: dict[str, list[RowReading]] = {}
    for reading in readings:
        if reading.household:
            shared.setdefault(fold(reading.household.text), []).append(reading)
    several_rows = [rows for rows in shared.values() if len(rows) > 1]
    apart = [rows for rows in several_rows if len(_doors(rows)) >= _MANY_DOORS]
    if sum(map(len, apart)) <= _MOSTLY * sum(map(len, several_rows)):
        return None
    return next(reading for reading in readings if reading.household), len(shared)


def _doors(rows: Sequence[RowReading]) -> set[str]:
    return {door(row.address) for row in rows if row.address is not None} - {""}


def _row_a_guest(readings: Sequence[RowReading]) -> bool:
    """True when nearly every row names one person and some rows share a door or lack one."""
    named = [reading for reading in readings if reading.people]
    single = sum(is_single(reading) for reading in named)
    if not named or single < _GUEST_ROWS * len(named):
        return False
    different = {(door(reading.address), reading.people[0].given) for reading in named}
    return len({here for here, _ in different}) < len(different)


def _neighbours(readings: Sequence[RowReading]) -> tuple[Group, ...]:
    """A row a household; only rows that can't stand alone, and two of one door, are taken together.

    Two rows of one person each at one door are; so are companions and children below theirs.
    """
    groups: list[Group] = []
    for reading in readings:
        above = groups[-1] if groups else Group(())
        near = range(len(groups) - 1, max(len(groups) - _NEAR, 0) - 1, -1)
        home = next((at for at in near if are_their_children(groups[at].rows, reading)), None)
        if home is not None:
            groups[home] = _as_one(groups[home], reading)
        elif above.rows and (joined := _joined(above, reading)) is not None:
            groups[-1] = joined
        else:
            groups.append(Group((reading,)))
    return tuple(groups)


def _joined(above: Group, reading: RowReading) -> Group | None:
    """The group with a row more, and what is asked about it; None when the row stands alone."""
    rows = (*above.rows, reading)
    kin = belongs(above.rows, reading)
    if kin is Belongs.SURELY and reading.leans:
        return Group(tuple(map(_at_one_door, rows)), above.findings)
    if kin is Belongs.SURELY or (len(above.rows) == 1 and heads(above.rows[0], reading)):
        return Group(rows, above.findings)
    if kin is Belongs.PERHAPS:
        return Group(rows, (*above.findings, _assumed(reading)))
    if len(above.rows) == 1 and share_envelope(above.rows[0], reading):
        return _as_one(above, reading)
    return None


def _as_one(above: Group, reading: RowReading) -> Group:
    """The group with a row of the same door, and the question whether it wants its own envelope."""
    text = f"{above.rows[0].where} and {reading.where} have one address: one envelope for both."
    asked = finding("same-door", reading.where, text, "Or an envelope for each?")
    return Group((*above.rows, reading), (*above.findings, asked))


def _at_one_door(row: RowReading) -> RowReading:
    """The row without the question whether a merged cell holds for it: its household has it."""
    kept = tuple(found for found in row.findings if found.code != "cells-merged")
    return replace(row, findings=kept)


def _by_column(readings: Sequence[RowReading]) -> tuple[Group, ...]:
    """Rows with one household name or number are one, if their addresses don't speak against it.

    Below a name an empty cell may mean the same: for those who have no address of their own. In a
    list with a row for each guest, those whom the column leaves out are gathered by their door.
    """
    each_guest = _row_a_guest(readings)
    groups: dict[_Gathered, list[RowReading]] = {}
    below: list[tuple[_Gathered, RowReading]] = []
    last: _Gathered | None = None
    for place, reading in enumerate(readings):
        sheet = str(reading.sheet)
        if reading.household:
            last = (sheet, "word", _NUMBERED.sub("", fold(reading.household.text)))
        elif last is not None and _continues(groups[last], reading):
            if belongs(groups[last], reading) is Belongs.NOT:
                below.append((last, reading))
        else:
            here = lives_at(reading.address) if each_guest else ""
            last = (sheet, "door", here) if here else (sheet, "row", str(place))
        groups.setdefault(last, []).append(reading)
    asked: dict[_Gathered, list[RowReading]] = {}
    if len(below) < _A_HABIT:
        for name, reading in below:
            asked.setdefault(name, []).append(reading)
    return tuple(
        _with(
            part,
            [
                *(_assumed(row) for row in asked.get(by, ()) if row in part.rows),
                *(_together(part.rows) if by[1] == "door" else ()),
            ],
        )
        for by, rows in groups.items()
        for part in _same_address(rows)
    )


def _continues(rows: Sequence[RowReading], reading: RowReading) -> bool:
    """Somebody without an address below a household that has a name, or theirs without one."""
    if not has_no_door(rows, reading) or not reading.people or reading.label:
        return False
    return rows[0].household is not None or belongs(rows, reading) is Belongs.SURELY


def _with(group: Group, findings: Sequence[Finding]) -> Group:
    return Group(group.rows, (*group.findings, *findings))


def _same_address(rows: list[RowReading]) -> list[Group]:
    doors = _doors(rows)
    if len(doors) <= 1:
        return [Group(tuple(rows))]
    name = rows[0].household.text if rows[0].household else ""
    others = tuple(row.where for row in rows)
    groups: list[Group] = []
    parts: dict[str, list[RowReading]] = {}
    for row in rows:
        parts.setdefault(door(row.address), []).append(row)
    for part in map(tuple, parts.values()):
        text = f"“{name}” stands at {len(doors)} addresses."
        asked = finding(
            "household-doubtful", part[0].where, text, "Is it one household or several?"
        )
        groups.append(Group(part, (replace(asked, also=others[:MOST_ROWS]),)))
    return groups


def _by_door(readings: Sequence[RowReading]) -> tuple[Group, ...]:
    """A row for each guest: the same door is one household; a row without one may belong above."""
    groups: list[list[RowReading]] = []
    at: dict[str, int] = {}
    below: list[tuple[int, RowReading]] = []
    apart = {door(reading.address) for reading in readings if reading.apart == "door"}
    for reading in readings:
        here = lives_at(reading.address)
        if here and (reading.apart or here in apart or reading.label):
            groups.append([reading])
            continue
        if here and here in at:
            groups[at[here]].append(reading)
            continue
        kin = belongs(groups[-1], reading) if groups and not here else Belongs.NOT
        headed = bool(groups) and len(groups[-1]) == 1 and heads(groups[-1][0], reading)
        if kin is Belongs.NOT and not headed:
            groups.append([])
        groups[-1].append(reading)
        if kin is Belongs.PERHAPS:
            below.append((len(groups) - 1, reading))
        if here:
            at[here] = len(groups) - 1
    asked = {} if len(below) >= _A_HABIT else dict(below)
    return tuple(
        Group(
            tuple(rows), (*_together(rows), *([_assumed(asked[place])] if place in asked else []))
        )
        for place, rows in enumerate(groups)
    )


def _together(rows: Sequence[RowReading]) -> tuple[Finding, ...]:
    """A question where those at one door may be more than one household."""
    why = several(rows)
    if not why:
        return ()
    places = ", ".join(str(row.where) for row in rows[:MOST_ROWS])
    more = f" and {len(rows) - MOST_ROWS} more rows" if len(rows) > MOST_ROWS else ""
    text = f"{places}{more} have one address, and {why}: one envelope for all."
    return (finding("same-door", rows[0].where, text, "Or more than one envelope?"),)


def _assumed(reading: RowReading) -> Finding:
    text = "The row has no address; it is taken to belong to the household above."
    return finding("household-assumed", reading.where, text, "Does it belong there?")
