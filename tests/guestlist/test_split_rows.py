"""Names and places in columns of parts, where a column says less or more than its header."""

from collections.abc import Callable, Sequence

import pytest
from openpyxl import Workbook
from openpyxl.comments import Comment

from addressing.records.findings import Finding
from addressing.records.guests import GuestList, Kind
from addressing.tables import table

ReadRows = Callable[..., tuple[GuestList, tuple[Finding, ...]]]
PLACE: Sequence[str] = ("Street", "City", "State", "Zip")
ADDRESS: Sequence[str] = ("14 Larkmoor Lane", "Litchfield", "CT", "06759")


def codes(findings: Sequence[Finding]) -> set[str]:
    return {found.code for found in findings if found.severity.value != "note"}


def test_children_who_are_named_are_those_that_a_number_counts(read_rows: ReadRows) -> None:
    header = ("Name", "Children", "Kids", *PLACE)
    rows = [
        ("Mr. and Mrs. Tobias Wexcombe", "Kiran, Anjali", "2", *ADDRESS),
        ("Mr. and Mrs. Corwin Farrenby", "Linnet", "3", "9 Vesper Street", *ADDRESS[1:]),
    ]
    guests, findings = read_rows((header, *rows))
    children = [
        [person.given for person in home.people if person.kind is Kind.CHILD]
        for home in guests.households
    ]
    assert children == [["Kiran", "Anjali"], ["Linnet", None, None]]
    assert [found.where.cell for found in findings if found.code == "family-unnamed"] == ["A3"]


def test_a_family_whose_children_the_list_names_is_named(read_rows: ReadRows) -> None:
    header = ("Name", "Kid 1", "Kid 2", *PLACE)
    rows = [
        ("Mr. and Mrs. Tobias Wexcombe and Family", "Kiran", "Anjali", *ADDRESS),
        ("Mr. and Mrs. Corwin Farrenby and Family", "", "", "9 Vesper Street", *ADDRESS[1:]),
    ]
    _, findings = read_rows((header, *rows))
    assert [found.where.cell for found in findings if found.code == "family-unnamed"] == ["A3"]


@pytest.mark.parametrize(("title", "asked"), [("Mrs.", False), ("Ms.", True), ("Dr.", True)])
def test_a_partners_title_alone_is_never_left_out(
    read_rows: ReadRows, title: str, *, asked: bool
) -> None:
    header = ("Title", "First", "Last", "Partner Title", "Partner First", "Partner Last", *PLACE)
    guests, findings = read_rows((header, ("Mr.", "Harlan", "Grayling", title, "", "", *ADDRESS)))
    assert len(guests.households[0].people) == 2
    assert ("partner-unnamed" in codes(findings)) is asked
    if not asked:
        wife = guests.households[0].people[1]
        assert (wife.title, wife.given, wife.family) == ("Mrs.", None, "Grayling")


def test_a_first_persons_title_alone_is_nobody(read_rows: ReadRows) -> None:
    header = ("Title", "First", "Last", *PLACE)
    rows = (("Mr.", "Harlan", "Grayling", *ADDRESS), ("Mr.", "", "", *ADDRESS))
    guests, _ = read_rows((header, *rows))
    assert [len(home.people) for home in guests.households if home.people] == [1]


@pytest.mark.parametrize(
    ("above", "first"),
    [("GUEST", "SPOUSE / PARTNER / DATE"), ("Guest", "Spouse or guest"), ("Guest", "Partner")],
)
def test_the_guest_of_two_header_rows_stands_before_the_partner(
    read_rows: ReadRows, above: str, first: str
) -> None:
    header = (
        (above, None, None, first, None, None, "MAILING ADDRESS", None, None, None),
        ("Title", "First", "Last", "Title", "First", "Last", *PLACE),
    )
    row = ("Mr.", "Randall", "Wexcombe", "Mrs.", "Lorna", "Wexcombe", *ADDRESS)
    guests, _ = read_rows((*header, row))
    assert [person.given for person in guests.households[0].people] == ["Randall", "Lorna"]


@pytest.mark.parametrize(
    ("town", "place"),
    [
        ("Lancaster, PA 17602", ("Lancaster", "PA", "17602")),
        ("Willow Street PA 17584", ("Willow Street", "PA", "17584")),
        ("Brooklyn, NY", ("Brooklyn", "NY", None)),
    ],
)
@pytest.mark.parametrize("street", ["400 Tannery Hill Rd", "5 Spool Works, Unit 12", "9 Vesper St"])
def test_a_column_of_towns_may_hold_state_and_zip(
    read_rows: ReadRows, street: str, town: str, place: tuple[str, str, str | None]
) -> None:
    guests, findings = read_rows((("Name", "Street", "Town"), ("Mrs. Ida Penhew", street, town)))
    address = guests.households[0].address
    assert address is not None
    read = (address.city, address.region, address.postcode)
    assert tuple(cited.text if cited else None for cited in read) == place
    assert not codes(findings) - {"zip-missing"}
    assert ("zip-missing" in codes(findings)) is (place[2] is None)


def test_some_rows_hold_a_whole_address_and_others_its_parts(read_rows: ReadRows) -> None:
    header = ("Name", "Home Address", "Home Street", "Home Street 2", "City", "State", "Zip")
    rows = (
        ("Mr. Harlan Grayling", "9 Vesper Street\nKeene, NH 03431", "", "", "", "", ""),
        ("Ms. Odile Farrenby", "", "14 Larkmoor Lane", "Apt. 2", *ADDRESS[1:]),
        ("Mr. Bram Penhew", "3 Quarry Hill, Keene, NH 03431", "3 Quarry Hill", "", "", "", ""),
    )
    guests, findings = read_rows((header, *rows))
    homes = [home.address for home in guests.households]
    assert [str(home and home.street and home.street.text) for home in homes] == [
        "9 Vesper Street", "14 Larkmoor Lane", "3 Quarry Hill",
    ]  # fmt: skip
    assert [str(home and home.city and home.city.text) for home in homes] == [
        "Keene", "Litchfield", "Keene",
    ]  # fmt: skip
    assert not codes(findings) - {"title-missing"}


@pytest.mark.parametrize("goes_on", ["(cont.)", "where", ""])
def test_a_column_behind_the_streets_goes_on_with_them(read_rows: ReadRows, goes_on: str) -> None:
    header = ("Name", "Address", goes_on, "City, State, Zip")
    rows = (
        ("Mr. Harlan Grayling", "The Old Manse", "9 Vesper Street", "Keene, NH 03431"),
        ("Ms. Odile Farrenby", "c/o Bram Penhew", "3 Quarry Hill", "Keene, NH 03431"),
        ("Mr. Bram Penhew", "3 Quarry Hill", "Apt. 2", "Keene, NH 03431"),
    )
    guests, findings = read_rows((header, *rows))
    homes = [home.address for home in guests.households]
    streets = [home.street.text for home in homes if home and home.street]
    assert streets == ["9 Vesper Street", "3 Quarry Hill", "3 Quarry Hill"]
    assert not codes(findings) & {"column-unknown", "address-incomplete"}


def test_who_has_no_word_in_the_column_of_households_is_gathered_by_the_door(
    read_rows: ReadRows,
) -> None:
    header = ("Title", "First Name", "Last Name", "Household", *PLACE)
    rows = (
        ("Mr.", "Bram", "Penhew", "Penhew", "3 Quarry Hill", *ADDRESS[1:]),
        ("Mrs.", "Nell", "Penhew", "Penhew", "3 Quarry Hill", *ADDRESS[1:]),
        ("Dr.", "Odile", "Farrenby", "", *ADDRESS),
        ("Mr.", "Harlan", "Grayling", "", "9 Vesper Street", *ADDRESS[1:]),
        ("Dr.", "Tobias", "Farrenby", "", *ADDRESS),
    )
    guests, findings = read_rows((header, *rows))
    given = [[person.given for person in home.people] for home in guests.households]
    assert given == [["Bram", "Nell"], ["Odile", "Tobias"], ["Harlan"]]
    assert "same-door" not in codes(findings)
    stranger = ("Ms.", "Ivy", "Wexcombe", "", *ADDRESS)
    assert "same-door" in codes(read_rows((header, *rows, stranger))[1])


def test_a_household_by_the_name_of_a_row_is_not_that_row(read_rows: ReadRows) -> None:
    rows = (
        ("Mr. Bram Penhew", "", "3 Quarry Hill", *ADDRESS[1:]),
        ("Ms. Nell Wexcombe", "Row 0", "9 Vesper Street", *ADDRESS[1:]),
    )
    guests, findings = read_rows((("Name", "Household", *PLACE), *rows))
    assert len(guests.households) == 2
    assert "household-doubtful" not in codes(findings)


@pytest.mark.parametrize(
    ("street", "unit", "read"),
    [
        ("Apt. 14", "620 Larkmoor Avenue", ("620 Larkmoor Avenue", "Apt. 14", set())),
        ("9 Vesper Street", "2nd Floor", ("9 Vesper Street", "2nd Floor", set())),
        ("9 Vesper Street", "12 Rear", ("9 Vesper Street", "12 Rear", set())),
        (
            "9 Vesper Street",
            "PO Box 77",
            ("9 Vesper Street\nPO Box 77", None, set()),
        ),
    ],
)
def test_a_street_or_a_box_under_apartment_is_a_line_of_its_own(
    read_rows: ReadRows, street: str, unit: str, read: tuple[str, str | None, set[str]]
) -> None:
    header = ("Name", "Street", "Apt.", "City", "State", "Zip")
    guests, findings = read_rows((header, ("Mr. Tobias Wexcombe", street, unit, *ADDRESS[1:])))
    address = guests.households[0].address
    assert address is not None
    assert address.street is not None
    had = address.unit.text if address.unit else None
    assert (address.street.text, had, codes(findings)) == read


@pytest.mark.parametrize(
    ("last", "first", "people", "asked"),
    [
        ("Penhew / Shaw", "Amy Penhew & Brian Shaw", [("Amy", "Penhew"), ("Brian", "Shaw")], False),
        ("Penhew", "Mr. & Mrs. Lawrence Penhew", [("Lawrence", "Penhew"), (None, "Penhew")], False),
        ("Penhew", "Dr. Lenore, Mr. Alan", [("Lenore", "Penhew"), ("Alan", "Penhew")], False),
        ("Penhew", "Lt. Grace + Mr. Eric Penhew", [("Grace", "Penhew"), ("Eric", "Penhew")], False),
        ("Penhew", "Ms. Mary Ann & Mr. Bram", [("Mary Ann", "Penhew"), ("Bram", "Penhew")], False),
        (
            "Penhew",
            "Mr. Stuart & Ms. Jill Novak",
            [("Stuart", "Penhew"), ("Jill", "Novak")],
            True,
        ),
        ("Penhew", None, [(None, "Penhew")], True),
    ],
)
def test_a_family_name_that_stands_among_the_given_ones_is_not_said_twice(
    read_rows: ReadRows, last: str, first: str | None, people: list[tuple[str, str]], *, asked: bool
) -> None:
    header = ("LAST", "FIRST / FAMILY", *PLACE)
    guests, findings = read_rows((header, (last, first, *ADDRESS)))
    home = guests.households[0]
    assert [(person.given, person.family) for person in home.people] == people
    assert any(found.holds for found in findings) == asked


@pytest.mark.parametrize(
    ("title", "family", "said"),
    [
        ("Mr. & Mrs.", "", [("Mr.", "Tobias", "Wexcombe"), ("Mrs.", "Odile", "Wexcombe")]),
        ("Mr. / Ms.", "Farrenby", [("Mr.", "Tobias", "Wexcombe"), ("Ms.", "Odile", "Farrenby")]),
    ],
)
def test_the_second_of_two_titles_is_that_of_the_partner_in_the_next_column(
    read_rows: ReadRows, title: str, family: str, said: list[tuple[str, str, str]]
) -> None:
    header = ("Last", "First", "Title", "Partner first", "Partner last", *PLACE)
    guests, _ = read_rows((header, ("Wexcombe", "Tobias", title, "Odile", family, *ADDRESS)))
    people = guests.households[0].people
    assert [(person.title, person.given, person.family) for person in people] == said


def test_a_column_of_endings_is_known_by_what_stands_in_it(read_rows: ReadRows) -> None:
    """Its header says nothing known; “Jr.” must not fall from an envelope for that."""
    header = ("Title", "First", "Last", "Addition", *PLACE)
    rows = [
        ("Mr.", "Tobias", "Wexcombe", "Jr.", *ADDRESS),
        ("Dr.", "Odile", "Farrenby", "", "9 Vesper Street", *ADDRESS[1:]),
    ]
    guests, _ = read_rows((header, *rows))
    assert [home.people[0].suffix for home in guests.households] == ["Jr.", None]


@pytest.mark.parametrize("cell", ["no kids", "baby stays home", "None", "not coming"])
def test_children_who_are_not_invited_are_not_printed(read_rows: ReadRows, cell: str) -> None:
    guests, findings = read_rows(
        (("Name", "Kids", *PLACE), ("Mr. and Mrs. Tobias Wexcombe", cell, *ADDRESS))
    )
    assert [person.kind for person in guests.households[0].people] == [Kind.NAMED, Kind.NAMED]
    assert not codes(findings)


def test_unnamed_children_in_their_column_leave_the_names_of_the_household(
    read_rows: ReadRows,
) -> None:
    guests, findings = read_rows(
        (("Name", "Kids", *PLACE), ("Mr. and Mrs. Tobias Wexcombe", "the kids", *ADDRESS))
    )
    assert guests.households[0].label is None
    assert "family-unnamed" in codes(findings)


def test_a_comment_on_a_name_asks_what_the_same_words_in_a_note_ask(
    read_rows: ReadRows,
) -> None:
    rows = (("Name", *PLACE), ("Odile Wexcombe", *ADDRESS))
    said = "her husband is Bram Lorne, he's invited"

    def comment(book: Workbook) -> None:
        book.worksheets[0]["A2"].comment = Comment(said, "Mum")

    _, findings = read_rows(rows, comment)
    assert [found.where.cell for found in findings if found.code == "name-noted"] == ["A2"]


@pytest.mark.parametrize("cell", ["???", "?", "--", "n/a", "xx"])
def test_marks_for_an_address_are_none_and_never_printed(read_rows: ReadRows, cell: str) -> None:
    guests, findings = read_rows((("Name", "Address"), ("Odile Wexcombe", cell)))
    assert guests.households[0].address is None
    assert "address-missing" in {found.code for found in findings}


OPEN = [row for row in table("row_words") if row["kind"] == "no-part"]


@pytest.mark.parametrize("word", [*(row["example"] for row in OPEN), "?", "—"])
def test_a_family_name_that_isnt_known_yet_is_asked_for(read_rows: ReadRows, word: str) -> None:
    header = ("Title", "First", "Last", *PLACE)
    guests, findings = read_rows((header, ("Mr.", "Tobias", word, *ADDRESS)))
    assert [person.family for person in guests.households[0].people] == [None]
    assert [f.where.cell for f in findings if f.code == "name-doubtful" and f.holds] == ["C2"]


@pytest.mark.parametrize("row", OPEN, ids=lambda row: row["word"])
def test_a_name_that_begins_with_such_a_word_stays_a_name(
    read_rows: ReadRows, row: dict[str, str]
) -> None:
    header = ("First", "Last", *PLACE)
    guests, _ = read_rows((header, ("Tobias", row["counter_example"], *ADDRESS)))
    assert guests.households[0].people[0].family == row["counter_example"]


@pytest.mark.parametrize(
    ("meal", "kind"),
    [
        *((row["example"], Kind.CHILD) for row in table("row_words") if row["kind"] == "meal"),
        ("kid", Kind.CHILD),
        ("Kid's meal", Kind.CHILD),
        ("Kids", Kind.CHILD),
        ("Fish", Kind.NAMED),
        ("beef, kid declined", Kind.NAMED),
        ("1 kid", Kind.NAMED),
    ],
)
def test_who_eats_a_childs_meal_in_a_row_of_their_own_is_a_child(
    read_rows: ReadRows, meal: str, kind: Kind
) -> None:
    header = ("First", "Last", "Meal", *PLACE)
    guests, _ = read_rows((header, ("Linnet", "Wexcombe", meal, *ADDRESS)))
    assert [person.kind for person in guests.households[0].people] == [kind]


def test_a_child_who_stands_in_the_cell_of_names_too_is_one_child(read_rows: ReadRows) -> None:
    header = ("Name", "Kids", *PLACE)
    names = "Tobias, Odile, Linnet & Jonah Wexcombe"
    guests, findings = read_rows((header, (names, "Linnet (9), Jonah", *ADDRESS)))
    people = [(p.given, p.kind, p.age) for p in guests.households[0].people]
    assert people == [
        ("Tobias", Kind.NAMED, None),
        ("Odile", Kind.NAMED, None),
        ("Linnet", Kind.CHILD, 9),
        ("Jonah", Kind.CHILD, None),
    ]
    assert "children-unsaid" not in codes(findings)


def test_a_child_who_has_a_grown_ones_name_stays_another(read_rows: ReadRows) -> None:
    header = ("Name", "Kids", *PLACE)
    guests, _ = read_rows((header, ("Tobias Wexcombe", "Tobias", *ADDRESS)))
    kinds = [person.kind for person in guests.households[0].people]
    assert kinds == [Kind.NAMED, Kind.CHILD]


def test_a_partners_other_family_name_stands_before_the_remark_in_the_cell(
    read_rows: ReadRows,
) -> None:
    header = ("First", "Last", "Spouse / partner", "Their last name (if diff)", *PLACE)
    rows = (
        ("Tobias", "Wexcombe", "Jonas (husband)", "Orr", *ADDRESS),
        ("Odile", "Farrenby", "Kit", "", "9 Vesper Street", *ADDRESS[1:]),
    )
    guests, _ = read_rows((header, *rows))
    people = [[(p.given, p.family) for p in home.people] for home in guests.households]
    assert people == [
        [("Tobias", "Wexcombe"), ("Jonas", "Orr")],
        [("Odile", "Farrenby"), ("Kit", "Farrenby")],
    ]


def test_a_family_beside_people_of_another_cell_is_asked_about(read_rows: ReadRows) -> None:
    header = ("Name", "Partner", *PLACE)
    rows = (
        ("The Wexcombes", "Tobias + Odile", *ADDRESS),
        ("The Farrenbys", "", "9 Vesper Street", *ADDRESS[1:]),
    )
    _, findings = read_rows((header, *rows))
    held = [f.where.cell for f in findings if f.code == "name-doubtful" and f.holds]
    assert held == ["A2"]


@pytest.mark.parametrize(
    "header", ["Kids at home? Names + ages", "Names & ages of children", "Any kids?"]
)
def test_a_question_for_the_children_is_a_column_of_children(
    read_rows: ReadRows, header: str
) -> None:
    guests, _ = read_rows((("Name", header, *PLACE), ("Tobias Orr", "Linnet (4)", *ADDRESS)))
    kinds = [(p.given, p.kind) for p in guests.households[0].people]
    assert kinds == [("Tobias", Kind.NAMED), ("Linnet", Kind.CHILD)]


@pytest.mark.parametrize(
    ("cell", "children", "told"),
    [
        ("3 boys", [None] * 3, False),
        ("two girls", [None] * 2, False),
        ("1 boy", [None], False),
        ("none yet", [], False),
        ("Linnet 12, Jonah 9, baby on the way", ["Linnet", "Jonah"], True),
        ("Linnet, expecting", ["Linnet"], True),
        ("baby due in May", [], True),
        ("Linnet & Jonah Due", ["Linnet", "Jonah"], False),
        ("linnet and jonah", ["linnet", "jonah"], False),
    ],
)
def test_a_column_of_children_counts_them_and_names_nobody_unborn(
    read_rows: ReadRows, cell: str, children: list[str | None], *, told: bool
) -> None:
    header = ("Name", "Children", *PLACE)
    guests, findings = read_rows((header, ("Tobias and Odile Wexcombe", cell, *ADDRESS)))
    people = [p for p in guests.households[0].people if p.kind is Kind.CHILD]
    assert [person.given for person in people] == children
    assert {person.family for person in people} <= {None, "Due", "Wexcombe"}
    assert ("remark" in {f.code for f in findings}) is told


@pytest.mark.parametrize("row", [r for r in table("row_words") if r["kind"] == "unborn"])
def test_the_words_for_a_child_to_be_born_name_nobody(
    read_rows: ReadRows, row: dict[str, str]
) -> None:
    header = ("Name", "Children", *PLACE)
    for cell, children in ((row["example"], 0), (row["counter_example"], 1)):
        guests, _ = read_rows((header, ("Tobias and Odile Wexcombe", cell, *ADDRESS)))
        found = [p for p in guests.households[0].people if p.kind is Kind.CHILD and p.given]
        assert len(found) == children, cell


@pytest.mark.parametrize(("said", "guests"), [("yes", 1), ("1", 1), ("", 1), ("2", 3)])
def test_a_companion_of_the_cell_of_names_is_the_one_of_the_column(
    read_rows: ReadRows, said: str, guests: int
) -> None:
    header = ("Name", "Plus one?", *PLACE)
    found, _ = read_rows((header, ("Mr. Tobias Wexcombe and Guest", said, *ADDRESS)))
    kinds = [p.kind for p in found.households[0].people if p.kind is Kind.GUEST]
    assert len(kinds) == guests


@pytest.mark.parametrize("given", ["The", "the", "THE"])
def test_the_before_a_family_name_in_columns_is_a_familys_label(
    read_rows: ReadRows, given: str
) -> None:
    guests, findings = read_rows(
        [
            ("First name", "Last name", *PLACE),
            (given, "Penhews", *ADDRESS),
            ("Kit", "Orr", *ADDRESS),
        ]
    )
    assert guests.households[0].name == "The Penhews"
    assert guests.households[0].people == ()
    assert "name-doubtful" not in codes(findings)
