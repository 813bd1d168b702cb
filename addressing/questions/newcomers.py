"""Who came with an answer has perhaps no title, or no family name: that is asked too.

As of everybody on the list; the family name first, and the title when that is known.
"""

from collections.abc import Callable, Iterable
from dataclasses import replace

from addressing.questions.asking import mark_of
from addressing.questions.carrying import cited
from addressing.questions.drafts import Draft
from addressing.questions.folding import folded
from addressing.questions.kinds import asking_for
from addressing.questions.naming import near_given, same_given
from addressing.questions.placeholders import words_for
from addressing.questions.showing import household_shown, names_shown, person_shown
from addressing.records.findings import Finding, Severity
from addressing.records.guests import Household, Kind, Person
from addressing.records.questions import Question, Readers
from addressing.where import Where

NEW = "title-new"
"""The middle of the ref of such a question: `h-abcdefgh:title-new:1a2b3c4d`."""


LONE = "surname-new"
"""The middle of the ref of one about a family name."""


def is_of_newcomer(ref: str) -> bool:
    """True for the ref of a question about somebody who came with an answer."""
    return ref.split(":")[1:2] in ([NEW], [LONE])


def is_of_title(ref: str) -> bool:
    """True for the ref of one about a title."""
    return ref.split(":")[1:2] == [NEW]


def newcomers(drafts: Iterable[Draft]) -> tuple[Question, ...]:
    """The questions about those who stand on no row of the list and lack a title, or a family."""
    return tuple(
        question
        for draft in drafts
        for person in _new(draft)
        if (question := _asked(draft.household(), person)) is not None
    )


def _new(draft: Draft) -> Iterable[Person]:
    """Adults of an answer who are nobody that the list names."""
    listed = [person for person in draft.home.people if person.given]
    for person in draft.household().people:
        bare = person.title is None or person.family is None
        plain = person.kind is Kind.NAMED and bare and person.given
        known = any(near_given(person, other) for other in listed)
        if plain and not known and person not in draft.home.people:
            yield person


def _asked(home: Household, person: Person) -> Question | None:
    shown = person_shown(person)
    where = person.cells[-1] if person.cells else home.rows[0]
    if person.family is None and any(other.family for other in home.people):
        text = f"{shown} stands without a family name and is set as answered."
        mend = "What is the family name?"
        return _question(
            home,
            person,
            LONE,
            Finding(Severity.ASK, "surname-missing", where, text, mend, home.key),
        )
    if person.title is not None:
        return None
    mend = "Which title? Without an answer the name stands alone."
    return _question(
        home,
        person,
        NEW,
        Finding(
            Severity.ASK, "title-missing", where, f"No title is given: {shown}.", mend, home.key
        ),
    )


def _question(home: Household, person: Person, code: str, finding: Finding) -> Question | None:
    shown = person_shown(person)
    asking = asking_for(finding, "names", words_for(finding, home))
    if asking is None:
        return None
    who = household_shown(home)
    return Question(
        ref=_ref(home.key, person, code),
        kind=asking.kind,
        group=asking.group,
        who=who,
        text=asking.text({"who": who, "person": shown}),
        listed=shown if code == NEW else names_shown(home),
        basis=shown,
        where=home.rows[0],
        choices=asking.choices,
        covers=(finding,),
        households=(home.key,),
    )


def _ref(key: str, person: Person, code: str) -> str:
    return f"{key}:{code}:{mark_of(folded(f'{person.given} {person.family}'))}"


def title_newcomer(draft: Draft, ref: str, title: str, where: Where) -> None:
    """The title of somebody who came with an answer; `where` is the place of the second answer."""

    def titled(person: Person) -> Person:
        if person.title is not None or _ref(draft.home.key, person, NEW) != ref:
            return person
        return cited(replace(person, title=title), where, person.cells)

    _each(draft, titled)


def name_newcomer(draft: Draft, ref: str, words: str, where: Where, readers: Readers) -> bool:
    """The family name of somebody who came with an answer; False where the words don't give it.

    They are that name alone, the whole name, or the names of all, the others as they stand.
    """
    now = draft.household().people
    lone = next((p for p in now if _ref(draft.home.key, p, LONE) == ref), None)
    read = readers.names(words).people
    if lone is None or not read:
        return False
    others = [p for p in read if not any(same_given(p, other) for other in now)]
    named = next((p for p in read if same_given(p, lone) and p.family), None)
    alone = len(read) == 1 and len(words.split()) == 1 and words[0].isupper()
    family = named.family if named and not others else words if alone and others else None
    if family is None:
        return False
    title = named.title if named else None

    def whole(person: Person) -> Person:
        if person is not lone:
            return person
        new = replace(person, family=family, title=person.title or title)
        return cited(new, where, person.cells)

    _each(draft, whole)
    return True


def _each(draft: Draft, change: Callable[[Person], Person]) -> None:
    draft.people = [tuple(map(change, slot)) for slot in draft.people]
    draft.first = tuple(map(change, draft.first))
    draft.extra = list(map(change, draft.extra))
