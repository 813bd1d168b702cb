"""Live type: a face as a plate embeds it, beside the outlines of its letters."""

from collections.abc import Mapping
from dataclasses import dataclass

TYPES = ("outlines", "live")
"""How letters stand on a plate: drawn as outlines, or as type of an embedded font."""


@dataclass(frozen=True, slots=True)
class LiveFace:
    """What an embedded subset of a face says beside its outlines; lengths in font units.

    `name` is the PostScript name without a subset's tag. `units` make an em. `cubic` says whether
    its outlines are cubics (CFF), else they are quadratics (TrueType). `advances` has the width of
    each glyph, `texts` the characters that a glyph stands for, without those that stand for none.
    """

    name: str
    units: int
    cubic: bool
    advances: Mapping[int, int]
    texts: Mapping[int, str]
