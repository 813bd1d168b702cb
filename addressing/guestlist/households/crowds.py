"""Pairs that are perhaps one, gathered: whoever are all alike are asked about together, once."""

from collections.abc import Iterable, Sequence

Pair = tuple[int, int, str]
"""Two places of a list and why they are perhaps one."""


def crowds(pairs: Sequence[Pair]) -> Iterable[tuple[tuple[int, ...], str]]:
    """The places that are each alike with each, and why the first two are.

    A pair is in one crowd at least; two that are told apart are never in one.

    >>> list(crowds([(1, 2, "a"), (1, 3, "b"), (2, 3, "c"), (3, 9, "d")]))
    [((1, 2, 3), 'a'), ((3, 9), 'd')]
    """
    alike: dict[int, set[int]] = {}
    for one, other, _ in pairs:
        alike.setdefault(one, set()).add(other)
        alike.setdefault(other, set()).add(one)
    covered: set[tuple[int, int]] = set()
    for one, other, why in pairs:
        if (one, other) in covered:
            continue
        members = [one, other]
        for another in sorted(alike[one] & alike[other]):
            if alike[another].issuperset(members):
                members.append(another)
        members.sort()
        covered.update((a, b) for place, a in enumerate(members) for b in members[place + 1 :])
        yield tuple(members), why
