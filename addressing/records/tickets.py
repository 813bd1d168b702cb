"""What a shop is told with the plates: what, how many, on what, by when."""

from dataclasses import dataclass

from addressing.records.shelf import Shop


@dataclass(frozen=True, slots=True)
class TicketPlate:
    """One file: its name, its ink, its pages, the copies of each, the pieces that come of it.

    `hits` says how often ink is laid down on each: of a composite, all its inks together.
    """

    name: str
    ink: str
    pages: int
    copies: int
    prints: int
    hits: int = 1


@dataclass(frozen=True, slots=True)
class TicketItem:
    """One kind of piece. Lengths in points.

    `plates` come in order of print; each of its inks has its own. `stock` is the paper's title,
    `on` the kind on whose envelopes it is printed, where it has none of its own.
    """

    kind: str
    stock: str
    width: float
    height: float
    plates: tuple[TicketPlate, ...]
    on: str | None = None
    sheet: tuple[float, float] | None = None
    """The sheet on which several lie; None where each has a page of its own."""
    method: str | None = None
    """How it is printed, in words; None where nobody said."""
    die: tuple[str, float, float] | None = None
    """The method's key and the size of the ink, where a plate or die is made of it."""

    @property
    def inks(self) -> tuple[str, ...]:
        """Its inks, each a pass of its own."""
        return tuple(dict.fromkeys(plate.ink for plate in self.plates))

    @property
    def passes(self) -> int:
        """How often each piece goes through, or is laid on, for all of its inks."""
        return sum({plate.ink: plate.hits for plate in self.plates}.values())

    @property
    def runs(self) -> int:
        """How many envelopes or sheets go through, for one ink."""
        return max(
            sum(plate.pages * plate.copies for plate in self.plates if plate.ink == ink)
            for ink in self.inks
        )

    @property
    def prints(self) -> int:
        """How many pieces are printed, however many inks they take."""
        return max(
            sum(plate.prints for plate in self.plates if plate.ink == ink) for ink in self.inks
        )


@dataclass(frozen=True, slots=True)
class Ticket:
    """A whole order. `date` is ISO 8601 or None, `proof` the proof's mark."""

    shop: Shop | None
    date: str | None
    proof: str
    version: str
    country: str
    items: tuple[TicketItem, ...]
    cautions: tuple[str, ...] = ()
    """What whoever prints must take care of, in sentences."""
    live: bool = False
    """Whether the files' letters are type of embedded fonts."""
    seal: str | None = None
    """What preflight says of the plates."""


@dataclass(frozen=True, slots=True)
class DataRow:
    """What one page of a plate bears: its file, its number, copies, household's key, lines."""

    plate: str
    page: int
    copies: int
    key: str | None
    lines: tuple[str, ...]
