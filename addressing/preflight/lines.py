"""A line's words shaped again by HarfBuzz, and what a plate must therefore draw."""

import re
from dataclasses import dataclass
from functools import lru_cache
from math import inf
from typing import NamedTuple

import uharfbuzz as hb

from addressing.preflight.capitals import small
from addressing.preflight.direction import is_plain, visual_runs
from addressing.preflight.drawn_words import TOLD, Words
from addressing.preflight.letters import Letters, face_data
from addressing.preflight.spelling import OUTLINED, Spelling
from addressing.preflight.values import Objection
from addressing.records.pages import FACE
from addressing.records.shelf import CLEAR, Face

KEPT = 8192
"""Lines that are remembered: towns and countries come again and again."""
LANGUAGE = "en"
"""The sender's language, said outright: left to itself HarfBuzz asks the machine's locale."""

_PLAINLY = hb.BufferSerializeFlags.NO_GLYPH_NAMES | hb.BufferSerializeFlags.NO_CLUSTERS


class DrawnLine(NamedTuple):
    """What stands between `cm` and `Q` for some words, and their ink in em of the line's size.

    `units` make an em of the face. `letters` counts the glyphs with ink; `missing` is true when the
    face lacks one of the words' characters. A line without ink has `letters` 0.
    """  # there is one for each line that differs: a tuple is made in a fifth of the time

    body: bytes
    units: int
    letters: int
    missing: bool
    left: float
    bottom: float
    right: float
    top: float
    area: float
    edges: float
    advance: float = 0.0
    parts: "tuple[Drawn, ...]" = ()
    """Of a line with words of several faces its stretches, from left to right; then `body` is
    empty."""

    @property
    def drawn(self) -> "tuple[Drawn, ...]":
        """What a plate draws of it, one after the other."""
        return tuple(part for part in self.parts if part.line.letters) or (Drawn(self),)


@dataclass(frozen=True, slots=True)
class Drawn:
    """A stretch of a line: where its origin stands (em of the line) and its share of the size.

    `script` is what its face stands in for, "" in the hand's own.
    """

    line: DrawnLine
    start: float = 0.0
    share: float = 1.0
    script: str = ""


def is_lacking(told: str) -> bool:
    """True when HarfBuzz wrote of a glyph that stands for nothing."""
    return re.search(r"(?:^|\|)0[@+|]|(?:^|\|)0$", told) is not None


class Lines:
    """Shapes the words of one face as one hand of the set letters them."""

    def __init__(
        self,
        face: Face,
        letters: Letters | None = None,
        first: int = 0,
        spelling: Spelling = OUTLINED,
    ) -> None:
        """Open the face in both libraries, or take its letters; a plate counts from `first`.

        Raises:
            Objection: the face can't be read.
        """
        letters = letters if letters is not None else Letters(face, face_data(face))
        self._face = face
        self._letters = letters
        self._units = letters.units_per_em
        self._features = dict(face.features)
        self._font = hb.Font(hb.Face(hb.Blob(letters.data), face.index))
        self._font.scale = (self._units, self._units)
        if face.axes:
            self._font.set_variations(dict(face.axes))
        self._words = Words(letters, self._font.get_nominal_glyph(0x20), first, spelling)
        self._spelling, self._number = spelling, first // FACE
        self.line = lru_cache(maxsize=KEPT)(self._line)
        self._clear_before = lru_cache(self._clear)

    @property
    def used(self) -> frozenset[int]:
        """Every glyph with ink that was asked for so far."""
        return frozenset(self._words.used)

    @property
    def known(self) -> int:
        """How many those are."""
        return len(self._words.used)

    def cased(self, text: str) -> str:
        """Words as the hand writes them."""
        if self._face.small_words:
            return "".join(map(small, re.split("( )", text)))
        return text.upper() if self._face.in_capitals else text

    def lacks(self, words: str) -> bool:
        """True when the font has no glyph for something in words that stand alone."""
        return is_lacking(self._shape_run(self.cased(words)))

    def crowds(self, word: str) -> bool:
        """True where a word's first letter swings out so far that it takes the blank before it."""
        return word[:1].isupper() and self._clear_before(word[0]) < CLEAR

    def _clear(self, letter: str) -> float:
        """What is left of a blank before a letter (em)."""
        told = TOLD.fullmatch(self._shape_run(letter).partition("|")[0])
        blank = self._font.get_nominal_glyph(0x20)
        if told is None or not blank:
            return 0.0
        wide = self._font.get_glyph_h_advance(blank)
        wide += round(self._units * self._face.word_space / 1000)
        return (
            float(wide + int(told[2] or 0) + self._letters.letter(int(told[1])).left) / self._units
        )

    def stretch(self, text: str, leftwards: bool | None) -> DrawnLine:  # noqa: FBT001 - of a run
        """Words that run one way, alone."""
        return self.drawn(self._shape_run(self.cased(text), leftwards))

    @property
    def spacing(self) -> float:
        """Between letters, in em."""
        return round(self._units * self._face.tracking / 1000) / self._units

    def height(self, *, capitals: bool) -> float:
        """How high small letters or capitals are, in em; 0 where the font doesn't say."""
        return self._letters.height(capitals=capitals)

    def shape(self, text: str) -> str:
        """The glyphs of a line as HarfBuzz writes them (faster than asking for each)."""
        text = self.cased(text)
        if is_plain(text):
            return self._shape_run(text)
        return "|".join(self._shape_run(*run) for run in visual_runs(text))

    def _shape_run(self, text: str, leftwards: bool | None = None) -> str:  # noqa: FBT001 - of a run
        """The glyphs of words that run one way; None leaves it to their script."""
        buffer = hb.Buffer()
        buffer.add_str(text)
        buffer.language = LANGUAGE
        buffer.guess_segment_properties()
        if leftwards is not None:
            buffer.direction = "rtl" if leftwards else "ltr"
        hb.shape(self._font, buffer, self._features)
        told: str = buffer.serialize(self._font, flags=_PLAINLY)[1:-1]
        if told and self._face.word_space:
            told = self._parted(told)
        return self._tracked(told) if told and self._face.tracking and not leftwards else told

    def _parted(self, told: str) -> str:
        """The line with its words further apart: each blank's own advance is more."""
        more = round(self._units * self._face.word_space / 1000)
        blank = str(self._font.get_nominal_glyph(0x20))
        parts = told.split("|")
        for at, part in enumerate(parts):
            glyph, plus, advance = part.partition("+")
            if glyph == blank and plus:
                across, comma, rise = advance.partition(",")
                parts[at] = f"{glyph}+{int(across) + more}{comma}{rise}"
        return "|".join(parts)

    def _tracked(self, told: str) -> str:
        """The line with its letters apart: space goes before each with ink and an advance.

        Nothing goes before the line's first; accents have no advance and stay where they are.
        """
        space = round(self._units * self._face.tracking / 1000)
        spaced = False
        parts: list[str] = []
        for one in reversed(told.split("|")):
            match = TOLD.fullmatch(one)
            if match is None:
                raise Objection("The face can't be shaped.")
            glyph, x, y, advance, rise = match.groups()
            across = int(advance or 0)
            moved = f"@{x},{y}" if x else ""
            parts.append(f"{glyph}{moved}+{across + (space if spaced else 0)}")
            parts[-1] += f",{rise}" if rise else ""
            spaced = across != 0 and bool(self._letters.letter(int(glyph)).outline)
        return "|".join(reversed(parts))

    def _line(self, text: str) -> DrawnLine:
        return self.drawn(self.shape(text))

    def drawn(self, told: str) -> DrawnLine:
        """Place word behind word, the first glyph of each from the last one before it."""
        pen_x = pen_y = last_x = last_y = letters = 0
        left = bottom = inf
        right = top = -inf
        area = edges = 0.0
        missing = False
        drawn: list[bytes] = []
        words, steps = self._words, self._words.steps
        for part in words.cut(told) if told else ():
            first, start, rest, last, many, lost, ink, covered, level, advance, rise = words[part]
            if lost:
                missing = True
            if many:
                x, y = start
                place = pen_x + x - last_x, pen_y + y - last_y, first
                drawn += (steps.get(place) or words.step(place), rest)
                last_x, last_y = last
                last_x += pen_x
                last_y += pen_y
                edge_x, edge_y, far_x, far_y = ink  # no min, no max: calls take twice as long
                left = pen_x + edge_x if pen_x + edge_x < left else left  # noqa: FURB136
                bottom = pen_y + edge_y if pen_y + edge_y < bottom else bottom  # noqa: FURB136
                right = pen_x + far_x if pen_x + far_x > right else right  # noqa: FURB136
                top = pen_y + far_y if pen_y + far_y > top else top  # noqa: FURB136
                area += covered
                edges += level
                letters += many
            pen_x += advance
            pen_y += rise
        em = self._units
        if not letters:
            return DrawnLine(b"", em, 0, missing, *(0.0,) * 6, pen_x / em)
        bounds = left / em, bottom / em, right / em, top / em
        covers = area / em**2, edges / em
        body = self._spelling.line(b"".join(drawn), self._number, em)
        return DrawnLine(body, em, letters, missing, *bounds, *covers, pen_x / em)
