"""A household's key: a digest of who and where, the same whatever the order of the rows.

Beside a job the key is kept: a household that is recognised in a later reading, respelled or in a
second version of the list, has the one that it had.
"""

import base64
import hashlib
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import count

from addressing.guestlist.folding import fold
from addressing.guestlist.homes.doors import door
from addressing.guestlist.households.duplicates import letters
from addressing.guestlist.households.kinship import known_person
from addressing.guestlist.households.recognising import Match, recognise
from addressing.records.guests import Household, KnownHousehold

DIGITS = 8
_BASE = len("h-") + DIGITS


Doubt = tuple[KnownHousehold, KnownHousehold, str]
"""(the one before, the one now, why they may be one, or what they have in common)."""
_DOOR = "Another name at the same door."


@dataclass(frozen=True, slots=True)
class Kept:
    """What is known of a list's households after a reading.

    `keys` maps the key by the cells alone to the one that is kept. `known` are the households of
    this reading with those that are gone. `doubtful` are pairs (old, new, why) that may be one
    household; the new one has a key of its own.
    """

    keys: Mapping[str, str]
    known: tuple[KnownHousehold, ...]
    doubtful: tuple[Doubt, ...] = ()
    strangers: tuple[Doubt, ...] = ()
    """Pairs likewise that are two households: one who came at the door of one who left."""


def with_keys(households: list[Household]) -> tuple[Household, ...]:
    """The households with their keys; twins (same names, same postcode) get -2, -3 by content.

    Those without a key are taken out of the list on the way: a long list isn't held twice.
    """
    keys = [f"h-{_digest(_who(household))}" for household in households]
    first: dict[str, int] = {}
    twins: dict[str, list[int]] = {}
    for place, key in enumerate(keys):
        if first.setdefault(key, place) != place:
            twins.setdefault(key, [first[key]]).append(place)
    for key, places in twins.items():
        ordered = sorted(places, key=lambda place: _content(households[place]))
        for number, place in enumerate(ordered[1:], start=2):
            keys[place] = f"{key}-{number}"
    keys.reverse()
    households.reverse()
    keyed: list[Household] = []
    while households:
        keyed.append(replace(households.pop(), key=keys.pop()))
    return tuple(keyed)


def known_of(household: Household) -> KnownHousehold:
    """What is kept of a household to recognise it by."""
    street, _, rest = door(household.address).partition("|")
    unit, _, area = rest.partition("|")
    country = household.address.country if household.address else None
    words = repr((letters(household), country.text if country else None))
    return KnownHousehold(
        key=household.key,
        people=tuple(known_person(person) for person in household.people),
        label=fold(household.label.text) if household.label else "",
        street=street,
        unit=unit,
        area=area or _area(household),
        letters=hashlib.sha256(words.encode("utf-8", "surrogatepass")).hexdigest()[:16],
        name=household.name,
    )


def _area(household: Household) -> str:
    """Where a household without a street lives."""
    address = household.address
    area = (address.postcode or address.city) if address else None
    return fold(area.text)[:5] if area else ""


def keep_keys(households: Sequence[Household], known: Sequence[KnownHousehold]) -> Kept:
    """Give a reading's households the keys that they had; a key once given is never another's."""
    new = [known_of(household) for household in households]
    matches = recognise(known, new)
    keys = {new[match.new].key: known[match.old].key for match in matches if not match.unsure}
    taken = {home.key for home in known} | set(keys.values())
    for home in sorted(new, key=lambda home: home.key):
        if home.key not in keys:
            keys[home.key] = _free(home.key, taken)
            taken.add(keys[home.key])
    numbers = _numbers(known, [keys[home.key] for home in new])
    perhaps = _in_their_place(known, new, matches) | _perhaps(known, matches)
    now = tuple(
        replace(home, key=keys[home.key], number=number, perhaps=perhaps.get(place))
        for place, (home, number) in enumerate(zip(new, numbers, strict=True))
    )
    gone = _gone(known, now)
    pairs = tuple(_doubtful(now, gone))
    doubtful = tuple(pair for pair in pairs if pair[2] != _DOOR)
    return Kept(keys, (*now, *gone), doubtful, tuple(p for p in pairs if p[2] == _DOOR))


def _numbers(known: Sequence[KnownHousehold], keys: Sequence[str]) -> Iterator[int]:
    """A household keeps the number that it had; who is new gets the next that nobody ever had."""
    had = {home.key: home.number for home in known if home.number}
    free = count(max(had.values(), default=0) + 1)
    return (had.get(key) or next(free) for key in keys)


def _free(key: str, taken: set[str]) -> str:
    number = 2
    free = key
    while free in taken:
        free = f"{key[:_BASE]}-{number}"
        number += 1
    return free


def _gone(
    known: Sequence[KnownHousehold], now: Sequence[KnownHousehold]
) -> tuple[KnownHousehold, ...]:
    here = {home.key for home in now}
    left = (replace(home, gone=True) for home in known if home.key not in here)
    return tuple(sorted(left, key=lambda home: home.key))


def _perhaps(
    known: Sequence[KnownHousehold], matches: Sequence[Match]
) -> dict[int, tuple[str, str]]:
    """Place in the new reading → who it may be; a doubt stays with its household."""
    found = {
        match.new: (known[match.old].key, match.unsure)
        if match.unsure
        else known[match.old].perhaps
        for match in matches
    }
    return {place: perhaps for place, perhaps in found.items() if perhaps}


def _in_their_place(
    known: Sequence[KnownHousehold], new: Sequence[KnownHousehold], matches: Sequence[Match]
) -> dict[int, tuple[str, str]]:
    """Place in the new reading → who was at that door: one who has left, where one has come."""
    stays, here = {match.old for match in matches}, {match.new for match in matches}
    left = _at_doors(home for place, home in enumerate(known) if place not in stays)
    came = _at_doors(home for place, home in enumerate(new) if place not in here)
    alone = {
        homes[0].key: left[door][0].key
        for door, homes in came.items()
        if len(homes) == 1 and len(left.get(door, ())) == 1
    }
    return {
        place: (alone[home.key], _DOOR)
        for place, home in enumerate(new)
        if place not in here and home.key in alone
    }


def _at_doors(homes: Iterable[KnownHousehold]) -> dict[tuple[str, ...], list[KnownHousehold]]:
    found: dict[tuple[str, ...], list[KnownHousehold]] = {}
    for home in homes:
        if home.street:
            found.setdefault((home.street, home.unit, home.area), []).append(home)
    return found


def _doubtful(now: Sequence[KnownHousehold], gone: Sequence[KnownHousehold]) -> Iterator[Doubt]:
    """The doubts about those who haven't come back."""
    left = {home.key: home for home in gone}
    for home in now:
        key, why = home.perhaps or ("", "")
        if key in left:
            yield left[key], home, why


def _digest(text: str) -> str:
    """Eight of a-z and 2-7 (base 32, RFC 4648)."""
    digest = hashlib.sha256(text.encode()).digest()
    return base64.b32encode(digest).decode().lower()[:DIGITS]


def _who(household: Household) -> str:
    names = sorted(f"{fold(p.given or '')} {fold(p.family or '')}" for p in household.people)
    label = fold(household.label.text) if household.label else ""
    postcode = household.address.postcode if household.address else None
    return "|".join((*names, label, fold(postcode.text) if postcode else ""))


def _content(household: Household) -> tuple[str, ...]:
    """Everything that tells twins apart, in an order of its own."""
    address = household.address
    fields = (address.street, address.unit, address.city) if address else ()
    people = (
        f"{p.title} {p.given} {p.family} {p.suffix} {p.nickname} {p.age}" for p in household.people
    )
    return (*(field.text if field else "" for field in fields), *people, *_places(household))


def _places(household: Household) -> tuple[str, ...]:
    return tuple(str(where) for where in household.rows)
