"""How many of each piece are needed and to be ordered."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class PieceCount:
    """One kind of piece: `to_order` is `packs` whole packs of `pack`, at least needed + overs."""

    kind: str
    needed: int
    held: int
    """How many of the needed ones wait for an answer."""
    overs: int
    pack: int
    packs: int
    to_order: int


@dataclass(frozen=True, slots=True)
class Blanks:
    """What the ordered envelopes of a kind become; the three parts are `to_order` together.

    `flap_printed` ones bear the return address and no guest's: late guests match the run.
    `plain` ones fill the last pack.
    """

    addressed: int
    flap_printed: int
    plain: int


@dataclass(frozen=True, slots=True)
class Span:
    """Between how many the need may end, once the client has answered.

    `low` is without the households that are held back; `high` has an envelope more (and what goes
    with it) for each unnamed guest, who may turn out to live elsewhere, and for each "and family",
    whose grown children get their own (common practice, no source). `covered`: the overs would do
    for `high`; `more_packs` are bought beyond the order to have as many overs at `high` too.
    """

    low: int
    high: int
    covered: bool
    more_packs: int
