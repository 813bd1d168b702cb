"""Whom a note names beside its row: the rows of noted_people.tsv (common practice, no source)."""

import pytest

from addressing.guestlist.people.noted_children import children_named, named_beside
from addressing.tables import table

ROWS = table("noted_people")


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['kind']}: {row['words']!a}")
def test_a_note_with_such_words_names_somebody_and_its_neighbour_does_not(
    row: dict[str, str],
) -> None:
    says, silent = row["example"], row["counter_example"]
    if row["kind"] == "no-name":
        says, silent = silent, says
    assert children_named(says)
    assert not children_named(silent)


@pytest.mark.parametrize(
    ("note", "names", "young"),
    [
        ("kids: Zora 8, Ike 5", "Zora 8, Ike 5", True),
        ("Children: Pip & Rue", "Pip & Rue", True),
        ("+ baby Otto", "Otto", True),
        ("girls too (Ivy, Pearl)", "Ivy, Pearl", True),
        ("Finn (4)", "Finn (4)", True),
        ("with Zora and Ike", "Zora and Ike", False),
        ("(the boys are Otto, 10, and Pip, 7)", "Otto 10, and Pip 7", True),
        ("(kids Zora & Pip)", "Zora & Pip", True),
        ("(twins Ivy and Ike, 4)", "Ivy and Ike 4", True),
        ("They have two boys, Otto and Pip.", "Otto and Pip", True),
        ("Ivy 9 & Ike 8mo", "Ivy 9 & Ike 8mo", True),
        ("+ Zora and Ike (both in college)", "Zora and Ike", False),
        ("their kids Zora (9) and Ike (6) are invited", "Zora (9) and Ike (6)", True),
    ],
)
def test_the_names_of_a_note_are_as_it_has_them(note: str, names: str, young: object) -> None:
    noted = named_beside(note)
    assert noted is not None
    assert (noted.names, noted.young) == (names, young)


@pytest.mark.parametrize(
    "note",
    [
        "kids not invited", "loves kids", "met at Finn's (2019)", "Table (4)", "Bus 2", "Row 5",
        "Finn (40)", "with Love and Thanks", "with Bride's side", "works with Zora", "+ Guest",
        "(Ivy, Pearl) stay home", "kids: Chicken, Pasta", "Zora's aunt", "with Aunt Ivy",
        "with Mom and Dad", "May 4", "friends, with Zora and Ike", "no kids: Zora",
        "with Zora and Ike (table 4)", "May 4, 10",
    ],
)  # fmt: skip
def test_any_other_note_names_nobody(note: str) -> None:
    assert children_named(note) == ""
