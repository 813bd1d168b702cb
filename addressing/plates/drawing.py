"""The first door: pages drawn, deflated and gathered in sheaves, ready to be bound into a plate.

A drawn page names its glyphs by their own numbers and knows nothing of the file that it will stand
in, so sheaves may be drawn anywhere, in any process, and are the same.
"""

import zlib
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import islice

from addressing.plates.content import Drawer
from addressing.plates.inks import openings
from addressing.plates.laying import laying
from addressing.records.pages import Outlines, Page
from addressing.records.plates import BASE, PlateOrder

SHEAF = 200
"""Pages in a sheaf: few enough to keep memory flat."""

LEVEL = 4
"""Of deflate's levels: 6 makes pages 5 % smaller and takes a quarter longer (measured)."""


@dataclass(frozen=True, slots=True)
class Sheaf:
    """Some pages in order: whose they are, their deflated contents, the glyphs that they draw."""

    households: tuple[str | None, ...]
    contents: tuple[bytes, ...]
    glyphs: frozenset[int]


def draw_pages(pages: Iterable[Page], order: PlateOrder, outlines: Outlines) -> Iterator[Sheaf]:
    """Draw pages as they come, in the order's one ink, at its place on the page.

    `outlines` tell which glyphs are blank.
    """
    return draw_layers((pages,), order, outlines)


def draw_layers(
    layers: Sequence[Iterable[Page]], order: PlateOrder, outlines: Outlines
) -> Iterator[Sheaf]:
    """Draw pages as they come, ink upon ink.

    Args:
        layers: of each ink of the order the same pages, with what stands in that ink.
        order: says which inks, and where the piece lies.
        outlines: tell which glyphs are blank.
    """
    drawers = tuple(_drawers(order, outlines))
    coming = zip(*layers, strict=True)
    while sheaf := tuple(islice(coming, SHEAF)):
        contents = tuple([zlib.compress(_drawn(drawers, each), LEVEL) for each in sheaf])
        households = tuple([first.household for first, *_ in sheaf])
        used = frozenset().union(*(drawer.used() for drawer in drawers))
        yield Sheaf(households, contents, used)


def _drawers(order: PlateOrder, outlines: Outlines) -> Iterator[Drawer]:
    """One for each ink. The step to the piece's place is taken once, a sheet's marks are in all."""
    step = laying(order)
    for number, (one, opening) in enumerate(zip(order.apart, openings(order), strict=True)):
        above = BASE if order.layers and one.chokes else 0
        again = number == 0 or order.sheets is not None
        yield Drawer(opening + step if again else opening, outlines, above, live=order.live)


def _drawn(drawers: Sequence[Drawer], pages: Sequence[Page]) -> bytes:
    """One page in all its inks."""
    drawn = (drawer.page(page) for drawer, page in zip(drawers, pages, strict=True))
    return b"".join(drawn)
