"""Distances that make no sense: which were taken for others, if that is all that is wrong."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import combinations

from addressing.units import pt_to_mm

SURER = 0.5
"""A mix-up is told only if every other would leave at least this much more (mm) unexplained, or
make no sense: two that fit alike tell nothing."""


@dataclass(frozen=True, slots=True)
class Measured:
    """A mark as it came out: millimetres from the left edge and from the top, the words upright."""

    mark: str
    left: float
    top: float


Trying = Callable[[Sequence[Measured]], float | None]
"""The error of a reading (mm) if these were the distances; None where they make no sense either."""


def mixed_up(measured: Sequence[Measured], trim: tuple[float, float], trying: Trying) -> str | None:
    """What was mixed up, in a sentence; None where nothing, or more than one thing, would do."""
    found = [
        (unsure, told)
        for told, other in _others(measured, trim)
        if (unsure := trying(other)) is not None
    ]
    found.sort()
    if not found or (found[1:] and found[1][0] < found[0][0] + SURER):
        return None
    return found[0][1]


def _others(
    measured: Sequence[Measured], trim: tuple[float, float]
) -> Iterator[tuple[str, Sequence[Measured]]]:
    """What may have been measured in truth, each with what to say then."""
    width, height = (pt_to_mm(side) for side in trim)
    fits = "otherwise the distances make no sense."
    yield (
        f"All were measured from the right edge instead of the left, it seems: {fits}",
        [replace(one, left=width - one.left) for one in measured],
    )
    yield (
        f"All were measured from the lower edge instead of the top, it seems: {fits}",
        [replace(one, top=height - one.top) for one in measured],
    )
    yield (
        f"The paper lay head to foot when it was measured, it seems: {fits}",
        [replace(one, left=width - one.left, top=height - one.top) for one in measured],
    )
    yield (
        f"Left and top were given the other way round, it seems: {fits}",
        [replace(one, left=one.top, top=one.left) for one in measured],
    )
    for one, two in combinations(sorted({each.mark for each in measured}), 2):
        names = {one: two, two: one}
        yield (
            f"Marks {one} and {two} were taken for each other, it seems: {fits}",
            [replace(each, mark=names.get(each.mark, each.mark)) for each in measured],
        )
    for at, each in enumerate(measured):
        turned = replace(each, left=each.top, top=each.left)
        yield (
            f"Mark {each.mark} has its two distances the other way round, it seems: {fits}",
            [*measured[:at], turned, *measured[at + 1 :]],
        )
