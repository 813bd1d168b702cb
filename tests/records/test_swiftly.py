"""Records that are made quickly are the frozen dataclasses that they were."""

import copy
import pickle
from dataclasses import FrozenInstanceError, dataclass, field, replace

import pytest

from addressing.records.swiftly import swiftly


@swiftly
@dataclass(frozen=True, slots=True)
class Card:
    """Two that must be said, two that needn't."""

    name: str
    place: float
    table: int | None = None
    guests: tuple[str, ...] = ("Odile",)


@dataclass(frozen=True, slots=True)
class Plain:
    """The same, made as ever."""

    name: str
    place: float
    table: int | None = None
    guests: tuple[str, ...] = ("Odile",)


def test_a_swift_record_says_the_same_as_a_plain_one() -> None:
    swift = [
        repr(each) for each in (Card("T", 1.5), Card("T", place=2, guests=()), Card("T", 1, 4))
    ]
    plain = [Plain("T", 1.5), Plain("T", place=2, guests=()), Plain("T", 1, 4)]
    assert swift == [repr(each).replace("Plain", "Card") for each in plain]


def test_a_swift_record_is_equal_by_its_fields_and_may_be_a_key() -> None:
    assert Card("T", 1.5) == Card(name="T", place=1.5)
    assert Card("T", 1.5) != Card("T", 1.5, 3)
    assert len({Card("T", 1.5), Card("T", 1.5), Card("O", 1.5)}) == 2


def test_a_swift_record_cannot_be_changed() -> None:
    card = Card("T", 1.5)
    with pytest.raises(FrozenInstanceError):
        card.name = "O"  # type: ignore[misc]
    with pytest.raises(AttributeError):
        object.__setattr__(card, "other", 1)


def test_a_swift_record_is_copied_replaced_and_handed_over_whole() -> None:
    card = Card("T", 1.5, 3, ("Linnet", "Bram"))
    assert copy.deepcopy(card) == card
    assert replace(card, table=4) == Card("T", 1.5, 4, ("Linnet", "Bram"))
    assert pickle.loads(pickle.dumps(card)) == card  # noqa: S301 - our own
    assert card.__reduce__() == (Card, ("T", 1.5, 3, ("Linnet", "Bram")))  # fields alone, no names


@pytest.mark.parametrize("given", [(), ("T",), ("T", 1, 2, (), 5)])
def test_a_swift_record_wants_its_fields_and_no_more(given: tuple[object, ...]) -> None:
    with pytest.raises(TypeError):
        Card(*given)  # type: ignore[arg-type]


def test_what_is_more_than_fields_is_refused() -> None:
    @dataclass(frozen=True, slots=True)
    class Listed:
        names: list[str] = field(default_factory=list)

    @dataclass(frozen=True, slots=True)
    class Checked:
        name: str

        def __post_init__(self) -> None:
            """Nothing."""

    for record in (Listed, Checked):
        with pytest.raises(TypeError):
            swiftly(record)
