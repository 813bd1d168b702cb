"""What an assembled envelope weighs, how thick it is, and what the post asks for it."""

from dataclasses import dataclass
from decimal import Decimal

GRAMS_PER_OUNCE = 28.349523125
"""The avoirdupois ounce, exact by definition (international yard and pound, 1959)."""


@dataclass(frozen=True, slots=True)
class SuitePiece:
    """One thing in the envelope: of paper, or weighed (`grams`) where it is none.

    Sizes in mm, unfolded; `paper` as people write it ("120 lb cover", "350 gsm"); `caliper` in
    thousandths of an inch. Folded, it lies `layers` sheets thick. `stiff` bends badly, `uneven`
    makes a lump (seal, ribbon). It is bought in packs of `pack`. A `liner` without a size is cut to
    the outer envelope. What goes back in the reply envelope is marked as `reply`.
    `only` names suites or rounds of the list, "home" or "abroad", for whom alone it is; () is for
    everybody. `shop` prints it; None is the job's own.
    """

    name: str
    width: float = 0.0
    height: float = 0.0
    paper: str = ""
    caliper: float = 0.0
    count: int = 1
    grams: float | None = None
    stiff: bool = False
    uneven: bool = False
    pack: int = 1
    liner: bool = False
    layers: int = 1
    reply: bool = False
    only: tuple[str, ...] = ()
    shop: str | None = None


@dataclass(frozen=True, slots=True)
class Assembly:
    """One assembled envelope: grams, thickness in mm, and what each piece weighs."""

    grams: float
    thickness: float
    parts: tuple[tuple[str, float], ...]
    stiff: bool
    uneven: bool

    @property
    def ounces(self) -> float:
        """The weight in ounces."""
        return self.grams / GRAMS_PER_OUNCE


@dataclass(frozen=True, slots=True)
class PostClass:
    """Prices of one class: (up to so many ounces, price), rising; and the surcharge."""

    name: str
    steps: tuple[tuple[float, Decimal], ...]
    nonmachinable: Decimal = Decimal(0)


@dataclass(frozen=True, slots=True)
class PostRates:
    """The user's table of postage: at home, to countries of their own (ISO 3166-1), elsewhere.

    `stamps` are the values of the stamps that they use, () where they didn't say.
    """

    currency: str
    as_of: str
    home: tuple[PostClass, ...]
    abroad: tuple[PostClass, ...]
    invented: bool = False
    countries: tuple[tuple[str, tuple[PostClass, ...]], ...] = ()
    stamps: tuple[Decimal, ...] = ()

    def classes(self, destination: str) -> tuple[PostClass, ...]:
        """The classes to "home", to a country that has rates of its own, else abroad."""
        return (
            self.home
            if destination == "home"
            else dict(self.countries).get(destination, self.abroad)
        )


@dataclass(frozen=True, slots=True)
class Postage:
    """What one envelope needs: class, price, the surcharge's reasons, room to the next step."""

    destination: str
    post_class: str
    price: Decimal
    reasons: tuple[str, ...]
    room: float
    """Grams to the next price."""
    near: bool
    """True when a scale may well read the next price."""
    stamps: tuple[Decimal, ...] = ()
    """The stamps that make up the price, the dearest first; () where none are known."""
