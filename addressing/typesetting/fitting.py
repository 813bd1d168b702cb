"""The door in: a whole set of pieces measured, fitted and placed."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from addressing.hands import steadily
from addressing.records.docket import PieceChoice
from addressing.records.findings import Finding
from addressing.records.pages import SetPiece, Setting
from addressing.records.pieces import Piece
from addressing.records.shelf import Face, Ink, Layout, Zone
from addressing.typesetting import complaints
from addressing.typesetting.ahead import shape_ahead
from addressing.typesetting.arranging import arrangement
from addressing.typesetting.measuring import Gauge
from addressing.typesetting.placing import place
from addressing.typesetting.room import room_for
from addressing.typesetting.sizing import (
    QUARTER,
    STEP,
    Measured,
    least_size,
    quarter_below,
    set_size,
    take_smaller,
)
from addressing.typesetting.taking import SLACK, Taken, take, worded
from addressing.typesetting.typeface import open_typeface


@dataclass(frozen=True, slots=True)
class _Set:
    """What holds for every piece of the set."""

    gauge: Gauge
    zone: Zone
    size: float
    leading: float
    smallest: float


@steadily()
def fit(
    pieces: Sequence[Piece],
    choice: PieceChoice,
    layout: Layout,
    face: Face,
    ink: Ink,
    margin: float,
) -> tuple[Setting, tuple[Finding, ...]]:
    """Set the pieces of one kind in one size; `margin` is the press's unprintable edge (pt).

    Every piece given is set, in order, but for those that get a finding which holds: a character
    without ink, a line of two directions, nothing permitted that fits. The size is chosen as
    `sizing` tells. A piece takes the first of its wordings that fits; where none does, a line is
    broken, and then that piece alone is set smaller, with a note. No ink leaves the room by more
    than the rounding of places (a thousandth of a point).

    Raises:
        Fault: the layout has no zone or no room for the kind, or the font can't be used (exit 3).
    """
    zone, room = room_for(layout, choice.kind, margin)
    zone = replace(zone, align=choice.align or zone.align)
    gauge = Gauge(open_typeface(face), room, arrangement(zone))
    findings: list[Finding] = []
    measured = _measure(pieces, gauge, findings)
    size = set_size(measured, gauge, choice)
    whole = _Set(gauge, zone, size, round(size * gauge.leading, 3), choice.smallest)
    placed = [_set_piece(one, whole, findings) for one in measured]
    kept = tuple(piece for piece in placed if piece is not None)
    return (
        Setting(choice.kind, layout, zone, room, face, ink, size, whole.leading, kept),
        tuple(findings),
    )


def _measure(pieces: Sequence[Piece], gauge: Gauge, findings: list[Finding]) -> list[Measured]:
    measured = []
    preferred = [worded(piece, 0) for piece in pieces]
    shape_ahead(gauge.typeface, (text for parts in preferred for text, _ in parts))
    for piece, parts in zip(pieces, preferred, strict=True):
        texts = [text for text, _ in parts]
        limit = gauge.limit(texts)
        complaint = _flaw(piece, gauge) if gauge.flawed else None
        if not texts:
            complaint = complaints.nothing_to_set(piece)
        if complaint is None:
            measured.append(Measured(piece, parts, limit))
        else:
            findings.append(complaint)
    return measured


def _flaw(piece: Piece, gauge: Gauge) -> Finding | None:
    for line in piece.wordings[0].lines:
        lost = gauge.flawed.get(line.text)
        if lost:
            return complaints.glyph_missing(piece, line, lost, gauge.typeface.face)
        if lost is not None:
            return complaints.mixed_direction(piece, line)
    return None


def _set_piece(one: Measured, whole: _Set, findings: list[Finding]) -> SetPiece | None:
    piece, gauge, size = one.piece, whole.gauge, whole.size
    why = ""
    if one.limit >= size - SLACK:
        taken: Taken | None = Taken(0, one.parts)
    else:
        taken = take(piece, gauge, size)
        if taken is not None:
            why = _why_otherwise(piece, taken, gauge, size)
    if taken is None:
        smaller = take_smaller(piece, gauge, size, least_size(size, whole.smallest))
        if smaller is None:
            helps = _size_that_helps(piece, whole)
            findings.append(complaints.too_large(piece, gauge, size, helps))
            return None
        line, clause = complaints.reason(piece, gauge, size)
        taken, size = smaller
        why = f"Set {complaints.points(whole.size - size)} smaller: {clause}."
        findings.append(complaints.stepped(piece, line, why))
    lines = place(piece, taken, gauge, whole.zone.valign, (size, whole.leading))
    return SetPiece(piece.household, piece.name, taken.wording, lines, why)


def _why_otherwise(piece: Piece, taken: Taken, gauge: Gauge, size: float) -> str:
    _, clause = complaints.reason(piece, gauge, size)
    what = "Line broken" if taken.broken else "Another wording"
    gives_up = piece.wordings[taken.wording].why
    return f"{what}: {clause}." + (f" {gives_up}" if gives_up else "")


def _size_that_helps(piece: Piece, whole: _Set) -> float | None:
    """The largest size for the whole set at which this piece could be set, stepped at most."""
    found = take_smaller(piece, whole.gauge, whole.size, whole.smallest)
    if found is None:
        return None
    size = quarter_below(found[1] / (1 - STEP))
    return max(min(size, whole.size - QUARTER), found[1])
