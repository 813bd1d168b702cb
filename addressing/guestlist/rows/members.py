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
from addressing.guestlist.people.vocabulary import partner_words, row_words, words
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
_AGES_BEHIND = re.compile(
    r"\s*[,(]\s*(?P<ages>\d{1,2}(?:\s*(?:[,&/]|and)\s*\d{1,2})*)\s*\)?\s*$", re.IGNORECASE
)
"""Ages behind all the names they are of: "the twins Kit & Una, 2", "boys Kit and Bram (8, 10)"."""


@dataclass(frozen=True, slots=True)
class Member:
    """One whom the column names; `age` in years where it is told; `own` for "(me)"."""

    name: str
    age: int | None = None
    own: bool = False
    wed: bool = False
    young: bool = False
    """A child by a word before the names: "kids Kit and Una", "baby Una"."""

    @property
    def minor(self) -> bool:
        """True for one under age."""
        return self.young if self.age is None else self.age < OF_AGE


def members(text: str) -> Iterator[Member]:
    """Who is named in a cell, in its order; "just the two of us" names nobody.

    >>> [(m.name, m.age) for m in members("Cappy (me), my husband Noam Stein, Ezra 4")]
    [('Cappy', None), ('Noam Stein', None), ('Ezra', 4)]
    >>> [(m.name, m.age) for m in members("the twins Kit & Una, 2")]
    [('Kit', 2), ('Una', 2)]
    """
    text, ages = _without_ages(text)
    young = False
    for part in _PARTS.split(text):
        spoken = set(fold(part).split())
        young = not _of_grown(spoken) and (young or not spoken.isdisjoint(row_words("young")))
        member = _member(part, spoken)
        if member is None:
            continue
        if young and member.age is None:
            age = ages.pop(0) if len(ages) > 1 else next(iter(ages), None)
            member = replace(member, age=age, young=age is None)
        yield member


def _member(part: str, spoken: set[str]) -> Member | None:
    """The one of a part: by the name, or by that in brackets ("mum lives here (Wren)")."""
    aged = _AGE.search(part)
    rest = part[: aged.start()] if aged else part
    brackets = [found["said"] for found in _BRACKET.finditer(rest)]
    bare = _BRACKET.sub("", rest).strip()
    found = (each for said in (bare, *brackets) for each in _NAME.findall(said))
    name = next((called for each in found if (called := _own_name(each))), "")
    if not name or not spoken.isdisjoint(row_words("pet")) or _is_unborn(spoken):
        return None
    age = None if aged is None else 0 if (aged["unit"] or "y")[0] in "mMwW" else int(aged["age"])
    own = not {fold(each) for each in brackets}.isdisjoint(row_words("oneself"))
    return Member(name, age, own, not spoken.isdisjoint(partner_words()))


def _without_ages(text: str) -> tuple[str, list[int]]:
    """The text without the ages of several children behind their names, and these."""
    found = _AGES_BEHIND.search(text)
    if found is None or row_words("young-several").isdisjoint(fold(text).split()):
        return text, []
    if any(mark.isdecimal() for mark in text[: found.start()]):
        return text, []
    return text[: found.start()], [int(age) for age in re.findall(r"\d+", found["ages"])]


def _of_grown(spoken: set[str]) -> bool:
    return not (words("guest") | words("relation")).isdisjoint(spoken)


def _is_unborn(spoken: set[str]) -> bool:
    return any(spoken.issuperset(words_said.split()) for words_said in row_words("unborn"))


def _own_name(name: str) -> str:
    """The name without what it is called by: "Mark" of "My Husband Mark"; "" of nobody's."""
    said = name.split()
    called = row_words("no-member") | row_words("young") | partner_words()
    while len(said) > 1 and fold(said[0]) in called:
        said.pop(0)
    return "" if _is_nobody(" ".join(said)) else " ".join(said)


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
        if _are_more(told, grown) or _is_unnamed(cell.text, grown):
            text = f"Of the household the list says: “{cell.text}”."
            mend = "How should the names stand on the envelope?"
            made = finding("name-noted", cell.where, text, mend, cell.text)
            names = _likely(told, grown)
            found.append(replace(made, likely=(("names", names),)) if names else made)
    return found


def _are_more(told: Sequence[Member], grown: Sequence[Person]) -> bool:
    """True where somebody told is none of the grown, whom a title alone names ("Mrs.") or not."""
    apart = [each for each in told if not _is_one(each, grown)]
    nameless = sum(not person.given for person in grown)
    of_age = any(each.age is not None for each in apart)
    return len(told) > len(grown) or len(apart) > nameless or of_age


def _is_unnamed(text: str, grown: Sequence[Person]) -> bool:
    """True for a wife, husband or partner without a name beside somebody alone."""
    parts = [
        said for part in _PARTS.split(text) if not _member(part, said := set(fold(part).split()))
    ]
    told = any(said & words("guest") and not said & (words("no") | {"not"}) for said in parts)
    return len(grown) == 1 and told


def _is_one(member: Member, people: Sequence[Person]) -> bool:
    """True for one of the people, by the given name or a form of it."""
    first = fold(member.name).split()[0]
    givens = [fold(person.given).split()[0] for person in people if person.given]
    return member.own or any(first == given or is_form(first, given) for given in givens)


def _likely(told: Sequence[Member], grown: Sequence[Person]) -> str:
    """The names with the one more who has a family name, or is wife or husband."""
    others = [each for each in told if not _is_one(each, grown)]
    if len(grown) != 1 or len(others) != 1 or (len(told) == 1 and not others[0].wed):
        return ""
    one, other = grown[0], others[0]
    first = " ".join(part for part in (one.title, one.given, one.family, one.suffix) if part)
    if len(other.name.split()) >= _FULL:
        return f"{first} and {other.name}"
    return f"{first} and {other.name} {one.family}" if other.wed and one.family else ""
