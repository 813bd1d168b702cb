"""Given names as old address books shorten them are asked about, and stand until it is said."""

import pytest

from addressing.guestlist.households.short_givens import about_short_givens, shortened
from addressing.guestlist.people.likeness import same_given
from addressing.records.guests import Household, Person
from addressing.tables import table
from addressing.where import Where

ROWS = [row for row in table("name_forms") if row["kind"] == "abbreviation"]
WHERE = Where("list.csv", None, "A2")


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["one"])
def test_a_short_form_is_told_and_is_one_persons_with_the_name_in_full(row: dict[str, str]) -> None:
    given, counter = row["example"].split()[0], row["counter_example"].split()[:1]
    assert [full for _, full in shortened(Person(given=given))] == [row["other"].capitalize()]
    assert same_given(row["one"], row["other"])
    assert not shortened(Person(given=counter[0] if counter else None))


@pytest.mark.parametrize("given", ["Will", "Joe", "Geoff", "W.", "Tom", "Edna", "Jo"])
def test_nicknames_initials_and_names_that_begin_so_are_none(given: str) -> None:
    assert not shortened(Person(given=given))


def test_a_household_is_asked_once_about_all_its_short_names() -> None:
    people = (Person(given="Chas. E.", family="Orr"), Person(given="Margt.", family="Orr"))
    (asked,) = about_short_givens(Household("h-aaaaaaaa", people), WHERE)
    assert asked.quoted == "Chas., Margt."
    assert asked.likely == (("given", "Charles"), ("given", "Margaret"))
    assert not asked.holds
    assert not list(about_short_givens(Household("h-aaaaaaaa", people[:0]), WHERE))
