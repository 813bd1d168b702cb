"""One kind of piece as the plates that a press wants: how they are named, where they are parted."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from addressing.faults import Exit, Fault
from addressing.feeding import in_order
from addressing.job.contents import home_of
from addressing.job.live import is_live
from addressing.job.reading import Reading
from addressing.job.set_kinds import SetKind
from addressing.job.sharing import Sharing, groups, sharing_of
from addressing.records.counts import PieceCount
from addressing.records.docket import Docket
from addressing.records.guests import Household
from addressing.records.pages import Setting
from addressing.records.pieces import household_of
from addressing.records.plates import Layer, PlateOrder
from addressing.records.runs import RunOrder, Standing
from addressing.records.set_pieces import households_of, picked
from addressing.records.shelf import Device, Press, Shop
from addressing.records.shops import Exchange, FileRules
from addressing.typesetting import chokes
from addressing.version import VERSION
from addressing.where import Where


def rules_of(press: Press | None) -> FileRules:
    """How files are wanted where a job is printed; at home, as we like them ourselves."""
    return press.files if isinstance(press, Shop) else FileRules()


def run_of(reading: Reading, kind: SetKind | None = None) -> RunOrder:
    """The order of print: by the docket's rule, in the device's loads, turned for its exit.

    Of a `kind` that shares sheets, a load is of sheets, and they go in their own order.
    """
    docket, press = reading.docket, reading.press
    batch = docket.run.batch
    if batch is None and isinstance(press, Device):
        batch = press.load
    home = home_of(docket)
    load = rules_of(press).most_pages or batch or None
    sheets = kind.sheets if kind is not None else None
    return RunOrder(
        order=docket.run.order,
        load=load * sheets.up if load and sheets is not None else load,
        reverse=isinstance(press, Device) and press.feed.exit == "face-up" and sheets is None,
        first=reading.start,
        standings=tuple(_standing(each, home) for each in reading.guest_list.households),
    )


def _standing(household: Household, home: str) -> Standing:
    address = household.address
    country = address.country.text if address is not None and address.country else home
    postcode = address.postcode.text if address is not None and address.postcode else ""
    return Standing(household.key, country != home, postcode)


INK = 40
"""Characters of an ink's name in a file's: names must not outgrow what file systems take."""

Ordered = tuple[PlateOrder, Setting]
"""A plate's order, and what is set on it."""


def to_print(setting: Setting, held: frozenset[str]) -> Setting:
    """The setting without the households that wait, or that a later wave has."""
    printed = (
        place
        for place, key in enumerate(households_of(setting.pieces))
        if key is None or household_of(key) not in held
    )
    return replace(setting, pieces=picked(setting.pieces, printed))


def job_orders(
    reading: Reading, counts: Sequence[PieceCount]
) -> Iterator[tuple[SetKind, Setting, tuple[Ordered, ...]]]:
    """Every kind that is printed now, what is set of it, and the orders of its plates.

    Kinds that share a plate come one after the other; their orders have its name.

    Raises:
        Fault: as `exchange_of`, `is_live` and `sharing_of` (exit 3).
    """
    number = 1
    for group in groups(reading.kinds):
        first, number = (
            number,
            number + max(len(_runs(group[0].setting, rules_of(reading.press))), 1),
        )
        printed = []
        for kind in group:
            setting = to_print(kind.setting, reading.off_plates)
            run = run_of(reading, kind)
            setting = replace(setting, pieces=in_order(setting.pieces, run))
            if setting.pieces and not (kind.static and reading.hosts_wait):
                count = next(count for count in counts if count.kind == kind.kind)
                most = (run.load if not kind.static else None) or max(len(setting.pieces), 1)
                printed.append((kind, setting, most, count.needed + count.overs))
        sharing = sharing_of(printed) if printed else None
        for kind, setting, _, copies in printed:
            orders = orders_for(first, kind, setting, sharing or copies, reading)
            yield kind, setting, tuple(orders)


def orders_for(
    number: int, kind: SetKind, setting: Setting, copies: int | Sharing, reading: Reading
) -> Iterator[Ordered]:
    """The orders of a kind's plates with what is set on each, in order of print.

    `number` is the first one's in the order of print. Each ink has plates of its own, all with the
    same pages, the base before the others; only a part without anything in an ink has none in it.
    Where the shop wants composites, all inks are layers of one. A shop's rules name the files and
    say how many pages each may have, a device's load does at home; every part but the last has as
    many as it may. Of what is the same for all, and several on a sheet, so many sheets are printed
    as that takes: `copies` are wanted, or the kind is on each part of what it shares.
    """
    rules = rules_of(reading.press)
    runs = _runs(setting, rules)
    exchange, live = exchange_of(rules, reading.docket), is_live(reading)
    pattern = rules.name
    if len(runs) > 1 and "{ink}" not in pattern:
        pattern += "-{ink}"
    pieces, run = setting.pieces, run_of(reading, kind)
    each = kind.sheets.each if kind.sheets is not None else 1
    most = (run.load if not kind.static else None) or max(len(pieces), 1)
    if isinstance(copies, Sharing):
        sharing = copies
    else:
        parts = -(-len(pieces) // most)
        sharing = Sharing(kind.kind, (0,) * parts, -(-copies // each) if kind.static else 1)
    turned = run_of(reading).reverse and (not kind.static or any(sharing.sheets))
    for at, layers in enumerate(runs):
        for part, least in enumerate(sharing.sheets):
            own = pieces if kind.static else pieces[part * most : (part + 1) * most]
            share = replace(setting, pieces=own)
            laid = sharing.laid[part] if sharing.laid else share.laid
            if not own or not any(layer.ink in laid for layer in layers):
                continue
            parted = (part + 1, len(sharing.sheets))
            spots = " ".join(layer.ink.spot for layer in layers)
            yield (
                PlateOrder(
                    name=plate_name(pattern, number + at, sharing.piece, spots, parted),
                    kind=kind.kind,
                    ink=layers[0].ink,
                    trim=(setting.layout.width, setting.layout.height),
                    households=households_of(own),
                    copies=sharing.copies,
                    version=VERSION,
                    lay=kind.lay,
                    first=1 if kind.static else run.first + part * most,
                    reverse=run.reverse and not kind.static,
                    bleed=rules.bleed if kind.sheets is None else 0.0,
                    exchange=exchange,
                    sheets=kind.sheets and replace(kind.sheets, reverse=turned, least=least),
                    chokes=layers[0].chokes,
                    varnish=layers[0].varnish,
                    layers=layers if len(layers) > 1 else (),
                    press=reading.press.key if reading.press is not None else None,
                    stock=kind.stock.key,
                    live=live,
                ),
                share,
            )


def _runs(setting: Setting, rules: FileRules) -> tuple[tuple[Layer, ...], ...]:
    """The files of a setting in order of print: one for each ink, or one for all.

    A composite has every ink that was chosen, so that all files of a kind are in the same ones.
    """
    base, coat = setting.underbase, setting.varnish
    whole = tuple(
        Layer(
            ink,
            chokes(setting) if base is not None and ink == base.ink else (),
            varnish=coat is not None and ink == coat.ink,
        )
        for ink in setting.chosen
    )
    if is_composite(setting, rules):
        return (whole,)
    return tuple((layer,) for layer in whole if layer.ink in setting.laid)


def is_composite(setting: Setting, rules: FileRules) -> bool:
    """True where one file holds several inks."""
    return rules.plates == "composite" and len(setting.chosen) > 1


def exchange_of(rules: FileRules, docket: Docket) -> Exchange | None:
    """What a PDF/X-4 file says of itself; None for a plain one.

    Raises:
        Fault: the shop wants PDF/X-4, which is dated, and the docket has no date (exit 3).
    """
    if rules.intent is None:
        return None
    if docket.date is None:
        raise Fault(
            Exit.INPUT,
            "date-missing",
            "The shop wants PDF/X-4, which bears a date, and this job has none.",
            'Give it in the docket, [job] date = "2026-05-30", or with --date.',
            Where(docket.path or "docket", None, "docket:job.date"),
        )
    return Exchange(rules.intent, docket.date)


def plate_name(pattern: str, number: int, piece: str, ink: str, part: tuple[int, int]) -> str:
    """A plate's name by a pattern; what it needs to be told apart is added when it isn't there.

    >>> plate_name("{number}-{piece}-{ink}", 1, "outer", "FP White", (2, 3))
    '01-outer-fp-white-b02'
    >>> plate_name("FP_{piece}_{part}of{parts}", 1, "outer", "FP White", (2, 3))
    'FP_outer_02of03'
    """
    which, parts = part
    told = {
        "number": f"{number:02d}",
        "piece": piece,
        "ink": "-".join(ink.lower().split())[:INK].rstrip("-"),
    }
    told |= {"part": f"{which:02d}", "parts": f"{parts:02d}"}
    name = pattern.format(**told)
    return f"{name}-b{which:02d}" if parts > 1 and "{part}" not in pattern else name
