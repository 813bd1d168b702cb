"""Households of one reading found again in the next: one to one, and only where they are the same.

Exact first, then the same names elsewhere, then near ones. A pair that is only likely is told, and
nobody takes it for granted: no father's key goes to his son, no sister's to her sister.
"""

from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from addressing.guestlist.households.kinship import Kinship, kinship
from addressing.records.guests import Kind, KnownHousehold

_CROWD = 4_000
"""More pairs than this under one word say nothing: a common name, a house of many flats."""
_BACK = "An earlier list had them, the last one didn't."


@dataclass(frozen=True, slots=True)
class Match:
    """Places of one household in the old and the new reading; `unsure` says why, else is empty."""

    old: int
    new: int
    unsure: str = ""


def recognise(old: Sequence[KnownHousehold], new: Sequence[KnownHousehold]) -> tuple[Match, ...]:
    """The households of `new` that are in `old` too, in the order of `new`.

    One that is gone from the last version is known again only if names and door are the same; else
    one that comes may be it, which is never sure.
    """
    work = _Work(old, new)
    live = [place for place, home in enumerate(old) if not home.gone]
    for pool in (live, list(range(len(old)))):
        work.equal(pool, lambda home: (_names(home), home.label, _door(home)))
    work.near(live)
    work.near([place for place, home in enumerate(old) if home.gone], why=_BACK)
    return tuple(sorted(work.matches, key=lambda match: match.new))


@dataclass(frozen=True, slots=True)
class _Pair:
    """Two households that have something in common."""

    kin: Kinship
    old: int
    new: int

    @property
    def rank(self) -> tuple[bool, int]:
        """The sure ones first, then the nearest."""
        return bool(self.kin.unsure), -self.kin.nearness


class _Work:
    """What is matched so far."""

    def __init__(self, old: Sequence[KnownHousehold], new: Sequence[KnownHousehold]) -> None:
        self.old, self.new = old, new
        self.matches: list[Match] = []
        self.used_old: set[int] = set()
        self.used_new: set[int] = set()

    def take(self, old: int, new: int, unsure: str = "") -> None:
        self.matches.append(Match(old, new, unsure))
        self.used_old.add(old)
        self.used_new.add(new)

    def equal(self, pool: Iterable[int], word: Callable[[KnownHousehold], object]) -> None:
        """Those that agree in a word; among several, those that agree in every letter first."""
        before = _grouped((p for p in pool if p not in self.used_old), self.old, word)
        free = (p for p in range(len(self.new)) if p not in self.used_new)
        for key, theirs in _grouped(free, self.new, word).items():
            mine = before.get(key, [])
            for one, other in _by_letters(mine, theirs, self.old, self.new):
                self.take(one, other)

    def near(self, live: Sequence[int], why: str = "") -> None:
        """The rest, nearest first; where two come equally near, or for a reason, nobody is sure."""
        common = _common_names(self.old, live, self.new)
        found = [
            _Pair(kin, one, other)
            for one, other in self._candidates(live)
            if (kin := kinship(self.old[one], self.new[other], common)) is not None
        ]
        of_old: dict[int, list[_Pair]] = {}
        of_new: dict[int, list[_Pair]] = {}
        for pair in found:
            of_old.setdefault(pair.old, []).append(pair)
            of_new.setdefault(pair.new, []).append(pair)
        for pair in sorted(found, key=lambda each: (*each.rank, self._order(each))):
            if self._free(pair):
                rivals = (*of_old[pair.old], *of_new[pair.new])
                tied = any(
                    rival is not pair and rival.rank == pair.rank and self._free(rival)
                    for rival in rivals
                )
                near = "Two households come equally near." if tied else ""
                self.take(pair.old, pair.new, pair.kin.unsure or near or why)

    def _free(self, pair: "_Pair") -> bool:
        return pair.old not in self.used_old and pair.new not in self.used_new

    def _order(self, pair: "_Pair") -> tuple[str, str]:
        """An order that doesn't hang on the order of rows."""
        return self.old[pair.old].key, self.new[pair.new].key

    def _candidates(self, live: Sequence[int]) -> Iterable[tuple[int, int]]:
        mine = [p for p in live if p not in self.used_old]
        theirs = [p for p in range(len(self.new)) if p not in self.used_new]
        before, after = _by_words(mine, self.old), _by_words(theirs, self.new)
        pairs = {
            (one, other)
            for word, places in after.items()
            if len(places) * len(before.get(word, ())) <= _CROWD
            for one in before.get(word, ())
            for other in places
        }
        return sorted(pairs)


def _grouped(
    places: Iterable[int],
    homes: Sequence[KnownHousehold],
    word: Callable[[KnownHousehold], object],
) -> dict[object, list[int]]:
    groups: dict[object, list[int]] = {}
    for place in places:
        groups.setdefault(word(homes[place]), []).append(place)
    return groups


def _by_letters(
    mine: list[int],
    theirs: list[int],
    old: Sequence[KnownHousehold],
    new: Sequence[KnownHousehold],
) -> list[tuple[int, int]]:
    """Pairs of equal households: to the letter, and the rest only where one is left of each."""
    if not mine or not theirs:
        return []
    letters = {old[one].letters: one for one in mine}
    pairs = [(letters[new[p].letters], p) for p in theirs if new[p].letters in letters]
    rest_old = [one for one in mine if one not in {pair[0] for pair in pairs}]
    rest_new = [p for p in theirs if p not in {pair[1] for pair in pairs}]
    if len(rest_old) == len(rest_new) == 1:
        pairs.append((rest_old[0], rest_new[0]))
    return pairs


def _names(home: KnownHousehold) -> tuple[tuple[str, str, str, str], ...]:
    return tuple(sorted((p.given, p.family, p.suffix, p.kind.value) for p in home.people))


def _door(home: KnownHousehold) -> tuple[str, str, str]:
    return home.street, home.unit, home.area


def _common_names(
    old: Sequence[KnownHousehold], live: Sequence[int], new: Sequence[KnownHousehold]
) -> frozenset[tuple[str, str]]:
    """Full names that more than one household of a version has: they prove nothing."""
    found: set[tuple[str, str]] = set()
    for homes in ([old[place] for place in live], new):
        count = Counter(
            name
            for home in homes
            for name in {(p.given, p.family) for p in home.people if p.given and p.family}
        )
        labels = Counter(("", home.label) for home in homes if home.label)
        found |= {name for name, many in (count + labels).items() if many > 1}
    return frozenset(found)


def _by_words(
    places: Iterable[int], homes: Sequence[KnownHousehold]
) -> dict[tuple[str, ...], list[int]]:
    """Places under what two readings of one household have in common: a door, a name."""
    groups: dict[tuple[str, ...], list[int]] = {}
    for place in places:
        for word in _words(homes[place]):
            groups.setdefault(word, []).append(place)
    return groups


def _words(home: KnownHousehold) -> set[tuple[str, ...]]:
    words: set[tuple[str, ...]] = set()
    if home.street:
        words |= {("street", home.street), ("area", home.area, _figures(home.street))}
    if home.label:
        words.add(("label", home.label))
    for person in home.people:
        if person.given and person.family and person.kind is not Kind.GUEST:
            words |= {("name", person.given, person.family[:3]), ("family", person.family)}
    return words


def _figures(street: str) -> str:
    return "".join(mark for mark in street if mark.isdigit())
