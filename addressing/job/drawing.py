"""A setting drawn by two processes at once, the sheaves handed on in order.

Typesetting and plates don't know each other, nor that the work is shared: the same pages in the
same order come out whoever draws them.
"""

from collections.abc import Iterator
from dataclasses import replace

from addressing.hands import Hand
from addressing.plates import Sheaf, draw_pages, impose
from addressing.records.pages import Outlines, Page, Setting
from addressing.records.plates import PlateOrder
from addressing.typesetting import stream

WORTH = 1000
"""Pages from which a second process pays (measured: it costs about 10 ms)."""

OWN = 0.5
"""The part that this process draws. It writes that to the file as it goes, the other hands all of
its pages over at the end: that takes both as long (measured)."""


def draw_setting(setting: Setting, order: PlateOrder) -> tuple[Iterator[Sheaf], Outlines]:
    """All pages of a setting in the order's ink, as sheaves, and the glyphs that they draw.

    A page without a line in that ink is blank, and is there: so plates of two inks have the same
    pages, and the same number means the same envelope.

    Raises:
        Fault: the font file can't be used (exit 3); while the sheaves come: the second process
            ended (exit 70).
    """
    if order.sheets is not None:
        setting = impose(setting, order.sheets, order.first)
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
    if setting.two_inks:
        pages = (_only(page, int(order.ink != setting.ink)) for page in pages)
    return draw_pages(pages, order, outlines)


def _only(page: Page, own: int) -> Page:
    """A page without what is in the other ink."""
    kept = [number for number, ink in enumerate(page.inks) if ink == own]
    lines = tuple(page.lines[number] for number in kept)
    turns = tuple(page.turns[number] for number in kept) if page.turns else ()
    return Page(page.household, lines, turns=turns)
