"""The name cells of a row, read together: parts in columns, or several people in one cell."""

import re
from dataclasses import dataclass, replace

from addressing.guestlist.folding import fold
from addressing.guestlist.grid import Cell, Row, Table
from addressing.guestlist.people.cell import CellReading, read_people
from addressing.guestlist.people.companions import without_oneself, without_role
from addressing.guestlist.people.composing import (
    composed,
    glued_family,
    has_joint,
    names_two,
    titled_family,
    titles_of_several,
)
from addressing.guestlist.people.doubtful import oddities
from addressing.guestlist.people.names import combined_title, take_endings, take_titles
from addressing.guestlist.people.particles import particles_first, with_particle
from addressing.guestlist.people.parts import Doubt
from addressing.guestlist.people.promised import says_no
from addressing.guestlist.people.remarks import clear_remarks
from addressing.guestlist.people.vocabulary import row_words, words
from addressing.guestlist.rows.coming_along import (
    columns_beside,
    companion_alone,
    counted_guests,
    noted_guests,
    without_promised,
)
from addressing.guestlist.rows.formal import with_formal
from addressing.guestlist.rows.members import children_told
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

_NAME_MEANINGS = ("title", "given", "middle", "particle", "family", "suffix")
_PARTS = frozenset(("given", "middle", "family"))
_UNSAID = "children-unsaid"
_PARTNER = 2
"""The ordinal of the partner's columns."""


_BRACKET_BEHIND = re.compile(r"\s*[(\[][^()\[\]]*[)\]]\s*$")
"""A remark behind a name, whose family name stands in a column of its own."""
_MARKED = re.compile("⟨[^⟩]*⟩")
"""What `clear_remarks` leaves of a bracket that holds no remark."""


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
    for ordinal in sorted(
        {column.ordinal for column in table.columns if column.meaning in ("name", *_NAME_MEANINGS)}
    ):
        cells, left = _without_open(_cells(table, row, ordinal))
        if cells and _says_nobody(cells, people):
            continue
        if cells:
            first = family_first if ordinal < _PARTNER or family_first else None
            reading = answered_or(ordinal, cells, _read_columns(cells, family_first=first))
            places = tuple(cell.where for cell in cells.values())
            found = [replace(person, cells=places) for person in reading.people]
            reading, found = behind_a_couple(people, reading, found)
            if ordinal == _PARTNER:
                reading, found = of_two_words(people, cells, reading, found)
                people, found = with_lent_title(people, found)
                found = named_by_given(people, found)
                reading, found = titled_alone(cells, reading, found)
                reading = asked_for_family(reading, found)
                found = partners(people, found)
                reading, found = with_their_children(reading, found)
            people.extend(found)
            readings.append((next(iter(cells.values())), reading))
            readings += [(c, CellReading(doubts=(Doubt("name-doubtful", c.text),))) for c in left]
    for cell, reading in (*columns_beside(table, row, people), *children_told(table, row, people)):
        people.extend(
            replace(person, cells=(cell.where,), joined=False) for person in reading.people
        )
        readings.append((cell, reading))
    readings, people = _children_told(_beside_label(readings), people)
    for cell in column_cells(table, row, "outer")[:1]:
        people, told = with_formal(cell, people)
        readings += told
    people = without_counted(without_promised(people, table))
    people = aged(table, row, people)
    people += counted_guests(table, row, people) or noted_guests(table, row, people)
    if people and any(fold(c.text) in words("yes") for c in column_cells(table, row, "joined")):
        people[0] = replace(people[0], joined=True)
    return RowPeople(_settle(people), _label(readings), _family(readings), tuple(readings))


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
    for meaning in ("name", *_NAME_MEANINGS):
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


def _is_open(text: str) -> bool:
    """True where a part of a name isn't known yet: "TBD", "?", "(Kit will know)"."""
    aside = re.fullmatch(r"\s*[(\[].*\s.*[)\]]\s*", text) is not None
    bare = " ".join(fold(text).split())
    return aside or bare in row_words("no-part") or not re.search(r"\w", text)


def _says_nobody(cells: dict[str, Cell], before: list[Person]) -> bool:
    """True for a title or a particle alone, save a partner's title beside a name."""
    known = bool(before) and before[-1].family is not None
    return set(cells) <= {"title", "particle"} and not (known and "title" in cells)


def _read_columns(cells: dict[str, Cell], *, family_first: bool | None) -> CellReading:
    """One cell of whole names, or columns of parts; parts with a joint are read as a cell."""
    text, doubts = with_particle({meaning: cell.text for meaning, cell in cells.items()})
    if "family" in text:
        text["family"] = particles_first(text["family"], family=True)
    reading = _read_texts(text, family_first=family_first)
    return replace(reading, doubts=(*doubts, *reading.doubts)) if doubts else reading


def _read_texts(text: dict[str, str], *, family_first: bool | None) -> CellReading:
    if _is_label(text):
        first = "The" if fold(text["given"]) == "the" else text["given"]
        return read_people(f"{first} {text['family']}", family_first=None)
    if "name" in text and "given" not in text:
        return _name_with_columns(text, family_first=family_first)
    if "given" not in text:
        return _without_given(text)
    if (alone := companion_alone(text["given"])) is not None:
        return alone
    titled = titles_of_several(text.get("title", ""))
    joint = titled or has_joint(text["given"]) or names_two(text["given"])
    whole = "family" not in text and len(text["given"].split()) > 1
    if joint or whole:
        return composed(text)
    return _read_parts(text)


def _without_given(text: dict[str, str]) -> CellReading:
    if titles_of_several(text.get("title", "")):
        return titled_family(text)
    alone = read_people(text.get("family", ""), family_first=None)
    return alone if alone.label and len(text) == 1 else _read_parts(text)


def _is_label(text: dict[str, str]) -> bool:
    """True for "The" beside "Penhews", and "The Penhew" beside "Family"."""
    given, family = fold(text.get("given", "")), fold(text.get("family", ""))
    return bool(family) and (given == "the" or (bool(given) and family in words("family")))


def _name_with_columns(text: dict[str, str], *, family_first: bool | None) -> CellReading:
    """A cell of whole names, with a title, family name or suffix in columns beside it."""
    name = text["name"]
    titled = take_titles(name.split())[0]
    if "title" in text and not titled:
        name = f"{text['title']} {name}"
    if "family" in text and not f" {fold(name)} ".endswith(f" {fold(text['family'])} "):
        family, ending = glued_family(text["family"])
        text = {"suffix": ending, **text} if ending else text
        bare = _BRACKET_BEHIND.sub("", name)
        name = f"{bare} {family}{name.removeprefix(bare)}"
    if "suffix" in text:
        name = f"{name}, {text['suffix']}"
    return read_people(name, family_first=family_first)


def _read_parts(text: dict[str, str]) -> CellReading:
    """One person in columns of parts; remarks in the cells are kept as such."""
    given = (
        read_people(text.get("given", ""), family_first=None) if "given" in text else CellReading()
    )
    first = given.people[0] if given.people else Person()
    if first.kind is Kind.GUEST or (given.family and not given.people and len(text) == 1):
        return given
    cleared = clear_remarks(text.get("family", ""))
    if _MARKED.search(cleared.text):  # a nickname or an age behind a family name is none of it
        cleared = replace(cleared, text=text["family"], remarks=())
    family, suffix, credentials = _family_cell(cleared.text)
    ending, degrees = _endings(text.get("suffix", ""))
    titles = take_titles(text["title"].split())[0] if "title" in text else ()
    title = combined_title(titles) or text.get("title")
    names = " ".join(part for part in (_all_given(first), text.get("middle", "")) if part)
    person = Person(
        title=title or first.title,
        given=names or None,
        family=family or None,
        suffix=ending or suffix or first.suffix,
        credentials=(*first.credentials, *credentials, *degrees),
        nickname=first.nickname,
        age=first.age,
        kind=Kind.CHILD if title == "Master" or first.kind is Kind.CHILD else Kind.NAMED,
    )
    odd = (*oddities(text.get("middle", "")), *oddities(cleared.text))
    return replace(
        given,
        people=(person, *given.people[1:]),
        label=None,
        remarks=(*given.remarks, *cleared.remarks),
        doubts=(*given.doubts, *odd),
    )


def _all_given(person: Person) -> str:
    """Two words in a column of given names are both given ("Mary Ann")."""
    return " ".join(part for part in (person.given, person.family) if part)


def _family_cell(text: str) -> tuple[str, str | None, tuple[str, ...]]:
    words_left, suffix, credentials = take_endings(
        text.replace(",", " ").split(), after_comma="," in text
    )
    return " ".join(words_left), suffix, credentials


def _endings(text: str) -> tuple[str | None, tuple[str, ...]]:
    """Suffix and degrees in a column of endings; a word that is neither is the suffix as listed."""
    rest, suffix, credentials = take_endings(text.replace(",", " ").split(), after_comma=True)
    return (text or None, ()) if rest else (suffix, credentials)


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
