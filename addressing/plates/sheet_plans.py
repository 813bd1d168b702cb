"""How cards lie on a sheet: as many as there is room for.

Alone, in blocks of several kinds, or as fronts and backs that one plate prints when the sheet is
turned over.
"""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from math import floor

from addressing.faults import Exit, Fault
from addressing.plates.imposing import LONG, OFF
from addressing.records.sheets import LEAST, TURNS, Block, Imposition, SheetChoice
from addressing.units import mm_to_pt, pt_to_mm
from addressing.where import Where

APART = 2 * (OFF + LONG)
"""Points between two blocks on a sheet: each has marks of its own."""

Size = tuple[float, float]


def plan_sheets(
    choice: SheetChoice, sheet: Size, cards: Mapping[str, Size]
) -> dict[str, Imposition]:
    """How the cards of all kinds of a choice lie, by kind; `cards` are their sizes in points.

    Raises:
        Fault: exit 3: `sheet-too-small`, as `plan_sheet`; `sides-differ`: front and back aren't of
            one size.
    """
    sheet = (sheet[1], sheet[0]) if choice.turned else sheet
    if choice.behind is not None:
        return _turned(choice, sheet, (cards[choice.piece], cards[choice.behind]))
    if not choice.beside:
        return {choice.piece: plan_sheet(replace(choice, turned=False), sheet, cards[choice.piece])}
    return _beside(choice, sheet, cards)


def _turned(choice: SheetChoice, sheet: Size, cards: tuple[Size, Size]) -> dict[str, Imposition]:
    """Fronts in one half, backs in the other, each as far from the middle of the sheet."""
    card, other = cards
    if any(abs(one - two) > mm_to_pt(0.1) for one, two in zip(card, other, strict=True)):
        raise _fault(
            choice,
            "sides-differ",
            f"{choice.piece} is {_size(card)} and {choice.behind}, on its back, {_size(other)}.",
            "Give both sides layouts of one size.",
        )
    margin, gutter = mm_to_pt(choice.around), mm_to_pt(choice.gutter)
    across_middle = int(choice.turn == "work-and-tumble")
    room = [side - 2 * margin for side in sheet]
    room[across_middle] = sheet[across_middle] / 2 - margin - APART / 2
    try:
        across, down = _counted(choice, sheet, card, (room[0], room[1]))
    except Fault as fault:
        raise _no_half(choice, sheet, card, fault) from fault
    block = _extent(card, across, down, gutter)
    corner = [(side - its) / 2 for side, its in zip(sheet, block, strict=True)]
    back = list(corner)
    half, its = sheet[across_middle] / 2, block[across_middle]
    corner[across_middle] = half + APART / 2 if across_middle else half - APART / 2 - its
    corner = [round(edge, 3) for edge in corner]
    back = [round(edge, 3) for edge in back]
    back[across_middle] = round(sheet[across_middle] - corner[across_middle] - its, 3)
    folds = _folds(choice, card)
    made = [Block(card, across, down, gutter, (x, y), folds) for x, y in (corner, back)]
    return {
        kind: _imposed(choice, sheet, made, number, turn=choice.turn, behind=bool(number))
        for number, kind in enumerate(choice.kinds)
    }


def _no_half(choice: SheetChoice, sheet: Size, card: Size, fault: Fault) -> Fault:
    """The refusal where a half of the sheet hasn't room enough, with what would have."""
    half = "upper" if choice.turn == "work-and-tumble" else "left"
    text = (
        f"Fronts lie in the {half} half of the sheet and backs in the other, so that one plate "
        f"prints both, and a half of {choice.on} ({_size(sheet)}) hasn't room for "
        f"{'so many cards' if choice.across or choice.down else 'a card'} of {_size(card)}."
    )
    fits = []
    for turned in (choice.turned, not choice.turned):
        for turn in TURNS:
            page = sheet if turned == choice.turned else sheet[::-1]
            other = replace(choice, turned=turned, turn=turn, across=None, down=None)
            if _has_halves(other, page, card):
                lying = f"turned = {str(turned).lower()}"
                fits.append(f'{lying} with turn = "{turn}"')
    mend = f"There is room with {', or '.join(fits)}. " if fits else ""
    asked = "Leave out across and down, or choose" if choice.across or choice.down else "Choose"
    mend += f"{asked} a larger sheet (on), or smaller margins."
    return Fault(fault.exit, fault.code, text, mend, fault.where)


def _has_halves(choice: SheetChoice, sheet: Size, card: Size) -> bool:
    """Whether a card has room in a half of the sheet."""
    margin, middle = mm_to_pt(choice.around), int(choice.turn == "work-and-tumble")
    room = [side - 2 * margin for side in sheet]
    room[middle] = sheet[middle] / 2 - margin - APART / 2
    return all(side + 0.001 >= cut for side, cut in zip(room, card, strict=True))


def _beside(choice: SheetChoice, sheet: Size, cards: Mapping[str, Size]) -> dict[str, Imposition]:
    """Each kind in rows of its own, one below the other, in the middle of the sheet."""
    margin, gutter = mm_to_pt(choice.around), mm_to_pt(choice.gutter)
    wide, high = (side - 2 * margin for side in sheet)
    counts: dict[str, tuple[int, int]] = {}
    for other in choice.beside:
        own = replace(choice, piece=other.piece, across=other.across, down=other.down)
        counts[other.piece] = _counted(own, sheet, cards[other.piece], (wide, high))
        high -= _extent(cards[other.piece], *counts[other.piece], gutter)[1] + APART
    counts[choice.piece] = _counted(choice, sheet, cards[choice.piece], (wide, high))
    extents = [_extent(cards[kind], *counts[kind], gutter) for kind in choice.kinds]
    top = (sheet[1] + sum(each[1] for each in extents) + APART * (len(extents) - 1)) / 2
    made = []
    for kind, (its_width, its_height) in zip(choice.kinds, extents, strict=True):
        corner = round((sheet[0] - its_width) / 2, 3), round(top - its_height, 3)
        folds = _folds(choice, cards[kind]) if kind == choice.piece else ()
        made.append(Block(cards[kind], *counts[kind], gutter, corner, folds))
        top -= its_height + APART
    return {kind: _imposed(choice, sheet, made, number) for number, kind in enumerate(choice.kinds)}


def _imposed(
    choice: SheetChoice,
    sheet: Size,
    blocks: Sequence[Block],
    number: int,
    *,
    turn: str = "",
    behind: bool = False,
) -> Imposition:
    own = blocks[number]
    return Imposition(
        sheet, own.card, own.across, own.down, own.gutter, own.corner, choice.order, own.folds,
        turn=turn, behind=behind, blocks=tuple(blocks),
    )  # fmt: skip


def _extent(card: Size, across: int, down: int, gutter: float) -> Size:
    """How wide and high so many trims are together."""
    return across * (card[0] + gutter) - gutter, down * (card[1] + gutter) - gutter


def _counted(choice: SheetChoice, sheet: Size, card: Size, room: Size) -> tuple[int, int]:
    """How many across and down: as asked, or as many as there is room for.

    Raises:
        Fault: exit 3, `sheet-too-small`.
    """
    gutter = mm_to_pt(choice.gutter)
    most = [
        max(0, int((side + gutter + 0.001) // (cut + gutter)))
        for side, cut in zip(room, card, strict=True)
    ]
    across, down = choice.across or most[0], choice.down or most[1]
    if not 0 < across <= most[0] or not 0 < down <= most[1]:
        wanted = _extent(card, max(across, 1), max(down, 1), gutter)
        short = max(its - side for its, side in zip(wanted, room, strict=True))
        raise _too_small(choice, sheet, card, most, (max(across, 1), max(down, 1), short))
    return across, down


def _folds(choice: SheetChoice, card: Size) -> tuple[float, ...]:
    """Folds in points.

    Raises:
        Fault: exit 3, `fold-beyond-card`.
    """
    folds = tuple(round(mm_to_pt(fold), 3) for fold in choice.folds)
    if any(fold >= card[1] for fold in folds):
        raise _fault(
            choice,
            "fold-beyond-card",
            f"A fold of {choice.piece} lies beyond the card, which is {pt_to_mm(card[1]):g} mm "
            "high.",
            "Measure folds from the card's lower edge, in millimetres.",
        )
    return folds


def plan_sheet(choice: SheetChoice, sheet: Size, card: Size) -> Imposition:
    """How cards of one kind lie on a sheet (both width and height in points), in its middle.

    Raises:
        Fault: exit 3: `sheet-too-small`: so many, or even one, have no room; `fold-beyond-card`.
    """
    wide, high = (sheet[1], sheet[0]) if choice.turned else sheet
    gutter, margin = mm_to_pt(choice.gutter), mm_to_pt(choice.around)
    across, down = _counted(choice, (wide, high), card, (wide - 2 * margin, high - 2 * margin))
    block = _extent(card, across, down, gutter)
    corner = round((wide - block[0]) / 2, 3), round((high - block[1]) / 2, 3)
    folds = _folds(choice, card)
    return Imposition(
        (wide, high), card, across, down, gutter, corner, choice.order, folds, choice.back
    )


def _too_small(
    choice: SheetChoice,
    sheet: Size,
    card: Size,
    most: Sequence[int],
    wanted: tuple[int, int, float],
) -> Fault:
    """The refusal, with the widest margin by which what is `wanted` (and so much short) fits."""
    across, down, short = wanted
    asked = f"{choice.across or 'any'} across and {choice.down or 'any'} down"
    up = most[0] * most[1]
    room = f"{most[0]} across and {most[1]} down ({up} in all)" if up else "none"
    return _fault(
        choice,
        "sheet-too-small",
        f"On {choice.on} ({_size(sheet)}) with a margin of {choice.around:g} mm there is room for "
        f"{room} of {_size(card)}; asked for: {asked}.",
        _widest_margin(choice, across * down, short)
        + "Choose a larger sheet (on), turn it (turned = true), or take fewer.",
    )


def _widest_margin(choice: SheetChoice, up: int, short: float) -> str:
    """With which margin so many have room; "" where none does or other kinds lie beside."""
    margin = floor((choice.around - pt_to_mm(short) / 2) * 10 + 0.001) / 10
    if choice.beside or choice.behind:
        return ""
    if margin < LEAST:
        tell = f"It takes a margin of {LEAST:g} mm at least, for marks to cut by. "
        return "" if choice.around <= LEAST else tell
    number = "One has" if up == 1 else f"{up} have"
    return f"{number} room with margin_mm = {margin:g} or less. "


def _fault(choice: SheetChoice, code: str, text: str, mend: str) -> Fault:
    return Fault(
        Exit.INPUT, code, text, mend, Where("docket", None, f"docket:sheet.{choice.piece}")
    )


def _size(size: Size) -> str:
    return " × ".join(f"{pt_to_mm(side):.5g}" for side in size) + " mm"
