"""A name that stands before the family name is hers: saying that of both once would lose it."""

import pytest

from addressing.records.guests import Person
from addressing.wording.couples import go_by_one_name


@pytest.mark.parametrize(
    ("one", "other", "together"),
    [
        (Person(None, "Joan Orrwell", "Penhew"), Person(None, "Kit", "Penhew"), False),
        (Person(None, "Kit", "Penhew"), Person(None, "Joan Orrwell", "Penhew"), False),
        (Person(None, "Mary Ann", "Penhew"), Person(None, "Kit", "Penhew"), True),
        (Person(None, "Tobias A.", "Penhew"), Person(None, "Odile", "Penhew"), True),
        (Person("Mr.", "Kit", "Penhew"), Person("Mrs.", "Joan Orrwell", "Penhew"), True),
        (Person(None, "Kit", "Penhew"), Person(None, "Joan", "Orrwell"), False),
    ],
)
def test_a_family_name_said_once_leaves_nobody_without_her_own(
    one: Person, other: Person, *, together: bool
) -> None:
    assert go_by_one_name(one, other) is together
