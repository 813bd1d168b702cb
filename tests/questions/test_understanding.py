"""What clients write: the proposed answers in other words, names, and what is neither."""

from dataclasses import replace

import pytest

from addressing.questions.choosing import says_nothing_yet
from addressing.questions.understanding import understood
from addressing.records.findings import Finding, Severity
from addressing.records.questions import Choice, Decision, Question
from addressing.tables import table
from addressing.where import Where

WHERE = Where("guests.csv", None, "A2")
INVITED = (Choice("Yes, still invited", "keep"), Choice("No, leave them out", "drop"))
PAIR = (
    Choice("Two households, an envelope each", "keep"),
    Choice("One household, use the first", "first"),
    Choice("One household, use the second", "second"),
)
DOOR = (Choice("One envelope for both", "keep"), Choice("An envelope each", "split"))
GUEST = (Choice("“and Guest” is fine", "keep"), Choice("Comes alone", "omit"))
HAND = (Choice("We give it by hand", "hand"), Choice("Leave them out", "drop"))
RIGHT = (Choice("Yes, it is right", "keep"),)
ORDER = (Choice("Hugo Farrenby", "keep"), Choice("Farrenby Hugo", "set", "names=Farrenby Hugo"))
TITLE = tuple(Choice(t, "set", f"title={t}") for t in ("Mr.", "Mrs.", "Ms.", "Dr."))


def question(kind: str, choices: tuple[Choice, ...], severity: Severity) -> Question:
    found = Finding(severity, "zip-missing", WHERE, "x", "y", "h-abcdefgh")
    return Question(
        "h-abcdefgh:zip-missing", kind, "Names", "who", "text", "listed", "listed", WHERE, choices,
        (found,), ("h-abcdefgh",),
    )  # fmt: skip


def meant(
    kind: str, choices: tuple[Choice, ...], words: str, severity: Severity = Severity.ASK
) -> str | None:
    change = understood(question(kind, choices, severity), Decision("r", words, WHERE))
    return None if change is None else change.effect


# common practice, no source: written down before the table was
@pytest.mark.parametrize(
    ("kind", "choices", "words", "effect"),
    [
        ("invited", INVITED, "yes", "keep"),
        ("invited", INVITED, "Yep!", "keep"),
        ("invited", INVITED, "nope", "drop"),
        ("invited", INVITED, "Ja", "keep"),
        ("invited", INVITED, "still invited", "keep"),
        ("invited", INVITED, "please remove", "drop"),
        ("invited", INVITED, "Leave them out, thanks", "drop"),
        ("invited", INVITED, "No, leave them", "drop"),
        ("pair", PAIR, "One household, use the f", "first"),
        ("pair", PAIR, "the second one", "second"),
        ("pair", PAIR, "two households", "keep"),
        ("pair", PAIR, "different people", "keep"),
        ("pair", PAIR, "One household", None),
        ("pair", PAIR, "yes", None),
        ("pair", PAIR, "together", None),
        ("group", DOOR, "one each", "split"),
        ("group", DOOR, "together", "keep"),
        ("companion", GUEST, "guest", "keep"),
        ("companion", GUEST, "don't know", "keep"),
        ("companion", GUEST, "no plus one", "omit"),
        ("companion", GUEST, "Rowan Ashby", "own"),
        ("companion", GUEST, "ask her mother", None),
        ("address", HAND, "in person", "hand"),
        ("address", HAND, "leave out", "drop"),
        ("address", HAND, "14 Larkmoor Lane, Litchfield CT 06759", "own"),
        ("address", RIGHT, "ok", "keep"),
        ("address", RIGHT, "no", None),
        ("address", RIGHT, "not sure", None),
        ("names", RIGHT, "not sure", None),
        ("names", RIGHT, "please take him off", None),
        ("names", RIGHT, "Mr. Will Penhew", "own"),
        ("names", RIGHT, "correct", "keep"),
        ("names", ORDER, "Farrenby Hugo", "set"),
        ("title", TITLE, "mrs", "set"),
        ("title", TITLE, "Mr", "set"),
        ("title", TITLE, "Captain", "own"),
        ("title", TITLE, "none", "keep"),
    ],
)
def test_an_answer_in_other_words_means_what_it_says(
    kind: str, choices: tuple[Choice, ...], words: str, effect: str | None
) -> None:
    assert meant(kind, choices, words) == effect


@pytest.mark.parametrize("kind", ["names", "everyone", "family", "companion", "title", "told"])
@pytest.mark.parametrize(
    "words",
    [
        "see 10",
        "See no. 4",
        "same as 10",
        "cf. no. 10",
        "as above",
        "ditto",
        "as in row 7",
        "like number 4",
        "See the Voles",
        "the same as the Voles",
        "look at 5",
        "Answered above",
        "see my answer to 3",
        "Nell and Bram (see no. 4)",
    ],
)
def test_words_about_another_answer_are_none_here(kind: str, words: str) -> None:
    assert meant(kind, RIGHT, words) is None


@pytest.mark.parametrize("words", ["row 4", "the other one", "question 3"])
def test_a_number_of_the_letter_is_nobody_s_name(words: str) -> None:
    assert meant("companion", GUEST, words) is None


def test_a_name_that_looks_like_a_word_for_another_answer_is_taken_where_the_list_has_it() -> None:
    asked = replace(question("names", RIGHT, Severity.ASK), listed="See Vang")
    change = understood(asked, Decision("r", "See Vang-Lor", WHERE))
    assert change is not None
    assert change.value == "See Vang-Lor"


@pytest.mark.parametrize(
    ("kind", "words"), [("companion", "Seela Vole"), ("address", "Row 4, Elm St, Troy NY 12180")]
)
def test_what_only_begins_like_such_a_word_is_an_answer(kind: str, words: str) -> None:
    assert meant(kind, GUEST, words) == "own"


def test_a_stop_cannot_stay_as_it_stands() -> None:
    assert meant("address", HAND, "as it stands", Severity.STOP) is None


@pytest.mark.parametrize("words", ["?", "not sure", "TBD", "Will check.", "I'll ask"])
def test_who_does_not_know_yet_has_not_answered(words: str) -> None:
    assert says_nothing_yet(words)


@pytest.mark.parametrize(
    "row", table("answer_words"), ids=lambda row: f"{row['means']} {row['example']}"
)
def test_an_example_of_the_table_is_known_and_its_counter_example_is_not(
    row: dict[str, str],
) -> None:
    words = {each.casefold() for each in row["words"].split(" | ")}
    example = row["example"].casefold()
    assert (
        example in words
        or row["means"] in ("prose", "opener", "refer", "sole", "beside", "hedge")
        or example.removeprefix("please ") in words
    )
    assert row["counter_example"].casefold() not in words or not row["counter_example"]
