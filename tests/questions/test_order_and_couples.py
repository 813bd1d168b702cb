"""Names given anew: children keep their order, couples stay on one line, parents stay parents."""

from collections.abc import Callable
from pathlib import Path

import pytest

from addressing.job.asking import list_as_read
from addressing.job.rereading import READERS
from addressing.job.styling import styles_for
from addressing.materials.shelf import open_shelf
from addressing.questions.applying import apply
from addressing.questions.asking import questions_for
from addressing.records.docket import Docket
from addressing.records.questions import Decision
from addressing.where import Where
from addressing.wording import word_list

HEADER = "Name,Children,Street,City,State,ZIP,Notes\n"
AT = "14 Larkmoor Lane,Litchfield,CT,06759"
Answered = Callable[[str, str, str], tuple[str, str]]
"""(a row's names and children, what is answered, the answer) → the names on outer and inner."""


@pytest.fixture
def answered(tmp_path: Path) -> Answered:
    """What stands on the first household's envelopes after one answer; "" where it isn't taken.

    What is answered is a finding's code, or what a designer corrects.
    """

    def lines(row: str, what: str, words: str) -> tuple[str, str]:
        path = tmp_path / "list.csv"
        path.write_text(f"{HEADER}{row},{AT},\n", "utf-8")
        listed = list_as_read(path, None)
        key = listed.guest_list.households[0].key
        asked = questions_for(listed.guest_list, listed.findings)
        refs = (question.ref for question in asked if f":{what}" in question.ref)
        decision = Decision(next(refs, f"{key}:correct:{what}"), words, Where("r.txt", "r.txt"))
        done = apply(listed.guest_list, listed.findings, [decision], READERS)
        if not done.taken:
            return "", ""
        styles = styles_for(Docket(), open_shelf(None))
        outer, inner = (
            " / ".join(line.text for line in piece.wordings[0].lines)
            for piece in word_list(done.guest_list, Docket(), styles)
            if piece.household == key
        )
        return outer.removesuffix(" / 14 Larkmoor Lane / Litchfield, Connecticut 06759"), inner

    return lines


@pytest.mark.parametrize(
    ("row", "what", "words"),
    [
        ('The Penhew Family,"Nell, Bram"', "family-unnamed",
         "Theo and Ida Penhew, kids: Nell, Bram and baby Tuck"),
        ("Theo and Ida Penhew and baby Tuck,", "everyone", "kids: Nell, Bram and Tuck"),
        ("The Penhew Family,Tuck", "family-unnamed", "kids: Nell, Bram and Tuck"),
        ('Theo and Ida Penhew,"Nell, Bram, Tuck"', "everyone",
         "Theo and Ida Penhew, Nell, Bram, baby Tuck"),
    ],
)  # fmt: skip
def test_children_stand_as_the_answer_has_all_of_them_else_as_the_list(
    answered: Answered, row: str, what: str, words: str
) -> None:
    assert answered(row, what, words)[1].endswith("Nell, Bram and Tuck")


def test_children_of_whom_only_some_are_named_stay_in_the_lists_order(answered: Answered) -> None:
    row = 'Theo and Ida Penhew,"Nell, Bram"'
    assert answered(row, "everyone", "kids: Tuck, Bram")[1].endswith("Nell, Bram and Tuck")


@pytest.mark.parametrize("what", ["everyone", "names"])
@pytest.mark.parametrize(
    ("names", "words", "outer"),
    [
        ("Mr. Theo Penhew and Ms. Ida Orr", "Mr. Theo Penhew, Ms. Ida Orr",
         "Mr. Theo Penhew and Ms. Ida Orr"),
        ("Mr. Theo Penhew and Ms. Ida Orr", "Ms. Ida Orr, Mr. Theo Penhew",
         "Ms. Ida Orr and Mr. Theo Penhew"),
        ("Mr. Theo Penhew and Ms. Ida Orr", "Mr. Theo Penhewe, Ms. Aida Orr",
         "Mr. Theo Penhewe and Ms. Aida Orr"),
        ("Mr. and Mrs. Theo Penhew", "Theo Penhew, Ida Penhew", "Mr. and Mrs. Theo Penhew"),
        ("Mr. and Mrs. Theo Penhew", "Theo, Ida, Otto Penhew",
         "Mr. and Mrs. Theo Penhew / Otto Penhew"),
        ("Dr. Theo Penhew and Mrs. Ida Penhew", "Theo Penhew, Ida Penhew",
         "Doctor and Mrs. Theo Penhew"),
    ],
)  # fmt: skip
def test_a_comma_parts_no_couple_that_the_list_joins(
    answered: Answered, names: str, words: str, outer: str, what: str
) -> None:
    assert answered(f"{names},", what, words)[0] in (outer, outer.replace("Doctor", "Dr."))


def test_somebody_else_in_the_place_of_a_partner_is_not_joined(answered: Answered) -> None:
    outer, _ = answered("Mr. Theo Penhew and Ms. Ida Orr,", "everyone", "Theo Penhew, Zora Kest")
    assert outer == "Mr. Theo Penhew / Zora Kest"


def test_two_whom_the_list_has_on_two_lines_stay_apart_behind_a_comma(answered: Answered) -> None:
    row = '"Mr. Theo Penhew\nMs. Ida Orr",'
    outer, _ = answered(row, "everyone", "Mr. Theo Penhew, Ms. Ida Orr")
    assert outer == "Mr. Theo Penhew / Ms. Ida Orr"


@pytest.mark.parametrize(
    "words",
    ["Theo and Ida Penhew, kids: Nell and Bram", "Mr. and Mrs. Theo Penhew, kids: Nell, Bram"],
)
def test_parents_repeated_before_their_children_are_no_children(
    answered: Answered, words: str
) -> None:
    told = answered("Mr. and Mrs. Theo Penhew and family,", "family-unnamed", words)
    assert told == ("Mr. and Mrs. Theo Penhew", "Mr. and Mrs. Penhew / Nell and Bram")


def test_parents_repeated_before_and_kids_are_no_children(answered: Answered) -> None:
    row, words = "Mr. and Mrs. Theo Penhew and family,", "Theo and Ida Penhew and kids"
    assert answered(row, "family-unnamed", words)[1] == "Mr. and Mrs. Penhew / and Family"


def test_a_parents_given_name_before_kids_is_asked_about(answered: Answered) -> None:
    row = "Mr. and Mrs. Theo Penhew and family,"
    assert answered(row, "family-unnamed", "Theo, kids: Nell and Bram") == ("", "")
