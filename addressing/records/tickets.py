"""What a shop is told with the plates: what, how many, on what, by when."""

from dataclasses import dataclass

from addressing.records.shelf import Shop


@dataclass(frozen=True, slots=True)
class TicketItem:
    """One kind of piece. Lengths in points.

    `plates` are (file's name, pages, copies of each page), in order of print. `stock` is the
    paper's title, `on` the kind on whose envelopes it is printed, where it has none of its own.
    """

    kind: str
    ink: str
    stock: str
    width: float
    height: float
    plates: tuple[tuple[str, int, int], ...]
    on: str | None = None

    @property
    def prints(self) -> int:
        """How many prints come of it."""
        return sum(pages * copies for _, pages, copies in self.plates)

    @property
    def pages(self) -> int:
        """The pages of all of its files."""
        return sum(pages for _, pages, _ in self.plates)


@dataclass(frozen=True, slots=True)
class Ticket:
    """A whole order. `date` is ISO 8601 or None, `proof` the proof's mark."""

    shop: Shop | None
    date: str | None
    proof: str
    version: str
    country: str
    items: tuple[TicketItem, ...]


@dataclass(frozen=True, slots=True)
class DataRow:
    """What one page of a plate bears: its file, its number, copies, household's key, lines."""

    plate: str
    page: int
    copies: int
    key: str | None
    lines: tuple[str, ...]
