"""Whom of several of a family a sentence names, by an initial or a suffix."""

import pytest

from addressing.guestlist.households.named import Named
from addressing.records.guests import Household, Person
from addressing.tables import table

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


@pytest.mark.parametrize(
    "row",
    [row for row in table("prose_words") if row["kind"] in ("says", "refers")],
    ids=lambda r: r["word"],
)
def test_whoever_tells_of_others_or_of_whose_place_is_not_meant(row: dict[str, str]) -> None:
    homes = tuple(
        Household("h-aaaaaaaa", (Person(given=given, family=family),))
        for given, family in (("Kit", "Orr"), ("Odile", "Penhew"))
    )
    assert Named.of(homes).of_sentence(row["example"]) == [1]
    assert Named.of(homes).of_sentence(row["counter"]) == [0, 1]


def test_a_name_in_brackets_beside_a_family_is_told_of_and_not_meant() -> None:
    homes = tuple(
        Household("h-aaaaaaaa", (Person(given=given, family=family),))
        for given, family in (("Kit", "Orr"), ("Odile", "Penhew"))
    )
    assert Named.of(homes).of_sentence("The Penhews (Kit's old friends) moved") == [1]
    assert Named.of(homes).of_sentence("(Kit moved)") == [0]


def test_two_given_names_name_their_bearer_whoever_owns_what_follows() -> None:
    people = (("Hollis", "Penhew"), ("Etta Mae", "Penhew"), ("Etta", "Grayling"))
    homes = tuple(
        Household("h-aaaaaaaa", (Person(given=given, family=family),)) for given, family in people
    )
    named = Named.of(homes)
    assert named.of_sentence("Etta Mae's mail should go to Hollis's house") == [0, 1]
    assert named.of_sentence("Etta's mail should go to Hollis's house") == [0, 1, 2]
    assert named.of_sentence("Etta Rose's mail should go to Hollis") == [0]


# Common practice, no source.
def test_a_short_name_before_another_family_is_nobody_of_the_list() -> None:
    homes = (Household("h-aaaaaaaa", (Person(given="Sally", family="Penhew"),)),)
    named = Named.of(homes)
    assert named.of_sentence("I would like to have Sal and Connie Lorne too") == []
    assert named.of_sentence("Sal and Connie will drive") == [0]
    assert named.of_sentence("Sal moved") == [0]
