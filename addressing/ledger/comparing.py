"""The ledger held against what should be on paper."""

from collections import Counter
from collections.abc import Iterable

from addressing.records.prints import ON_PAPER, PARTS, Balance, Due, Print, Wanted

Place = tuple[str, str, str]
"""A kind of piece, an ink and a household: one print of each is wanted."""


def compare(prints: Iterable[Print], wanted: Iterable[Wanted]) -> Balance:
    """What is good, what is due and what is wrong, each in the order of what it is made from.

    A print is good when its fingerprint is the wanted one of its household, piece and ink; one
    more of the same is good as well and counted so. Any other print that wasn't spoiled is wrong.
    """
    should = {_place(each): each for each in wanted}
    known = list(prints)
    kept = [each for each in known if each.state in ON_PAPER]
    good = tuple(each for each in kept if _is_good(each, should))
    have = {_place(each.wanted) for each in good}
    last = {_place(each.wanted): each for each in known}
    due = tuple(
        Due(each, _why_due(last.get(place), each))
        for place, each in should.items()
        if place not in have
    )
    wrong = tuple(
        (each, _why_wrong(each, should.get(_place(each.wanted))))
        for each in kept
        if not _is_good(each, should)
    )
    return Balance(good, due, wrong)


def used_up(prints: Iterable[Print]) -> dict[str, int]:
    """How many envelopes of each kind have been through, spoiled and destroyed ones too.

    An envelope goes through once for each ink: the ink that went through most counts.
    """
    fed = Counter((each.wanted.kind, each.wanted.ink) for each in prints)
    used: dict[str, int] = {}
    for (kind, _), number in fed.items():
        used[kind] = max(used.get(kind, 0), number)
    return used


def _place(wanted: Wanted) -> Place:
    return wanted.kind, wanted.ink, wanted.household


def _is_good(one: Print, should: dict[Place, Wanted]) -> bool:
    wanted = should.get(_place(one.wanted))
    return wanted is not None and wanted.print == one.wanted.print


def _why_due(last: Print | None, wanted: Wanted) -> str:
    if last is None:
        return "new"
    if last.state not in ON_PAPER and last.wanted.print == wanted.print:
        return last.state
    return _difference(last.wanted.print, wanted.print)


def _why_wrong(one: Print, wanted: Wanted | None) -> str:
    why = (
        "the household left the list or is held back"
        if wanted is None
        else _difference(one.wanted.print, wanted.print)
    )
    return f"{why}; handed over already: tell the client" if one.state == "handed over" else why


def _difference(was: str, now: str) -> str:
    """Which parts of two fingerprints differ, in words: "words changed"."""
    pairs = zip(PARTS, was.split("."), now.split("."), strict=True)
    changed = [part for part, before, after in pairs if before != after]
    # New words move the lines about: that they stand elsewhere then is no news.
    if "words" in changed and "size and place" in changed:
        changed.remove("size and place")
    return f"{' and '.join(changed)} changed"
