"""A page seen right at a glance: byte for byte what its words, shaped again, ask for.

There is one way of writing a page, so a right one can be foretold: its dictionary (alike within a
branch, save where its drawing is), what it begins with, and for each line its step and its letters.
What equals that needs no reading. Anything else, and any page out of the common run, is left to
`pages`, which reads by the grammar and names what is wrong: a glance never says that a page is
wrong, and nothing that it lets pass is held against less.
"""

import re
from collections.abc import Sequence

from addressing.preflight.bench import Bench
from addressing.preflight.frames import framed
from addressing.preflight.hanging import hanging_ends
from addressing.preflight.laying import unlaid
from addressing.preflight.lines import DrawnLine
from addressing.preflight.pages import PageReading
from addressing.preflight.standing import Standing
from addressing.preflight.turning import is_level
from addressing.preflight.values import Objection
from addressing.preflight.weighing import Scales
from addressing.preflight.words import is_verbatim
from addressing.records.set_lines import SetLine, SetPiece

_STREAM = re.compile(
    rb"([1-9][0-9]{0,9}) 0 obj\n<< /Length ([1-9][0-9]{0,6}) /Filter /FlateDecode >>\nstream\n"
)
_STREAM_END = b"\nendstream\nendobj\n"
_CONTENTS = b" /Contents "
_PAGE_END = b" 0 R >>\nendobj\n"
_NUMBER = re.compile(rb"[1-9][0-9]{0,9}")
KEPT = 4096
"""What is remembered of written numbers: a set has few sizes and few heights."""


class Glance:
    """Knows what the pages of a plate must be, and remembers what was found right on others."""

    def __init__(self, bench: Bench) -> None:
        """A bench of sheets, or of lines that are bent or turned, has no pages for a glance."""
        self._bench = bench
        self._line_of = bench.faces.by_role()
        self._able = not bench.parts and is_level(bench.setting)
        self._standing = Standing(bench.setting, hanging_ends(bench.setting, bench.faces))
        self._scales = Scales()
        self._frames: dict[int, bytes] = {}
        self._beginning: bytes | None = None
        self._steps: dict[tuple[float, int], bytes] = {}
        self._heights: dict[float, bytes] = {}

    def page(self, index: int) -> PageReading | None:
        """The reading of a page that is right in all; None where that needs a closer look."""
        try:
            return self._seen(index)
        except Objection:  # it is met again, and told, where the page is read
            return None

    def _seen(self, index: int) -> PageReading | None:
        bench = self._bench
        placed = bench.expected(index) if self._able else None
        if placed is None or placed.fallbacks:
            return None
        contents = self._contents(index)
        if not contents:
            return None
        line_of = self._line_of
        ready = [(line, line_of[line.role](line.text)) for line in placed.lines]
        if not self._is_set_right(placed, ready):
            return None
        own = bench.own(placed)
        drawn = ready if own is placed.lines else [each for each in ready if each[0] in own]
        wanted = self._wanted(drawn)
        if wanted is None or not self._holds(contents, wanted):
            return None
        return PageReading(contents, len(drawn), sum([words.letters for _, words in drawn]))

    def learn(self, index: int) -> None:
        """Take from a page that the grammar found right what other pages have in common with it."""
        bench = self._bench
        if not self._able:
            return
        file, skeleton = bench.file, bench.skeleton
        contents, wrong = framed(file, skeleton, bench.at, index)
        if wrong:
            return
        text = file.plain(skeleton.pages[index])
        self._frames[skeleton.parents[index]] = text[: text.rindex(_CONTENTS)]
        stream = file.stream(contents)[1]
        opening = bench.opening
        lines = unlaid(stream, opening, bench.at)[len(opening) :]
        self._beginning = stream[: len(stream) - len(lines)]

    def _is_set_right(self, placed: SetPiece, ready: Sequence[tuple[SetLine, DrawnLine]]) -> bool:
        """True for a piece set as it was worded, with ink, in its own face, where it should be."""
        piece = self._bench.pieces.get(placed.household)
        for _, words in ready:
            if words.missing or not words.letters or words.parts:
                return False
        return piece is not None and is_verbatim(piece, placed) and self._standing.right(ready)

    def _contents(self, index: int) -> int:
        """The object of a page's drawing, if its dictionary is as on a right page; else 0."""
        skeleton, file = self._bench.skeleton, self._bench.file
        frame = self._frames.get(skeleton.parents[index])
        number = skeleton.pages[index]
        if frame is None:
            return 0
        before = b"%d 0 obj\n%b%b" % (number, frame, _CONTENTS)
        text = file.raw(number)
        if not (text.startswith(before) and text.endswith(_PAGE_END)):
            return 0
        told = text[len(before) : -len(_PAGE_END)]
        return int(told) if _NUMBER.fullmatch(told) else 0

    def _holds(self, number: int, wanted: bytes) -> bool:
        """True for an object that is a stream of this drawing, and nothing else."""
        file = self._bench.file
        if number > file.count:
            return False
        text = file.raw(number)
        head = _STREAM.match(text)
        if head is None or int(head[1]) != number:
            return False
        stop = head.end() + int(head[2])
        if text[stop:] != _STREAM_END:
            return False
        return self._scales.unpacked(text[head.end() : stop], number, len(wanted)) == wanted

    def _wanted(self, drawn: Sequence[tuple[SetLine, DrawnLine]]) -> bytes | None:
        """What a page must hold that draws these lines; None before the beginning is known."""
        if self._beginning is None:
            return None
        parts = [self._beginning]
        for line, words in drawn:
            step = self._steps.get((line.size, words.units)) or self._step(line.size, words.units)
            height = self._heights.get(line.y) or self._height(line.y)
            parts += (step, _written(line.x, 3), height, words.body, b"Q\n")
        return b"".join(parts)

    def _step(self, size: float, units: int) -> bytes:
        """How a level line begins, to its place."""
        if len(self._steps) >= KEPT:
            self._steps.clear()
        unit = _written(size / units, 8)
        step = self._steps[size, units] = b"q %b 0 0 %b " % (unit, unit)
        return step

    def _height(self, y: float) -> bytes:
        """Where a level line stands, from its height on."""
        if len(self._heights) >= KEPT:
            self._heights.clear()
        height = self._heights[y] = b" %b cm\n" % _written(y, 3)
        return height


def _written(value: float, decimals: int) -> bytes:
    """A number in the one way in which a plate writes it."""
    plain = (b"%.*f" % (decimals, value)).rstrip(b"0").rstrip(b".")
    return b"0" if plain == b"-0" else plain
