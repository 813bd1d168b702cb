"""Names under "Adults", "Parents", "Household" and "Salutation": what the cells below them tell."""

from collections.abc import Callable

import pytest

from addressing.records.findings import Finding
from addressing.records.guests import GuestList, Household, Kind

Read = tuple[GuestList, tuple[Finding, ...]]
ReadRows = Callable[..., Read]
HOMES = [(f"{number} Larkmoor Lane", "Litchfield", "CT", "06759") for number in (3, 14, 25, 36)]


def rows_of(header: tuple[str, ...], *rows: tuple[str, ...]) -> list[tuple[str, ...]]:
    homes = zip(rows, HOMES, strict=False)
    return [(*header, "Street", "City", "State", "ZIP"), *((*row, *home) for row, home in homes)]


def named(home: Household) -> list[str]:
    grown = (p for p in home.people if p.kind is Kind.NAMED)
    return [" ".join(word for word in (p.title, p.given, p.family) if word) for p in grown]


def held(findings: tuple[Finding, ...]) -> list[str]:
    return [found.code for found in findings if found.holds]


@pytest.mark.parametrize("header", ["Adults", "Parents", "Grown-ups", "First Names"])
@pytest.mark.parametrize("over", ["Family", "Household"])
def test_a_household_beside_first_names_is_the_familys_name(
    read_rows: ReadRows, header: str, over: str
) -> None:
    guests, findings = read_rows(
        rows_of(
            (over, header, "Kids"),
            ("The Wexcombe Family", "Tobias & Odile", "Linnet"),
            ("Penhew", "Rufus", ""),
            ("Farrenby / Orr", "Nell Farrenby & Hugo Orr", ""),
        )
    )
    assert [named(home) for home in guests.households] == [
        ["Tobias Wexcombe", "Odile Wexcombe"],
        ["Rufus Penhew"],
        ["Nell Farrenby", "Hugo Orr"],
    ]
    assert not held(findings)


def test_a_family_in_the_plural_beside_first_names_is_asked_about(read_rows: ReadRows) -> None:
    rows = rows_of(
        ("Household", "Adults"), ("The Penhews", "Rufus & Nell"), ("Wexcombe", "Odile & Tobias")
    )
    _, findings = read_rows(rows)
    assert held(findings) == ["name-doubtful"]


def test_adults_with_full_names_go_before_the_households_name(read_rows: ReadRows) -> None:
    rows = rows_of(
        ("Household name", "Adults"),
        ("Grandparents", "Tobias and Odile Wexcombe"),
        ("Penhew / Orr", "Rufus Penhew & Nell Orr"),
    )
    guests, findings = read_rows(rows)
    assert [named(home) for home in guests.households] == [
        ["Tobias Wexcombe", "Odile Wexcombe"],
        ["Rufus Penhew", "Nell Orr"],
    ]
    assert not held(findings)


def test_adults_over_numbers_are_counted(read_rows: ReadRows) -> None:
    rows = rows_of(("Household", "Adults"), ("Tobias Wexcombe", "1"), ("Rufus & Nell Orr", "2"))
    guests, _ = read_rows(rows)
    assert [named(home) for home in guests.households] == [
        ["Tobias Wexcombe"],
        ["Rufus Orr", "Nell Orr"],
    ]


def test_a_salutation_gives_its_titles_and_a_pet_name_words_the_inner(read_rows: ReadRows) -> None:
    rows = rows_of(
        ("Guest", "Salutation"),
        ("Odile & Tobias Wexcombe", "Mr. and Mrs. Wexcombe"),
        ("Nell Farrenby and guest", "Ms. Farrenby"),
        ("Rufus & Maud Penhew", "Grandma and Grandpa"),
    )
    guests, findings = read_rows(rows)
    assert [named(home) for home in guests.households] == [
        ["Mr. Tobias Wexcombe", "Mrs. Odile Wexcombe"],
        ["Ms. Nell Farrenby"],
        ["Rufus Penhew", "Maud Penhew"],
    ]
    inner = [home.inner.text if home.inner else None for home in guests.households]
    assert inner == [None, None, "Grandma and Grandpa"]
    assert not held(findings)


def test_a_salutation_in_full_is_for_the_envelope(read_rows: ReadRows) -> None:
    rows = rows_of(
        ("Guest", "Salutation"),
        ("Toby & Odile Wexcombe", "Mr. and Mrs. Tobias Wexcombe"),
        ("Nell Farrenby", "Ms. Nell Farrenby"),
    )
    guests, _ = read_rows(rows)
    assert [named(home) for home in guests.households][1] == ["Ms. Nell Farrenby"]
    assert len(named(guests.households[0])) == 2


@pytest.mark.parametrize(("one", "other"), [("Husband", "Wife"), ("Guest 1", "Guest 2")])
def test_of_an_empty_first_person_the_other_has_the_family_name(
    read_rows: ReadRows, one: str, other: str
) -> None:
    rows = rows_of(
        ("Last Name", one, other), ("Wexcombe", "", "Odile"), ("Penhew", "Rufus", "Nell")
    )
    guests, findings = read_rows(rows)
    assert [named(home) for home in guests.households] == [
        ["Odile Wexcombe"],
        ["Rufus Penhew", "Nell Penhew"],
    ]
    assert "partner-family-assumed" not in {found.code for found in findings}


@pytest.mark.parametrize("label", ["Familia", "Famille", "Familie", "Fam."])
def test_a_word_for_a_family_in_the_column_of_first_names_is_no_first_name(
    read_rows: ReadRows, label: str
) -> None:
    rows = rows_of(("First", "Last"), (label, "Wexcombe"), ("Odile", "Penhew"))
    guests, findings = read_rows(rows)
    assert guests.households[0].name == f"{label} Wexcombe"
    assert not held(findings)


def test_first_names_behind_a_companion_without_a_name_are_children(read_rows: ReadRows) -> None:
    rows = rows_of(
        ("Guest 1", "Guest 2", "Guest 3"), ("Tobias Penhew", "Plus one", "Linnet"),
        ("Odile Wexcombe", "", ""),
    )  # fmt: skip
    guests, findings = read_rows(rows)
    assert [p.kind for p in guests.households[0].people] == [Kind.NAMED, Kind.GUEST, Kind.CHILD]
    assert "children-assumed" in {found.code for found in findings}


def test_two_titles_beside_more_names_are_those_of_the_first_two(read_rows: ReadRows) -> None:
    rows = rows_of(
        ("Title", "First", "Last"), ("Mr. & Mrs.", "Tobias, Odile, Linnet and Kit", "Wexcombe"),
        ("Ms.", "Nell", "Farrenby"),
    )  # fmt: skip
    guests, findings = read_rows(rows)
    assert named(guests.households[0]) == ["Mr. Tobias Wexcombe", "Mrs. Odile Wexcombe"]
    assert "children-assumed" in {found.code for found in findings}


@pytest.mark.parametrize(
    ("said", "children"), [("no", []), ("yes - 2", [None, None]), ("Linnet (7)", ["Linnet"])]
)
def test_a_column_that_asks_whether_children_are_invited_names_them(
    read_rows: ReadRows, said: str, children: list[str | None]
) -> None:
    rows = rows_of(("Name", "Kids invited?"), ("Tobias & Odile Wexcombe", said))
    guests, _ = read_rows(rows)
    young = [p.given for p in guests.households[0].people if p.kind is Kind.CHILD]
    assert young == children


def test_a_companions_first_name_alone_is_asked_for_the_family_name(read_rows: ReadRows) -> None:
    rows = rows_of(("Name", "Plus one"), ("Tobias Wexcombe", "Odile"), ("Nell Orr", "no"))
    _, findings = read_rows(rows)
    assert "surname-missing" in {found.code for found in findings}


def test_an_uncle_beside_an_aunt_has_her_family_name(read_rows: ReadRows) -> None:
    rows = rows_of(("First", "Last", "Plus one"), ("Aunt Odile", "Wexcombe", "Uncle Tobias"))
    guests, findings = read_rows(rows)
    assert [p.family for p in guests.households[0].people] == ["Wexcombe", "Wexcombe"]
    assert "surname-missing" not in {found.code for found in findings}
