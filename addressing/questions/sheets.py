"""What stands on which sheet of the questions workbook: headers, opening words, rows."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from addressing.questions.asking import mark_of
from addressing.questions.corrections import CORRECT
from addressing.questions.noting import notes_shown
from addressing.questions.showing import address_shown, names_shown, place_shown
from addressing.records.guests import Household
from addressing.records.questions import Matter, Question

REF = "Ref"
ANSWER = "Your answer"
OWN = "Or in your own words"
SEE = "See the sheet"
"""How a row begins to say where its table is."""
CHANGES = {"New names": "names", "New address": "address"}
"""Columns of corrections that nobody asked for, and what they change."""

Columns = tuple[tuple[str, float], ...]
"""(header, width in characters) of each column."""


@dataclass(frozen=True, slots=True)
class Row:
    """One row: its cells, and the choices for the column that is answered.

    A heading has one cell. `link` is the sheet that the row sends its reader to.
    """

    cells: tuple[str, ...]
    choices: tuple[str, ...] = ()
    heading: bool = False
    link: str = ""


@dataclass(frozen=True, slots=True)
class Sheet:
    """One sheet; the last column is the ref."""

    name: str
    opening: str
    columns: Columns
    rows: tuple[Row, ...]


_FIRST = "Questions"
_ASKED = "Question"
_OPENING = (
    "Please answer in the green columns: choose from the list (click the cell, then the arrow), or "
    "write in your own words. What you leave empty we will ask again."
)
_COLUMNS: Columns = (
    ("No.", 5), ("Who", 26), (_ASKED, 44), ("What your list says", 38), (ANSWER, 30),
    (OWN, 30), ("In your list", 16), (REF, 3),
)  # fmt: skip
_TABLE_COLUMNS: Columns = (
    ("No.", 6), ("Household", 30), (_ASKED, 36), ("What your list says", 38), (ANSWER, 30),
    (OWN, 30), ("In your list", 16), (REF, 3),
)  # fmt: skip
_EVERYONE = "Everyone"
_EVERYONE_OPENING = (
    "Only if something has changed: write the new names or the new address beside the old ones. "
    "Leave the rest empty."
)
_EVERYONE_COLUMNS: Columns = (
    ("Household", 26), ("Names", 36), ("Address", 44), ("New names", 34), ("New address", 40),
    (REF, 3),
)  # fmt: skip


HEADERS = tuple(dict.fromkeys(name for name, _ in (*_COLUMNS, *_TABLE_COLUMNS, *_EVERYONE_COLUMNS)))
"""Every heading of a column that the workbook may have."""


def sheets_for(homes: Iterable[Household], matters: Sequence[Matter]) -> tuple[Sheet, ...]:
    """The sheets of the workbook: the questions, a table for each matter of many, everybody."""
    first = Sheet(_FIRST, _OPENING, _COLUMNS, tuple(_questions(matters)))
    tables = [_table(matter) for matter in matters if matter.table]
    return (*((first,) if matters else ()), *tables, _everyone(homes))


def ref_cell(question: Question, matter: Matter) -> str:
    """What stands in a row's hidden ref: the ref, the mark of what was asked, the table's ref."""
    parts = (question.ref, mark_of(question.basis), matter.ref if matter.table else "")
    return " ".join(part for part in parts if part)


def _questions(matters: Sequence[Matter]) -> list[Row]:
    rows: list[Row] = []
    group = ""
    for matter in matters:
        if matter.group != group:
            group = matter.group
            rows.append(Row((group,), heading=True))
        rows.append(_of_many(matter) if matter.table else _of_one(matter))
    return rows


def _of_one(matter: Matter) -> Row:
    question = matter.questions[0]
    cells = (
        str(matter.number), question.who, matter.text, _listed(question), "", "",
        place_shown(question.where), ref_cell(question, matter),
    )  # fmt: skip
    return Row(cells, tuple(choice.text for choice in matter.choices))


def _listed(question: Question) -> str:
    """What the list says: of the matter, and below it what it says besides."""
    return "\n".join(part for part in (question.listed, notes_shown(question)) if part)


def _of_many(matter: Matter) -> Row:
    """The row that stands for a table; without an answer for all there is nothing to fill in."""
    see = f"{SEE} “{matter.table}”"
    ref = matter.ref if matter.choices else ""
    who = f"{len(matter.questions)} in all"
    cells = (str(matter.number), who, matter.text, see, "", "", "", ref)
    return Row(cells, tuple(choice.text for choice in matter.choices), link=matter.table)


def _table(matter: Matter) -> Sheet:
    away = {name for name, shown in ((OWN, matter.own), (_ASKED, matter.each)) if not shown}
    columns = tuple(column for column in _TABLE_COLUMNS if column[0] not in away)
    opening = f"{matter.text}\n{matter.opening}"
    rows = tuple(
        _member(matter, question, f"{matter.number}.{place}")
        for place, question in enumerate(matter.questions, start=1)
    )
    return Sheet(matter.table, opening, columns, rows)


def _member(matter: Matter, question: Question, number: str) -> Row:
    asked = (question.text,) if matter.each else ()
    answers = ("", "") if matter.own else ("",)
    cells = (
        number, question.who, *asked, _listed(question), *answers, place_shown(question.where),
        ref_cell(question, matter),
    )  # fmt: skip
    return Row(cells, tuple(choice.text for choice in question.choices))


def _everyone(homes: Iterable[Household]) -> Sheet:
    rows = tuple(
        Row((home.name, names_shown(home), address_shown(home.address), "", "",
             f"{home.key}:{CORRECT}"))
        for home in homes
    )  # fmt: skip
    return Sheet(_EVERYONE, _EVERYONE_OPENING, _EVERYONE_COLUMNS, rows)
