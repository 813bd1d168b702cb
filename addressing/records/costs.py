"""What it costs to print: the runs, the parts of each way's price, the plan, the quote."""

from dataclasses import dataclass, replace
from decimal import Decimal

WORKDAY = 6 * 60
"""Minutes of steady work in a day (common practice, no source)."""


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
    dies: "tuple[tuple[str, Part], ...]" = ()
    """What its plates or dies cost at a shop, by the place's key."""

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
class Backup:
    """What to do when a place (its key) is closed: the cheapest plan of all that goes elsewhere.

    `stranded` kinds go nowhere else; `plan` is None where none goes.
    """

    closed: str
    plan: Plan | None
    stranded: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Untried:
    """An ink that was never on this paper and layout at this place (by keys), for which piece."""

    kind: str
    place: str
    ink: str
    stock: str
    layout: str


@dataclass(frozen=True, slots=True)
class Cheaper:
    """At a shop (its key) `more` of a kind cost less than the `fewer` that are needed."""

    kind: str
    place: str
    fewer: int
    fewer_cost: Decimal
    more: int
    more_cost: Decimal


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
