"""The user's prices: `rates.toml` beside the docket, else the packaged invented example."""

import re
from collections.abc import Iterable, Iterator
from decimal import Decimal
from pathlib import Path
from typing import Annotated

from babel.numbers import get_currency_precision, is_currency
from pydantic import Field

from addressing.materials.amounts import Amount, Less, Percent, Share
from addressing.materials.days import Day
from addressing.materials.key_places import Loc
from addressing.materials.nearest import did_you_mean
from addressing.materials.reading import Entry, Problem, checked, read_toml, wrong
from addressing.records.rates import (
    MOST_PLACES,
    Cartridge,
    EnvelopePrice,
    Fees,
    HomeRates,
    PiecePrice,
    Rates,
    Rush,
    ShopRates,
)

Minutes = Annotated[int, Field(ge=0, le=10_000)]
Name = Annotated[str, Field(min_length=1)]


class LabourEntry(Entry):
    """The designer's own time."""

    per_hour: Amount
    cut_minutes_per_hundred: Minutes = 0


class EnvelopesEntry(Entry):
    """A pack of envelopes."""

    layout: Name
    pack: int = Field(ge=1, le=100_000)
    price: Amount


class PaperEntry(Entry):
    """A pack of sheets on which cards are printed."""

    stock: Name
    sheet: Name
    pack: int = Field(ge=1, le=100_000)
    price: Amount


class BoughtEntry(Entry):
    """A piece of the suite that is bought in packs."""

    name: Name
    pack: int = Field(ge=1, le=100_000)
    price: Amount


class CartridgeEntry(Entry):
    """The cartridge of one ink."""

    ink: Name
    price: Amount
    pages: int = Field(ge=1, le=1_000_000)


class DeviceEntry(Entry):
    """A home device."""

    name: Name
    cartridge_price: Amount
    cartridge_pages: int = Field(ge=1, le=1_000_000)
    wear: Amount = "0"
    set_up_minutes: Minutes = 0
    adjust_minutes: Minutes = 0
    minutes_per_hundred: Minutes = 0
    spoilage_percent: Percent = "0"
    cartridge: list[CartridgeEntry] = Field(default_factory=list)


class BreakEntry(Entry):
    """A price from so many on."""

    from_: int = Field(alias="from", ge=1, le=1_000_000)
    each: Amount


class PieceEntry(Entry):
    """What a shop asks for one kind, or one piece of the suite."""

    name: Name
    set_up: Amount = "0"
    breaks: list[BreakEntry] = Field(min_length=1)
    minimum: Amount = "0"


class DieEntry(Entry):
    """What a shop asks for plates or dies of a method."""

    method: Name
    per_cm2: Amount


class ShopEntry(PieceEntry):
    """A shop."""

    die: list[DieEntry] = Field(default_factory=list)
    piece: list[PieceEntry] = Field(default_factory=list)
    rush_percent: Percent | None = None
    rush_days: int | None = Field(default=None, ge=0, le=365)
    shipping: Amount = "0"
    attention_minutes: Minutes = 0
    days: int = Field(default=0, ge=0, le=365)
    spoilage_percent: Percent = "0"
    under_percent: Less = "0"


class FeesEntry(Entry):
    """What the designer asks of a client."""

    pieces: dict[str, Amount] = Field(min_length=1)
    tidying: Amount = "0"
    hour: Amount = "0"
    change: Amount = "0"
    minimum: Amount = "0"
    rush_percent: Percent = "0"
    deposit_percent: Share = "0"
    tax_percent: Percent = "0"

    def fees(self) -> Fees:
        """The record."""
        return Fees(
            pieces=tuple((kind, Decimal(each)) for kind, each in self.pieces.items()),
            tidying=Decimal(self.tidying),
            hour=Decimal(self.hour),
            change=Decimal(self.change),
            minimum=Decimal(self.minimum),
            rush_percent=Decimal(self.rush_percent),
            deposit_percent=Decimal(self.deposit_percent),
            tax_percent=Decimal(self.tax_percent),
        )


class RatesFile(Entry):
    """The whole file."""

    currency: str
    as_of: Day
    labour: LabourEntry
    envelopes: list[EnvelopesEntry] = Field(default_factory=list)
    paper: list[PaperEntry] = Field(default_factory=list)
    bought: list[BoughtEntry] = Field(default_factory=list)
    device: list[DeviceEntry] = Field(default_factory=list)
    shop: list[ShopEntry] = Field(default_factory=list)
    fees: FeesEntry | None = None


def read_rates(
    path: Path,
    devices: Iterable[str],
    shops: Iterable[str],
    inks: Iterable[str],
    *,
    invented: bool = False,
) -> Rates:
    """The rates in a TOML file; `devices`, `shops`, `inks` are the names that the shelf knows.

    Raises:
        Fault: exit 3, `rates-…`: it can't be read, a currency or place is unknown, price breaks
            don't rise or the first isn't from 1, or something stands twice.
    """
    source = read_toml("rates", path)
    entry = checked(RatesFile, source)
    problems = [*_problems(entry, list(devices), list(shops), list(inks))]
    if problems:
        raise wrong(source, problems)
    return Rates(
        currency=entry.currency,
        digits=get_currency_precision(entry.currency),
        as_of=entry.as_of,
        per_hour=Decimal(entry.labour.per_hour),
        homes=tuple(_home(each) for each in entry.device),
        shops=tuple(_shop(each) for each in entry.shop),
        envelopes=tuple(
            EnvelopePrice(each.layout, each.pack, Decimal(each.price)) for each in entry.envelopes
        ),
        fees=entry.fees.fees() if entry.fees else None,
        invented=invented,
        papers=tuple(
            EnvelopePrice(f"{each.stock} {each.sheet}", each.pack, Decimal(each.price))
            for each in entry.paper
        ),
        bought=tuple(
            EnvelopePrice(each.name, each.pack, Decimal(each.price)) for each in entry.bought
        ),
        cut_per_hundred=entry.labour.cut_minutes_per_hundred,
    )


def _problems(
    entry: RatesFile, devices: list[str], shops: list[str], inks: list[str]
) -> Iterable[Problem]:
    if not (re.fullmatch("[A-Z]{3}", entry.currency) and is_currency(entry.currency)):
        mend = 'give the three letters of ISO 4217, such as "USD".'
        yield Problem(("currency",), f'"{entry.currency}" is no currency.', mend)
    yield from _unknown(("device",), "name", [each.name for each in entry.device], devices)
    yield from _unknown(("shop",), "name", [each.name for each in entry.shop], shops)
    yield from _twice(("envelopes",), "layout", [each.layout for each in entry.envelopes])
    yield from _twice(("bought",), "name", [each.name for each in entry.bought])
    if (places := len(entry.device) + len(entry.shop)) > MOST_PLACES:
        text = f"it has {places} devices and shops; {MOST_PLACES} can be held against each other."
        mend = "take out those that this job won't be printed at."
        yield Problem(("shop",) if entry.shop else ("device",), text, mend)
    for place, device in enumerate(entry.device):
        names = [each.ink for each in device.cartridge]
        yield from _unknown(("device", place, "cartridge"), "ink", names, inks)
    for place, shop in enumerate(entry.shop):
        yield from _breaks(shop, ("shop", place))
        methods = [each.method for each in shop.die]
        yield from _twice(("shop", place, "die"), "method", methods)
        for at, piece in enumerate(shop.piece):
            loc = ("shop", place, "piece", at)
            yield from _breaks(piece, loc)
            if piece.name in [each.name for each in shop.piece[:at]]:
                yield Problem((*loc, "name"), f'"{piece.name}" stands there twice.', "keep one.")
        if (shop.rush_percent is None) != (shop.rush_days is None):
            text = "a rush has a percentage and its days, and one of the two is missing."
            mend = "write rush_percent and rush_days, or neither."
            yield Problem(("shop", place), text, mend)


def _breaks(entry: PieceEntry, loc: Loc) -> Iterator[Problem]:
    """Price breaks that don't begin with one, or don't rise."""
    starts = [each.from_ for each in entry.breaks]
    if starts[0] != 1 or starts != sorted(set(starts)):
        mend = "begin with from = 1, and let each next one be larger."
        yield Problem((*loc, "breaks"), "the breaks are out of order.", mend)


def _unknown(loc: Loc, key: str, names: list[str], known: list[str]) -> Iterable[Problem]:
    """Names in a list of entries that the shelf doesn't have, or that stand there twice."""
    what = key if key != "name" else loc[-1]
    for place, name in enumerate(names):
        if name not in known:
            text = f'there is no {what} "{name}" on the shelf.'
            yield Problem((*loc, place, key), text, did_you_mean(name, known))
    yield from _twice(loc, key, names)


def _twice(loc: Loc, key: str, names: list[str]) -> Iterable[Problem]:
    for place, name in enumerate(names):
        if name in names[:place]:
            yield Problem((*loc, place, key), f'"{name}" stands there twice.', "keep one.")


def _home(entry: DeviceEntry) -> HomeRates:
    return HomeRates(
        place=entry.name,
        cartridge_price=Decimal(entry.cartridge_price),
        cartridge_pages=entry.cartridge_pages,
        wear=Decimal(entry.wear),
        set_up=entry.set_up_minutes,
        adjust=entry.adjust_minutes,
        per_hundred=entry.minutes_per_hundred,
        spoilage=Decimal(entry.spoilage_percent),
        cartridges=tuple(
            Cartridge(each.ink, Decimal(each.price), each.pages) for each in entry.cartridge
        ),
    )


def _piece(entry: PieceEntry) -> PiecePrice:
    breaks = tuple((each.from_, Decimal(each.each)) for each in entry.breaks)
    return PiecePrice(entry.name, Decimal(entry.set_up), breaks, Decimal(entry.minimum))


def _shop(entry: ShopEntry) -> ShopRates:
    own, percent, days = _piece(entry), entry.rush_percent, entry.rush_days
    return ShopRates(
        place=entry.name,
        set_up=own.set_up,
        breaks=own.breaks,
        minimum=own.minimum,
        shipping=Decimal(entry.shipping),
        attention=entry.attention_minutes,
        days=entry.days,
        spoilage=Decimal(entry.spoilage_percent),
        under=Decimal(entry.under_percent),
        pieces=tuple(_piece(each) for each in entry.piece),
        dies=tuple((each.method, Decimal(each.per_cm2)) for each in entry.die),
        rush=Rush(Decimal(percent), days) if percent is not None and days is not None else None,
    )
