"""How sheets of cards are printed, turned over, cut and piled, in the trade's words.

Common practice, no source; that the piles come out in order is proved by cutting and stacking in
`tests/plates`.
"""

from collections.abc import Iterator

from addressing.proofs.words import kind_name, many, size_words
from addressing.records.plates import PlateFile
from addressing.records.proofs import PlateRun
from addressing.records.sheets import Imposition
from addressing.records.shelf import Device

_TURNED = {
    "work-and-turn": "from left to right, so that the head stays at the head",
    "work-and-tumble": "head to foot",
}


def sheets_of(run: PlateRun, country: str) -> tuple[str, ...]:
    """For each set of sheets what to load, how to turn it, how to cut and to pile it."""
    return tuple(
        line
        for kinds, at in run.sheets
        if any(one.kind in kinds for one in run.files)
        for line in _set(kinds, at, run, country)
    )


def first_sheet(path: str, run: PlateRun) -> str:
    """Which sheet of a file is printed first; "" where it has none."""
    one = next(one for one in run.files if one.path == path)
    for kinds, at in run.sheets:
        if one.kind in kinds:
            return f"sheet {_sheets(one, at) if at.reverse else 1}"
    return ""


def _sheets(one: PlateFile, at: Imposition) -> int:
    return one.pages // 2 if at.turn else one.pages


def _set(kinds: tuple[str, ...], at: Imposition, run: PlateRun, country: str) -> Iterator[str]:
    own = [one for one in run.files if one.kind in kinds]
    named = any(one.households for one in own)
    files = {one.path: _sheets(one, at) for one in own if one.ink == own[0].ink}
    sheets = many(sum(files.values()), "sheet")
    apart = f" in {len(files)} files, each a pile of its own" if len(files) > 1 else ""
    numbered = "; the foot of each says its number and its cards'" if named else ""
    yield (
        f"{kind_name(' and '.join(kinds))}: {sheets}{apart}, {size_words(*at.sheet, country)};"
        f" choose that page, at 100 %{numbered}."
    )
    if isinstance(run.press, Device):
        yield from _fed(run.press, at)
    if at.turn:
        yield _turned(at)
    yield _cut(at, named=named)
    if named:
        yield _piled(at)
    if any(block.folds for block in at.together):
        yield "Fold at the dashes; score heavy paper first."


def _fed(device: Device, at: Imposition) -> Iterator[str]:
    yield f"Load the sheets face {device.feed.face} (the face is the side that is printed)."
    if at.reverse:
        yield (
            "They come out face up, so the last sheet is printed first: the pile then lies in"
            " order, sheet 1 on top."
        )


def _turned(at: Imposition) -> str:
    """How the second side is printed, by hand or by a device that turns the sheet itself."""
    width, height = at.sheet
    edge = "long" if (at.turn == "work-and-turn") == (height >= width) else "short"
    return (
        f"Front and back: print the odd pages (side 1), let them dry, turn the pile over"
        f" {_TURNED[at.turn]}, and print the even pages (side 2), the"
        f" {'last' if at.reverse else 'first'} sheet going in first. A device that turns sheets"
        f" itself: both sides, over the {edge} edge. Try one sheet, and hold it to the light."
    )


def _cut(at: Imposition, *, named: bool) -> str:
    many_cuts = len(at.together) > 1 or at.across * at.down > 1
    strip = "; between two cards cut twice, the strip falls away" if at.gutter and many_cuts else ""
    if named and at.order == "rows":
        return f"Cut sheet by sheet, by the marks: all cuts one way, then the other{strip}."
    side = ", side 1 up" if at.turn else ""
    return (
        f"Cut the pile with sheet 1 on top{side}, by the marks: all cuts one way, then the"
        f" other{strip}."
    )


def _piled(at: Imposition) -> str:
    if at.order == "rows":
        return "Gather the cards of each sheet from left to right, from the top down."
    if at.turn:
        return (
            "Each place is a pile in order. Turn over the piles that show their backs, then lay all"
            " on each other by their numbers, the lowest on top."
        )
    return (
        "Each place is a pile in order. Lay the piles on each other by their numbers, the lowest on"
        " top: the foot of sheet 1 names the first card of each."
    )
