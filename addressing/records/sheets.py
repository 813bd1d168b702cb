"""Several cards on one sheet: how many, where, in which order, with which marks."""

from dataclasses import dataclass

ORDERS = ("cut-and-stack", "rows")
"""In which order cards stand on sheets. Cut and stacked, each pile is in order, and so are all
piles laid on each other; in rows, each sheet is, from left to right and from the top down."""


@dataclass(frozen=True, slots=True)
class SheetChoice:
    """What a docket says of a kind's sheets; lengths in millimetres.

    `on` is a standard sheet's name, `turned` lays it on its side. `across` and `down` None take as
    many as there is room for. `gutter` is between two trims, `margin` the least around all of them
    (marks stand there). `folds` are measured from a card's lower edge. `back` mirrors the columns,
    for the second side of sheets that are turned over their long way.
    """

    piece: str
    on: str = "letter"
    turned: bool = False
    across: int | None = None
    down: int | None = None
    gutter: float = 0.0
    margin: float = 15.0
    order: str = "cut-and-stack"
    folds: tuple[float, ...] = ()
    back: bool = False


@dataclass(frozen=True, slots=True)
class Imposition:
    """How cards lie on a sheet; lengths in points.

    Places are counted from the upper left, across first. `corner` is the lower left corner of all
    trims together, `folds` are heights above a card's lower edge.
    """

    sheet: tuple[float, float]
    card: tuple[float, float]
    across: int
    down: int
    gutter: float
    corner: tuple[float, float]
    order: str
    folds: tuple[float, ...] = ()
    back: bool = False
    reverse: bool = False
    """Whether the last sheet is printed first, for an exit that turns the stack round."""

    @property
    def up(self) -> int:
        """How many cards a sheet has."""
        return self.across * self.down

    def sheets(self, cards: int) -> int:
        """How many sheets so many cards need."""
        return -(-cards // self.up)
