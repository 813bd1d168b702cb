"""Passages of the operator's sheet: headings, paragraphs, lists of what to do."""

from collections.abc import Iterable, Sequence
from dataclasses import replace

from addressing.proofs.flow import Block, Pen, Sheet, gap
from addressing.proofs.lettering import wrap
from addressing.proofs.look import ASIDE, BODY, CAPTION, FAINT, SECTION, SMALL

INDENT = 18.0


def heading(words: str) -> list[Block]:
    """A heading, tied to what follows."""

    def draw(pen: Pen, left: float, top: float) -> None:
        pen.words(left, top - SECTION.size, words, SECTION)

    return [gap(14), Block(SECTION.leading + 6, draw, keep=True)]


def paragraph(text: str, sheet: Sheet, *, keep: bool = False) -> Block:
    """Words broken to the measure; with `keep` they are tied to what follows."""
    lines = wrap(text, ASIDE, sheet.measure * 0.85)

    def draw(pen: Pen, left: float, top: float) -> None:
        for number, line in enumerate(lines):
            pen.words(left, top - ASIDE.size - number * ASIDE.leading, line, ASIDE)

    return Block(len(lines) * ASIDE.leading + 4, draw, keep=keep)


def listed(
    title: str, items: Iterable[str], sheet: Sheet, *, numbered: bool = False
) -> list[Block]:
    """A title and a point for each item, numbered ones with a box to tick; or nothing."""
    texts = tuple(items)
    if not texts:
        return []

    def head(pen: Pen, left: float, top: float) -> None:
        pen.words(left, top - BODY.size, title, BODY)

    first, *others = points(texts, sheet, "" if numbered else "–")
    if others:
        first = replace(first, keep=True)  # no point alone at the foot of a sheet
    return [gap(7), Block(BODY.leading + 3, head, keep=True), first, *others]


def points(texts: Sequence[str], sheet: Sheet, sign: str) -> list[Block]:
    """Points with a sign, or with their number and a box to tick where the sign is empty."""
    return [_point(text, sign or str(number), sheet) for number, text in enumerate(texts, start=1)]


def _point(text: str, sign: str, sheet: Sheet) -> Block:
    lines = wrap(text, SMALL, sheet.measure * 0.92 - INDENT)

    def draw(pen: Pen, left: float, top: float) -> None:
        pen.words(left, top - SMALL.size, sign, CAPTION)
        for number, line in enumerate(lines):
            pen.words(left + INDENT, top - SMALL.size - number * SMALL.leading, line, SMALL)
        if sign.isdecimal():
            pen.canvas.setLineWidth(0.5)
            pen.canvas.setStrokeColorRGB(*FAINT)
            pen.canvas.rect(left + sheet.measure - 8, top - SMALL.size - 0.5, 8, 8, fill=0)

    return Block(len(lines) * SMALL.leading + 2.5, draw)
