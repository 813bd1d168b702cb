"""A wife who goes by her husband's given name is asked for her own, where given names stand."""

import pytest

from addressing.records.guests import GuestList, Household, Kind, Person
from addressing.where import Where
from addressing.wording import ask_first_names


def asked(*people: Person) -> list[str]:
    home = Household("h-a", people, rows=(Where("list.csv", None, "A2"),))
    return [each.text for each in ask_first_names(GuestList("list.csv", "", (home,), 1))]


@pytest.mark.parametrize(
    ("people", "text"),
    [
        (
            (Person("Mr.", "Tobias", "Wexcombe"), Person("Mrs.", None, "Wexcombe")),
            "Mrs. Wexcombe: no first name of her own.",
        ),
        (
            (Person("Frau", None, "Wexcombe"), Person("Herr", "Tobias", "Wexcombe")),
            "Frau Wexcombe: no first name of her own.",
        ),
        (
            (Person("Mrs.", "Tobias", "Wexcombe"),),
            "Mrs. Tobias Wexcombe: no first name of her own.",
        ),
    ],
)
def test_a_wife_by_his_name_is_asked_about(people: tuple[Person, ...], text: str) -> None:
    assert asked(*people) == [text]


@pytest.mark.parametrize(
    "people",
    [
        (Person("Mr.", "Tobias", "Wexcombe"), Person("Mrs.", "Odile", "Wexcombe")),
        (Person("Mrs.", "Odile", "Wexcombe"),),
        (Person("Mr.", None, "Wexcombe"), Person("Mrs.", None, "Wexcombe")),
        (Person("Mr.", "Tobias", "Wexcombe"), Person(None, None, None, kind=Kind.GUEST)),
    ],
)
def test_nobody_is_asked_twice_or_in_vain(people: tuple[Person, ...]) -> None:
    assert asked(*people) == []
