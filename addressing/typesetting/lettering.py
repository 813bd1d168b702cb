"""One hand at work: its own face, and the faces that set words for it which it can't.

A word (what stands between blanks) with a letter that the hand's own face lacks is set whole in
another: the one that the docket names for that letter's script. Words of one face that follow each
other are shaped together, blanks between them too; a blank between two faces is the hand's own.
"""

import struct
import unicodedata
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from functools import lru_cache
from itertools import groupby
from typing import NamedTuple

import uharfbuzz as hb

from addressing.records.pages import Segment, ShapedLine, faces_of
from addressing.records.shelf import CAPITALS, CLEAR, CROWDED, Face, Fallback
from addressing.typesetting.capitals import any_stands_out, stands_out
from addressing.typesetting.direction import runs, runs_leftwards
from addressing.typesetting.outlines import Bounds, SetOutlines
from addressing.typesetting.typeface import LINES_KEPT, Typeface, open_typeface

LEAST_SHARE = 0.5
"""However unlike two faces are, a word is never set smaller than this beside the rest."""

_HEIGHTS = {False: 86, True: 88}
"""Where OS/2 keeps the height of small letters, and of capitals (OpenType 1.9, OS/2 version 2)."""

NO_SCRIPT = "Zyyy"
"""What belongs to no script, such as figures (ISO 15924)."""


class Part(NamedTuple):
    """Words of one face in a line: shaped, and how they stand in it.

    `start` is where their origin stands (em of the line), `share` their size as a part of the
    line's. `script` is "" for the hand's own face, else what the other face stands in for.
    """

    words: ShapedLine
    start: float
    share: float
    script: str
    face: Face


class Mixed(NamedTuple):
    """A line in parts, the bounds of its ink (em of the line), and who can't set which letters."""

    parts: tuple[Part, ...]
    ink: Bounds
    lost: tuple[str, ...]
    loser: Face


class Lettering:
    """A hand of a set: lines in its own face, and those that others help to set."""

    def __init__(self, typeface: Typeface, others: Sequence[tuple[Fallback, Typeface]]) -> None:
        """`others` are the faces that step in, opened."""
        self.typeface = typeface
        self.face = typeface.face
        self._others = {
            fallback.script: (other, share_of(self.face, typeface, fallback, other))
            for fallback, other in others
        }
        self.faces = (typeface, *(other for _, other in others))
        self.helped = bool(others)
        self._opened = tuple(others)
        self._closer: dict[int, Lettering] = {}
        self._capitals = CAPITALS in self._others
        self._crowded = CROWDED in self._others
        self._crowding: dict[str, bool] = {}
        self._known = lru_cache(LINES_KEPT)(self._mixed)

    def closer(self, by: int) -> "Lettering":
        """This hand with its letters closer by so many thousandths of an em."""
        known = self._closer.get(by)
        if known is None:
            face = replace(self.face, tracking=self.face.tracking - by)
            typeface = open_typeface(face, self.typeface.number)
            if self.typeface.by_words:
                typeface.shape_by_words()
            known = self._closer[by] = Lettering(typeface, self._opened)
        return known

    def mixed(self, text: str) -> Mixed | None:
        """A line in parts; None where the hand's own face sets all of it, or no other may."""
        if not self.helped:
            return None
        odd = self.typeface.is_odd(text) or (self._capitals and any_stands_out(text))
        if not odd and not (self._crowded and self._any_crowds(text)):
            return None
        return self._known(text)

    def _any_crowds(self, text: str) -> bool:
        """True where any word behind another begins with a swash that takes the blank."""
        return any(map(self._crowds, text.split(" ")[1:]))

    def _crowds(self, word: str) -> bool:
        letter = word[:1]
        known = self._crowding.get(letter)
        if known is None:
            swings = letter.isupper() and self.typeface.reach_before(letter) < CLEAR
            known = self._crowding[letter] = swings
        return known

    def drawn(self, text: str) -> tuple[Part, ...]:
        """All parts of a line, be it one."""
        mixed = self.mixed(text)
        if mixed is not None:
            return tuple(part for part in mixed.parts if _has_ink(part.words))
        return (Part(self.typeface.shape(text), 0.0, 1.0, "", self.face),)

    def _mixed(self, text: str) -> Mixed | None:
        found: list[tuple[str, str, bool | None]] = []
        cased = text.upper() if self.face.in_capitals else text
        ways: Iterable[tuple[str, bool | None]] = ((cased, None),)
        if runs_leftwards(cased):
            ways = runs(cased)
        for words, leftwards in ways:
            cut = [(part, script, leftwards) for part, script in self._cut(words)]
            found += reversed(cut) if leftwards else cut
        if all(not script for _, script, _ in found):
            return None
        return self._joined(found)

    def _cut(self, text: str) -> list[tuple[str, str]]:
        """Words that run one way, each stretch of one face with the script that it stands in for.

        A blank goes with the face that stands on both sides of it, else with the hand's own.
        """
        pieces = [("".join(group), blank) for blank, group in groupby(text, _is_blank)]
        scripts = ["" if blank else self.script(words) for words, blank in pieces]
        if self._crowded:
            for at in range(2, len(pieces)):
                if not pieces[at][1] and not scripts[at] and self._crowds(pieces[at][0]):
                    scripts[at] = CROWDED
        for at in range(1, len(pieces) - 1):
            if pieces[at][1] and scripts[at - 1] == scripts[at + 1]:
                scripts[at] = scripts[at - 1]
        joined = groupby(zip(pieces, scripts, strict=True), lambda one: one[1])
        return [("".join(words for (words, _), _ in group), script) for script, group in joined]

    def script(self, word: str) -> str:
        """The script for which another face sets a word; "" for a word of the hand's own face."""
        if not self.typeface.lacks(word):
            able = self._capitals and stands_out(word)
            return CAPITALS if able and not self._others[CAPITALS][0].lacks(word) else ""
        lost = [letter for letter in word if own_script(letter) and self.typeface.lacks(letter)]
        script = own_script("".join(lost) or word) or NO_SCRIPT
        return script if script in self._others else ""

    def _joined(self, found: Sequence[tuple[str, str, bool | None]]) -> Mixed:
        """Stretches set one behind the other."""
        space = round(self.face.tracking * self.typeface.units_per_em / 1000)
        parts: list[Part] = []
        boxes: list[Bounds] = []
        lost: tuple[str, ...] = ()
        loser = self.face
        pen = 0.0
        for text, script, leftwards in found:
            typeface, share = self._others[script] if script else (self.typeface, 1.0)
            words = typeface.run(text, leftwards)
            if parts and space and not leftwards and not _is_blank(text[0]):
                pen += space / self.typeface.units_per_em
            parts.append(Part(words, pen, share, script, typeface.face))
            em = words.em / share
            left, bottom, right, top = words.ink
            if pen + left / em < pen + right / em:
                boxes.append((pen + left / em, bottom / em, pen + right / em, top / em))
            pen += words.advance / em
            if not lost and (lost := typeface.without_ink(text)):
                loser = typeface.face
        lefts, bottoms, rights, tops = zip(*(boxes or [(0.0, 0.0, 0.0, 0.0)]), strict=True)
        ink = min(lefts), min(bottoms), max(rights), max(tops)
        return Mixed(tuple(parts), ink, lost, loser)


def _has_ink(words: ShapedLine) -> bool:
    left, _, right, _ = words.ink
    return left < right


def _is_blank(character: str) -> bool:
    return unicodedata.category(character) == "Zs"


def own_script(text: str) -> str:
    """The script of the first letter that has one (ISO 15924), "" where none has.

    >>> own_script("12 Ελένη"), own_script("12")
    ('Grek', '')
    """
    buffer = hb.Buffer()
    buffer.add_str(text)
    buffer.guess_segment_properties()
    script = str(buffer.script or "")
    return "" if script in {NO_SCRIPT, "Zinh", "Zzzz"} else script


def share_of(own: Face, typeface: Typeface, fallback: Fallback, other: Typeface) -> float:
    """How large a word of another face stands, as a part of its line's size.

    Chosen, or so that small letters are of one height: by what the fonts say of it, of capitals
    where the line is all capitals; larger where the other face's record wants that for the
    script, but no larger than the line's leading bears. 1 where a font doesn't say.
    """
    if fallback.size is not None:
        return fallback.size
    heights = [_height(each, capitals=own.in_capitals) for each in (typeface, other)]
    if min(heights) <= 0:
        return 1.0
    larger = dict(fallback.face.beside).get(fallback.script, 1.0)
    return round(min(max(heights[0] / heights[1] * larger, LEAST_SHARE), fallback.most), 3)


def _height(typeface: Typeface, *, capitals: bool) -> float:
    """The height of small letters, or of capitals, in em; 0 where the font doesn't say."""
    table = bytes(typeface.font.face.reference_table("OS/2").data)
    at = _HEIGHTS[capitals]
    if len(table) < at + 2 or struct.unpack_from(">H", table)[0] < 2:  # noqa: PLR2004 - its version
        return 0.0
    (height,) = struct.unpack_from(">h", table, at)
    return float(height) / typeface.units_per_em


def open_hands(hands: Sequence[Face]) -> tuple[Lettering, ...]:
    """Each hand of a set with its faces, opened.

    Raises:
        Fault: as for `open_typeface`.
    """
    numbers = {face.drawing: number for number, face in enumerate(faces_of(hands))}

    def opened(face: Face) -> Typeface:
        return open_typeface(face, numbers[face.drawing])

    return tuple(
        Lettering(opened(hand), [(each, opened(each.face)) for each in hand.fallbacks])
        for hand in hands
    )


def outlines_of(hands: Sequence[Lettering]) -> Mapping[int, tuple[Segment, ...]]:
    """The outlines of all glyphs of a set, by their numbers in it."""
    drawn = faces_of([hand.face for hand in hands])
    opened = [typeface for hand in hands for typeface in hand.faces]
    by_drawing = {typeface.face.drawing: typeface.outlines for typeface in opened}
    if len(drawn) == 1:
        return by_drawing[drawn[0].drawing]
    return SetOutlines([by_drawing[face.drawing] for face in drawn])
