"""Findings that name people say what was decided of them, and what they are called since."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

from addressing.questions.showing import household_shown
from addressing.records.findings import Finding
from addressing.records.guests import Household
from addressing.records.questions import Called, Decision, Question

_CORRECTIONS = "corrections-read"
"""The code of the note on a sheet of corrections."""
_NAMING = "title-missing"
"""The code of findings whose sentence names whom they are about, where those are several."""


def named_as_now(findings: Iterable[Finding], called: Mapping[str, Called]) -> Iterator[Finding]:
    """The findings, those without a title by the names that they have now."""
    for found in findings:
        now = called.get(found.household or "")
        yield _renamed(found, now) if now and found.code == _NAMING else found


def _renamed(found: Finding, called: Called) -> Finding:
    """Without whoever has a title, or is gone, by now; as it was where the list names nobody."""
    people = [called.people[place] for place in found.people]
    names = [
        " ".join(word for word in (person.given, person.family) if word)
        for person in people
        if person is not None and person.title is None
    ]
    front, colon, _ = found.text.partition(": ")
    return replace(found, text=f"{front}: {', '.join(names)}.") if colon and names else found


def with_answers(
    findings: Iterable[Finding],
    taken: Iterable[tuple[Question, Decision]],
    homes: Mapping[str, Household],
) -> Iterator[Finding]:
    """The findings, those on a sheet of corrections with what was answered to it; `homes` as read.

    Who is left out by such an answer has a note besides.
    """
    taken = tuple(taken)
    for found in findings:
        if found.code != _CORRECTIONS:
            yield found
            continue
        told = [
            f"{household_shown(homes[key])}: “{decision.answer}”"
            for question, decision in taken
            if question.text and any(f.where.sheet == found.where.sheet for f in question.covers)
            for key in question.households
            if key in homes
        ]
        text = f"{found.text} Answered by now: {'; '.join(told)}." if told else found.text
        yield replace(found, text=text)
