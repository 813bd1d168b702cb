"""What one place asks for one kind of piece: at home, and at a shop. Money is exact (Decimal)."""

import math
from collections.abc import Iterable, Iterator
from dataclasses import replace
from decimal import ROUND_HALF_UP, Decimal

from addressing.records.costs import Cheaper, Offer, Part, Place, Run
from addressing.records.rates import EnvelopePrice, HomeRates, Rates, ShopRates

PAGE_AREA = 210 * 297
"""mm² of an A4 page, on which cartridges' yields are stated."""

COVERAGE = 0.05
"""The share of the page that is covered in a yield (ISO/IEC 19752 for black toner)."""


def paid(amount: Decimal, digits: int) -> Decimal:
    """An amount as it is paid, halves up.

    >>> paid(Decimal("1.005"), 2)
    Decimal('1.01')
    """
    return amount.quantize(Decimal(1).scaleb(-digits), ROUND_HALF_UP)


def home_place(rates: Rates, home: HomeRates, title: str) -> Place:
    """What using a device at all costs: setting it up and back."""
    why = f"{home.set_up} min to set up and back"
    part = Part("set-up", _labour(rates, home.set_up), why)
    return Place(home.place, title, (part,), 0, home=True, minutes=home.set_up)


def home_offer(rates: Rates, home: HomeRates, run: Run, title: str) -> Offer:
    """Printing a run at home: ink by measured area, envelopes, wear, the designer's time.

    Each hit is a pass of its own and may spoil as many; each ink is adjusted anew. Cards on sheets
    are fed, spoiled and cut by the sheet. Between two loads of its feed the device may rest.
    """
    if run.suite:
        why = f"No plate of {run.kind} is made here: a shop prints it."
        return Offer(run.kind, home.place, title, home=True, why_not=why)
    spoiled = _spoiled(run, home.spoilage * run.hits)
    fed = run.fed + spoiled
    passes = fed * run.hits * (run.on.sides if run.on is not None else 1)
    labour, minutes = _work(rates, home, run, (passes, fed))
    parts = (
        *_ink(rates, home, run, fed),
        *_envelopes(rates, run, spoiled),
        Part("wear", paid(home.wear * passes, rates.digits), f"{passes} passes"),
        labour,
    )
    return Offer(
        run.kind,
        home.place,
        title,
        home=True,
        parts=parts,
        minutes=minutes,
        rest=home.pause * (-(-passes // home.load) - 1) if passes else 0,
        between=run.dry * (run.hits - 1),
    )


def _work(rates: Rates, home: HomeRates, run: Run, fed: tuple[int, int]) -> tuple[Part, int]:
    """The designer's time for so many (passes, sheets to cut), and its minutes."""
    passes, sheets = fed
    adjust = home.adjust * run.inks
    feed = math.ceil(home.per_hundred * passes / 100)
    cut = math.ceil(rates.cut_per_hundred * sheets / 100) if run.on is not None else 0
    minutes = adjust + feed + cut
    why = f"{minutes} min: {adjust} to adjust, {feed} to feed {passes}"
    if cut:
        why += f", {cut} to cut {sheets} sheets"
    return Part("labour", _labour(rates, minutes), why), minutes


def shop_place(rates: Rates, shop: ShopRates, title: str) -> Place:
    """What a shop costs at all: shipping, and the designer's attention."""
    parts = (
        Part("shipping", paid(shop.shipping, rates.digits), "there and back, once"),
        Part("attention", _labour(rates, shop.attention), f"{shop.attention} min for the order"),
    )
    return Place(shop.place, title, parts, shop.days)


def shop_offer(rates: Rates, shop: ShopRates, run: Run, title: str) -> Offer:
    """Printing a run at a shop: set-up, the price of so many by its breaks and minimum.

    Each ink is a plate, each hit a run of its own. It charges whole packs, and refuses fewer than
    it takes an order for. What it prices apart goes by those prices.
    """
    own = shop.priced(run.kind)
    if own is None and run.suite:
        why = f"{title} has no price for {run.kind} in your rates."
        return Offer(run.kind, shop.place, title, home=False, why_not=why)
    shop = own or shop
    if run.quantity < shop.least and not _may_be_more(run):
        why = f"{title} takes orders of {shop.least} and more; here are {run.quantity}."
        return Offer(run.kind, shop.place, title, home=False, why_not=why)
    wanted = _wanted(shop, run)
    extra = max(_spoiled(run, shop.spoilage), wanted - run.quantity)
    number, each = best_quantity(shop, wanted)
    once = max(each * number, shop.minimum)
    why = _charged(shop, run, wanted, number, each)
    plates = "one plate" if run.inks == 1 else f"{run.inks} plates"
    parts = (
        Part("set-up", paid(shop.set_up * run.inks, rates.digits), plates),
        Part("printing", paid(once * run.hits, rates.digits), why),
        *(part for place, part in run.dies if place == shop.place),
        *_envelopes(rates, run, extra, keeps=shop.keeps),
    )
    return Offer(run.kind, shop.place, title, home=False, parts=parts)


def _charged(shop: ShopRates, run: Run, wanted: int, number: int, each: Decimal) -> str:
    """What a shop's charge is for, in words."""
    why = f"{number} at {each}"
    if _that_enough_come(shop, run) > run.quantity:
        why += f": {run.quantity} even if {float(shop.under):g} % fewer come"
    if wanted == shop.least > _that_enough_come(shop, run):
        why += ", the least that it takes"
    if shop.pack > 1:
        why += f", in packs of {shop.pack}"
    if number > whole(wanted, shop.pack):
        why += f": cheaper than {whole(wanted, shop.pack)}"
    if shop.minimum > each * number:
        why += f", but at least {shop.minimum}"
    if run.hits > 1:
        how = "once for each ink" if run.hits == run.inks else "once for each pass of an ink"
        why += f"; {run.hits} times, {how}"
    return why


def in_a_rush(rates: Rates, shop: ShopRates, offer: Offer) -> Offer:
    """An offer of a shop with what it asks for a rush; the same where it takes none."""
    if shop.rush is None or not offer.feasible:
        return offer
    work = sum((p.amount for p in offer.parts if p.name in ("set-up", "printing")), Decimal(0))
    amount = paid(work * shop.rush.percent / 100, rates.digits)
    why = f"{shop.rush.percent} % more, done in {shop.rush.days} days"
    return replace(offer, parts=(*offer.parts, Part("rush", amount, why)))


def _may_be_more(run: Run) -> bool:
    """Whether more than the run may be ordered of it.

    Of pieces that all differ every record comes once; what goes on envelopes that are sent in
    comes on each of them.
    """
    return run.static and run.stock > 0 and run.quantity > 0


def _that_enough_come(shop: ShopRates, run: Run) -> int:
    """How many to order so that enough come: by trade custom a shop may deliver fewer."""
    if not _may_be_more(run):
        return run.quantity
    return math.ceil(run.quantity / (1 - shop.under / 100))


def _wanted(shop: ShopRates, run: Run) -> int:
    """How many to order: that enough come, the least that the shop takes, whole packs of its."""
    if not _may_be_more(run):
        return run.quantity
    return whole(max(_that_enough_come(shop, run), shop.least), shop.pack)


def cheaper_order(shop: ShopRates, run: Run) -> Cheaper | None:
    """Where ordering more than a run needs costs less, by a shop's breaks; None where it doesn't.

    >>> breaks = ((1, Decimal("1.00")), (150, Decimal("0.80")))
    >>> shop = ShopRates("s", Decimal(0), breaks, Decimal(0), Decimal(0), 0, 5, Decimal(0))
    >>> found = cheaper_order(shop, Run("reply", "a1", 141, 141, static=True))
    >>> found.fewer, str(found.fewer_cost), found.more, str(found.more_cost)
    (141, '141.00', 150, '120.00')
    """
    own = shop.priced(run.kind)
    if (own is None and run.suite) or (run.quantity < shop.least and not _may_be_more(run)):
        return None
    shop = own or shop
    fewer = whole(_wanted(shop, run), shop.pack)
    more, each = best_quantity(shop, fewer)
    if more == fewer:
        return None
    was = max(_each(shop, fewer) * fewer, shop.minimum)
    now = max(each * more, shop.minimum)
    return Cheaper(run.kind, shop.place, fewer, was * run.hits, more, now * run.hits)


def best_quantity(shop: ShopRates, quantity: int) -> tuple[int, Decimal]:
    """How many to order and the price of each: a break just above may cost less in all.

    >>> breaks = ((1, Decimal("1.00")), (150, Decimal("0.80")))
    >>> shop = ShopRates("s", Decimal(0), breaks, Decimal(0), Decimal(0), 0, 5, Decimal(0))
    >>> best_quantity(shop, 141)
    (150, Decimal('0.80'))
    """
    least = whole(quantity, shop.pack)
    numbers = (least, *(whole(start, shop.pack) for start, _ in shop.breaks if start > least))
    orders = [(number, _each(shop, number)) for number in numbers]
    return min(orders, key=lambda order: (max(order[0] * order[1], shop.minimum), order[0]))


def _each(shop: ShopRates, number: int) -> Decimal:
    """The price of one of so many; the breaks begin with 1."""
    return next(each for start, each in reversed(shop.breaks) if start <= number)


def whole(quantity: int, pack: int) -> int:
    """So many in whole packs.

    >>> whole(51, 25)
    75
    """
    return -(-quantity // pack) * pack


def _ink(rates: Rates, home: HomeRates, run: Run, fed: int) -> Iterator[Part]:
    """Of each ink its cartridge's price for the share of its stated yield that the letters take."""
    for ink, run_area in run.inks_laid:
        area = run_area * fed / max(run.fed, 1)
        pages, own = area / (PAGE_AREA * COVERAGE), home.cartridge(ink)
        amount = paid(own.price * Decimal(pages) / own.pages, rates.digits)
        why = f"{area / 100:.0f} cm² of {ink}: {pages:.1f} of a cartridge's {own.pages} pages"
        yield Part("ink", amount, why)


def _paper_of(rates: Rates, run: Run) -> tuple[str, EnvelopePrice | None]:
    """What a run is printed on, by its key, and its price."""
    if run.on is not None:
        return run.on.paper, price_of_packs(rates.papers, run.on.paper)
    return run.layout, price_of_packs(rates.envelopes, run.layout)


def unpriced_paper(rates: Rates, runs: Iterable[Run]) -> tuple[str, ...]:
    """Envelopes and sheets that runs take and the rates have no price for."""
    papers = (_paper_of(rates, run) for run in runs if run.stock and not run.suite)
    return tuple(dict.fromkeys(key for key, price in papers if price is None))


def _envelopes(rates: Rates, run: Run, extra: int, *, keeps: bool = False) -> tuple[Part, ...]:
    """Whole packs for the run and what is spoiled; nothing where no price is known."""
    _, price = _paper_of(rates, run)
    if run.on is not None:
        run = replace(run, quantity=run.on.sheets, stock=run.on.stock)
    if price is None or not run.stock:
        return ()
    return (_packs(rates, price, run, extra, keeps=keeps),)


def packs_of(rates: Rates, run: Run) -> Part | None:
    """What a piece of the suite costs that is bought in packs; None where no price is known."""
    price = price_of_packs(rates.bought, run.kind)
    if price is None:
        return None
    packs = -(-run.quantity // price.pack)
    why = f"{_packs_told(packs, price)} for {run.quantity}, overs in them"
    return Part(run.kind, paid(price.price * packs, rates.digits), why)


def price_of_packs(prices: Iterable[EnvelopePrice], key: str) -> EnvelopePrice | None:
    """The price of what comes in packs, by its key; None where there is none."""
    return next((each for each in prices if each.layout == key), None)


def _packs(rates: Rates, price: EnvelopePrice, run: Run, extra: int, *, keeps: bool) -> Part:
    """Whole packs. What is spoiled comes out of the overs; beyond them it is bought.

    What a shop `keeps` of envelopes that are sent in is lost as overs: it comes on top of them.
    """
    overs = run.stock - run.quantity
    number = run.stock + extra if keeps else max(run.stock, run.quantity + extra)
    packs = -(-number // price.pack)
    why = f"{_packs_told(packs, price)} for {run.quantity}"
    if run.static:
        why += ", overs in them" + (f", and {extra} that the shop wants more" if extra else "")
    elif keeps and extra:
        why += f", {overs} overs and {extra} that the shop keeps"
    elif number > run.stock:
        why += f" and {extra} for spoiling (more than the {overs} overs)"
    elif overs:
        why += f" and {overs} overs" + (f"; {extra} of these for spoiling" if extra else "")
    name = "paper" if run.on is not None else "envelopes"
    return Part(name, paid(price.price * packs, rates.digits), why)


def _packs_told(packs: int, price: EnvelopePrice) -> str:
    return f"{packs} pack{'s' if packs != 1 else ''} of {price.pack}"


def _labour(rates: Rates, minutes: int) -> Decimal:
    return paid(rates.per_hour * minutes / 60, rates.digits)


def _spoiled(run: Run, percent: Decimal) -> int:
    """How many are ruined beyond the run; a static run has its overs in it, and they serve."""
    return 0 if run.static else math.ceil(run.fed * percent / 100)
