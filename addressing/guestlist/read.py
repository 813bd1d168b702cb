"""The door of the room: a client's file becomes a GuestList and its findings."""

from collections import deque
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from pathlib import Path

from addressing.guestlist.asking import finding, given_to
from addressing.guestlist.files.fix_sheets import remarks_on
from addressing.guestlist.files.kinds import read_grids
from addressing.guestlist.files.opening import open_list
from addressing.guestlist.files.own_files import refuse_own_sheets, refuse_own_text
from addressing.guestlist.files.speaking import Listed
from addressing.guestlist.grid import Column, Table
from addressing.guestlist.households.added import added, without_words
from addressing.guestlist.households.around import around
from addressing.guestlist.households.beside_notes import asked_once
from addressing.guestlist.households.composing import household_of
from addressing.guestlist.households.corrections_told import with_names
from addressing.guestlist.households.crowds import crowds
from addressing.guestlist.households.duplicates import probable_duplicates
from addressing.guestlist.households.fuller import filled_up
from addressing.guestlist.households.gathering import Group, gather, names_of_groups
from addressing.guestlist.households.keys import with_keys
from addressing.guestlist.households.left_aside import old_rows, with_old_rows
from addressing.guestlist.households.numbered import Numbered, counted_in
from addressing.guestlist.households.one_house import in_one_house
from addressing.guestlist.households.reached import Reached, reached_alike, reached_in
from addressing.guestlist.households.said_aside import only_told, without_header, without_remarks
from addressing.guestlist.households.said_elsewhere import (
    asked_by_number,
    corrections_open,
    lines_not_read,
    rows_aside,
    told_of_households,
    told_of_others,
)
from addressing.guestlist.households.sent import later_proposed, sent_anew, sent_in
from addressing.guestlist.households.two_ways import tell_titles
from addressing.guestlist.households.unsaid import about_people
from addressing.guestlist.households.used_once import Merged
from addressing.guestlist.repair import repair_codes
from addressing.guestlist.rows.by_hands import read_rows
from addressing.guestlist.rows.noted import asked_of
from addressing.guestlist.rows.noted_units import with_units
from addressing.guestlist.rows.row import RowReading
from addressing.guestlist.tables.headers import find_tables
from addressing.hands import steadily
from addressing.records.findings import Finding
from addressing.records.guests import (
    Cited,
    ColumnReading,
    GuestList,
    Household,
    Repair,
)

_ONCE = frozenset(("name-doubtful", "address-missing"))
"""What a row may ask with its own words, and the household asks without."""
LETTERS = "title-letters"
"""The code of letters where a title belongs: the title is asked with them."""
_PAIR = 2
_SHOWN = 3
"""Cells or households that a sentence names; the log, or the client's question, has them all."""


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
    file, sha256 = opened.path.name, opened.sha256
    refuse_own_text(path, opened.data)
    grids, reading_findings, repairs = read_grids(opened)
    refuse_own_sheets(grids)
    found, unused, table_findings = find_tables(grids, columns)
    found = without_words(found)
    listed = Listed.of(found)
    mails = {grid.sheet for grid in grids if grid.meanings}
    found, remarks = without_remarks(found, listed, mails)
    unused = (*unused, *remarks)
    told = [paragraph for grid in grids if not grid.corrects for paragraph in grid.told]
    overheard = [said for grid in grids for said in grid.overheard]
    fixes = [paragraph for grid in grids if grid.corrects for paragraph in grid.told]
    counted, sent, reached = counted_in(found), sent_in(found), reached_in(found)
    unread = {f.where.sheet for f in table_findings if f.code == "sheet-not-read"}
    notes = (*remarks_on(grids, unread, listed), *around(grids, found, unused, listed))
    aside = tuple((said,) for table in found for said in table.aside)
    more = added((*notes, *aside), grids, found, listed)
    unused = tuple(row for row in unused if (row.sheet, row.row) not in more.rows)
    stray = without_header([table for table in found if table.sheet not in mails])
    read_as, rows = tuple(_columns(found)), sum(len(table.rows) for table in found) + len(more.rows)
    tables, old = deque((*found, *more.tables)), old_rows(grids, table_findings, home)
    del opened, grids, found  # so that the tables' cells can go as they are read
    merged = _merge(tables, home, posting)
    tell_titles(merged.households)
    households = with_keys(merged.households)
    numbered = Numbered.of(households, counted)
    own = tuple(_own_findings(households, merged.findings))
    own, beside = asked_by_number(own, households, numbered)
    own = tuple(later_proposed((*own, *in_one_house(households, own)), households, sent))
    doubles = (*_duplicates(households, own, reached), *sent_anew(own, households, sent))
    doubles = tuple(later_proposed(doubles, households, sent))
    parts = (told, fixes, more.told, [tuple(only_told(own, stray, listed))])
    said = (
        *beside,
        *_said(parts, households, own, numbered),
        *told_of_others(overheard, households, own),
    )
    findings = (
        *with_names(reading_findings, households, said),
        *with_old_rows(table_findings, households, old),
        *_repairs_noted(repairs),
        *(found for found in said if found.household is None),
        *with_old_rows(own, households, old),
        *doubles,
        *(found for found in said if found.household is not None),
    )
    guest_list = GuestList(
        file=file,
        sha256=sha256,
        households=households,
        rows=rows + len(unused),
        unused=(*unused, *merged.unused),
        columns=read_as,
        repairs=(*repairs, *more.repairs, *merged.repairs),
    )
    return guest_list, findings


def _said(
    said: tuple[Sequence[Sequence[Cited]], ...],
    households: Sequence[Household],
    own: Sequence[Finding],
    numbered: Numbered,
) -> Iterator[Finding]:
    """What is asked of running text, corrections, rows of remarks; `own` is asked already."""
    told, fixes, notes, (stray,) = said
    elsewhere = {cell for part in notes for each in part for cell in each.cells}
    stray = [each for each in stray if elsewhere.isdisjoint(each.cells)]
    of_text, unread = told_of_households(told, households, own, numbered)
    of_fixes, lost = told_of_households(fixes, households, own, numbered, aside=True)
    of_rows, unused = told_of_households(notes, households, (), numbered, aside=True)
    every = [(each, part is not told) for part in said[:-1] for text in part for each in text]
    no_ones = [each for each, alone in every if numbered.names_nobody(each.text, aside=alone)]
    unread, unused = _without(unread, no_ones), _without(unused, no_ones)
    lost = (*no_ones, *_without(lost, no_ones))
    yield from (*lines_not_read(unread), *corrections_open(lost), *rows_aside((*unused, *stray)))
    yield from (*of_text, *of_fixes, *of_rows)


def _without(said: Iterable[Cited], asked: Sequence[Cited]) -> tuple[Cited, ...]:
    """Sentences without those that another question has, whole or in parts."""
    texts = {each.text for each in asked}
    return tuple(each for each in said if not any(each.text in text for text in texts))


def _asked(found: tuple[Finding, ...], household: Household) -> tuple[Finding, ...]:
    """All that is said and asked of a household, its notes among it."""
    about = about_people(household)
    codes = frozenset(each.code for each in (*found, *about))
    found = with_units(tuple(asked_of(each, household, codes) for each in found), household)
    return _told_once(*asked_once(found, about, household), household)


def _own_findings(
    households: Sequence[Household], findings: list[tuple[Finding, ...]]
) -> Iterator[Finding]:
    """What is to be said of each household; what the rows said of it goes on the way."""
    findings.reverse()
    for household in households:
        yield from given_to(_asked(findings.pop(), household), household.key)


def _is_of(
    found: Finding, household: Household, letters: set[tuple[str | None, int | None]]
) -> bool:
    """True for a missing title of none but those in whose rows letters stand for one."""
    people = [household.people[place] for place in found.people]
    return found.code == "title-missing" and all(
        any((cell.sheet, cell.row) in letters for cell in person.cells) for person in people
    )


def _told_once(
    found: tuple[Finding, ...], about: tuple[Finding, ...], household: Household
) -> tuple[Finding, ...]:
    """A husband without a name is no companion once more; a doubt of the row's is asked once."""
    once = {each.code for each in found} & _ONCE
    about = tuple(each for each in about if each.code not in once)
    letters = {(each.where.sheet, each.where.row) for each in found if each.code == LETTERS}
    about = tuple(each for each in about if not (letters and _is_of(each, household, letters)))
    guest = next((each for each in about if each.code == "guest-unnamed"), None)
    if guest is None or all(each.code != "partner-unnamed" for each in found):
        return (*found, *about)
    named = (
        replace(each, people=guest.people) if each.code == "partner-unnamed" else each
        for each in found
    )
    return (*named, *(each for each in about if each is not guest))


def _merge(tables: deque[Table], home: str, posting: str | None) -> Merged:
    """Households of the rows of all tables; one that is there already is left out.

    A table lets go of its cells as they are read, and rows of what was gathered of them: of a long
    list they fill the memory.
    """
    merged = Merged()
    while tables:
        for group in _gathered(tables, home, posting, merged.repairs):
            merged.add(*household_of(group))
    return merged


def _gathered(
    tables: deque[Table], home: str, posting: str | None, repairs: list[Repair]
) -> Iterator[Group]:
    """The groups of the first table's rows, each let go once it is handed on."""
    column = tables[0].column("household")
    rows = read_rows(tables, home=home, posting=posting)
    repairs += (repair for row in rows for repair in row.repairs)
    named = names_of_groups(rows) if column and column.how != "docket" else None
    if column is not None and named is not None:
        note = _not_households(column, *named)
        rows = [replace(row, household=None) for row in rows]
        rows[0] = replace(rows[0], findings=(note, *rows[0].findings))
    groups = list(gather(filled_up(rows)))
    del rows
    groups.reverse()
    while groups:
        yield groups.pop()


def _not_households(column: Column, row: RowReading, groups: int) -> Finding:
    text = f"“{column.header}” names {groups} groups with many addresses each, not households."
    mend = "Nothing to do; if its words are households, say so in the docket under [columns]."
    where = row.household.cells[0] if row.household and row.household.cells else row.where
    return finding("groups-not-households", where, text, mend)


def _duplicates(
    households: Sequence[Household], asked_of: Iterable[Finding], reached: Reached
) -> tuple[Finding, ...]:
    """A question to each of those who are perhaps one household; of many alike, one for all.

    None of those of whom that is asked already (`asked_of`), for the list gives them one name.
    """
    found: list[Finding] = []
    shared = {(one, other): way for one, other, way in reached_alike(households, reached)}
    pairs = {(one, other): f"Names that agree, and {way} in common."
             for (one, other), way in shared.items()}  # fmt: skip
    pairs |= {(one, other): why for one, other, why in probable_duplicates(households)}
    parted = [{f.where, *f.also} for f in asked_of if f.code == "household-doubtful"]
    for crowd, why in crowds(sorted((*pair, why) for pair, why in pairs.items())):
        homes = [households[place] for place in crowd]
        if any(all(rows & set(home.rows) for home in homes) for rows in parted):
            continue
        for mine in homes:
            others = [home for home in homes if home is not mine]
            text = f"{why} {_others(others)}"
            asked = finding("duplicate-probable", mine.rows[0], text, "One household or two?")
            also = tuple(row for home in others for row in home.rows)
            way = shared.get((crowd[0], crowd[-1])) if len(crowd) == _PAIR else None
            likely = (("shared", way),) if way else ()
            found.append(replace(asked, household=mine.key, also=also, likely=likely))
    return tuple(found)


def _others(homes: Sequence[Household]) -> str:
    """Those who are perhaps the same household, by name and cell."""
    shown = "; ".join(f"{home.name}, {home.rows[0]}" for home in homes[:_SHOWN])
    more = f" and {len(homes) - _SHOWN} more" if len(homes) > _SHOWN else ""
    return f"The other{'s' if len(homes) > 1 else ''}: {shown}{more}."


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
