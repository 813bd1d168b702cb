"""The door out: a setting drawn page by page, each page made, handed over and forgotten."""

from collections.abc import Iterator

from addressing.records.pages import Outlines, Page, Setting
from addressing.typesetting.typeface import Typeface, open_typeface


def stream(setting: Setting) -> tuple[Iterator[Page], Outlines]:
    """The pages of a setting, in the order of its pieces, and the glyphs that they draw.

    Nothing is kept but shaped lines (a bounded number) and outlines, each drawn when it is first
    asked for; so memory does not grow with the pages.

    Raises:
        Fault: the font file can't be used (exit 3).
    """
    typeface = open_typeface(setting.face)
    return _pages(setting, typeface), Outlines(typeface.units_per_em, typeface.outlines)


def _pages(setting: Setting, typeface: Typeface) -> Iterator[Page]:
    shape = typeface.shape
    for piece in setting.pieces:
        lines = tuple([(shape(line.text), line.x, line.y, line.size) for line in piece.lines])
        yield Page(piece.household, lines)
