"""The form of a glyph: its outline in font units, filled by the nonzero rule."""

import math
from collections.abc import Sequence

from addressing.plates.numbers import numbers
from addressing.records.pages import Segment


def form_operators(outline: Sequence[Segment]) -> bytes:
    """The drawing operators of a glyph, one a line, and the fill (nonzero) at the end."""
    lines = [
        f"{numbers(values)} {operator}" if values else operator for operator, values in outline
    ]
    return "\n".join([*lines, "f\n"]).encode("ascii")


def form_box(outline: Sequence[Segment]) -> tuple[int, int, int, int]:
    """The smallest box of whole numbers that holds every point of an outline, controls too."""
    xs = [round(value, 3) for _, values in outline for value in values[0::2]]
    ys = [round(value, 3) for _, values in outline for value in values[1::2]]
    return math.floor(min(xs)), math.floor(min(ys)), math.ceil(max(xs)), math.ceil(max(ys))
