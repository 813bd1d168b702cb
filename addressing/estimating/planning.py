"""Where to print what: the cheapest and the fastest whole plan, exactly."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from itertools import combinations

from addressing.records.costs import WORKDAY, Backup, Offer, Place, Plan
from addressing.records.rates import MOST_PLACES

Kinds = Mapping[str, tuple[Offer, ...]]
"""For each kind what can be had."""


def plans(offers: Sequence[Offer], places: Sequence[Place]) -> tuple[Plan | None, Plan | None]:
    """(the cheapest plan, the fastest plan) that prints every kind; None where none can.

    Each place that is used is paid for once (`Place.fixed`). Of plans that are as fast the cheapest
    is the fastest plan; what may be printed at home is spread so that no day is too short.

    Raises:
        ValueError: more places than can be tried one by one.
    """
    cheapest = cheapest_plan(offers, places)
    if cheapest is None:
        return None, None
    kinds = _kinds(offers)
    for days in range(cheapest.days):
        limits = {_Limit(days, o.between) for its in kinds.values() for o in its}
        in_time = (_best(kinds, places, each) for each in limits if each.minutes >= 0)
        found = min((plan for plan in in_time if plan is not None), key=_worth, default=None)
        if found is not None:
            return cheapest, found
    return cheapest, cheapest


def cheapest_plan(offers: Sequence[Offer], places: Sequence[Place]) -> Plan | None:
    """The cheapest plan that prints every kind; of several the faster, then with fewer places.

    Raises:
        ValueError: more places than can be tried one by one.
    """
    if len(places) > MOST_PLACES:
        message = f"{len(places)} places are more than {MOST_PLACES}"
        raise ValueError(message)
    return _best(_kinds(offers), places, None)


def without_each(
    offers: Sequence[Offer], places: Sequence[Place], plan: Plan | None
) -> tuple[Backup, ...]:
    """For each place of a plan: the cheapest plan when that place is closed."""
    return tuple(_without(offers, places, closed) for closed in (plan.places if plan else ()))


def _without(offers: Sequence[Offer], places: Sequence[Place], closed: Place) -> Backup:
    kinds = _kinds(o for o in offers if o.place != closed.key)
    stranded = tuple(dict.fromkeys(o.kind for o in offers if not kinds.get(o.kind)))
    left = [offer for offer in offers if offer.kind not in stranded]
    others = [place for place in places if place != closed]
    return Backup(closed.key, cheapest_plan(left, others) if left else None, stranded)


@dataclass(frozen=True, slots=True)
class _Limit:
    """A plan is done in so many days, of which prints dry `between` days at home at most."""

    days: int
    between: int

    @property
    def minutes(self) -> int:
        """What may be done at home in the days that are left."""
        return (self.days - self.between) * WORKDAY

    def allows(self, offer: Offer, place: Place) -> bool:
        return offer.between <= self.between if place.home else place.days <= self.days


def _kinds(offers: Iterable[Offer]) -> Kinds:
    found: dict[str, tuple[Offer, ...]] = {}
    for offer in offers:
        found[offer.kind] = (*found.get(offer.kind, ()), *([offer] if offer.feasible else []))
    return found


def _best(kinds: Kinds, places: Sequence[Place], limit: _Limit | None) -> Plan | None:
    """The cheapest plan within a limit; None where there is none."""
    found: Plan | None = None
    for subset in _subsets(places):
        plan = _within(kinds, {place.key: place for place in subset}, limit, found)
        if plan is not None and (found is None or _worth(plan) < _worth(found)):
            found = plan
    return found


def _worth(plan: Plan) -> tuple[Decimal | int, ...]:
    return plan.total, plan.days, len(plan.places)


def _subsets(places: Sequence[Place]) -> Iterable[tuple[Place, ...]]:
    for count in range(1, len(places) + 1):
        yield from combinations(places, count)


def _within(
    kinds: Kinds, open_to: Mapping[str, Place], limit: _Limit | None, known: Plan | None
) -> Plan | None:
    """Each kind where it is cheapest among some places; None where one can't be done there.

    Also None where it costs more than the plan that is `known` already.
    """
    choices = []
    least = sum((place.fixed for place in open_to.values()), Decimal(0))
    for its in kinds.values():
        some = [
            offer
            for offer in its
            if (place := open_to.get(offer.place)) is not None
            and (limit is None or limit.allows(offer, place))
        ]
        if not some:
            return None
        some.sort(key=lambda offer: (offer.total, _minutes(offer), offer.place))
        choices.append(some)
        least += some[0].total
    if known is not None and least > known.total:
        return None
    taken: Sequence[Offer] | None = [some[0] for some in choices]
    if limit is not None:
        set_up = sum(place.minutes for place in open_to.values() if place.home)
        taken = _in_time(choices, limit.minutes - set_up)
    if taken is None:
        return None
    used = {offer.place for offer in taken}
    return Plan(tuple(taken), tuple(place for key, place in open_to.items() if key in used))


def _minutes(offer: Offer) -> int:
    return offer.minutes + offer.rest if offer.home else 0


def _in_time(choices: Sequence[Sequence[Offer]], minutes: int) -> tuple[Offer, ...] | None:
    """The cheapest choice of an offer for each kind that takes so many minutes at home at most.

    Of what was chosen so far only that is kept which nothing else beats in cost and minutes both.
    """
    kept: list[tuple[int, Decimal, tuple[Offer, ...]]] = [(0, Decimal(0), ())]
    for offers in choices:
        grown = sorted(
            (
                (spent + _minutes(offer), cost + offer.total, (*chosen, offer))
                for spent, cost, chosen in kept
                for offer in offers
                if spent + _minutes(offer) <= minutes
            ),
            key=lambda way: way[:2],
        )
        kept = []
        for way in grown:
            if not kept or way[1] < kept[-1][1]:
                kept.append(way)
    return kept[-1][2] if kept else None
