"""The tables that titles are worded by: each row's example is worded so."""

from dataclasses import replace

import pytest

from addressing.materials.shelf import open_shelf
from addressing.records.docket import WordingChoices
from addressing.records.guests import Person
from addressing.tables import table
from addressing.wording.forms import Writer
from addressing.wording.name_lines import name_breaks
from addressing.wording.persons import (
    goes_by_given,
    inner_title,
    is_named_by_husband,
    short,
    spoken_plural,
    unpointed,
)
from addressing.wording.tongues import by_sound, tongue_word

FORMAL = open_shelf(None).style("formal")
TITLES = {row["canonical"] for row in table("titles")}


@pytest.mark.parametrize("row", table("title_tongues"), ids=lambda row: row["title"])
def test_a_title_joins_in_its_own_tongue(row: dict[str, str]) -> None:
    one, other = _parted(row["example"])
    assert row["title"] in (one.title, other.title)
    tongue = row["language"] if row["language"] != "*" else "German"
    joint = next(words["and"] for words in table("tongue_words") if words["language"] == tongue)
    assert tongue_word("and", (one, other)) == joint
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
    assert tongue_word("and", (german, french)) is None
    assert tongue_word("and", (german, Person("Mr.", "Alaric", "Penhew"))) is None
    assert tongue_word("and", (german, Person(None, "Alaric", "Penhew"))) is None
    assert tongue_word("and", (Person("Dr.", "Odile"), Person("Dr.", "Tobias"))) is None


@pytest.mark.parametrize("row", table("tongue_words"), ids=lambda row: row["language"])
def test_a_family_without_names_stands_in_the_tongue_of_the_titles(row: dict[str, str]) -> None:
    assert row["example"].endswith(f" {row['family']}")
    head = row["example"].removesuffix(f" {row['family']}")
    person = Person(_title(head), "Tobias", "Wexcombe")
    assert tongue_word("family", (person,)) == row["family"]
    assert tongue_word("guest", (person,)) == (row["guest"] or None)
    assert row["family"].split()[0] == row["and"]


def test_every_title_of_a_tongue_has_its_words() -> None:
    known = {row["language"] for row in table("tongue_words")}
    assert {row["language"] for row in table("title_tongues")} == {*known, "*"}


def test_every_word_that_is_shortened_stands_in_a_title() -> None:
    columns = ("spelled", "inner", "plural")
    known = {word for row in table("titles") for each in columns for word in row[each].split()}
    assert {row["word"] for row in table("short_titles")} <= known
    assert short("The Right Reverend") == "The Rt. Rev."


def test_every_title_that_is_short_without_points_is_written_so() -> None:
    columns = ("spelled", "inner", "plural")
    known = {word for row in table("titles") for each in columns for word in row[each].split()}
    for row in table("unpointed_titles"):
        assert row["word"] in known
        assert row["word"] in row["example"].split()
        assert unpointed(row["example"]) == row["gives"]


def test_titles_of_other_languages_keep_their_points_where_a_style_has_none() -> None:
    kept = {"Herr Prof. Dr.", "Dott.ssa", "Dipl.-Ing.", "Dr. med.", "Avv."}
    assert {unpointed(title) for title in kept} == kept
    writer = Writer(open_shelf(None).style("british"), "outer", WordingChoices())
    assert writer.titled("Captain") == "Captain"
    assert writer.titled("Captain", brief=True) == "Capt"


def test_two_titles_without_points_stay_with_the_one_name_that_follows() -> None:
    assert name_breaks("Mr and Mrs Tobias Wexcombe") == ()
    assert name_breaks("The Revd and Mrs Tobias Wexcombe") == ()
    assert name_breaks("Mr Tobias Wexcombe, Jr") == ()
    (place,) = name_breaks("Ms Odile Farrenby and Mr Tobias Wexcombe")
    assert place == len("Ms Odile Farrenby ")


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


@pytest.mark.parametrize("row", table("tongue_sounds"), ids=lambda row: row["language"])
def test_a_joining_word_gives_way_to_its_own_sound_and_to_no_other(row: dict[str, str]) -> None:
    for text, wanted in ((row["example"], row["becomes"]), (row["counter_example"], row["word"])):
        one, said, other = text.split(" ")
        assert said == wanted
        assert by_sound(f"{one} {row['word']} {other}", row["word"]) == text


@pytest.mark.parametrize("row", table("couples"), ids=lambda row: row["example"])
def test_one_name_follows_both_titles_of_a_couple(row: dict[str, str]) -> None:
    if row["only"]:
        his, hers = (
            Person(row["husband"], "Tobias", "Wexcombe"),
            Person(row["wife"], None, "Wexcombe"),
        )
        written = Writer(FORMAL, "outer", WordingChoices()).two(his, hers)
        assert written == row["example"]
        named = Writer(FORMAL, "outer", WordingChoices()).two(his, replace(hers, given="Odile"))
        assert named.endswith(f" {row['wife']} Odile Wexcombe")
