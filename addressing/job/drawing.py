"""A setting drawn by two processes at once, the sheaves handed on in order.

Typesetting and plates don't know each other, nor that the work is shared: the same pages in the
same order come out whoever draws them.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import chain, compress

from addressing.hands import HandInParts
from addressing.plates import (
    SHEAF,
    Sheaf,
    SheetPage,
    draw_layers,
    merged,
    page_households,
    sheet_pages,
)
from addressing.records.pages import Outlines, Page, Setting, faces_of
from addressing.records.pieces import Role
from addressing.records.plates import PlateOrder
from addressing.records.set_lines import SetPiece
from addressing.typesetting import live_faces, stream

WORTH = 1000
"""Pages from which a second process pays (measured: it costs about 10 ms)."""
THEIRS, OF = 4, 7
"""Of so many sheaves these fall to the second process: the first writes the file as well
(measured)."""
BATCH = 50 * SHEAF
"""Pages for which one second process is at work. Of the records that two processes share, the
system copies whatever one of them touches: with a new one for each batch, a batch's only."""


def draw_setting(setting: Setting, order: PlateOrder) -> tuple[Iterator[Sheaf], Outlines]:
    """All pages of a setting in the order's inks, as sheaves, and the glyphs that they draw.

    A page without a line in that ink is blank, and is there: so plates of two inks have the same
    pages, and the same number means the same envelope.

    Raises:
        Fault: the font file can't be used, or may not be embedded (exit 3); while the sheaves come:
            the second process ended (exit 70).
    """
    return _sheaves(setting, order), _outlines(setting, order)


def _sheaves(setting: Setting, order: PlateOrder) -> Iterator[Sheaf]:
    for first in range(0, len(setting.pieces), BATCH):
        yield from _batch(replace(setting, pieces=setting.pieces[first : first + BATCH]), order)


def _batch(setting: Setting, order: PlateOrder) -> Iterator[Sheaf]:
    pieces = setting.pieces
    if len(pieces) < WORTH:
        yield from _draw(setting, order, (pieces,))
        return
    # Sheaf by sheaf in turns, so that neither process has to keep what it drew.
    sheaves = [pieces[at : at + SHEAF] for at in range(0, len(pieces), SHEAF)]
    beside = [at * THEIRS % OF < THEIRS for at in range(len(sheaves))]
    own, theirs = (
        list(compress(sheaves, which)) for which in ([not each for each in beside], beside)
    )
    with HandInParts(lambda: _draw(setting, order, theirs)) as other:
        drawn, come = _draw(setting, order, own), other.parts()
        for each in beside:
            yield next(come if each else drawn)
        yield from come  # nothing but the end of the second process


def draw_sheets(
    parts: Sequence[tuple[PlateOrder, Setting]],
) -> tuple[Iterator[Sheaf], Outlines]:
    """The sheets of a plate, as `draw_setting`: each kind on them with its order.

    Their letters have the same numbers (`numbered_alike`).

    Raises:
        Fault: the font file can't be used (exit 3).
    """
    first, settings = parts[0][0], [its for _, its in parts]
    pages = sheet_pages([order for order, _ in parts])
    outlines = _outlines(max(settings, key=lambda its: len(faces_of(its.hands))), first)
    layers = [
        _sheets_of(pages, [(order.apart[number], its) for order, its in parts])
        for number in range(len(first.apart))
    ]
    return draw_layers(layers, first, outlines), outlines


def _outlines(setting: Setting, order: PlateOrder) -> Outlines:
    """The drawings of a set's letters, and for live type its faces as they are embedded."""
    _, outlines = stream(setting)
    return replace(outlines, live=live_faces(setting)) if order.live else outlines


def _sheets_of(
    pages: Sequence[SheetPage], parts: Sequence[tuple[PlateOrder, Setting]]
) -> Iterator[Page]:
    """The sheets in one ink, by the orders of its kinds in that ink."""
    first, setting = parts[0]
    cards = []
    for number, (order, its) in enumerate(parts):
        own = [its.pieces[c.card] for page in pages for c in page.cards if c.part == number]
        cards.append(_inked(replace(its, pieces=tuple(own)), order))
    feet = tuple(SetPiece(None, "", 0, (page.foot,)) for page in pages)
    level = replace(setting.zone, align="left", turn=0)
    foot_pages = _inked(replace(setting, zone=level, pieces=feet), first)
    return merged(pages, page_households(first), cards, foot_pages)


def _inked(setting: Setting, order: PlateOrder) -> Iterator[Page]:
    """The pages of a setting with what is on the plate of one ink."""
    pages, _ = stream(setting)
    borne = [order.bears(setting, role) for role in (Role.NAME, Role.STREET)]
    if all(borne):
        return pages
    return (_only(page, borne) for page in pages)


def _draw(
    setting: Setting, order: PlateOrder, shares: Sequence[Sequence[SetPiece]]
) -> Iterator[Sheaf]:
    """Some pieces of a setting; nothing is made of them before the first sheaf is asked for."""
    share = replace(setting, pieces=tuple(chain.from_iterable(shares)))
    _, outlines = stream(share)
    return draw_layers([_inked(share, each) for each in order.apart], order, outlines)


def _only(page: Page, borne: Sequence[bool]) -> Page:
    """A page without what isn't borne: the lines of the names, of the address."""
    kept = [number for number, hand in enumerate(page.inks) if borne[hand]]
    lines = tuple(page.lines[number] for number in kept)
    turns = tuple(page.turns[number] for number in kept) if page.turns else ()
    return Page(page.household, lines, turns=turns)
