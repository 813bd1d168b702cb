"""Where ordering more costs less: what the job orders of shops, held against their price breaks."""

from collections.abc import Iterator

from addressing.estimating import cheaper_order
from addressing.job.costing import runs_of, terms_of
from addressing.job.counting import printers_of
from addressing.job.reading import Reading
from addressing.materials.shelf import Shelf
from addressing.records.costs import Cheaper, Run
from addressing.records.rates import Rates, ShopRates
from addressing.records.shelf import Shop


def rates_of_shops(reading: Reading, shelf: Shelf) -> Rates | None:
    """The user's prices where anything of the job may be ordered of a shop; None where nothing is.

    Raises:
        Fault: the rates can't be read (exit 3).
    """
    if not (isinstance(reading.press, Shop) or reading.docket.suite):
        return None
    return terms_of(shelf.rates(), shelf)


def cheaper_orders(reading: Reading, rates: Rates) -> tuple[Cheaper, ...]:
    """Each kind and piece of the suite of which a shop asks less for more."""
    shops = {shop.place: shop for shop in rates.shops}
    return tuple(
        found
        for run in runs_of(reading)
        for place in _places(reading, run, rates)
        if place in shops and (found := cheaper_order(shops[place], run)) is not None
    )


def _places(reading: Reading, run: Run, rates: Rates) -> Iterator[str]:
    """Who prints a run: the job's shop, the piece's own, else who has a price for it alone."""
    if not run.suite:
        yield from [reading.press.key] if isinstance(reading.press, Shop) else []
        return
    named = dict(printers_of(reading)).get(run.kind)
    if named is not None:
        yield named.key
    elif not rates.invented:
        yield from (shop.place for shop in rates.shops if _prices(shop, run))


def _prices(shop: ShopRates, run: Run) -> bool:
    return shop.priced(run.kind) is not None


def told_cheaper(found: Cheaper, title: str, currency: str) -> str:
    """The same in a sentence."""
    return (
        f"{found.kind}: {found.more} at {title} cost less than {found.fewer},"
        f" {found.more_cost} {currency} instead of {found.fewer_cost}."
    )
