"""One answer spells out the shortened given names of the whole list; without it they stand."""

from addressing.questions.matters import choices_of
from addressing.questions.placeholders import words_for
from addressing.records.findings import Finding, Severity
from addressing.records.guests import Household, Person
from addressing.where import Where

WHERE = Where("list.csv", None, "A2")


def test_the_names_of_the_household_are_proposed_in_full() -> None:
    people = (Person(title="Mr.", given="Geo. W.", family="Orr", suffix="III"),
              Person(title="Mrs.", family="Orr"))  # fmt: skip
    asked = Finding(
        Severity.ASK, "given-short", WHERE, "", "", quoted="Geo.", likely=(("given", "George"),)
    )
    words = words_for(asked, Household("h-aaaaaaaa", people))
    assert words["spelled"] == "Mr. George W. Orr III and Mrs. Orr"
    other = Finding(Severity.ASK, "name-noted", WHERE, "", "", quoted="x")
    assert "spelled" not in words_for(other, Household("h-aaaaaaaa", people))


def test_one_answer_is_for_all_of_the_list() -> None:
    effects = [choice.effect for choice in choices_of("all:given-short:names")]
    assert effects == ["set", "keep", "each"]
