"""Light marks at the ends of a centred line, which hang out: the eye centres the words alone."""

from collections.abc import Iterator
from itertools import dropwhile

from addressing.records.pages import FACE
from addressing.tables import table
from addressing.typesetting.lettering import Lettering
from addressing.typesetting.outlines import Bounds
from addressing.typesetting.typeface import Typeface

_Ink = tuple[float, float, bool]
"""Where a glyph's ink begins and ends (em of the line), and whether it is a mark that hangs."""


def usual_marks() -> str:
    """The marks that hang out where a layout doesn't say."""
    return "".join([row["mark"] for row in table("hanging_marks")])


def evened(ink: Bounds, lettering: Lettering, text: str, marks: str, ratio: float) -> Bounds:
    """The bounds of a line, so far apart that their middle is that of its words without `marks`.

    All lengths are em of the set's size, of which the line's is the part `ratio`. A mark is known
    by its own glyph: what a font draws otherwise there, such as a flourish, counts as ink. The
    bounds as they are for a line of marks alone.
    """
    drawn = sorted(_inks(lettering, text, marks))
    begun = list(dropwhile(_hangs, drawn))
    words = list(dropwhile(_hangs, reversed(begun)))
    if not words or len(words) == len(drawn):
        return ink
    first, last = min(left for left, _, _ in words), max(right for _, right, _ in words)
    middle = (first + last) / 2 * ratio
    half = max(middle - ink[0], ink[2] - middle)
    return middle - half, ink[1], middle + half, ink[3]


def _hangs(one: _Ink) -> bool:
    return one[2]


def _inks(lettering: Lettering, text: str, marks: str) -> Iterator[_Ink]:
    for part in lettering.drawn(text):
        typeface = next(each for each in lettering.faces if each.face == part.face)
        hanging, em = _glyphs(typeface, marks), part.words.em / part.share
        for number, x, _ in part.words.placed():
            glyph = number % FACE
            ink = typeface.bounds(glyph)
            if ink is not None:
                left, right = (part.start + (x + edge) / em for edge in ink[::2])
                yield left, right, glyph in hanging


def _glyphs(typeface: Typeface, marks: str) -> frozenset[int]:
    """The glyphs that a font has for marks as they come."""
    glyphs = (typeface.font.get_nominal_glyph(ord(mark)) for mark in marks)
    return frozenset(glyph for glyph in glyphs if glyph)
