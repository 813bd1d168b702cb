"""Whether the blocks of a set stand at the heights that they have in common.

A block is placed by its face's own measure: from the top of its capitals to its last baseline in
the middle of the room, or by the reach of its letters at the room's upper or lower edge. That
measure is one for all pieces of a hand, so each piece tells it, and whichever tells another one was
moved. Only a block whose ink comes up to the room's edge may stand off, as far as that takes.
"""

from collections.abc import Iterable, Iterator, Sequence
from statistics import median

from addressing.preflight.faces import Faces
from addressing.preflight.turning import level_room
from addressing.records.pages import SetLine, Setting, hand_of
from addressing.records.shelf import Box
from addressing.units import pt_to_mm

SLACK = 0.004
"""Points: two heights, each written to a thousandth, and half of another."""
EDGE = 0.02
"""Points by which ink may miss the room's edge and be said to touch it."""
_BENT = frozenset({"arch", "bowl"})
"""Bent blocks are placed by the bounds of their ink and have no such measure."""

_Block = tuple[SetLine, ...]


def height_faults(setting: Setting, faces: Faces, *, cards: bool) -> Iterator[str]:
    """A sentence for each piece that stands higher or lower than its set would have it.

    `cards` is whether several lie on a sheet.
    """
    for number, off in dict(_all_moved(setting, faces)).items():
        key = setting.pieces[number].household
        name = f"{'Card' if cards else 'Page'} {number + 1}" + (f" ({key})" if key else "")
        way = "high" if off > 0 else "low"
        yield f"{name} stands {pt_to_mm(abs(off)):.2f} mm too {way} by the others of its kind."


def _all_moved(setting: Setting, faces: Faces) -> Iterator[tuple[int, float]]:
    """(the number of a piece from 0, points by which it stands too high) for each that is moved.

    Of fewer than three pieces of a hand nobody can say which was moved; nothing is said then.
    """
    if setting.zone.align in _BENT:
        return
    room, hands = level_room(setting), setting.second is not None
    told: dict[int, list[tuple[int, _Block, float]]] = {}
    for number, piece in enumerate(setting.pieces):
        for block in _blocks(piece.lines, setting):
            ends = block[-1 if setting.zone.valign == "bottom" else 0]
            hand = hand_of(ends.role) if hands else 0
            told.setdefault(hand, []).append((number, block, _measure(block, room, setting)))
    for its in told.values():
        yield from _moved(its, room, setting, faces)


def _blocks(lines: _Block, setting: Setting) -> Iterable[_Block]:
    """The lines of a piece, or of each of its columns."""
    if not lines:
        return ()
    if setting.zone.align != "columns":
        return (lines,)
    columns = [tuple(line for line in lines if hand_of(line.role) == hand) for hand in (0, 1)]
    return [column for column in columns if column]


def _measure(block: _Block, room: Box, setting: Setting) -> float:
    """What the block tells of the face, in em of the set's size: how far it stands off its place.

    Twice as much where it stands in the middle.
    """
    first, last = block[0].y, block[-1].y
    if setting.zone.valign == "top":
        off = room.top - first
    elif setting.zone.valign == "bottom":
        off = room.bottom - last
    else:
        off = room.bottom + room.top - first - last
    return off / _size(block, setting)


def _size(block: _Block, setting: Setting) -> float:
    line = block[0]
    second = setting.second
    return line.size / second.ratio if second is not None and hand_of(line.role) else line.size


def _moved(
    told: Sequence[tuple[int, _Block, float]], room: Box, setting: Setting, faces: Faces
) -> Iterator[tuple[int, float]]:
    """The pieces that tell another measure than the others and touch no edge."""
    half = 1 if setting.zone.valign in {"top", "bottom"} else 2
    usual = median(measure for *_, measure in told)
    if all(_is_near(measure - usual, block, half, setting) for _, block, measure in told):
        return
    free = [each for each in told if not _touches(each[1], room, faces)]
    if len(free) < 3:  # noqa: PLR2004
        return
    usual = median(measure for *_, measure in free)
    for number, block, measure in free:
        if not _is_near(measure - usual, block, half, setting):
            yield number, (usual - measure) * _size(block, setting) / half


def _is_near(off: float, block: _Block, half: int, setting: Setting) -> bool:
    return abs(off) * _size(block, setting) <= SLACK * half


def _touches(block: _Block, room: Box, faces: Faces) -> bool:
    """True when ink of the block comes up to the room's upper or lower edge."""
    drawn = [(line, faces.line(line)) for line in block]
    inked = [(line, words) for line, words in drawn if words.letters]
    top = max((line.y + words.top * line.size for line, words in inked), default=room.top)
    bottom = min((line.y + words.bottom * line.size for line, words in inked), default=room.bottom)
    return top >= room.top - EDGE or bottom <= room.bottom + EDGE
