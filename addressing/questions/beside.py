"""What a decision added beside the grown ones stays beside names that say nothing of it.

"and kids", children by name or a companion came with an answer, or with what was set for everyone;
the names of the parents, set later, are no word about them.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from addressing.questions.choosing import leaves_out
from addressing.questions.corrections import is_correction
from addressing.questions.drafts import Draft
from addressing.questions.naming import near_given, same_given
from addressing.questions.understanding import Change
from addressing.records.guests import Cited, Kind, Person
from addressing.records.questions import CHILD, FAMILY, GUEST, NamesRead


@dataclass(frozen=True, slots=True)
class Earlier:
    """What a household was by decisions before its names were corrected.

    `slots` are the places of companions and children as those left them, `people` whoever came
    besides; `family` is the family without a name then, `changed` that it isn't the list's.
    """

    by: tuple[Change, ...]
    slots: dict[int, tuple[Person, ...]]
    people: tuple[Person, ...]
    family: Cited | None
    changed: bool
    whole: bool


def earlier_of(draft: Draft, change: Change, read: NamesRead) -> Earlier | None:
    """What stays beside the names of a correction; None where they speak of it themselves."""
    question = change.question
    if question.kind != "names" or not is_correction(question.ref):
        return None
    if any(leaves_out(change.decision.answer, whom) for whom in (CHILD, FAMILY, GUEST)):
        return None
    if read.family is not None or read.label is not None or _have(read.people, Kind.CHILD):
        return None
    slots = {
        place: draft.people[place]
        for place in draft.filled
        if draft.home.people[place].kind is not Kind.NAMED and len(draft.people[place]) <= 1
    }
    listed, grown = _grown(draft.home.people), _grown(read.people)
    most = max(listed, _grown(draft.named))
    return Earlier(
        by=(draft.named_by,) if draft.named_by else (),
        slots=slots,
        people=(*_besides(draft, slots, read), *_others(draft.extra, read.people)),
        family=draft.family,
        changed=draft.family != draft.home.family and grown <= most,
        whole=draft.whole,
    )


def _besides(
    draft: Draft, slots: Mapping[int, tuple[Person, ...]], read: NamesRead
) -> Iterator[Person]:
    """Whom earlier names have beside those for whom the new ones stand, and in no place.

    They are the children; and companions, so many as were more than the list's grown ones, unless
    the new names are more than those themselves.
    """
    there = [person for slot in slots.values() for person in slot]
    left = [p for p in _others(draft.named, read.people) if p not in there]
    listed = [person for person in draft.home.people if person.kind is Kind.NAMED]
    few = len(listed) >= _grown(read.people)
    new = [p for p in _others(left, listed) if p.kind is Kind.NAMED]
    more = max(_grown(draft.named) - len(listed), 0) if few else 0
    came = new[len(new) - min(more, len(new)) :]
    for person in left:
        if person.kind is Kind.CHILD or person in came or (few and person.kind is Kind.GUEST):
            yield person


def hold(draft: Draft, earlier: Earlier | None) -> None:
    """Put what stays beside the names that a draft has now; nothing for None."""
    if earlier is None:
        return
    slots = {
        place: _others(slot, draft.named)
        for place, slot in earlier.slots.items()
        if place not in draft.filled
    }
    if not slots and not earlier.people and not earlier.changed:
        return
    for place, slot in slots.items():
        draft.people[place] = slot
    draft.extra += earlier.people
    if earlier.changed:
        draft.family = earlier.family
    draft.held, draft.held_by = frozenset(slots), earlier.by
    draft.filled |= draft.held
    draft.beside = (*(person for slot in slots.values() for person in slot), *earlier.people)
    draft.whole = draft.whole or earlier.whole


def held(drafts: Iterable[Draft], taken: Iterable[Change]) -> frozenset[str]:
    """The refs of decisions of which something stays beside names that were corrected."""
    by_key = {draft.home.key: draft for draft in drafts if draft.corrected}
    refs = {change.decision.ref for draft in by_key.values() for change in draft.held_by}
    for change in taken:
        draft = by_key.get(change.question.household or "")
        if draft is not None and change is not draft.named_by and _cites(draft, change):
            refs.add(change.decision.ref)
    return frozenset(refs)


def _cites(draft: Draft, change: Change) -> bool:
    """True where something of a decision is in the household as it is now."""
    home = draft.household()
    cells = [cell for person in home.people for cell in person.cells]
    return change.decision.where in (*cells, *(home.family.cells if home.family else ()))


def _others(people: Iterable[Person], named: Sequence[Person]) -> tuple[Person, ...]:
    return tuple(person for person in people if not _is_among(person, named))


def _have(people: Iterable[Person], kind: Kind) -> bool:
    return any(person.kind is kind for person in people)


def _grown(people: Iterable[Person]) -> int:
    return sum(person.kind is Kind.NAMED for person in people)


def _is_among(person: Person, people: Iterable[Person]) -> bool:
    """True for one of them, be it in another spelling for somebody grown."""
    return any(
        same_given(person, other)
        or (person.kind is other.kind and bool(person.given) and near_given(person, other))
        for other in people
    )
