"""How a plate writes the letters of a line: as drawings of its own, or as type of its fonts."""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from addressing.records.pages import FACE


@dataclass(frozen=True, slots=True)
class Spelling:
    """One way of writing.

    `letter` takes the step from the letter before and a number: a letter's own where `mask` keeps
    all of it, else that in its font. A line begins with `head` (the face's number, units of an em)
    and ends with `foot`.
    """

    letter: bytes
    mask: int
    head: bytes
    foot: bytes
    _read: re.Pattern[bytes]

    def line(self, drawn: bytes, face: int, units: int) -> bytes:
        """All that stands between a line's step and its end; nothing where nothing is drawn."""
        if not self.head or not drawn:
            return drawn
        return self.head % (face, units) + drawn + self.foot

    def letters(self, body: bytes) -> Iterator[tuple[int, int, int]]:
        """Each letter of a line, by the plate's number, with its place from the line's origin."""
        first, x, y = 0, 0, 0
        if self.head:
            first = FACE * int(body[len(b"BT\n/F") : body.index(b" ")])
        for step in self._read.finditer(body):
            x, y = x + int(step[1]), y + int(step[2])
            yield first + int(step[3], 16 if self.head else 10), x, y

    def alone(self, number: int, units: int) -> bytes:
        """A line of one letter, by the plate's number."""
        return self.line(self.letter % (0, 0, number & self.mask), number // FACE, units)


OUTLINED = Spelling(
    b"1 0 0 1 %d %d cm /g%d Do\n",
    -1,
    b"",
    b"",
    re.compile(rb"1 0 0 1 (-?[0-9]+) (-?[0-9]+) cm /g([0-9]+) Do\n"),
)
LIVE = Spelling(
    b"%d %d Td <%04X> Tj\n",
    FACE - 1,
    b"BT\n/F%d %d Tf\n",
    b"ET\n",
    re.compile(rb"(-?[0-9]+) (-?[0-9]+) Td <([0-9A-F]{4})> Tj\n"),
)
