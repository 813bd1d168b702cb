"""Names that are fewer than those for whom they stand: whether the others stay is not said.

Beside “Is he a judge by now?” the answer “The Honorable William Foster” tells his title, and
nothing of Mrs. Foster. Only what asks who is invited, a proposed answer in the client's own words,
or a word for it (“William Foster alone”) takes somebody away.
"""

from collections.abc import Sequence

from addressing.questions.choosing import PART, leaves_out
from addressing.questions.corrections import is_by_hand
from addressing.questions.folding import folded
from addressing.questions.kids_said import heads_kids
from addressing.questions.naming import near_given, same_given
from addressing.questions.showing import person_shown
from addressing.questions.understanding import Change
from addressing.records.guests import Household, Kind, Person
from addressing.records.questions import BETWEEN, CHILD, NamesRead, Readers

_COUNTS = "count-differs"
_ASKS_WHO = frozenset(("marker-in-list", _COUNTS, "duplicate-probable", "merged-people"))
"""Codes of findings that ask who is invited, so that whoever isn't named is not."""


def left_unsaid(
    home: Household, places: Sequence[int], change: Change, read: NamesRead, readers: Readers
) -> str:
    """Why names can't be taken that leave open whether somebody stays; "" where nothing is."""
    if change.effect != "own" or change.sole or change.decision.sure or is_by_hand(change.decision):
        return ""
    if any(found.code in _ASKS_WHO for found in change.question.covers):
        return ""
    missing = missing_of(home, places, read.people)
    if not missing or _is_offered(change, read, missing, readers):
        return ""
    shown = " and ".join(map(person_shown, missing))
    stays = "stays" if len(missing) == 1 else "stay"
    return (
        f"It doesn't say whether {shown} {stays}: give everyone who is invited, or add “alone” or"
        " “only”."
    )


def kids_unsaid(home: Household, change: Change, read: NamesRead) -> tuple[tuple[int, ...], str]:
    """The places of the list's children whom parents with other children leave out, and why not.

    Whoever only repeats some of them without "kids:" leaves nobody out. They go where the words
    leave others out, where it was asked who is invited, and where as many are named as the list
    counts; else the answer doesn't hold, and the second says why.
    """
    young = [person for person in read.people if person.kind is Kind.CHILD and person.given]
    grown = any(person.kind is not Kind.CHILD for person in read.people)
    if change.effect != "own" or not young or not grown or is_by_hand(change.decision):
        return (), ""
    again = all(any(same_given(each, other) for other in home.people) for each in young)
    gone = _children_gone(home, read.people) if heads_kids(change.value) or not again else ()
    alone = change.sole or change.decision.sure or leaves_out(change.decision.answer, CHILD)
    if not gone or alone or _is_as_counted(home, change, read):
        return gone, ""
    shown = " and ".join(person_shown(home.people[place]) for place in gone)
    return (), f"The list has {shown} too: give every child who is invited, or add “nobody else”."


def _children_gone(home: Household, people: Sequence[Person]) -> tuple[int, ...]:
    listed = {n: p for n, p in enumerate(home.people) if p.kind is Kind.CHILD and p.given}
    left = list(people)
    for alike in (same_given, _is_near):
        for place, child in tuple(listed.items()):
            other = next((each for each in reversed(left) if alike(each, child)), None)
            if other is not None:
                listed.pop(place)
                left.remove(other)
    return tuple(listed)


def _is_as_counted(home: Household, change: Change, read: NamesRead) -> bool:
    if {found.code for found in change.question.covers} & (_ASKS_WHO - {_COUNTS}):
        return True
    return home.counted is not None and home.counted.text.strip() == str(len(read.people))


def missing_of(
    home: Household, places: Sequence[int], people: Sequence[Person]
) -> tuple[Person, ...]:
    """Those of some places whom fewer people don't name, companions without a name aside."""
    listed = [home.people[place] for place in places]
    listed = [each for each in listed if each.given or each.kind is Kind.NAMED]
    said = [each for each in people if each.given or each.kind is Kind.NAMED]
    if len(said) >= len(listed):
        return ()
    left = list(said)
    for alike in (_is_same, _is_near):
        for person in tuple(listed):
            other = next((each for each in left if alike(each, person)), None)
            if other is not None:
                listed.remove(person)
                left.remove(other)
    return tuple(listed)


def _is_same(one: Person, other: Person) -> bool:
    bare = not one.given and not other.given and one.title == other.title
    return same_given(one, other) or bare


def _is_near(one: Person, other: Person) -> bool:
    return bool(one.given and other.given) and near_given(one, other)


def _is_offered(
    change: Change, read: NamesRead, missing: Sequence[Person], readers: Readers
) -> bool:
    """True where a proposed answer says the same, in other words."""
    without = {folded(person.given) for person in missing}
    said = {folded(person.given) for person in read.people}
    for choice in change.question.choices:
        field, _, names = choice.value.partition("=")
        named = choice.effect == "set" and field == "names"
        if named and {folded(person.given) for person in readers.names(names).people} == said:
            return True
        if choice.effect == PART and without <= set(map(folded, choice.value.split(BETWEEN))):
            return True
    return False
