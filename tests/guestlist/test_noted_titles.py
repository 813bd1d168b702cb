"""A note that gives one of two a title, or mends the address: common practice, no source."""

import pytest

from addressing.guestlist.rows.noted_doors import mends_address
from addressing.guestlist.rows.noted_titles import gives_rank
from addressing.records.guests import Address, Cited, Household, Person
from addressing.tables import table

DOCTOR = Person(title="Dr.", given="Tobias", family="Penhew")
PROFESSOR = Person(title="Professor", given="Tobias", family="Penhew")
ODILE = Person(given="Odile", family="Penhew")
MRS = Person(title="Mrs.", given="Odile", family="Penhew")
SHE = Person(title="Dr.", given="Odile", family="Penhew")
HOME = Address(
    street=Cited("77 College St"), unit=Cited("#3"), city=Cited("Oberlin"), postcode=Cited("44074")
)


def gives(note: str, *people: Person) -> bool:
    return gives_rank(note, Household("h-aaaaaaaa", people))


@pytest.mark.parametrize(
    "note",
    [
        "Odile is a PhD too - she is Dr. Odile Penhew, please use it", "she's Dr. too",
        "she is also a doctor", "Odile: Dr.", "Odile (Dr.)", "Dr. Odile please", "both doctors",
        "both are Drs.", "she has her doctorate", "Odile has a Ph.D.", "use Dr. for her",
        "his wife is a doctor as well", "Dr. for both", "sie ist auch Dr.", "she's an MD",
    ],
)  # fmt: skip
def test_a_title_that_a_note_gives_to_one_of_two_is_asked_about(note: str) -> None:
    assert gives(note, PROFESSOR, ODILE)
    assert gives(note, DOCTOR, MRS)
    assert not gives(note, DOCTOR, SHE)


@pytest.mark.parametrize("note", ["she's Rev. now", "Odile is a Captain in the Navy"])
def test_another_title_than_the_list_has_is_asked_about(note: str) -> None:
    assert gives(note, DOCTOR, SHE)


@pytest.mark.parametrize(
    "note",
    [
        "sees a doctor", "Dr. Orr is her boss", "works for Dr. Penhew", "plays doctor with kids",
        "friend of Dr. Penhew's", "doctor's office friend", "lives in MD", "Odile lives in MD",
        "met at General Hospital", "Odile's doctor is Dr. Lin", "a Major headache",
        "her doctor says no flying", "Father of the bride", "Judge of character", "ask Dr. Orr",
    ],
)  # fmt: skip
def test_a_title_of_somebody_else_changes_nothing(note: str) -> None:
    assert not gives(note, PROFESSOR, ODILE)
    assert not gives(note, DOCTOR, MRS)


@pytest.mark.parametrize(
    "row", [r for r in table("note_words") if r["kind"] == "of-another"], ids=lambda r: r["words"]
)
def test_words_before_another_doctor_give_nobody_a_title(row: dict[str, str]) -> None:
    assert not gives(row["example"], PROFESSOR, MRS)
    assert gives(row["counter_example"], PROFESSOR, MRS)


@pytest.mark.parametrize(
    "note",
    [
        "it's 77 College PLACE, not Street", "78 College, not 77", "zip should be 44075",
        "house number should be 118", "apt is really 3B", "not in Oberlin any more", "unit 4 not 3",
    ],
)  # fmt: skip
def test_a_note_that_mends_the_address_is_heard(note: str) -> None:
    assert mends_address(note, HOME)
    assert not mends_address(note, None)


@pytest.mark.parametrize(
    "note", ["not in June", "should be 4 people", "should be near the door", "not vegan", "at 77"]
)
def test_a_note_of_other_things_mends_no_address(note: str) -> None:
    assert not mends_address(note, HOME)
