"""How large the words of another face may stand in a line: no larger than its leading bears."""

import math
from dataclasses import replace

from addressing.records.shelf import Face, Fallback
from addressing.tables import lookup
from addressing.typesetting.lettering import LEAST_SHARE, Lettering
from addressing.typesetting.measuring import Measure
from addressing.typesetting.typeface import open_typeface


def within_leading(faces: Face | tuple[Face, Face]) -> Face | tuple[Face, Face]:
    """The hands with a limit for each face that steps in, where its script reaches far.

    A size that the docket says stays as it is said.

    Raises:
        Fault: a font can't be used (exit 3).
    """
    if isinstance(faces, tuple):
        return _bounded(faces[0]), _bounded(faces[1])
    return _bounded(faces)


def _bounded(face: Face) -> Face:
    if not any(_letters(each) for each in face.fallbacks):
        return face
    leading = Measure(Lettering(open_typeface(face), ()), 1.0).leading
    return replace(face, fallbacks=tuple(_most(each, leading) for each in face.fallbacks))


def _letters(fallback: Fallback) -> str:
    return lookup("script_reach", "script", "letters").get(fallback.script, "")


def _most(fallback: Fallback, leading: float) -> Fallback:
    """The face that steps in, as large as a leading (em of the line) bears at the most."""
    other = open_typeface(fallback.face)
    glyphs = [other.font.get_nominal_glyph(ord(letter)) for letter in _letters(fallback)]
    inks = [ink for glyph in glyphs if glyph and (ink := other.bounds(glyph)) is not None]
    if not inks:
        return fallback
    reach = max(ink[3] for ink in inks) - min(ink[1] for ink in inks)
    most = math.floor(1000 * leading * other.units_per_em / reach) / 1000
    return replace(fallback, most=max(LEAST_SHARE, min(most, fallback.most)))
