"""Several numbers on one line of a reply: cut where each begins an answer, and nowhere else."""

import pytest

from addressing.questions.replies import reply_answers
from addressing.questions.several_numbers import several
from addressing.questions.slots import Letter, Slot
from addressing.records.questions import Asked

SLOTS = {
    number: Slot(number, Asked(f"h-{number}:x", ""), "", ("Yes, x", "No, y"))
    for number in (*map(str, range(1, 14)), "14.1", "14.2")
}


@pytest.mark.parametrize(
    ("line", "found"),
    [
        ("1. yes 2. first 3. no", {"1": "yes", "2": "first", "3": "no"}),
        ("1. b 3. Ned and Ida Vole", {"1": "b", "3": "Ned and Ida Vole"}),
        ("3. Kit Orr 4. Ned Vole", {"3": "Kit Orr", "4": "Ned Vole"}),
        ("14.1 Mr 14.2 Mrs", {"14.1": "Mr", "14.2": "Mrs"}),
        ("1 yes 2 no 3 b", {"1": "yes", "2": "no", "3": "b"}),
        ("2-4: yes", {"2": "yes", "3": "yes", "4": "yes"}),
        ("5 & 6: guest", {"5": "guest", "6": "guest"}),
        ("1: yes 11: 04032", {"1": "yes", "11": "04032"}),
        ("4. 9 Elm St Apt 5. Portland, ME 04102", {}),
        ("7. Ned 8. Kit 9.", {}),
        ("7. Ned 8, Kit 9", {}),
        ("12-14 Elm Street", {}),
        ("2-4: Kit Orr", {}),
    ],
)
def test_a_line_is_cut_only_where_a_number_begins_an_answer(
    line: str, found: dict[str, str]
) -> None:
    assert dict(several(line, SLOTS)) == found


def read(text: str) -> dict[str, str]:
    """Number → answer of a reply to a letter about Kit Orr, the Voles and Kit's title."""
    slots = (
        Slot("1", Asked("h-1:x", ""), "", ("Yes", "No"), "Kit Orr"),
        Slot("2", Asked("h-2:x", ""), "", (), "Ned Vole"),
        Slot("3.1", Asked("h-1:title", "", "all:title"), "", (), "Kit Orr"),
    )
    given = reply_answers(text, Letter("52afd263", "", slots), "r.txt")
    numbers = {ref: number for number, ref in given.numbers.items()}
    return {numbers[each.ref]: each.answer for each in given.decisions}


def test_a_letter_keeps_its_answer_beside_the_line_below_it() -> None:
    assert read("1: b\nthey moved") == {"1": "No\nthey moved"}


def test_a_line_that_names_another_guest_is_no_part_of_the_answer_above() -> None:
    assert read("2: Ned and Ida Vole\nKit Orr: no") == {"2": "Ned and Ida Vole", "1": "no"}
