"""The weight and thickness of an assembled envelope, from sizes and papers."""

import re
from collections.abc import Sequence
from functools import cache

from addressing.records.postage import Assembly, SuitePiece
from addressing.records.shelf import Layout
from addressing.tables import table
from addressing.units import pt_to_mm

GRAMS_PER_POUND = 453.59237
MM_PER_INCH = 25.4
SHEETS = 500
"""Sheets in a ream, of which a basis weight is stated."""

SEAMS = 1.15
"""An envelope's blank is larger than its two sides and flap: the seams (common practice)."""

DENSITY = 0.75
"""g/cm³ of uncoated paper, where no caliper is given (from memory: 0.7 to 0.85)."""

_WRITTEN = re.compile(
    r"^\s*(?P<number>\d+(?:\.\d+)?)\s*"
    r"(?:(?P<gsm>g/?m2|g/?m²|gsm|grams?)|(?:lb|lbs|pound|#)\.?\s*(?P<kind>[a-z ]+?))\s*$",
    re.IGNORECASE,
)


def grams_per_m2(paper: str) -> float:
    """The weight of a paper as people write it, in g/m².

    >>> round(grams_per_m2("80 lb text"), 1), grams_per_m2("350 gsm")
    (118.4, 350.0)

    Raises:
        ValueError: it isn't written as a weight ("110 lb cover", "300 gsm").
    """
    match = _WRITTEN.match(paper)
    kind = _kinds().get((match["kind"] or "").casefold()) if match else None
    if match is None or (kind is None and not match["gsm"]):
        message = f"“{paper}” is no weight of a paper"
        raise ValueError(message)
    number = float(match["number"])
    if kind is None:
        return number
    area = kind[0] * kind[1] * (MM_PER_INCH / 1000) ** 2
    return number * GRAMS_PER_POUND / (SHEETS * area)


@cache
def _kinds() -> dict[str, tuple[float, float]]:
    """Each word for a kind of paper: the sides of its basis sheet, in inches."""
    return {
        word: (float(row["width_in"]), float(row["height_in"]))
        for row in table("papers")
        for word in row["words"].split("|")
    }


def assemble(envelopes: Sequence[tuple[Layout, str]], pieces: Sequence[SuitePiece]) -> Assembly:
    """One whole piece of mail: envelopes with their papers, and everything in them.

    Raises:
        ValueError: a paper isn't written as a weight.
    """
    parts = [(layout.title, _envelope(layout, paper), _sides(paper)) for layout, paper in envelopes]
    parts += [(piece.name, _weight(piece), _thickness(piece)) for piece in pieces]
    return Assembly(
        grams=sum(grams for _, grams, _ in parts),
        thickness=sum(thickness for _, _, thickness in parts),
        parts=tuple((name, grams) for name, grams, _ in parts),
        stiff=any(piece.stiff for piece in pieces),
        uneven=any(piece.uneven for piece in pieces),
    )


def _envelope(layout: Layout, paper: str) -> float:
    """The weight of an empty envelope: two sides, a flap, and the seams."""
    width, height = pt_to_mm(layout.width), pt_to_mm(layout.height)
    area = width * (2 * height + pt_to_mm(layout.flap_depth)) * SEAMS
    return area / 1e6 * grams_per_m2(paper)


def _sides(paper: str) -> float:
    """An envelope is two sheets thick."""
    return 2 * _sheet(grams_per_m2(paper))


def _sheet(gsm: float) -> float:
    return gsm / DENSITY / 1000


def _weight(piece: SuitePiece) -> float:
    if piece.grams is not None:
        return piece.grams * piece.count
    return piece.width * piece.height / 1e6 * grams_per_m2(piece.paper) * piece.count


def _thickness(piece: SuitePiece) -> float:
    if piece.caliper:
        return piece.caliper / 1000 * MM_PER_INCH * piece.count
    return _sheet(grams_per_m2(piece.paper)) * piece.count if piece.paper else 0.0
