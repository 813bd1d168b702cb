"""What the job costs at each place that could print it, and where to print what."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from decimal import Decimal

from addressing.estimating import (
    cheapest_from,
    cheapest_plan,
    home_offer,
    home_place,
    in_a_rush,
    packs_of,
    plans,
    quote,
    shop_offer,
    shop_place,
    unpriced_paper,
    without_each,
)
from addressing.faults import Exit, Fault
from addressing.job.costing import dry_between, runs_of, terms_of, why_not
from addressing.job.counting import count_job, count_suite
from addressing.job.dies import with_dies
from addressing.job.reading import Reading
from addressing.materials.presses import ink_for
from addressing.materials.shelf import Shelf
from addressing.records.costs import Backup, Extras, Offer, Part, Place, Plan, Quote, Run, Untried
from addressing.records.docket import Docket
from addressing.records.pieces import STATIC
from addressing.records.prints import Tried
from addressing.records.rates import Rates
from addressing.where import Where


@dataclass(frozen=True, slots=True)
class Estimate:
    """Every offer, and the plans; None where some piece can't be printed anywhere."""

    rates: Rates
    runs: tuple[Run, ...]
    offers: tuple[Offer, ...]
    places: tuple[Place, ...]
    cheapest: Plan | None
    fastest: Plan | None
    backups: tuple[Backup, ...] = ()
    """One for each place of the cheapest plan."""
    untried: tuple[Untried, ...] = ()
    """What the plan needs and the job's ledger has never seen on paper."""
    bought: tuple[Part, ...] = ()
    """Pieces of the suite that no shop prints: bought in packs."""
    unpriced: tuple[str, ...] = ()
    """Pieces of the suite for which the rates have no price at all."""
    no_paper: tuple[str, ...] = ()
    """Envelopes and sheets, by their keys, that are bought without a price in the rates."""
    rush: bool = False

    def plan_of(self, docket: Docket) -> Plan | None:
        """Where it will be printed: where the docket says, else by the cheapest plan."""
        named = docket.device or docket.shop
        place = next((each for each in self.places if each.key == named), None)
        return (self.whole_at(place) if place is not None else None) or self.cheapest

    def plates_at(self, place: Place) -> tuple[Offer, ...]:
        """What a place asks for each kind of plates; the suite is not in it."""
        suite = {run.kind for run in self.runs if run.suite}
        return tuple(o for o in self.offers if o.place == place.key and o.kind not in suite)

    def prints_any(self, place: Place) -> bool:
        """True when a place can print any kind of plates of the job, or there are none."""
        offers = self.plates_at(place)
        return not offers or any(offer.feasible for offer in offers)

    def in_one_place(self, place: Place) -> Plan | None:
        """All plates printed at one place; None where a piece can't be. The suite is not in it."""
        offers = self.plates_at(place)
        return Plan(offers, (place,)) if all(offer.feasible for offer in offers) else None

    def whole_at(self, place: Place) -> Plan | None:
        """All plates printed at one place, and the suite where that is cheapest then."""
        suite = {run.kind for run in self.runs if run.suite}
        offers = [o for o in self.offers if o.place == place.key or o.kind in suite]
        return cheapest_plan(offers, self.places)

    def price_at(self, key: str) -> Callable[[Run], Offer]:
        """What a place asks for a run, by the place's key."""
        rates = self.rates
        home = next((each for each in rates.homes if each.place == key), None)
        if home is not None:
            return lambda run: home_offer(rates, home, run, "")
        shop = next(each for each in rates.shops if each.place == key)
        if self.rush:
            return lambda run: in_a_rush(rates, shop, shop_offer(rates, shop, run, ""))
        return lambda run: shop_offer(rates, shop, run, "")


def estimate_job(
    reading: Reading, shelf: Shelf, tried: Tried = frozenset(), *, rush: bool = False
) -> Estimate:
    """Price every kind of piece, and the suite, at every place of the rates.

    Quantities are the counts with overs; held households count, since they will be printed.
    `tried` is what was printed before. In a `rush` each shop that takes one asks for it.

    Raises:
        Fault: the rates can't be read (exit 3).
    """
    rates = terms_of(shelf.rates(), shelf)
    runs = runs_of(reading)
    priced = {each.name for shop in rates.shops for each in shop.pieces}
    suite = [run for run in runs if run.suite and run.kind not in priced]
    bought = [packs_of(rates, run) for run in suite]
    runs = with_dies((run for run in runs if run not in suite), reading, shelf, rates)
    offers, places = _offers(reading, shelf, rates, runs, rush=rush)
    cheapest, fastest = plans(offers, places)
    found = Estimate(
        rates,
        runs,
        offers,
        places,
        cheapest,
        fastest,
        without_each(offers, places, cheapest),
        bought=tuple(part for part in bought if part is not None),
        unpriced=tuple(run.kind for run, part in zip(suite, bought, strict=True) if part is None),
        no_paper=unpriced_paper(rates, runs),
        rush=rush,
    )
    return replace(found, untried=tuple(_untried(found, reading, shelf, tried)))


def _offers(
    reading: Reading, shelf: Shelf, rates: Rates, runs: tuple[Run, ...], *, rush: bool
) -> tuple[tuple[Offer, ...], tuple[Place, ...]]:
    """What every place asks for every run; the places themselves."""
    kinds = {kind.kind: kind for kind in reading.kinds}
    printer = dict(reading.printers)
    offers: list[Offer] = []
    places: list[Place] = []
    for home in rates.homes:
        device = shelf.device(home.place)
        places.append(home_place(rates, home, device.title))
        for run in runs:
            its = [kinds[kind] for kind in (run.kind, *run.shared) if kind in kinds]
            dry = max((dry_between(device, kind) for kind in its), default=0)
            offer = home_offer(rates, home, replace(run, dry=dry), device.title)
            whys = (why_not(device, kind, reading.docket, shelf) for kind in its)
            offers.append(_refused(offer, next(filter(None, whys), None)))
    for each in rates.shops:
        shop = shelf.shop(each.place)
        days = each.rush.days if rush and each.rush is not None else each.days
        places.append(shop_place(rates, replace(each, days=days), shop.title))
        for run in runs:
            its = [kinds[kind] for kind in (run.kind, *run.shared) if kind in kinds]
            offer = shop_offer(rates, each, run, shop.title)
            offer = in_a_rush(rates, each, offer) if rush else offer
            own = printer.get(run.kind, shop)
            elsewhere = f"The docket has {run.kind} printed at {own.title}."
            whys = (why_not(shop, kind, reading.docket, shelf) for kind in its)
            why = elsewhere if own.key != shop.key else next(filter(None, whys), None)
            offers.append(_refused(offer, why))
    return tuple(offers), tuple(places)


def _refused(offer: Offer, why: str | None) -> Offer:
    if why is None:
        return offer
    return Offer(offer.kind, offer.place, offer.title, home=offer.home, why_not=why)


def quote_job(reading: Reading, rates: Rates, extras: Extras) -> Quote:
    """The price to the client: every piece that is delivered, the list, changes and rush.

    Of the suite only the pieces with a fee of their own are charged; the others are `unpriced`.

    Raises:
        Fault: the rates have no fees (exit 3).
    """
    fees = rates.fees
    if fees is None:
        raise Fault(
            Exit.INPUT,
            "fees-missing",
            "Your rates.toml has no fees.",
            "Write them under [fees], as the packaged example does.",
            Where("rates.toml", None, "fees"),
        )
    delivered = {
        count.kind: count.needed + (count.overs if count.kind in STATIC else 0)
        for count in count_job(reading, terms=False)
    }
    own = dict(fees.pieces)
    suite = {one.kind: one.needed for one in count_suite(reading, terms=False) if one.kind in own}
    households = len(reading.guest_list.households)
    asked = quote(fees, rates.digits, {**delivered, **suite}, households, extras)
    free = (piece.name for piece in reading.docket.suite if piece.name not in own)
    return replace(asked, unpriced=tuple(dict.fromkeys((*asked.unpriced, *free))))


def margin_of(found: Estimate, docket: Docket, asked: Quote) -> Decimal | None:
    """What is left of a quote, before tax, when the plan and what is bought are paid.

    None where some piece can't be printed anywhere.
    """
    plan = found.plan_of(docket)
    if plan is None:
        return None
    return asked.net - plan.total - sum((part.amount for part in found.bought), Decimal(0))


def cheaper_from(estimate: Estimate, kind: str) -> tuple[tuple[int, str], ...]:
    """From how many of a kind on which place is the cheapest: ((quantity, place's key), ...).

    () where fewer than two places can do it. What a place costs once is in it; ink grows in
    proportion.
    """
    run = next(run for run in estimate.runs if run.kind == kind)
    can = {offer.place for offer in estimate.offers if offer.kind == kind and offer.feasible}
    places = [place for place in estimate.places if place.key in can]
    if len(places) < 2:  # noqa: PLR2004 - one place is no choice
        return ()
    ways = []
    for place in places:
        price = estimate.price_at(place.key)
        costs = (price_of(price(_many(run, n))) + place.fixed for n in range(1, FURTHEST + 1))
        ways.append(tuple(costs))
    return tuple((quantity, places[at].key) for quantity, at in cheapest_from(ways))


FURTHEST = 300
"""Quantities that are looked at."""


def _many(run: Run, quantity: int) -> Run:
    """The run with another number of pieces, and as many overs."""
    stock = run.stock - run.quantity + quantity if run.stock else 0
    on = run.on.scaled(quantity, run.quantity) if run.on is not None else None
    return replace(run, quantity=quantity, stock=stock, inks_laid=run.inks_for(quantity), on=on)


def _untried(found: Estimate, reading: Reading, shelf: Shelf, tried: Tried) -> Iterator[Untried]:
    """What the plan lays on paper where it never was: ink, paper, layout and place together."""
    plan = found.plan_of(reading.docket)
    kinds = {kind.kind: kind for kind in reading.kinds}
    homes = {home.place for home in found.rates.homes}
    for offer in plan.offers if plan is not None else ():
        kind, place = kinds.get(offer.kind), offer.place
        if kind is None:
            continue
        press = shelf.device(place) if place in homes else shelf.shop(place)
        for ink in kind.setting.laid:
            spot = ink_for(press, shelf.ink(ink.key)).spot
            asked = (place, spot, kind.stock.key, kind.setting.layout.key)
            if asked not in tried:
                yield Untried(offer.kind, *asked)


def price_of(offer: Offer) -> Decimal:
    """What an offer asks; infinity where it can't be had."""
    return offer.total if offer.feasible else Decimal("Infinity")
