"""A face opened for setting: HarfBuzz's font at its place on the axes, its lines and glyphs."""

import functools
import re
import unicodedata
from collections.abc import Mapping
from typing import Any

import uharfbuzz as hb

from addressing.records.pages import FACE, Segment, ShapedLine, Word
from addressing.records.shelf import Face
from addressing.typesetting.blanks import APART
from addressing.typesetting.capitals import lowered
from addressing.typesetting.direction import runs, runs_leftwards
from addressing.typesetting.opened import FACES_OPEN, OpenedFont, open_font
from addressing.typesetting.packing import Words

LINES_KEPT = 32768
"""Shaped lines kept (about 300 bytes each, 10 MB at most), so that a line that was shaped to be
measured need not be shaped again to be drawn."""

WORDS_KEPT = 16384
"""Words kept that were shaped between blanks. Words alone would be wrong: kerning and context see
the blank (measured: widths of 630 of 5 000 lines differ in Great Vibes)."""

LANGUAGE = "en"
"""The sender's language, said outright: left to itself HarfBuzz asks the machine's locale."""

PLAINLY = hb.BufferSerializeFlags.NO_GLYPH_NAMES | hb.BufferSerializeFlags.NO_CLUSTERS

_APART = re.compile(APART)


class _Apart(dict[str, tuple[Word, ...]]):
    """Words shaped by themselves between blanks, or at the beginning or the end of a line.

    A number is several records, so that each recurs.
    """

    def __init__(self, typeface: "Typeface", before: str, behind: str) -> None:
        """`before` and `behind` are the blanks about each word."""
        self._typeface = typeface
        self._before = before
        self._behind = behind

    def __missing__(self, word: str) -> tuple[Word, ...]:
        """Shape a word that was not met before; KeyError for one that may not stand alone."""
        figures = self._typeface.figures
        if figures is not None and word.isdecimal() and word.isascii():
            text = f"{self._before}{word}{self._behind or END}"
            return tuple([figures[text[at : at + 3]] for at in range(0, len(text) - 1, 2)])
        if not _APART.fullmatch(word):
            raise KeyError(word)
        if len(self) >= WORDS_KEPT:
            self.clear()
        shaped = self[word] = (self._typeface.word(self._before, word, self._behind),)
        return shaped


END = "\n"
"""Stands for the end of a line behind a figure."""


class _Figures(dict[str, Word]):
    """Two figures or blanks, or one, each time with what stands behind."""

    def __init__(self, typeface: "Typeface") -> None:
        """There are few (twelve hundred), so all are kept."""
        self._typeface = typeface
        self._told: dict[str, str] = {}
        """What HarfBuzz writes of one figure or blank before another, or before the end."""

    def __missing__(self, figures: str) -> Word:
        """Put figures together that were not met before: each is what it is before the next."""
        told = [self._one(figures[at : at + 2]) for at in range(len(figures) - 1)]
        word = self[figures] = self._typeface.told_word("|".join(told))
        return word

    def _one(self, pair: str) -> str:
        """The first of a pair; there are a hundred and some, shaped once."""
        told = self._told.get(pair)
        if told is None:
            told = self._told[pair] = self._typeface.told_first(pair.removesuffix(END))
        return told


class Typeface:
    """One opened face. Lengths are font units; use `open_typeface` to make one."""

    def __init__(self, face: Face, opened: OpenedFont, number: int = 0) -> None:
        """`opened` is the face's font; `number` is the face's in its set."""
        self.face = face
        self.number = number
        self._opened = opened
        self.font = opened.font
        self.units_per_em = opened.units_per_em
        self.outlines = opened.outlines
        self.bounds = opened.bounds
        self._features: dict[str, bool | int] = {"kern": True, **dict(face.features)}
        self._words = Words(self.bounds, self.font.get_nominal_glyph(0x20), number * FACE)
        self._space = round(face.tracking * self.units_per_em / 1000)
        self._apart = round(face.word_space * self.units_per_em / 1000)
        self._lines: dict[str, ShapedLine] = {}
        self.odd: set[str] = set()
        """Lines met with a glyph that is missing, or blank where no blank stands."""
        self._apart_words: tuple[_Apart, _Apart, _Apart] | None = None
        self.figures: _Figures | None = None

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

    def shape(self, text: str) -> ShapedLine:
        """A line shaped; kept while there is room."""
        known = self._lines.get(text)
        if known is None:
            if len(self._lines) >= LINES_KEPT:
                self._lines.clear()
            apart = self._apart_words
            words = self._by_words(text, *apart) if apart is not None else None
            known = ShapedLine(text, words or self._whole(text), self.units_per_em)
            self._lines[text] = known
        return known

    def shape_by_words(self) -> None:
        """From now on shape words that recur only once, where the font lets them stand alone.

        The lines are the same. It takes some hundredths of a second to find out.
        """
        if self._apart_words is None and self._opened.words_stand_alone:
            self._apart_words = _Apart(self, "", " "), _Apart(self, " ", " "), _Apart(self, " ", "")
            if self._opened.figures_stand_in_pairs(tuple(sorted(self._features))):
                self.figures = _Figures(self)

    @property
    def by_words(self) -> bool:
        """True where lines are put together from words."""
        return self._apart_words is not None

    def _by_words(
        self, text: str, firsts: _Apart, middles: _Apart, lasts: _Apart
    ) -> tuple[Word, ...] | None:
        """A line put together from words; None where it must be shaped whole."""
        first, *middle = text.split(" ")
        if not middle or not (
            text[-1].isalpha() or text[0].isalpha() or text.upper() != text.lower()
        ):
            return None  # without a letter a line has no script of its own
        last = middle.pop()
        try:
            words = firsts[first]
            for word in middle:
                words += middles[word]
            words += lasts[last]
        except KeyError:
            return None
        if self._words.odd and self._words.is_odd(words, len(middle) + 1):
            self.odd.add(text)
        return words

    def word(self, before: str, word: str, behind: str) -> Word:
        """A word shaped with the blanks about it; the one at its end is left off again."""
        told = self._told_latin(f"{before}{word}{behind}")
        return self._words[told.rpartition("|")[0] if behind else told]

    def told_first(self, text: str) -> str:
        """What HarfBuzz writes of the first glyph of a part of a Latin line."""
        return self._told_latin(text).partition("|")[0]

    def told_word(self, told: str) -> Word:
        """What HarfBuzz wrote of several glyphs, read as a word."""
        return self._words[told]

    def _told_latin(self, text: str) -> str:
        """What HarfBuzz writes of a part of a Latin line, though it be a figure or a point."""
        buffer = hb.Buffer()
        buffer.add_str(self.cased(text))
        buffer.language, buffer.script, buffer.direction = LANGUAGE, "Latn", "ltr"
        hb.shape(self.font, buffer, self._features)
        return self._written(buffer)

    def _whole(self, text: str) -> tuple[Word, ...]:
        """The words of a line that is shaped as one."""
        if runs_leftwards(text):
            told = "|".join(self._told(*run) for run in runs(self.cased(text)))
        else:
            told = self._told(text)
        words = tuple([self._words[part] for part in self._words.cut(told)]) if told else ()
        if self._words.is_odd(words, text.count(" ")):
            self.odd.add(text)
        return words

    def _told(self, text: str, leftwards: bool | None = None) -> str:  # noqa: FBT001 - of a run
        """What HarfBuzz writes of words that run one way."""
        return self._written(self.buffer(text, 0, leftwards), leftwards=bool(leftwards))

    def _written(self, buffer: Any, *, leftwards: bool = False) -> str:  # noqa: ANN401 - no types
        """What HarfBuzz shaped, written out, its words apart and its letters spaced.

        Letters that run leftwards aren't spaced, since joins and points would come apart.
        """
        written: str = buffer.serialize(self.font, flags=PLAINLY)[1:-1]
        if self._apart:
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

    def reach_before(self, letter: str) -> float:
        """What a letter's ink leaves of the blank before it, in em."""
        blank = self.font.get_nominal_glyph(0x20)
        wide = self.font.get_glyph_h_advance(blank) + self._apart if blank else 0
        return float(wide + self.run(letter, None).ink[0]) / self.units_per_em

    def run(self, text: str, leftwards: bool | None) -> ShapedLine:  # noqa: FBT001 - of a run
        """Words that run one way, by themselves; None leaves the way to their script."""
        told = self._told(text, leftwards)
        words = tuple([self._words[part] for part in self._words.cut(told)]) if told else ()
        return ShapedLine(text, words, self.units_per_em)

    def without_ink(self, text: str) -> tuple[str, ...]:
        """The characters of a line that would print nothing although they should.

        That is a character that the face doesn't have, or a visible one whose drawing is empty.
        A line whose blanks are all between words is cleared by its glyphs alone.
        """
        return self._search(text) if self.is_odd(text) else ()

    def is_odd(self, text: str) -> bool:
        """True for a line with a glyph that is missing, or blank where no blank stands."""
        if text not in self._lines:
            self.shape(text)
        return text in self.odd

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
    return Typeface(face, open_font(face), number)


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
