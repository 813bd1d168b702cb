"""Lists of one row a guest that say themselves whose family a row is, and who is who in it."""

from collections.abc import Callable

import pytest

from addressing.records.findings import Finding
from addressing.records.guests import GuestList, Kind

ReadRows = Callable[..., tuple[GuestList, tuple[Finding, ...]]]

HEADER = ("Name", "Address", "City", "State", "ZIP")
WEXCOMBE = ("14 Larkmoor Lane", "Asheville", "NC", "28803")
FARRENBY = ("220 Vesper Road", "Decatur", "GA", "30030")
PENHEW = ("9 Bellhaven Court", "Ithaca", "NY", "14850")


def test_empty_rows_between_families_say_whose_a_row_without_an_address_is(
    read_rows: ReadRows,
) -> None:
    guests, findings = read_rows(
        [
            HEADER,
            ("Mr. Tobias Wexcombe", *WEXCOMBE),
            ("Mrs. Odile Wexcombe",),
            (),
            ("Linnet Farrenby", *FARRENBY),
            ("Corwin Orr",),
            (),
            ("Ysolde Penhew", *PENHEW),
            ("Bram",),
        ]
    )
    names = [[person.given for person in home.people] for home in guests.households]
    assert names == [["Tobias", "Odile"], ["Linnet", "Corwin"], ["Ysolde", "Bram"]]
    assert not [found for found in findings if found.holds]


def test_empty_rows_among_rows_with_addresses_gather_nobody(read_rows: ReadRows) -> None:
    guests, _ = read_rows(
        [
            HEADER,
            ("Mr. Tobias Wexcombe", *WEXCOMBE),
            ("Ms. Linnet Farrenby", *FARRENBY),
            (),
            ("Ysolde Penhew", *PENHEW),
            ("Corwin Orr",),
            (),
            ("Bram Tarn", "3 Mill Street", "Ithaca", "NY", "14850"),
            ("Kit Tarn", "5 Mill Street", "Ithaca", "NY", "14850"),
        ]
    )
    assert len(guests.households) == 6


@pytest.mark.parametrize("address", [(), WEXCOMBE], ids=["empty", "repeated"])
@pytest.mark.parametrize(
    ("wife", "child", "age"),
    [
        ("Odile Wexcombe (wife)", "Una Wexcombe (daughter, 6)", 6),
        ("Odile Wexcombe, wife", "Una Wexcombe (daughter 6)", 6),
        ("Odile Wexcombe (wife of Tobias)", "Una Wexcombe - daughter, 6", 6),
        ("Odile Wexcombe - his wife", "Una Wexcombe (daughter)", None),
    ],
)
def test_who_somebody_is_behind_a_name_is_no_companion(
    wife: str, child: str, age: int | None, address: tuple[str, ...], read_rows: ReadRows
) -> None:
    guests, findings = read_rows(
        [HEADER, ("Tobias Wexcombe", *WEXCOMBE), (wife, *address), (child, *address)]
    )
    (home,) = guests.households
    assert [(p.given, p.kind, p.age) for p in home.people] == [
        ("Tobias", Kind.NAMED, None),
        ("Odile", Kind.NAMED, None),
        ("Una", Kind.CHILD, age),
    ]
    asked = {found.code for found in findings if found.severity.value == "ask"}
    assert asked == {"title-missing"} | ({"children-assumed"} if age is None else set())


def test_a_word_for_a_wife_behind_one_who_stands_alone_is_a_wife_without_a_name(
    read_rows: ReadRows,
) -> None:
    _, findings = read_rows(
        [HEADER, ("Tobias Wexcombe (wife)", *WEXCOMBE), ("Linnet Farrenby", *FARRENBY)]
    )
    assert "partner-unnamed" in {found.code for found in findings}


def test_a_column_that_says_who_each_is_makes_sons_children_and_asks(read_rows: ReadRows) -> None:
    guests, findings = read_rows(
        [
            ("Name", "Who", *HEADER[1:]),
            ("Tobias Wexcombe", "head", *WEXCOMBE),
            ("Odile Wexcombe", "wife"),
            ("Bram Wexcombe", "son"),
            ("Linnet Farrenby", "head", *FARRENBY),
            ("Corwin Orr", "husband"),
        ]
    )
    assert [[p.kind.value for p in home.people] for home in guests.households] == [
        ["named", "named", "child"],
        ["named", "named"],
    ]
    assert [f.where.cell for f in findings if f.code == "children-assumed"] == ["A4"]
    assert guests.households[1].people[1].joined


@pytest.mark.parametrize("mark", ["Adult", ""])
def test_who_is_of_age_by_a_column_is_not_asked_about(mark: str, read_rows: ReadRows) -> None:
    _, findings = read_rows(
        [
            ("Household", "Name", "Adult/Child", *HEADER[1:]),
            ("A", "Tobias Wexcombe", mark, *WEXCOMBE),
            ("A", "Odile Wexcombe", mark, *WEXCOMBE),
            ("A", "Bram Wexcombe", mark, *WEXCOMBE),
            ("B", "Linnet Farrenby", mark, *FARRENBY),
            ("B", "Una Farrenby", "Child", *FARRENBY),
        ]
    )
    assert "children-unsaid" not in {found.code for found in findings}


@pytest.mark.parametrize(
    ("given", "family"),
    [
        ("+1", "Wexcombe"),
        ("+1", ""),
        ("Tobias's plus one", ""),
        ("Tobias's +1", "Wexcombe"),
        ("Plus One", "Wexcombe"),
        ("Plus one of Tobias", ""),
        ("+1 (Tobias)", ""),
    ],
)
def test_a_plus_one_on_a_row_of_its_own_is_nobodys_name(
    given: str, family: str, read_rows: ReadRows
) -> None:
    guests, findings = read_rows(
        [
            ("Party", "First", "Last", *HEADER[1:]),
            ("1", "Tobias", "Wexcombe", *WEXCOMBE),
            ("1", given, family, *WEXCOMBE),
            ("2", "Linnet", "Farrenby", *FARRENBY),
        ]
    )
    people = guests.households[0].people
    assert [(p.given, p.kind) for p in people] == [("Tobias", Kind.NAMED), (None, Kind.GUEST)]
    assert not [found for found in findings if found.holds]


def test_a_guest_of_somebody_behind_a_family_name_is_nobodys_name(read_rows: ReadRows) -> None:
    guests, _ = read_rows(
        [
            HEADER,
            ("Wexcombe, Tobias", *WEXCOMBE),
            ("Wexcombe, Guest of Tobias", *WEXCOMBE),
            ("Farrenby, Linnet", *FARRENBY),
            ("Penhew, Ysolde", *PENHEW),
        ]
    )
    assert [p.kind for p in guests.households[0].people] == [Kind.NAMED, Kind.GUEST]


@pytest.mark.parametrize(("cell", "count"), [("Kids (2)", 2), ("2 kids", 2), ("Child 1", 1)])
def test_children_by_number_on_a_row_of_their_own_are_asked_for_once(
    cell: str, count: int, read_rows: ReadRows
) -> None:
    guests, findings = read_rows(
        [
            ("Household", *HEADER),
            ("A", "Mr. Tobias Wexcombe", *WEXCOMBE),
            ("A", cell),
            ("B", "Ms. Linnet Farrenby", *FARRENBY),
        ]
    )
    assert [p.kind for p in guests.households[0].people] == [Kind.NAMED, *[Kind.CHILD] * count]
    assert [f.code for f in findings if f.severity.value == "ask"] == ["family-unnamed"]


def test_nobody_but_unnamed_children_is_no_envelope(read_rows: ReadRows) -> None:
    _, findings = read_rows([HEADER, ("2 kids", *WEXCOMBE), ("Linnet Farrenby", *FARRENBY)])
    assert [f.holds for f in findings if f.code == "name-missing"] == [True]


def test_pronouns_behind_a_name_are_no_name(read_rows: ReadRows) -> None:
    guests, findings = read_rows([HEADER, ("Linnet Farrenby they/them", *FARRENBY)])
    assert [(p.given, p.family) for p in guests.households[0].people] == [("Linnet", "Farrenby")]
    assert not [found for found in findings if found.holds]


def test_a_reverends_wife_by_his_name_is_not_asked_about(read_rows: ReadRows) -> None:
    _, findings = read_rows(
        [
            HEADER,
            ("Rev. Thomas Wexcombe", *WEXCOMBE),
            ("Mrs. Thomas Wexcombe", *WEXCOMBE),
            ("Ms. Linnet Farrenby", *FARRENBY),
        ]
    )
    assert "duplicate-probable" not in {found.code for found in findings}


@pytest.mark.parametrize(
    ("age", "kind", "years"),
    [
        ("Child", Kind.CHILD, None),
        ("INFANT", Kind.CHILD, None),
        ("8 mo", Kind.CHILD, 0),
        ("7 yrs", Kind.CHILD, 7),
        ("7", Kind.CHILD, 7),
        ("Adult", Kind.NAMED, None),
        ("34", Kind.NAMED, 34),
    ],
)
def test_a_column_of_ages_may_hold_words_and_months(
    age: str, kind: Kind, years: int | None, read_rows: ReadRows
) -> None:
    guests, _ = read_rows(
        [("Name", "Age", *HEADER[1:]), ("Ms. Linnet Farrenby", "Adult", *FARRENBY),
         ("Bram Farrenby", age, *FARRENBY), ("Mr. Corwin Orr", "", *PENHEW)]
    )  # fmt: skip
    bram = guests.households[0].people[1]
    assert (bram.kind, bram.age) == (kind, years)


@pytest.mark.parametrize("note", ["7 yrs old", "age 7", "7yo", "8 months"])
def test_a_note_of_an_age_alone_makes_a_child(note: str, read_rows: ReadRows) -> None:
    guests, _ = read_rows(
        [
            (*HEADER, "Notes"),
            ("Ms. Linnet Farrenby", *FARRENBY, ""),
            ("Bram Farrenby", *FARRENBY, note),
            ("Mr. Corwin Orr", *PENHEW, "table 7"),
        ]
    )
    assert [p.kind for p in guests.households[0].people] == [Kind.NAMED, Kind.CHILD]
    assert guests.households[1].people[0].kind is Kind.NAMED


def test_parents_of_one_age_are_not_told_to_have_envelopes_of_their_own(
    read_rows: ReadRows,
) -> None:
    _, findings = read_rows(
        [
            ("Name", "Age", *HEADER[1:]),
            ("Mr. Tobias Wexcombe", "61", *WEXCOMBE),
            ("Mrs. Odile Wexcombe", "60", *WEXCOMBE),
            ("Linnet Wexcombe", "19", *WEXCOMBE),
        ]
    )
    assert [f.where.cell for f in findings if f.code == "own-envelope"] == ["A4"]


def test_a_column_of_families_gives_first_names_their_family_name(read_rows: ReadRows) -> None:
    guests, findings = read_rows(
        [
            ("Family", "Member", "Type", *HEADER[1:]),
            ("WEXCOMBE", "Tobias", "A", *WEXCOMBE),
            ("WEXCOMBE", "Odile", "A"),
            ("WEXCOMBE", "Una", "I"),
            ("The Farrenby Family", "Linnet", "A", *FARRENBY),
            ("The Farrenby Family", "Corwin Orr", "A"),
            ("Penhew", "Bram", "A", *PENHEW),
        ]
    )
    names = [[(p.given, p.family) for p in home.people] for home in guests.households]
    assert names == [
        [("Tobias", "WEXCOMBE"), ("Odile", "WEXCOMBE"), ("Una", "WEXCOMBE")],
        [("Linnet", "Farrenby"), ("Corwin", "Orr")],
        [("Bram", "Penhew")],
    ]
    assert guests.households[0].people[2].kind is Kind.CHILD
    assert {c.cell for c in guests.households[2].people[0].cells} == {"B7", "A7"}
    assert not [found for found in findings if found.holds]


def test_a_column_of_groups_gives_nobody_a_family_name(read_rows: ReadRows) -> None:
    guests, _ = read_rows(
        [
            ("Group", "Name", *HEADER[1:]),
            ("College", "Bram", *WEXCOMBE),
            ("Work", "Linnet", *FARRENBY),
            ("Work", "Una", *FARRENBY),
        ]
    )
    assert all(p.family is None for home in guests.households for p in home.people)


@pytest.mark.parametrize(
    "who", ["Kelly (Tobias's girlfriend)", "Kelly (fiancée)", "Kelly, roommate"]
)
def test_who_is_of_another_family_by_the_list_is_not_given_this_one(
    who: str, read_rows: ReadRows
) -> None:
    guests, findings = read_rows(
        [HEADER, ("Tobias Wexcombe", *WEXCOMBE), (who, *WEXCOMBE), ("Bram Orr", *PENHEW)]
    )
    kelly = guests.households[0].people[1]
    assert (kelly.given, kelly.family) == ("Kelly", None)
    assert "surname-missing" in {found.code for found in findings}


def test_a_first_name_alone_below_two_families_is_asked_about(read_rows: ReadRows) -> None:
    _, findings = read_rows(
        [
            ("Household", *HEADER),
            ("1", "Tobias Wexcombe", *WEXCOMBE),
            ("1", "Linnet Farrenby"),
            ("1", "Bram"),
            ("2", "Bram Orr", *PENHEW),
        ]
    )
    assert [f.where.cell for f in findings if f.code == "surname-missing"] == ["B4"]


def test_her_nurse_on_a_row_of_its_own_is_a_companion(read_rows: ReadRows) -> None:
    guests, _ = read_rows(
        [HEADER, ("Mrs. Odile Wexcombe", *WEXCOMBE), ("her nurse", *WEXCOMBE), ("Kit Orr", *PENHEW)]
    )
    assert [p.kind for p in guests.households[0].people] == [Kind.NAMED, Kind.GUEST]


def test_a_companion_who_has_a_row_is_the_one_whom_a_yes_promises(read_rows: ReadRows) -> None:
    guests, _ = read_rows(
        [
            ("Party", "Name", "Plus One Allowed", *HEADER[1:]),
            ("1", "Tobias Wexcombe", "Yes", *WEXCOMBE),
            ("1", "Guest of Tobias Wexcombe", "No", *WEXCOMBE),
            ("2", "Kit Orr", "Yes", *PENHEW),
        ]
    )
    kinds = [[p.kind.value for p in home.people] for home in guests.households]
    assert kinds == [["named", "guest"], ["named", "guest"]]


@pytest.mark.parametrize(
    "other",
    [
        ("14 Larkmore Lane", *WEXCOMBE[1:]),
        (*WEXCOMBE[:3], "28830"),
        ("14 Larkmoor", *WEXCOMBE[1:]),
    ],
)
def test_two_of_one_family_at_nearly_one_door_are_asked_about(
    other: tuple[str, ...], read_rows: ReadRows
) -> None:
    _, findings = read_rows(
        [HEADER, ("Tobias Wexcombe", *WEXCOMBE), ("Odile Wexcombe", *other), ("Kit Orr", *PENHEW)]
    )
    assert sum(f.code == "household-doubtful" for f in findings) == 2


@pytest.mark.parametrize(
    ("name", "other"),
    [
        ("Odile Wexcombe", ("16 Larkmoor Lane", *WEXCOMBE[1:])),
        ("Odile Wexcombe", ("41 Larkmoor Lane", *WEXCOMBE[1:])),
        ("Odile Wexcombe", ("14 Larkmoor Road", *WEXCOMBE[1:])),
        ("Odile Wexcombe", FARRENBY),
        ("Odile Orr", ("14 Larkmore Lane", *WEXCOMBE[1:])),
    ],
)
def test_a_neighbour_and_another_family_are_not_asked_about(
    name: str, other: tuple[str, ...], read_rows: ReadRows
) -> None:
    _, findings = read_rows(
        [HEADER, ("Tobias Wexcombe", *WEXCOMBE), (name, *other), ("Kit Orr", *PENHEW)]
    )
    assert "household-doubtful" not in {found.code for found in findings}


def test_a_row_of_nothing_but_na_names_nobody(read_rows: ReadRows) -> None:
    guests, _ = read_rows(
        [(*HEADER, "Comments"), ("Kit Orr", *PENHEW), ("n/a", "n/a", "", "", "", "test")]
    )
    assert len(guests.households) == 1
    assert [row.row for row in guests.unused] == [3]


def test_a_number_typed_in_another_order_is_asked_about(read_rows: ReadRows) -> None:
    _, findings = read_rows(
        [
            HEADER,
            ("Tobias Wexcombe", "350 Larkmoor Lane", *WEXCOMBE[1:]),
            ("Odile Wexcombe", "305 Larkmoor Lane", *WEXCOMBE[1:]),
        ]
    )
    assert sum(f.code == "household-doubtful" for f in findings) == 2


@pytest.mark.parametrize(("cell", "count"), [("Wexcombe, Baby", 1), ("Wexcombe kids (2)", 2)])
def test_children_without_a_name_behind_a_family_name_are_asked_for(
    cell: str, count: int, read_rows: ReadRows
) -> None:
    guests, _ = read_rows(
        [
            HEADER,
            ("Wexcombe, Tobias", *WEXCOMBE),
            (cell,),
            ("Farrenby, Linnet", *FARRENBY),
            ("Penhew, Ysolde", *PENHEW),
        ]
    )
    people = guests.households[0].people
    assert [(p.given, p.kind) for p in people[1:]] == [(None, Kind.CHILD)] * count


def test_a_first_name_alone_before_a_partners_whole_name_is_asked_about(
    read_rows: ReadRows,
) -> None:
    _, findings = read_rows(
        [
            ("Your name", "Partner", *HEADER[1:]),
            ("Odile", "Corwin Orr", *WEXCOMBE),
            ("Kit Orr", "", *PENHEW),
        ]
    )
    assert [f.where.cell for f in findings if f.code == "surname-missing"] == ["A2"]
