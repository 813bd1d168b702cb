"""The user's rates: devices, shops, what is bought, and what a client is asked."""

from dataclasses import dataclass, replace
from decimal import Decimal

MOST_PLACES = 12
"""Devices and shops that are held against each other: every set of them is tried (4096)."""


@dataclass(frozen=True, slots=True)
class HomeRates:
    """What a device costs to run. Money in the currency of the rates, times in minutes.

    A cartridge's pages are stated at 5 % coverage of an A4 page (ISO/IEC 19752, 19798, 24711).
    """

    place: str
    cartridge_price: Decimal
    cartridge_pages: int
    wear: Decimal
    """Each pass of an envelope: fuser, drum, rollers."""
    set_up: int
    """Once a run: cartridge, lever, driver, cleaning."""
    adjust: int
    """For each kind of piece: place, trial on plain paper, first envelope."""
    per_hundred: int
    """Feeding and watching a hundred."""
    spoilage: Decimal
    """Per cent of envelopes that are ruined."""
    cartridges: "tuple[Cartridge, ...]" = ()
    """Those of inks whose price or yield is another."""
    load: int = 1
    """What goes into its feed at once: a batch."""
    pause: int = 0
    """Minutes that it rests between two batches."""

    def cartridge(self, ink: str) -> "Cartridge":
        """What an ink (by its key) comes in."""
        usual = Cartridge(ink, self.cartridge_price, self.cartridge_pages)
        return next((each for each in self.cartridges if each.ink == ink), usual)


@dataclass(frozen=True, slots=True)
class Cartridge:
    """An ink's cartridge, by the ink's key: its price, and its pages at 5 % coverage of an A4."""

    ink: str
    price: Decimal
    pages: int


@dataclass(frozen=True, slots=True)
class ShopRates:
    """A shop's prices: `breaks` are (from so many, each), rising; times in minutes and days."""

    place: str
    set_up: Decimal
    """For each plate."""
    breaks: tuple[tuple[int, Decimal], ...]
    minimum: Decimal
    """The least that the shop takes for a plate's run, set-up apart."""
    shipping: Decimal
    attention: int
    """The designer's own minutes for an order: files, proof, checking in."""
    days: int
    spoilage: Decimal
    """Per cent more envelopes that the shop wants sent in."""
    under: Decimal = Decimal(0)
    """Per cent fewer of a static piece that it may deliver (trade custom: 10 over or under)."""
    least: int = 1
    """How many of a kind it takes an order for."""
    pack: int = 1
    """It charges whole packs of so many."""
    pieces: "tuple[PiecePrice, ...]" = ()
    """Pieces that it prices apart, those of the suite among them."""
    rush: "Rush | None" = None
    """What it asks for a rush; None where it takes none."""
    dies: tuple[tuple[str, Decimal], ...] = ()
    """(method, what a cm² of its plate or die costs)."""
    keeps: bool = False
    """Whether it keeps the envelopes beyond the count that it wants sent in."""

    def priced(self, kind: str) -> "ShopRates | None":
        """Its prices for a kind or a piece of the suite; None where it has none of its own."""
        own = next((each for each in self.pieces if each.name == kind), None)
        if own is None:
            return None
        return replace(self, set_up=own.set_up, breaks=own.breaks, minimum=own.minimum)


@dataclass(frozen=True, slots=True)
class PiecePrice:
    """What a shop asks for one kind or one piece of the suite, as in its `ShopRates`."""

    name: str
    set_up: Decimal
    breaks: tuple[tuple[int, Decimal], ...]
    minimum: Decimal


@dataclass(frozen=True, slots=True)
class Rush:
    """A shop's rush: per cent more for set-up and printing, and the days that it takes then."""

    percent: Decimal
    days: int


@dataclass(frozen=True, slots=True)
class EnvelopePrice:
    """Envelopes of a layout come in packs."""

    layout: str
    pack: int
    price: Decimal


@dataclass(frozen=True, slots=True)
class Rates:
    """The user's own prices, as of a date; the packaged ones are an invented example."""

    currency: str
    digits: int
    """Digits behind the point in which the currency is paid today (the CLDR).

    Of a few ISO 4217 has more, whose small coins are gone.
    """
    as_of: str
    per_hour: Decimal
    homes: tuple[HomeRates, ...]
    shops: tuple[ShopRates, ...]
    envelopes: tuple[EnvelopePrice, ...]
    fees: "Fees | None" = None
    invented: bool = False
    papers: tuple[EnvelopePrice, ...] = ()
    """Sheets that cards are printed on; each `layout` is "stock sheet", such as "ivory letter"."""
    bought: tuple[EnvelopePrice, ...] = ()
    """Pieces of the suite that are bought in packs; each `layout` is the piece's name."""
    cut_per_hundred: int = 0
    """The designer's minutes to cut a hundred sheets of cards."""


@dataclass(frozen=True, slots=True)
class Fees:
    """What the designer asks of a client. `pieces` are (kind or "other", each)."""

    pieces: tuple[tuple[str, Decimal], ...]
    tidying: Decimal
    """For each household of the list."""
    change: Decimal
    """For each change after approval."""
    minimum: Decimal
    rush_percent: Decimal
    deposit_percent: Decimal
    tax_percent: Decimal
    hour: Decimal = Decimal(0)
    """For each hour spent on the list, where hours are charged."""
