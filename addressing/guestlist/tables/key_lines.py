"""What the lines of a key say, cells put together: "Yellow | not invited" on a sheet of keys."""

from collections.abc import Iterator

from addressing.guestlist.grid import Cell, Grid, Row
from addressing.records.guests import Cited

_LONGEST = 30
"""Letters of what is explained, where the words for it stand in the next cell."""
_TWO = 2
_SIGNS = " =:–—-\n"


def key_lines(grid: Grid, *, alone: bool) -> Iterator[Cited]:
    """Each cell of a sheet that may explain something, in the sheet's order.

    On a sheet of keys `alone` a row of two cells is one line: what is explained, and how.
    """
    for row in grid.rows:
        joined = _joined(row) if alone else None
        if joined is not None:
            yield joined
        else:
            yield from (Cited(cell.text, (cell.where,)) for cell in row.filled)


def swatches(grid: Grid, *, alone: bool) -> Iterator[tuple[str, Cited]]:
    """Colours (RGB) that stand beside words or under them, with the words.

    Beside a list (`alone` is false) only a cell that holds nothing but its colour is a swatch, and
    on a sheet of keys no heading is one: its cells have one colour.
    """
    for place, row in enumerate(grid.rows):
        if alone and not place and _is_heading(row):
            continue
        for index, colour in row.colours:
            said = _beside(row, index, alone=alone)
            if said is not None:
                yield colour, Cited(said.text, (said.where,))
                break


def _joined(row: Row) -> Cited | None:
    cells = row.filled
    if len(cells) != _TWO or len(cells[0].text) > _LONGEST:
        return None
    what, said = (cell.text.strip(_SIGNS) for cell in cells)
    text = f"{what} = {said}"
    return Cited(text, tuple(cell.where for cell in cells))


def _is_heading(row: Row) -> bool:
    colours = dict(row.colours)
    told = {colours.get(index) for index, _ in row.texts}
    return len(row.filled) > 1 and len(told) == 1


def _beside(row: Row, index: int, *, alone: bool) -> Cell | None:
    """The words that a coloured cell goes with: the next cell's where it has none of its own."""
    own = row.cell(index)
    if own is None or not own.filled:
        return cell if (cell := row.cell(index + 1)) is not None and cell.filled else None
    return own if alone else None
