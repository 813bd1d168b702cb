"""Who of a row's people is a child, by its other columns: children, ages, meals, notes."""

import re
from dataclasses import replace

from addressing.guestlist.folding import fold
from addressing.guestlist.grid import Cell, Row, Table
from addressing.guestlist.people.age_groups import age_group
from addressing.guestlist.people.sharing import OF_AGE
from addressing.guestlist.people.vocabulary import row_words, words
from addressing.records.guests import Kind, Person

_COUPLE = 2
_CHILD_NOTED = re.compile(
    r"(?P<group>[^\W\d_]{2,})(?:[\s,:–-]*(?:aged?\s*)?(?P<age>\d{1,2})\b|\s*(?=$|[,:;–-]))"
)
"""A note that begins with "child", perhaps with an age: "child, 6 - nut allergy"."""
_AGE = re.compile(
    r"[(\[]?\s*(?:(?:is\s+)?aged?:?\s*)?(?P<age>\d{1,3})\s*-?\s*"
    r"(?P<unit>(?:yrs?|years?|y\.?/?o|mos?|mths?|months?|wks?|weeks?)\b\.?)?(?:\s*-?\s*old)?\s*[)\]]?",
    re.IGNORECASE,
)


def column_cells(table: Table, row: Row, meaning: str) -> list[Cell]:
    """The filled cells of a row under the headers of a meaning."""
    found = [row.cell(index) for index in table.under(meaning)]
    return [cell for cell in found if cell is not None and cell.text]


def grown_alone(people: list[Person]) -> list[Person]:
    """Of "Tom, Shelly, Ava Orr" and "Ava" in a column of children, Ava is one, a child.

    Of "Bill and Sue Orr" both stay: a child may well have a parent's name.
    """
    twice = named_as_parents(people)
    if not twice or len([p for p in people if p.kind is Kind.NAMED]) <= _COUPLE:
        return people
    theirs = {fold(child.given or ""): child for child in twice}
    return [
        replace(p, kind=Kind.CHILD, age=child.age, cells=(*p.cells, *child.cells), joined=False)
        if p.kind is Kind.NAMED and (child := theirs.get(fold(p.given or "")))
        else p
        for p in people
        if p not in twice
    ]


def named_as_parents(people: list[Person]) -> list[Person]:
    """The children whose names the grown people have too; "Bill, Jr." is told apart."""
    named = {fold(p.given) for p in people if p.kind is Kind.NAMED and p.given}
    children = (p for p in people if p.kind is Kind.CHILD and p.given and p.family is None)
    return [p for p in children if fold(p.given or "") in named and not p.suffix]


def without_counted(people: list[Person]) -> list[Person]:
    """The children that a number counts are first of all those whom another cell names."""
    named = [p for p in people if p.kind is Kind.CHILD and p.given]
    places = {cell for child in named for cell in child.cells}
    counted = [
        p for p in people if p.kind is Kind.CHILD and not p.given and places.isdisjoint(p.cells)
    ]
    left = counted[len(named) :]
    return [p for p in people if p not in counted] + left if named else people


def aged(table: Table, row: Row, people: list[Person]) -> list[Person]:
    """In a row with one person, a column of ages or of "adult" and "child" says what it is.

    In a row without a name it may say that a companion is meant.
    """
    if not people:
        cells = column_cells(table, row, "age_group")
        guests = [cell for cell in cells if age_group(cell.text)[0] == "guest"]
        return [Person(kind=Kind.GUEST, cells=(cell.where,)) for cell in guests[:1]]
    if len(people) != 1 or people[0].kind is not Kind.NAMED:
        return people
    of_age = (*column_cells(table, row, "age_group"), *column_cells(table, row, "age"))
    told = [age_group(cell.text) for cell in of_age]
    groups = ["child" for group, _ in told if group == "child"]
    ages = [years for _, years in told if years is not None]
    ages += [years for cell in of_age if (years := age_of(cell.text)) is not None]
    groups += [group for cell in column_cells(table, row, "elsewhere") if (group := _eats(cell))]
    for cell in column_cells(table, row, "notes"):
        noted = _CHILD_NOTED.match(cell.text)
        if noted and fold(noted["group"]) in words("child-group"):
            groups.append(fold(noted["group"]))
            ages += [int(noted["age"])] if noted["age"] else []
        said = age_of(cell.text) if not cell.text.strip().isdigit() else None
        ages += [said] if said is not None else []
    age = ages[0] if ages else people[0].age
    child = any(group in words("child-group") for group in groups) or (
        age is not None and age < OF_AGE
    )
    kind = Kind.CHILD if child else Kind.NAMED
    same = (age, kind) == (people[0].age, people[0].kind)
    return people if same else [replace(people[0], age=age, kind=kind)]


def age_of(text: str) -> int | None:
    """The age that a cell gives and nothing else, in whole years; None where it gives none.

    >>> [age_of(text) for text in ("7", "7 yrs old", "age 7", "8 mo", "12/5", "Table 7")]
    [7, 7, 7, 0, None, None]
    """
    found = _AGE.fullmatch(text.strip())
    if found is None:
        return None
    return 0 if (found["unit"] or "y")[0] in "mMwW" else int(found["age"])


def _eats(cell: Cell) -> str:
    """The word for a child in "Kid" or "Child's meal" under a header for meals; "" without one."""
    said = set(re.sub(r"['’]s?\b", "", cell.text).casefold().split())
    groups = {word.removesuffix("s") for word in said} & words("child-group")
    others = {word for word in said if word.removesuffix("s") not in groups}
    return next(iter(groups), "") if len(groups) == 1 and others <= row_words("meal") else ""
