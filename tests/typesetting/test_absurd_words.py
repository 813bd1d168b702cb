"""Words that nobody has, drawn from all letters of the face: their ink still stays in the room."""

from dataclasses import replace
from functools import cache

from fontTools.ttLib import TTFont
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from addressing.records.docket import PieceChoice
from addressing.records.pages import FACE, Setting, faces_of
from addressing.records.pieces import Line, Piece, Role, Wording
from addressing.records.shelf import ALIGNS, Face, Ink, Layout
from addressing.typesetting import fit, stream


@cache
def coverage(path: str) -> tuple[str, ...]:
    """Every character that the font has, as fontTools reads it."""
    return tuple(chr(code) for code in sorted(TTFont(path).getBestCmap()) if code > 0x20)


@cache
def corners(path: str, glyph: int) -> tuple[complex, ...]:
    """The corners of a glyph's own box (the glyf table's), in font units."""
    font = TTFont(path)
    drawn = font["glyf"][font.getGlyphName(glyph)]
    if drawn.numberOfContours == 0:
        return ()
    xs, ys = (drawn.xMin, drawn.xMax), (drawn.yMin, drawn.yMax)
    return tuple(complex(x, y) for x in xs for y in ys)


def out_of_room(setting: Setting) -> list[complex]:
    """The corners of glyphs that stand outside the room by more than the font's own rounding.

    That is up to three units: its boxes are of curves whose points were rounded afterwards.
    """
    room, paths = setting.room, [str(face.path) for face in faces_of(setting.hands)]
    found: list[complex] = []
    for page in stream(setting)[0]:
        turns = page.turns or ((1.0, 0.0),) * len(page.lines)
        for (line, x, y, size), (cos, sin) in zip(page.lines, turns, strict=True):
            unit, slack = complex(cos, sin) * size / line.em, 3.5 * size / line.em + 0.003
            for glyph, dx, dy in zip(line.glyphs, line.xs, line.ys, strict=True):
                for corner in corners(paths[glyph // FACE], glyph % FACE):
                    at = complex(x, y) + unit * (complex(dx, dy) + corner)
                    inside = room.left - slack <= at.real <= room.right + slack
                    if not (inside and room.bottom - slack <= at.imag <= room.top + slack):
                        found.append(at)
    return found


@settings(
    max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(st.data(), st.sampled_from(ALIGNS), st.sampled_from([0, 90, 180, 270]))
def test_no_letter_of_the_face_leaves_the_room_however_long_its_line(
    script: Face, envelope: Layout, white: Ink, data: st.DataObject, align: str, turn: int
) -> None:
    letters = st.sampled_from(coverage(str(script.path)))
    word = st.one_of(st.text(letters, min_size=1, max_size=12), st.text(letters, min_size=200))
    texts = data.draw(st.lists(word, min_size=1, max_size=5))
    roles = data.draw(st.lists(st.sampled_from(Role), min_size=len(texts), max_size=len(texts)))
    lines = tuple(Line(text, role) for text, role in zip(texts, roles, strict=True))
    zones = tuple(replace(zone, turn=turn) for zone in envelope.zones)
    choice = PieceChoice("outer", "t", "f", "White", "deep-green", align=align, smallest=0.5)
    piece = Piece("outer", "h-a", "A", (Wording(lines),))
    setting, findings = fit([piece], choice, replace(envelope, zones=zones), script, white, 0.0)
    assert len(setting.pieces) == 1 or any(found.holds for found in findings)
    assert out_of_room(setting) == []
