"""The door of the room: a client's file becomes a GuestList and its findings."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, fields, replace
from functools import partial
from pathlib import Path
from typing import Any

from addressing.guestlist.asking import finding, given_to
from addressing.guestlist.files.kinds import read_grids
from addressing.guestlist.files.opening import OpenedList, open_list
from addressing.guestlist.grid import Column, Grid, Table
from addressing.guestlist.households.duplicates import letters, probable_duplicates
from addressing.guestlist.households.gathering import Group, gather, household_of, names_of_groups
from addressing.guestlist.households.keys import with_keys
from addressing.guestlist.households.unsaid import about_people
from addressing.guestlist.people.parts import cut
from addressing.guestlist.repair import repair_codes
from addressing.guestlist.rows.ditto import Filled, filled_down
from addressing.guestlist.rows.noted import asked_of
from addressing.guestlist.rows.row import RowReading, read_row
from addressing.guestlist.rows.wholes import parted
from addressing.guestlist.tables.headers import find_tables
from addressing.hands import Hand, steadily
from addressing.records.findings import Finding
from addressing.records.guests import ColumnReading, GuestList, Household, Repair, UnusedRow

_SURE_ORDER = 2
"""So many cells that can only be read with the family name first vouch for the whole column."""
_HABIT = 3
_MOST = 0.6
"""So many cells, and this share of all, that can be read so, vouch for the column as well."""
_WORTH = 400
"""Rows from which a second process pays (measured: it costs about 20 ms, a row half a one)."""
_AT_ONCE = 20_000
"""Rows that are handed over together, so that a long list isn't held twice."""
_SHOWN = 3
"""Cells that a note on repairs names; the log has them all."""


@dataclass(slots=True)
class _Merged:
    """Households with the findings of each, and the rows that were left out as equal."""

    households: list[Household] = field(default_factory=list)
    findings: list[tuple[Finding, ...]] = field(default_factory=list)
    unused: list[UnusedRow] = field(default_factory=list)


@steadily()
def read_list(
    path: Path,
    columns: Mapping[str, str],
    home: str = "US",
    posting: str | None = None,
) -> tuple[GuestList, tuple[Finding, ...]]:
    """Read a spreadsheet or text file of guests.

    `columns` is the docket's header → meaning; `home` is the sender's country (alpha-2), where an
    address without a country can lie. Findings come in the order of the households, those
    about the whole list first.

    Raises:
        Fault: the file is missing, unreadable, empty, or has no names (exit 3).
    """
    opened = open_list(path)
    grids, reading_findings, repairs = _grids(opened)
    tables, unused, table_findings = find_tables(grids, columns)
    readings = [reading for table in tables for reading in _read_table(table, home, posting)]
    mended = tuple(repair for reading in readings for repair in reading.repairs)
    merged = _merge([household_of(group) for group in _groups(tables, readings)])
    del readings  # of a long list they fill as much memory as all that follows
    households = with_keys(merged.households)
    own = [
        given_to(_told_once(_notes_asked(found, household), about_people(household)), household.key)
        for household, found in zip(households, merged.findings, strict=True)
    ]
    doubles = _duplicates(households)
    findings = (
        *reading_findings,
        *table_findings,
        *_repairs_noted(repairs),
        *(found for group in own for found in group),
        *doubles,
    )
    guest_list = GuestList(
        file=opened.path.name,
        sha256=opened.sha256,
        households=households,
        rows=sum(len(table.rows) for table in tables) + len(unused),
        unused=(*unused, *merged.unused),
        columns=tuple(_columns(tables)),
        repairs=(*repairs, *mended),
    )
    return guest_list, findings


def _notes_asked(found: tuple[Finding, ...], household: Household) -> tuple[Finding, ...]:
    return tuple(asked_of(each, household.people) for each in found)


def _told_once(found: tuple[Finding, ...], about: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """A husband without a name is no companion once more; a name in doubt is asked about once."""
    if any(each.code == "name-doubtful" for each in found):
        about = tuple(each for each in about if each.code != "name-doubtful")
    guest = next((each for each in about if each.code == "guest-unnamed"), None)
    if guest is None or all(each.code != "partner-unnamed" for each in found):
        return (*found, *about)
    named = (
        replace(each, people=guest.people) if each.code == "partner-unnamed" else each
        for each in found
    )
    return (*named, *(each for each in about if each is not guest))


def _grids(
    opened: OpenedList,
) -> tuple[tuple[Grid, ...], tuple[Finding, ...], tuple[Repair, ...]]:
    return read_grids(opened)


def _read_table(table: Table, home: str, posting: str | None) -> list[RowReading]:
    """Every row of a table read; of many rows, half by a second process."""
    order = _family_first(table)

    def read(rows: Iterable[Filled]) -> list[RowReading]:
        return [
            _with_whence(
                read_row(table, filled.row, family_first=order, home=home, posting=posting), filled
            )
            for filled in rows
        ]

    rows = [replace(filled, row=parted(table, filled.row)) for filled in filled_down(table)]
    readings: list[RowReading] = []
    for start in range(0, len(rows), _AT_ONCE):
        some = rows[start : start + _AT_ONCE]
        half = (len(some) + 1) // 2
        with Hand(partial(_told, read, some[half:]), worth=len(some) > _WORTH) as other:
            readings += read(some[:half])
            told = other.answer()
        readings += [
            RowReading(table, filled.row, *fields)
            for filled, fields in zip(some[half:], told, strict=True)
        ]
    return readings


def _told(
    read: Callable[[Iterable[Filled]], list[RowReading]], rows: Iterable[Filled]
) -> list[tuple[Any, ...]]:
    """What was read of rows, without the table and the row, which needn't go from hand to hand."""
    names = [each.name for each in fields(RowReading) if each.name not in ("table", "row")]
    return [tuple(getattr(reading, name) for name in names) for reading in read(rows)]


def _with_whence(reading: RowReading, filled: Filled) -> RowReading:
    """Tell where an address comes from that stands in another row."""
    if filled.whence is None:
        return reading
    text = f"The address of another row ({filled.whence}) is taken, as the cell says."
    note = finding("address-as-above", reading.where, text, "Nothing to do.")
    return replace(reading, findings=(*reading.findings, note))


def _family_first(table: Table) -> bool:
    """True when cells that allow no other reading put the family name first."""
    column = table.column("name")
    if column is None:
        return False
    texts = [cell.text for row in table.rows if (cell := row.cell(column.index)) and cell.text]
    with_comma = [text for text in texts if "," in text]
    sure = sum(_surely_turned(text) for text in with_comma)
    if sure >= _SURE_ORDER:
        return True
    turned = sum(_can_be_turned(text) for text in with_comma)
    return turned >= _HABIT and turned >= _MOST * len(texts)


def _surely_turned(text: str) -> bool:
    return _can_be_turned(text) and not cut(text, family_first=False)[1]


def _can_be_turned(text: str) -> bool:
    return cut(text, family_first=None)[0] != cut(text, family_first=True)[0]


def _groups(tables: Sequence[Table], readings: Sequence[RowReading]) -> Iterable[Group]:
    for table in tables:
        rows = [reading for reading in readings if reading.table is table]
        column = table.column("household")
        groups = names_of_groups(rows) if column and column.how != "docket" else None
        if column is None or groups is None:
            yield from gather(rows)
            continue
        first, many = groups
        note = _not_households(column, first, many)
        rows = [replace(row, household=None) for row in rows]
        rows[0] = replace(rows[0], findings=(note, *rows[0].findings))
        yield from gather(rows)


def _not_households(column: Column, row: RowReading, groups: int) -> Finding:
    text = f"“{column.header}” names {groups} groups with many addresses each, not households."
    mend = "Nothing to do; if its words are households, say so in the docket under [columns]."
    where = row.household.cells[0] if row.household and row.household.cells else row.where
    return finding("groups-not-households", where, text, mend)


def _merge(found: Iterable[tuple[Household, tuple[Finding, ...]]]) -> _Merged:
    """Leave out a household that is equal to an earlier one to the letter."""
    merged = _Merged()
    known: dict[object, int] = {}
    for household, findings in found:
        twin = known.setdefault(letters(household), len(merged.households))
        if twin < len(merged.households):
            _leave_out(merged, household, twin)
            continue
        merged.households.append(household)
        merged.findings.append(findings)
    return merged


def _leave_out(merged: _Merged, household: Household, twin: int) -> None:
    first = merged.households[twin].rows[0]
    for where in household.rows:
        row = int("".join(mark for mark in where.cell or "" if mark.isdigit()))
        merged.unused.append(UnusedRow(where.sheet, row, f"the same to the letter as {first}"))
    text = f"Equal to {first}; used once."
    merged.findings[twin] += (
        finding("duplicate-merged", household.rows[0], text, "Nothing to do."),
    )


def _duplicates(households: Sequence[Household]) -> tuple[Finding, ...]:
    """A question to each of two households that are perhaps one."""
    found: list[Finding] = []
    for one, other, why in probable_duplicates(households):
        pair = households[one], households[other]
        for mine, theirs in (pair, pair[::-1]):
            text = f"{why} The other: {theirs.name}, {theirs.rows[0]}."
            asked = finding("duplicate-probable", mine.rows[0], text, "One household or two?")
            found.append(replace(asked, household=mine.key, also=theirs.rows))
    return tuple(found)


def _repairs_noted(repairs: Sequence[Repair]) -> tuple[Finding, ...]:
    """One note for each kind of repair, with the first cells; each repair is in the list's log."""
    by_code: dict[str, list[Repair]] = {}
    for repair in repairs:
        for code in repair_codes(repair):
            by_code.setdefault(code, []).append(repair)
    return tuple(_repair_note(code, made) for code, made in by_code.items())


def _repair_note(code: str, made: list[Repair]) -> Finding:
    cells = ", ".join(str(repair.where) for repair in made[:_SHOWN])
    more = f" and {len(made) - _SHOWN} more" if len(made) > _SHOWN else ""
    why = made[0].why.split("; ")[0]
    return finding(
        code, made[0].where, f"{why[:1].upper()}{why[1:]} in {cells}{more}.", "Nothing to do."
    )


def _columns(tables: Sequence[Table]) -> Iterable[ColumnReading]:
    for table in tables:
        for column in table.columns:
            meaning = column.meaning or "not used"
            if column.ordinal > 1:
                meaning = f"{meaning} {column.ordinal}"
            yield ColumnReading(table.sheet, column.letters, column.header, meaning, column.how)
