"""Who gets an envelope each, and names that were given for all of them: nobody may be lost."""

from addressing.questions.hearing import Work
from addressing.records.guests import Household, Kind


def apart_of(work: Work) -> set[str]:
    """The households whose people get an envelope each.

    Not where names that were given for all of them are of fewer or more: somebody would be lost,
    or stand on two envelopes. Such a household waits.
    """
    keys: set[str] = set()
    for change in work.splits:
        key = change.question.households[0]
        draft = work.drafts[key]
        listed, now = _grown(work.homes[key]), _grown(draft.household())
        if draft.named_by is None or listed == now:
            keys.add(key)
            continue
        said = f"“{draft.named_by.decision.answer}” and “{change.decision.answer}”"
        text = f"{said}: the names are of {now}, and {listed} get an envelope each."
        mend = "Write the names of all of them, one behind the other."
        work.refuse("answer-conflict", draft.named_by.decision, text, mend, holds=True)
    return keys


def _grown(home: Household) -> int:
    return sum(person.kind is Kind.NAMED for person in home.people)
