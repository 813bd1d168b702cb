"""Each letter's drawing in the plate against the font, point by point."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from math import ceil, floor

from addressing.preflight.choking import choke_faults
from addressing.preflight.container import Container
from addressing.preflight.faces import Faces
from addressing.preflight.letters import closed, measured
from addressing.preflight.skeleton import key_faults
from addressing.preflight.values import Objection, Value
from addressing.records.pages import Segment

STATIC_SLACK = 0.01
"""Font units. A static outline is whole numbers and thirds, written to three decimals."""
VARIABLE_SLACK = 0.05
"""Font units. HarfBuzz and fontTools round the place on an axis differently: over all glyphs of
nine variable faces at weights 437 and 500 they were never more than 0.031 apart."""

_NUMBER = rb"(?:0|-?(?:[1-9][0-9]{0,5}(?:\.[0-9]{0,2}[1-9])?|0\.[0-9]{0,2}[1-9]))"
_DRAWING = re.compile(rb"(?:%b %b [ml]\n|(?:%b ){6}c\n|h\n)+f\n" % (_NUMBER, _NUMBER, _NUMBER))
"""One way of writing only: whatever else a reader might take for a blank or a number, or a judge
for one, is refused (a vertical tab is no blank in PDF, but `bytes.split` takes it for one)."""
CUT = "{} has a frame that cuts it off, or that isn't in whole units just around it."
_KEYS = ("Type", "Subtype", "BBox", "Length", "Filter")


def form_faults(
    file: Container, form: tuple[int, int], faces: Faces, chokes: Sequence[float]
) -> Iterator[str]:
    """Everything that is wrong with one letter's drawing.

    `form` is its object's number and the letter's; `chokes` say how far a base draws in the letters
    of each face, in font units.
    """
    number, glyph = form
    what = f"The drawing of letter {glyph}"
    try:
        keys, drawing = _stream(file, number, what)
        outline = read_outline(drawing, what)
        wanted = faces.letter(glyph)
        slack = VARIABLE_SLACK if faces.variable(glyph) else STATIC_SLACK
    except Objection as objection:
        yield str(objection)
        return
    yield from key_faults(keys, _KEYS, what)
    if keys.get("Type") != "XObject" or keys.get("Subtype") != "Form":
        yield f"{what} is wrong in its type."
    if not _held(keys.get("BBox"), outline):
        yield CUT.format(what)
    if chokes:
        by, units = chokes[faces.face_of(glyph)], faces.units_per_em(glyph)
        for fault in choke_faults(outline, wanted.outline, by, units):
            yield f"The base of letter {glyph} {fault}."
        drawn = measured(closed(list(outline)))
        faces.as_drawn(glyph, replace(wanted, area=drawn.area, edges=drawn.edges))
        return
    worst = furthest(closed(list(outline)), wanted.outline)
    if worst is None:
        yield f"Letter {glyph} isn't drawn as the face draws it: other contours."
    elif worst > slack:
        yield f"Letter {glyph} isn't drawn as the face draws it: a point is {worst:.3g} units off."


def _stream(file: Container, number: int, what: str) -> tuple[dict[str, Value], bytes]:
    """A drawing's keys and steps.

    Raises:
        Objection: it can't be unpacked.
    """
    try:
        return file.stream(number)
    except Objection as objection:
        raise Objection(f"{what} is damaged.") from objection


def read_outline(drawing: bytes, what: str) -> tuple[Segment, ...]:
    """The contours of a form: `m`, then `l` and `c`, then `h`; one `f` behind all of them.

    Raises:
        Objection: it holds anything else.
    """
    if not drawing.endswith(b"\nf\n"):
        raise Objection(f"{what} isn't one outline filled once, at its end (nonzero).")
    if _DRAWING.fullmatch(drawing) is None:
        raise Objection(f"{what} holds more than an outline, or isn't written plainly.")
    steps: list[Segment] = []
    for line in drawing.split(b"\n")[:-2]:
        *numbers, operator = line.split(b" ")
        opens = not steps or steps[-1][0] == "h"
        if opens != (operator == b"m"):
            raise Objection(f"{what} holds more than an outline.")
        steps.append((operator.decode("ascii"), tuple(map(float, numbers))))
    if steps[-1][0] != "h":
        raise Objection(f"{what} isn't closed.")
    return tuple(steps)


def _held(frame: Value | None, outline: tuple[Segment, ...]) -> bool:
    """True when the frame is the least of whole numbers that no control point leaves."""
    if not isinstance(frame, tuple) or len(frame) != 4:  # noqa: PLR2004
        return False
    sides = [side for side in frame if isinstance(side, float) and side.is_integer()]
    if len(sides) != len(frame):
        return False
    xs = [x for _, numbers in outline for x in numbers[::2]]
    ys = [y for _, numbers in outline for y in numbers[1::2]]
    least = (floor(min(xs)), floor(min(ys)), ceil(max(xs)), ceil(max(ys)))
    return sides == [float(side) for side in least]


def furthest(found: tuple[Segment, ...], wanted: tuple[Segment, ...]) -> float | None:
    """The largest distance along an axis between two outlines; None when they are built unlike.

    Starting points and directions count: both libraries follow the font's own order.
    """
    if [kind for kind, _ in found] != [kind for kind, _ in wanted]:
        return None
    return max(
        (
            abs(one - other)
            for (_, here), (_, there) in zip(found, wanted, strict=True)
            for one, other in zip(here, there, strict=True)
        ),
        default=0.0,
    )
