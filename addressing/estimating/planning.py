"""Where to print what: the cheapest and the fastest whole plan, exactly."""

from collections.abc import Callable, Iterable, Sequence
from decimal import Decimal
from itertools import combinations

from addressing.records.costs import Offer, Place, Plan

MOST_PLACES = 12
"""Every set of places is tried (4096 of them)."""

Worth = Callable[[Plan], tuple[Decimal | int, ...]]


def plans(offers: Sequence[Offer], places: Sequence[Place]) -> tuple[Plan | None, Plan | None]:
    """(the cheapest plan, the fastest plan) that prints every kind; None where none can.

    Each place that is used is paid for once (`Place.fixed`). Of plans that cost the same, or take
    as long, the one that is better in the other way is taken, then the one with fewer places.

    Raises:
        ValueError: more places than can be tried one by one.
    """
    if len(places) > MOST_PLACES:
        message = f"{len(places)} places are more than {MOST_PLACES}"
        raise ValueError(message)
    kinds = tuple(dict.fromkeys(offer.kind for offer in offers))
    found = [plan for subset in _subsets(places) if (plan := _within(kinds, offers, subset))]
    cheapest = min(found, key=lambda p: (p.total, p.days, len(p.places)), default=None)
    fastest = min(found, key=lambda p: (p.days, p.total, len(p.places)), default=None)
    return cheapest, fastest


def without_each(
    offers: Sequence[Offer], places: Sequence[Place], plan: Plan | None
) -> tuple[tuple[str, Plan | None], ...]:
    """For each place of a plan (its key): the cheapest plan when that place is closed.

    None where some kind can be printed nowhere else.
    """
    used = plan.places if plan is not None else ()
    return tuple(
        (closed.key, plans(offers, [place for place in places if place != closed])[0])
        for closed in used
    )


def _subsets(places: Sequence[Place]) -> Iterable[tuple[Place, ...]]:
    for count in range(1, len(places) + 1):
        yield from combinations(places, count)


def _within(kinds: Sequence[str], offers: Sequence[Offer], subset: Sequence[Place]) -> Plan | None:
    """Each kind where it is cheapest among some places; None where one can't be done there."""
    keys = {place.key for place in subset}
    taken = []
    for kind in kinds:
        open_to = [o for o in offers if o.kind == kind and o.place in keys and o.feasible]
        if not open_to:
            return None
        taken.append(min(open_to, key=lambda offer: (offer.total, offer.place)))
    used = {offer.place for offer in taken}
    return Plan(tuple(taken), tuple(place for place in subset if place.key in used))
