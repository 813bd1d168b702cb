"""The door in: a whole set of pieces measured, fitted and placed."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from addressing.hands import steadily
from addressing.records.docket import PieceChoice
from addressing.records.findings import Finding
from addressing.records.pages import Second, Setting
from addressing.records.pieces import Piece
from addressing.records.set_pieces import SetColumns, SetPieces
from addressing.records.shelf import Face, Ink, Layout, Zone
from addressing.typesetting import complaints
from addressing.typesetting.arranging import arrangement
from addressing.typesetting.bending import flat_room
from addressing.typesetting.complaints import Helped
from addressing.typesetting.demerits import full
from addressing.typesetting.hanging import usual_marks
from addressing.typesetting.leading import Leading
from addressing.typesetting.lettering import open_hands
from addressing.typesetting.measuring import Gauge, Measure, Part
from addressing.typesetting.outlines import Bounds
from addressing.typesetting.patterns import Pattern, Patterns
from addressing.typesetting.placing import is_level, left_ends, place
from addressing.typesetting.room import room_for
from addressing.typesetting.sizing import (
    LEGIBLE,
    QUARTER,
    STEP,
    Measured,
    least_size,
    parts_of,
    quarter_below,
    set_size,
    take_lighter,
    take_smaller,
)
from addressing.typesetting.taking import SLACK, Taken, Taker

BATCH = 2000
"""Pieces that are measured together, a step for all of them and then the next: that takes less
time than piece by piece (measured: a quarter), since the processor does the same for longer."""

MANY = 3000
"""Pieces from which it pays to find out whether words may be shaped apart."""


@dataclass(frozen=True, slots=True)
class _Set:
    """What holds for every piece of the set."""

    taker: Taker
    zone: Zone
    size: float
    leading: Leading
    smallest: float
    heavy: float
    """The limit (pt) up to which a piece may have a heavy line of names; 0 where none is broken."""
    helped: bool
    """Whether other faces may set words."""
    kept: bool
    """Whether the size is that of what is on paper."""
    plain: dict[Pattern, int]
    """The forms of pieces that stand as they are, their heights the same whatever they say."""

    def lighter(self, one: Measured) -> tuple[Taken, float] | None:
        """A piece that fits whole with its heavy line of names broken, where it has one.

        Behind it its size (pt), no smaller than what is allowed.
        """
        if one.limit > self.heavy:
            return None
        found = take_lighter(one, self.taker, self.size)
        return None if found is None or found[1] < self.smallest - SLACK else found

    @property
    def gauge(self) -> Gauge:
        """What measures its lines."""
        return self.taker.gauge


@steadily()
def fit(
    pieces: Sequence[Piece],
    choice: PieceChoice,
    layout: Layout,
    face: Face | tuple[Face, Face],
    ink: Ink | tuple[Ink, Ink],
    margin: float,
) -> tuple[Setting, tuple[Finding, ...]]:
    """Set the pieces of one kind in one size; `margin` is the press's unprintable edge (pt).

    Two faces are those of the names and of all other lines, which stand in the size that
    `choice.address` makes of the names'; then no hand is ever smaller than the choice's smallest.
    Two inks are likewise those of both.

    Every piece given is set, in order, but for those that get a finding which holds: a character
    without ink, a mark that turns directions, nothing permitted that fits. The size is chosen as
    `sizing` tells. A piece takes its first wording where that fits; else the
    wording and the breaks with the fewest demerits; else its letters stand a little closer; and
    then that piece alone is set smaller, with a note. No ink leaves the room by more
    than the rounding of places (a thousandth of a point).

    Raises:
        Fault: the layout has no zone or no room for the kind, or the font can't be used (exit 3).
    """
    zone, room = room_for(layout, choice.kind, margin)
    hanging = usual_marks() if zone.hanging is None else zone.hanging
    zone = replace(zone, align=choice.align or zone.align, hanging=hanging)
    hands = _hands(face, choice)
    flat = flat_room(zone, room)
    arranged = arrangement(zone, flat)
    if (arranged.gutter is not None or zone.names_apart) and len(hands) == 1:
        hands *= 2  # names and all else, in one face
    gauge = Gauge(hands, flat, arranged)
    if gauge.several and hands[1].ratio < 1:
        least = choice.smallest / hands[1].ratio
        choice = replace(choice, smallest=math.ceil(least / QUARTER - SLACK) * QUARTER)
    findings: list[Finding] = []
    measured = _measure(pieces, gauge, findings)
    largest = max(choice.size or 0.0, choice.largest, choice.smallest)
    taker = Taker(gauge, min(choice.size or largest, choice.smallest), largest, choice.tighten)
    size = set_size(measured, taker, choice)
    heavy = size / full() if choice.balance else 0.0
    helped = any(hand.lettering.helped for hand in hands)
    leading = gauge.leading.at(size).rounded()
    whole = _Set(taker, zone, size, leading, choice.smallest, heavy, helped, choice.kept, {})
    columns = SetColumns()
    for one in measured:
        _set_piece(one, whole, findings, columns)
    kept = SetPieces.of(columns)
    second = None
    names_ink, other_ink = (ink, ink) if isinstance(ink, Ink) else ink
    if isinstance(face, tuple) or zone.names_apart:
        other = hands[1]
        own = None if _are_one(names_ink, other_ink) else other_ink
        second = Second(other.typeface.face, other.ratio, leading.lines[1], leading.gap, own)
    names = hands[0].typeface.face
    setting = Setting(
        choice.kind, layout, zone, room, names, names_ink, size, leading.lines[0], kept, second
    )
    setting = replace(setting, tighten=choice.tighten)
    return setting, tuple(findings)


def _are_one(ink: Ink, other: Ink) -> bool:
    """True when a plate can't tell two inks from each other."""
    return (ink.spot, ink.channel) == (other.spot, other.channel)


def _hands(face: Face | tuple[Face, Face], choice: PieceChoice) -> tuple[Measure, ...]:
    """Each hand's face opened and measured."""
    faces = (face,) if isinstance(face, Face) else face
    ratio = choice.address.size if choice.address is not None else 1.0
    opened = open_hands(faces)
    return tuple(map(Measure, opened, (1.0, ratio)))


def _measure(pieces: Sequence[Piece], gauge: Gauge, findings: list[Finding]) -> list[Measured]:
    """Each piece's lines and how large they can be; a finding instead for what can't be set."""
    patterns = Patterns(several=gauge.several)
    if len(pieces) >= MANY:
        for hand in gauge.hands:
            hand.typeface.shape_by_words()
    measured: list[Measured] = []
    for start in range(0, len(pieces), BATCH):
        batch = pieces[start : start + BATCH]
        told = list(map(patterns.of, batch))
        inks = gauge.inks_of_all(told)
        limits = _limits(told, inks, gauge)
        for piece, (texts, pattern), ink, limit in zip(batch, told, inks, limits, strict=True):
            one = Measured(piece, texts, pattern, ink, limit)
            complaint = _flaw(piece, one.parts, gauge) if gauge.flawed else None
            if not texts:
                complaint = complaints.nothing_to_set(piece)
            if complaint is None:
                measured.append(one)
            else:
                findings.append(complaint)
    return measured


def _limits(
    told: Sequence[tuple[Sequence[str], Pattern]],
    inks: Sequence[Sequence[Bounds]],
    gauge: Gauge,
) -> list[float]:
    """The largest size (pt) at which each piece fits, its lines and their bounds given."""
    both = zip(told, inks, strict=True)
    if not gauge.arrangement.bow:
        return [gauge.level_limit(ink, pattern.hands) for (_, pattern), ink in both]
    return [gauge.limit(parts_of(texts, pattern)) for texts, pattern in told]


def _flaw(piece: Piece, parts: Sequence[Part], gauge: Gauge) -> Finding | None:
    for text, source, hand in parts:
        line = piece.wordings[0].lines[source]
        flaw = gauge.flawed.get((text, hand))
        if flaw and flaw[0]:
            return complaints.glyph_missing(piece, line, *flaw)
        if flaw:
            return complaints.mixed_direction(piece, line)
    return None


def _set_piece(one: Measured, whole: _Set, findings: list[Finding], columns: SetColumns) -> None:
    """Put a piece into the columns, or a finding that tells why it can't be set."""
    piece, gauge = one.piece, whole.gauge
    stands = one.limit >= whole.size - SLACK
    lighter = whole.lighter(one) if stands else None
    stands = stands and lighter is None
    number = whole.plain.get(one.pattern) if stands else None
    if number is not None:
        xs = left_ends(one.texts, one.inks, one.pattern.hands, gauge, whole.size)
        columns.put(piece.household, piece.name, number, one.texts, xs)
        return
    chosen = _chosen(one, lighter, whole, findings)
    if chosen is None:
        return
    taken, why, size = chosen
    helped = _helped(taken, gauge) if whole.helped else ()
    if helped:
        findings.extend(complaints.in_other_faces(piece, taken.wording, helped))
    others = tuple(dict.fromkeys([(each.hand, each.script) for each in helped])) if helped else ()
    inks = one.inks if stands else gauge.inks(taken.parts, taken.tighter)
    placed = place(piece, taken, inks, gauge, whole.zone.valign, (size, whole.leading))
    texts, roles, sources, xs, ys, sizes, tighter = placed
    form = taken.wording, why, others, roles, sources, ys, sizes, tighter
    number = columns.number_of(form)
    columns.put(piece.household, piece.name, number, texts, xs)
    if stands and not whole.helped and is_level(one.pattern.hands, size, gauge):
        whole.plain[one.pattern] = number


def _chosen(
    one: Measured,
    lighter: tuple[Taken, float] | None,
    whole: _Set,
    findings: list[Finding],
) -> tuple[Taken, str, float] | None:
    """How a piece is set, why so, and in which size (pt); None, and a finding, where it can't be.

    `lighter` is how it is set, and in which size, if its heavy line of names is broken.
    """
    piece, gauge, size = one.piece, whole.gauge, whole.size
    if lighter is not None:
        return _lightened(one, lighter, whole, findings)
    if one.limit >= size - SLACK:
        return Taken(0, one.parts), "", size
    taken = whole.taker.take(piece, size)
    if taken is not None:
        return taken, _why_otherwise(piece, taken, gauge, size), size
    least = least_size(size, whole.smallest, kept=whole.kept)
    smaller = take_smaller(piece, whole.taker, size, least)
    if smaller is None:
        helps = _sizes_that_help(piece, whole)
        findings.append(complaints.too_large(piece, gauge, size, *helps))
        return None
    line, clause = complaints.reason(piece, gauge, size)
    taken, size = smaller
    what = ", ".join([f"set {complaints.points(whole.size - size)} smaller", *_done(taken)])
    seen = size < least_size(whole.size, whole.smallest) - SLACK
    why = f"{what[0].upper()}{what[1:]}: {clause}."
    if seen:
        why += f" It stands at {complaints.points(size)}; "
        why += f"the others stand at {complaints.points(whole.size)} on paper."
    findings.append(complaints.stepped(piece, line, why, seen=seen))
    return taken, why, size


def _lightened(
    one: Measured, lighter: tuple[Taken, float], whole: _Set, findings: list[Finding]
) -> tuple[Taken, str, float]:
    """A piece whose heavy line is broken, as `_chosen` says it; a note where it is set smaller."""
    taken, size = lighter
    why = complaints.heavy(taken.broken, one.parts, whole.gauge, whole.size)
    if size < whole.size - SLACK:
        why = f"Set {complaints.points(whole.size - size)} smaller. {why}"
        line = next(each for each in one.piece.wordings[0].lines if each.text in taken.broken)
        findings.append(complaints.stepped(one.piece, line, why))
    return taken, why, size


def _helped(taken: Taken, gauge: Gauge) -> tuple[Helped, ...]:
    """The words that other faces set, from the first line on."""
    found: list[Helped] = []
    for text, source, hand in taken.parts:
        own = gauge.hands[hand].lettering
        mixed = own.mixed(text)
        for part in mixed.parts if mixed is not None else ():
            if part.script:
                words = part.words.text.strip()
                faces = own.face, part.face
                found.append(Helped(source, hand, part.script, words, *faces, part.share))
    return tuple(found)


def _why_otherwise(piece: Piece, taken: Taken, gauge: Gauge, size: float) -> str:
    _, clause = complaints.reason(piece, gauge, size)
    what = ", ".join(_done(taken))
    gives_up = piece.wordings[taken.wording].why
    also = f" {gives_up[0].upper()}{gives_up[1:].rstrip('.')}." if gives_up else ""
    return f"{what[0].upper()}{what[1:]}: {clause}.{also}"


def _done(taken: Taken) -> list[str]:
    """What was done that a line fits."""
    done = ["another wording"] if taken.wording else []
    done += ["line broken"] if taken.broken else []
    closer = f"letters closer by {max(taken.tighter, default=0) / 10:g} % of the size"
    return done + ([closer] if taken.tighter else [])


def _sizes_that_help(piece: Piece, whole: _Set) -> tuple[float | None, float | None]:
    """The largest size for the whole set at which this piece could be set, stepped at most.

    Behind it, where the set's size is kept: that of this piece alone, below what is allowed.
    """
    found = take_smaller(piece, whole.taker, whole.size, whole.smallest)
    if found is not None:
        size = quarter_below(found[1] / (1 - STEP))
        return max(min(size, whole.size - QUARTER), found[1]), None
    if not whole.kept:
        return None, None
    lower = Taker(whole.taker.gauge, LEGIBLE, whole.size)
    alone = take_smaller(piece, lower, whole.size, LEGIBLE)
    return None, alone[1] if alone is not None else None
