"""Findings that name people call them as they are called since something was decided."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

from addressing.records.findings import Finding
from addressing.records.questions import Called

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
