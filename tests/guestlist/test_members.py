"""A column that asks who is in the household: children are set, more grown people asked about."""

from collections.abc import Callable

import pytest

from addressing.guestlist.rows.members import members
from addressing.records.findings import Finding
from addressing.records.guests import GuestList, Kind
from addressing.tables import table

Read = Callable[..., tuple[GuestList, tuple[Finding, ...]]]
HEADER = (
    "Name",
    "Who is in your household? (kids' ages please!)",
    "Street",
    "City",
    "State",
    "ZIP",
)
HOME = ("14 Larkmoor Lane", "Litchfield", "CT", "06759")
ROWS = table("row_words")


def read(read_rows: Read, name: str, said: str) -> tuple[list[str], list[tuple[str, str]]]:
    """The children's given names, and (words quoted, names proposed) of what is asked."""
    guest_list, findings = read_rows([HEADER, (name, said, *HOME)])
    children = [p.given or "" for p in guest_list.households[0].people if p.kind is Kind.CHILD]
    asked = [
        (each.quoted, dict(each.likely).get("names", ""))
        for each in findings
        if each.code == "name-noted"
    ]
    return children, asked


@pytest.mark.parametrize(
    ("name", "said", "children"),
    [
        ("Mr. & Mrs. Tobias Penhew Jr.", "Toby, Odile, Kit III (15), Maisie 12", ["Kit", "Maisie"]),
        ("Tobias & Odile Penhew", "Tobias, Odile and baby Una (8 months)", ["Una"]),
        ("Tobias & Odile Penhew & Una", "Tobias, Odile, Una (4)", ["Una"]),
    ],
)  # common practice, no source
def test_those_under_age_are_children_of_the_household(
    read_rows: Read, name: str, said: str, children: list[str]
) -> None:
    assert read(read_rows, name, said) == (children, [])


@pytest.mark.parametrize(
    ("name", "said", "likely"),
    [
        ("Odile Penhew", "Odile, plus Kit", ""),
        ("Odile Penhew", "Dilly (me), my husband Kit Orr", "Odile Penhew and Kit Orr"),
        ("Odile Penhew", "Odile, husband Kit", "Odile Penhew and Kit Penhew"),
        ("Mr. & Mrs. Tobias Penhew", "Tobias, Odile, Wren (24)", ""),
        ("Mr. & Mrs. Tobias Penhew", "Tobias, Odile, my mother Wren Orr", ""),
    ],
)  # common practice, no source
def test_more_grown_people_than_the_envelope_has_are_asked_about(
    read_rows: Read, name: str, said: str, likely: str
) -> None:
    assert read(read_rows, name, said) == ([], [(said, likely)])


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("Odile Penhew", "Only me"),
        ("Odile Penhew", "me and the cat"),
        ("Odile Penhew", "2"),
        ("Judge and Mrs. Tobias Penhew", "The Judge and I"),
        ("Mr. & Mrs. Tobias Penhew", "just the two of us"),
        ("Mr. & Mrs. Tobias Penhew", "TOBIAS, ODILE"),
        ("Odile Penhew & Kit Orr", "Odile, Kit and our dog Rex (3)"),
        ("Odile Penhew & Kit Orr", "Odile (34), Kit (36)"),
    ],
)  # common practice, no source
def test_the_same_people_said_otherwise_are_no_question(
    read_rows: Read, name: str, said: str
) -> None:
    assert read(read_rows, name, said) == ([], [])


@pytest.mark.parametrize(
    "row", [r for r in ROWS if r["kind"] in ("pet", "no-member")], ids=lambda r: r["word"]
)
def test_a_pet_and_a_word_that_begins_a_sentence_are_nobody(row: dict[str, str]) -> None:
    assert not list(members(row["example"]))
    assert [each.name for each in members(row["counter_example"])] == [row["counter_example"]]


@pytest.mark.parametrize(
    "row", [r for r in ROWS if r["kind"] == "oneself"], ids=lambda r: r["word"]
)
def test_a_bracket_says_who_writes(row: dict[str, str]) -> None:
    assert [each.own for each in members(row["example"])] == [True]
    assert [each.own for each in members(row["counter_example"])] == [False]


@pytest.mark.parametrize(
    ("said", "children", "likely"),
    [
        ("husband Kit, Wren 6, Bram 3", ["Wren", "Bram"], "Odile Penhew and Kit Penhew"),
        ("Wife: Una Orr; kids Kit 4 & Wren 7", ["Kit", "Wren"], "Odile Penhew and Una Orr"),
        ("Kit (husband), baby Wren", ["Wren"], "Odile Penhew and Kit Penhew"),
        ("me + Kit", [], ""),
        ("Kit, Wren 4", ["Wren"], ""),
        ("mom lives with us (Una)", [], ""),
        ("my husband", [], ""),
        ("wife & 2 kids", [], ""),
    ],
)  # common practice, no source
def test_a_partner_told_beside_the_one_who_writes_is_asked_about(
    read_rows: Read, said: str, children: list[str], likely: str
) -> None:
    found, asked = read(read_rows, "Odile Penhew", said)
    assert (sorted(found), asked) == (sorted(children), [(said, likely)])


@pytest.mark.parametrize(
    ("said", "children"),
    [
        ("the twins Kit & Wren, 2", ["Kit", "Wren"]),
        ("my two boys, Bram and Kit (8, 10)", ["Bram", "Kit"]),
        ("Kids: Kit 4, Wren 7", ["Kit", "Wren"]),
        ("baby due in May", []),
        ("just us", []),
        ("no kids lol", []),
    ],
)  # common practice, no source
def test_a_word_before_names_tells_that_they_are_children(
    read_rows: Read, said: str, children: list[str]
) -> None:
    found, asked = read(read_rows, "Odile Penhew", said)
    assert (sorted(found), asked) == (children, [])
