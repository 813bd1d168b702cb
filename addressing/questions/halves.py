"""What is decided of one half of a household that an answer parts.

The first half keeps the household's key, the others have it with a number: `h-abcdefgh-2`. A
decision of the first alone is kept under `h-abcdefgh-1`, so that it isn't one of the whole.
"""

import re
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import replace

from addressing.questions.kinds import NAMES
from addressing.records.guests import Household, Kind, Person
from addressing.records.questions import Applied, Decision, Question, Readers

_HALF = re.compile(r"(?P<whole>.+-.+)-(?P<number>[1-9]\d?)")
_FIRST = "1"


def is_half(key: str) -> bool:
    """True for a key that ends as those of halves do.

    >>> is_half("h-abcdefgh-2"), is_half("h-abcdefgh")
    (True, False)
    """
    return _HALF.fullmatch(key) is not None


def is_of_half(decision: Decision, listed: Collection[str]) -> bool:
    """True for a decision of a half of a household; `listed` are the keys before any is parted."""
    key = decision.ref.partition(":")[0]
    found = _HALF.fullmatch(key)
    return found is not None and key not in listed and found["whole"] in listed


def halves_of(listed: Collection[str], now: Iterable[Household]) -> tuple[Household, ...]:
    """The halves of households that were parted, the first of each by a key of its own."""
    now = tuple(now)
    parted = {
        found["whole"]
        for home in now
        if home.key not in listed and (found := _HALF.fullmatch(home.key))
    }
    return tuple(
        replace(home, key=_first(home.key)) if home.key in parted else home
        for home in now
        if home.key in parted or home.key not in listed
    )


def _first(key: str) -> str:
    return f"{key}-{_FIRST}"


def under_keys_of_halves(
    decisions: Sequence[Decision], halves: Iterable[Household]
) -> tuple[list[Decision], Mapping[str, Decision]]:
    """The decisions under the keys that the halves have, and those that were changed for it.

    Nothing is changed where the household isn't parted any more: the decision is stale then.
    """
    keys = {home.key for home in halves}
    own: list[Decision] = []
    back: dict[str, Decision] = {}
    for each in decisions:
        key, colon, rest = each.ref.partition(":")
        whole = key.removesuffix(f"-{_FIRST}")
        if whole != key and key in keys:
            now = replace(each, ref=f"{whole}{colon}{rest}")
            back[now.ref] = each
            own.append(now)
        else:
            own.append(each)
    return own, back


def told_of_halves(whole: Applied, halves: Applied, back: Mapping[str, Decision]) -> Applied:
    """What came of both turns; decisions of a first half under the keys that they are kept by."""
    taken = tuple(
        (_of_first(question, back[each.ref].ref), back[each.ref])
        if each.ref in back
        else (question, each)
        for question, each in halves.taken
    )
    return replace(
        halves,
        halves=whole.halves,
        settled=whole.settled | halves.settled,
        taken=(*whole.taken, *taken),
        open=(*whole.open, *(back.get(each.ref, each) for each in halves.open)),
        asked=(*whole.asked, *halves.asked),
        moot=whole.moot | halves.moot,
        called={
            **whole.called,
            **{key: each for key, each in halves.called.items() if is_half(key)},
        },
        beside=whole.beside | halves.beside,
    )


def _of_first(question: Question, ref: str) -> Question:
    return replace(question, ref=ref, households=(ref.partition(":")[0],))


def with_halves(listed: Iterable[Household], applied: Applied) -> tuple[Household, ...]:
    """The households as listed, with the halves in place of those that an answer parts."""
    made: list[Household] = []
    for home in listed:
        halves = [each for each in applied.halves if whole_of(each.key) == home.key]
        made += halves or [home]
    return tuple(made)


def as_halves(applied: Applied) -> tuple[Household, ...]:
    """The households as they are by now, first halves by the keys of their own."""
    first = {each.key for each in applied.halves}
    return tuple(
        replace(home, key=_first(home.key)) if _first(home.key) in first else home
        for home in applied.guest_list.households
    )


def first_half(key: str, applied: Applied) -> str:
    """The key of its own for the one that a first half has."""
    return _first(key) if any(each.key == _first(key) for each in applied.halves) else key


def whole_of(key: str) -> str:
    """The key of the household of which this one is a half; its own for others.

    >>> whole_of("h-abcdefgh-2"), whole_of("h-abcdefgh")
    ('h-abcdefgh', 'h-abcdefgh')
    """
    found = _HALF.fullmatch(key)
    return found["whole"] if found is not None else key


def of_all_halves(decision: Decision, applied: Applied, readers: Readers) -> Decision:
    """Names of more people than one half has are names of the whole household.

    Else somebody would stand on two envelopes.
    """
    key, _, rest = decision.ref.partition(":")
    half = next((each for each in applied.halves if each.key == key), None)
    if half is None or rest.rpartition(":")[2] not in NAMES:
        return decision
    more = _grown(readers.names(decision.answer).people) > _grown(half.people)
    return replace(decision, ref=f"{whole_of(key)}:{rest}") if more else decision


def _grown(people: Iterable[Person]) -> int:
    return sum(person.kind is Kind.NAMED for person in people)
