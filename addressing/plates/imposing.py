"""Imposition: cards laid on sheets, in an order that is right again when all are cut.

A sheet is set as one piece: the lines of its cards, each moved to its place, and a line at its foot
that says which sheet it is and whose numbers it bears. Marks stand outside all trims.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from addressing.faults import Exit, Fault
from addressing.plates.numbers import number
from addressing.records.pages import SetLine, SetPiece, Setting
from addressing.records.pieces import Role
from addressing.records.plates import PlateOrder
from addressing.records.sheets import Imposition, SheetChoice
from addressing.units import mm_to_pt, pt_to_mm
from addressing.where import Where

OFF = mm_to_pt(3.0)
"""From trim to mark (common practice, no source: the bleed)."""
LONG = mm_to_pt(4.0)
DASH, APART = mm_to_pt(1.5), mm_to_pt(1.0)
"""A fold's mark is two dashes."""
THICK = 0.25
"""Points."""
FOOT, FOOT_SIZE = 8.0, 6.0
"""Points: from the marks down to the foot line's baseline, and its size."""


def plan_sheet(
    choice: SheetChoice, sheet: tuple[float, float], card: tuple[float, float]
) -> Imposition:
    """How cards of a size lie on a sheet (both width and height in points), in its middle.

    Raises:
        Fault: exit 3, `sheet-too-small`: so many, or even one, have no room.
    """
    wide, high = (sheet[1], sheet[0]) if choice.turned else sheet
    gutter, margin = mm_to_pt(choice.gutter), mm_to_pt(choice.margin)
    room = wide - 2 * margin, high - 2 * margin
    most = [
        int((side + gutter + 0.001) // (cut + gutter)) for side, cut in zip(room, card, strict=True)
    ]
    across, down = choice.across or most[0], choice.down or most[1]
    if not 0 < across <= most[0] or not 0 < down <= most[1]:
        raise _too_small(choice, (wide, high), card, most)
    block = across * (card[0] + gutter) - gutter, down * (card[1] + gutter) - gutter
    corner = round((wide - block[0]) / 2, 3), round((high - block[1]) / 2, 3)
    folds = tuple(round(mm_to_pt(fold), 3) for fold in choice.folds)
    if any(fold >= card[1] for fold in folds):
        raise _no_fold(choice, card)
    return Imposition(
        (wide, high), card, across, down, gutter, corner, choice.order, folds, choice.back
    )


def _too_small(
    choice: SheetChoice, sheet: tuple[float, float], card: tuple[float, float], most: Sequence[int]
) -> Fault:
    asked = f"{choice.across or 'any'} across and {choice.down or 'any'} down"
    room = f"{most[0]} across and {most[1]} down" if all(most) else "none"
    return Fault(
        Exit.INPUT,
        "sheet-too-small",
        f"On {choice.on} ({_size(sheet)}) with a margin of {choice.margin:g} mm there is room for "
        f"{room} of {_size(card)}; asked for: {asked}.",
        "Choose a larger sheet, turn it (turned = true), or a smaller gutter or margin.",
        Where("docket", None, f"docket:sheet.{choice.piece}"),
    )


def _no_fold(choice: SheetChoice, card: tuple[float, float]) -> Fault:
    return Fault(
        Exit.INPUT,
        "fold-beyond-card",
        f"A fold of {choice.piece} lies beyond the card, which is {pt_to_mm(card[1]):g} mm high.",
        "Measure folds from the card's lower edge, in millimetres.",
        Where("docket", None, f"docket:sheet.{choice.piece}"),
    )


def _size(size: tuple[float, float]) -> str:
    return " × ".join(f"{pt_to_mm(side):.5g}" for side in size) + " mm"


def in_order(
    imposition: Imposition, households: Sequence[str | None]
) -> Iterator[tuple[int | None, ...]]:
    """For each sheet the card (from 0) at each place; None where none is left.

    What is the same for all (of no household) fills all places.
    """
    cards = len(households)
    sheets = imposition.sheets(cards)
    numbers = range(sheets)
    for sheet in reversed(numbers) if imposition.reverse else numbers:
        places = range(imposition.up)
        if tuple(households) == (None,):
            yield tuple(0 for _ in places)
        elif imposition.order == "rows":
            yield tuple(_there(sheet * imposition.up + place, cards) for place in places)
        else:
            yield tuple(_there(place * sheets + sheet, cards) for place in places)


def _there(card: int, cards: int) -> int | None:
    return card if card < cards else None


def place_of(imposition: Imposition, place: int) -> tuple[float, float]:
    """The lower left corner of the trim at a place."""
    row, column = divmod(place, imposition.across)
    if imposition.back:
        column = imposition.across - 1 - column
    wide, high = imposition.card
    x, y = imposition.corner
    return (
        x + column * (wide + imposition.gutter),
        y + (imposition.down - 1 - row) * (high + imposition.gutter),
    )


def impose(setting: Setting, imposition: Imposition, first: int = 1) -> Setting:
    """The setting of the sheets: a piece for each, named by its first card's household.

    `first` is the number of the first card in the order of print.
    """
    pieces = setting.pieces
    sheets = tuple(in_order(imposition, [piece.household for piece in pieces]))
    corners = tuple(place_of(imposition, place) for place in range(imposition.up))
    made = []
    for at, cards in enumerate(sheets):
        lines = [
            replace(line, x=round(line.x + x, 3), y=round(line.y + y, 3))
            for card, (x, y) in zip(cards, corners, strict=True)
            if card is not None
            for line in pieces[card].lines
        ]
        sheet = len(sheets) - at if imposition.reverse else at + 1
        numbers = dict.fromkeys(first + card for card in cards if card is not None)
        named = f"Sheet {sheet} of {len(sheets)}: {', '.join(map(str, numbers))}"
        why = "; ".join(pieces[card].why for card in cards if card is not None and pieces[card].why)
        household = pieces[cards[0] or 0].household
        made.append(SetPiece(household, "", 0, (*lines, _foot(imposition, named)), why))
    return replace(setting, pieces=tuple(made))


def _foot(imposition: Imposition, text: str) -> SetLine:
    """The line at the sheet's foot: which it is, and the numbers of its cards by place."""
    x, y = imposition.corner
    return SetLine(text, Role.NAME, 0, x, round(y - OFF - LONG - FOOT, 3), FOOT_SIZE)


def page_households(order: PlateOrder) -> tuple[str | None, ...]:
    """Whose page each is: a sheet goes by its first card."""
    if order.sheets is None:
        return order.households
    sheets = in_order(order.sheets, order.households)
    return tuple(order.households[cards[0] or 0] for cards in sheets)


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
    """Trim and fold marks, as rectangles filled with the plate's ink."""
    drawn = [f"{' '.join(number(part) for part in mark)} re\n" for mark in _marks(imposition)]
    return "".join([*drawn, "f\n"]).encode("ascii")


def _marks(imposition: Imposition) -> Iterator[tuple[float, float, float, float]]:
    """(left, bottom, width, height) of each: cuts from left to right, then from the foot up."""
    left, bottom = imposition.corner
    wide, high = imposition.card
    gutter = imposition.gutter
    right = left + imposition.across * (wide + gutter) - gutter
    top = bottom + imposition.down * (high + gutter) - gutter
    half = THICK / 2
    for x in _cuts(left, wide, gutter, imposition.across):
        yield x - half, bottom - OFF - LONG, THICK, LONG
        yield x - half, top + OFF, THICK, LONG
    for y in _cuts(bottom, high, gutter, imposition.down):
        yield left - OFF - LONG, y - half, LONG, THICK
        yield right + OFF, y - half, LONG, THICK
    for row in range(imposition.down):
        for fold in imposition.folds:
            y = bottom + row * (high + gutter) + fold - half
            for dash in (0.0, DASH + APART):
                yield left - OFF - dash - DASH, y, DASH, THICK
                yield right + OFF + dash, y, DASH, THICK


def _cuts(start: float, side: float, gutter: float, times: int) -> list[float]:
    """Every line that is cut, once."""
    ends = (start + n * (side + gutter) + end for n in range(times) for end in (0.0, side))
    return sorted({round(end, 3) for end in ends})
