"""Several cards on one sheet: how many, where, in which order, with which marks."""

from collections.abc import Sequence
from dataclasses import dataclass

ORDERS = ("cut-and-stack", "rows")
"""In which order cards stand on sheets. Cut and stacked, each pile is in order, and so are all
piles laid on each other; in rows, each sheet is, from left to right and from the top down."""


LEAST = 10.0
"""Millimetres around all cards that the marks and the line at the foot need."""

TURNS = ("work-and-turn", "work-and-tumble")
"""How sheets are turned over that bear fronts and backs side by side: over their upright middle
(head stays head), or head to foot. Either way one plate prints both sides."""


@dataclass(frozen=True, slots=True)
class Beside:
    """Another kind of piece on the same sheet, below those before it; None is as many as fit."""

    piece: str
    across: int | None = None
    down: int = 1


@dataclass(frozen=True, slots=True)
class SheetChoice:
    """What a docket says of a kind's sheets; lengths in millimetres.

    `on` is a standard sheet's name, `turned` lays it on its side. `across` and `down` None take as
    many as there is room for. `gutter` is between two trims, `margin` the least around all of them
    (marks stand there); None is as little as marks and press allow. `folds` are measured from a
    card's lower edge. `back` mirrors the columns, for the second side of sheets that are turned
    over their long way. `beside` are other kinds on the same sheets; `behind` is the kind on the
    cards' backs, and `turn`, one of TURNS, how the sheets are turned over then.
    """

    piece: str
    on: str = "letter"
    turned: bool = False
    across: int | None = None
    down: int | None = None
    gutter: float = 0.0
    margin: float | None = None
    order: str = "cut-and-stack"
    folds: tuple[float, ...] = ()
    back: bool = False
    beside: tuple[Beside, ...] = ()
    behind: str | None = None
    turn: str = "work-and-turn"

    @property
    def around(self) -> float:
        """The least around all trims, in millimetres."""
        return LEAST if self.margin is None else self.margin

    @property
    def kinds(self) -> tuple[str, ...]:
        """All kinds on the sheets: its own, those beside it, the one behind it."""
        behind = () if self.behind is None else (self.behind,)
        return (self.piece, *(other.piece for other in self.beside), *behind)


@dataclass(frozen=True, slots=True)
class Block:
    """Equal trims in rows, side by side; as in an `Imposition`."""

    card: tuple[float, float]
    across: int
    down: int
    gutter: float
    corner: tuple[float, float]
    folds: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class Imposition:
    """How cards lie on a sheet; lengths in points.

    Places are counted from the upper left, across first. `corner` is the lower left corner of all
    trims together, `folds` are heights above a card's lower edge.

    With a `turn` each sheet has two pages, one a side, and both have these cards at these places:
    what is a front here (or with `behind` a back) has its other side at the place that meets it
    when the sheet is turned over. Backs mirror the places; tumbled, they lie head to foot.
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

    turn: str = ""
    behind: bool = False
    blocks: tuple[Block, ...] = ()
    """All that lie on the sheet, this one's own too; () where it is alone."""
    least: int = 0
    """How many sheets there are at least, since other kinds on them need so many."""

    @property
    def up(self) -> int:
        """How many cards a page has."""
        return self.across * self.down

    @property
    def each(self) -> int:
        """How many cards come of a sheet."""
        return self.up * (2 if self.turn else 1)

    @property
    def together(self) -> tuple[Block, ...]:
        """All blocks of the sheet, in order."""
        own = Block(self.card, self.across, self.down, self.gutter, self.corner, self.folds)
        return self.blocks or (own,)

    def sheets(self, cards: int) -> int:
        """How many sheets so many cards need."""
        return max(self.least, -(-cards // self.each))

    def pages(self, households: Sequence[str | None]) -> int:
        """How many pages a plate of these cards has; what is the same for all needs one."""
        if tuple(households) == (None,):
            return self.least * (2 if self.turn else 1) or 1
        return self.sheets(len(households)) * (2 if self.turn else 1)
