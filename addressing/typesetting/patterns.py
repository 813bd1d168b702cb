"""What the lines of many pieces have in common, whatever they say: worked out once for all."""

from collections.abc import Sequence
from dataclasses import dataclass

from addressing.records.pages import hand_of
from addressing.records.pieces import Piece, Role


@dataclass(frozen=True, slots=True, eq=False)
class Pattern:
    """Of each line the worded line's number, the hand and the role; one record for equal ones."""

    sources: tuple[int, ...]
    hands: tuple[int, ...]
    roles: tuple[Role, ...]


class Patterns:
    """The patterns of a set."""

    def __init__(self, *, several: bool) -> None:
        """`several` is whether there is more than one hand."""
        self._several = several
        self._whole: dict[tuple[Role, ...], Pattern] = {}
        self._gapped: dict[tuple[tuple[int, Role], ...], Pattern] = {}

    def of(self, piece: Piece) -> tuple[Sequence[str], Pattern]:
        """The lines of the preferred wording as they stand, and their pattern.

        Lines without words fall away.
        """
        lines = piece.wordings[0].lines
        texts = [line.text for line in lines]
        if not all(map(str.strip, texts)):
            return self._of_some(piece)
        roles = tuple([line.role for line in lines])
        known = self._whole.get(roles)
        if known is None:
            known = self._whole[roles] = self._made(tuple(enumerate(roles)))
        return texts, known

    def _of_some(self, piece: Piece) -> tuple[Sequence[str], Pattern]:
        """The same of lines of which some have no words."""
        lines = enumerate(piece.wordings[0].lines)
        told = [(source, line) for source, line in lines if line.text.strip()]
        key = tuple([(source, line.role) for source, line in told])
        known = self._gapped.get(key)
        if known is None:
            known = self._gapped[key] = self._made(key)
        return [line.text for _, line in told], known

    def _made(self, lines: tuple[tuple[int, Role], ...]) -> Pattern:
        hands = tuple(hand_of(role) if self._several else 0 for _, role in lines)
        return Pattern(tuple(s for s, _ in lines), hands, tuple(role for _, role in lines))
