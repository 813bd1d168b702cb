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
