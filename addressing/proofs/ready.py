"""The part of the proof with every household that will be printed."""

from collections import Counter
from dataclasses import dataclass

from addressing.proofs.entries import KIND, Entry, Shown, draw_name, entries, section
from addressing.proofs.envelope import Spot, draw_envelope, paint_of, scale_for
from addressing.proofs.flow import Block, Pen, Sheet, gap
from addressing.proofs.look import NAME
from addressing.proofs.notices import Notice, notice_blocks, split_by_height
from addressing.proofs.words import kind_name
from addressing.records.pieces import CARDS, household_of
from addressing.records.proofs import ProofJob, ProofSet

GUTTER = 18.0
TALLEST = 146.0
"""Most height that an envelope gets, points: three rows a sheet."""
CAPTION_ROOM = 17.0
NOTHING = "no envelope"
BETWEEN = 18.0


@dataclass(frozen=True, slots=True)
class Grid:
    """Columns, `across` wide; `scale` is the same for every piece, so sizes compare."""

    columns: int
    across: float
    scale: float
    depth: float


def ready_blocks(job: ProofJob, sets: tuple[ProofSet, ...], sheet: Sheet) -> list[Block]:
    """Each household with its pieces side by side; with one piece each, households fill a row.

    Envelopes stand two in a row, cards alone three.
    """
    personal = tuple(shown for shown in sets if not shown.static)
    columns = 3 if personal and all(each.setting.kind in CARDS for each in personal) else 2
    across = (sheet.measure - (columns - 1) * GUTTER) / columns
    grid = Grid(columns, across, scale_for(personal, across, TALLEST), sheet.depth)
    single = _most_pieces(personal) <= 1
    room = across if single else sheet.measure
    ready = entries(job, sets, held=False, room=room)
    if not ready:
        return []
    blocks = section(
        "To be printed",
        "Read every line: names, titles, street, town and code. Write changes beside them; the "
        "number before a name is that household's own.",
        sheet.measure,
    )
    step = columns if single else 1
    for start in range(0, len(ready), step):
        blocks += _row(ready[start : start + step], grid)
    return blocks


def _most_pieces(personal: tuple[ProofSet, ...]) -> int:
    """How many pieces the household has that has most."""
    pieces = Counter(
        household_of(page.household)
        for shown in personal
        for page in shown.pages
        if page.household is not None
    )
    return max(pieces.values(), default=0)


def _row(row: list[Entry], grid: Grid) -> list[Block]:
    """One household, or several with a piece each, as a block; notices that don't fit follow."""
    blocks: list[Block] = []
    late: list[Block] = []
    for number, entry in enumerate(row):
        indent = number * (grid.across + GUTTER)
        across = [
            entry.shown[start : start + grid.columns]
            for start in range(0, len(entry.shown), grid.columns)
        ]
        pictures = sum(_height(pieces, grid) for pieces in across)
        first, rest = split_by_height(entry.notices, grid.depth - pictures - NAME.leading - 80)
        blocks.append(_entry_block(entry, across, first, grid))
        late += notice_blocks(rest, indent=indent)
    return [_side_by_side(blocks, grid.across + GUTTER), *late, gap(BETWEEN)]


def _side_by_side(blocks: list[Block], step: float) -> Block:
    def draw(pen: Pen, left: float, top: float) -> None:
        for number, block in enumerate(blocks):
            block.draw(pen, left + number * step, top)

    return Block(max(block.height for block in blocks), draw)


def _height(pieces: tuple[Shown, ...], grid: Grid) -> float:
    tallest = max(shown.setting.layout.height for shown, _ in pieces)
    return tallest * grid.scale + CAPTION_ROOM


def _entry_block(
    entry: Entry, rows: list[tuple[Shown, ...]], first: tuple[Notice, ...], grid: Grid
) -> Block:
    """A household's pieces in rows, a caption under each, its notices below."""
    heights = [_height(row, grid) for row in rows]

    def draw(pen: Pen, left: float, top: float) -> None:
        below = top
        for number, (row, height) in enumerate(zip(rows, heights, strict=True)):
            below -= height
            _draw_row(pen, entry if number == 0 else None, row, (left, below), grid)
        if not rows:
            draw_name(pen, entry, (left, top - NAME.size), (grid.across,), NOTHING)
            below -= CAPTION_ROOM
        below -= 3
        for one in first:
            one.draw(pen, left, below)
            below -= one.height

    pictures = sum(heights) or CAPTION_ROOM
    return Block(pictures + 3 + sum(one.height for one in first), draw)


def _draw_row(
    pen: Pen,
    entry: Entry | None,
    row: tuple[Shown, ...],
    corner: tuple[float, float],
    grid: Grid,
) -> None:
    """Pieces that stand on a common line, captions under them."""
    left, bottom = corner
    line = bottom + CAPTION_ROOM
    for shown, page in row:
        layout = shown.setting.layout
        draw_envelope(pen, Spot(left, line, grid.scale), shown, page, paint_of(shown))
        across = layout.width * grid.scale
        kind = kind_name(shown.setting.kind)
        baseline = line - NAME.leading
        if entry is not None:
            draw_name(pen, entry, (left, baseline), (across, grid.across), kind)
            entry = None
        else:
            pen.words(left + across, baseline, kind, KIND, align="right")
        left += grid.across + GUTTER
