"""An answer to other words than the list has now: carried over and told, or its household waits.

Without it another envelope would be printed than the client asked for, and nobody would know.
"""

from collections.abc import Collection, Iterable

from addressing.questions.lasting import noted
from addressing.questions.understanding import understood
from addressing.records.findings import CARRIED, Finding, Severity
from addressing.records.questions import Decision, Question


def asked_in_its_place(
    decision: Decision, questions: Iterable[Question], answered: Collection[str]
) -> Question | None:
    """The open question that an outdated answer would have to be given to once more.

    None where nothing on paper hangs on it: the answer let the list stand, or what it was about is
    asked no longer, or answered by another. `answered` are the refs of all decisions.
    """
    key, _, rest = decision.ref.partition(":")
    code = rest.partition(":")[0]
    for question in questions:
        own = question.household == key and any(found.code == code for found in question.covers)
        if own and (question.ref == decision.ref or question.ref not in answered):
            change = understood(question, noted(question, decision))
            return question if change is not None and change.effect != "keep" else None
    return None


def why_it_waits(decision: Decision, question: Question) -> str:
    """What a designer is told of an outdated answer that holds its household."""
    then, now = (
        " ".join(words.replace("\n", "; ").split()) for words in (decision.about, question.basis)
    )
    was = f"“{then}”" if then else "other words"
    return f"“{decision.answer}” was said of {was}. Now the list has “{now or 'nothing'}”."


def told_carried(decision: Decision, question: Question) -> Finding | None:
    """A note of a title that holds for somebody who is only spelled otherwise by now."""
    if question.kind != "title" or decision.about in ("", question.basis):
        return None
    text = f"“{decision.answer}” was said of {decision.about}; it holds for {question.basis}."
    mend = f"If that is somebody else: answer --undo '{decision.where}'."
    return Finding(
        Severity.NOTE, CARRIED, decision.where, text, mend, question.household,
        quoted=decision.answer,
    )  # fmt: skip
