"""A column that asks who is in a household ("Tamsin, plus Pete; Zoe 11"), beside its names.

Who is under age there is a child of the household. Who is of age and more than the names have is
asked about, by name; nobody of the column is set unasked who may want an envelope of their own.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from addressing.guestlist.asking import finding
from addressing.guestlist.folding import fold
from addressing.guestlist.grid import Cell, Row, Table
from addressing.guestlist.people.called import is_form
from addressing.guestlist.people.cell import CellReading
from addressing.guestlist.people.names import take_endings, take_titles
from addressing.guestlist.people.sharing import OF_AGE
from addressing.guestlist.people.vocabulary import partner_words, row_words
from addressing.guestlist.rows.young import column_cells
from addressing.records.findings import Finding
from addressing.records.guests import Kind, Person

_PARTS = re.compile(r"[,;/&+\n]|\b(?i:and|plus|with|et|und|y)\b")
_AGE = re.compile(
    r"[\s(\[:–-]*\b(?:aged?\s*)?(?P<age>\d{1,2})\s*(?P<unit>(?:yrs?|years?|y\.?o|mos?|months?|w(?:ee)?ks?)"
    r"\b\.?)?(?:\s*old)?[)\]]*\s*$",
    re.IGNORECASE,
)
_BRACKET = re.compile(r"\s*[(\[](?P<said>[^()\[\]]*)[)\]]")
_NAME = re.compile(r"[^\W\d_a-z][\w'’-]*(?:\s+[^\W\d_a-z][\w'’.-]*)*")
_FULL = 2


@dataclass(frozen=True, slots=True)
class Member:
    """One whom the column names; `age` in years where it is told; `own` for "(me)"."""

    name: str
    age: int | None = None
    own: bool = False
    wed: bool = False

    @property
    def minor(self) -> bool:
        """True for one under age."""
        return self.age is not None and self.age < OF_AGE


def members(text: str) -> Iterator[Member]:
    """Who is named in a cell, in its order; "just the two of us" names nobody.

    >>> [(m.name, m.age) for m in members("Cappy (me), my husband Noam Stein, Ezra 4")]
    [('Cappy', None), ('Noam Stein', None), ('Ezra', 4)]
    """
    for part in _PARTS.split(text):
        aged = _AGE.search(part)
        rest = part[: aged.start()] if aged else part
        said = {fold(found["said"]) for found in _BRACKET.finditer(rest)}
        bare = _BRACKET.sub("", rest).strip()
        spoken = set(fold(bare).split())
        found = _NAME.search(bare)
        if found is None or not spoken.isdisjoint(row_words("pet")) or _is_nobody(found[0]):
            continue
        age = (
            None if aged is None else 0 if (aged["unit"] or "y")[0] in "mMwW" else int(aged["age"])
        )
        own = not said.isdisjoint(row_words("oneself"))
        yield Member(found[0], age, own, not spoken.isdisjoint(partner_words()))


def _is_nobody(name: str) -> bool:
    """True for words that begin a sentence ("Just me"), and for a title alone ("The Judge")."""
    left = [word for word in name.split() if fold(word) not in row_words("no-member")]
    return not left or not take_titles([*left])[1] or len(" ".join(left)) < _FULL


def children_told(
    table: Table, row: Row, people: Sequence[Person]
) -> list[tuple[Cell, CellReading]]:
    """The children whom the column tells, without those who stand among the names."""
    known = {fold(person.given or "") for person in people}
    if not any(person.family for person in people):
        return []  # "The Penhew Family": who is invited by name is asked
    told = []
    for cell in column_cells(table, row, "members"):
        names = [(each, _given(each.name)) for each in members(cell.text) if each.minor]
        new = tuple(
            Person(given=name, age=each.age, kind=Kind.CHILD)
            for each, name in names
            if fold(name) not in known
        )
        told += [(cell, CellReading(people=new))] if new else []
    return told


def _given(name: str) -> str:
    """A child's name as it is called: without "III"."""
    return " ".join(take_endings(name.split(), after_comma=False)[0])


def more_than_named(table: Table, row: Row, people: Sequence[Person]) -> list[Finding]:
    """The question where the column names more grown people than the envelope has."""
    grown = [person for person in people if person.kind is Kind.NAMED]
    if not grown:
        return []
    found = []
    for cell in column_cells(table, row, "members"):
        told = [each for each in members(cell.text) if not each.minor]
        of_age = [each for each in told if each.age is not None]
        if len(told) > len(grown) or (of_age and not all(_is_one(each, grown) for each in of_age)):
            text = f"Of the household the list says: “{cell.text}”."
            mend = "How should the names stand on the envelope?"
            made = finding("name-noted", cell.where, text, mend, cell.text)
            names = _likely(told, grown)
            found.append(replace(made, likely=(("names", names),)) if names else made)
    return found


def _is_one(member: Member, people: Sequence[Person]) -> bool:
    """True for one of the people, by the given name or a form of it."""
    first = fold(member.name).split()[0]
    givens = [fold(person.given).split()[0] for person in people if person.given]
    return member.own or any(first == given or is_form(first, given) for given in givens)


def _likely(told: Sequence[Member], grown: Sequence[Person]) -> str:
    """The names with the one more who has a family name, or is wife or husband."""
    others = [each for each in told if not _is_one(each, grown)]
    if len(grown) != 1 or len(told) != len(grown) + 1 or len(others) != 1:
        return ""
    one, other = grown[0], others[0]
    first = " ".join(part for part in (one.title, one.given, one.family, one.suffix) if part)
    if len(other.name.split()) >= _FULL:
        return f"{first} and {other.name}"
    return f"{first} and {other.name} {one.family}" if other.wed and one.family else ""
