"""The fonts that a plate of live type holds: where their parts are, and which letters they have."""

import re
from dataclasses import dataclass

from addressing.preflight.container import Container
from addressing.preflight.values import Objection, Ref, Value, quoted, read_dict
from addressing.records.pages import FACE

_FONT = re.compile(r"F(0|[1-9][0-9]{0,4})")


@dataclass(frozen=True, slots=True)
class Font:
    """A font of a plate: its face's number in the set, its five objects, its letters' numbers.

    The objects are the font, its descendant, descriptor and program, and its map to characters.
    """

    face: int
    objects: tuple[int, int, int, int, int]
    letters: tuple[int, ...]


def read_fonts(file: Container, shared: dict[str, Value]) -> tuple[Font, ...]:
    """The fonts in the list of a plate's parts, in its order.

    Raises:
        Objection: there is none, or one isn't built as a plate's.
    """
    named = shared.get("Font")
    if not isinstance(named, dict):
        raise Objection("The plate has no fonts, and live type was ordered.")
    return tuple(_font(file, name, value) for name, value in named.items())


def _font(file: Container, name: str, value: Value) -> Font:
    match = _FONT.fullmatch(name)
    if match is None or not isinstance(value, Ref):
        raise Objection(f"The plate holds a font that isn't one of its faces: {quoted(name)}.")
    what = f"Font {name}"
    font = read_dict(file.plain(value.number))
    below = font.get("DescendantFonts")
    if not isinstance(below, tuple) or len(below) != 1:
        raise Objection(f"{what} isn't built as a font of a plate.")
    descendant = _led(below[0], what)
    told = read_dict(file.plain(descendant))
    descriptor = _led(told.get("FontDescriptor"), what)
    described = read_dict(file.plain(descriptor))
    program = _led(described.get("FontFile2", described.get("FontFile3")), what)
    words = _led(font.get("ToUnicode"), what)
    widths = told.get("W")
    numbers = widths[::2] if isinstance(widths, tuple) else ()
    letters = tuple(int(n) for n in numbers if isinstance(n, float) and 0 <= n < FACE)
    return Font(int(match[1]), (value.number, descendant, descriptor, program, words), letters)


def _led(value: Value | None, what: str) -> int:
    if not isinstance(value, Ref):
        raise Objection(f"{what} lacks a part that every font of a plate has.")
    return value.number
