"""Plain words of clients: a companion's name in a sentence, a guest or none, who can't come."""

from pathlib import Path

import pytest

from addressing.job.asking import list_as_read
from addressing.job.rereading import READERS
from addressing.questions.applying import apply
from addressing.questions.asking import questions_for
from addressing.records.guests import Kind
from addressing.records.questions import Decision
from addressing.where import Where

GUEST = "Ms. Ottoline Penhew and Guest,"
NOTED = "Mr. Hugo Farrenby,plus one?"
MAYBE = "Ms. Zora Kest,maybe"
COUPLE = "Mr. and Mrs. Otto Vole,maybe"
WITH_GUEST = "guest"


def answered(tmp_path: Path, row: str, words: str) -> str | None:
    """Who comes along by an answer, "" for nobody; "gone" for no household, None if not taken."""
    path = tmp_path / "list.csv"
    name, _, note = row.partition(",")
    head = "Name,Street,City,State,ZIP,Notes"
    path.write_text(f"{head}\n{name},5 Elm Row,Litchfield,CT,06759,{note}\n", "utf-8")
    listed = list_as_read(path, None)
    (question,) = questions_for(listed.guest_list, listed.findings)
    decision = Decision(question.ref, words, Where("r.txt", "r.txt"))
    done = apply(listed.guest_list, listed.findings, [decision], READERS)
    if not done.taken:
        return None
    if not done.guest_list.households:
        return "gone"
    others = done.guest_list.households[0].people[1:]
    return " ".join(WITH_GUEST if p.kind is Kind.GUEST else f"{p.given} {p.family}" for p in others)


@pytest.mark.parametrize(
    ("row", "words", "who"),
    [
        (GUEST, 'not sure yet so "and Guest" is fine', WITH_GUEST),
        (GUEST, "don't know yet, and guest is fine", WITH_GUEST),
        (GUEST, "she gets a plus one", WITH_GUEST),
        (GUEST, "yes plus one", WITH_GUEST),
        (GUEST, "no, alone", ""),
        (GUEST, "yes still together, her name is Kelly Orr", "Kelly Orr"),
        (GUEST, "His name is Ned Orr", "Ned Orr"),
        (NOTED, "plus one", WITH_GUEST),
        (NOTED, "He gets a plus one!", WITH_GUEST),
        (NOTED, "no, alone", ""),
        (NOTED, "yes, they\u2019re still together. Her name\u2019s Kelly Orr", "Kelly Orr"),
        (MAYBE, "leave her out, she can't come", "gone"),
        (MAYBE, "no, she can\u2019t come", "gone"),
        (COUPLE, "they can't make it", "gone"),
    ],
)
def test_plain_words_are_the_answer(tmp_path: Path, row: str, words: str, who: str) -> None:
    assert answered(tmp_path, row, words) == who


@pytest.mark.parametrize(
    ("row", "words"),
    [
        (GUEST, "not sure yet so ask me in June"),
        (GUEST, "not sure"),
        (GUEST, "and guest, I think"),
        (GUEST, "they broke up, her name is Kelly Orr"),
        (GUEST, "no, her name is Kelly Orr"),
        (GUEST, "her name is Kelly Orr but she can't come"),
        (GUEST, "she can't come"),
        (NOTED, "she can't come"),
        (MAYBE, "she gets a plus one"),
        (MAYBE, "she can't come on Friday"),
        (COUPLE, "leave her out, she can't come"),
        (COUPLE, "she can't come"),
    ],
)
def test_words_that_leave_something_open_are_asked_about(
    tmp_path: Path, row: str, words: str
) -> None:
    assert answered(tmp_path, row, words) is None
