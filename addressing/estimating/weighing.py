"""The weight and thickness of an assembled envelope, from sizes and papers."""

import re
from collections.abc import Sequence
from dataclasses import replace
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
"""g/cm³ of uncoated paper, where no caliper is given: 75 g/m² are 0.100 mm, 120 g/m² 0.160 mm
(Government Paper Specification Standards 11, 1999, JCP A55, a table of grammage and thickness)."""

PLY = 13.75
"""Thousandths of an inch to a ply: one ply is 12.5 to 15, four are 50 to 60 (S. Saitzyk, Art
Hardware, 1987, on museum board)."""

LINER_IN, LINER_GUM = 6.0, 12.0
"""How much narrower than its envelope a liner is, and what it leaves to the gum, mm (common
practice, no source)."""

_WRITTEN = re.compile(
    r"^\s*(?P<number>\d+(?:\.\d+)?)[\s-]*"
    r"(?:(?P<gsm>g/?m2|g/?m²|gsm|grams?)|(?:lb|lbs|pound|#)\.?\s*(?P<kind>[a-z ]+?)"
    r"|(?P<points>pt|points?)\b[a-z ]*|(?P<ply>ply)\b[a-z ]*)\s*$",
    re.IGNORECASE,
)


def grams_per_m2(paper: str) -> float:
    """The weight of a paper as people write it, in g/m².

    What is sold by its thickness (points, plies) weighs what uncoated paper of it does.

    >>> round(grams_per_m2("80 lb text"), 1), grams_per_m2("350 gsm"), round(grams_per_m2("16 pt"))
    (118.4, 350.0, 305)

    Raises:
        ValueError: it isn't written as a weight ("110 lb cover", "300 gsm", "16 pt", "2 ply").
    """
    match = _WRITTEN.match(paper)
    thick = caliper_of(paper)
    if thick is not None:
        return thick * MM_PER_INCH * DENSITY
    kind = _kinds().get((match["kind"] or "").casefold()) if match else None
    if match is None or (kind is None and not match["gsm"]):
        message = f'"{paper}" is no weight of a paper'
        raise ValueError(message)
    number = float(match["number"])
    if kind is None:
        return number
    area = kind[0] * kind[1] * (MM_PER_INCH / 1000) ** 2
    return number * GRAMS_PER_POUND / (SHEETS * area)


def caliper_of(paper: str) -> float | None:
    """The thickness of a paper that is sold by it, in thousandths of an inch; None for others.

    >>> caliper_of("16 pt"), caliper_of("2-ply cotton"), caliper_of("80 lb text")
    (16.0, 27.5, None)
    """
    match = _WRITTEN.match(paper)
    if match is None or not (match["points"] or match["ply"]):
        return None
    return float(match["number"]) * (PLY if match["ply"] else 1.0)


def cut_liner(piece: SuitePiece, layout: Layout) -> SuitePiece:
    """A liner without a size, cut to its envelope: its back and its flap but for the gum."""
    if not piece.liner or piece.width or piece.height:
        return piece
    width = pt_to_mm(layout.width) - LINER_IN
    return replace(
        piece, width=width, height=pt_to_mm(layout.height + layout.flap_depth) - LINER_GUM
    )


@cache
def _kinds() -> dict[str, tuple[float, float]]:
    """Each word for a kind of paper: the sides of its basis sheet, in inches."""
    return {
        word: (float(row["width_in"]), float(row["height_in"]))
        for row in table("papers")
        for word in row["words"].split("|")
    }


def assemble(envelopes: Sequence[tuple[Layout, str]], pieces: Sequence[SuitePiece]) -> Assembly:
    """One whole piece of mail: envelopes with their papers (the outer first), and what is in them.

    Raises:
        ValueError: a paper isn't written as a weight.
    """
    parts = [(layout.title, _envelope(layout, paper), _sides(paper)) for layout, paper in envelopes]
    inside = [cut_liner(piece, envelopes[0][0]) if envelopes else piece for piece in pieces]
    parts += [(piece.name, _weight(piece), _thickness(piece)) for piece in inside]
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
    return 2 * sheet_of(paper)


def sheet_of(paper: str) -> float:
    """How thick a sheet of a paper is, mm: as it is sold, else as its weight says."""
    return grams_per_m2(paper) / DENSITY / 1000


def _weight(piece: SuitePiece) -> float:
    if piece.grams is not None:
        return piece.grams * piece.count
    return piece.width * piece.height / 1e6 * grams_per_m2(piece.paper) * piece.count


def _thickness(piece: SuitePiece) -> float:
    if piece.caliper:
        return piece.caliper / 1000 * MM_PER_INCH * piece.layers * piece.count
    return sheet_of(piece.paper) * piece.layers * piece.count if piece.paper else 0.0
