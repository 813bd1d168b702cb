"""A proof read again: which envelopes it shows, letter by letter, and that nothing lies over them.

Its pages are held against the one way in which a proof draws; what is drawn in another way is told.
"""

import io
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path

import pikepdf

Letters = tuple[tuple[str, float, float], ...]
"""Each letter's form, and its origin from the line's, in font units."""

_NUMBER = r"(-?[0-9]*\.?[0-9]+)"
_PAPER = re.compile(f"n {_NUMBER} {_NUMBER} {_NUMBER} {_NUMBER} re B\\*")
_MATRIX = re.compile(" ".join([_NUMBER] * 6) + " cm")
_LEVEL = (1.0, 0.0, 0.0, 1.0)
_LETTER = re.compile(r"/FormXob\.([a-z0-9-]+-[0-9]+) Do")
_WORDS = re.compile(f"BT 1 0 0 1 {_NUMBER} {_NUMBER} Tm (3 Tr )?.* ET")
_REST = re.compile(
    r"|[qQS]|[0-9. ]+ (?:rg|RG|w|j|J)|\[[0-9. ]*\] 0 d|/FormXob\.seal Do|"
    r"n [-0-9. ]+ m(?: [-0-9. ]+ l)+(?: S)?|n [-0-9. ]+ re S"
)
"""What else a proof draws with: states, rules, a flap's edge, boxes to tick, the seal."""
_DASHED = "[2.5 2] 0 d"
"""How the edge of an envelope that waits is drawn."""


@dataclass(slots=True)
class _Line:
    """A line while it is read: its matrix, where the pen is, its letters."""

    step: tuple[float, ...] | None = None
    pen: tuple[float, float] = (0.0, 0.0)
    letters: list[tuple[str, float, float]] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class Drawn:
    """A line as it is drawn: its letters, its origin in parts of the envelope's width.

    `em` is the matrix of its letters (a, b), in widths of the envelope for a font unit.
    """

    letters: Letters
    place: tuple[float, float]
    em: tuple[float, float]


@dataclass(frozen=True, slots=True)
class Envelope:
    """One envelope or card of a proof, on which sheet, whether it waits; its lines as drawn."""

    sheet: int
    waits: bool
    lines: tuple[Drawn, ...]


@dataclass(frozen=True, slots=True)
class Proofed:
    """What a proof shows: envelopes in order, the outline of each form, what no proof draws."""

    envelopes: tuple[Envelope, ...]
    outlines: Mapping[str, str]
    strange: tuple[str, ...]


class Unread(Exception):
    """The sheets can't be read as a proof."""


def read_proof(sheets: Path | bytes) -> Proofed:
    """The envelopes that a proof's sheets show.

    Raises:
        Unread: it is no PDF, or locked.
    """
    source = io.BytesIO(sheets) if isinstance(sheets, bytes) else sheets
    try:
        with pikepdf.open(source, suppress_warnings=True) as document:
            return _read(document)
    except (pikepdf.PdfError, OSError, ValueError) as error:
        raise Unread from error


def _read(document: pikepdf.Pdf) -> Proofed:
    envelopes: list[Envelope] = []
    outlines: dict[str, str] = {}
    strange: list[str] = []
    for number, page in enumerate(document.pages, start=1):
        if "/Annots" in page.obj:
            strange.append(f"Sheet {number} of it has a note or a stamp laid on it.")
        for name, form in page.resources.get("/XObject", {}).items():
            key = str(name).removeprefix("/FormXob.")
            if key not in outlines and isinstance(form, pikepdf.Stream):
                outlines[key] = form.read_bytes().decode("latin-1")
        sheet = _Sheet(number)
        for operator in page.Contents.read_bytes().decode("latin-1").split("\n"):
            sheet.take(operator.strip())
        envelopes += sheet.envelopes
        strange += sheet.faults()
    return Proofed(tuple(envelopes), outlines, tuple(dict.fromkeys(strange)))


class _Sheet:
    """Takes the operators of one sheet, as a reader of PDF does."""

    def __init__(self, number: int) -> None:
        self.number = number
        self.envelopes: list[Envelope] = []
        self._papers: list[tuple[float, ...]] = []
        self._words: list[tuple[float, float]] = []
        self._strange = self._dashed = False
        self._line = _Line()

    def take(self, operator: str) -> None:
        """One line of the sheet's content."""
        if matrix := _MATRIX.fullmatch(operator):
            self._move(tuple(map(float, matrix.groups())))
        elif letter := _LETTER.fullmatch(operator):
            self._line.letters.append((letter[1], *self._line.pen))
        elif operator in {"q", "Q"}:
            self._close()
        else:
            self._stand(operator)

    def faults(self) -> Iterator[str]:
        """What it draws that no proof does."""
        if self._strange:
            yield f"Sheet {self.number} of it draws what no proof of this program does."
        if any(_within(at, paper) for at in self._words for paper in self._papers):
            yield f"Sheet {self.number} of it has words laid over an envelope."

    def _stand(self, operator: str) -> None:
        """What is no letter: an envelope's paper, words beside it, colours and rules."""
        if paper := _PAPER.fullmatch(operator):
            self._papers.append(tuple(map(float, paper.groups())))
            self.envelopes.append(Envelope(self.number, self._dashed, ()))
        elif words := _WORDS.fullmatch(operator):
            self._words += [] if words[3] else [(float(words[1]), float(words[2]))]
        elif operator == _DASHED:
            self._dashed = True
        elif not _REST.fullmatch(operator):
            self._strange = True

    def _move(self, matrix: tuple[float, ...]) -> None:
        line = self._line
        if line.step is None:
            line.step = matrix
        elif matrix[:4] == _LEVEL:
            line.pen = (line.pen[0] + matrix[4], line.pen[1] + matrix[5])
        else:
            self._strange = True

    def _close(self) -> None:
        """A line begins or ends: the letters until here are one of the last envelope's lines."""
        own = self._line
        if own.letters and own.step is not None and self._papers:
            left, bottom, wide, _ = self._papers[-1]
            a, b, _, _, x, y = own.step
            place, em = ((x - left) / wide, (y - bottom) / wide), (a / wide, b / wide)
            last = self.envelopes[-1]
            line = Drawn(tuple(own.letters), place, em)
            self.envelopes[-1] = replace(last, lines=(*last.lines, line))
        elif own.letters:
            self._strange = True
        self._line, self._dashed = _Line(), False


def _within(at: tuple[float, float], paper: tuple[float, ...]) -> bool:
    left, bottom, wide, high = paper
    return left <= at[0] <= left + wide and bottom <= at[1] <= bottom + high
