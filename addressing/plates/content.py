"""What a page draws: each line's glyphs, one after the other, in font units scaled to size."""

from collections.abc import Iterator
from itertools import pairwise
from typing import NamedTuple

from addressing.plates.numbers import number
from addressing.records.pages import FACE, Outlines, Page, ShapedLine, Word

LINES_KEPT = 4096
"""Drawn lines kept, for towns and countries that repeat. Bounded: memory stays flat."""

WORDS_KEPT = 16384
"""Drawn words kept."""


class _Drawn(NamedTuple):
    """A word drawn: its first glyph with ink and where that stands, the others, the last's place.

    Places are from the word's own pen.
    """

    word: Word
    first: int
    x: int
    y: int
    others: bytes
    last_x: int
    last_y: int


class Drawer:
    """Draws pages in one ink, and knows which glyphs were used."""

    def __init__(
        self, opening: bytes, outlines: Outlines, above: int = 0, *, live: bool = False
    ) -> None:
        """Every page begins with the ink, and the step to the piece's place on the page.

        The outlines say which glyphs are blank. The plate numbers glyphs from `above` on, or with
        live type draws them from its fonts, each by its number in its own.
        """
        self._opening = opening
        self._outlines = outlines
        self._above = above
        self._live = live
        self._used: set[int] = set()
        self._blank: set[int] = set()
        self._operators: dict[tuple[int, int, int], bytes] = {}
        self._lines: dict[str, tuple[ShapedLine, bytes]] = {}
        self._words: dict[int, _Drawn] = {}
        self._scales: dict[tuple[float, int], bytes] = {}
        self._heights: dict[float, bytes] = {}

    def used(self) -> frozenset[int]:
        """The glyphs that were drawn so far, as the plate numbers them."""
        return frozenset([self._above + glyph for glyph in self._used])

    def page(self, page: Page) -> bytes:
        """The content stream of a page, not yet compressed."""
        parts = [self._opening]
        if page.turns:
            return b"".join([*parts, *self._turned(page)])
        for line, x, y, size in page.lines:
            scale = self._scales.get((size, line.em)) or self._scale(size, line.em)
            height = self._heights.get(y) or self._height(y)
            parts += (scale, number(x).encode("ascii"), height, self._line(line), b"Q\n")
        return b"".join(parts)

    def _turned(self, page: Page) -> Iterator[bytes]:
        """Lines that aren't level, each with the whole of its step."""
        for (line, x, y, size), (cos, sin) in zip(page.lines, page.turns, strict=True):
            scale = size / line.em
            across, up, down = (number(part * scale, 8) for part in (cos, sin, -sin))
            place = f"{number(x)} {number(y)}"
            opening = f"q {across} {up} {down} {across} {place} cm\n"
            yield from (opening.encode("ascii"), self._body(line), b"Q\n")

    def _scale(self, size: float, em: int) -> bytes:
        """How a level line begins; there are few sizes."""
        scale = number(size / em, 8)
        written = self._scales[size, em] = f"q {scale} 0 0 {scale} ".encode("ascii")
        return written

    def _height(self, y: float) -> bytes:
        """How a level line goes on behind its place from the left; there are few heights."""
        if len(self._heights) >= LINES_KEPT:
            self._heights.clear()
        written = self._heights[y] = f" {number(y)} cm\n".encode("ascii")
        return written

    def _line(self, line: ShapedLine) -> bytes:
        """The glyphs of a line; the same record was drawn before, or it is drawn now."""
        known = self._lines.get(line.text)
        if known is not None and known[0] is line:
            return known[1]
        drawn = self._body(line)
        if len(self._lines) >= LINES_KEPT:
            self._lines.clear()  # to take away the oldest alone takes longer than to draw some anew
        self._lines[line.text] = (line, drawn)
        return drawn

    def _body(self, line: ShapedLine) -> bytes:
        """All that draws a line; as live type in its font, at as many points as make an em."""
        drawn = b"".join(self._glyphs(line))
        if not (self._live and drawn):
            return drawn
        number = line.words[0].glyphs[0] // FACE
        return b"BT\n/F%d %d Tf\n%bET\n" % (number, line.em, drawn)

    def _glyphs(self, line: ShapedLine) -> list[bytes]:
        """One operator line for each glyph with ink; words that were drawn before are looked up."""
        drawn: list[bytes] = []
        pen = height = at_x = at_y = 0
        for word in line.words:
            known = self._words.get(id(word)) or self._word(word)
            if known is not None:
                _, first, x, y, others, last_x, last_y = known
                place = pen + x - at_x, height + y - at_y, first
                drawn += (self._operators.get(place) or self._operator(place), others)
                at_x, at_y = pen + last_x, height + last_y
            pen += word.span[0]
            height += word.span[1]
        return drawn

    def _word(self, word: Word) -> _Drawn | None:
        """A word that is new, drawn and kept; None for one without ink."""
        inked = [
            each
            for each in zip(word.glyphs, word.xs, word.ys, strict=True)
            if self._has_ink(each[0])
        ]
        if not inked:
            return None
        others = []
        for (_, at_x, at_y), (glyph, x, y) in pairwise(inked):
            place = x - at_x, y - at_y, glyph
            others.append(self._operators.get(place) or self._operator(place))
        if len(self._words) >= WORDS_KEPT:
            self._words.clear()
        drawn = _Drawn(word, *inked[0], b"".join(others), *inked[-1][1:])
        self._words[id(word)] = drawn
        return drawn

    def _has_ink(self, glyph: int) -> bool:
        """Whether a glyph is drawn; it then counts as used."""
        if glyph in self._used:
            return True
        if glyph in self._blank:
            return False
        (self._used if self._outlines.glyphs[glyph] else self._blank).add(glyph)
        return glyph in self._used

    def _operator(self, place: tuple[int, int, int]) -> bytes:
        """Draw a glyph at a distance that is new."""
        dx, dy, glyph = place
        if self._live:
            written = b"%d %d Td <%04X> Tj\n" % (dx, dy, glyph % FACE)
        else:
            written = b"1 0 0 1 %d %d cm /g%d Do\n" % (dx, dy, self._above + glyph)
        self._operators[place] = written
        return written
