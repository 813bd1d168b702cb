"""The tables that titles are worded by: each row's example is worded so."""

import pytest

from addressing.records.docket import WordingChoices
from addressing.records.guests import Person
from addressing.tables import table
from addressing.wording.couples import joint_of
from addressing.wording.persons import (
    goes_by_given,
    inner_title,
    is_named_by_husband,
    short,
    spoken_plural,
)

TITLES = {row["canonical"] for row in table("titles")}


@pytest.mark.parametrize("row", table("title_tongues"), ids=lambda row: row["title"])
def test_a_title_joins_in_its_own_tongue(row: dict[str, str]) -> None:
    one, other = _parted(row["example"])
    assert row["title"] in (one.title, other.title)
    joint = row["and"] if row["and"] != "*" else "und"
    assert joint_of(one, other) == joint
    assert f" {joint} " in row["example"]


def _parted(example: str) -> tuple[Person, Person]:
    """The two of an example, by the longest title that each begins with."""
    words = example.split()
    at = next(place for place, word in enumerate(words) if word in ("und", "et", "y", "e", "en"))
    one, other = (
        Person(_title(" ".join(part)), "Tobias", "Wexcombe")
        for part in (words[:at], words[at + 1 :])
    )
    return one, other


def _title(text: str) -> str:
    known = [title for title in (*TITLES, "Herr Dr.") if text.startswith(f"{title} ")]
    return max(known, key=len)


def test_titles_of_two_tongues_are_joined_by_the_style() -> None:
    german, french = Person("Herr", "Tobias", "Wexcombe"), Person("Madame", "Odile", "Farrenby")
    assert joint_of(german, french) is None
    assert joint_of(german, Person("Mr.", "Alaric", "Penhew")) is None
    assert joint_of(german, Person(None, "Alaric", "Penhew")) is None
    assert joint_of(Person("Dr.", "Odile", None), Person("Dr.", "Tobias", None)) is None


def test_every_word_that_is_shortened_stands_in_a_title() -> None:
    columns = ("spelled", "inner", "plural")
    known = {word for row in table("titles") for each in columns for word in row[each].split()}
    assert {row["word"] for row in table("short_titles")} <= known
    assert short("The Right Reverend") == "The Rt. Rev."


def test_a_mans_name_behind_mrs_is_her_husbands() -> None:
    """Etiquette in Society, in Business, in Politics and at Home, 1922: Mrs. Tobias Wexcombe."""
    assert is_named_by_husband(Person("Mrs.", "Tobias", "Wexcombe"))
    assert is_named_by_husband(Person("Madame", "François", "Wexcombe"))
    assert not is_named_by_husband(Person("Mrs.", "Odile", "Wexcombe"))
    assert not is_named_by_husband(Person("Mr.", "Tobias", "Wexcombe"))
    assert not is_named_by_husband(Person("Mrs.", None, "Tobias"))


def test_names_that_women_bear_too_are_no_husbands() -> None:
    names = [name for row in table("mens_names") for name in row["names"].split()]
    assert len(names) == len(set(names))
    shared = {"robin", "jean", "andrea", "leslie", "kim", "dana", "marion", "jordan", "simone"}
    assert not shared & set(names)


def test_two_ranks_that_are_spoken_alike_are_named_together() -> None:
    """Common practice, no source."""
    colonel = Person("Lieutenant Colonel", "Odile", "Wexcombe")
    assert (inner_title(colonel), spoken_plural(colonel)) == ("Colonel", "Colonels")
    assert spoken_plural(Person("The Reverend", "Odile", "Wexcombe")) == ""
    assert goes_by_given(Person("Sir", "Tobias", "Wexcombe"))
    assert not goes_by_given(Person("Lady", None, "Wexcombe"))


def test_choices_of_titles_are_each_and_spelled_out_unless_the_docket_says_otherwise() -> None:
    assert (WordingChoices().doctor, WordingChoices().same_title) == ("spelled", "each")
