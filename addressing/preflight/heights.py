"""Whether the blocks of a set stand at the heights that they have in common.

A block is placed by its face's own measure: from the top of its capitals to its last baseline in
the middle of the room, or by the reach of its letters at the room's upper or lower edge. That
measure is one for all pieces of a hand, so each piece tells it, and whichever tells another one was
moved. Only a block whose ink comes up to the room's edge may stand off, as far as that takes.

A block on arcs is placed by the bounds of all its ink, letter by letter as they lean: each tells by
itself where it belongs.
"""

from array import array
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from statistics import median

from addressing.preflight.faces import Faces
from addressing.preflight.turning import level_room, wanted
from addressing.records.pages import Setting, hand_of
from addressing.records.set_lines import SetLine
from addressing.records.set_pieces import forms_of
from addressing.records.shelf import Box
from addressing.units import pt_to_mm

SLACK = 0.004
"""Points: two heights, each written to a thousandth, and half of another."""
EDGE = 0.02
"""Points by which ink may miss the room's edge and be said to touch it."""
_BENT = frozenset({"arch", "bowl"})
"""Bent blocks are placed by the bounds of their ink and have no such measure."""
BENT_SLACK = 0.01
"""Points: each letter of a bent block has its place from a baseline and a start in thousandths."""

_Block = tuple[SetLine, ...]


def height_faults(setting: Setting, faces: Faces, *, cards: bool) -> Iterator[str]:
    """A sentence for each piece that stands higher or lower than its set would have it.

    `cards` is whether several lie on a sheet.
    """
    bent = setting.zone.align in _BENT
    whose = "for its zone" if bent else "by the others of its kind"
    moved = _bent_moved(setting, faces) if bent else _all_moved(setting, faces)
    for number, off in dict(moved).items():
        key = setting.pieces[number].household
        name = f"{'Card' if cards else 'Page'} {number + 1}" + (f" ({key})" if key else "")
        way = "high" if off > 0 else "low"
        yield f"{name} stands {pt_to_mm(abs(off)):.2f} mm too {way} {whose}."


def _all_moved(setting: Setting, faces: Faces) -> Iterator[tuple[int, float]]:
    """(the number of a piece from 0, points by which it stands too high) for each that is moved.

    Of fewer than three pieces of a hand nobody can say which was moved; nothing is said then.
    """
    told: dict[int, _Told] = {}
    known: dict[int, tuple[tuple[int, float, float], ...]] = {}
    for number, form in enumerate(forms_of(setting.pieces)):
        measures = known.get(form)
        if measures is None:
            measures = known[form] = tuple(_measures(setting.pieces[number].lines, setting))
        for column, (hand, size, measure) in enumerate(measures):
            its = told.get(hand) or told.setdefault(hand, _Told())
            its.add(number, column, size, measure)
    for its in told.values():
        yield from _moved(its, level_room(setting), setting, faces)


def _bent_moved(setting: Setting, faces: Faces) -> Iterator[tuple[int, float]]:
    """The same of blocks on arcs, before they are turned about the middle of their room."""
    room = level_room(setting)
    level = replace(setting, zone=replace(setting.zone, turn=0), room=room)
    for number, piece in enumerate(setting.pieces):
        ready = [(line, faces.line(line)) for line in piece.lines]
        boxes = (
            [each.box for each in wanted(ready, level, faces, piece.lines[0].y)] if ready else []
        )
        if not boxes:
            continue
        below = min(box.bottom for box in boxes) - room.bottom
        above = room.top - max(box.top for box in boxes)
        own = {"top": -above, "bottom": below}.get(setting.zone.valign, (below - above) / 2)
        if abs(own) > BENT_SLACK:
            yield number, own


def _measures(lines: _Block, setting: Setting) -> Iterator[tuple[int, float, float]]:
    """Of each block of a piece whose hand it is by, the set's size there, and what it tells."""
    room, hands = level_room(setting), setting.second is not None
    for block in _blocks(lines, setting):
        ends = block[-1 if setting.zone.valign == "bottom" else 0]
        size = _size(block, setting)
        yield hand_of(ends.role) if hands else 0, size, _off(block, room, setting) / size


class _Told:
    """What the blocks of a hand tell of its face, in columns: a set may have many."""

    def __init__(self) -> None:
        self.numbers, self.columns = array("L"), array("B")
        """Whose block it is, and which of its blocks."""
        self.sizes, self.measures = array("d"), array("d")
        """The set's size (points) there, and the measure in em of it."""

    def add(self, number: int, column: int, size: float, measure: float) -> None:
        self.numbers.append(number)
        self.columns.append(column)
        self.sizes.append(size)
        self.measures.append(measure)


def _blocks(lines: _Block, setting: Setting) -> Iterable[_Block]:
    """The lines of a piece, or of each of its columns."""
    if not lines:
        return ()
    if setting.zone.align != "columns":
        return (lines,)
    columns = [tuple(line for line in lines if hand_of(line.role) == hand) for hand in (0, 1)]
    return [column for column in columns if column]


def _off(block: _Block, room: Box, setting: Setting) -> float:
    """How far (points) a block stands off its place: the face's measure at its size.

    Twice as much where it stands in the middle.
    """
    first, last = block[0].y, block[-1].y
    if setting.zone.valign == "top":
        return room.top - first
    if setting.zone.valign == "bottom":
        return room.bottom - last
    return room.bottom + room.top - first - last


def _size(block: _Block, setting: Setting) -> float:
    line = block[0]
    second = setting.second
    return line.size / second.ratio if second is not None and hand_of(line.role) else line.size


def _moved(its: _Told, room: Box, setting: Setting, faces: Faces) -> Iterator[tuple[int, float]]:
    """The pieces that tell another measure than the others and touch no edge."""
    half = 1 if setting.zone.valign in {"top", "bottom"} else 2
    if not _apart(its, range(len(its.sizes)), half):
        return
    free = [
        at
        for at, (number, column) in enumerate(zip(its.numbers, its.columns, strict=True))
        if not _touches(list(_blocks(setting.pieces[number].lines, setting))[column], room, faces)
    ]
    if len(free) < 3:  # noqa: PLR2004
        return
    for at, off in _apart(its, free, half):
        yield its.numbers[at], -off * its.sizes[at] / half


def _apart(its: _Told, those: Sequence[int], half: int) -> list[tuple[int, float]]:
    """Of those blocks whichever tell another measure than is usual among them, and how much more.

    `half` is 2 where a measure is twice what the block is off.
    """
    measures = its.measures
    usual = median([measures[at] for at in those])
    slack = SLACK * half
    return [
        (at, measures[at] - usual)
        for at in those
        if abs(measures[at] - usual) * its.sizes[at] > slack
    ]


def _touches(block: _Block, room: Box, faces: Faces) -> bool:
    """True when ink of the block comes up to the room's upper or lower edge."""
    drawn = [(line, faces.line(line)) for line in block]
    inked = [(line, words) for line, words in drawn if words.letters]
    top = max((line.y + words.top * line.size for line, words in inked), default=room.top)
    bottom = min((line.y + words.bottom * line.size for line, words in inked), default=room.bottom)
    return top >= room.top - EDGE or bottom <= room.bottom + EDGE
