"""Who comes along by a word alone (“his lady friend”) is a companion without a name."""

import pytest

from addressing.guestlist.people.cell import read_people
from addressing.guestlist.people.companions import read_companion
from addressing.records.guests import Kind


@pytest.mark.parametrize(
    "text",
    [
        "Bud Kessler & his lady friend",
        "Bud Kessler and his Lady Friend",
        "Bud Kessler, his lady friend",
        "Bud Kessler and lady friend (name?)",
        "Bud Kessler and her new boyfriend",
        "Mr. Bud Kessler and his mum",
        "Bud Kessler & mum",
        "Bud Kessler and a friend",
        "Bud Kessler w/ his mother-in-law",
        "bud kessler and his fella",
        "BUD KESSLER AND HIS OTHER HALF",
        "Bud Kessler and the missus",
        "Bud Kessler plus significant other",
    ],
)
def test_a_word_for_who_comes_along_is_a_companion_and_no_name(text: str) -> None:
    first, other = read_people(text).people
    assert (first.given or "").casefold() == "bud"
    assert (first.family or "").casefold() == "kessler"
    assert (other.kind, other.title, other.given, other.family) == (Kind.GUEST, None, None, None)


@pytest.mark.parametrize(
    ("text", "given", "family"),
    [
        ("Bud Kessler and his lady friend Ann Moss", "Ann", "Moss"),
        ("Bud Kessler and her dear old friend Ann Moss", "Ann", "Moss"),
        ("Bud and Buddy Kessler", "Buddy", "Kessler"),
        ("Bud Kessler and Odile Man", "Odile", "Man"),
        ("bud kessler and nan kessler", "nan", "kessler"),
        ("Mr. Bud Kessler and Ms. Beau Best", "Beau", "Best"),
        ("Lord Bud Kessler and Lady Ann Kessler", "Ann", "Kessler"),
    ],
)
def test_a_name_that_such_words_stand_before_or_that_looks_like_one_stays(
    text: str, given: str, family: str
) -> None:
    other = read_people(text).people[1]
    assert (other.kind, other.given, other.family) == (Kind.NAMED, given, family)


@pytest.mark.parametrize("text", ["Margaret Doyle, his mother", "Margaret Doyle, her nan"])
def test_behind_a_comma_a_relative_s_word_tells_who_the_guest_is(text: str) -> None:
    assert [p.kind for p in read_people(text).people if p.kind is Kind.GUEST] == []


@pytest.mark.parametrize("text", ["her fella", "his mum", "the missus", "Lady friend"])
def test_such_a_word_in_the_companion_s_column_is_a_companion(text: str) -> None:
    (person,) = read_companion(text).people
    assert (person.kind, person.given, person.family) == (Kind.GUEST, None, None)


@pytest.mark.parametrize("text", ["Peg Doyle and her sisters", "Peg Doyle and her parents"])
def test_several_without_a_name_or_a_number_are_asked_about(text: str) -> None:
    assert [doubt.code for doubt in read_people(text).doubts] == ["name-doubtful"]
