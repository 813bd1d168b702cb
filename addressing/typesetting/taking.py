"""Which wording of a piece is taken at a size, and where its lines are broken."""

import itertools
from collections.abc import Iterator
from dataclasses import dataclass

from addressing.records.pages import hand_of
from addressing.records.pieces import Line, Piece
from addressing.typesetting.measuring import Gauge, Part

SLACK = 1e-9
"""For sums of floats only: a billionth of a point."""

MOST_BREAKS = 2
"""A line in more than three parts is no line of an address; such words need another hand."""


@dataclass(frozen=True, slots=True)
class Taken:
    """The wording that was taken, and its lines as they are broken."""

    wording: int
    parts: tuple[Part, ...]
    broken: tuple[str, ...] = ()
    """The lines, whole, that had to be broken."""


def worded(piece: Piece, number: int, gauge: Gauge) -> tuple[Part, ...]:
    """The lines of a wording as they stand; lines without words fall away."""
    lines = enumerate(piece.wordings[number].lines)
    if not gauge.several:
        return tuple([(line.text, source, 0) for source, line in lines if line.text.strip()])
    return tuple(
        [(line.text, source, hand_of(line.role)) for source, line in lines if line.text.strip()]
    )


def take(piece: Piece, gauge: Gauge, size: float) -> Taken | None:
    """The first wording that fits the room at a size; None when none does.

    In this order: each wording as it stands, best first; then each wording with the lines that
    are too wide broken, at the best offsets at which their parts fit.
    """
    for number in range(len(piece.wordings)):
        parts = worded(piece, number, gauge)
        if _fits(parts, gauge, size):
            return Taken(number, parts)
    for number in range(len(piece.wordings)):
        taken = _take_broken(piece, number, gauge, size)
        if taken is not None and _fits(taken.parts, gauge, size):
            return taken
    return None


def _fits(parts: tuple[Part, ...], gauge: Gauge, size: float) -> bool:
    """Whether lines fit; words that can't be set at all never do."""
    fits = gauge.limit(parts) >= size - SLACK
    flawed = gauge.flawed
    return fits and not (flawed and any((text, hand) in flawed for text, _, hand in parts))


def _take_broken(piece: Piece, number: int, gauge: Gauge, size: float) -> Taken | None:
    parts: list[Part] = []
    broken: list[str] = []
    for whole in worded(piece, number, gauge):
        if gauge.width_limit(whole, len(parts)) >= size - SLACK:
            parts.append(whole)
            continue
        pieces = _break(piece.wordings[number].lines[whole[1]], whole, gauge, size, len(parts))
        if pieces is None:
            return None
        broken.append(whole[0])
        parts += pieces
    return Taken(number, tuple(parts), tuple(broken))


def _break(
    line: Line, whole: Part, gauge: Gauge, size: float, above: int
) -> tuple[Part, ...] | None:
    """The best division of a line whose parts all fit; `above` lines stand above it."""
    for texts in _divisions(line):
        parts = tuple((text, *whole[1:]) for text in texts)
        limits = (gauge.width_limit(part, above + number) for number, part in enumerate(parts))
        if all(limit >= size - SLACK for limit in limits):
            return parts
    return None


def _divisions(line: Line) -> Iterator[tuple[str, ...]]:
    """The ways to divide a line: at one offset, best first, then at two."""
    for count in range(1, MOST_BREAKS + 1):
        for offsets in itertools.combinations(line.breaks, count):
            edges = (0, *sorted(offsets), len(line.text))
            parts = tuple(
                line.text[start:end].strip(" ") for start, end in itertools.pairwise(edges)
            )
            if all(parts):
                yield parts
