"""One row of a table, read: its people, its address, and everything about it that is in doubt."""

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace

from addressing.guestlist.asking import finding, from_doubt, from_trouble
from addressing.guestlist.folding import fold
from addressing.guestlist.grid import Cell, Row, Table
from addressing.guestlist.homes.addresses import read_address
from addressing.guestlist.homes.at_work import home_or_work
from addressing.guestlist.homes.row_address import PLACES, cells_of
from addressing.guestlist.homes.seasons import season_of
from addressing.guestlist.people.cell import CellReading
from addressing.guestlist.people.vocabulary import row_words as _words
from addressing.guestlist.rows.hiding import PARTS_OF_NAMES, hidden, hidden_in_cells
from addressing.guestlist.rows.members import more_than_named
from addressing.guestlist.rows.noted import apart
from addressing.guestlist.rows.row_people import RowPeople, read_row_people
from addressing.guestlist.rows.said import lettered, remark, said_in_columns
from addressing.guestlist.tables.headings import says_by_hand
from addressing.guestlist.tables.open_headings import leaves_open, says_later
from addressing.guestlist.written import Trouble
from addressing.records.findings import Finding
from addressing.records.guests import Address, Cited, Kind, Person, Repair
from addressing.records.swiftly import swiftly
from addressing.where import Where

FACTS = ("wave", "side", "suite", "inner", "invited_count")
"""What the list says of a row as it stands: its round, whose guests they are, which set of pieces
they get, and the words on its inner envelope."""


@swiftly
@dataclass(frozen=True, slots=True)
class RowReading:
    """What a row says; `household` is what a column of households or parties says."""

    sheet: str | None
    where: Where
    people: tuple[Person, ...]
    label: Cited | None
    family: Cited | None
    address: Address | None
    household: Cited | None
    by_hand: bool
    findings: tuple[Finding, ...]
    repairs: tuple[Repair, ...]
    facts: tuple[Cited | None, ...] = (None,) * len(FACTS)
    """What the list says of `FACTS`."""
    other_address: Address | None = None
    """The second address of the row, which doesn't hold on the day of posting."""
    struck: bool = False
    """True when the whole row is struck through."""
    apart: str = ""
    """Who wants an envelope of their own by its notes: "door" all who live there, "row", or "".

    "alone" is a row whose address is to come: it belongs to none above.
    """
    leans: bool = False
    """True when every word of its address stands in cells merged with rows above."""
    told: frozenset[str] = frozenset()
    """What the list says of its people: "kin" of those above, "grown" up (`of_families.py`)."""

    @property
    def named(self) -> bool:
        """True when the row names somebody or something."""
        return bool(self.people or self.label)


def read_row(
    table: Table,
    row: Row,
    shared: Mapping[Where, bool],
    *,
    family_first: bool,
    home: str = "US",
    posting: str | None = None,
) -> RowReading:
    """Read one row; `family_first` says that the name column writes "Wexcombe, Tobias".

    `shared` are the table's cells that are merged over several of its rows, `home` is the sender's
    country (alpha-2), `posting` the day of posting (ISO 8601).
    """
    where = _where(table, row)
    who = read_row_people(table, row, family_first=family_first)
    names = _folded_names(who)
    placed = _address(table, row, _Reader(names, home, posting))
    by_hand = any(fold(cell.text) in _words("by-hand") for cell in cells_of(table, row, "by_hand"))
    noted = _noted_by_hand(table, row)
    if by_hand or ((noted or _handed(table, row)) and placed.address is None):
        by_hand, noted = True, None
        placed = _Placed(None, (), placed.remarks, placed.address or placed.other)
    address, troubles, remarks = placed.address, placed.troubles, placed.remarks
    household = next(iter(cells_of(table, row, "household")), None)
    findings = (
        *hidden(table, row, where),
        *hidden_in_cells(table, row, shared),
        *_doubts(who),
        *(from_trouble(trouble, where) for trouble in troubles),
        *_remarks(where, remarks, who),
        *said_in_columns(table, row),
        *lettered(table, row, who.people),
        *_count(table, row, who),
        *more_than_named(table, row, who.people),
        *placed.findings,
        *_hand_or_post(noted or _handed(table, row), where, by_hand=by_hand),
        *_left_open(table, row, where),
    )
    seat = next((_cited(cell) for cell in cells_of(table, row, "table")), None)
    people = tuple(replace(person, table=seat) for person in who.people) if seat else who.people
    repairs = tuple(
        Repair(_first(trouble.cited, where), trouble.repair[0], trouble.repair[1], trouble.text)
        for trouble in troubles
        if trouble.repair
    )
    cited = _cited(household) if household else None
    return RowReading(
        table.sheet, where, people, who.label, who.family, address, cited, by_hand,
        findings, repairs, _facts(table, row, who), placed.other, row.struck, _apart(table, row),
        _leans(table, row),
    )  # fmt: skip


def _apart(table: Table, row: Row) -> str:
    """Who wants an envelope apart, by a note; a row whose address is to come isn't of another."""
    if any(fold(cell.text) in _words("no-address") for cell in _streets(table, row)):
        return "alone"
    if next(iter(cells_of(table, row, "sentence")), None) is not None:
        return "row" if _streets(table, row) else "alone"
    return next((said for cell in cells_of(table, row, "notes") if (said := apart(cell.text))), "")


def _leans(table: Table, row: Row) -> bool:
    if not any(cell is not None and cell.spread for cell in row.cells):  # as of nearly all
        return False
    placed = [cell for meaning in PLACES for cell in cells_of(table, row, meaning)]
    others = all(cell.spread or cell.where.row != row.number for cell in placed)
    return others and any(cell.spread for cell in placed)


@dataclass(frozen=True, slots=True)
class _Reader:
    """What an address is read with."""

    names: frozenset[str]
    home: str
    posting: str | None


@dataclass(frozen=True, slots=True)
class _Placed:
    """The address of a row that holds, the other one, and what is to be said of both."""

    address: Address | None
    troubles: tuple[Trouble, ...]
    remarks: tuple[str, ...]
    other: Address | None = None
    findings: tuple[Finding, ...] = ()


def _address(table: Table, row: Row, reader: _Reader) -> _Placed:
    """The address that holds on the day of posting; without that day it is asked."""
    chosen = home_or_work(table, row, reader.names)
    written = chosen.written
    season = season_of(table, row)
    if season is None:
        read = read_address(written, reader.names, reader.home)
        return _Placed(*read, None, chosen.findings)
    holds = season.holds(reader.posting)
    first, second = (written, season.written) if not holds else (season.written, written)
    read = read_address(first, reader.names, reader.home)
    other = read_address(second, reader.names, reader.home)[0]
    where = next(cell for line in season.written.cited for cell in line.cells)
    shown = ", ".join(line.text for line in season.written.cited)
    time = f" ({season.said})" if season.said else ""
    if holds is None:
        text = f"There is a second address{time}: “{shown}”."
        mend = "Which of the two holds when the invitations arrive?"
        found = finding("season-address", where, text, mend, shown)
    else:
        which = "second" if holds else "first"
        text = f"Posted on {reader.posting}, it goes to the {which} address; the second is{time}."
        found = finding("season-chosen", where, text, "Nothing to do.")
    return _Placed(*read, other, (*chosen.findings, found))


def _noted_by_hand(table: Table, row: Row) -> Cell | None:
    """The note that says that the envelope is given by hand, or the street cell that only does."""
    for cell in cells_of(table, row, "notes"):
        said = f" {fold(cell.text)} "
        for later in _words("posted-later"):
            said = said.replace(f" {later} ", " ")
        if any(f" {word} " in said for word in _words("by-hand-note")):
            return cell
    streets = _streets(table, row)
    return next((cell for cell in streets if fold(cell.text) in _words("by-hand-note")), None)


def _streets(table: Table, row: Row) -> list[Cell]:
    return [cell for name in ("address", "street") for cell in cells_of(table, row, name)]


def _handed(table: Table, row: Row) -> Cited | None:
    """The heading that says of the rows below it that their envelopes are given by hand."""
    over = table.heading_over(row.number)
    return over if over is not None and says_by_hand(over.text) else None


def _left_open(table: Table, row: Row, where: Where) -> tuple[Finding, ...]:
    """The question of a heading that leaves open whether those below it are invited."""
    over = table.heading_over(row.number)
    if over is None or not leaves_open(over.text):
        return ()
    text = f"It stands below “{over.text}”."
    return (finding("marker-in-list", where, text, "Are they invited?", over.text),)


def _hand_or_post(note: Cell | Cited | None, row: Where, *, by_hand: bool) -> tuple[Finding, ...]:
    if note is None or by_hand:
        return ()
    text = f"The list says: “{note.text}”, and gives an address."
    mend = "Should the address stand on the envelope? Without an answer it does."
    where = note.where if isinstance(note, Cell) else row
    return (finding("by-hand-noted", where, text, mend, note.text),)


def _facts(table: Table, row: Row, who: RowPeople) -> tuple[Cited | None, ...]:
    said = {
        meaning: next((_cited(cell) for cell in cells_of(table, row, meaning)), None)
        for meaning in FACTS
    }
    over = None if _handed(table, row) else table.heading_over(row.number)
    later = over is not None and says_later(over.text)
    said["wave"] = said["wave"] or (over if later else table.wave)
    no_side = over is None or later or leaves_open(over.text)
    said["side"] = said["side"] or (None if no_side else over)
    said["inner"] = said["inner"] or _greeted(table, row, who)
    return tuple(said[meaning] for meaning in FACTS)


def _greeted(table: Table, row: Row, who: RowPeople) -> Cited | None:
    """A greeting that gives nobody a title ("Grandma and Grandpa"), save where more are invited."""
    cell = next(iter(cells_of(table, row, "greeting")), None)
    given = cell is not None and any(cell.where in person.cells for person in who.people)
    if cell is None or given or any(person.kind is not Kind.NAMED for person in who.people):
        return None
    return _cited(cell)


def _cited(cell: Cell) -> Cited:
    return Cited(cell.text, (cell.where,))


def _where(table: Table, row: Row) -> Where:
    """The row's name cell, else its first filled one."""
    for meaning in PARTS_OF_NAMES:
        for cell in cells_of(table, row, meaning):
            if not cell.spread:
                return cell.where
    own = (cell.where for cell in row.filled if cell.where.row == row.number)  # else a ditto's
    return next(own, row.filled[0].where)


def _first(cited: Cited | None, where: Where) -> Where:
    return cited.cells[0] if cited and cited.cells else where


def _folded_names(who: RowPeople) -> frozenset[str]:
    names = (name for p in who.people for name in (p.given, p.family) if name)
    label = who.label.text if who.label else ""
    return frozenset(word for name in (*names, label) for word in fold(name).split())


def _doubts(who: RowPeople) -> list[Finding]:
    return [
        from_doubt(doubt, cell.where) for cell, reading in who.readings for doubt in reading.doubts
    ]


def _remarks(where: Where, in_address: tuple[str, ...], who: RowPeople) -> list[Finding]:
    """Remarks in the cells; one that says "declined" holds the household."""
    found = [remark(cell.where, text, whole=False) for cell, text in _in_names(who.readings)]
    return found + [remark(where, text, whole=False) for text in in_address]


def _in_names(readings: tuple[tuple[Cell, CellReading], ...]) -> list[tuple[Cell, str]]:
    return [(cell, remark) for cell, reading in readings for remark in reading.remarks]


def _count(table: Table, row: Row, who: RowPeople) -> list[Finding]:
    """The number invited, where the list gives one, against the people read."""
    grown = [person for person in who.people if person.kind is not Kind.CHILD]
    counted = (("invited_count", "", who.people), ("adult_count", " adults", grown))
    for meaning, of_whom, people in counted:
        cell = next(iter(cells_of(table, row, meaning)), None)
        if cell is None or not re.fullmatch(r"\d{1,2}", cell.text) or who.label is not None:
            continue
        wanted, read = int(cell.text), len(people)
        if wanted in (read, 0) or (wanted > read and who.family is not None):
            continue
        some = "is" if read == 1 else "are"
        text = f"The list counts {wanted}{of_whom}, {read} {some} named or meant."
        mend = "Who is missing or too many?"
        return [finding("count-differs", cell.where, text, mend, cell.text)]
    return []


def is_single(reading: RowReading) -> bool:
    """True for a row that names exactly one person, or has a companion without a name alone."""
    named = sum(1 for person in reading.people if person.kind is not Kind.GUEST)
    return named == 1 or (named == 0 and len(reading.people) == 1)
