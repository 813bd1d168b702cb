"""Which wording of a piece is taken at a size, and where its lines are broken."""

import itertools
from collections.abc import Iterator
from dataclasses import dataclass

from addressing.records.pieces import Line, Piece
from addressing.typesetting.measuring import Gauge

SLACK = 1e-9
"""For sums of floats only: a billionth of a point."""

MOST_BREAKS = 2
"""A line in more than three parts is no line of an address; such words need another hand."""


@dataclass(frozen=True, slots=True)
class Taken:
    """The wording that was taken: `parts` are (words, number of the worded line)."""

    wording: int
    parts: tuple[tuple[str, int], ...]
    broken: tuple[str, ...] = ()
    """The lines, whole, that had to be broken."""


def worded(piece: Piece, number: int) -> tuple[tuple[str, int], ...]:
    """The lines of a wording as they stand; lines without words fall away."""
    lines = enumerate(piece.wordings[number].lines)
    return tuple((line.text, source) for source, line in lines if line.text.strip())


def take(piece: Piece, gauge: Gauge, size: float) -> Taken | None:
    """The first wording that fits the room at a size; None when none does.

    In this order: each wording as it stands, best first; then each wording with the lines that
    are too wide broken, at the best offsets at which their parts fit.
    """
    for number in range(len(piece.wordings)):
        parts = worded(piece, number)
        if _fits(parts, gauge, size):
            return Taken(number, parts)
    for number in range(len(piece.wordings)):
        taken = _take_broken(piece, number, gauge, size)
        if taken is not None and _fits(taken.parts, gauge, size):
            return taken
    return None


def _fits(parts: tuple[tuple[str, int], ...], gauge: Gauge, size: float) -> bool:
    """Whether lines fit; words that can't be set at all never do."""
    texts = [text for text, _ in parts]
    fits = gauge.limit(texts) >= size - SLACK
    return fits and (not gauge.flawed or gauge.flawed.keys().isdisjoint(texts))


def _take_broken(piece: Piece, number: int, gauge: Gauge, size: float) -> Taken | None:
    parts: list[tuple[str, int]] = []
    broken: list[str] = []
    for source, line in enumerate(piece.wordings[number].lines):
        if not line.text.strip():
            continue
        if gauge.width_limit(line.text, len(parts)) >= size - SLACK:
            parts.append((line.text, source))
            continue
        pieces = _break(line, gauge, size, len(parts))
        if pieces is None:
            return None
        broken.append(line.text)
        parts += [(text, source) for text in pieces]
    return Taken(number, tuple(parts), tuple(broken))


def _break(line: Line, gauge: Gauge, size: float, above: int) -> tuple[str, ...] | None:
    """The best division of a line whose parts all fit; `above` lines stand above it."""
    for parts in _divisions(line):
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
