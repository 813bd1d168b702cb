"""Titles of kin: on the inner envelope only (common practice, no source), but never lost."""

import pytest

from addressing.records.guests import Kind, Person
from addressing.wording.persons import title_of


@pytest.mark.parametrize(
    ("given", "shown"), [("Josie", None), (None, "Aunt")], ids=["with a given name", "alone"]
)
def test_a_title_of_kin_stays_where_it_is_all_that_the_list_has(
    given: str | None, shown: str | None
) -> None:
    person = Person(title="Aunt", given=given, family="Pellam", suffix=None, kind=Kind.NAMED)
    assert title_of(person) == shown
