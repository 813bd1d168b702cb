"""How far the baselines of a block stand from each other: each hand's leading, a gap between hands.

Between two lines of one hand stands its leading; between two of different hands the mean of both,
and the gap, so that the eye sees the name and the address as two things.
"""

from collections.abc import Sequence
from itertools import pairwise


class Leading:
    """Leading of each hand and the gap between hands, all in one unit (em or points)."""

    def __init__(self, lines: tuple[float, ...], gap: float) -> None:
        """`lines` is the distance of two baselines of the same hand, for each hand."""
        self.lines = lines
        self.gap = gap
        self._known: dict[tuple[int, ...], tuple[float, ...]] = {}

    def at(self, size: float) -> "Leading":
        """In points, from em, at a size."""
        return Leading(tuple(line * size for line in self.lines), self.gap * size)

    def rounded(self) -> "Leading":
        """To thousandths, as it is printed."""
        return Leading(tuple(round(line, 3) for line in self.lines), round(self.gap, 3))

    def sinks(self, hands: tuple[int, ...]) -> tuple[float, ...]:
        """How far each line's baseline lies below the first one's; `hands` is each line's hand."""
        known = self._known.get(hands)
        if known is None:
            known = self._known[hands] = self._sunk(hands)
        return known

    def _sunk(self, hands: Sequence[int]) -> tuple[float, ...]:
        """A block of one hand goes down by whole leadings, counted and not added up."""
        if len(set(hands)) == 1:
            return tuple(number * self.lines[hands[0]] for number in range(len(hands)))
        sunk = [0.0] if hands else []
        for upper, lower in pairwise(hands):
            step = (self.lines[upper] + self.lines[lower]) / 2
            sunk.append(sunk[-1] + step + (self.gap if upper != lower else 0.0))
        return tuple(sunk)
