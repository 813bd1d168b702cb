"""A note that tells a unit which the address lacks, or in whose care, is asked about."""

from pathlib import Path

import pytest

from addressing.guestlist import read_list
from addressing.guestlist.households.proposed import proposals
from addressing.guestlist.rows.noted_units import care_told, unit_told
from addressing.records.findings import Finding
from addressing.records.guests import Address, Cited, Household, Person
from addressing.tables import table

ROWS = [row for row in table("note_words") if row["kind"].startswith("unit-")]
HOME = Address(street=Cited("14 Larkmoor Lane"), city=Cited("Troy"))


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['kind']}: {row['words']}")
def test_a_unit_is_told_by_such_words_and_by_their_neighbours_not(row: dict[str, str]) -> None:
    asked, quiet = row["example"], row["counter_example"]
    if row["kind"] == "unit-not":
        asked, quiet = quiet, asked
    assert unit_told(asked, HOME)
    assert not unit_told(quiet, HOME)


@pytest.mark.parametrize(
    ("note", "unit"),
    [
        ("apt 12F, brother's friend. no +1", "Apartment 12F"),
        ("upstairs, Apt. 2", "Apartment 2"),
        ("college friend; apt 6", "Apartment 6"),
        ("apt number is 7", "Apartment 7"),
        ("use apt #2 not 3", "Apartment 2"),
        ("they're in unit 12 now", "Unit 12"),
        ("Kit is in unit 6, I forgot", "Unit 6"),
        ("PH2", "Penthouse 2"),
        ("#5", "#5"),
        ("#14, brother's roommate", "#14"),
        ("2nd floor", "2nd floor"),
        ("3rd fl.", "3rd fl"),
        ("basement apt", "basement apt"),
        ("table #5", ""),
        ("Table #5", ""),
        ("gift #5", ""),
        ("#1 fan", ""),
        ("#blessed", ""),
        ("2nd floor ballroom table", ""),
        ("friend from the 5th floor", ""),
        ("room 14 at the inn", ""),
        ("was in apt 3, moved", ""),
        ("previously apt 3", ""),
        ("front row", ""),
    ],
)
def test_what_a_note_says_of_a_door_and_of_other_things(note: str, unit: str) -> None:
    assert unit_told(note, HOME) == unit


def test_a_unit_that_the_address_has_or_could_not_take_is_no_question() -> None:
    with_unit = Address(street=Cited("14 Larkmoor Lane"), unit=Cited("Apt 4B"))
    assert not unit_told("apt. 4b, ring twice", with_unit)
    assert not unit_told("2nd floor", with_unit)
    assert unit_told("apt 5C", with_unit) == "Apartment 5C"
    assert not unit_told("apt 5", Address(street=Cited("P.O. Box 12")))
    assert not unit_told("apt 5", None)
    assert not unit_told("apt 5", Address(city=Cited("Troy")))


def test_in_whose_care_a_note_says_is_asked_unless_the_address_says_so_or_a_thing_goes_there() -> (
    None
):
    assert care_told("c/o her mother", HOME) == "c/o her mother"
    assert care_told("in care of Mrs. Orr", HOME) == "c/o Mrs. Orr"
    assert not care_told("gift c/o her mother", HOME)
    assert not care_told("taken care of", HOME)
    assert not care_told("c/o Orr", Address(HOME.street, recipient_extra=Cited("c/o Lucy Orr")))


def test_a_sentence_beside_the_list_proposes_the_unit_too() -> None:
    home = Household("h-aaaaaaaa", (Person(given="Kit", family="Orr"),), address=HOME)
    assert ("unit", "Unit 6") in proposals("Kit is in unit 6, I forgot", home)


def _found(path: Path, rows: str) -> tuple[Finding, ...]:
    list_ = path / "list.csv"
    list_.write_text(f"Name,Street,City,State,Zip,Notes\n{rows}", encoding="utf-8")
    return read_list(list_, {})[1]


def test_the_unit_holds_and_is_proposed_beside_a_question_of_names(tmp_path: Path) -> None:
    rows = 'Kit Orr,14 Larkmoor Lane,Dayton,OH,45419,"apt 4, wife Jane"\n'
    found = _found(tmp_path, f"{rows}Ada Voss,9 Elm Street,Dayton,OH,45419,#5\n")
    asked = {(each.code, each.likely) for each in found if each.holds}
    assert ("unit-noted", (("unit", "Apartment 4"),)) in asked
    assert ("name-noted", (("names", "Kit Orr and Jane Orr"),)) in asked
    assert ("unit-noted", (("unit", "#5"),)) in asked
    assert not [each for each in found if each.code == "rows-not-guests"]


def test_the_address_in_somebodys_care_is_proposed_where_she_is_named(tmp_path: Path) -> None:
    rows = "Kit Orr,14 Larkmoor Lane,Dayton,OH,45419,c/o Mrs. Lind\n"
    found = _found(tmp_path, f"{rows}Ada Voss,9 Elm Street,Dayton,OH,45419,c/o her mother\n")
    likely = [each.likely for each in found if each.code == "unit-noted"]
    assert likely == [(("lines", "c/o Mrs. Lind, 14 Larkmoor Lane, Dayton, OH 45419"),), ()]


@pytest.mark.parametrize("note", ["chez M. Peeters", "bei Familie Orr"])
def test_words_of_other_tongues_say_in_whose_care_at_the_front_of_a_note(note: str) -> None:
    assert care_told(note, HOME)
    assert not care_told(f"war {note}", HOME)
    assert not care_told("bei uns", HOME)
