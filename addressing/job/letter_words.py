"""A letter of a plate by what people call it: “g”, in which face, and where it first stands."""

from collections.abc import Sequence
from functools import cache
from pathlib import Path

from fontTools.ttLib import TTFont

from addressing.records.kept import KeptOrder
from addressing.records.pages import FACE, faces_of, hand_of
from addressing.records.plates import BASE


class LetterWords:
    """Finds the letters of a plate's numbers in its faces."""

    def __init__(self, kept: Sequence[KeptOrder], *, named: bool = True) -> None:
        """`kept` is what the plate was judged by; all kinds on it are numbered alike.

        With `named` the guest is said on whose page a letter stands.
        """
        self._kept = kept
        self._is_named = named
        hands = max((each.setting.hands for each in kept), key=lambda hands: len(faces_of(hands)))
        self._faces = faces_of(hands)

    def of(self, number: int) -> tuple[str, str, str]:
        """(what the letter is called, its face's family, where it first stands: ", on page 3 …").

        Empty words where nobody can say.
        """
        face, glyph = divmod(number % BASE, FACE)
        if face >= len(self._faces):
            return f"Letter {number}", "the face", ""
        character, form = _named(self._faces[face].path, self._faces[face].index, glyph)
        if not character:
            return f"Letter {number}", self._faces[face].family, ""
        called = f"The letter “{character}”" if not form else f"A form of the letter “{character}”"
        return called, self._faces[face].family, self._where(character, face)

    def _where(self, character: str, face: int) -> str:
        """The first page on which a line in that face has the letter."""
        for each in self._kept:
            hands = each.setting.hands
            for page, piece in enumerate(each.setting.pieces, start=1):
                for line in piece.lines:
                    own = hands[hand_of(line.role) if each.setting.second else 0]
                    if own.drawing == self._faces[face].drawing and character in line.text:
                        unit = "card" if each.order.sheets is not None else "page"
                        name = f" ({piece.name})" if piece.name and self._is_named else ""
                        return f", first on {unit} {page}{name}"
        return ""


@cache
def _named(path: Path, index: int, glyph: int) -> tuple[str, bool]:
    """(the character of a glyph, whether it is another form of it); "" where none is known."""
    try:
        with TTFont(path, fontNumber=index, lazy=True) as font:
            order = font.getGlyphOrder()
            characters = {name: chr(code) for code, name in (font.getBestCmap() or {}).items()}
            name = order[glyph] if glyph < len(order) else ""
    except Exception:  # noqa: BLE001  # a damaged font breaks fontTools in many ways
        return "", False
    if name in characters:
        return characters[name], False
    return characters.get(name.split(".")[0], ""), True
