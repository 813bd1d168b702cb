"""Who sets which word: a hand's own face, or another for a word that it has not all letters of."""

import re
from collections.abc import Iterator, Sequence
from functools import lru_cache

from fontTools.unicodedata import script as script_of

from addressing.preflight.capitals import in_capitals
from addressing.preflight.direction import is_plain, visual_runs
from addressing.preflight.lines import KEPT, Drawn, DrawnLine, Lines, is_lacking
from addressing.records.shelf import CAPITALS, CROWDED, Face, Fallback

_BLANKS = re.compile("([ \u00a0\u1680\u2000-\u200a\u202f\u205f\u3000]+)")
_NO_SCRIPTS = frozenset({"Zyyy", "Zinh", "Zzzz"})
_LEAST = 0.5
"""No face that steps in is made smaller than this."""

_Stretch = tuple[str, str, bool | None]
"""Words, the script for which another face sets them, and whether they run from right to left."""


class HandLines:
    """The lines of one hand, words of other faces among them."""

    def __init__(self, face: Face, own: Lines, others: Sequence[tuple[Fallback, Lines]]) -> None:
        """`others` are the faces that step in."""
        self._own = own
        self._face = face
        self._others = {
            fallback.script: (lines, _share(fallback, own, lines, capitals=face.in_capitals))
            for fallback, lines in others
        }
        self.line = lru_cache(maxsize=KEPT)(self._line) if others else own.line

    def _line(self, text: str) -> DrawnLine:
        told = self._own.shape(text)
        written = text.upper() if self._face.in_capitals else text
        capitals = CAPITALS in self._others and any(
            in_capitals(word, codes=True) for word in written.split(" ")
        )
        crowded = CROWDED in self._others and any(map(self._own.crowds, written.split(" ")[1:]))
        mixed = capitals or crowded or is_lacking(told)
        stretches = list(self._stretches(written)) if mixed else ()
        if not any(script for _, script, _ in stretches):
            return self._own.drawn(told)
        return _composed(tuple(self._placed(stretches)))

    def _stretches(self, text: str) -> Iterator[_Stretch]:
        """The line cut where the face changes, from left to right."""
        if is_plain(text):
            yield from ((words, script, None) for words, script in self._cut(text))
            return
        for words, leftwards in visual_runs(text):
            cut = [(part, script, leftwards) for part, script in self._cut(words)]
            yield from reversed(cut) if leftwards else cut

    def _cut(self, text: str) -> list[tuple[str, str]]:
        """Words that one face sets in a row; a blank between two faces is the hand's own."""
        parts = _BLANKS.split(text)  # words at even places, blanks at odd ones
        scripts = [self._script(word) if word else "" for word in parts[::2]]
        if CROWDED in self._others:
            for place, word in enumerate(parts[::2]):
                first = not any(parts[: 2 * place : 2])
                if not (first or scripts[place]) and self._own.crowds(word):
                    scripts[place] = CROWDED
        cut: list[tuple[str, str]] = []
        for place, part in enumerate(parts):
            around = scripts[place // 2 : place // 2 + 1 + place % 2]
            edge = place % 2 and not (parts[place - 1] and parts[place + 1])
            script = around[0] if len(set(around)) == 1 and not edge else ""
            if cut and cut[-1][1] == script:
                cut[-1] = (cut[-1][0] + part, script)
            elif part:
                cut.append((part, script))
        return cut

    def _script(self, word: str) -> str:
        """Whose other face sets a word: by its first letter that the hand's own face lacks."""
        if not self._own.lacks(word):
            other = self._others.get(CAPITALS)
            able = other and in_capitals(word, codes=True) and not other[0].lacks(word)
            return CAPITALS if able else ""
        proper = [letter for letter in word if script_of(letter) not in _NO_SCRIPTS]
        lacking = [letter for letter in proper if self._own.lacks(letter)]
        found = next((script_of(letter) for letter in lacking or proper), "Zyyy")
        return found if found in self._others else ""

    def _placed(self, stretches: Sequence[_Stretch]) -> Iterator[Drawn]:
        """Each stretch where the one before it ends; spaced letters are apart there too."""
        pen = 0.0
        for place, (words, script, leftwards) in enumerate(stretches):
            lines, share = self._others[script] if script else (self._own, 1.0)
            if place and not leftwards and _BLANKS.match(words) is None:
                pen += self._own.spacing
            line = lines.stretch(words, leftwards)
            yield Drawn(line, pen, share, script)
            pen += line.advance * share


def _composed(parts: tuple[Drawn, ...]) -> DrawnLine:
    """A line of its stretches: what counts, where its ink ends, what it covers."""
    inked = [part for part in parts if part.line.letters]
    missing = any(part.line.missing for part in parts)
    if not inked:
        return DrawnLine(b"", 1, 0, missing, *(0.0,) * 7, parts)
    return DrawnLine(
        b"",
        1,
        sum(part.line.letters for part in inked),
        missing,
        min(part.start + part.line.left * part.share for part in inked),
        min(part.line.bottom * part.share for part in inked),
        max(part.start + part.line.right * part.share for part in inked),
        max(part.line.top * part.share for part in inked),
        sum(part.line.area * part.share**2 for part in inked),
        sum(part.line.edges * part.share for part in inked),
        0.0,
        parts,
    )


def _share(fallback: Fallback, own: Lines, other: Lines, *, capitals: bool) -> float:
    """The size of another face's words: chosen, or so that the letters are of one height."""
    if fallback.size is not None:
        return fallback.size
    heights = own.height(capitals=capitals), other.height(capitals=capitals)
    if heights[0] <= 0 or heights[1] <= 0:
        return 1.0
    wanted = [factor for script, factor in fallback.face.beside if script == fallback.script]
    share = heights[0] / heights[1] * (wanted[0] if wanted else 1.0)
    return round(min(max(_LEAST, share), fallback.most), 3)
