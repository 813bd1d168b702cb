"""What stands on which sheet of the questions workbook: headers, opening words, rows."""

from collections.abc import Sequence
from dataclasses import dataclass

from addressing.questions.asking import mark_of
from addressing.questions.corrections import CORRECT
from addressing.questions.showing import address_shown, names_shown
from addressing.records.guests import GuestList
from addressing.records.questions import Question

REF = "Ref"
ANSWER = "Your answer"
OWN = "Or in your own words"
CHANGES = {"New names": "names", "New address": "address"}
"""Columns of corrections that nobody asked for, and what they change."""


@dataclass(frozen=True, slots=True)
class Row:
    """One row: its cells, and the choices for the column that is answered."""

    cells: tuple[str, ...]
    choices: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Sheet:
    """One sheet: `columns` are (header, width in characters); the last one is the ref."""

    name: str
    opening: str
    columns: tuple[tuple[str, float], ...]
    rows: tuple[Row, ...]


_KINDS: dict[str, tuple[str, tuple[tuple[str, float], ...]]] = {
    "Questions": (
        (
            "Please answer in the green columns: choose from the list, or write in your own words. "
            "What you leave empty we will ask again."
        ),
        (("No.", 5), ("Who", 24), ("Question", 44), ("What your list says", 40), (ANSWER, 30),
         (OWN, 36), ("In your list", 16)),
    ),
    "Titles": (
        (
            "How should we address them? Choose a title, or type another (Miss, Mx., Dr. …). "
            "Where you leave it empty, the name stands alone."
        ),
        (("No.", 5), ("Household", 28), ("Name", 36), (ANSWER, 18), ("In your list", 16)),
    ),
    "Companions": (
        (
            "Do you know their names? Type the name as it should read on the envelope. "
            "Where you leave it empty, the envelope says “and Guest”."
        ),
        (("No.", 5), ("Household", 28), ("Invited as", 36), (ANSWER, 32), ("In your list", 16)),
    ),
    "Spelling": (
        (
            "These names are typed in one case in your list. Are capitals at the front right, "
            "or is a name written otherwise (McKay, de la Tour)?"
        ),
        (("No.", 5), ("Household", 28), ("As listed", 36), (ANSWER, 32), (OWN, 36),
         ("In your list", 16)),
    ),
}  # fmt: skip
_EVERYONE = "Everyone"
_EVERYONE_OPENING = (
    "Only if something has changed: write the new names or the new address beside the old ones. "
    "Leave the rest empty."
)
_EVERYONE_COLUMNS = (
    ("Household", 26), ("Names", 36), ("Address", 48), ("New names", 34), ("New address", 44),
)  # fmt: skip


def numbered(questions: Sequence[Question]) -> tuple[tuple[int, Question], ...]:
    """The questions sheet by sheet, with the number that workbook and letter give them."""
    order = list(_KINDS)
    ordered = sorted(questions, key=lambda question: order.index(question.sheet))
    return tuple(enumerate(ordered, start=1))


def sheets_for(guest_list: GuestList, questions: Sequence[Question]) -> tuple[Sheet, ...]:
    """The sheets of the workbook; one that has nothing to ask is left out."""
    made: list[Sheet] = []
    for name, (opening, columns) in _KINDS.items():
        rows = tuple(
            _row(columns, number, question)
            for number, question in numbered(questions)
            if question.sheet == name
        )
        if rows:
            made.append(Sheet(name, opening, (*columns, (REF, 3)), rows))
    return (*made, _everyone(guest_list))


def _row(columns: tuple[tuple[str, float], ...], number: int, question: Question) -> Row:
    words = {
        "No.": str(number),
        "Who": question.who,
        "Household": question.who,
        "Question": question.text,
        "In your list": str(question.where),
    }
    listed = {"What your list says", "Name", "Invited as", "As listed"}
    cells = [
        question.listed if header in listed else words.get(header, "") for header, _ in columns
    ]
    ref = f"{question.ref} {mark_of(question.basis)}"
    return Row((*cells, ref), tuple(choice.text for choice in question.choices))


def _everyone(guest_list: GuestList) -> Sheet:
    rows = tuple(
        Row((home.name, names_shown(home), address_shown(home.address), "", "",
             f"{home.key}:{CORRECT}"))
        for home in guest_list.households
    )  # fmt: skip
    return Sheet(_EVERYONE, _EVERYONE_OPENING, (*_EVERYONE_COLUMNS, (REF, 3)), rows)
