"""Cards on sheets, worked out again: which card lies where, which marks stand around them.

Nothing here is shared with the way in which sheets are made: cards are dealt out to piles, one
after the other, and places are counted from the sheet's foot.
"""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import combinations

from addressing.preflight.values import Objection
from addressing.records.pages import Setting
from addressing.records.pieces import Role
from addressing.records.plates import PlateOrder
from addressing.records.set_lines import SetLine, SetPiece
from addressing.records.set_pieces import households_of
from addressing.records.sheets import ORDERS, TURNS, Block, Imposition
from addressing.records.shelf import Box

MM = 72 / 25.4
OFF, LONG, DASH, GAP = 3 * MM, 4 * MM, 1.5 * MM, 1 * MM
"""A mark begins so far from all trims and is so long; a fold's is two dashes with a gap."""
THICK = 0.25
FOOT, FOOT_SIZE = 8.0, 9.0
"""Points: the foot line's baseline below the marks, its size."""
CLEAR = 0.002
"""Points: what rounding to a thousandth may take from a distance."""


@dataclass(frozen=True, slots=True)
class Lying:
    """A card on a page: of which of the plate's orders, its number there (from 0), its trim.

    `over` is whether it lies head to foot.
    """

    part: int
    card: int
    box: Box
    over: bool


@dataclass(frozen=True, slots=True)
class Side:
    """What must stand on a page: its cards by part and place, and the line at its foot."""

    cards: tuple[Lying, ...]
    foot: SetLine


def _trims(block: Block) -> list[list[Box]]:
    """The trims of a block in rows, from the foot up."""
    return [
        [
            Box(
                block.corner[0] + n * (block.card[0] + block.gutter),
                block.corner[1] + row * (block.card[1] + block.gutter),
                *block.card,
            )
            for n in range(block.across)
        ]
        for row in range(block.down)
    ]


def _blocks(at: Imposition) -> tuple[Block, ...]:
    """All blocks of a sheet, one of them the order's own.

    Raises:
        Objection: the order's own isn't among them.
    """
    own = Block(at.card, at.across, at.down, at.gutter, at.corner, at.folds)
    if at.blocks and own not in at.blocks:
        raise Objection("The order lays cards where its sheets have none.")
    return at.blocks or (own,)


def trims(at: Imposition) -> tuple[Box, ...]:
    """The trim of each place, counted from the upper left; of backs, by the front that they meet.

    Raises:
        Objection: they overlap, or leave the sheet, or backs don't meet their fronts.
    """
    if at.order not in ORDERS or at.across < 1 or at.down < 1 or at.gutter < 0:
        raise Objection("The order asks for sheets that can't be.")
    if at.turn and at.turn not in TURNS:
        raise Objection("The order turns sheets as nobody can.")
    own = Block(at.card, at.across, at.down, at.gutter, at.corner, at.folds)
    rows = _trims(own)
    if at.behind:
        rows = _meeting(at, rows)
    elif at.back:
        rows = [row[::-1] for row in rows]
    boxes = tuple(box for row in reversed(rows) for box in row)
    sheet = Box(0.0, 0.0, *at.sheet)
    if not all(sheet.holds(box) for box in boxes):
        raise Objection("The order lays cards beyond the sheet.")
    return boxes


def _meeting(at: Imposition, own: list[list[Box]]) -> list[list[Box]]:
    """The backs' trims, each where its front comes to lie when the sheet is turned over.

    Raises:
        Objection: it isn't one of the backs' own.
    """
    fronts = next((block for block in at.blocks if block.corner != at.corner), None)
    if fronts is None:
        raise Objection("The order has backs without fronts.")
    wide, high = at.sheet
    rows = []
    for row in _trims(fronts):
        met = []
        for box in row:
            left, bottom = wide - box.left - box.width, box.bottom
            if at.turn == "work-and-tumble":
                left, bottom = box.left, high - box.bottom - box.height
            near = (each for its in own for each in its if _same(each, left, bottom, box))
            found = next(near, None)
            if found is None:
                raise Objection("The order has backs that don't lie behind their fronts.")
            met.append(found)
        rows.append(met)
    return rows


def _same(box: Box, left: float, bottom: float, front: Box) -> bool:
    apart = (box.left - left, box.bottom - bottom, box.width - front.width)
    return all(abs(one) <= CLEAR for one in (*apart, box.height - front.height))


Dealt = tuple[tuple[int | None, ...], ...]


def dealt(at: Imposition, households: Sequence[str | None]) -> Dealt:
    """For each page the card at each place, None where a pile is short.

    Cut and stacked: the cards are dealt to the piles in order, each pile as high as the sheets are
    many; a sheet is what lies at one height of all piles. Where sheets are turned over, the piles
    of their second side lie face down and are filled from the bottom up.
    """
    places = at.across * at.down
    many = places * (2 if at.turn else 1)
    if tuple(households) == (None,):  # the same for all: wherever there is a place
        return ((0,) * places,) * (at.least * many // places or 1)
    cards: list[int | None] = list(range(len(households)))
    height = max(at.least, (len(cards) + many - 1) // many)
    cards += [None] * (height * many - len(cards))
    if at.order == "rows":
        sheets = [cards[n : n + many] for n in range(0, len(cards), many)]
    else:
        piles = [cards[n : n + height] for n in range(0, len(cards), height)]
        piles = [*piles[:places], *(pile[::-1] for pile in piles[places:])]
        sheets = [list(level) for level in zip(*piles, strict=True)]
    pages: list[tuple[int | None, ...]] = []
    for sheet in sheets[::-1] if at.reverse else sheets:
        first, second = tuple(sheet[:places]), tuple(sheet[places:])
        if not at.turn:
            pages.append(first)
        else:  # a front on the one side has its back on the other
            pages += (second, first) if at.behind else (first, second)
    return tuple(pages)


def sides(orders: Sequence[PlateOrder]) -> tuple[Side, ...]:
    """What must stand on each page of a plate of sheets; `orders` are those of its kinds.

    Raises:
        Objection: as `trims`; the kinds don't have the same sheets.
    """
    ats = [order.sheets for order in orders if order.sheets is not None]
    if len(ats) != len(orders) or len({(at.sheet, _blocks(at), at.turn) for at in ats}) > 1:
        raise Objection("The kinds on a plate aren't on the same sheets.")
    missing = ats[0].turn and len(ats) != len(_blocks(ats[0]))  # a front needs its back
    if missing or len({at.corner for at in ats}) != len(ats):
        raise Objection("The kinds on a plate aren't those that its sheets have room for.")
    pages = [dealt(at, order.households) for at, order in zip(ats, orders, strict=True)]
    if len({len(its) for its in pages}) > 1:
        raise Objection("The kinds on a plate aren't on as many sheets.")
    boxes = [trims(at) for at in ats]
    made = []
    for page, cards in enumerate(zip(*pages, strict=True)):
        lying = tuple(
            Lying(part, card, box, at.behind and at.turn == "work-and-tumble")
            for part, (its, at) in enumerate(zip(cards, ats, strict=True))
            for card, box in zip(its, boxes[part], strict=True)
            if card is not None
        )
        made.append(Side(lying, _foot(orders, ats[0], lying, (page, len(pages[0])))))
    return tuple(made)


def _foot(
    orders: Sequence[PlateOrder], at: Imposition, cards: Sequence[Lying], page: tuple[int, int]
) -> SetLine:
    """The line at the foot: which sheet and side, whose numbers."""
    number, pages = page
    name, count = number, pages
    side = ", both sides" if at.turn else ""
    if at.turn and pages > 1:
        name, count, side = number // 2, pages // 2, f", side {1 + number % 2}"
    counted = count - name if at.reverse else 1 + name
    told = []
    for part, order in enumerate(orders if not at.turn else orders[:1]):
        own = dict.fromkeys(order.first + each.card for each in cards if each.part == part)
        if own and (not part or order.households != (None,)):  # what is the same has no numbers
            kind = f"{order.kind} " if len(orders) > 1 and not at.turn else ""
            told.append(kind + ", ".join(str(one) for one in own))
    blocks = _blocks(at)
    left = min(block.corner[0] for block in blocks)
    below = min(block.corner[1] for block in blocks)
    numbers = f": prints {'; '.join(told)}" if told else ""
    text = f"Sheet {counted} of {count}{side}{numbers}"
    return SetLine(text, Role.NAME, 0, left, round(below - (OFF + LONG + FOOT), 3), FOOT_SIZE)


def sheet_setting(order: PlateOrder, pages: Sequence[Side], settings: Sequence[Setting]) -> Setting:
    """The pages as pieces: the lines of their cards, and the foot line last.

    The lines stand as on their cards (`Side` says where those lie); only words, sizes and inks
    count here.
    """
    at = order.sheets
    if at is None:
        return settings[0]
    made = []
    for page in pages:
        lines = [
            line for each in page.cards for line in settings[each.part].pieces[each.card].lines
        ]
        first = next((each.card for each in page.cards if not each.part), 0)
        household = order.households[first]
        made.append(SetPiece(household, "", 0, (*lines, page.foot)))
    return replace(settings[0], pieces=tuple(made), room=Box(0.0, 0.0, *at.sheet))


def sheet_order(order: PlateOrder, at: Imposition, pages: Sequence[Side]) -> PlateOrder:
    """The order as pages go: a page is a sheet, or a side of one, and goes by its first card."""
    firsts = (next((c.card for c in page.cards if not c.part), 0) for page in pages)
    return replace(
        order, trim=at.sheet, households=tuple(order.households[first] for first in firsts)
    )


def card_order_faults(order: PlateOrder, setting: Setting) -> Iterator[str]:
    """Each card once, those that were set, each with its room within its trim."""
    for household, times in Counter(order.households).items():
        if times > 1:
            yield f"The order has household {household} {times} times."
    if households_of(setting.pieces) != order.households:
        yield "The households of the order aren't those that were set, in the same order."
    if not Box(0.0, 0.0, *order.trim).holds(setting.room):
        yield "The room for ink reaches beyond the card."
    if order.sheets is not None and order.trim != order.sheets.card:
        yield "The sheets were ordered for cards of another size."


def marks_of(at: Imposition) -> tuple[Box, ...]:
    """The marks that must stand on every sheet, in order; each is clear of every trim.

    Raises:
        Objection: one would stand on a card or beyond the sheet, or cards overlap.
    """
    blocks = _blocks(at)
    boxes = [box for block in blocks for row in _trims(block) for box in row]
    sheet = Box(0.0, 0.0, *at.sheet)
    if any(_touch(one, two) for one, two in combinations(boxes, 2)):
        raise Objection("The order lays cards over each other.")
    made = [mark for block in blocks for mark in _marks(block)]
    for mark in made:
        if not sheet.holds(mark) or any(_touch(mark, box) for box in boxes):
            raise Objection("The order has marks on a card or beyond the sheet.")
    return tuple(made)


def _marks(block: Block) -> Iterator[Box]:
    """The marks around a block."""
    boxes = [box for row in _trims(block) for box in row]
    first, last = min(box.left for box in boxes), max(box.right for box in boxes)
    foot, head = min(box.bottom for box in boxes), max(box.top for box in boxes)
    for x in sorted({round(side, 3) for box in boxes for side in (box.left, box.right)}):
        yield from (_post(x, foot - OFF - LONG), _post(x, head + OFF))
    for y in sorted({round(side, 3) for box in boxes for side in (box.bottom, box.top)}):
        yield from (_bar(first - OFF - LONG, y, LONG), _bar(last + OFF, y, LONG))
    for bottom in sorted({box.bottom for box in boxes}):
        for fold in block.folds:
            y = bottom + fold
            yield from (_bar(first - OFF - DASH, y, DASH), _bar(last + OFF, y, DASH))
            out = OFF + DASH + GAP
            yield from (_bar(first - out - DASH, y, DASH), _bar(last + out, y, DASH))


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
