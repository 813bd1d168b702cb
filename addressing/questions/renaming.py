"""Names given anew: they take the places of those whom they stand for."""

from dataclasses import replace

from addressing.questions.beside import earlier_of, hold
from addressing.questions.carrying import cells_of, in_place
from addressing.questions.corrections import is_correction
from addressing.questions.drafts import NO_FAMILY, Draft, usable
from addressing.questions.given_alone import with_family
from addressing.questions.naming import (
    are_others,
    left_out,
    name_the_family,
    names_in,
    near_given,
    places_meant,
)
from addressing.questions.understanding import Change
from addressing.questions.unsaid import kids_unsaid, left_unsaid
from addressing.records.guests import Cited, Household, Kind, Person
from addressing.records.questions import NamesRead, Readers


def name_people(
    draft: Draft, change: Change, readers: Readers, alone: NamesRead | None = None
) -> str | None:
    """Names anew for those whom the question was about; the reason when they don't hold.

    `alone` are the given names of an answer that has nothing else.
    """
    read = _names_given(draft.home, change, readers, alone)
    if isinstance(read, str):
        return read
    places = places_meant(draft.home, change, read)
    unsaid = left_unsaid(draft.home, places, change, read, readers)
    unsaid = unsaid or kids_unsaid(draft.home, change, read)[1]
    if unsaid:
        return unsaid
    staying = left_out(draft.home, places, read)
    every = change.question.kind == "everyone" or change.sole
    if staying and not every and not change.question.covers:
        names = ", ".join(staying)
        return f"It changes nothing, and {names} would stay: give everyone who is invited."
    earlier = earlier_of(draft, change, read)
    _names_alone(draft, change)
    old = tuple(draft.home.people[place] for place in places)
    where = change.decision.where
    if read.label is not None:
        before = draft.label.cells if draft.label else cells_of(old)
        draft.label = Cited(read.label, (*before, where))
    elif draft.label is not None and read.people:
        old = old or (Person(cells=draft.label.cells),)
        draft.label = draft.family = None
    people = in_place(read, old, where)
    _put(draft, places, people)
    draft.named, draft.filled = people, frozenset(places)
    children = any(person.kind is Kind.CHILD for person in people)
    draft.whole = children or every or name_the_family(draft.home, places, read)
    draft.named_by = change
    if read.family is not None and draft.label is None:
        draft.family = Cited(read.family, (*cells_of(old), where))
    elif draft.whole and draft.label is None:
        draft.family = None
    hold(draft, earlier)
    return None


def _names_given(
    home: Household, change: Change, readers: Readers, alone: NamesRead | None
) -> NamesRead | str:
    """The people of an answer with names, or why it can't be taken."""
    read = names_in(change, home, readers, alone)
    if not usable(read, change):
        return ""
    unsure = not change.decision.sure and not is_correction(change.question.ref)
    if unsure and _names_companion(change, home, read):
        return "Who comes along alone? Give everyone who is invited."
    if unsure and are_others(home, read):
        return "It names nobody whom the list has: give everyone who is invited."
    people = with_family(read.people, home) if home.label else read.people
    return NO_FAMILY if people is None else replace(read, people=people)


def _names_companion(change: Change, home: Household, read: NamesRead) -> bool:
    """True where it is asked who comes along, and nobody whom the list has is named."""
    asked = any(found.code == "guest-noted" for found in change.question.covers)
    return asked and not any(
        near_given(person, other) for person in read.people for other in home.people
    )


def _names_alone(draft: Draft, change: Change) -> None:
    """Names that were given before are taken back: the later ones stand for all."""
    if is_correction(change.question.ref):
        draft.extra = []
    if draft.named:
        draft.people = [(person,) for person in draft.home.people]
        draft.first, draft.label, draft.family = (), draft.home.label, draft.home.family
        draft.held, draft.beside, draft.held_by = frozenset(), (), ()


def _put(draft: Draft, places: list[int], people: tuple[Person, ...]) -> None:
    """One for one where the numbers agree, so that a title still goes to its own person."""
    if len(places) == len(people):
        for place, person in zip(places, people, strict=True):
            draft.people[place] = (person,)
    elif places:
        for place in places:
            draft.people[place] = ()
        draft.people[places[0]] = people
    else:
        draft.first = people
