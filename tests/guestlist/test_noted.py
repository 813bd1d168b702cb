"""A note that names a companion, says where to send it or how to address them is asked about."""

import pytest

from addressing.guestlist.asking import finding
from addressing.guestlist.rows.noted import asked_of
from addressing.records.guests import Person
from addressing.tables import table
from addressing.where import Where

ROWS = table("note_words")
ELSEWHERE = "address-doubtful"
PENHEW = (Person(title="Mr.", given="Tobias", family="Penhew"),)


def code_of(note: str, people: tuple[Person, ...] = PENHEW) -> str:
    found = finding("remark", Where("list.csv", None, "F2"), "The list says it.", "Read it.", note)
    return asked_of(found, people).code


@pytest.mark.parametrize(
    "row",
    [row for row in ROWS if row["kind"] != "no-name"],
    ids=lambda row: f"{row['kind']}: {row['words']!a}",
)
def test_a_note_with_such_words_is_asked_about_and_its_neighbour_is_not(
    row: dict[str, str],
) -> None:
    expected = ELSEWHERE if row["kind"] == "elsewhere" else "name-noted"
    assert code_of(row["example"]) == expected
    assert code_of(row["counter_example"]) == "remark"


@pytest.mark.parametrize(
    "row",
    [row for row in ROWS if row["kind"] == "no-name"],
    ids=lambda row: row["words"],
)
def test_a_word_that_is_no_name_names_no_companion(row: dict[str, str]) -> None:
    assert code_of(row["example"]) == "remark"
    assert code_of(row["counter_example"]) == "name-noted"


def test_a_companion_whom_the_row_names_already_is_no_question() -> None:
    both = (*PENHEW, Person(title="Ms.", given="Lucy", family="Orr"))
    assert code_of("plus one is Lucy Orr", both) == "remark"
    assert code_of("plus one is Jonas Berg", both) == "name-noted"


def test_a_title_that_the_list_has_already_is_no_question() -> None:
    listed = (Person(title="Mrs.", given="Odile", family="Penhew"),)
    assert code_of("widowed - she likes Mrs.", listed) == "remark"
    assert code_of("prefers Mrs. Carl Penhew!", listed) == "name-noted"


@pytest.mark.parametrize(
    "note", ["Vegetarian", "usher", "Table 4", "use the side gate", "college friend of Odile"]
)
def test_any_other_note_stays_a_remark(note: str) -> None:
    assert code_of(note) == "remark"
