"""Where a plate must draw lines that are bent or turned, worked out from how they stand level.

Places are complex numbers here, so that a turn is a product.
"""

import cmath
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

from addressing.preflight.faces import Faces
from addressing.preflight.lines import Drawn, DrawnLine
from addressing.records.pages import Setting
from addressing.records.set_lines import SetLine
from addressing.records.shelf import Box

_QUARTERS = {0: 1 + 0j, 90: 1j, 180: -1 + 0j, 270: -1j}
_BOWS = {"arch": 1, "bowl": -1}


@dataclass(frozen=True, slots=True)
class Wanted:
    """What a plate must draw at once: a stretch of line `number` (from 1), or a letter of it.

    `size` (pt) is that of the words, `step` a font unit's length and direction in points, `at` the
    origin; `box` bounds the ink on the piece.
    """

    number: int
    size: float
    step: complex
    at: complex
    body: bytes
    box: Box
    bent: bool = False


class _Arc(NamedTuple):
    """An arc about a `centre` below (`side` 1) or above it (-1), `own` pt away.

    Letters keep their distances at `pace` from there.
    """

    side: int
    centre: complex
    own: float
    pace: float


def level_room(setting: Setting) -> Box:
    """The room as it lies before the block is turned about its middle."""
    room = setting.room
    if setting.zone.turn not in {90, 270}:
        return room
    middle = _middle(room)
    return Box(middle.real - room.height / 2, middle.imag - room.width / 2, room.height, room.width)


def is_level(setting: Setting) -> bool:
    """True where lines stand as they are set."""
    return not setting.zone.turn and setting.zone.align not in _BOWS


def wanted(
    ready: Sequence[tuple[SetLine, DrawnLine]], setting: Setting, faces: Faces, first: float
) -> Iterator[Wanted]:
    """All that some lines of a piece must draw, in order; `first` is its first baseline's y."""
    side = _BOWS.get(setting.zone.align, 0)
    for number, (line, words) in enumerate(ready, start=1):
        arc = _arc(line, setting, first, _even(line, words, faces)) if side else None
        for part in words.drawn:
            if arc:
                yield from _bent(number, line, part, arc, setting, faces)
            else:
                yield _turned(number, line, part, setting)


def _arc(line: SetLine, setting: Setting, first: float, even: float) -> _Arc:
    """Where a line's baseline is bent; `first` is that of the first line."""
    room, side = level_room(setting), _BOWS[setting.zone.align]
    radius = room.width if setting.zone.radius is None else setting.zone.radius
    centre = complex(room.left + room.width / 2, first - side * radius)
    own = abs(line.y - centre.imag)
    return _Arc(side, centre, own, own + side * even)


def _even(line: SetLine, words: DrawnLine, faces: Faces) -> float:
    """The height (pt) at which letters on an arc are as far apart as level ones.

    It is the middle one of the middles of all letters' ink; of two middle ones their mean.
    """
    middles: list[float] = []
    for part in words.drawn:
        unit = line.size * part.share / part.line.units
        for glyph, _, y in faces.spelling.letters(part.line.body):
            letter = faces.letter(glyph)
            middles.append((2 * y + letter.bottom + letter.top) / 2 * unit)
    middles.sort()
    half = len(middles) // 2
    return (middles[half] + middles[-1 - half]) / 2 if middles else 0.0


def moved(want: Wanted, trim: Box, before: int, *, over: bool) -> Wanted:
    """The same on a card that lies on a sheet, `before` lines there going before it.

    `over` is whether it lies head to foot. A card is moved by thousandths of a point.
    """
    corner = complex(trim.right, trim.top) if over else complex(trim.left, trim.bottom)
    corner = complex(round(corner.real, 3), round(corner.imag, 3))
    way = -1 if over else 1
    box = want.box
    left, bottom = corner.real + way * box.left, corner.imag + way * box.bottom
    if over:
        left, bottom = left - box.width, bottom - box.height
    return replace(
        want,
        number=before + want.number,
        step=way * want.step,
        at=corner + way * want.at,
        box=Box(left, bottom, box.width, box.height),
    )


def _turned(number: int, line: SetLine, part: Drawn, setting: Setting) -> Wanted:
    """A stretch of a line that is straight."""
    quarter = _QUARTERS[setting.zone.turn]
    size = line.size * part.share
    origin = _round(complex(line.x + part.start * line.size, line.y), setting)
    words = part.line
    corners = (words.left, words.bottom, words.right, words.top)
    box = _box(origin, quarter * size, corners)
    return Wanted(number, size, quarter * size / words.units, origin, words.body, box)


def _bent(
    number: int, line: SetLine, part: Drawn, arc: _Arc, setting: Setting, faces: Faces
) -> Iterator[Wanted]:
    """The letters of a stretch on its arc, each turned about the middle of its ink."""
    side, centre, own, pace = arc
    unit = line.size * part.share / part.line.units
    for glyph, x, y in faces.spelling.letters(part.line.body):
        letter = faces.letter(glyph)
        middle = (letter.left + letter.right) / 2
        along = line.x + part.start * line.size + (x + middle) * unit - centre.real
        lean = cmath.exp(-1j * side * along / pace)
        level = centre + side * 1j * own * lean + lean * unit * complex(-middle, y)
        step = lean * unit * _QUARTERS[setting.zone.turn]
        at = _round(level, setting)
        box = _box(at, step, (letter.left, letter.bottom, letter.right, letter.top))
        body = faces.spelling.alone(glyph, part.line.units)
        yield Wanted(number, line.size * part.share, step, at, body, box, bent=True)


def _middle(room: Box) -> complex:
    return complex(room.left + room.width / 2, room.bottom + room.height / 2)


def _round(place: complex, setting: Setting) -> complex:
    """A place turned about the middle of the room."""
    middle = _middle(setting.room)
    return middle + (place - middle) * _QUARTERS[setting.zone.turn]


def _box(at: complex, step: complex, edges: tuple[float, float, float, float]) -> Box:
    """The upright rectangle around ink with these edges, in units of `step`."""
    left, bottom, right, top = edges
    corners = [at + step * complex(x, y) for x in (left, right) for y in (bottom, top)]
    low = complex(min(c.real for c in corners), min(c.imag for c in corners))
    high = complex(max(c.real for c in corners), max(c.imag for c in corners))
    return Box(low.real, low.imag, high.real - low.real, high.imag - low.imag)
