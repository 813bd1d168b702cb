"""A child's age in a reply is no question's number, wherever it stands."""

import pytest

from addressing.questions.replies import reply_answers
from addressing.questions.slots import Letter, Slot
from addressing.records.questions import Asked

LETTER = Letter(
    "0badcafe",
    "",
    tuple(Slot(str(n), Asked(f"h-{n}:names"), "", ("Yes", "No")) for n in range(1, 13)),
)
PARENTS = "Mr. Otto Quayle Jr. and Mrs. Una Quayle"


def answers(reply: str) -> dict[str, str]:
    """Number of the question → the words that the reply has for it."""
    given = reply_answers(reply, LETTER, "reply.txt")
    assert given.said == ()
    return {each.ref[2:].partition(":")[0]: each.answer for each in given.decisions}


@pytest.mark.parametrize(
    "words",
    [
        f"{PARENTS}, kids: Bram (7) and Nell (6)",
        f"{PARENTS}, kids: Nell (6) and Bram (7) and Tuck (9)",
        f"{PARENTS} with Bram (10) and Nell (6)",
        f"{PARENTS} (kids Bram, 7) and (Tuck, 8) too",
        f"{PARENTS} (kids: Bram age 7) and a dog",
        f"{PARENTS}, kids: Bram, (7) and Nell, (8)",
    ],
)
def test_a_number_in_brackets_behind_a_name_is_an_age(words: str) -> None:
    for front in ("5: ", "5. ", "5) ", "(5) ", "#5: "):
        assert answers(front + words) == {"5": words}


@pytest.mark.parametrize(
    ("first", "second"),
    [
        ("kids: Bram", "(7) and Nell (6)"),
        ("kids: Bram", "(7), Nell (6)"),
        ("kids: Bram", "(7) Nell (6)"),
        ("kids: Bram (age", "7) and Nell (age 6)"),
    ],
)
def test_an_age_at_the_beginning_of_a_broken_line_goes_on_with_the_answer(
    first: str, second: str
) -> None:
    assert answers(f"5: {PARENTS}, {first}\n{second}") == {
        "5": f"{PARENTS}, {first}\n{second}",
    }


def test_an_answer_behind_ages_on_its_line_is_still_another_number() -> None:
    said = answers("5: Una Quayle, kids: Bram (7) and Nell (6) 8: b, 9: a")
    assert said == {"5": "Una Quayle, kids: Bram (7) and Nell (6)", "8": "No", "9": "Yes"}


@pytest.mark.parametrize(
    "reply",
    [
        "(1) yes (2) no",
        "1) yes 2) no",
        "1: yes (2) no",
        "(1) yes\n(2) no",
        "1: yes (still\n2: no",
        "(1) yes, (2) no",
    ],
)
def test_numbers_in_brackets_before_plain_answers_are_numbers(reply: str) -> None:
    assert list(answers(reply)) == ["1", "2"]


def test_a_guest_behind_a_number_in_brackets_is_an_answer() -> None:
    assert answers("1: yes\n(7) and guest") == {"1": "yes", "7": "and guest"}
