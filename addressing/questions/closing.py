"""What is asked is closed with "as it stands": by the designer's word, or by a fitting correction.

A remark of the list about somebody ("The Penhews have moved") is no question about one field, so
that a correction settles it only where it is about the same; the decision that is kept then stands
at the correction's place and goes with it.
"""

from collections.abc import Iterable, Iterator, Sequence

from addressing.questions.asking import mark_of
from addressing.questions.corrections import is_correction
from addressing.questions.fitting import Correction, deal_with
from addressing.questions.spreading import KEPT
from addressing.questions.understanding import understood
from addressing.records.questions import Decision, Question
from addressing.where import Where

REMARK = "said-elsewhere"
"""The code of what the list says of somebody beside the rows of guests."""


def as_it_stands(question: Question, where: Where, date: str | None = None) -> Decision:
    """The decision that lets what is asked stand; `where` is the place that says so."""
    return Decision(question.ref, KEPT, where, mark_of(question.basis), date=date)


def may_stand(question: Question) -> bool:
    """False where nothing can be printed as it stands: somebody without an address."""
    change = understood(question, as_it_stands(question, question.where))
    return change is not None and change.effect == "keep"


def is_remark(question: Question) -> bool:
    """True for a question about what the list says beside the rows of guests."""
    return any(found.code == REMARK for found in question.covers)


def closed_by(
    questions: Iterable[Question],
    taken: Sequence[tuple[Question, Decision]],
    given: Sequence[Decision],
) -> Iterator[Decision]:
    """The decisions that close open remarks, where corrections given now deal with them.

    A remark about several is closed by corrections of all of them.
    """
    corrections = [Correction(q, d) for q, d in taken if d in given and is_correction(d.ref)]
    for question in filter(is_remark, questions):
        own = [[each for each in corrections if key in each.question.households]
               for key in question.households]  # fmt: skip
        if own and all(each and deal_with(question.quoted, each) for each in own):
            last = own[0][-1].decision
            yield as_it_stands(question, last.where, last.date)
