"""A household while answers are worked into it; what isn't answered stays as it was read."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from addressing.questions.carrying import cited, in_place, seated, with_children_in_order
from addressing.questions.companion_named import is_married
from addressing.questions.corrections import is_correction, number_of
from addressing.questions.kinship import called_inside
from addressing.questions.naming import near_given, same_given
from addressing.questions.part_of_place import completed
from addressing.questions.understanding import Change
from addressing.records.guests import Address, Cited, Household, Kind, Person
from addressing.records.questions import Called, NamesRead, Readers
from addressing.where import Where

OVERRULED = "Another answer gives all the names, and says otherwise."
"""Why an answer about one of a household doesn't hold."""
NO_FAMILY = "It gives no family name: the parents in full, please."
"""Why names don't hold that would stand in place of a family."""


@dataclass(slots=True)
class Draft:
    """What a household becomes: each person in place, several where one became several."""

    home: Household
    people: list[tuple[Person, ...]]
    label: Cited | None
    family: Cited | None
    address: Address | None
    by_hand: bool
    first: tuple[Person, ...] = ()
    """Those who come before all others: a household that had no names."""
    extra: list[Person] = field(default_factory=list)
    named: tuple[Person, ...] = ()
    """Those whom an answer with the names of the household gives."""
    filled: frozenset[int] = frozenset()
    """The places that those names stand for."""
    whole: bool = False
    """True when the names are all that the household has: children are among them."""
    named_by: Change | None = None
    """The answer that gives them."""
    held: frozenset[int] = frozenset()
    """The filled places that stand as a decision before those names left them."""
    beside: tuple[Person, ...] = ()
    """Those of a decision before who stay beside the names."""
    held_by: tuple[Change, ...] = ()
    """The decisions before of which something stays beside the names."""
    told: tuple[Person, ...] = ()
    """Those whom the last answer about the family names, in its order."""
    over: dict[str, Any] = field(default_factory=dict)
    """Fields of a household that were taken over from a row that is one with it."""

    @classmethod
    def of(cls, home: Household) -> "Draft":
        """The draft in which nothing is answered yet."""
        people: list[tuple[Person, ...]] = [(person,) for person in home.people]
        return cls(home, people, home.label, home.family, home.address, home.by_hand)

    def household(self) -> Household:
        """The household as it is now."""
        people = (*self.first, *(person for slot in self.people for person in slot), *self.extra)
        people = with_children_in_order(people, self.home.people, self.told)
        inner = self.home.inner if _names(people) == _names(self.home.people) else None
        return replace(
            self.home,
            people=people,
            label=self.label,
            family=self.family,
            address=self.address,
            by_hand=self.by_hand,
            inner=inner or called_inside(self.home, people),
            **self.over,
        )

    def called(self) -> Called | None:
        """The household as it is called now; None where that is as the list has it."""
        home = self.household()
        if home == self.home:
            return None
        at = [self.now(place) for place in range(len(self.people))]
        return Called(home, tuple(self.people[each[0]][each[1]] if each else None for each in at))

    def now(self, place: int) -> tuple[int, int] | None:
        """Where the person of a place stands now: (slot, number in it); None when gone."""
        was, slot = self.home.people[place], self.people[place]
        if place in self.filled:
            for number, people in enumerate(self.people):
                for turn, person in enumerate(people):
                    if same_given(person, was):
                        return number, turn
            return (place, 0) if len(slot) == 1 and near_given(slot[0], was) else None
        return (place, 0) if slot else None

    def names_all(self) -> bool:
        """True when names were given and nobody of the household is left without one."""
        unnamed = any(p.kind is Kind.CHILD and not p.given for slot in self.people for p in slot)
        return bool(self.named) and not unnamed and self.label is None and self.family is None

    @property
    def corrected(self) -> bool:
        """True when the names were given unasked."""
        return self.named_by is not None and not self.named_by.question.text

    def has(self, people: Iterable[Person]) -> bool:
        """True when all these are among the names that were given."""
        known = (*self.named, *self.beside)
        return all(any(same_given(person, other) for other in known) for person in people)

    def is_empty(self) -> bool:
        """True when nobody is left of those whom the list had."""
        people = (*self.first, *self.extra, *(each for slot in self.people for each in slot))
        return not people and self.label is None and bool(self.home.people)


def _names(people: Iterable[Person]) -> list[tuple[str | None, str | None]]:
    """Who they are: the list's own words for the inner envelope hold as long as that stays."""
    return [(person.given, person.family) for person in people]


def set_title(draft: Draft, change: Change, readers: Readers) -> str | None:
    """A title for one person; the reason when it doesn't hold ("": it is no title), else None."""
    title = readers.title(change.words)
    place = change.question.person
    if title is None or place is None:
        return ""
    at = draft.now(place)
    if at is None:
        return OVERRULED if place in draft.filled else None
    slot = list(draft.people[at[0]])
    person, listed = slot[at[1]], draft.home.people[place].title
    if person.kind is Kind.GUEST or person.title == title:
        return None
    corrects = is_correction(change.question.ref)
    if corrects and _is_titled_later(draft, change, person, readers):
        return None
    if person.title not in (None, listed) and not corrects:
        return OVERRULED if place in draft.filled else None
    slot[at[1]] = cited(replace(person, title=title), change.decision.where, person.cells)
    draft.people[at[0]] = tuple(slot)
    return None


def _is_titled_later(draft: Draft, change: Change, person: Person, readers: Readers) -> bool:
    """True where the designer gave the names after the title, and another title with them."""
    names = draft.named_by
    if names is None or number_of(names.decision) <= number_of(change.decision):
        return False
    said = readers.names(names.words).people
    return person.title is not None and any(each.title == person.title for each in said)


def name_companion(draft: Draft, change: Change, readers: Readers) -> str | None:
    """A name for a companion, or nobody; the reason when it doesn't hold, else None."""
    place = change.question.person
    if place is None:
        return ""
    if change.effect == "omit":
        if place not in draft.filled:
            draft.people[place] = ()
        return None
    old = draft.home.people[place]
    read = readers.names(change.words)
    if not usable(read, change) or not read.people:
        return ""
    if place in draft.filled or (draft.named and draft.has(read.people)):
        return None if draft.has(read.people) else OVERRULED
    named = in_place(read, (old,), change.decision.where)
    if is_married(change.decision.answer):
        named = (replace(named[0], joined=True), *named[1:])
    draft.people[place] = named
    if read.family is not None and draft.family is None:
        draft.family = Cited(read.family, (*old.cells, change.decision.where))
    return None


def struck_people(draft: Draft, change: Change, readers: Readers) -> str | None:
    """Someone who is crossed out: in again ("restore"), or out for certain ("omit")."""
    read = readers.names(change.question.quoted)
    if draft.named and read.people and draft.has(read.people):
        return OVERRULED if change.effect == "omit" else None
    there = [
        place
        for place, person in enumerate(draft.home.people)
        if change.question.where in person.cells and _same_words(person, read)
    ]
    if change.effect == "omit":
        for place in there:
            draft.people[place] = ()
        return None
    if not read.people:
        return ""
    if draft.whole or draft.corrected or set(there) & draft.filled:
        return OVERRULED
    if not there:
        before = (change.question.where,)
        people = [cited(p, change.decision.where, before) for p in read.people]
        draft.extra += seated(people, draft.home.people)
    return None


def set_address(
    draft: Draft, change: Change, readers: Readers, *, more: bool = False
) -> str | None:
    """An address, or a field of it; the reason when it doesn't hold, else None.

    `more` says that another field of it follows: what the two make together is looked at then.
    """
    old = draft.address
    name, value = _field(change)
    whole = name == "lines"
    before = _address_cells(old) if whole else _field_cells(old, name)
    fields = {} if whole else fields_of(old)
    housed = name == "street" and _has_unit(value, fields, readers)
    if housed:
        fields.pop("unit", None)
    fields[name] = Cited(value, (*before, change.decision.where))
    if whole and old is not None and old.country is not None:
        fields["home"] = old.country
    address, wrong = readers.address(fields)
    part = completed(old, value, change.decision.where, readers) if whole and wrong else None
    if part is not None:
        draft.address = replace(part, doubt=0.0)
        return None
    if address is None:
        return "No address can be read in it."
    known = readers.address(fields_of(draft.home.address))[1] if not change.question.covers else ()
    news = [text for text in wrong if text not in known]
    if news and not more and not change.decision.sure:
        return news[0]
    if not whole and old is not None:
        own = ("street", "unit") if housed else (name,)
        address = replace(old, **{field: getattr(address, field) for field in own})
    draft.address = replace(address, doubt=0.0)
    draft.by_hand = draft.by_hand and not whole
    return None


def _has_unit(street: str, fields: Mapping[str, Cited], readers: Readers) -> bool:
    """True for a street with a unit of its own: "8 Larkmoor Lane, Apt 2" brings its apartment."""
    alone = {name: cited for name, cited in fields.items() if name not in ("street", "unit")}
    read, _ = readers.address({**alone, "street": Cited(street)})
    return read is not None and read.unit is not None


def _field(change: Change) -> tuple[str, str]:
    """Which field an answer is for; who gives a whole address where a part was asked is heard."""
    if change.effect == "set":
        name, _, value = change.value.partition("=")
        return name, value
    kind = change.question.kind
    whole = kind in _PARTS and ("," in change.value or "\n" in change.value)
    return ("lines" if kind == "address" or whole else kind), change.value


_PARTS = frozenset(("city", "region", "postcode", "country"))
_FIELDS = ("street", "unit", "recipient_extra", "city", "region", "postcode", "country")


def fields_of(address: Address | None) -> dict[str, Cited]:
    """The filled fields of an address, by name."""
    found = {name: getattr(address, name) for name in _FIELDS} if address else {}
    return {name: value for name, value in found.items() if value is not None}


def _address_cells(address: Address | None) -> tuple[Where, ...]:
    cells = (cell for value in fields_of(address).values() for cell in value.cells)
    return tuple(dict.fromkeys(cells))


def _field_cells(address: Address | None, name: str) -> tuple[Where, ...]:
    value = fields_of(address).get(name)
    return value.cells if value else ()


def usable(read: NamesRead, change: Change) -> bool:
    """True for names that can be taken: read without doubt, or the client is sure of them."""
    named = bool(read.people) or read.label is not None
    return named and (change.decision.sure or not read.doubtful)


def _same_words(person: Person, read: NamesRead) -> bool:
    return any((person.given, person.family) == (p.given, p.family) for p in read.people)
