"""What a page draws, by one grammar: lines of letters, each held against the words shaped again."""

import re
from collections.abc import Iterator, Sequence

from addressing.preflight.lines import DrawnLine
from addressing.preflight.placing import ink_box
from addressing.preflight.turning import Wanted
from addressing.preflight.values import Objection, quoted
from addressing.records.set_lines import SetLine

PLACE_SLACK = 0.0006
"""Points: places are written to a thousandth."""
SCALE_SLACK = 6e-9
"""Size ÷ units per em is written to eight decimals."""
LEAN_SLACK = 1e-4
"""Radians by which two readings of a face may turn a letter otherwise: half a font unit aside."""

_NUMBER = rb"(?:0|-?(?:[1-9][0-9]{0,4}(?:\.[0-9]{0,%d}[1-9])?|0\.[0-9]{0,%d}[1-9]))"
_LINE = re.compile(
    rb"q (%s) (%s) (%s) \1 (%s) (%s) cm\n" % (*[_NUMBER % (7, 7)] * 3, *[_NUMBER % (2, 2)] * 2)
)
_ANY = rb"-?[0-9]{0,9}\.?[0-9]{0,9} "
_ANY_LINE = re.compile(rb"q (?:%b){6}cm\n" % _ANY)
_ANY_STEP = re.compile(rb"(?:q )?(?:%b){6}cm\s" % _ANY)
"""A line, or a step of the whole page, however its numbers are written: only to say what it is."""
_LAID = re.compile(rb"(?:/Ink cs )?[0-9. ]{1,24}(?:scn?|k|rg|g)(?=\n)")


def drawn_lines(stream: bytes, opening: bytes) -> list[tuple[complex, complex, bytes]]:
    """The step of a font unit, the place and the letters of each line of a page stream.

    Raises:
        Objection: the stream holds anything but the ink and lines.
    """
    if not stream.startswith(opening):
        raise Objection(f"it doesn't begin with the plate's ink{_beginning(stream)}.")
    parts = stream[len(opening) :].split(b"Q\n")
    if parts.pop():
        raise Objection("it draws something that isn't a line of letters.")
    drawn = []
    for number, part in enumerate(parts, start=1):
        match = _LINE.match(part)
        if match is None:
            raise _no_line(part, number)
        across, up, down, x, y = match.groups()
        if down != (b"0" if up == b"0" else up[1:] if up.startswith(b"-") else b"-" + up):
            raise _no_line(part, number)
        step, at = complex(float(across), float(up)), complex(float(x), float(y))
        drawn.append((step, at, part[match.end() :]))
    return drawn


def _no_line(part: bytes, number: int) -> Objection:
    """What is wrong with a part that isn't written as a line is."""
    if _ANY_LINE.match(part) and part.count(b" cm\n") == 1:
        return Objection(f"it has line {number} laid in another way than a plate lays its lines.")
    return Objection("it draws something that isn't a line of letters.")


def _beginning(stream: bytes) -> str:
    """How a page stream begins instead; only what is surely an ink is repeated, never words."""
    if not stream:
        return ": it is empty"
    if _LINE.match(stream):
        return " but with its first line"
    if _ANY_STEP.match(stream):
        return " but moves the page first"
    laid = _LAID.match(stream)
    return f" but with {quoted(laid[0].decode('ascii'))}" if laid else ""


def level(ready: Sequence[tuple[SetLine, DrawnLine]]) -> Iterator[Wanted]:
    """What level lines must draw, stretch by stretch."""
    for number, (line, words) in enumerate(ready, start=1):
        for part in words.drawn:
            size = line.size * part.share
            unit = size / part.line.units
            at = complex(line.x + part.start * line.size, line.y)
            yield Wanted(number, size, complex(unit), at, part.line.body, ink_box(line, words))


def line_faults(
    drawn: Sequence[tuple[complex, complex, bytes]], belonging: Sequence[Wanted]
) -> Iterator[str]:
    """Each drawn line against its words: letters, place, size, and how it is turned."""
    if not drawn and belonging:
        yield "is blank"
    elif len(drawn) != len(belonging):
        yield f"has {len(drawn)} lines where {len(belonging)} belong"
    for (step, at, body), want in zip(drawn, belonging, strict=False):
        number, off = want.number, at - want.at
        if body != want.body:
            yield f"has other letters in line {number} than its words ask for"
        if abs(off.real) > PLACE_SLACK or abs(off.imag) > PLACE_SLACK:
            moved = f"{abs(off.real):.3f} pt aside and {abs(off.imag):.3f} pt up or down"
            yield f"has line {number} {moved} from its place"
        if abs(abs(step) - abs(want.step)) > SCALE_SLACK * (1.5 if want.bent else 1.0):
            yield f"has line {number} in another size than {want.size:g} pt"
        slack = LEAN_SLACK * abs(want.step) if want.bent else SCALE_SLACK
        if abs(step - want.step) > 2 * slack:
            yield f"has line {number} turned otherwise than it is set"
