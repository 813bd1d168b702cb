"""The name cells of a row, read together: parts in columns, or several people in one cell."""

import re
from dataclasses import dataclass, replace
from functools import lru_cache

from addressing.guestlist.folding import fold
from addressing.guestlist.grid import Cell, Row, Table
from addressing.guestlist.people.cell import CellReading
from addressing.guestlist.people.companions import without_oneself, without_role
from addressing.guestlist.people.parts import Doubt
from addressing.guestlist.people.promised import says_no
from addressing.guestlist.people.vocabulary import row_words, words
from addressing.guestlist.rows.coming_along import (
    columns_beside,
    counted_guests,
    noted_guests,
    without_promised,
)
from addressing.guestlist.rows.formal import with_formal, with_greeting
from addressing.guestlist.rows.members import children_told
from addressing.guestlist.rows.name_cells import read_columns
from addressing.guestlist.rows.partners import (
    answered_or,
    asked_for_family,
    behind_a_couple,
    named_by_given,
    partners,
    titled_alone,
    with_lent_title,
    with_their_children,
)
from addressing.guestlist.rows.shared_names import share_a_name, whose
from addressing.guestlist.rows.spouses import of_two_words
from addressing.guestlist.rows.young import (
    aged,
    column_cells,
    grown_alone,
    named_as_parents,
    without_counted,
)
from addressing.guestlist.tables.title_codes import code_of
from addressing.records.guests import Cited, Kind, Person

_NAME_MEANINGS = ("name", "title", "given", "middle", "particle", "family", "suffix")
_PARTS = frozenset(("given", "middle", "family"))
_UNSAID = "children-unsaid"
_PARTNER = 2
"""The ordinal of the partner's columns."""


@dataclass(frozen=True, slots=True)
class RowPeople:
    """Everybody a row names, and what its cells left in doubt: (cell, reading) for each cell."""

    people: tuple[Person, ...] = ()
    label: Cited | None = None
    family: Cited | None = None
    readings: tuple[tuple[Cell, CellReading], ...] = ()


def read_row_people(table: Table, row: Row, *, family_first: bool) -> RowPeople:
    """The people of a row, in the order of its columns: named, companions, children."""
    readings: list[tuple[Cell, CellReading]] = []
    people: list[Person] = []
    ordinals = {c.ordinal for c in table.columns if c.meaning in _NAME_MEANINGS}
    known = {each: _without_open(_cells(table, row, each)) for each in {1, _PARTNER, *ordinals}}
    for ordinal in sorted(ordinals):
        cells, left = known[ordinal]
        if ordinal <= _PARTNER:
            cells = whose(table, ordinal, cells, known[1][0], known[_PARTNER][0])
        if cells and _says_nobody(cells, people):
            continue
        if cells:
            first = family_first if ordinal < _PARTNER or family_first else None
            reading = answered_or(ordinal, cells, read_columns(cells, family_first=first))
            places = tuple(cell.where for cell in cells.values())
            found = [replace(person, cells=places) for person in reading.people]
            reading, found = behind_a_couple(people, reading, found)
            if ordinal == _PARTNER:
                reading, found = of_two_words(people, cells, reading, found)
                people, found = with_lent_title(people, found)
                found = named_by_given(people, found)
                reading, found = titled_alone(cells, reading, found)
                reading = reading if share_a_name(table) else asked_for_family(reading, found)
                found = partners(people, found)
                reading, found = with_their_children(reading, found)
            people.extend(found)
            readings.append((next(iter(cells.values())), reading))
            readings += [(c, CellReading(doubts=(Doubt("name-doubtful", c.text),))) for c in left]
    for cell, reading in (*columns_beside(table, row, people), *children_told(table, row, people)):
        people.extend(
            replace(person, cells=(cell.where,), joined=person.joined and not place)
            for place, person in enumerate(reading.people)
        )
        readings.append((cell, reading))
    readings, people = _children_told(_beside_label(readings), people)
    people, told = _with_wordings(table, row, people)
    readings += told
    people = without_counted(without_promised(people, table))
    people = aged(table, row, people)
    people += counted_guests(table, row, people) or noted_guests(table, row, people)
    if people and any(fold(c.text) in words("yes") for c in column_cells(table, row, "joined")):
        people[0] = replace(people[0], joined=True)
    return RowPeople(_settle(people), _label(readings), _family(readings), tuple(readings))


def _with_wordings(
    table: Table, row: Row, people: list[Person]
) -> tuple[list[Person], list[tuple[Cell, CellReading]]]:
    """The people with the titles that columns of greetings and of names for the envelope give."""
    for cell in column_cells(table, row, "greeting")[:1]:
        people = with_greeting(cell, people) or people
    for cell in column_cells(table, row, "outer")[:1]:
        return with_formal(cell, people)
    return people, []


def _beside_label(
    readings: list[tuple[Cell, CellReading]],
) -> list[tuple[Cell, CellReading]]:
    """With a question where "The Wexcombes" stand beside people of another cell: who is it?"""
    label = next((reading.label for _, reading in readings if reading.label), None)
    others = [
        cell.text
        for cell, reading in readings
        if not reading.label and any(p.kind is Kind.NAMED and p.given for p in reading.people)
    ]
    if label is None or not others:
        return readings
    doubt = Doubt("name-doubtful", f"{label}, {others[0]}")
    return [*readings, (readings[0][0], CellReading(doubts=(doubt,)))]


def _children_told(
    readings: list[tuple[Cell, CellReading]], people: list[Person]
) -> tuple[list[tuple[Cell, CellReading]], list[Person]]:
    """Without the question which of them are children, where a column of children says it.

    With it where a child has a parent's name: it may be that parent.
    """
    grown = grown_alone(people)
    if len(grown) == len(people):
        doubts = tuple(Doubt(_UNSAID, str(child.given)) for child in named_as_parents(people))
        asked = [(readings[0][0], CellReading(doubts=doubts))] if doubts else []
        return [*readings, *asked], people
    told = [
        (cell, replace(reading, doubts=tuple(d for d in reading.doubts if d.code != _UNSAID)))
        for cell, reading in readings
    ]
    return told, grown


def _cells(table: Table, row: Row, ordinal: int) -> dict[str, Cell]:
    cells: dict[str, Cell] = {}
    for meaning in _NAME_MEANINGS:
        column = table.column(meaning, ordinal)
        cell = row.cell(column.index) if column else None
        if cell is None or not cell.text or (ordinal >= _PARTNER and says_no(cell.text)):
            continue
        if meaning != "title" or code_of(cell.text) not in table.title_codes:
            cells[meaning] = cell
    return _without_role(cells) if ordinal == _PARTNER else cells


def _without_role(cells: dict[str, Cell]) -> dict[str, Cell]:
    """A partner's cell without "(husband)" behind the name, and without "me" before "+ 1"."""
    cell = cells.get("name")
    name = without_role(without_oneself(cell.text)) if cell else ""
    if cell is None or name == cell.text:
        return cells
    others = {part: other for part, other in cells.items() if part != "name"}
    return {**others, "name": replace(cell, text=name)} if name else others


def _without_open(cells: dict[str, Cell]) -> tuple[dict[str, Cell], list[Cell]]:
    """The cells without those of parts that aren't known yet, and these."""
    left = [cell for part, cell in cells.items() if part in _PARTS and _is_open(cell.text)]
    return {part: cell for part, cell in cells.items() if cell not in left}, left


@lru_cache(maxsize=4096)
def _is_open(text: str) -> bool:
    """True where a part of a name isn't known yet: "TBD", "?", "(Kit will know)"."""
    aside = re.fullmatch(r"\s*[(\[].*\s.*[)\]]\s*", text) is not None
    bare = " ".join(fold(text).split())
    return aside or bare in row_words("no-part") or not re.search(r"\w", text)


def _says_nobody(cells: dict[str, Cell], before: list[Person]) -> bool:
    """True for a title or a particle alone, save a partner's title beside a name."""
    known = bool(before) and before[-1].family is not None
    return set(cells) <= {"title", "particle"} and not (known and "title" in cells)


def _settle(people: list[Person]) -> tuple[Person, ...]:
    """Children and companions without a family name take it where the named ones share one."""
    named = {fold(p.family) for p in people if p.kind is Kind.NAMED and p.family}
    family = next((p.family for p in people if p.kind is Kind.NAMED and p.family), None)
    if len(named) != 1:
        return tuple(people)
    return tuple(
        replace(p, family=family) if p.kind is Kind.CHILD and p.given and not p.family else p
        for p in people
    )


def _label(readings: list[tuple[Cell, CellReading]]) -> Cited | None:
    return next((Cited(r.label, (cell.where,)) for cell, r in readings if r.label), None)


def _family(readings: list[tuple[Cell, CellReading]]) -> Cited | None:
    return next((Cited(r.family, (cell.where,)) for cell, r in readings if r.family), None)
