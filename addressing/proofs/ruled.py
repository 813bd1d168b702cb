"""Tables with hairlines: a head in small letters, rows that may take several lines."""

from collections.abc import Sequence
from dataclasses import dataclass

from addressing.proofs.flow import Block, Pen
from addressing.proofs.lettering import wrap
from addressing.proofs.look import CAPTION, FAINT, SMALL

PAD = 3.5
GAP = 14.0


@dataclass(frozen=True, slots=True)
class Column:
    """A column: its head, its share of the table's width, and where its words stand."""

    head: str
    share: float
    right: bool = False


def ruled(columns: Sequence[Column], rows: Sequence[Sequence[str]], measure: float) -> list[Block]:
    """The table as blocks, one a row; the head stays with the first row."""
    whole = sum(column.share for column in columns)
    widths = [column.share / whole * measure for column in columns]

    def head(pen: Pen, left: float, top: float) -> None:
        _cells(pen, columns, widths, [(column.head,) for column in columns], (left, top))
        pen.rule(left, top - CAPTION.leading - PAD, measure, FAINT)

    blocks = [Block(CAPTION.leading + PAD, head, keep=True)]
    return blocks + [_row(columns, widths, row) for row in rows]


def _row(columns: Sequence[Column], widths: Sequence[float], row: Sequence[str]) -> Block:
    cells = [
        wrap(words, SMALL, across - GAP) or ("",) for words, across in zip(row, widths, strict=True)
    ]
    height = max(len(lines) for lines in cells) * SMALL.leading + 2 * PAD

    def draw(pen: Pen, left: float, top: float) -> None:
        _cells(pen, columns, widths, cells, (left, top - PAD), plain=True)
        pen.rule(left, top - height, sum(widths))

    return Block(height, draw)


def _cells(
    pen: Pen,
    columns: Sequence[Column],
    widths: Sequence[float],
    cells: Sequence[Sequence[str]],
    corner: tuple[float, float],
    *,
    plain: bool = False,
) -> None:
    """One row of cells with its upper left corner at `corner`."""
    left, top = corner
    style = SMALL if plain else CAPTION
    last = columns[-1]
    for column, across, lines in zip(columns, widths, cells, strict=True):
        inner = across if column is last else across - GAP
        x = left + inner if column.right else left
        for number, line in enumerate(lines):
            y = top - style.size - number * style.leading
            pen.words(x, y, line, style, align="right" if column.right else "left")
        left += across
