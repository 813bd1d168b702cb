"""A face opened for setting: HarfBuzz's font at its place on the axes, its lines and glyphs."""

import functools
import unicodedata
from collections.abc import Iterable, Mapping
from typing import Any

import uharfbuzz as hb

from addressing.records.pages import FACE, Segment, ShapedLine
from addressing.records.shelf import Face
from addressing.typesetting.capitals import lowered
from addressing.typesetting.direction import runs, runs_leftwards
from addressing.typesetting.fontfile import read_font
from addressing.typesetting.outlines import Bounds, GlyphOutlines, ink_bounds
from addressing.typesetting.packing import Packed, Words, pack, unpack

LINES_KEPT = 4096
"""Shaped lines kept as records, so that towns and countries are one record wherever they recur."""

LINES_PACKED = 65536
"""Shaped lines kept packed (about 300 bytes each, 20 MB at most), so that a line that was shaped
to be measured need not be shaped again to be drawn. Lines, never words: kerning and context cross
the blank (measured: widths of 630 of 5 000 lines differ in Great Vibes)."""

LANGUAGE = "en"
"""The sender's language, said outright: left to itself HarfBuzz asks the machine's locale."""

PLAINLY = hb.BufferSerializeFlags.NO_GLYPH_NAMES | hb.BufferSerializeFlags.NO_CLUSTERS

FACES_OPEN = 48


class Typeface:
    """One opened face. Lengths are font units; use `open_typeface` to make one."""

    def __init__(self, face: Face, data: bytes, number: int = 0) -> None:
        """`data` are the bytes of the font file, looked over; `number` is the face's in its set."""
        self.face = face
        self.number = number
        opened = hb.Face(hb.Blob(data), face.index)
        self.font: Any = hb.Font(opened)
        if face.axes:
            self.font.set_variations(dict(face.axes))
        self.units_per_em: int = opened.upem
        self.outlines = GlyphOutlines(self.font, opened.glyph_count)
        self._features: dict[str, bool | int] = {"kern": True, **dict(face.features)}
        self.bounds = functools.cache(self._bounds)
        self._words = Words(self.bounds, self.font.get_nominal_glyph(0x20), number * FACE)
        self._space = round(face.tracking * self.units_per_em / 1000)
        self._apart = round(face.word_space * self.units_per_em / 1000)
        self._packed: dict[str, Packed] = {}
        self.shape = functools.lru_cache(LINES_KEPT)(self._unpacked)

    def _bounds(self, glyph: int) -> Bounds | None:
        """The exact bounds of a glyph's ink; None for a blank."""
        return ink_bounds(self.outlines[glyph])

    def buffer(self, text: str, level: int = 0, leftwards: bool | None = None) -> Any:  # noqa: ANN401, FBT001 - the library has no types; of a run
        """Words in HarfBuzz's hands; at cluster level 1 each character is told apart.

        `leftwards` says which way they run; None leaves it to their script.
        """
        buffer = hb.Buffer()
        if level:
            buffer.cluster_level = hb.BufferClusterLevel(level)
        buffer.add_str(self.cased(text))
        buffer.language = LANGUAGE
        buffer.guess_segment_properties()
        if leftwards is not None:
            buffer.direction = "rtl" if leftwards else "ltr"
        hb.shape(self.font, buffer, self._features)
        return buffer

    def packed(self, text: str) -> Packed:
        """A line shaped and packed; kept while there is room, the first in the first out."""
        known = self._packed.get(text)
        if known is None:
            if len(self._packed) >= LINES_PACKED:
                del self._packed[next(iter(self._packed))]
            if runs_leftwards(text):
                written = "|".join(self._told(*run) for run in runs(self.cased(text)))
            else:
                written = self._told(text)
            known = self._packed[text] = pack(written, self._words)
        return known

    def _told(self, text: str, leftwards: bool | None = None) -> str:  # noqa: FBT001 - of a run
        """What HarfBuzz writes of words that run one way.

        Letters that run leftwards aren't spaced, since joins and points would come apart.
        """
        written: str = self.buffer(text, 0, leftwards).serialize(self.font, flags=PLAINLY)[1:-1]
        if self._apart and not leftwards:
            written = self._words.apart(written, self._apart)
        if self._space and not leftwards:
            return self._words.spaced(written, self._space)
        return written

    def cased(self, text: str) -> str:
        """Words as they are lettered: in capitals, or those in capitals as small capitals."""
        if self.face.small_words:
            return lowered(text)
        return text.upper() if self.face.in_capitals else text

    def lacks(self, word: str) -> bool:
        """True when the font lacks a letter of a word that is set by itself."""
        return any(info.codepoint == 0 for info in self.buffer(word).glyph_infos)

    def run(self, text: str, leftwards: bool | None) -> ShapedLine:  # noqa: FBT001 - of a run
        """Words that run one way, by themselves; None leaves the way to their script."""
        packed = pack(self._told(text, leftwards), self._words)
        return unpack(text, packed, self._words, self.units_per_em)

    def unknown(self, texts: Iterable[str]) -> list[str]:
        """Those lines that aren't kept, each once."""
        return [text for text in dict.fromkeys(texts) if text not in self._packed]

    def keep(self, texts: Iterable[str], packed: Iterable[tuple[Any, ...]]) -> None:
        """Keep lines that were packed elsewhere; `packed` are their fields."""
        for text, fields in zip(texts, packed, strict=True):
            self._packed[text] = Packed(*fields)

    def _unpacked(self, text: str) -> ShapedLine:
        return unpack(text, self.packed(text), self._words, self.units_per_em)

    def without_ink(self, text: str) -> tuple[str, ...]:
        """The characters of a line that would print nothing although they should.

        That is a character that the face doesn't have, or a visible one whose drawing is empty.
        A line whose blanks are all between words is cleared by its glyphs alone.
        """
        return () if self.packed(text).blanks == text.count(" ") else self._search(text)

    def _search(self, text: str) -> tuple[str, ...]:
        text = self.cased(text)
        groups: dict[int, list[int]] = {}
        for info in self.buffer(text, level=1).glyph_infos:
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


@functools.lru_cache(FACES_OPEN)
def open_typeface(face: Face, number: int = 0) -> Typeface:
    """Open a face, or hand out the one already open; `number` is the face's in its set.

    Raises:
        Fault: the font file is missing, damaged, or another than was looked over (exit 3).
    """
    return Typeface(face, read_font(face), number)


def shape_line(face: Face, text: str) -> ShapedLine:
    """Words as glyphs in a face (font units), kerned, with its ligatures and contextual forms.

    Raises:
        Fault: the font file can't be used (exit 3).
    """
    return open_typeface(face).shape(text)


def outlines_for(face: Face) -> Mapping[int, tuple[Segment, ...]]:
    """The outlines of all glyphs of a face, each drawn when it is asked for.

    Raises:
        Fault: the font file can't be used (exit 3).
    """
    return open_typeface(face).outlines
