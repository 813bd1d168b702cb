"""What a letter asks under each of its numbers, as it was sent."""

from collections.abc import Sequence
from dataclasses import dataclass

from addressing.questions.asking import mark_of
from addressing.questions.letter import label_of
from addressing.records.questions import Asked, Matter, Question

LETTERS = "abcdefghij"
"""How the letter marks the proposed answers, in their order."""


@dataclass(frozen=True, slots=True)
class Slot:
    """One number of a letter: what it asks, what stands beside it, its answers in order."""

    number: str
    asked: Asked
    label: str = ""
    answers: tuple[str, ...] = ()
    who: str = ""
    """Whom it is about, by name."""


@dataclass(frozen=True, slots=True)
class Letter:
    """A letter as it was sent."""

    mark: str
    text: str
    slots: tuple[Slot, ...]


def slots_of(matters: Sequence[Matter]) -> tuple[Slot, ...]:
    """Every number of a letter with what it asks."""
    slots: list[Slot] = []
    for matter in matters:
        answers = tuple(choice.text for choice in matter.choices)
        if not matter.table:
            question = matter.questions[0]
            asked = Asked(question.ref, mark_of(question.basis))
            slots.append(Slot(str(matter.number), asked, "", answers, _whom(question)))
            continue
        if answers:
            slots.append(Slot(str(matter.number), Asked(matter.ref), "", answers))
        for place, question in enumerate(matter.questions, start=1):
            asked = Asked(question.ref, mark_of(question.basis), matter.ref)
            own = tuple(choice.text for choice in question.choices)
            slots.append(
                Slot(f"{matter.number}.{place}", asked, label_of(question), own, _whom(question))
            )
    return tuple(slots)


def _whom(question: Question) -> str:
    """One person where one is asked about, else the household; nobody of several."""
    if len(question.households) != 1:
        return ""
    return question.listed if question.kind == "title" else question.who
