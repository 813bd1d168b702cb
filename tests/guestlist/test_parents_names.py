"""Children who have a parent's name, and what stands behind a family name in its own column."""

from collections.abc import Callable

import pytest

from addressing.guestlist.people.cell import read_people
from addressing.guestlist.people.children_column import read_children
from addressing.records.findings import Finding
from addressing.records.guests import GuestList, Kind

Read = Callable[..., tuple[GuestList, tuple[Finding, ...]]]
HEADER = ("First", "Last", "Children", "Street", "City", "State", "ZIP")
HERE = ("14 Larkmoor Lane", "Litchfield", "CT", "06759")


def of(read: Read, first: str, last: str, children: str = "") -> tuple[list[str], list[str], str]:
    """(grown, children, codes of what is asked) of a row."""
    guests, findings = read([HEADER, (first, last, children, *HERE)])
    people = guests.households[0].people
    grown = [f"{p.given} {p.family}" for p in people if p.kind is Kind.NAMED]
    young = [str(p.given) for p in people if p.kind is Kind.CHILD]
    asked = " ".join(f.code for f in findings if f.code in {"children-unsaid", "name-doubtful"})
    return grown, young, asked


@pytest.mark.parametrize(
    ("first", "children", "grown", "young", "asked"),
    [
        ("Bill & Sue", "Bill Jr.", ["Bill", "Sue"], ["Bill"], ""),
        ("Bill & Sue", "Bill, Kit", ["Bill", "Sue"], ["Bill", "Kit"], "children-unsaid"),
        ("Bill", "Bill", ["Bill"], ["Bill"], "children-unsaid"),
        ("Bill, Sue & Ava", "Ava", ["Bill", "Sue"], ["Ava"], ""),
    ],
)
def test_a_child_with_a_parents_name_takes_nobody_from_the_outer_envelope(
    read_rows: Read, first: str, children: str, grown: list[str], young: list[str], asked: str
) -> None:
    names = [f"{name} Wexcombe" for name in grown]
    assert of(read_rows, first, "Wexcombe", children) == (names, young, asked)


@pytest.mark.parametrize(
    ("last", "name", "asked"),
    [
        ("Wexcombe (née Vale)", "Odile Wexcombe", ""),
        ("Wexcombe nee Vale", "Odile Wexcombe", ""),
        ("Wexcombe (divorced)", "Odile Wexcombe", ""),
        ("Wexcombe-", "Odile Wexcombe-", "name-doubtful"),
        ("Vale-Wexcombe", "Odile Vale-Wexcombe", ""),
    ],
)
def test_what_stands_behind_a_family_name_is_no_part_of_it(
    read_rows: Read, last: str, name: str, asked: str
) -> None:
    assert of(read_rows, "Odile", last) == ([name], [], asked)


@pytest.mark.parametrize(
    ("cell", "named"),
    [
        ("Linnet (8) Corwin (5)", [("Linnet", 8), ("Corwin", 5)]),
        ("Linnet 8 Corwin 5", [("Linnet", 8), ("Corwin", 5)]),
        ("Linnet-8 Corwin-5", [("Linnet", 8), ("Corwin", 5)]),
        ("Linnet (8)Corwin", [("Linnet", 8), ("Corwin", None)]),
        ("Mary Ann (8) Jo (5)", [("Mary Ann", 8), ("Jo", 5)]),
    ],
)
def test_an_age_parts_a_child_from_the_next(cell: str, named: list[tuple[str, int | None]]) -> None:
    assert [(p.given, p.age) for p in read_children(cell).people] == named


@pytest.mark.parametrize(
    ("cell", "title"),
    [
        ("The Right Rev. Thomas Wexcombe", "The Right Reverend"),
        ("Rev. Msgr. Thomas Wexcombe", "The Reverend Monsignor"),
    ],
)
def test_titles_of_the_clergy_are_known_half_spelled_out(cell: str, title: str) -> None:
    (person,) = read_people(cell).people
    assert (person.title, person.given, person.family) == (title, "Thomas", "Wexcombe")


TITLED = ("Title", "First", "Last", "Street", "City", "State", "ZIP")


@pytest.mark.parametrize(
    ("title", "last", "people"),
    [
        ("Mr. & Mrs.", "Wexcombe", [("Mr.", "Wexcombe"), ("Mrs.", "Wexcombe")]),
        ("Mr Mrs", "Wexcombe", [("Mr.", "Wexcombe"), ("Mrs.", "Wexcombe")]),
        ("Mr/Mrs", "Van Wexcombe", [("Mr.", "Van Wexcombe"), ("Mrs.", "Van Wexcombe")]),
        ("Lord & Lady", "Wexcombe", [("Lord", "Wexcombe"), ("Lady", "Wexcombe")]),
        ("Dr & Mrs", "Vale Orr", [("Dr.", "Vale Orr"), ("Mrs.", "Vale Orr")]),
        ("Drs.", "Wexcombe", [("Dr.", "Wexcombe"), ("Dr.", "Wexcombe")]),
        ("Mr. and Ms.", "Vale / Orr", [("Mr.", "Vale"), ("Ms.", "Orr")]),
        ("Mr. & Mrs.", "Vale and Family", [("Mr.", "Vale"), ("Mrs.", "Vale")]),
        ("Rev. Dr.", "Wexcombe", [("The Reverend Doctor", "Wexcombe")]),
    ],
)
def test_titles_of_two_beside_a_family_name_alone_are_two_people(
    read_rows: Read, title: str, last: str, people: list[tuple[str, str]]
) -> None:
    guests, _ = read_rows([TITLED, (title, "", last, *HERE)])
    named = [p for p in guests.households[0].people if p.kind is Kind.NAMED]
    assert [(p.title, p.family) for p in named] == people


FOUR = ("Person 1", "Person 2", "Person 3", "Street", "City", "State", "ZIP")


@pytest.mark.parametrize(
    ("names", "grown", "young"),
    [
        (("Mr. Tom Vale", "Mrs. Ada Vale", "Kit"), ["Tom", "Ada"], ["Kit"]),
        (("Dr. & Mrs. Vale", "Sam", "Ivy"), [None, None], ["Sam", "Ivy"]),
        (("Mr. & Mrs. Tom Vale", "Ada", "Kit"), ["Tom", "Ada"], ["Kit"]),
        (("Mr. & Mrs. Tom Vale, Sr.", "Tom Jr.", ""), ["Tom", None], ["Tom"]),
        (("Tom Vale", "Ada Vale", "Kit (20)"), ["Tom", "Ada", "Kit"], []),
        (("Mr. Tom Vale", "Mrs. Ada Vale", "Kit Orr"), ["Tom", "Ada", "Kit"], []),
        (("Mr. Tom Vale", "Mrs. Ada Vale", "Miss Orr"), ["Tom", "Ada", None], []),
    ],
)
def test_a_first_name_alone_in_a_column_behind_a_couple_is_a_childs(
    read_rows: Read, names: tuple[str, ...], grown: list[str | None], young: list[str]
) -> None:
    guests, findings = read_rows([FOUR, (*names, *HERE)])
    people = guests.households[0].people
    assert [p.given for p in people if p.kind is Kind.NAMED] == grown
    assert [p.given for p in people if p.kind is Kind.CHILD] == young
    assert bool(young) is any(found.code == "children-assumed" for found in findings)


@pytest.mark.parametrize(
    ("cell", "age"),
    [
        ("Linnet Vale - age 4", 4),
        ("Linnet Vale, 4 yrs", 4),
        ("Linnet Vale 4yo", 4),
        ("Linnet Vale - 4 years old", 4),
        ("Linnet Vale (toddler)", None),
        ("Linnet Vale - child", None),
    ],
)
def test_who_is_said_to_be_young_behind_the_name_is_a_child(cell: str, age: int | None) -> None:
    (person,) = read_people(cell).people
    assert (person.given, person.family, person.age) == ("Linnet", "Vale", age)
    assert person.kind is Kind.CHILD


@pytest.mark.parametrize("cell", ["Linnet Vale - C", "Tom & Ada Vale (baby)", "Ned Kidd"])
def test_a_letter_or_a_third_makes_nobody_a_child(cell: str) -> None:
    assert {person.kind for person in read_people(cell).people} == {Kind.NAMED}


PLAIN = ("Name", "Street", "City", "State", "ZIP")
ELSEWHERE = ("Mr. and Mrs. Tom Orr", "3 Farrenby Road", *HERE[1:])


@pytest.mark.parametrize(
    ("other", "asked"),
    [("Mr. Vale", True), ("Mr. Vale (Odile's husband)", True), ("Mr. Orr", False)],
)
def test_a_title_alone_beside_one_of_the_family_at_the_door_is_asked_about(
    read_rows: Read, other: str, *, asked: bool
) -> None:
    rows = [("Odile Vale", *HERE), (other, *HERE), ELSEWHERE]
    guests, findings = read_rows([PLAIN, *rows])
    told = {found.code for found in findings} & {"same-door", "duplicate-probable"}
    assert bool(told) is asked
    assert len(guests.households) == (2 if asked else 3)


NOTED = ("Name", "Kids", "Street", "City", "State", "ZIP", "Notes")


@pytest.mark.parametrize(
    ("kids", "note", "held"),
    [
        ("Kit", "adults only", True),
        ("Kit, Una", "no kids pls", True),
        ("2", "just the parents", True),
        ("", "adults only", False),
        ("Kit", "kids welcome", False),
    ],
)
def test_a_note_that_no_children_come_holds_whose_children_are_listed(
    read_rows: Read, kids: str, note: str, *, held: bool
) -> None:
    _, findings = read_rows([NOTED, ("Mr. and Mrs. Tom Vale", kids, *HERE, note)])
    assert ("marker-in-list" in {found.code for found in findings}) is held


def test_words_in_brackets_in_the_place_of_a_first_name_are_asked_about(read_rows: Read) -> None:
    _, findings = read_rows([TITLED, ("Mr. & Mrs.", "(Kit will know)", "Vale", *HERE)])
    (asked,) = [found for found in findings if found.code == "name-doubtful"]
    assert asked.quoted == "(Kit will know)"


@pytest.mark.parametrize(
    ("first", "asked"),
    [("Odile & Arthur", True), ("Arthur & Odile", False), ("Robin & Kim", False)],
)
def test_a_wife_named_first_behind_titles_for_both_is_asked_about(
    read_rows: Read, first: str, *, asked: bool
) -> None:
    _, findings = read_rows([TITLED, ("Mr. & Mrs.", first, "Vale", *HERE)])
    assert ("name-doubtful" in {found.code for found in findings}) is asked
