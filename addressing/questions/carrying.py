"""What the list tells of somebody goes along with a name that an answer only spells."""

from collections.abc import Sequence
from dataclasses import replace

from addressing.questions.folding import folded
from addressing.questions.naming import same_given
from addressing.records.guests import Kind, Person
from addressing.records.questions import NamesRead
from addressing.where import Where, together

_YOUNG = frozenset((None, "Miss", "Master"))
"""Titles under which a child of the list may be given again (common practice, no source)."""


def cited(person: Person, where: Where, before: tuple[Where, ...]) -> Person:
    """A person whose words come from an answer: the cells read first, then the answer's."""
    return replace(person, cells=together((before, (where,))))


def cells_of(people: Sequence[Person]) -> tuple[Where, ...]:
    """The cells of several people, each once."""
    return together(person.cells for person in people)


def in_place(read: NamesRead, old: Sequence[Person], where: Where) -> tuple[Person, ...]:
    """The people of an answer in the place of others: joined to those before, and seated, as they.

    `where` is the place of the answer.
    """
    before = cells_of(old)
    joined = old[0].joined if old else False
    people = (
        replace(cited(person, where, before), joined=joined if number == 0 else person.joined)
        for number, person in enumerate(read.people)
    )
    return seated(tuple(people), old)


def seated(people: Sequence[Person], old: Sequence[Person]) -> tuple[Person, ...]:
    """People at the tables of those for whom they stand.

    All at one table where the list has one; at several, each where the same one sits, or who had
    the place. Who came besides has no table.
    """
    tables = {person.table.text: person.table for person in old if person.table}
    if len(tables) == 1:
        (table,) = tables.values()
        return tuple(replace(person, table=person.table or table) for person in people)
    even = len(people) == len(old)
    made: list[Person] = []
    for number, person in enumerate(people):
        own = [other for other in old if same_given(person, other)]
        had = own[0].table if len(own) == 1 else old[number].table if even else None
        made.append(replace(person, table=person.table or had))
    return tuple(made)


def with_children_in_order(
    people: Sequence[Person], listed: Sequence[Person], told: Sequence[Person]
) -> tuple[Person, ...]:
    """People whose children stand as `told` of an answer has them, where it names all of them.

    Else as the list has them, and behind them whoever came.
    """
    young = [person for person in people if person.kind is Kind.CHILD]
    if not told or len(young) == 1:
        return tuple(people)
    by_answer = [_place_of(child, told) for child in young]
    by_list = [_place_of(child, listed) for child in young]
    ranks = by_list if len(told) in by_answer else by_answer
    ordered = iter([young[n] for n in sorted(range(len(young)), key=ranks.__getitem__)])
    return tuple(next(ordered) if p.kind is Kind.CHILD else p for p in people)


def _place_of(person: Person, others: Sequence[Person]) -> int:
    """The last place of the same given name among others: a father may have it before his son.

    Whoever isn't there comes behind all of them.
    """
    places = [place for place, other in enumerate(others) if same_given(person, other)]
    return places[-1] if places else len(others)


def known_already(people: Sequence[Person], listed: Sequence[Person]) -> dict[int, int]:
    """Who of an answer is on the list already: number in the answer → place in `listed`.

    A father and a child may have one name; the child is then whom the answer names last.
    """
    found: dict[int, int] = {}
    for place, other in enumerate(listed):
        child = other.kind is Kind.CHILD
        numbers = [
            number
            for number, person in enumerate(people)
            if number not in found
            and _is_one(person, other)
            and not (child and _has_partner(people, number))
        ]
        if numbers:
            found[numbers[-1] if child else numbers[0]] = place
    return found


def _is_one(person: Person, other: Person) -> bool:
    families = sorted({folded(each.family) for each in (person, other)} - {""})
    suffixes = sorted({each.suffix or "" for each in (person, other)} - {""})
    bare = not person.given and not other.given and bool(person.title)
    same = same_given(person, other) or (bare and person.title == other.title)
    return same and not families[1:] and not suffixes[1:]


def _has_partner(people: Sequence[Person], number: int) -> bool:
    """True for the first half of "Mr. and Mrs. Theo Marsh"."""
    return any(each.title and not each.given for each in people[number + 1 : number + 2])


def unclear_child(
    people: Sequence[Person], known: dict[int, int], listed: Sequence[Person]
) -> Person | None:
    """Somebody of an answer with a listed child's name who may be a parent of that name instead.

    So it is with whom the answer names first, and who has an adult's title there.
    """
    for number, place in known.items():
        person, other = people[number], listed[place]
        young = person.title in _YOUNG or person.title == other.title
        if other.kind is Kind.CHILD and (number == 0 or not young):
            return person
    return None


def told_again(listed: Person, person: Person, where: Where) -> Person:
    """Somebody of the list whom an answer names too: as listed, with what only the answer says."""
    told = replace(
        listed,
        title=listed.title or person.title,
        family=listed.family or person.family,
        suffix=listed.suffix or person.suffix,
        age=listed.age if listed.age is not None else person.age,
    )
    return cited(told, where, listed.cells)
