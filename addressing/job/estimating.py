"""What the job costs at each place that could print it, and where to print what."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from decimal import Decimal

from addressing.estimating import (
    break_even,
    home_offer,
    home_place,
    ink_area,
    plans,
    quote,
    shop_offer,
    shop_place,
    without_each,
)
from addressing.faults import Exit, Fault
from addressing.feeding import check_stock, lay_for
from addressing.job.counting import count_job
from addressing.job.reading import Reading
from addressing.job.set_kinds import SetKind
from addressing.materials.presses import ink_for
from addressing.materials.shelf import Shelf
from addressing.materials.shops import check_prints
from addressing.records.costs import Extras, Offer, Place, Plan, Quote, Rates, Run, Untried
from addressing.records.docket import Docket, FeedChoice
from addressing.records.pieces import STATIC
from addressing.records.prints import Tried
from addressing.records.shelf import Device, Press
from addressing.typesetting import stream
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
    backups: tuple[tuple[str, Plan | None], ...] = ()
    """Each place of the cheapest plan, and the cheapest plan when that one is closed."""
    untried: tuple[Untried, ...] = ()
    """What the plan needs and the job's ledger has never seen on paper."""

    def plan_of(self, docket: Docket) -> Plan | None:
        """Where it will be printed: where the docket says, else by the cheapest plan."""
        named = docket.device or docket.shop
        place = next((each for each in self.places if each.key == named), None)
        return (self.in_one_place(place) if place is not None else None) or self.cheapest

    def in_one_place(self, place: Place) -> Plan | None:
        """Everything printed at one place; None where a piece can't be."""
        offers = tuple(offer for offer in self.offers if offer.place == place.key)
        return Plan(offers, (place,)) if all(offer.feasible for offer in offers) else None


def estimate_job(reading: Reading, shelf: Shelf, tried: Tried = frozenset()) -> Estimate:
    """Price every kind of piece at every place of the rates.

    Quantities are the counts with overs; held households count, since they will be printed.
    `tried` is what was printed before.

    Raises:
        Fault: the rates can't be read (exit 3).
    """
    rates = _with_terms(shelf.rates(), shelf)
    runs = tuple(_runs(reading))
    kinds = {kind.kind: kind for kind in reading.kinds}
    presses: list[tuple[Press, Place]] = []
    offers: list[Offer] = []
    for home in rates.homes:
        device = shelf.device(home.place)
        presses.append((device, home_place(rates, home, device.title)))
        for run in runs:
            why = _why_not(device, kinds[run.kind], shelf)
            offer = home_offer(rates, home, run, device.title)
            offers.append(offer if why is None else _refused(offer, why))
    for each in rates.shops:
        shop = shelf.shop(each.place)
        presses.append((shop, shop_place(rates, each, shop.title)))
        for run in runs:
            why = _why_not(shop, kinds[run.kind], shelf)
            offer = shop_offer(rates, each, run, shop.title)
            offers.append(offer if why is None else _refused(offer, why))
    places = tuple(place for _, place in presses)
    cheapest, fastest = plans(offers, places)
    backups = without_each(offers, places, cheapest)
    found = Estimate(rates, runs, tuple(offers), places, cheapest, fastest, backups)
    return replace(found, untried=tuple(_untried(found, reading, shelf, tried)))


def quote_job(reading: Reading, rates: Rates, extras: Extras) -> Quote:
    """The price to the client: every piece that is delivered, the list, changes and rush.

    Raises:
        Fault: the rates have no fees (exit 3).
    """
    if rates.fees is None:
        raise Fault(
            Exit.INPUT,
            "fees-missing",
            "Your rates.toml has no fees.",
            "Write them under [fees], as the packaged example does.",
            Where("rates.toml", None, "fees"),
        )
    delivered = {
        count.kind: count.needed + (count.overs if count.kind in STATIC else 0)
        for count in count_job(reading)
    }
    households = len(reading.guest_list.households)
    return quote(rates.fees, rates.digits, delivered, households, extras)


def home_or_shop(estimate: Estimate, kind: str) -> tuple[tuple[int, str], ...]:
    """From how many of a kind on it is cheaper at the first device or the first shop that can.

    ((quantity, place's key), ...); () when only one of the two can do it. What a place costs once
    is in it; ink grows in proportion.
    """
    run = next(run for run in estimate.runs if run.kind == kind)
    can = {offer.place for offer in estimate.offers if offer.kind == kind and offer.feasible}
    home = next((each for each in estimate.rates.homes if each.place in can), None)
    shop = next((each for each in estimate.rates.shops if each.place in can), None)
    if home is None or shop is None:
        return ()
    rates = estimate.rates
    fixed = {place.key: place.fixed for place in estimate.places}

    def many(quantity: int) -> Run:
        area = run.ink_area * quantity / max(run.quantity, 1)
        stock = run.stock - run.quantity + quantity if run.stock else 0
        return replace(run, quantity=quantity, stock=stock, ink_area=area)

    changes = break_even(
        lambda n: price_of(home_offer(rates, home, many(n), "")) + fixed[home.place],
        lambda n: price_of(shop_offer(rates, shop, many(n), "")) + fixed[shop.place],
    )
    names = {"one": home.place, "other": shop.place}
    return tuple((quantity, names[which]) for quantity, which in changes)


def _untried(found: Estimate, reading: Reading, shelf: Shelf, tried: Tried) -> Iterator[Untried]:
    """What the plan lays on paper where it never was: ink, paper, layout and place together."""
    plan = found.plan_of(reading.docket)
    kinds = {kind.kind: kind for kind in reading.kinds}
    homes = {home.place for home in found.rates.homes}
    for offer in plan.offers if plan is not None else ():
        kind, place = kinds[offer.kind], offer.place
        press = shelf.device(place) if place in homes else shelf.shop(place)
        for ink in kind.setting.laid:
            spot = ink_for(press, shelf.ink(ink.key)).spot
            asked = (place, spot, kind.stock.key, kind.setting.layout.key)
            if asked not in tried:
                yield Untried(offer.kind, *asked)


def price_of(offer: Offer) -> Decimal:
    """What an offer asks; infinity where it can't be had."""
    return offer.total if offer.feasible else Decimal("Infinity")


def _with_terms(rates: Rates, shelf: Shelf) -> Rates:
    """The rates with what each shop's own record says: days, packs, the least that it takes."""
    orders = {each.place: shelf.shop(each.place).order for each in rates.shops}
    shops = tuple(
        replace(
            each,
            days=each.days if order.days is None else order.days,
            least=order.minimum,
            pack=order.pack,
        )
        for each in rates.shops
        for order in (orders[each.place],)
    )
    return replace(rates, shops=shops)


def _runs(reading: Reading) -> Iterator[Run]:
    """Each kind of piece with its number, overs in it, and the ink of its letters."""
    counts = {count.kind: count for count in count_job(reading)}
    outer = next((k.setting.layout.key for k in reading.kinds if k.kind == "outer"), None)
    for kind in reading.kinds:
        pages, outlines = stream(kind.setting)
        count = counts[kind.kind]
        with_overs = count.needed + count.overs
        quantity = with_overs if kind.static else count.needed
        layout = kind.setting.layout.key
        each = ink_area(pages, outlines) / max(len(kind.setting.pieces), 1)
        if kind.setting.underbase is not None:
            each *= 2  # all lines once more; what it is drawn in by is next to nothing
        stock = 0 if kind.kind == "return" and layout == outer else with_overs
        inks, hits = len(kind.setting.laid) or 1, kind.setting.passes or 1
        area = each * quantity * hits / inks  # as if all inks covered alike
        yield Run(kind.kind, layout, quantity, stock, area, hits, inks, kind.static)


def _why_not(press: Press, kind: SetKind, shelf: Shelf) -> str | None:
    """Why a place can't print a kind of piece; None when it can."""
    try:
        if isinstance(press, Device):
            check_stock(press, kind.stock)
            lay_for(press, kind.setting.layout, FeedChoice())
        for ink in kind.setting.laid:
            ink_for(press, shelf.ink(ink.key))
            check_prints(press, ink.key, kind.stock.key, kind.kind)
    except Fault as fault:
        return fault.text
    return None


def _refused(offer: Offer, why: str) -> Offer:
    return Offer(offer.kind, offer.place, offer.title, home=offer.home, why_not=why)
