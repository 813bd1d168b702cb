"""What a page draws: each line's glyphs, one after the other, in font units scaled to size."""

from collections.abc import Iterator

from addressing.plates.inks import laying_on
from addressing.plates.numbers import number
from addressing.records.pages import Outlines, Page, ShapedLine
from addressing.records.shelf import Ink

LINES_KEPT = 4096
"""Drawn lines kept, for towns and countries that repeat. Bounded: memory stays flat."""


class Drawer:
    """Draws pages of one plate, and knows which glyphs were used."""

    def __init__(self, ink: Ink, outlines: Outlines, step: bytes = b"") -> None:
        """Every page begins with the ink, and the step to the piece's place on the page.

        The outlines say which glyphs are blank.
        """
        self._opening = laying_on(ink) + step
        self._outlines = outlines
        self._used: set[int] = set()
        self._blank: set[int] = set()
        self._operators: dict[tuple[int, int, int], bytes] = {}
        self._lines: dict[str, tuple[ShapedLine, bytes]] = {}
        self._scales: dict[tuple[float, int], str] = {}

    def used(self) -> frozenset[int]:
        """The glyphs that were drawn so far."""
        return frozenset(self._used)

    def page(self, page: Page) -> bytes:
        """The content stream of a page, not yet compressed."""
        parts = [self._opening]
        if page.turns:
            return b"".join([*parts, *self._turned(page)])
        for line, x, y, size in page.lines:
            scale = self._scales.get((size, line.em)) or self._scale(size, line.em)
            opening = f"q {scale} 0 0 {scale} {number(x)} {number(y)} cm\n"
            parts += (opening.encode("ascii"), self._line(line), b"Q\n")
        return b"".join(parts)

    def _turned(self, page: Page) -> Iterator[bytes]:
        """Lines that aren't level, each with the whole of its step."""
        for (line, x, y, size), (cos, sin) in zip(page.lines, page.turns, strict=True):
            scale = size / line.em
            across, up, down = (number(part * scale, 8) for part in (cos, sin, -sin))
            place = f"{number(x)} {number(y)}"
            opening = f"q {across} {up} {down} {across} {place} cm\n"
            yield from (opening.encode("ascii"), b"".join(self._glyphs(line)), b"Q\n")

    def _scale(self, size: float, em: int) -> str:
        written = self._scales[size, em] = number(size / em, 8)
        return written

    def _line(self, line: ShapedLine) -> bytes:
        """The glyphs of a line; the same record was drawn before, or it is drawn now."""
        known = self._lines.get(line.text)
        if known is not None and known[0] is line:
            return known[1]
        drawn = b"".join(self._glyphs(line))
        if len(self._lines) >= LINES_KEPT:
            self._lines.pop(next(iter(self._lines)))
        self._lines[line.text] = (line, drawn)
        return drawn

    def _glyphs(self, line: ShapedLine) -> list[bytes]:
        """One operator line for each glyph with ink; what was drawn before is looked up."""
        operators, blank = self._operators, self._blank
        drawn = []
        at_x = at_y = 0
        for glyph, x, y in line.placed():
            if glyph in blank:
                continue
            place = x - at_x, y - at_y, glyph
            operator = operators.get(place)
            if operator is None:
                operator = self._operator(place)
                if not operator:
                    continue
            drawn.append(operator)
            at_x = x
            at_y = y
        return drawn

    def _operator(self, place: tuple[int, int, int]) -> bytes:
        """Draw a glyph at a distance that is new; b"" for a blank, which is not drawn."""
        dx, dy, glyph = place
        if not self._outlines.glyphs[glyph]:
            self._blank.add(glyph)
            return b""
        self._used.add(glyph)
        written = self._operators[place] = b"1 0 0 1 %d %d cm /g%d Do\n" % (dx, dy, glyph)
        return written
