"""Leaving out: part of a household that a note speaks of; and whoever is gone is told each time."""

from collections.abc import Iterable, Iterator, Mapping

from addressing.questions.drafts import Draft
from addressing.questions.folding import folded
from addressing.questions.parting import row_of
from addressing.questions.showing import household_shown
from addressing.questions.understanding import Change
from addressing.records.findings import LEFT_OUT, Finding, Severity
from addressing.records.guests import Household, Kind, Person, UnusedRow
from addressing.records.questions import BETWEEN, CHILD, FAMILY, GUEST, Decision

Gone = Mapping[str, tuple[str | None, Decision]]
"""Households that are left out, by key, each with the one that stands for it, if any does."""


def leave_part_out(draft: Draft, change: Change) -> None:
    """Without those whom a note speaks of, where the household has them; all others stay."""
    meant = change.value.split(BETWEEN)
    names = {folded(each) for each in meant} - {GUEST, CHILD, FAMILY}
    if FAMILY in meant:
        draft.family = None
    for place, slot in enumerate(draft.people):
        if place not in draft.filled:
            draft.people[place] = tuple(p for p in slot if not _is_meant(p, meant, names))


def _is_meant(person: Person, meant: list[str], names: set[str]) -> bool:
    if not person.given:
        unnamed = {Kind.GUEST: (GUEST,), Kind.CHILD: (CHILD, FAMILY)}.get(person.kind, ())
        return not set(unnamed).isdisjoint(meant) and not person.family
    return folded(person.given.split()[0]) in names


def left_out_notes(homes: Mapping[str, Household], gone: Gone) -> Iterator[Finding]:
    """A note on each household that is no longer there, with the answer that took it away."""
    for key, (kept, decision) in gone.items():
        who = household_shown(homes[key])
        done = "is left out"
        if kept is not None:
            done = f"is one household with {household_shown(homes[kept])}"
        text = f"{who} {done}, by the answer “{decision.answer}” ({decision.where})."
        where = homes[key].rows[0]
        mend = "If that isn't meant: answer --undo."
        yield Finding(Severity.NOTE, LEFT_OUT, where, text, mend, quoted=decision.answer)


def unused_rows(homes: Mapping[str, Household], gone: Gone) -> Iterable[UnusedRow]:
    """The rows of those households, with why they aren't used."""
    for key, (kept, decision) in gone.items():
        why = f"left out by the answer {decision.where}"
        if kept is not None:
            why = f"one household with {homes[kept].rows[0]} by the answer {decision.where}"
        for where in homes[key].rows:
            yield UnusedRow(where.sheet, row_of(where), why)
