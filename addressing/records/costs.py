"""What it costs to print: the user's rates, the parts of each way's price, the plan."""

from dataclasses import dataclass, replace
from decimal import Decimal

WORKDAY = 6 * 60
"""Minutes of steady work in a day (common practice, no source)."""


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
    """Digits behind the point in which the currency is paid (ISO 4217)."""
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
class Run:
    """One kind of piece to be printed: how many, and how much ink, measured on its plate (mm²).

    `stock` is how many envelopes are bought for it, overs in them: 0 for what is printed on
    another kind's (the return on the outer's flap).
    """

    kind: str
    layout: str
    quantity: int
    stock: int
    inks_laid: tuple[tuple[str, float], ...] = ()
    """(ink's key, mm²) of the whole run, each as often as it is laid down."""
    hits: int = 1
    """How often each piece goes through: for each ink once, or as often as it is laid down."""
    inks: int = 1
    """How many plates it takes."""
    static: bool = False
    """The same for all."""
    on: "OnSheets | None" = None
    """How several lie on a sheet; None where each piece is fed by itself."""
    shared: tuple[str, ...] = ()
    """The other kinds on its sheets, priced with it."""
    suite: bool = False
    """A piece without a plate of ours: only shops that price it print it."""
    dry: int = 0
    """Days between two hits at home."""

    @property
    def ink_area(self) -> float:
        """The area of all inks together, in mm²."""
        return sum(area for _, area in self.inks_laid)

    def inks_for(self, quantity: int) -> tuple[tuple[str, float], ...]:
        """The inks' areas for another number of pieces."""
        share = quantity / max(self.quantity, 1)
        return tuple((ink, area * share) for ink, area in self.inks_laid)

    @property
    def fed(self) -> int:
        """How many pieces or sheets go through for each hit, but for what is spoiled."""
        return self.on.sheets if self.on is not None else self.quantity


@dataclass(frozen=True, slots=True)
class OnSheets:
    """So many sheets, bought with their overs as `paper`; printed on `sides`, cut when done."""

    sheets: int
    stock: int
    paper: str
    sides: int = 1

    def scaled(self, number: int, here: int) -> "OnSheets":
        """As many sheets as `number` pieces take where `here` of them take these."""
        sheets, stock = (-(-each * number // max(here, 1)) for each in (self.sheets, self.stock))
        return replace(self, sheets=sheets, stock=stock)


@dataclass(frozen=True, slots=True)
class Part:
    """One part of a price: what it is, how much, and the sum in words."""

    name: str
    amount: Decimal
    why: str


@dataclass(frozen=True, slots=True)
class Offer:
    """What one place asks for one kind of piece; `why_not` says why it can't be done there."""

    kind: str
    place: str
    title: str
    home: bool
    parts: tuple[Part, ...] = ()
    minutes: int = 0
    """The designer's own time."""
    why_not: str | None = None
    rest: int = 0
    """Minutes that the device rests between batches."""
    between: int = 0
    """Days that hits dry before the next goes over them."""

    @property
    def feasible(self) -> bool:
        """True when the place can do it."""
        return self.why_not is None

    @property
    def total(self) -> Decimal:
        """The sum of the parts."""
        return sum((part.amount for part in self.parts), Decimal(0))


@dataclass(frozen=True, slots=True)
class Place:
    """A device or shop of the rates: what using it at all costs, once, and how long it takes."""

    key: str
    title: str
    parts: tuple[Part, ...]
    days: int
    """Until a shop is done; at home days come of the minutes."""
    home: bool = False
    minutes: int = 0
    """At home: to set up and back."""

    @property
    def fixed(self) -> Decimal:
        """What is paid once, however much is printed there."""
        return sum((part.amount for part in self.parts), Decimal(0))


@dataclass(frozen=True, slots=True)
class Plan:
    """Where each kind is printed: the offers taken, the places used, all in all."""

    offers: tuple[Offer, ...]
    places: tuple[Place, ...]

    @property
    def total(self) -> Decimal:
        """All that the plan costs."""
        offers = sum((offer.total for offer in self.offers), Decimal(0))
        return offers + sum((place.fixed for place in self.places), Decimal(0))

    @property
    def days(self) -> int:
        """Until all is printed: shops work side by side, at home two hands do it all in turn."""
        shops = max((place.days for place in self.places if not place.home), default=0)
        return max(shops, self.home_days)

    @property
    def home_days(self) -> int:
        """Whole days of work at home, those between hits too; 0 where nothing is printed there."""
        used = {place.key for place in self.places if place.home}
        mine = [offer for offer in self.offers if offer.place in used]
        minutes = sum(offer.minutes + offer.rest for offer in mine)
        minutes += sum(place.minutes for place in self.places if place.home)
        return -(-minutes // WORKDAY) + max((offer.between for offer in mine), default=0)


@dataclass(frozen=True, slots=True)
class Untried:
    """An ink that was never on this paper and layout at this place (by keys), for which piece."""

    kind: str
    place: str
    ink: str
    stock: str
    layout: str


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


@dataclass(frozen=True, slots=True)
class Extras:
    """What comes on top of the pieces: hours on the list, changes after approval, a rush."""

    hours: Decimal = Decimal(0)
    changes: int = 0
    rush: bool = False


@dataclass(frozen=True, slots=True)
class Quote:
    """A price to the client: its parts, before tax, the tax, in all, and the deposit."""

    parts: tuple[Part, ...]
    net: Decimal
    tax: Decimal
    total: Decimal
    deposit: Decimal
    unpriced: tuple[str, ...] = ()
    """What is delivered without a fee that the rates state: it isn't in the price."""


@dataclass(frozen=True, slots=True)
class CostLine:
    """What printing everything one way costs, by the number of envelopes: `costs[n]` for n + 1.

    Infinity where it can't be had: fewer than a shop takes an order for.
    """

    title: str
    costs: tuple[Decimal, ...]


@dataclass(frozen=True, slots=True)
class CostPicture:
    """Cost against quantity for each way.

    `crossings` are (quantity, index of the way that is cheapest from there on); `here` is the
    job's own number of envelopes.
    """

    lines: tuple[CostLine, ...]
    crossings: tuple[tuple[int, int], ...]
    here: int
    currency: str
    invented: bool
