"""Cards on sheets, worked out again: which card lies where, which marks stand around them.

Nothing here is shared with the way in which sheets are made: cards are dealt out to piles, one
after the other, and places are counted from the sheet's foot.
"""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace

from addressing.preflight.values import Objection
from addressing.records.pages import SetLine, SetPiece, Setting
from addressing.records.pieces import Role
from addressing.records.plates import PlateOrder
from addressing.records.sheets import ORDERS, Imposition
from addressing.records.shelf import Box

MM = 72 / 25.4
OFF, LONG, DASH, GAP = 3 * MM, 4 * MM, 1.5 * MM, 1 * MM
"""A mark begins so far from all trims and is so long; a fold's is two dashes with a gap."""
THICK = 0.25
FOOT, FOOT_SIZE = 8.0, 6.0
"""Points: the foot line's baseline below the marks, its size."""
CLEAR = 0.002
"""Points: what rounding to a thousandth may take from a distance."""


def trims(at: Imposition) -> tuple[Box, ...]:
    """The trim of each place, counted from the upper left.

    Raises:
        Objection: they overlap, or leave the sheet.
    """
    if at.order not in ORDERS or at.across < 1 or at.down < 1 or at.gutter < 0:
        raise Objection("The order asks for sheets that can't be.")
    rows = []
    for row in range(at.down):  # from the foot up
        y = at.corner[1] + row * (at.card[1] + at.gutter)
        xs = [at.corner[0] + n * (at.card[0] + at.gutter) for n in range(at.across)]
        if at.back:
            xs.reverse()
        rows.append([Box(x, y, *at.card) for x in xs])
    boxes = tuple(box for row in reversed(rows) for box in row)
    sheet = Box(0.0, 0.0, *at.sheet)
    if not all(sheet.holds(box) for box in boxes):
        raise Objection("The order lays cards beyond the sheet.")
    return boxes


def dealt(at: Imposition, households: Sequence[str | None]) -> tuple[tuple[int, ...], ...]:
    """For each sheet the cards on it by place, none where a pile is short.

    Cut and stacked: the cards are dealt to the piles in order, each pile as high as the sheets are
    many; a sheet is what lies at one height of all piles.
    """
    places, cards = at.across * at.down, len(households)
    if tuple(households) == (None,):  # the same for all: wherever there is a place
        return ((0,) * places,)
    left = list(range(cards))
    turned = -1 if at.reverse else 1
    if at.order == "rows":
        rows = [tuple(left[n : n + places]) for n in range(0, cards, places)]
        return tuple(rows[::turned])
    height = (cards + places - 1) // places
    piles = [left[n : n + height] for n in range(0, cards, height)]
    levels = [tuple(pile[level] for pile in piles if level < len(pile)) for level in range(height)]
    return tuple(levels[::turned])


def sheet_setting(setting: Setting, at: Imposition, first: int) -> Setting:
    """What must stand on each sheet: its cards' lines at their places, and the foot line.

    `first` is the number of the first card in the order of print.

    Raises:
        Objection: as `trims`.
    """
    boxes = trims(at)
    sheets = dealt(at, [placed.household for placed in setting.pieces])
    foot_y = round(at.corner[1] - (OFF + LONG + FOOT), 3)
    made = []
    for place, cards in enumerate(sheets):
        lines: list[SetLine] = []
        for card, box in zip(cards, boxes, strict=False):
            for line in setting.pieces[card].lines:
                x, y = round(line.x + box.left, 3), round(line.y + box.bottom, 3)
                lines.append(replace(line, x=x, y=y))
        numbers = ", ".join(str(first + card) for card in dict.fromkeys(cards))
        counted = len(sheets) - place if at.reverse else 1 + place
        foot = f"Sheet {counted} of {len(sheets)}: {numbers}"
        lines.append(SetLine(foot, Role.NAME, 0, at.corner[0], foot_y, FOOT_SIZE))
        made.append(SetPiece(setting.pieces[cards[0]].household, "", 0, tuple(lines)))
    return replace(setting, pieces=tuple(made), room=Box(0.0, 0.0, *at.sheet))


def sheet_order(order: PlateOrder, at: Imposition) -> PlateOrder:
    """The order as pages go: a page is a sheet and goes by its first card."""
    sheets = dealt(at, order.households)
    return replace(
        order, trim=at.sheet, households=tuple(order.households[cards[0]] for cards in sheets)
    )


def card_order_faults(order: PlateOrder, setting: Setting) -> Iterator[str]:
    """Each card once, those that were set, each with its room within its trim."""
    for household, times in Counter(order.households).items():
        if times > 1:
            yield f"The order has household {household} {times} times."
    if tuple(placed.household for placed in setting.pieces) != order.households:
        yield "The households of the order aren't those that were set, in the same order."
    if not Box(0.0, 0.0, *order.trim).holds(setting.room):
        yield "The room for ink reaches beyond the card."
    if order.sheets is not None and order.trim != order.sheets.card:
        yield "The sheets were ordered for cards of another size."


def marks_of(at: Imposition) -> tuple[Box, ...]:
    """The marks that must stand on every sheet, in order; each is clear of every trim.

    Raises:
        Objection: one would stand on a card or beyond the sheet.
    """
    boxes = trims(at)
    first, last = min(box.left for box in boxes), max(box.right for box in boxes)
    foot, head = min(box.bottom for box in boxes), max(box.top for box in boxes)
    made = []
    for x in sorted({round(side, 3) for box in boxes for side in (box.left, box.right)}):
        made += [_post(x, foot - OFF - LONG), _post(x, head + OFF)]
    for y in sorted({round(side, 3) for box in boxes for side in (box.bottom, box.top)}):
        made += [_bar(first - OFF - LONG, y, LONG), _bar(last + OFF, y, LONG)]
    for bottom in sorted({box.bottom for box in boxes}):
        for fold in at.folds:
            y = bottom + fold
            made += [_bar(first - OFF - DASH, y, DASH), _bar(last + OFF, y, DASH)]
            out = OFF + DASH + GAP
            made += [_bar(first - out - DASH, y, DASH), _bar(last + out, y, DASH)]
    sheet = Box(0.0, 0.0, *at.sheet)
    for mark in made:
        if not sheet.holds(mark) or any(_touch(mark, box) for box in boxes):
            raise Objection("The order has marks on a card or beyond the sheet.")
    return tuple(made)


def _post(x: float, y: float) -> Box:
    return Box(x - THICK / 2, y, THICK, LONG)


def _bar(x: float, y: float, length: float) -> Box:
    return Box(x, y - THICK / 2, length, THICK)


def _touch(one: Box, other: Box) -> bool:
    return (
        one.left < other.right - CLEAR
        and other.left < one.right - CLEAR
        and one.bottom < other.top - CLEAR
        and other.bottom < one.top - CLEAR
    )


def marks_drawn(marks: tuple[Box, ...]) -> bytes:
    """The steps that draw the marks, as every sheet must begin behind its ink."""
    rows = b"".join(
        b"%b %b %b %b re\n" % tuple(map(_spelled, (box.left, box.bottom, box.width, box.height)))
        for box in marks
    )
    return rows + b"f\n"


def _spelled(value: float) -> bytes:
    """A number in its one spelling: three decimals at most, no idle noughts."""
    thousandths = round(value * 1000)
    whole, rest = divmod(abs(thousandths), 1000)
    sign = b"-" if thousandths < 0 else b""
    return sign + (b"%d.%03d" % (whole, rest)).rstrip(b"0").rstrip(b".")
