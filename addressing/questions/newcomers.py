"""Who came with an answer has perhaps no title: that is asked too, as of everybody on the list."""

from collections.abc import Iterable
from dataclasses import replace

from addressing.questions.asking import mark_of
from addressing.questions.carrying import cited
from addressing.questions.drafts import Draft
from addressing.questions.folding import folded
from addressing.questions.kinds import asking_for
from addressing.questions.naming import near_given
from addressing.questions.placeholders import words_for
from addressing.questions.showing import household_shown, person_shown
from addressing.records.findings import Finding, Severity
from addressing.records.guests import Household, Kind, Person
from addressing.records.questions import Question
from addressing.where import Where

NEW = "title-new"
"""The middle of the ref of such a question: `h-abcdefgh:title-new:1a2b3c4d`."""


def is_of_newcomer(ref: str) -> bool:
    """True for the ref of a question about somebody who came with an answer."""
    return ref.split(":")[1:2] == [NEW]


def newcomers(drafts: Iterable[Draft]) -> tuple[Question, ...]:
    """The questions about those who stand on no row of the list and have no title."""
    return tuple(
        question
        for draft in drafts
        for person in _new(draft)
        if (question := _question(draft.household(), person)) is not None
    )


def _new(draft: Draft) -> Iterable[Person]:
    """Adults of an answer who are nobody that the list names."""
    listed = [person for person in draft.home.people if person.given]
    for person in draft.household().people:
        plain = person.kind is Kind.NAMED and person.title is None and person.given
        known = any(near_given(person, other) for other in listed)
        if plain and not known and person not in draft.home.people:
            yield person


def _question(home: Household, person: Person) -> Question | None:
    shown = person_shown(person)
    where = person.cells[-1] if person.cells else home.rows[0]
    mend = "Which title? Without an answer the name stands alone."
    finding = Finding(
        Severity.ASK, "title-missing", where, f"No title is given: {shown}.", mend, home.key
    )
    asking = asking_for(finding, "names", words_for(finding, home))
    if asking is None:
        return None
    who = household_shown(home)
    return Question(
        ref=_ref(home.key, person),
        kind=asking.kind,
        group=asking.group,
        who=who,
        text=asking.text({"who": who, "person": shown}),
        listed=shown,
        basis=shown,
        where=home.rows[0],
        choices=asking.choices,
        covers=(finding,),
        households=(home.key,),
    )


def _ref(key: str, person: Person) -> str:
    return f"{key}:{NEW}:{mark_of(folded(f'{person.given} {person.family}'))}"


def title_newcomer(draft: Draft, ref: str, title: str, where: Where) -> None:
    """The title of somebody who came with an answer; `where` is the place of the second answer."""

    def titled(person: Person) -> Person:
        if person.title is not None or _ref(draft.home.key, person) != ref:
            return person
        return cited(replace(person, title=title), where, person.cells)

    draft.people = [tuple(map(titled, slot)) for slot in draft.people]
    draft.first = tuple(map(titled, draft.first))
    draft.extra = list(map(titled, draft.extra))
