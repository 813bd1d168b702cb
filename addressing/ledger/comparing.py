"""The ledger held against what should be on paper."""

from collections import Counter
from collections.abc import Callable, Container, Iterable, Mapping, Sequence
from dataclasses import replace
from itertools import zip_longest

from addressing.records.plates import BESIDE
from addressing.records.prints import NEW, ON_PAPER, PARTS, PLACED, Balance, Due, Print, Wanted

Place = tuple[str, str, str]
"""A kind of piece, an ink and a household: one print of each is wanted."""


GONE = "the household is no longer on the list"

Away = Callable[[Wanted], str]
"""Why something isn't to be on paper in any form now."""


def _gone(_: Wanted) -> str:
    return GONE


def compare(prints: Iterable[Print], wanted: Iterable[Wanted], away: Away = _gone) -> Balance:
    """What is good, what is due and what is wrong, each in the order of what it is made from.

    `away` says why what was printed isn't wanted in any form now.

    A print is good when its fingerprint is the wanted one of its household, piece and ink; one
    more of the same is good as well and counted so. Any other print that wasn't spoiled is wrong.

    Inks that one file holds (a composite's) are on paper each for itself, however they are wanted:
    together or apart. Only where they are wanted together must all of them be there.

    One that differs in size or place alone is no wrong envelope: it is told apart (`moved`) until
    a new one of it is on paper.

    A print of the same name, piece and look counts for whoever has these now, though the household
    had another key: on paper stands no key.
    """
    wanted = tuple(wanted)
    should = {place: each for each in wanted for place in _places(each)}
    known = _under_keys_of_now(list(prints), wanted)
    kept = [each for each in known if each.state in ON_PAPER]
    right = [each for each in kept if _is_right(each, should)]
    have = {place for each in right for place in _places(each.wanted)}
    lacking = {
        each: places
        for each in dict.fromkeys(should.values())
        if (places := [place for place in _places(each) if place not in have])
    }
    good = tuple(each for each in right if lacking.keys().isdisjoint(_met(each, should)))
    last = {place: each for each in known for place in _places(each.wanted)}
    due = tuple(
        Due(each, _why_due(last.get(places[0]), each, have)) for each, places in lacking.items()
    )
    moved = tuple(each for each in kept if _is_moved(each, _met(each, should), lacking))
    well = {*good, *moved}
    wrong = tuple(
        (each, _why_wrong(each, next(iter(_met(each, should)), None), away))
        for each in kept
        if each not in well
    )
    return Balance(good, due, wrong, moved=moved)


def _under_keys_of_now(prints: Sequence[Print], wanted: Iterable[Wanted]) -> list[Print]:
    """Prints of which one is wanted as it is under another key alone, by that key."""
    alike: dict[tuple[str, ...], list[Wanted]] = {}
    prints_now: dict[tuple[str, ...], str] = {}
    for each in wanted:
        alike.setdefault((each.kind, each.ink, each.name, each.print), []).append(each)
        prints_now[each.kind, each.ink, each.household] = each.print
    found = []
    for one in prints:
        own = one.wanted
        others = alike.get((own.kind, own.ink, own.name, own.print), [])
        is_own = prints_now.get((own.kind, own.ink, own.household)) == own.print
        if not is_own and len(others) == 1:
            one = replace(one, wanted=others[0])  # noqa: PLW2901
        found.append(one)
    return found


def used_up(prints: Iterable[Print]) -> dict[str, int]:
    """How many envelopes of each kind have been through, spoiled and destroyed ones too.

    An envelope goes through once for each ink, or once for several together: the ink that went
    through most counts.
    """
    fed = Counter(
        (each.wanted.kind, ink) for each in prints for ink in each.wanted.ink.split(BESIDE)
    )
    used: dict[str, int] = {}
    for (kind, _), number in fed.items():
        used[kind] = max(used.get(kind, 0), number)
    return used


def _places(wanted: Wanted) -> list[Place]:
    return [(wanted.kind, ink, wanted.household) for ink in wanted.ink.split(BESIDE)]


def _met(one: Print, should: Mapping[Place, Wanted]) -> tuple[Wanted, ...]:
    """What is wanted in the inks of a print, in order."""
    places = _places(one.wanted)
    return tuple(dict.fromkeys(should[place] for place in places if place in should))


def _is_right(one: Print, should: Mapping[Place, Wanted]) -> bool:
    met = _met(one, should)
    return bool(met) and all(wanted.print == one.wanted.print for wanted in met)


def _is_moved(one: Print, met: Sequence[Wanted], lacking: Container[Wanted]) -> bool:
    """True where only size or place would differ now, and no new print is on paper."""
    return bool(met) and all(
        each in lacking and changed_parts(one.wanted.print, each.print) == [PLACED] for each in met
    )


def _why_due(last: Print | None, wanted: Wanted, have: Container[Place]) -> str:
    there = [ink for _, ink, _ in (place for place in _places(wanted) if place in have)]
    if there:
        return f"only {BESIDE.join(there)} is on paper"
    if last is None:
        return NEW
    if last.state not in ON_PAPER and last.wanted.print == wanted.print:
        return last.state
    return difference(last.wanted.print, wanted.print)


def _why_wrong(one: Print, wanted: Wanted | None, away: Away) -> str:
    if wanted is None:
        why = away(one.wanted)
    else:
        same = wanted.print == one.wanted.print
        alone = f"{one.wanted.ink} alone is on it, and {wanted.ink} are one file now"
        why = alone if same else difference(one.wanted.print, wanted.print)
    return f"{why}; handed over already: tell the client" if one.state == "handed over" else why


def difference(was: str, now: str) -> str:
    """Which parts of two fingerprints differ, in words: "words changed"."""
    changed = changed_parts(was, now)
    # New words move the lines about: that they stand elsewhere then is no news.
    if "words" in changed and PLACED in changed:
        changed.remove(PLACED)
    joint = ", " if any(" and " in part for part in changed) else " and "
    return f"{joint.join(changed)} changed"


def changed_parts(was: str, now: str) -> list[str]:
    """The parts in which two fingerprints differ, by their names."""
    pairs = zip_longest(PARTS, was.split("."), now.split("."), fillvalue="")
    return [part for part, before, after in pairs if before != after]
