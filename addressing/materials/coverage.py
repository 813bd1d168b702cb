"""Which characters a face has, by the font's own character map."""

import io
import unicodedata
from collections.abc import Container
from functools import lru_cache

from addressing.materials.own_face import damaged
from addressing.records.shelf import Face

FACES_KEPT = 64

NEEDS_NO_GLYPH = frozenset({"Cc", "Cf", "Zs", "Zl", "Zp"})
"""Categories of what has no ink of its own (Unicode): blanks, and marks that only steer."""


def lacking(face: Face, text: str) -> tuple[str, ...]:
    """The characters of a text that a face has no glyph for, each once, in order.

    A letter with an accent may be put together of a letter and an accent (Unicode, canonical
    decomposition), as the shaper does.

    Raises:
        Fault: exit 3; the font file can't be read.
    """
    return not_among(_mapped(face), text)


def not_among(has: Container[int], text: str) -> tuple[str, ...]:
    """The characters of a text that ask for a glyph and aren't among those that a font maps."""
    return tuple(
        dict.fromkeys(
            each
            for each in text
            if ord(each) not in has
            and unicodedata.category(each) not in NEEDS_NO_GLYPH
            and not _made_of(each, has)
        )
    )


def characters_of(face: Face) -> tuple[str, ...]:
    """The letters that a face has, in Unicode's order.

    Raises:
        Fault: exit 3; the font file can't be read.
    """
    letters = (chr(code) for code in sorted(_mapped(face)))
    return tuple(each for each in letters if unicodedata.category(each).startswith("L"))


def _made_of(character: str, has: Container[int]) -> bool:
    parts = unicodedata.normalize("NFD", character)
    return parts != character and all(ord(part) in has for part in parts)


@lru_cache(FACES_KEPT)
def _mapped(face: Face) -> frozenset[int]:
    from fontTools.ttLib import TTFont  # noqa: PLC0415 - as in own_face

    try:
        with TTFont(io.BytesIO(face.path.read_bytes()), fontNumber=face.index, lazy=True) as font:
            return frozenset(font.getBestCmap())
    except Exception as error:  # a damaged font breaks fontTools in many ways
        raise damaged(face.path, "its character map can't be read") from error
