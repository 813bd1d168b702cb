"""The sheet's own small type: which letters a face has, how wide words are, where lines break.

The words on envelopes are never set here: they come as outlines. This is for captions, findings and
tables, in two open faces that are embedded.
"""

from dataclasses import dataclass
from enum import StrEnum
from functools import cache

import fontpkg
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont


class Cut(StrEnum):
    """The cuts that the sheets use."""

    ROMAN = "ProofRoman"
    ITALIC = "ProofItalic"
    SPARE = "ProofSpare"
    """For characters that the first two don't have."""


_SOURCES = {
    Cut.ROMAN: ("eb-garamond", "normal"),
    Cut.ITALIC: ("eb-garamond", "italic"),
    Cut.SPARE: ("noto-serif", "normal"),
}


@dataclass(frozen=True, slots=True)
class Style:
    """How words look: cut, size (pt), distance between baselines (pt), grey or colour (sRGB)."""

    cut: Cut
    size: float
    leading: float
    colour: tuple[float, float, float]
    tracking: float = 0.0
    """Extra space after each letter, points."""


@cache
def face(cut: Cut) -> TTFont:
    """The cut as a font that is embedded where it is used."""
    family, style = _SOURCES[cut]
    font = TTFont(cut.value, str(fontpkg.path(family, style=style)))
    pdfmetrics.registerFont(font)
    return font


def _has(cut: Cut, character: str) -> bool:
    return ord(character) in face(cut).face.charToGlyph


@cache
def _cut_for(cut: Cut, character: str) -> Cut | None:
    """The first of a cut and the spare one that has the character."""
    return next((one for one in (cut, Cut.SPARE) if _has(one, character)), None)


def runs(text: str, cut: Cut) -> tuple[tuple[Cut, str], ...]:
    """The text in runs of one cut each.

    reportlab leaves out in silence what a font lacks; so a character that neither face has is
    written by its number, `[U+05D3]`.
    """
    found: list[tuple[Cut, str]] = []
    for character in text:
        chosen = _cut_for(cut, character)
        run = (chosen, character) if chosen else (cut, f"[U+{ord(character):04X}]")
        if found and found[-1][0] == run[0]:
            found[-1] = (run[0], found[-1][1] + run[1])
        else:
            found.append(run)
    return tuple(found)


def width(text: str, style: Style) -> float:
    """How wide the words are, in points."""
    parts = runs(text, style.cut)
    letters = sum(len(part) for _, part in parts)
    plain = sum(face(cut).stringWidth(part, style.size) for cut, part in parts)
    return float(plain) + style.tracking * letters


def wrap(text: str, style: Style, room: float) -> tuple[str, ...]:
    """The words in lines no wider than `room` points; a longer word is broken where it must be.

    Any white space counts as one blank; no words give no line. A single character that is wider
    than the room still gets its line.
    """
    lines: list[str] = []
    for word in text.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and width(longer, style) <= room:
            lines[-1] = longer
        else:
            lines.extend(_pieces(word, style, room))
    return tuple(lines)


def _pieces(word: str, style: Style, room: float) -> list[str]:
    """A word, in pieces that fit."""
    pieces = [""]
    for character in word:
        if pieces[-1] and width(pieces[-1] + character, style) > room:
            pieces.append("")
        pieces[-1] += character
    return pieces


def shortened(text: str, style: Style, room: float) -> str:
    """The words on one line, with "…" where they are too long."""
    text = " ".join(text.split())
    if width(text, style) <= room:
        return text
    while text and width(text + "…", style) > room:
        text = text[:-1]
    return text.rstrip() + "…"
