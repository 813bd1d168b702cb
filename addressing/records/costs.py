"""What it costs to print: the user's rates, the parts of each way's price, the plan."""

from dataclasses import dataclass
from decimal import Decimal


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
    ink_area: float
    """Of the whole run."""
    hits: int = 1
    """How often each piece goes through: for each ink once, or as often as it is laid down."""
    inks: int = 1
    """How many plates it takes."""
    static: bool = False
    """The same for all."""


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
        """Until the slowest place is done."""
        return max((place.days for place in self.places), default=0)


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
