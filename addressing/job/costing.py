"""What is to be priced of a job: its runs, and the rates with each place's own terms."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from decimal import Decimal

from addressing.estimating import drying_days, ink_area
from addressing.faults import Fault
from addressing.feeding import check_stock, lay_for
from addressing.job.counting import count_job, count_suite, on_sheets_of
from addressing.job.reading import Reading
from addressing.job.set_kinds import SetKind
from addressing.materials.methods import method_for
from addressing.materials.presses import ink_for
from addressing.materials.sheeting import page_of
from addressing.materials.shelf import Shelf
from addressing.materials.shops import check_prints
from addressing.plates import Choked
from addressing.records.costs import Run
from addressing.records.counts import PieceCount
from addressing.records.docket import Docket, FeedChoice
from addressing.records.pages import Outlines, Setting
from addressing.records.rates import HomeRates, Rates, ShopRates
from addressing.records.shelf import Device, Ink, Press
from addressing.typesetting import chokes, stream


def runs_of(reading: Reading) -> tuple[Run, ...]:
    """Each kind of piece with its number, overs in it, and the ink of its letters; then the suite.

    Kinds that share their sheets are one run, named by the first of them.
    """
    counts = {count.kind: count for count in count_job(reading, terms=False)}
    kinds = {kind.kind: kind for kind in reading.kinds}
    made = [
        _run(kind, kinds, counts, reading.docket)
        for kind in reading.kinds
        if not kind.shared or kind.kind == kind.shared[0]
    ]
    names = {piece.name for piece in reading.docket.suite}
    suite = (
        Run(one.kind, "", number, number, static=True, suite=True)
        for one in count_suite(reading, terms=False)
        if one.kind in names and (number := one.needed + one.overs)
    )
    return (*made, *suite)


def _run(
    kind: SetKind, kinds: Mapping[str, SetKind], counts: Mapping[str, PieceCount], docket: Docket
) -> Run:
    count, layout = counts[kind.kind], kind.setting.layout.key
    outer = kinds["outer"].setting.layout.key if "outer" in kinds else None
    with_overs = count.needed + count.overs
    quantity = with_overs if kind.static else count.needed
    together = [kinds[other] for other in kind.shared] or [kind]
    inks, hits = len(kind.setting.laid) or 1, kind.setting.passes or 1
    return Run(
        kind.kind,
        layout,
        quantity,
        stock=0 if kind.kind == "return" and layout == outer else with_overs,
        inks_laid=tuple(_inks(together, counts).items()),
        hits=hits,
        inks=inks,
        static=kind.static,
        on=on_sheets_of(together, counts, docket),
        shared=tuple(each.kind for each in together if each is not kind),
    )


def _inks(kinds: Iterable[SetKind], counts: Mapping[str, PieceCount]) -> dict[str, float]:
    """The area of each ink (by its key) on all pieces of some kinds, in mm²."""
    found: dict[str, float] = {}
    for kind in kinds:
        count = counts[kind.kind]
        number = count.needed + count.overs * kind.static
        for ink, area in _laid(kind.setting):
            each = area / max(len(kind.setting.pieces), 1)
            found[ink.key] = found.get(ink.key, 0.0) + each * number * kind.setting.hits_of(ink)
    return found


def _laid(setting: Setting) -> Iterator[tuple[Ink, float]]:
    """What each ink covers when it is laid down once on every piece of a set, in mm².

    A base has all lines, drawn in as on its plate; a varnish what it lies over.

    Raises:
        Fault: the base under a letter would vanish (exit 3).
    """
    pages, outlines = stream(setting)
    names, address = ink_area(pages, outlines)
    second = setting.second.ink if setting.second is not None else None
    yield setting.ink, names if second else names + address
    if second is not None:
        yield second, address
    if setting.underbase is not None:
        pages, outlines = stream(setting)
        drawn_in = Choked(outlines.glyphs, chokes(setting))
        yield setting.underbase.ink, sum(ink_area(pages, Outlines(drawn_in)))
    if (coat := setting.varnish) is not None:
        over = {"names": names, "address": address}
        yield coat.ink, over.get(coat.over, names + address)


def terms_of(rates: Rates, shelf: Shelf) -> Rates:
    """The rates with what each place's own record says.

    Of a shop days, packs, the least that it takes, what it wants sent in and whether it keeps that;
    of a device its load and rest.
    """
    return replace(
        rates,
        homes=tuple(_of_device(each, shelf.device(each.place)) for each in rates.homes),
        shops=tuple(_of_shop(each, shelf) for each in rates.shops),
    )


def _of_device(home: HomeRates, device: Device) -> HomeRates:
    return replace(home, load=max(device.load, 1), pause=device.feed.pause)


def _of_shop(rates: ShopRates, shelf: Shelf) -> ShopRates:
    shop = shelf.shop(rates.place)
    spare = Decimal(str(shop.sent_in.spare_percent))
    return replace(
        rates,
        days=rates.days if shop.order.days is None else shop.order.days,
        least=shop.order.minimum,
        pack=shop.order.pack,
        spoilage=max(rates.spoilage, spare),
        under=max(rates.under, Decimal(str(shop.order.under))),
        keeps=shop.sent_in.leftovers == "kept",
    )


def why_not(press: Press, kind: SetKind, docket: Docket, shelf: Shelf) -> str | None:
    """Why a place can't print a kind of piece; None when it can.

    Its size and paper, each of its inks, its way of printing.
    """
    choice, sheet = docket.piece(kind.kind), docket.sheet(kind.kind)
    feed = docket.feed if press.key == docket.device else FeedChoice()
    try:
        if isinstance(press, Device):
            check_stock(press, kind.stock)
            if kind.sheets is None or sheet is None:
                lay_for(press, kind.setting.layout, feed)
            else:
                page_of(sheet, press)
        for ink in kind.setting.laid:
            ink_for(press, shelf.ink(ink.key))
            check_prints(press, ink.key, kind.stock.key, kind.kind)
        if choice is not None:
            method_for(choice, press, shelf.methods())
    except Fault as fault:
        return fault.text
    return None


def dry_between(press: Press, kind: SetKind) -> int:
    """Days that a hit of a kind dries at home before the next; a shop's days have them in."""
    if not isinstance(press, Device) or kind.setting.passes <= 1:
        return 0
    return dry_days(kind, press)


def dry_days(kind: SetKind, device: Device) -> int:
    """The slowest ink of a kind of piece on its paper."""
    method = kind.method.key if kind.method else device.method
    return max(
        (drying_days(method, ink.key, kind.stock.surface) for ink in kind.setting.laid), default=0
    )
