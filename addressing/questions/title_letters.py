"""A client's own letters in place of titles ("MM", "W"): asked once for all who have them."""

import re
from collections.abc import Iterable, Mapping
from dataclasses import replace

from addressing.questions.carrying import cited, in_place
from addressing.questions.drafts import Draft
from addressing.questions.understanding import Change
from addressing.records.findings import Finding
from addressing.records.guests import Household, Kind, Person
from addressing.records.questions import Readers

LETTERS = "letters"
"""The kind of the question what such letters mean."""
CODE = "title-letters"
NO_TITLE = "It gives no title: “Mr. and Mrs.”, “Dr.” or another, please."
"""Why an answer can't be taken."""
_JOINT = re.compile(r"\s*&\s*|\s+(?:and|und|et|y)\s+", re.IGNORECASE)
_COUPLE = 2
_SHOWN = 4
"""Guests that a question names."""


def shown(homes: Iterable[Household]) -> str:
    """Whose letters they are: the first by name, and how many more."""
    names = list(dict.fromkeys(home.name for home in homes))
    more = f" and {len(names) - _SHOWN} more" if len(names) > _SHOWN else ""
    return ", ".join(names[:_SHOWN]) + more


def set_letters(drafts: Mapping[str, Draft], change: Change, readers: Readers) -> str | None:
    """Give the title that some letters mean to everybody who has them.

    "Mr. and Mrs." beside one name is a couple, beside two it is theirs. Returns why it can't be
    taken, else None.
    """
    titles = [_known(part, readers) for part in _JOINT.split(change.words.strip())]
    known = [title for title in titles if title is not None]
    if len(known) != len(titles) or not 0 < len(known) <= _COUPLE:
        return NO_TITLE
    for found in change.question.covers:
        draft = drafts.get(found.household or "")
        if draft is not None:
            _set(draft, found, known, change, readers)
    return None


def titled_by_now(findings: Iterable[Finding], drafts: Mapping[str, Draft]) -> set[Finding]:
    """The findings about letters beside nobody who lacks a title, by other answers."""
    return {
        found
        for found in findings
        if found.code == CODE and (draft := drafts.get(found.household or "")) is not None
        if all(_is_titled(draft, place) for place, person in enumerate(draft.home.people)
               if _is_meant(person, found))
    }  # fmt: skip


def _is_titled(draft: Draft, place: int) -> bool:
    at = draft.now(place)
    return at is None or draft.people[at[0]][at[1]].title is not None


def _known(words: str, readers: Readers) -> str | None:
    """A title as the list's own would be read before a name; None for other words ("widow")."""
    title = readers.title(words)
    read = readers.names(f"{words} Kit Penhew").people
    return title if len(read) == 1 and read[0].title == title else None


def _set(draft: Draft, found: Finding, titles: list[str], change: Change, readers: Readers) -> None:
    meant = [
        place
        for place, person in enumerate(draft.home.people)
        if _is_meant(person, found) and draft.now(place) is not None
    ]
    if len(titles) == _COUPLE and len(meant) == 1:
        _make_couple(draft, meant[0], change, readers)
        return
    for place, title in zip(meant, titles, strict=False):
        at = draft.now(place)
        if at is None:
            continue
        slot = list(draft.people[at[0]])
        person = slot[at[1]]
        if person.title is None:
            titled = replace(person, title=title)
            slot[at[1]] = cited(titled, change.decision.where, (*person.cells, found.where))
        draft.people[at[0]] = tuple(slot)


def _is_meant(person: Person, found: Finding) -> bool:
    """True for somebody without a title in the row of the letters."""
    row = (found.where.sheet, found.where.row)
    there = any((cell.sheet, cell.row) == row for cell in person.cells)
    return there and person.kind is Kind.NAMED and person.title is None


def _make_couple(draft: Draft, place: int, change: Change, readers: Readers) -> None:
    """Mr. and Mrs. before one name: she is invited too."""
    at = draft.now(place)
    person = draft.people[at[0]][at[1]] if at is not None else None
    if at is None or person is None or person.title is not None:
        return
    name = (person.given, person.family, person.suffix)
    read = readers.names(" ".join((change.words, *(word for word in name if word))))
    slot = draft.people[at[0]]
    made = in_place(read, (person,), change.decision.where)
    draft.people[at[0]] = (*slot[: at[1]], *made, *slot[at[1] + 1 :])
