"""A household while answers are worked into it; what isn't answered stays as it was read."""

from dataclasses import dataclass, field, replace

from addressing.questions.understanding import Change
from addressing.records.guests import Address, Cited, Household, Kind, Person
from addressing.records.questions import NamesRead, Readers
from addressing.where import Where


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

    @classmethod
    def of(cls, home: Household) -> "Draft":
        """The draft in which nothing is answered yet."""
        people: list[tuple[Person, ...]] = [(person,) for person in home.people]
        return cls(home, people, home.label, home.family, home.address, home.by_hand)

    def household(self) -> Household:
        """The household as it is now."""
        people = (*self.first, *(person for slot in self.people for person in slot), *self.extra)
        return replace(
            self.home,
            people=people,
            label=self.label,
            family=self.family,
            address=self.address,
            by_hand=self.by_hand,
        )


def cited(person: Person, where: Where, before: tuple[Where, ...]) -> Person:
    """A person whose words come from an answer: the cells read first, then the answer's."""
    return replace(person, cells=tuple(dict.fromkeys((*before, where))))


def set_title(draft: Draft, change: Change, readers: Readers) -> bool:
    """A title for one person; False when the words are no title."""
    value = change.value.partition("=")[2] if change.effect == "set" else change.value
    title = readers.title(value)
    place = change.question.person
    if title is None or place is None or not draft.people[place]:
        return title is not None
    first, *others = draft.people[place]
    if first.title == draft.home.people[place].title and first.kind is not Kind.GUEST:
        first = cited(replace(first, title=title), change.decision.where, first.cells)
    draft.people[place] = (first, *others)
    return True


def name_companion(draft: Draft, change: Change, readers: Readers) -> bool:
    """A name for a companion, or nobody; False when the words are no name."""
    place = change.question.person
    if place is None:
        return False
    if change.effect == "omit":
        draft.people[place] = ()
        return True
    old = draft.home.people[place]
    read = readers.names(change.value)
    if not _usable(read, change) or not read.people:
        return False
    draft.people[place] = _in_place(read, (old,), change.decision.where)
    return True


def name_people(draft: Draft, change: Change, readers: Readers) -> bool:
    """Names anew for those whom the question was about; False when the words are no names."""
    read = readers.names(change.value)
    if not _usable(read, change):
        return False
    places = _meant(draft.home, change)
    old = tuple(draft.home.people[place] for place in places)
    where = change.decision.where
    if read.label is not None:
        before = draft.label.cells if draft.label else _cells(old)
        draft.label = Cited(read.label, (*before, where))
    elif draft.label is not None and read.people:
        old = old or (Person(cells=draft.label.cells),)
        draft.label = draft.family = None
    _put(draft, places, _in_place(read, old, where))
    return True


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


def name_family(draft: Draft, change: Change, readers: Readers) -> bool:
    """Who of the family is invited by name: the adults of a label, or the children of a couple."""
    labelled = draft.label is not None
    read = readers.names(change.value) if labelled else readers.children(change.value)
    if not _usable(read, change) or not read.people:
        return False
    before = draft.family.cells if draft.family else draft.label.cells if draft.label else ()
    people = [cited(person, change.decision.where, before) for person in read.people]
    for place, person in enumerate(draft.home.people):
        if person.kind is Kind.CHILD and person.given is None:
            draft.people[place] = ()
    if labelled:
        draft.first = tuple(people)
    else:
        draft.extra += people
    draft.label = draft.family = None
    return True


def struck_people(draft: Draft, change: Change, readers: Readers) -> bool:
    """Someone who is crossed out: in again ("restore"), or out for certain ("omit")."""
    read = readers.names(change.question.quoted)
    there = [
        place
        for place, person in enumerate(draft.home.people)
        if change.question.where in person.cells and _same_words(person, read)
    ]
    if change.effect == "omit":
        for place in there:
            draft.people[place] = ()
        return True
    if not read.people:
        return False
    if not there:
        before = (change.question.where,)
        draft.extra += [cited(p, change.decision.where, before) for p in read.people]
    return True


def set_address(draft: Draft, change: Change, readers: Readers) -> str | None:
    """An address, or a field of it; the reason when it doesn't hold, else None."""
    old = draft.address
    name, value = _field(change)
    whole = name == "lines"
    before = _address_cells(old) if whole else _field_cells(old, name)
    fields = {} if whole else _fields(old)
    fields[name] = Cited(value, (*before, change.decision.where))
    if whole and old is not None and old.country is not None:
        fields["home"] = old.country
    address, wrong = readers.address(fields)
    if address is None:
        return "No address can be read in it."
    known = readers.address(_fields(old))[1] if not change.question.covers else ()
    news = [text for text in wrong if text not in known]
    if news and not change.decision.sure:
        return news[0]
    if not whole and old is not None:
        address = replace(old, **{name: getattr(address, name)})
    draft.address = replace(address, doubt=0.0)
    return None


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


def _fields(address: Address | None) -> dict[str, Cited]:
    found = {name: getattr(address, name) for name in _FIELDS} if address else {}
    return {name: value for name, value in found.items() if value is not None}


def _address_cells(address: Address | None) -> tuple[Where, ...]:
    cells = (cell for value in _fields(address).values() for cell in value.cells)
    return tuple(dict.fromkeys(cells))


def _field_cells(address: Address | None, name: str) -> tuple[Where, ...]:
    value = _fields(address).get(name)
    return value.cells if value else ()


def _usable(read: NamesRead, change: Change) -> bool:
    named = bool(read.people) or read.label is not None
    return named and (change.decision.sure or not read.doubtful)


def _in_place(read: NamesRead, old: tuple[Person, ...], where: Where) -> tuple[Person, ...]:
    """The people of an answer in the place of others: joined to those before as they were."""
    before = _cells(old)
    joined = old[0].joined if old else False
    return tuple(
        replace(cited(person, where, before), joined=joined if number == 0 else person.joined)
        for number, person in enumerate(read.people)
    )


def _cells(people: tuple[Person, ...]) -> tuple[Where, ...]:
    return tuple(dict.fromkeys(cell for person in people for cell in person.cells))


def _meant(home: Household, change: Change) -> list[int]:
    """The places of the people whom a question of names is about."""
    if change.question.kind == "everyone":
        return list(range(len(home.people)))
    cells = {found.where for found in change.question.covers}
    citing = [place for place, person in enumerate(home.people) if cells & set(person.cells)]
    return citing or [p for p, person in enumerate(home.people) if person.kind is Kind.NAMED]


def _same_words(person: Person, read: NamesRead) -> bool:
    return any((person.given, person.family) == (p.given, p.family) for p in read.people)
