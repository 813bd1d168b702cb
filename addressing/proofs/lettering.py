"""The sheet's own small type: which letters a face has, how wide words are, where lines break.

The words on envelopes are never set here: they come as outlines. This is for captions, findings and
tables, in two open faces that are embedded. Hebrew and Arabic names stand in faces of their own, in
the order in which they are read and with their letters joined.
"""

import unicodedata
from dataclasses import dataclass
from enum import StrEnum
from functools import cache, lru_cache

import fontpkg
from arabic_reshaper import ArabicReshaper
from bidi import get_display
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont

from addressing.records.proofs import BLANK_SEAL, SEAL


class Cut(StrEnum):
    """The cuts that the sheets use."""

    ROMAN = "ProofRoman"
    ITALIC = "ProofItalic"
    SPARE = "ProofSpare"
    """For characters that the first two don't have."""
    HEBREW = "ProofHebrew"
    ARABIC = "ProofArabic"


_SOURCES = {
    Cut.ROMAN: ("eb-garamond", "normal"),
    Cut.ITALIC: ("eb-garamond", "italic"),
    Cut.SPARE: ("noto-serif", "normal"),
    Cut.HEBREW: ("frank-ruhl-libre", "normal"),
    Cut.ARABIC: ("amiri", "normal"),
}
_SPARES = (Cut.SPARE, Cut.HEBREW, Cut.ARABIC)

_LEFTWARDS = frozenset({"R", "AL"})
_MARKS = frozenset({"LRE", "RLE", "LRO", "RLO", "PDF", "LRI", "RLI", "FSI", "PDI"})
"""Classes of Unicode Standard Annex 9: letters read leftwards, and marks that turn directions."""
_JOINER = ArabicReshaper({"delete_harakat": False})


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
def _own_widths(cut: Cut) -> dict[str, float]:
    """How wide each character is (thousandths of an em) that a cut has and that is read rightwards.

    Words of these alone are one run, as they stand.
    """
    own, others = face(cut).face, _LEFTWARDS | _MARKS
    letters = {code: chr(code) for code in own.charToGlyph}
    widths = {
        letter: own.charWidths.get(code, own.defaultWidth)
        for code, letter in letters.items()
        if unicodedata.bidirectional(letter) not in others
    }
    return {**widths, SEAL: seal_width()}


@cache
def seal_width() -> float:
    """The room for a seal, whatever its figures are, in thousandths of an em."""
    own = face(Cut.ROMAN).face.charWidths
    widest = max(own[ord(figure)] for figure in "0123456789abcdef")
    return float(sum(own[32] if mark == " " else widest for mark in BLANK_SEAL))


@cache
def _cut_for(cut: Cut, character: str) -> Cut | None:
    """The first of a cut and the spare ones that has the character; none for an unseen mark."""
    if unicodedata.bidirectional(character) in _MARKS:
        return None
    return next((one for one in (cut, *_SPARES) if _has(one, character)), None)


@lru_cache(1024)
def as_seen(text: str) -> str:
    """A line's characters from left to right as they stand on paper (Unicode Standard Annex 9).

    Arabic letters become their joined forms. A line with an invisible mark that turns directions
    stays as it is: such a mark is to be seen by its number.
    """
    classes = {unicodedata.bidirectional(character) for character in text}
    if not classes & _LEFTWARDS or classes & _MARKS:
        return text
    return str(get_display(_JOINER.reshape(text), base_dir="L"))


def runs(text: str, cut: Cut) -> tuple[tuple[Cut, str], ...]:
    """The text in runs of one cut each, from left to right.

    reportlab leaves out in silence what a font lacks; so a character that no face here has is
    written by its number, `[U+4E2D]`.
    """
    if text and _own_widths(cut).keys() >= set(text):  # nearly all
        return ((cut, text),)
    found: list[tuple[Cut, str]] = []
    for character in as_seen(text):
        chosen = _cut_for(cut, character)
        run = (chosen, character) if chosen else (cut, f"[U+{ord(character):04X}]")
        if found and found[-1][0] == run[0]:
            found[-1] = (run[0], found[-1][1] + run[1])
        else:
            found.append(run)
    return tuple(found)


def width(text: str, style: Style) -> float:
    """How wide the words are, in points."""
    own = _own_widths(style.cut)
    if own.keys() >= set(text):  # as below, without asking reportlab for each letter anew
        plain = 0.001 * style.size * sum(map(own.__getitem__, text))
        return plain + style.tracking * len(text)
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
