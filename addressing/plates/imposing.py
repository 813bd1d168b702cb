"""Imposition: cards laid on sheets, in an order that is right again when all are cut.

A sheet's page has the lines of its cards, each moved to its place, and a line at its foot that says
which sheet it is and whose numbers it bears. Marks stand outside all trims.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from addressing.plates.numbers import number
from addressing.records.pages import Page, ShapedLine
from addressing.records.pieces import Role
from addressing.records.plates import PlateOrder
from addressing.records.set_lines import SetLine
from addressing.records.sheets import Block, Imposition
from addressing.units import mm_to_pt

OFF = mm_to_pt(3.0)
"""From trim to mark (common practice, no source: the bleed)."""
LONG = mm_to_pt(4.0)
DASH, APART = mm_to_pt(1.5), mm_to_pt(1.0)
"""A fold's mark is two dashes."""
THICK = 0.25
"""Points."""
FOOT, FOOT_SIZE = 8.0, 9.0
"""Points: from the marks down to the foot line's baseline, and its size (a script is read so)."""


def in_order(
    imposition: Imposition, households: Sequence[str | None]
) -> Iterator[tuple[int | None, ...]]:
    """For each page the card (from 0) at each place; None where none is left.

    What is the same for all (of no household) fills all places. A sheet that is turned has two
    pages, its sides, one behind the other.
    """
    cards, up = len(households), imposition.up
    if tuple(households) == (None,):
        yield from [(0,) * up] * imposition.pages(households)
        return
    sheets = imposition.sheets(cards)
    numbers = range(sheets)
    for sheet in reversed(numbers) if imposition.reverse else numbers:
        piles = tuple(_of_pile(imposition, pile, sheet, cards) for pile in range(imposition.each))
        sides = [piles[:up], piles[up:]] if imposition.turn else [piles]
        yield from reversed(sides) if imposition.behind else sides


def _of_pile(imposition: Imposition, pile: int, sheet: int, cards: int) -> int | None:
    """The card that a sheet gives to a pile; the piles of the second side come after the first's.

    Those lie face down when the stack is cut: turned over they are the other way round, and so
    their cards go on the sheets from the last to the first.
    """
    if imposition.order == "rows":
        return _there(sheet * imposition.each + pile, cards)
    sheets = imposition.sheets(cards)
    level = sheets - 1 - sheet if pile >= imposition.up else sheet
    return _there(pile * sheets + level, cards)


def _there(card: int, cards: int) -> int | None:
    return card if card < cards else None


def place_of(imposition: Imposition, place: int) -> tuple[float, float]:
    """The lower left corner of the trim at a place."""
    row, column = divmod(place, imposition.across)
    tumbled = imposition.turn == "work-and-tumble"
    if imposition.back or (imposition.behind and not tumbled):
        column = imposition.across - 1 - column
    if imposition.behind and tumbled:
        row = imposition.down - 1 - row
    wide, high = imposition.card
    x, y = imposition.corner
    return (
        x + column * (wide + imposition.gutter),
        y + (imposition.down - 1 - row) * (high + imposition.gutter),
    )


@dataclass(frozen=True, slots=True)
class CardAt:
    """A card on a page: of which of the plate's orders, its number there (from 0), where it begins.

    `corner` (pt) is where its own lower left corner lies; `over` is whether it lies head to foot.
    """

    part: int
    card: int
    corner: tuple[float, float]
    over: bool = False


@dataclass(frozen=True, slots=True)
class SheetPage:
    """All that stands on a page of a sheet: cards by part and place, and the foot line's words."""

    cards: tuple[CardAt, ...]
    foot: SetLine


def sheet_pages(orders: Sequence[PlateOrder]) -> tuple[SheetPage, ...]:
    """The pages of a plate of sheets. `orders` are those of its kinds, with the same pages."""
    pages = [_cards_of(part, order) for part, order in enumerate(orders)]
    count = len(pages[0])
    made = []
    for page in range(count):
        on_it = [each[page] for each in pages]
        foot = _foot_line(orders, on_it, (page, count))
        made.append(SheetPage(tuple(card for cards in on_it for card in cards), foot))
    return tuple(made)


def _cards_of(part: int, order: PlateOrder) -> list[tuple[CardAt, ...]]:
    """A kind's cards on each page."""
    at = order.sheets
    if at is None:
        return []
    over = at.behind and at.turn == "work-and-tumble"
    wide, high = at.card if over else (0.0, 0.0)
    places = [place_of(at, place) for place in range(at.up)]
    corners = [(round(x + wide, 3), round(y + high, 3)) for x, y in places]
    return [
        tuple(
            CardAt(part, card, corner, over)
            for card, corner in zip(cards, corners, strict=True)
            if card is not None
        )
        for cards in in_order(at, order.households)
    ]


def _foot_line(
    orders: Sequence[PlateOrder], cards: Sequence[Sequence[CardAt]], at: tuple[int, int]
) -> SetLine:
    """The line at a page's foot: which sheet and side it is, and the numbers of its cards."""
    page, pages = at
    first = orders[0].sheets
    if first is None:
        raise TypeError
    sides = 2 if first.turn and pages > 1 else 1
    sheet, sheets = page // sides + 1, pages // sides
    name = f"Sheet {sheets + 1 - sheet if first.reverse else sheet} of {sheets}"
    if first.turn:
        name += f", side {page % 2 + 1}" if sides > 1 else ", both sides"
    told = []
    for order, its in zip(orders, cards, strict=True):
        numbers = dict.fromkeys(order.first + card.card for card in its)
        said = ", ".join(map(str, numbers))
        numbered = order.households != (None,) or order is orders[0]
        if numbers and numbered and not (first.turn and order is not orders[0]):
            told.append(f"{order.kind} {said}" if len(orders) > 1 and not first.turn else said)
    left = min(block.corner[0] for block in first.together)
    low = min(block.corner[1] for block in first.together)
    y = round(low - OFF - LONG - FOOT, 3)
    whole = ": prints ".join((name, *(["; ".join(told)] if told else [])))
    return SetLine(whole, Role.NAME, 0, left, y, FOOT_SIZE)


def merged(
    pages: Sequence[SheetPage],
    households: Sequence[str | None],
    cards: Sequence[Iterator[Page]],
    feet: Iterator[Page],
) -> Iterator[Page]:
    """Each page with its cards moved to their places, its foot line last.

    `cards` are of each order the pages of its cards, in the order in which the sheets want them.
    """
    for page, household, foot in zip(pages, households, feet, strict=True):
        parts = [_moved(next(cards[each.part]), each) for each in page.cards]
        parts.append((foot.lines, foot.turns or ((1.0, 0.0),) * len(foot.lines)))
        lines = tuple(line for its, _ in parts for line in its)
        turns = tuple(turn for _, its in parts for turn in its)
        level = all(turn == (1.0, 0.0) for turn in turns)
        yield Page(household, lines, turns=() if level else turns)


Drawn = tuple[ShapedLine, float, float, float]


def _moved(page: Page, at: CardAt) -> tuple[tuple[Drawn, ...], tuple[tuple[float, float], ...]]:
    """A card's lines at their place on the sheet, and how each is turned there."""
    x, y = at.corner
    turns = page.turns or ((1.0, 0.0),) * len(page.lines)
    if not at.over:
        moved = [
            (words, round(a + x, 3), round(b + y, 3), size) for words, a, b, size in page.lines
        ]
        return tuple(moved), turns
    moved = [(words, round(x - a, 3), round(y - b, 3), size) for words, a, b, size in page.lines]
    return tuple(moved), tuple((0.0 - cos, 0.0 - sin) for cos, sin in turns)


def page_households(order: PlateOrder) -> tuple[str | None, ...]:
    """Whose page each is: a sheet goes by its first card."""
    if order.sheets is None:
        return order.households
    sheets = in_order(order.sheets, order.households)
    return tuple(order.households[next((c for c in cards if c is not None), 0)] for cards in sheets)


def pages_of(order: PlateOrder) -> tuple[int, ...]:
    """The number of the page (from 1) on which each piece of an order stands first."""
    if order.sheets is None:
        return tuple(range(1, len(order.households) + 1))
    pages: dict[int, int] = {}
    for page, cards in enumerate(in_order(order.sheets, order.households), start=1):
        for card in cards:
            if card is not None:
                pages.setdefault(card, page)
    return tuple(pages[card] for card in range(len(order.households)))


def marks(imposition: Imposition) -> bytes:
    """Trim and fold marks, block by block, as rectangles filled with the plate's ink."""
    drawn = [
        f"{' '.join(number(part) for part in mark)} re\n"
        for block in imposition.together
        for mark in _marks(block)
    ]
    return "".join([*drawn, "f\n"]).encode("ascii")


def _marks(block: Block) -> Iterator[tuple[float, float, float, float]]:
    """(left, bottom, width, height) of each: cuts from left to right, then from the foot up."""
    left, bottom = block.corner
    wide, high = block.card
    gutter = block.gutter
    right = left + block.across * (wide + gutter) - gutter
    top = bottom + block.down * (high + gutter) - gutter
    half = THICK / 2
    for x in _cuts(left, wide, gutter, block.across):
        yield x - half, bottom - OFF - LONG, THICK, LONG
        yield x - half, top + OFF, THICK, LONG
    for y in _cuts(bottom, high, gutter, block.down):
        yield left - OFF - LONG, y - half, LONG, THICK
        yield right + OFF, y - half, LONG, THICK
    for row in range(block.down):
        for fold in block.folds:
            y = bottom + row * (high + gutter) + fold - half
            for dash in (0.0, DASH + APART):
                yield left - OFF - dash - DASH, y, DASH, THICK
                yield right + OFF + dash, y, DASH, THICK


def _cuts(start: float, side: float, gutter: float, times: int) -> list[float]:
    """Every line that is cut, once."""
    ends = (start + n * (side + gutter) + end for n in range(times) for end in (0.0, side))
    return sorted({round(end, 3) for end in ends})
