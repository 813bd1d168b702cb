"""Two versions of a list, household by household: who came, left, moved, was respelled."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path

from rapidfuzz import fuzz

from addressing.guestlist import read_list
from addressing.guestlist.doors import door
from addressing.guestlist.folding import fold
from addressing.materials.docket import read_docket
from addressing.records.docket import Docket
from addressing.records.guests import Address, GuestList, Household

_NEAR = 85
"""Names at least so alike (of 100) at one door are one household respelled."""
_LIKELY = 70
"""Names so alike at one door, or the same names elsewhere beside others, are told as unsure."""


class Change(StrEnum):
    """What became of a household; it may be more than one."""

    CAME = "came"
    LEFT = "left"
    MOVED = "moved"
    RESPELLED = "respelled"
    COMPANY = "company"
    """Others come with them, or fewer: the people of the household are not the same."""
    UNCHANGED = "unchanged"


@dataclass(frozen=True, slots=True)
class Compared:
    """One household in both versions; None where it isn't. `unsure` says why, else is empty."""

    old: Household | None
    new: Household | None
    changes: tuple[Change, ...]
    unsure: str = ""


def compare_lists(
    old_path: Path, new_path: Path, docket_path: Path | None
) -> tuple[GuestList, GuestList, tuple[Compared, ...]]:
    """Read two versions of a list by one docket and compare them.

    Raises:
        Fault: a list or the docket (exit 3).
    """
    docket = read_docket(docket_path) if docket_path else Docket()
    home = docket.hosts.country if docket.hosts else "US"
    old = read_list(old_path, dict(docket.columns), home)[0]
    new = read_list(new_path, dict(docket.columns), home)[0]
    return old, new, compare(old.households, new.households)


def compare(old: Sequence[Household], new: Sequence[Household]) -> tuple[Compared, ...]:
    """Every household of both versions once, in the order of the new one; those who left last."""
    left = {home.key: home for home in old}
    pairs: dict[str, tuple[Household, str]] = {}
    for pairing in (_by_key, _by_names, _by_door):
        rest = [home for home in new if home.key not in pairs]
        for mine, theirs, unsure in pairing(list(left.values()), rest):
            pairs[theirs.key] = (mine, unsure)
            del left[mine.key]
    found = [
        Compared(pairs[home.key][0], home, _changes(pairs[home.key][0], home), pairs[home.key][1])
        if home.key in pairs
        else Compared(None, home, (Change.CAME,))
        for home in new
    ]
    return (*found, *(Compared(home, None, (Change.LEFT,)) for home in left.values()))


Pair = tuple[Household, Household, str]


def _by_key(old: Sequence[Household], new: Sequence[Household]) -> Iterable[Pair]:
    known = {home.key: home for home in old}
    return [(known[home.key], home, "") for home in new if home.key in known]


def _by_names(old: Sequence[Household], new: Sequence[Household]) -> Iterable[Pair]:
    """The same names at another door, where nobody else has them: moved."""
    return _alone(old, new, _who)


def _alone(
    old: Sequence[Household], new: Sequence[Household], word: Callable[[Household], str]
) -> list[Pair]:
    """Those who alone have a word in both versions."""
    before, after = _grouped(old, word), _grouped(new, word)
    return [
        (before[key][0], group[0], "")
        for key, group in after.items()
        if key and len(group) == 1 and len(before.get(key, ())) == 1
    ]


def _grouped(
    homes: Iterable[Household], word: Callable[[Household], str]
) -> dict[str, list[Household]]:
    groups: dict[str, list[Household]] = {}
    for home in homes:
        groups.setdefault(word(home), []).append(home)
    return groups


def _by_door(old: Sequence[Household], new: Sequence[Household]) -> Iterable[Pair]:
    """The nearest names at one door; then near names elsewhere: each household once."""
    doors = _grouped(old, lambda home: door(home.address))
    elsewhere = _grouped(old, _family)
    scored = [
        (fuzz.ratio(_who(mine), _who(theirs)), mine.key, theirs.key, mine, theirs)
        for theirs in new
        for mine in (*_at(doors, door(theirs.address)), *_at(elsewhere, _family(theirs)))
    ]
    pairs: list[Pair] = []
    used: set[tuple[str, str]] = set()
    for score, _, _, mine, theirs in sorted(scored, key=lambda each: (-each[0], *each[1:3])):
        if ("old", mine.key) in used or ("new", theirs.key) in used:
            continue
        why = _unsure(mine, theirs, score)
        if why is None:
            continue
        used |= {("old", mine.key), ("new", theirs.key)}
        pairs.append((mine, theirs, why))
    return pairs


def _at(groups: dict[str, list[Household]], word: str) -> list[Household]:
    return groups.get(word, []) if word else []


def _unsure(mine: Household, theirs: Household, score: float) -> str | None:
    """Nothing ("") for one household surely, a reason for one perhaps, None for two."""
    same_door = door(mine.address) == door(theirs.address) != ""
    shared = _given(mine) & _given(theirs)
    if same_door and (score >= _NEAR or shared):
        return ""
    if same_door and score >= _LIKELY:
        return "The same door and somewhat like names."
    if not same_door and shared and _family(mine) == _family(theirs):
        return "The same family and a first name in common, at another door."
    return None


def _who(home: Household) -> str:
    names = sorted(f"{p.given or ''} {p.family or ''}".strip() for p in home.people)
    label = home.label.text if home.label else ""
    return fold(" ".join(name for name in (label, *names) if name)) if label or any(names) else ""


def _family(home: Household) -> str:
    return next((fold(p.family) for p in home.people if p.family), "")


def _given(home: Household) -> set[str]:
    return {fold(p.given) for p in home.people if p.given}


def _changes(old: Household, new: Household) -> tuple[Change, ...]:
    found: list[Change] = []
    if door(old.address) != door(new.address) or _place(old.address) != _place(new.address):
        found.append(Change.MOVED)
    same_number = len(old.people) == len(new.people)
    kinds = [p.kind for p in old.people] == [p.kind for p in new.people]
    if not same_number or not kinds:
        found.append(Change.COMPANY)
    elif _spelled(old) != _spelled(new):
        near = fuzz.ratio(_who(old), _who(new)) >= _NEAR or _who(old) == _who(new)
        found.append(Change.RESPELLED if near else Change.COMPANY)
    return tuple(found) or (Change.UNCHANGED,)


def _place(address: Address | None) -> tuple[str, ...]:
    fields = (address.city, address.region, address.country) if address else ()
    return tuple(fold(field.text) if field else "" for field in fields)


def _spelled(home: Household) -> tuple[object, ...]:
    """Everything that would stand on an envelope of the names."""
    people = tuple((p.title, p.given, p.family, p.suffix, p.credentials) for p in home.people)
    return (people, home.label.text if home.label else None)
