"""Whom of several of a family a sentence names, by an initial or a suffix."""

import pytest

from addressing.guestlist.households.named import Named
from addressing.records.guests import Household, Person

LIST = (
    ("Paul", "Penhew", None), ("Peter", "Penhew", None), ("Anthony", "Penhew", None),
    ("Harold", "Grayling", None), ("Harold", "Grayling", "Jr."), ("Linnet", "Grayling", None),
)  # fmt: skip
HOMES = tuple(
    Household("h-aaaaaaaa", (Person(given=given, family=family, suffix=suffix),))
    for given, family, suffix in LIST
)


# Common practice, no source.
@pytest.mark.parametrize(
    ("said", "places"),
    [
        ("P. Penhew – house number should be 118", [0, 1]),
        ("A. Penhew moved", [2]),
        ("Grayling Jr. – put Tess down as Theresa", [4]),
        ("Harold Grayling Jr. is off", [4]),
    ],
)
def test_an_initial_or_a_suffix_tells_who_of_a_family_is_meant(
    said: str, places: list[int]
) -> None:
    assert Named.of(HOMES).of_sentence(said) == places


@pytest.mark.parametrize(
    ("said", "places"),
    [
        ("the Penhews moved", [0, 1, 2]),
        ("Z. Penhew moved", [0, 1, 2]),
        ("Graylings: all of them", [3, 4, 5]),
        ("Penhew Jr. moved", [0, 1, 2]),
    ],
)
def test_a_family_alone_or_a_mark_of_nobody_names_them_all(said: str, places: list[int]) -> None:
    assert Named.of(HOMES).of_sentence(said) == places
