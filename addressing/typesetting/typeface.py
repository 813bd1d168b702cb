"""A face opened for setting: HarfBuzz's font at its place on the axes, its lines and glyphs."""

import functools
import hashlib
import unicodedata
from typing import Any

import uharfbuzz as hb

from addressing.faults import Exit, Fault
from addressing.records.pages import ShapedLine
from addressing.records.shelf import Face
from addressing.typesetting.outlines import Bounds, GlyphOutlines, ink_bounds
from addressing.where import Where

LINES_KEPT = 4096
"""Shaped lines kept: towns and countries repeat. More gains nothing and costs 90 MB at 10 000
envelopes (measured). Lines, never words: kerning and context cross the blank."""

NEEDED_TABLES = frozenset({"cmap", "head", "hhea", "hmtx", "maxp"})
"""Without these there is nothing to set (OpenType 1.9, required tables)."""

LANGUAGE = "en"
"""The sender's language, said outright: left to itself HarfBuzz asks the machine's locale."""

FACES_OPEN = 8


class Typeface:
    """One opened face. Lengths are font units; use `open_typeface` to make one."""

    def __init__(self, face: Face, data: bytes) -> None:
        """`data` are the bytes of the font file, looked over already."""
        self.face = face
        opened = hb.Face(hb.Blob(data), face.index)
        self.font: Any = hb.Font(opened)
        if face.axes:
            self.font.set_variations(dict(face.axes))
        self.units_per_em: int = opened.upem
        self.outlines = GlyphOutlines(self.font, opened.glyph_count)
        self._features: dict[str, bool | int] = {"kern": True, **dict(face.features)}
        self._bounds: dict[int, Bounds | None] = {}
        self.blank = self.font.get_nominal_glyph(0x20)
        self.odd_blanks: set[int] = set()
        """Glyphs without ink that were met, other than the blank between words."""
        self.shape = functools.lru_cache(LINES_KEPT)(self._shape)

    def bounds(self, glyph: int) -> Bounds | None:
        """The exact bounds of a glyph's ink; None for a blank."""
        try:
            return self._bounds[glyph]
        except KeyError:
            found = self._bounds[glyph] = ink_bounds(self.outlines[glyph])
            if found is None and glyph != self.blank:
                self.odd_blanks.add(glyph)
            return found

    def buffer(self, text: str) -> Any:  # noqa: ANN401 - the library has no types
        """Words in HarfBuzz's hands, one character a cluster, script and direction as they are."""
        buffer = hb.Buffer()
        buffer.cluster_level = hb.BufferClusterLevel.MONOTONE_CHARACTERS
        buffer.add_str(text)
        buffer.language = LANGUAGE
        buffer.guess_segment_properties()
        hb.shape(self.font, buffer, self._features)
        return buffer

    def _shape(self, text: str) -> ShapedLine:
        buffer = self.buffer(text)
        glyphs = tuple([info.codepoint for info in buffer.glyph_infos])
        xs, ys = [], []
        left = bottom = float("inf")
        right = top = float("-inf")
        pen_x = pen_y = 0
        bounds, known = self.bounds, self._bounds
        for glyph, place in zip(glyphs, buffer.glyph_positions, strict=True):
            x_offset, y_offset, x_advance, y_advance = place.position
            x, y = pen_x + x_offset, pen_y + y_offset
            xs.append(x)
            ys.append(y)
            ink = known[glyph] if glyph in known else bounds(glyph)
            if ink is not None:
                left = min(left, x + ink[0])
                bottom = min(bottom, y + ink[1])
                right = max(right, x + ink[2])
                top = max(top, y + ink[3])
            pen_x += x_advance
            pen_y += y_advance
        if left > right:
            left = bottom = right = top = 0.0
        return ShapedLine(text, glyphs, tuple(xs), tuple(ys), pen_x, left, bottom, right, top)

    def without_ink(self, line: ShapedLine) -> tuple[str, ...]:
        """The characters of a line that would print nothing although they should.

        That is a character that the face doesn't have, or a visible one whose drawing is empty.
        A line whose blanks are all between words is cleared by its glyphs alone.
        """
        glyphs = line.glyphs
        if (
            0 not in glyphs
            and self.odd_blanks.isdisjoint(glyphs)
            and glyphs.count(self.blank) == line.text.count(" ")
        ):
            return ()
        return self._search(line.text)

    def _search(self, text: str) -> tuple[str, ...]:
        groups: dict[int, list[int]] = {}
        for info in self.buffer(text).glyph_infos:
            groups.setdefault(info.cluster, []).append(info.codepoint)
        starts = sorted(groups)
        lost: list[str] = []
        for start, end in zip(starts, [*starts[1:], len(text)], strict=True):
            glyphs, words = groups[start], text[start:end]
            if 0 in glyphs or all(self.bounds(glyph) is None for glyph in glyphs):
                lost += [character for character in words if _has_ink(character)]
        unknown = [c for c in lost if self.font.get_nominal_glyph(ord(c)) in (None, 0)]
        return tuple(dict.fromkeys(unknown or lost))


_JOINERS = "\u200c\u200d"
"""They steer how neighbours join (Persian, the scripts of India) and have no ink of their own."""


def _has_ink(character: str) -> bool:
    return unicodedata.category(character) != "Zs" and character not in _JOINERS


def _read(face: Face) -> bytes:
    try:
        data = face.path.read_bytes()
    except OSError as error:
        reason = error.strerror or str(error)
        raise _unusable(face, f"can't be read: {reason}") from error
    if face.sha256 and hashlib.sha256(data).hexdigest() != face.sha256:
        raise _unusable(face, "has changed since the face was looked over")
    opened = hb.Face(hb.Blob(data), face.index)
    # HarfBuzz takes any bytes without a word and then sets blanks, so its tables are asked for.
    missing = NEEDED_TABLES.difference(opened.table_tags)
    if missing or not opened.glyph_count:
        raise _unusable(face, "is damaged, or is not a font")
    return data


def _unusable(face: Face, what: str) -> Fault:
    return Fault(
        Exit.INPUT,
        "face-unusable",
        f"The font file of {face.family} {what}.",
        "Put the font file back, or choose another face.",
        Where(str(face.path)),
    )


@functools.lru_cache(FACES_OPEN)
def open_typeface(face: Face) -> Typeface:
    """Open a face, or hand out the one already open.

    Raises:
        Fault: the font file is missing, damaged, or another than was looked over (exit 3).
    """
    return Typeface(face, _read(face))


def shape_line(face: Face, text: str) -> ShapedLine:
    """Words as glyphs in a face (font units), kerned, with its ligatures and contextual forms.

    Raises:
        Fault: the font file can't be used (exit 3).
    """
    return open_typeface(face).shape(text)
