"""A setting drawn by two processes at once, the sheaves handed on in order.

Typesetting and plates don't know each other, nor that the work is shared: the same pages in the
same order come out whoever draws them.
"""

from collections.abc import Iterator
from dataclasses import replace

from addressing.hands import Hand
from addressing.plates import Sheaf, draw_pages
from addressing.records.pages import Outlines, Setting
from addressing.records.plates import PlateOrder
from addressing.typesetting import stream

WORTH = 1000
"""Pages from which a second process pays (measured: it costs about 10 ms)."""

OWN = 0.5
"""The part that this process draws. It writes that to the file as it goes, the other hands all of
its pages over at the end: that takes both as long (measured)."""


def draw_setting(setting: Setting, order: PlateOrder) -> tuple[Iterator[Sheaf], Outlines]:
    """All pages of a setting as sheaves, in order, and the glyphs that they draw.

    Raises:
        Fault: the font file can't be used (exit 3); while the sheaves come: the second process
            ended (exit 70).
    """
    _, outlines = stream(setting)
    return _sheaves(setting, order), outlines


def _sheaves(setting: Setting, order: PlateOrder) -> Iterator[Sheaf]:
    pages = len(setting.pieces)
    if pages < WORTH:
        yield from _draw(setting, order, 0, pages)
        return
    cut = int(pages * OWN)
    with Hand(lambda: list(_draw(setting, order, cut, pages))) as other:
        yield from _draw(setting, order, 0, cut)
        yield from other.answer()


def _draw(setting: Setting, order: PlateOrder, first: int, end: int) -> Iterator[Sheaf]:
    pages, outlines = stream(replace(setting, pieces=setting.pieces[first:end]))
    return draw_pages(pages, order, outlines)
